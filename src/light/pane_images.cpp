#include <algorithm>
#include <cmath>

#include "theca/error.hpp"
#include "wall_images.hpp"

namespace theca::light {
namespace {

/// Passes through the panes beyond one for each meeting that are followed to their place; later ones, which carry
/// little, arrive where the last of these do.
constexpr int further_passes = 1;

/// A ray that goes through panes on its way, told by (px, py): index times the sideways parts of its unit vector. By
/// Snell's law they are the same in air, in the water and along each pane.
struct PaneRay {
  double px, py;
  double in_air, in_water;  ///< index times the vertical part
  double det;               ///< of the place reached against (px, py), m2
  double water_path_m;      ///< negative: no such ray
};

/// The ray from a point at height h to the place (dx, dy) sideways, counted in water alone, at depth z, which on its
/// way passes thicknesses gx and gy of glass across x and y. Along each coordinate a ray advances by p times the
/// reduced length (length over index), so that dx = px (h / air + z / water - gx / glass), where water and glass stand
/// for index times the part of the unit vector across the layer. Newton's method from the ray without panes.
PaneRay pane_ray(const Scene& scene, double h, double dx, double dy, double gx, double gy) {
  const double z = scene.depth_m, n = scene.optics.index;
  const double step2 = scene.pane.index * scene.pane.index - n * n;
  const double distance = std::hypot(dx, dy);
  const double t = kernel::refracted_ray(distance, h, z, n).tan_air;
  const double sine = distance > 0.0 ? t / std::sqrt(1.0 + t * t) / distance : 0.0;
  PaneRay ray{sine * dx, sine * dy, 0.0, 0.0, 0.0, 0.0};
  constexpr int most_iterations = 60;
  double error = 0.0;
  for (int i = 0; i < most_iterations; ++i) {
    const double p2 = ray.px * ray.px + ray.py * ray.py;
    ray.in_air = std::sqrt(1.0 - p2);
    ray.in_water = std::sqrt(n * n - p2);
    const double glass_x = std::sqrt(step2 + ray.px * ray.px), glass_y = std::sqrt(step2 + ray.py * ray.py);
    const double through_x = gx > 0.0 ? gx / glass_x : 0.0, through_y = gy > 0.0 ? gy / glass_y : 0.0;
    const double reduced = h / ray.in_air + z / ray.in_water;
    const double rise = h / (ray.in_air * ray.in_air * ray.in_air) + z / (ray.in_water * ray.in_water * ray.in_water);
    const double turn_x = gx > 0.0 ? through_x / (glass_x * glass_x) : 0.0;
    const double turn_y = gy > 0.0 ? through_y / (glass_y * glass_y) : 0.0;
    const double xx = reduced - through_x + ray.px * ray.px * (rise + turn_x);
    const double yy = reduced - through_y + ray.py * ray.py * (rise + turn_y);
    const double xy = ray.px * ray.py * rise;
    ray.det = xx * yy - xy * xy;
    ray.water_path_m = n * (z / ray.in_water - through_x - through_y);
    const double off_x = dx - ray.px * (reduced - through_x), off_y = dy - ray.py * (reduced - through_y);
    error = std::max(std::abs(off_x), std::abs(off_y));
    if (error <= 1e-11 * (distance + h + z)) return ray;
    double step_x = (off_x * yy - off_y * xy) / ray.det, step_y = (off_y * xx - off_x * xy) / ray.det;
    while (!(std::hypot(ray.px + step_x, ray.py + step_y) < 1.0)) {
      if (!(std::abs(step_x) + std::abs(step_y) > 1e-15)) return {0.0, 0.0, 1.0, n, 1.0, -1.0};  // grazing: none
      step_x *= 0.5;
      step_y *= 0.5;
    }
    ray.px += step_x;
    ray.py += step_y;
  }
  throw NotConverged("ray through panes", error, most_iterations);
}

}  // namespace

void add_between_panes(const Scene& scene, std::size_t from, double x_m, double y_m, std::vector<Arrival>& arrivals) {
  const EmitterPoint& point = scene.points[from];
  const double h = point.height_m, n = scene.optics.index;
  const double out_and_back = 2.0 * scene.pane.thickness_m;
  for_each_image(scene, point, x_m, y_m, [&](int a, int b, double dx, double dy) {
    const int passes_x = a > 0 ? a + further_passes : 0, passes_y = b > 0 ? b + further_passes : 0;
    for (int i = 0; i <= passes_x; ++i)
      for (int j = 0; j <= passes_y; ++j) {
        const PaneRay ray = pane_ray(scene, h, dx, dy, i * out_and_back, j * out_and_back);
        const double into_tank = h / ray.in_air;
        if (ray.water_path_m < 0.0 || !enters_tank(scene, point, into_tank * ray.px, into_tank * ray.py)) continue;
        const double to_x = turned(a) * ray.px / n, to_y = turned(b) * ray.py / n, down = ray.in_water / n;
        const double seen = received(scene, to_x, to_y, down);
        if (!(seen > 0.0)) continue;
        const PaneMeeting at_x(scene.pane, n, std::abs(ray.px)), at_y(scene.pane, n, std::abs(ray.py));
        const double returned = (i < passes_x || a == 0 ? at_x.share(a, i) : at_x.share_from(a, i)) *
                                (j < passes_y || b == 0 ? at_y.share(b, j) : at_y.share_from(b, j));
        const double ppfd = point.share * returned * seen * intensity_toward(scene, point, ray.px, ray.py, ray.in_air) *
                            (1.0 - kernel::reflectance(ray.in_air, n).unpolarised) *
                            std::exp(-scene.optics.attenuation_per_m * ray.water_path_m) /
                            (ray.in_air * std::abs(ray.det));
        if (ppfd > 0.0) arrivals.push_back({ppfd, to_x, to_y, down, from, into_tank * ray.px, into_tank * ray.py});
      }
  });
}

}  // namespace theca::light
