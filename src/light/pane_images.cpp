#include <algorithm>
#include <cmath>

#include "theca/error.hpp"
#include "wall_images.hpp"

namespace theca::light {
namespace {

/// Passes through panes that are followed one by one: so many more than the walls met. What passes more often goes on
/// together, at its mean.
constexpr int further_passes = 1;
/// Of the light before it met the walls; left out.
constexpr double negligible = 1e-6;
int followed(int walls) { return walls > 0 ? walls + further_passes : 0; }

/// A ray that goes through panes on its way, told by (px, py): index times the sideways parts of its unit vector. By
/// Snell's law they are the same in air, in the water and along each pane.
struct PaneRay {
  double px, py;
  double in_air, in_water;  ///< index times the vertical part
  double det;               ///< of the place reached against (px, py), m2
  double water_path_m;      ///< negative: no such ray
};

/// The ray from a point at height h to the place (dx, dy) sideways, counted in water alone, at depth z, which on its
/// way passes panes across x and y out and back. Along each coordinate a ray advances by p times the reduced length
/// (length over index), so that dx = px (h / air + z / water - panes / pane), where water and pane stand for index
/// times the part of the unit vector across the layer. Newton's method from (px, py).
PaneRay pane_ray(const Scene& scene, double h, double dx, double dy, double passes_x, double passes_y, double px,
                 double py) {
  const double z = scene.depth_m, n = scene.optics.index;
  PaneRay ray{px, py, 0.0, 0.0, 0.0, 0.0};
  constexpr int most_iterations = 60;
  constexpr double tolerance = 1e-6;  // of height and depth
  double error = 0.0;
  for (int i = 0; i < most_iterations; ++i) {
    const double p2 = ray.px * ray.px + ray.py * ray.py;
    ray.in_air = std::sqrt(1.0 - p2);
    ray.in_water = std::sqrt(n * n - p2);
    const double over_air = 1.0 / ray.in_air, over_water = 1.0 / ray.in_water;
    const double reduced_air = h * over_air, reduced_water = z * over_water, reduced = reduced_air + reduced_water;
    const double rise = reduced_air * over_air * over_air + reduced_water * over_water * over_water;
    double x = reduced, y = reduced, xx = reduced + ray.px * ray.px * rise, yy = reduced + ray.py * ray.py * rise;
    double in_panes = 0.0;
    const auto pass = [&](double passes, double p, double& reach, double& slope) {
      if (!(passes > 0.0)) return;
      const double over_pane = 1.0 / std::sqrt(scene.pane.in_pane2(p));
      const double through = passes * scene.pane.there_and_back_m() * over_pane;
      in_panes += through;
      reach -= through;
      slope -= through * scene.pane.step2() * over_pane * over_pane;
    };
    pass(passes_x, ray.px, x, xx);
    pass(passes_y, ray.py, y, yy);
    const double xy = ray.px * ray.py * rise;
    ray.det = xx * yy - xy * xy;
    ray.water_path_m = n * (reduced_water - in_panes);
    const double off_x = dx - ray.px * x, off_y = dy - ray.py * y;
    error = std::max(std::abs(off_x), std::abs(off_y));
    if (error <= tolerance * (h + z)) return ray;
    double step_x = (off_x * yy - off_y * xy) / ray.det, step_y = (off_y * xx - off_x * xy) / ray.det;
    const auto in_reach = [&] {
      const double x_next = ray.px + step_x, y_next = ray.py + step_y;
      return x_next * x_next + y_next * y_next < 1.0;
    };
    while (!in_reach()) {
      if (!(std::abs(step_x) + std::abs(step_y) > 1e-15)) return {0.0, 0.0, 1.0, n, 1.0, -1.0};  // grazing: none
      step_x *= 0.5;
      step_y *= 0.5;
    }
    ray.px += step_x;
    ray.py += step_y;
  }
  throw NotConverged("ray through panes", error, most_iterations);
}

/// Share that comes back from the walls met across one axis with so many passes through them; one more than those
/// followed stands for all the rest.
double share_of(const Scene& scene, int walls, int passes, double p) {
  if (walls == 0) return 1.0;
  const PaneMeeting met = scene.pane.at(std::abs(p));
  const int most = followed(walls);
  return passes > most ? met.rest(walls, most).share : met.share(walls, passes);
}

}  // namespace

void add_between_panes(const Scene& scene, std::size_t from, double x_m, double y_m, std::vector<Arrival>& arrivals) {
  const EmitterPoint& point = scene.points[from];
  const double h = point.height_m, n = scene.optics.index;
  const bool over_tank = enters_outside(scene, point, 0.0, 0.0) == 0.0;
  for_each_image(scene, point, x_m, y_m, [&](int a, int b, double dx, double dy) {
    const FlatRay straight = ray_from(scene, point, std::sqrt(dx * dx + dy * dy));
    const double px = straight.sine_per_m * dx, py = straight.sine_per_m * dy, entry = h / straight.cos_air;
    const double follows = 1.0 - h * straight.sine_per_m / straight.cos_air;
    const double entering = share_entering(scene, point, entry * px, entry * py, follows);
    if (a + b == 0) {
      if (entering > 0.0) add_along_ray(scene, from, straight, dx, dy, 1.0, 1.0, entering, arrivals);
      return;
    }
    const double for_pass_x = scene.pane.there_and_back_m() / std::sqrt(scene.pane.in_pane2(px));
    const double for_pass_y = scene.pane.there_and_back_m() / std::sqrt(scene.pane.in_pane2(py));
    const double moved_x = std::abs(px) * for_pass_x, moved_y = std::abs(py) * for_pass_y;
    // A pass moves the entry by less than the place reached, and outward if the point is over the tank.
    const double slack = over_tank ? 0.3 : 2.0;
    const double outside = enters_outside(scene, point, entry * px, entry * py);
    const double soft =
        follows * std::max(point.half_x_m + std::abs(point.part_x_m), point.half_y_m + std::abs(point.part_y_m));
    if (outside > soft + slack * (2 * followed(a) * moved_x + 2 * followed(b) * moved_y)) return;
    const int most_x = followed(a), most_y = followed(b);
    const double rest_x = a > 0 ? scene.pane.at(std::abs(px)).rest(a, most_x).mean_passes : 0.0;
    const double rest_y = b > 0 ? scene.pane.at(std::abs(py)).rest(b, most_y).mean_passes : 0.0;
    for (int i = 0; i <= (a > 0 ? most_x + 1 : 0); ++i)
      for (int j = 0; j <= (b > 0 ? most_y + 1 : 0); ++j) {
        const double near_share = share_of(scene, a, i, px) * share_of(scene, b, j, py);
        if (near_share < negligible) continue;
        if (i + j == 0) {
          if (entering > 0.0)
            add_along_ray(scene, from, straight, dx, dy, turned(a), turned(b), entering * near_share, arrivals);
          continue;
        }
        const double passes_x = i > most_x ? rest_x : i, passes_y = j > most_y ? rest_y : j;
        // Aimed as much farther as the panes will take away: true to second order in their thickness.
        const double aim_x = dx + passes_x * px * for_pass_x, aim_y = dy + passes_y * py * for_pass_y;
        const FlatRay aimed = ray_from(scene, point, std::sqrt(aim_x * aim_x + aim_y * aim_y));
        const double aim_px = aimed.sine_per_m * aim_x, aim_py = aimed.sine_per_m * aim_y;
        const double near_entry = h / aimed.cos_air;
        if (enters_outside(scene, point, near_entry * aim_px, near_entry * aim_py) >
            soft + 0.3 * (passes_x * moved_x + passes_y * moved_y))
          continue;
        const PaneRay ray = pane_ray(scene, h, dx, dy, passes_x, passes_y, aim_px, aim_py);
        const double into_tank = h / ray.in_air;
        if (ray.water_path_m < 0.0) continue;
        const double enters = share_entering(scene, point, into_tank * ray.px, into_tank * ray.py, follows);
        if (!(enters > 0.0)) continue;
        const double to_x = turned(a) * ray.px / n, to_y = turned(b) * ray.py / n, down = ray.in_water / n;
        const double seen = received(scene, to_x, to_y, down);
        if (!(seen > 0.0)) continue;
        const double returned = share_of(scene, a, i, ray.px) * share_of(scene, b, j, ray.py);
        const double sent = sent_toward(scene, point, ray.px, ray.py, ray.in_air, std::acos(ray.in_air));
        const double ppfd = point.share * enters * returned * seen * sent *
                            (1.0 - kernel::reflectance(ray.in_air, n).unpolarised) *
                            scene.optics.left_after(ray.water_path_m) / (ray.in_air * std::abs(ray.det));
        if (ppfd > 0.0) arrivals.push_back({ppfd, to_x, to_y, down, from, into_tank * ray.px, into_tank * ray.py});
      }
  });
}

}  // namespace theca::light
