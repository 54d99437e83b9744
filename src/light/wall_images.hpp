// A tank's walls unfolded: where the images of a receiver stand, and what reaches them from a point.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "arrivals.hpp"
#include "theca/require.hpp"

namespace theca::light {

constexpr double most_images = 1e6;

/// A mirrored direction turns round at every wall.
inline double turned(int walls) { return walls % 2 == 0 ? 1.0 : -1.0; }

/// The receiver's coordinate in the cell that lies `cell` walls away from the tank, along one axis.
inline double image(double x_m, double side_m, int cell) {
  return cell % 2 == 0 ? cell * side_m + x_m : (cell + 1) * side_m - x_m;
}

/// Calls visit(a, b, dx, dy) for every image of a receiver that light from a point can reach: the receiver seen across
/// a walls along x and b along y, at (dx, dy) from the point.
template <class Visit>
void for_each_image(const Scene& scene, const EmitterPoint& point, double x_m, double y_m, Visit&& visit) {
  const double reach = scene.depth_m * point.steepest_in_water;  // sideways under water
  const bool black = scene.walls == Walls::mirror && scene.wall_reflectance == 0.0;
  const auto cells = [&](double side_m) { return black ? 0.0 : reach <= side_m ? 1.0 : std::ceil(reach / side_m); };
  const double cells_x = cells(scene.length_m), cells_y = cells(scene.width_m);
  require::that((2.0 * cells_x + 1.0) * (2.0 * cells_y + 1.0) <= most_images, "plane depth",
                from_si<Length>(scene.depth_m),
                "one so small against the tank's sides that at most 1000000 wall images are in reach");
  const int mx = static_cast<int>(cells_x), my = static_cast<int>(cells_y);
  for (int b = -my; b <= my; ++b) {
    const double y_image = image(y_m, scene.width_m, b);
    if (y_image < -reach || y_image > scene.width_m + reach) continue;
    for (int a = -mx; a <= mx; ++a) {
      const double x_image = image(x_m, scene.length_m, a);
      if (x_image < -reach || x_image > scene.length_m + reach) continue;
      visit(std::abs(a), std::abs(b), x_image - point.x_m, y_image - point.y_m);
    }
  }
}

/// How far outside the tank's own surface a ray enters that goes (dx_air, dy_air) sideways in air; 0 inside.
inline double enters_outside(const Scene& scene, const EmitterPoint& point, double dx_air, double dy_air) {
  const double x = point.x_m + dx_air, y = point.y_m + dy_air;
  return std::max(std::max(std::max(-x, x - scene.length_m), std::max(-y, y - scene.width_m)), 0.0);
}

/// Share of the light of a point's part of the aperture that enters through the tank's own surface: 0 or 1 for a single
/// emitter. The point's own ray goes (dx_air, dy_air) sideways in air; rays from beside it to the same place enter
/// `follows` times as far beside it.
inline double share_entering(const Scene& scene, const EmitterPoint& point, double dx_air, double dy_air,
                             double follows) {
  const auto inside = [&](double at, double half, double side) {
    if (!(half > 0.0)) return at >= 0.0 && at <= side ? 1.0 : 0.0;
    return std::max(0.0, std::min(at + half, side) - std::max(at - half, 0.0)) / (2.0 * half);
  };
  return inside(point.x_m + dx_air + follows * point.part_x_m, follows * point.half_x_m, scene.length_m) *
         inside(point.y_m + dy_air + follows * point.part_y_m, follows * point.half_y_m, scene.width_m);
}

/// Appends what comes from one point along a ray without panes to the place (dx, dy) from it. A mirrored coordinate
/// turns round at every wall: `turn_x` and `turn_y` are -1 after an odd number of them.
void add_along_ray(const Scene& scene, std::size_t point, const FlatRay& ray, double dx, double dy, double turn_x,
                   double turn_y, double returned, std::vector<Arrival>& arrivals);

/// Appends what reaches a receiver from one point in a tank of Scene::fitted.
/// @throws InvalidInput, NotConverged
void add_in_fitted_tank(const Scene& scene, std::size_t point, double x_m, double y_m, std::vector<Arrival>& arrivals);

/// Appends what reaches a receiver between panes from one point.
void add_between_panes(const Scene& scene, std::size_t point, double x_m, double y_m, std::vector<Arrival>& arrivals);

}  // namespace theca::light
