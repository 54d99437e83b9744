#include "theca/light/field.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "limits.hpp"
#include "sampler.hpp"
#include "theca/require.hpp"

namespace theca::light {
namespace {

constexpr double most_images = 1e6;

struct EmitterPoint {
  double x_m, y_m, height_m;
  double share;  // of the luminaire's intensity
  std::size_t intensity;
};

/// Everything that does not change from one receiver to the next.
struct Scene {
  std::vector<IntensitySampler> intensities;
  std::vector<EmitterPoint> points;
  WaterOptics optics;
  double length_m, width_m, depth_m;
  bool mirror;
  double wall_reflectance;
};

void add_points(Scene& scene, const PlacedLuminaire& placed) {
  const Luminaire& lamp = placed.luminaire;
  scene.intensities.emplace_back(lamp.intensity);
  const double cos_heading = std::cos(si(placed.heading)), sin_heading = std::sin(si(placed.heading));
  const double share = 1.0 / (static_cast<double>(lamp.points_along) * static_cast<double>(lamp.points_across));
  for (int j = 0; j < lamp.points_across; ++j)
    for (int i = 0; i < lamp.points_along; ++i) {
      const double along =
          ((static_cast<double>(i) + 0.5) / static_cast<double>(lamp.points_along) - 0.5) * si(lamp.aperture_length);
      const double across =
          ((static_cast<double>(j) + 0.5) / static_cast<double>(lamp.points_across) - 0.5) * si(lamp.aperture_width);
      scene.points.push_back({.x_m = si(placed.x) + along * cos_heading - across * sin_heading,
                              .y_m = si(placed.y) + along * sin_heading + across * cos_heading,
                              .height_m = si(placed.mounting_height),
                              .share = share,
                              .intensity = scene.intensities.size() - 1});
    }
}

Scene make_scene(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const Length& plane_depth) {
  require_valid(water);
  limits::depth("plane depth", plane_depth);
  require::that(!luminaires.empty(), "number of luminaires", 0.0, "at least 1");
  Scene scene{.intensities = {},
              .points = {},
              .optics = {water.refractive_index, si(water.attenuation)},
              .length_m = si(water.length),
              .width_m = si(water.width),
              .depth_m = si(plane_depth),
              .mirror = water.walls == Walls::mirror,
              .wall_reflectance = water.wall_reflectance};
  for (const auto& placed : luminaires) {
    require_valid(placed);
    add_points(scene, placed);
  }
  return scene;
}

double unbounded(const Scene& scene, const EmitterPoint& point, double x_m, double y_m) {
  const double distance = std::hypot(x_m - point.x_m, y_m - point.y_m);
  const auto ray = kernel::refracted_ray(distance, point.height_m, scene.depth_m, scene.optics.index);
  return ray_irradiance(scene.intensities[point.intensity], ray, point.height_m, scene.depth_m, scene.optics);
}

/// The receiver's coordinate in the cell that lies `cell` walls away from the tank, along one axis.
double image(double x_m, double side_m, int cell) {
  return cell % 2 == 0 ? cell * side_m + x_m : (cell + 1) * side_m - x_m;
}

double between_walls(const Scene& scene, const EmitterPoint& point, double x_m, double y_m) {
  const double h = point.height_m, z = scene.depth_m, n = scene.optics.index;
  // The steepest leaning ray that still enters through the tank's surface meets its farthest corner; no path reaches
  // farther sideways under water than that ray.
  const double to_corner = std::hypot(std::max(std::abs(point.x_m), std::abs(scene.length_m - point.x_m)),
                                      std::max(std::abs(point.y_m), std::abs(scene.width_m - point.y_m)));
  const double steepest = to_corner / h;
  const double reach = z * steepest / std::sqrt(n * n + (n * n - 1.0) * steepest * steepest);
  const bool black = scene.wall_reflectance == 0.0;
  const double cells_x = black ? 0.0 : std::ceil(reach / scene.length_m);
  const double cells_y = black ? 0.0 : std::ceil(reach / scene.width_m);
  require::that((2.0 * cells_x + 1.0) * (2.0 * cells_y + 1.0) <= most_images, "plane depth", from_si<Length>(z),
                "one so small against the tank's sides that at most 1000000 wall images are in reach");
  const int mx = static_cast<int>(cells_x), my = static_cast<int>(cells_y);
  double sum = 0.0;
  for (int b = -my; b <= my; ++b) {
    const double y_image = image(y_m, scene.width_m, b);
    if (y_image < -reach || y_image > scene.width_m + reach) continue;
    for (int a = -mx; a <= mx; ++a) {
      const double x_image = image(x_m, scene.length_m, a);
      if (x_image < -reach || x_image > scene.length_m + reach) continue;
      const double dx = x_image - point.x_m, dy = y_image - point.y_m;
      const double distance = std::hypot(dx, dy);
      const auto ray = kernel::refracted_ray(distance, h, z, n);
      const double entry = distance > 0.0 ? h * ray.tan_air / distance : 0.0;
      const double x_entry = point.x_m + entry * dx, y_entry = point.y_m + entry * dy;
      if (x_entry < 0.0 || x_entry > scene.length_m || y_entry < 0.0 || y_entry > scene.width_m) continue;
      sum += std::pow(scene.wall_reflectance, std::abs(a) + std::abs(b)) *
             ray_irradiance(scene.intensities[point.intensity], ray, h, z, scene.optics);
    }
  }
  return sum;
}

double at_point(const Scene& scene, double x_m, double y_m) {
  double sum = 0.0;
  for (const auto& point : scene.points)
    sum += point.share * (scene.mirror ? between_walls(scene, point, x_m, y_m) : unbounded(scene, point, x_m, y_m));
  return sum;
}

void require_cells(const PpfdMap& map) {
  require::that(map.nx >= 1 && map.ny >= 1 &&
                    map.values.size() == static_cast<std::size_t>(map.nx) * static_cast<std::size_t>(map.ny),
                "map: number of values", static_cast<double>(map.values.size()), "nx x ny, at least 1");
}

MapPlace place(const PpfdMap& map, std::size_t index) {
  const int i = static_cast<int>(index % static_cast<std::size_t>(map.nx));
  const int j = static_cast<int>(index / static_cast<std::size_t>(map.nx));
  return {.value = from_si<PhotonFluxDensity>(map.values[index]), .x = map.x(i), .y = map.y(j)};
}

}  // namespace

void require_valid(const Waterbody& water) {
  limits::tank_side("water length", water.length);
  limits::tank_side("water width", water.width);
  limits::refractive_index("refractive index", water.refractive_index);
  require::not_negative("attenuation", water.attenuation);
  require::within("wall reflectance", water.wall_reflectance, 0.0, 1.0);
}

PhotonFluxDensity PpfdMap::at(int i, int j) const {
  require_cells(*this);
  require::within("i", static_cast<double>(i), 0.0, static_cast<double>(nx - 1));
  require::within("j", static_cast<double>(j), 0.0, static_cast<double>(ny - 1));
  return from_si<PhotonFluxDensity>(
      values[static_cast<std::size_t>(j) * static_cast<std::size_t>(nx) + static_cast<std::size_t>(i)]);
}

Length PpfdMap::x(int i) const {
  require::within("i", static_cast<double>(i), 0.0, static_cast<double>(nx - 1));
  return (static_cast<double>(i) + 0.5) / static_cast<double>(nx) * length;
}

Length PpfdMap::y(int j) const {
  require::within("j", static_cast<double>(j), 0.0, static_cast<double>(ny - 1));
  return (static_cast<double>(j) + 0.5) / static_cast<double>(ny) * width;
}

PhotonFluxDensity PpfdMap::mean() const {
  require_cells(*this);
  return from_si<PhotonFluxDensity>(std::accumulate(values.begin(), values.end(), 0.0) /
                                    static_cast<double>(values.size()));
}

PhotonFluxDensity PpfdMap::min() const { return darkest().value; }
PhotonFluxDensity PpfdMap::max() const { return brightest().value; }

MapPlace PpfdMap::darkest() const {
  require_cells(*this);
  return place(*this, static_cast<std::size_t>(std::min_element(values.begin(), values.end()) - values.begin()));
}

MapPlace PpfdMap::brightest() const {
  require_cells(*this);
  return place(*this, static_cast<std::size_t>(std::max_element(values.begin(), values.end()) - values.begin()));
}

double PpfdMap::min_over_mean() const {
  const double average = si(mean());
  return average > 0.0 ? si(min()) / average : 0.0;
}

PhotonFluxDensity ppfd_at(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                          const Length& plane_depth, const Length& x, const Length& y) {
  const Scene scene = make_scene(luminaires, water, plane_depth);
  require::within("x", x, Length(), water.length);
  require::within("y", y, Length(), water.width);
  return from_si<PhotonFluxDensity>(at_point(scene, si(x), si(y)));
}

PpfdMap map(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const Length& plane_depth, int nx,
            int ny) {
  const Scene scene = make_scene(luminaires, water, plane_depth);
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

PpfdMap aged(const PpfdMap& as_new, double factor) {
  require::that(factor > 0.0 && factor <= 1.0, "ageing factor", factor, "> 0 and <= 1");
  PpfdMap result = as_new;
  for (double& value : result.values) value *= factor;
  return result;
}

PhotonDose daily_light_integral(const PhotonFluxDensity& ppfd, const Time& photoperiod) {
  require::not_negative("ppfd", ppfd);
  require::within("photoperiod", photoperiod, Time(), 24.0 * units::hour);
  return ppfd * photoperiod;
}

}  // namespace theca::light
