// Everything of a light field that does not change from one receiver to the next, in raw SI.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "fitted_tank.hpp"
#include "flat_ray.hpp"
#include "pane_wall.hpp"
#include "sampler.hpp"
#include "theca/light/field.hpp"

namespace theca::light {

struct EmitterPoint {
  double x_m, y_m, height_m;
  double share;  // of the luminaire's intensity
  std::size_t intensity;
  std::size_t axes;
  bool symmetric;             // about the vertical
  std::ptrdiff_t table;       // of the paths from its height; -1: none
  double part_x_m, part_y_m;  // from it to the middle of the part of the aperture that it stands for
  double half_x_m, half_y_m;  // of that part, seen along the tank and across it; 0 for a single emitter
  double steepest_in_water;   // tangent of the steepest leaning ray that enters through the tank's surface
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
  std::vector<FlatRayTable> tables;
  double tables_depth_m;  ///< for which they hold
  WaterOptics optics;
  double length_m, width_m, depth_m;
  Walls walls;
  double wall_reflectance;
  PaneWall pane;
  bool looks_up;                     ///< a flat receiver that is not tilted
  std::optional<FittedTank> fitted;  ///< if so, it tells the walls
  bool spherical;
  double facing_x, facing_y, facing_up;  ///< unit normal of a flat receiver
};

/// @throws InvalidInput
Scene make_scene(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const Length& plane_depth,
                 const Receiver& receiver);

/// Tabulates the walls, and the paths to the scene's depth from heights for which that is less work than to solve them
/// for this many receivers.
void tabulate_paths(Scene& scene, std::size_t receivers);

/// The map of a scene of this water; tabulates its paths.
PpfdMap map(Scene& scene, const Waterbody& water, int nx, int ny);

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

/// The same where the angle of that direction from the vertical is known; x, y and down are then its unit vector.
inline double sent_toward(const Scene& scene, const EmitterPoint& point, double x, double y, double down,
                          double angle) {
  return point.symmetric ? scene.intensities[point.intensity].symmetric_at(angle, down)
                         : intensity_toward(scene, point, x, y, down);
}

/// The path from a point to a place this far sideways, no wall in between.
inline FlatRay ray_from(const Scene& scene, const EmitterPoint& point, double distance_m) {
  if (point.table >= 0 && scene.tables_depth_m == scene.depth_m)
    return scene.tables[static_cast<std::size_t>(point.table)].at(distance_m);
  return flat_ray(scene.optics, point.height_m, scene.depth_m, distance_m);
}

}  // namespace theca::light
