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
  const double h = point.height_m, z = scene.depth_m, n = scene.optics.index;
  // The steepest leaning ray that still enters through the tank's surface meets its farthest corner; no path reaches
  // farther sideways under water than that ray.
  const double to_corner = std::hypot(std::max(std::abs(point.x_m), std::abs(scene.length_m - point.x_m)),
                                      std::max(std::abs(point.y_m), std::abs(scene.width_m - point.y_m)));
  const double steepest = to_corner / h;
  const double reach = z * steepest / std::sqrt(n * n + (n * n - 1.0) * steepest * steepest);
  const bool black = scene.walls == Walls::mirror && scene.wall_reflectance == 0.0;
  const double cells_x = black ? 0.0 : std::ceil(reach / scene.length_m);
  const double cells_y = black ? 0.0 : std::ceil(reach / scene.width_m);
  require::that((2.0 * cells_x + 1.0) * (2.0 * cells_y + 1.0) <= most_images, "plane depth", from_si<Length>(z),
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

/// True where a ray that goes (dx_air, dy_air) sideways in air enters through the tank's own surface.
inline bool enters_tank(const Scene& scene, const EmitterPoint& point, double dx_air, double dy_air) {
  const double x = point.x_m + dx_air, y = point.y_m + dy_air;
  return x >= 0.0 && x <= scene.length_m && y >= 0.0 && y <= scene.width_m;
}

/// Appends what reaches a receiver between panes from one point.
void add_between_panes(const Scene& scene, std::size_t point, double x_m, double y_m, std::vector<Arrival>& arrivals);

}  // namespace theca::light
