// Whether opaque bodies stand in the way of a straight piece of a path, in raw SI; z is up from the water surface.
#pragma once

#include <array>
#include <vector>

#include "arrivals.hpp"
#include "theca/light/shading_bodies.hpp"

namespace theca::light {

using Place = std::array<double, 3>;

class Obstruction {
 public:
  explicit Obstruction(const ShadingBodies& bodies);

  /// True where the piece meets a body. A start that touches one does not count, an end on a level one does.
  bool blocks(const Place& from, const Place& to) const;

  /// True where a path from the scene's luminaires to a receiver at this place meets a body, under water or above it.
  bool stops(const Scene& scene, const Arrival& arrival, double x_m, double y_m) const;

 private:
  struct Level {
    double x, y, z, half_x, half_y;  // half_y = 0: a disc of radius half_x
  };
  struct Rod {
    Place from;
    Place axis;  // unit vector
    double length, radius;
  };
  struct Dome {
    Place centre;
    double radius;
  };
  bool blocks_mirrored(Place from, Place along, double length, const Scene& scene, bool x_mirrors,
                       bool y_mirrors) const;

  std::vector<Level> levels_;
  std::vector<Rod> rods_;
  std::vector<Dome> domes_;
};

}  // namespace theca::light
