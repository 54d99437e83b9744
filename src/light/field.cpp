#include "theca/light/field.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "limits.hpp"
#include "pane_wall.hpp"
#include "sampler.hpp"
#include "theca/require.hpp"

namespace theca::light {
namespace {

constexpr double most_images = 1e6;
/// Passes through the panes beyond one for each meeting that are followed to their place; later ones, which carry
/// little, arrive where the last of these do.
constexpr int further_passes = 1;

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

/// Photon flux density on the receiver over that on a horizontal plane, for a ray under water whose unit vector goes
/// (to_x, to_y) sideways and `down`.
double received(const Scene& scene, double to_x, double to_y, double down) {
  if (scene.spherical) return 1.0 / down;
  return std::max(0.0, scene.facing_up - (scene.facing_x * to_x + scene.facing_y * to_y) / down);
}

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
                              .intensity = scene.intensities.size() - 1,
                              .cos_heading = cos_heading,
                              .sin_heading = sin_heading});
    }
}

Scene make_scene(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const Length& plane_depth,
                 const Receiver& receiver) {
  require_valid(water);
  require::within("tilt of the receiver", receiver.tilt, Angle(), 180.0 * units::degree);
  require::finite("azimuth of the receiver", receiver.azimuth);
  limits::depth("plane depth", plane_depth);
  require::that(!luminaires.empty(), "number of luminaires", 0.0, "at least 1");
  Scene scene{.intensities = {},
              .points = {},
              .optics = {water.refractive_index, si(water.attenuation)},
              .length_m = si(water.length),
              .width_m = si(water.width),
              .depth_m = si(plane_depth),
              .walls = water.walls,
              .wall_reflectance = water.wall_reflectance,
              .pane = {si(water.pane.thickness), water.pane.refractive_index, si(water.pane.attenuation)},
              .spherical = receiver.spherical,
              .facing_x = std::sin(si(receiver.tilt)) * std::cos(si(receiver.azimuth)),
              .facing_y = std::sin(si(receiver.tilt)) * std::sin(si(receiver.azimuth)),
              .facing_up = std::cos(si(receiver.tilt))};
  for (const auto& placed : luminaires) {
    require_valid(placed);
    add_points(scene, placed);
  }
  return scene;
}

/// Intensity that a point sends along a ray toward (dx, dy).
double intensity_toward(const Scene& scene, const EmitterPoint& point, double tangent, double dx, double dy) {
  return scene.intensities[point.intensity].toward(tangent, dx * point.cos_heading + dy * point.sin_heading,
                                                   dy * point.cos_heading - dx * point.sin_heading);
}

/// A mirrored coordinate turns round at every wall: `turn_x` and `turn_y` are -1 after an odd number of them.
double along_ray(const Scene& scene, const EmitterPoint& point, const kernel::RefractedRay<double>& ray, double dx,
                 double dy, double turn_x = 1.0, double turn_y = 1.0) {
  const double distance = std::hypot(dx, dy), tangent = ray.tan_air / ray.q;  // of the angle under water
  const double down = 1.0 / std::sqrt(1.0 + tangent * tangent);
  const double sideways = distance > 0.0 ? tangent * down / distance : 0.0;
  return received(scene, turn_x * sideways * dx, turn_y * sideways * dy, down) *
         ray_irradiance(intensity_toward(scene, point, ray.tan_air, dx, dy), ray, point.height_m, scene.depth_m,
                        scene.optics);
}

double turned(int walls) { return walls % 2 == 0 ? 1.0 : -1.0; }

double unbounded(const Scene& scene, const EmitterPoint& point, double x_m, double y_m) {
  const double dx = x_m - point.x_m, dy = y_m - point.y_m;
  const auto ray = kernel::refracted_ray(std::hypot(dx, dy), point.height_m, scene.depth_m, scene.optics.index);
  return along_ray(scene, point, ray, dx, dy);
}

/// The receiver's coordinate in the cell that lies `cell` walls away from the tank, along one axis.
double image(double x_m, double side_m, int cell) {
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

bool enters_tank(const Scene& scene, const EmitterPoint& point, double dx_air, double dy_air) {
  const double x = point.x_m + dx_air, y = point.y_m + dy_air;
  return x >= 0.0 && x <= scene.length_m && y >= 0.0 && y <= scene.width_m;
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

/// A ray that goes through panes on its way, against its optical direction (px, py): index times the horizontal parts
/// of its unit vector, the same in air, water and the panes it meets from their sides as far as they run along a pane.
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

double between_panes(const Scene& scene, const EmitterPoint& point, double x_m, double y_m) {
  const double h = point.height_m, n = scene.optics.index;
  const double out_and_back = 2.0 * scene.pane.thickness_m;
  double sum = 0.0;
  for_each_image(scene, point, x_m, y_m, [&](int a, int b, double dx, double dy) {
    const int passes_x = a > 0 ? a + further_passes : 0, passes_y = b > 0 ? b + further_passes : 0;
    for (int i = 0; i <= passes_x; ++i)
      for (int j = 0; j <= passes_y; ++j) {
        const PaneRay ray = pane_ray(scene, h, dx, dy, i * out_and_back, j * out_and_back);
        const double into_tank = h / ray.in_air;
        if (ray.water_path_m < 0.0 || !enters_tank(scene, point, into_tank * ray.px, into_tank * ray.py)) continue;
        const PaneMeeting at_x(scene.pane, n, std::abs(ray.px)), at_y(scene.pane, n, std::abs(ray.py));
        const double returned = (i < passes_x || a == 0 ? at_x.share(a, i) : at_x.share_from(a, i)) *
                                (j < passes_y || b == 0 ? at_y.share(b, j) : at_y.share_from(b, j));
        const double tan_air = std::hypot(ray.px, ray.py) / ray.in_air;
        sum += returned * received(scene, turned(a) * ray.px / n, turned(b) * ray.py / n, ray.in_water / n) *
               intensity_toward(scene, point, tan_air, ray.px, ray.py) *
               (1.0 - kernel::reflectance(ray.in_air, n).unpolarised) *
               std::exp(-scene.optics.attenuation_per_m * ray.water_path_m) / (ray.in_air * std::abs(ray.det));
      }
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
  if (water.walls != Walls::pane) return;
  require::within("pane thickness", water.pane.thickness, Length(), 1.0 * units::metre);
  require::that(water.pane.refractive_index >= water.refractive_index && water.pane.refractive_index <= 2.0,
                "pane refractive index", water.pane.refractive_index, "that of the water to 2");
  require::not_negative("pane attenuation", water.pane.attenuation);
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
