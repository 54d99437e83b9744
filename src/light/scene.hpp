// Everything of a light field that does not change from one receiver to the next, in raw SI.
#pragma once

#include <algorithm>
#include <cstddef>
#include <span>
#include <vector>

#include "pane_wall.hpp"
#include "sampler.hpp"
#include "theca/light/field.hpp"

namespace theca::light {

struct EmitterPoint {
  double x_m, y_m, height_m;
  double share;  // of the luminaire's intensity
  std::size_t intensity;
  std::size_t axes;
};

/// Directions of a luminaire's length, width and axis, each along the tank, across it and down.
struct LuminaireAxes {
  double length[3], width[3], axis[3];
};

/// Everything that does not change from one receiver to the next.
struct Scene {
  std::vector<IntensitySampler> intensities;
  std::vector<LuminaireAxes> axes;
  std::vector<EmitterPoint> points;
  WaterOptics optics;
  double length_m, width_m, depth_m;
  Walls walls;
  double wall_reflectance;
  PaneOptics pane;
  bool spherical;
  double facing_x, facing_y, facing_up;  ///< unit normal of a flat receiver
};

/// @throws InvalidInput
Scene make_scene(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const Length& plane_depth,
                 const Receiver& receiver);

/// Photon flux density on the receiver over that on a horizontal plane, for a ray under water whose unit vector goes
/// (to_x, to_y) sideways and `down`.
inline double received(const Scene& scene, double to_x, double to_y, double down) {
  if (scene.spherical) return 1.0 / down;
  return std::max(0.0, scene.facing_up - (scene.facing_x * to_x + scene.facing_y * to_y) / down);
}

/// Intensity that a point sends along a direction in air, of any length.
inline double intensity_toward(const Scene& scene, const EmitterPoint& point, double x, double y, double down) {
  const LuminaireAxes& axes = scene.axes[point.axes];
  const auto along = [&](const double(&of)[3]) { return x * of[0] + y * of[1] + down * of[2]; };
  return scene.intensities[point.intensity].toward(along(axes.length), along(axes.width), along(axes.axis));
}

}  // namespace theca::light
