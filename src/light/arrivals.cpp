#include "arrivals.hpp"

#include <cmath>

#include "wall_images.hpp"

namespace theca::light {
namespace {

/// Along a path that meets no pane. A mirrored coordinate turns round at every wall: `turn_x` and `turn_y` are -1 after
/// an odd number of them.
void add_along_ray(const Scene& scene, std::size_t point, const kernel::RefractedRay<double>& ray, double dx, double dy,
                   double turn_x, double turn_y, double returned, std::vector<Arrival>& arrivals) {
  const EmitterPoint& from = scene.points[point];
  const double distance = std::hypot(dx, dy), tangent = ray.tan_air / ray.q;  // of the angle under water
  const double down = 1.0 / std::sqrt(1.0 + tangent * tangent);
  const double sideways = distance > 0.0 ? tangent * down / distance : 0.0;
  const double in_air = distance > 0.0 ? ray.tan_air / distance : 0.0;
  const double to_x = turn_x * sideways * dx, to_y = turn_y * sideways * dy;
  const double seen = received(scene, to_x, to_y, down);
  if (!(seen > 0.0)) return;
  const double ppfd = from.share * returned * seen *
                      ray_irradiance(intensity_toward(scene, from, in_air * dx, in_air * dy, 1.0), ray, from.height_m,
                                     scene.depth_m, scene.optics);
  if (ppfd > 0.0)
    arrivals.push_back({ppfd, to_x, to_y, down, point, in_air * from.height_m * dx, in_air * from.height_m * dy});
}

void add_unbounded(const Scene& scene, std::size_t point, double x_m, double y_m, std::vector<Arrival>& arrivals) {
  const EmitterPoint& from = scene.points[point];
  const double dx = x_m - from.x_m, dy = y_m - from.y_m;
  const auto ray = kernel::refracted_ray(std::hypot(dx, dy), from.height_m, scene.depth_m, scene.optics.index);
  add_along_ray(scene, point, ray, dx, dy, 1.0, 1.0, 1.0, arrivals);
}

void add_between_mirrors(const Scene& scene, std::size_t point, double x_m, double y_m,
                         std::vector<Arrival>& arrivals) {
  const EmitterPoint& from = scene.points[point];
  for_each_image(scene, from, x_m, y_m, [&](int a, int b, double dx, double dy) {
    const double distance = std::hypot(dx, dy);
    const auto ray = kernel::refracted_ray(distance, from.height_m, scene.depth_m, scene.optics.index);
    const double entry = distance > 0.0 ? from.height_m * ray.tan_air / distance : 0.0;
    if (!enters_tank(scene, from, entry * dx, entry * dy)) return;
    add_along_ray(scene, point, ray, dx, dy, turned(a), turned(b), std::pow(scene.wall_reflectance, a + b), arrivals);
  });
}

}  // namespace

void add_arrivals(const Scene& scene, std::size_t point, double x_m, double y_m, std::vector<Arrival>& arrivals) {
  switch (scene.walls) {
    case Walls::ignored:
      return add_unbounded(scene, point, x_m, y_m, arrivals);
    case Walls::mirror:
      return add_between_mirrors(scene, point, x_m, y_m, arrivals);
    case Walls::pane:
      return add_between_panes(scene, point, x_m, y_m, arrivals);
  }
  throw InvalidInput("walls", "unknown", "ignored, mirror or pane");
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
