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
  double cos_heading, sin_heading;
};

/// Everything that does not change from one receiver to the next.
struct Scene {
  std::vector<IntensitySampler> intensities;
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

/// Intensity that a point sends along a ray toward (dx, dy).
inline double intensity_toward(const Scene& scene, const EmitterPoint& point, double tangent, double dx, double dy) {
  return scene.intensities[point.intensity].toward(tangent, dx * point.cos_heading + dy * point.sin_heading,
                                                   dy * point.cos_heading - dx * point.sin_heading);
}

}  // namespace theca::light
