#include "scene.hpp"

#include <algorithm>
#include <boost/math/special_functions/legendre.hpp>
#include <cmath>
#include <utility>

#include "limits.hpp"
#include "theca/require.hpp"

namespace theca::light {
namespace {

/// Of the steepest leaning ray that still enters through the tank's surface: it meets its farthest corner.
double steepest_in_water(const Scene& scene, const EmitterPoint& point) {
  const double to_corner = std::hypot(std::max(std::abs(point.x_m), std::abs(scene.length_m - point.x_m)),
                                      std::max(std::abs(point.y_m), std::abs(scene.width_m - point.y_m)));
  const double n = scene.optics.index, steepest = to_corner / point.height_m;
  return steepest / std::sqrt(n * n + (n * n - 1.0) * steepest * steepest);
}

/// Turned by the heading, then tilted: the axis goes from straight down toward the tilt azimuth.
LuminaireAxes axes_of(const PlacedLuminaire& placed) {
  const double cos_tilt = std::cos(si(placed.tilt)), sin_tilt = std::sin(si(placed.tilt));
  const double lean_x = std::cos(si(placed.tilt_azimuth)), lean_y = std::sin(si(placed.tilt_azimuth));
  LuminaireAxes axes{};
  const auto tilted = [&](double x, double y, double(&into)[3]) {
    const double toward = x * lean_x + y * lean_y;
    into[0] = x + toward * (cos_tilt - 1.0) * lean_x;
    into[1] = y + toward * (cos_tilt - 1.0) * lean_y;
    into[2] = -toward * sin_tilt;
  };
  const double cos_heading = std::cos(si(placed.heading)), sin_heading = std::sin(si(placed.heading));
  tilted(cos_heading, sin_heading, axes.length);
  tilted(-sin_heading, cos_heading, axes.width);
  axes.axis[0] = sin_tilt * lean_x;
  axes.axis[1] = sin_tilt * lean_y;
  axes.axis[2] = cos_tilt;
  return axes;
}

/// Where the aperture is taken to shine from along one side, counted from its middle.
struct Node {
  double at_m, share;
  double to_middle_m, half_m;  ///< of the part of the side that it stands for
};

/// Emitters at the middles of equal parts; what shines all over by the rule of Gauss and Legendre.
std::vector<Node> nodes(int count, double side_m, bool shines_all_over) {
  std::vector<Node> list;
  if (!shines_all_over) {
    for (int i = 0; i < count; ++i) list.push_back({((i + 0.5) / count - 0.5) * side_m, 1.0 / count, 0.0, 0.0});
    return list;
  }
  std::vector<double> places;
  for (const double zero : boost::math::legendre_p_zeros<double>(count)) {
    places.push_back(zero);
    if (zero > 0.0) places.push_back(-zero);
  }
  std::sort(places.begin(), places.end());
  double from_m = -0.5 * side_m;
  for (const double place : places) {
    const double slope = boost::math::legendre_p_prime(count, place);
    const double share = 1.0 / ((1.0 - place * place) * slope * slope);
    const double half_m = 0.5 * share * side_m, at_m = 0.5 * place * side_m;
    list.push_back({at_m, share, from_m + half_m - at_m, half_m});
    from_m += 2.0 * half_m;
  }
  return list;
}

void add_points(Scene& scene, const PlacedLuminaire& placed) {
  const Luminaire& lamp = placed.luminaire;
  scene.intensities.emplace_back(lamp.intensity);
  const LuminaireAxes axes = axes_of(placed);
  scene.axes.push_back(axes);
  const std::vector<Node> along = nodes(lamp.points_along, si(lamp.aperture_length), lamp.shines_all_over);
  const std::vector<Node> across = nodes(lamp.points_across, si(lamp.aperture_width), lamp.shines_all_over);
  for (const Node& v : across)
    for (const Node& u : along) {
      const auto off = [&](int c) { return u.at_m * axes.length[c] + v.at_m * axes.width[c]; };
      const auto part = [&](int c) { return u.to_middle_m * axes.length[c] + v.to_middle_m * axes.width[c]; };
      const auto half = [&](int c) { return u.half_m * std::abs(axes.length[c]) + v.half_m * std::abs(axes.width[c]); };
      scene.points.push_back({.x_m = si(placed.x) + off(0),
                              .y_m = si(placed.y) + off(1),
                              .height_m = si(placed.mounting_height) - off(2),
                              .share = placed.dimming * u.share * v.share,
                              .intensity = scene.intensities.size() - 1,
                              .axes = scene.axes.size() - 1,
                              .symmetric = scene.intensities.back().symmetric() && axes.axis[2] == 1.0,
                              .table = -1,
                              .part_x_m = part(0),
                              .part_y_m = part(1),
                              .half_x_m = half(0),
                              .half_y_m = half(1),
                              .steepest_in_water = 0.0});
      scene.points.back().steepest_in_water = steepest_in_water(scene, scene.points.back());
    }
}

void require_above(const std::vector<EmitterPoint>& points, const FittedTank& tank) {
  for (const EmitterPoint& point : points)
    require::that(point.height_m > tank.top_m(), "mounting height", from_si<Length>(point.height_m),
                  "above the walls and the cover, " + text(from_si<Length>(tank.top_m())));
}

}  // namespace

Scene make_scene(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const Length& plane_depth,
                 const Receiver& receiver) {
  require_valid(water);
  require::within("tilt of the receiver", receiver.tilt, Angle(), 180.0 * units::degree);
  require::finite("azimuth of the receiver", receiver.azimuth);
  limits::depth("plane depth", plane_depth);
  require::that(!luminaires.empty(), "number of luminaires", 0.0, "at least 1");
  Scene scene{.intensities = {},
              .axes = {},
              .points = {},
              .tables = {},
              .tables_depth_m = 0.0,
              .optics = {water.refractive_index, {{1.0, si(water.attenuation)}}},
              .length_m = si(water.length),
              .width_m = si(water.width),
              .depth_m = si(plane_depth),
              .walls = water.walls,
              .wall_reflectance = water.wall_reflectance,
              .pane = PaneWall({si(water.pane.thickness), water.pane.refractive_index, si(water.pane.attenuation)},
                               water.refractive_index),
              .looks_up = !receiver.spherical && si(receiver.tilt) == 0.0,
              .fitted = fitted_tank(water),
              .spherical = receiver.spherical,
              .facing_x = std::sin(si(receiver.tilt)) * std::cos(si(receiver.azimuth)),
              .facing_y = std::sin(si(receiver.tilt)) * std::sin(si(receiver.azimuth)),
              .facing_up = std::cos(si(receiver.tilt))};
  for (const auto& placed : luminaires) {
    require_valid(placed);
    add_points(scene, placed);
  }
  if (scene.fitted) require_above(scene.points, *scene.fitted);
  return scene;
}

void tabulate_paths(Scene& scene, std::size_t receivers) {
  if (scene.fitted) return;  // its paths are solved one by one
  constexpr std::size_t most_nodes = 8192;
  scene.tables.clear();
  scene.tables_depth_m = scene.depth_m;
  std::vector<std::pair<double, std::ptrdiff_t>> known;  // height, table
  for (EmitterPoint& point : scene.points) {
    const auto same =
        std::find_if(known.begin(), known.end(), [&](const auto& of) { return of.first == point.height_m; });
    if (same != known.end()) {
      point.table = same->second;
      continue;
    }
    std::size_t users = 0;
    double farthest = 0.0;
    for (const EmitterPoint& other : scene.points) {
      if (other.height_m != point.height_m) continue;
      ++users;
      const double out = scene.walls == Walls::ignored ? 0.0 : scene.depth_m * other.steepest_in_water;
      farthest =
          std::max(farthest, std::hypot(std::max(std::abs(other.x_m), std::abs(scene.length_m - other.x_m)) + out,
                                        std::max(std::abs(other.y_m), std::abs(scene.width_m - other.y_m)) + out));
    }
    // A node costs about as much as a path solved, and its cubics are checked with a quarter more.
    const std::size_t worth = std::min(most_nodes, receivers * users / 3);
    auto table = FlatRayTable::make(scene.optics, point.height_m, scene.depth_m, farthest, worth);
    point.table = table ? static_cast<std::ptrdiff_t>(scene.tables.size()) : -1;
    if (table) scene.tables.push_back(std::move(*table));
    known.emplace_back(point.height_m, point.table);
  }
  constexpr std::size_t many_meetings = 1000;
  if (scene.walls == Walls::pane && receivers * scene.points.size() > many_meetings) scene.pane.tabulate();
}

}  // namespace theca::light
