#include "arrivals.hpp"

#include <cmath>

#include "wall_images.hpp"

namespace theca::light {

void add_along_ray(const Scene& scene, std::size_t point, const FlatRay& ray, double dx, double dy, double turn_x,
                   double turn_y, double returned, std::vector<Arrival>& arrivals) {
  const EmitterPoint& from = scene.points[point];
  const double px = ray.sine_per_m * dx, py = ray.sine_per_m * dy, n = scene.optics.index;
  const double to_x = turn_x * px / n, to_y = turn_y * py / n, down = std::sqrt(1.0 - to_x * to_x - to_y * to_y);
  const double seen = received(scene, to_x, to_y, down);
  if (!(seen > 0.0)) return;
  const double sent = sent_toward(scene, from, px, py, ray.cos_air, ray.angle);
  const double ppfd = from.share * returned * seen * sent * ray.gain;
  const double into_tank = from.height_m / ray.cos_air;
  if (ppfd > 0.0) arrivals.push_back({ppfd, to_x, to_y, down, point, into_tank * px, into_tank * py});
}

namespace {

void add_unbounded(const Scene& scene, std::size_t point, double x_m, double y_m, std::vector<Arrival>& arrivals) {
  const EmitterPoint& from = scene.points[point];
  const double dx = x_m - from.x_m, dy = y_m - from.y_m;
  add_along_ray(scene, point, ray_from(scene, from, std::sqrt(dx * dx + dy * dy)), dx, dy, 1.0, 1.0, 1.0, arrivals);
}

void add_between_mirrors(const Scene& scene, std::size_t point, double x_m, double y_m,
                         std::vector<Arrival>& arrivals) {
  const EmitterPoint& from = scene.points[point];
  for_each_image(scene, from, x_m, y_m, [&](int a, int b, double dx, double dy) {
    const FlatRay ray = ray_from(scene, from, std::sqrt(dx * dx + dy * dy));
    const double entry = from.height_m * ray.sine_per_m / ray.cos_air;
    const double entering = share_entering(scene, from, entry * dx, entry * dy, 1.0 - entry);
    if (!(entering > 0.0)) return;
    add_along_ray(scene, point, ray, dx, dy, turned(a), turned(b),
                  entering * whole_power(scene.wall_reflectance, a + b), arrivals);
  });
}

}  // namespace

void add_arrivals(const Scene& scene, std::size_t point, double x_m, double y_m, std::vector<Arrival>& arrivals) {
  if (scene.fitted) return add_in_fitted_tank(scene, point, x_m, y_m, arrivals);
  switch (scene.walls) {
    case Walls::ignored:
      return add_unbounded(scene, point, x_m, y_m, arrivals);
    case Walls::mirror:
      return add_between_mirrors(scene, point, x_m, y_m, arrivals);
    case Walls::pane:
      return add_between_panes(scene, point, x_m, y_m, arrivals);
    case Walls::each:
      break;  // always fitted
  }
  throw InvalidInput("walls", "unknown", "ignored, mirror, pane or each");
}

void gather_arrivals(const Scene& scene, double x_m, double y_m, std::vector<Arrival>& arrivals) {
  arrivals.clear();
  for (std::size_t point = 0; point < scene.points.size(); ++point) add_arrivals(scene, point, x_m, y_m, arrivals);
}

double sum_of(const std::vector<Arrival>& arrivals) {
  double sum = 0.0;
  for (const Arrival& arrival : arrivals) sum += arrival.ppfd;
  return sum;
}

}  // namespace theca::light
