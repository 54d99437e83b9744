// The light that reaches a receiver, path by path: what the field sums up and what obstacles may stop.
#pragma once

#include <vector>

#include "scene.hpp"

namespace theca::light {

/// Light from one point that reaches the scene's receiver along one path.
struct Arrival {
  double ppfd;              ///< on the receiver, mol/(m2 s), > 0
  double to_x, to_y, down;  ///< unit vector of the path under water where it ends
  std::size_t point;        ///< of the scene, from which it comes
  double air_x, air_y;      ///< sideways from that point to where the path enters the water
};

/// Appends what comes from one point; the receiver stands at the scene's depth.
void add_arrivals(const Scene& scene, std::size_t point, double x_m, double y_m, std::vector<Arrival>& arrivals);

/// What comes from all points. `arrivals` is emptied first; kept by the caller, it need not grow again at each
/// receiver.
void gather_arrivals(const Scene& scene, double x_m, double y_m, std::vector<Arrival>& arrivals);

/// Photon flux density on the scene's receiver, mol/(m2 s).
double sum_of(const std::vector<Arrival>& arrivals);

}  // namespace theca::light
