#include "theca/light/field.hpp"

#include <cmath>

#include "theca/require.hpp"
#include "wall_images.hpp"

namespace theca::light {
namespace {

/// A mirrored coordinate turns round at every wall: `turn_x` and `turn_y` are -1 after an odd number of them.
double along_ray(const Scene& scene, const EmitterPoint& point, const kernel::RefractedRay<double>& ray, double dx,
                 double dy, double turn_x = 1.0, double turn_y = 1.0) {
  const double distance = std::hypot(dx, dy), tangent = ray.tan_air / ray.q;  // of the angle under water
  const double down = 1.0 / std::sqrt(1.0 + tangent * tangent);
  const double sideways = distance > 0.0 ? tangent * down / distance : 0.0;
  const double in_air = distance > 0.0 ? ray.tan_air / distance : 0.0;
  return received(scene, turn_x * sideways * dx, turn_y * sideways * dy, down) *
         ray_irradiance(intensity_toward(scene, point, in_air * dx, in_air * dy, 1.0), ray, point.height_m,
                        scene.depth_m, scene.optics);
}

double unbounded(const Scene& scene, const EmitterPoint& point, double x_m, double y_m) {
  const double dx = x_m - point.x_m, dy = y_m - point.y_m;
  const auto ray = kernel::refracted_ray(std::hypot(dx, dy), point.height_m, scene.depth_m, scene.optics.index);
  return along_ray(scene, point, ray, dx, dy);
}

double between_mirrors(const Scene& scene, const EmitterPoint& point, double x_m, double y_m) {
  double sum = 0.0;
  for_each_image(scene, point, x_m, y_m, [&](int a, int b, double dx, double dy) {
    const double distance = std::hypot(dx, dy);
    const auto ray = kernel::refracted_ray(distance, point.height_m, scene.depth_m, scene.optics.index);
    const double entry = distance > 0.0 ? point.height_m * ray.tan_air / distance : 0.0;
    if (!enters_tank(scene, point, entry * dx, entry * dy)) return;
    sum += std::pow(scene.wall_reflectance, a + b) * along_ray(scene, point, ray, dx, dy, turned(a), turned(b));
  });
  return sum;
}

double from_point(const Scene& scene, const EmitterPoint& point, double x_m, double y_m) {
  switch (scene.walls) {
    case Walls::ignored:
      return unbounded(scene, point, x_m, y_m);
    case Walls::mirror:
      return between_mirrors(scene, point, x_m, y_m);
    case Walls::pane:
      return between_panes(scene, point, x_m, y_m);
  }
  throw InvalidInput("walls", "unknown", "ignored, mirror or pane");
}

double at_point(const Scene& scene, double x_m, double y_m) {
  double sum = 0.0;
  for (const auto& point : scene.points) sum += point.share * from_point(scene, point, x_m, y_m);
  return sum;
}

}  // namespace

PhotonFluxDensity ppfd_at(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                          const Length& plane_depth, const Length& x, const Length& y, const Receiver& receiver) {
  const Scene scene = make_scene(luminaires, water, plane_depth, receiver);
  require::within("x", x, Length(), water.length);
  require::within("y", y, Length(), water.width);
  return from_si<PhotonFluxDensity>(at_point(scene, si(x), si(y)));
}

PpfdMap map(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const Length& plane_depth, int nx,
            int ny, const Receiver& receiver) {
  const Scene scene = make_scene(luminaires, water, plane_depth, receiver);
  require::within("nx", static_cast<double>(nx), 1.0, 2000.0);
  require::within("ny", static_cast<double>(ny), 1.0, 2000.0);
  PpfdMap result{.nx = nx,
                 .ny = ny,
                 .length = water.length,
                 .width = water.width,
                 .plane_depth = plane_depth,
                 .values = {},
                 .walls = water.walls,
                 .wall_reflectance = water.wall_reflectance};
  result.values.reserve(static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny));
  for (int j = 0; j < ny; ++j)
    for (int i = 0; i < nx; ++i) result.values.push_back(at_point(scene, si(result.x(i)), si(result.y(j))));
  return result;
}

PhotonDose daily_light_integral(const PhotonFluxDensity& ppfd, const Time& photoperiod) {
  require::not_negative("ppfd", ppfd);
  require::within("photoperiod", photoperiod, Time(), 24.0 * units::hour);
  return ppfd * photoperiod;
}

}  // namespace theca::light
