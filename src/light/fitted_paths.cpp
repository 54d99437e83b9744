// Paths of light into a tank whose walls are of different kinds, with what stands over the water.
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "theca/error.hpp"
#include "wall_images.hpp"

namespace theca::light {
namespace {

/// A clear layer; `step2` is its index squared less that of the medium in which the ray was told.
struct Layer {
  double thickness_m = 0.0, step2 = 0.0;
};

/// All that a ray passes on its way from a point to an image of the receiver.
struct Course {
  double air_m;                             ///< of height, without plates
  std::array<Layer, 2> plates;              ///< level ones in air
  Layer strip_x{}, strip_y{};               ///< panes passed above the water, from outside
  double slope_x, slope_y;                  ///< of the facet of the surface that it meets
  double depth_m, water_index;              ///< water, with the panes passed in it
  std::array<Layer, 2> across_x, across_y;  ///< panes passed across either axis
};

/// Sum of thickness over `normal`, and over its cube: index times the part of the unit vector across the layer.
struct Passed {
  double reduced = 0.0, turn = 0.0;
  void add(double thickness_m, double normal) {
    reduced += thickness_m / normal;
    turn += thickness_m / (normal * normal * normal);
  }
};

Passed panes(const std::array<Layer, 2>& layers, double along) {
  Passed passed;
  for (const Layer& layer : layers)
    if (layer.thickness_m > 0.0) passed.add(layer.thickness_m, std::sqrt(layer.step2 + along * along));
  return passed;
}

/// A ray told by index times the sideways parts of its unit vector: (px, py) in air, (qx, qy) in the water. In each
/// level layer, and along each pane, they stay as they are (Snell's law), and the ray advances by them times the
/// reduced length: length over index.
struct Ray {
  double px, py, cos_air;
  double qx, qy, in_water;  ///< in_water: index times the vertical part
  double facet_cos;         ///< of the incidence on the facet
  double air_x, air_y;      ///< sideways to where it enters the water, without the way through panes across that axis
  double water_path_m;
  double det;  ///< of the place reached against (px, py), m2
};

/// The ray that gets (dx, dy) sideways, counted without the way through panes across that axis: Newton's method from
/// the ray into flat water without plates and panes.
std::optional<Ray> ray_along(const Course& course, double dx, double dy) {
  const double n = course.water_index, z = course.depth_m;
  const double distance = std::hypot(dx, dy), height = course.air_m;
  const double g = std::sqrt(1.0 + course.slope_x * course.slope_x + course.slope_y * course.slope_y);
  const double sx = course.slope_x / g, sy = course.slope_y / g;
  const double t = kernel::refracted_ray(distance, height, z, n).tan_air;
  const double sine = distance > 0.0 ? t / std::sqrt(1.0 + t * t) / distance : 0.0;
  Ray ray{};
  ray.px = sine * dx;
  ray.py = sine * dy;
  constexpr int most_iterations = 60;
  double error = 0.0;
  for (int i = 0; i < most_iterations; ++i) {
    ray.cos_air = std::sqrt(1.0 - ray.px * ray.px - ray.py * ray.py);
    Passed air;
    air.add(height, ray.cos_air);
    for (const Layer& plate : course.plates)
      if (plate.thickness_m > 0.0) air.add(plate.thickness_m, std::sqrt(plate.step2 + ray.cos_air * ray.cos_air));
    Passed strip_x, strip_y;
    if (course.strip_x.thickness_m > 0.0)
      strip_x.add(course.strip_x.thickness_m, std::sqrt(course.strip_x.step2 + ray.px * ray.px));
    if (course.strip_y.thickness_m > 0.0)
      strip_y.add(course.strip_y.thickness_m, std::sqrt(course.strip_y.step2 + ray.py * ray.py));
    ray.air_x = ray.px * (air.reduced - strip_x.reduced);
    ray.air_y = ray.py * (air.reduced - strip_y.reduced);

    // Refraction at the facet adds (its index times cosine under water, less that in air) along the facet's normal.
    ray.facet_cos = ray.cos_air / g + ray.px * sx + ray.py * sy;
    if (!(ray.facet_cos > 0.0)) return {};
    const double under = std::sqrt(n * n - 1.0 + ray.facet_cos * ray.facet_cos);
    const double bend = under - ray.facet_cos, bend_rate = ray.facet_cos / under - 1.0;
    ray.qx = ray.px + bend * sx;
    ray.qy = ray.py + bend * sy;
    const double cos_rate_x = sx - ray.px / (g * ray.cos_air), cos_rate_y = sy - ray.py / (g * ray.cos_air);
    const double qx_px = 1.0 + sx * bend_rate * cos_rate_x, qx_py = sx * bend_rate * cos_rate_y;
    const double qy_px = sy * bend_rate * cos_rate_x, qy_py = 1.0 + sy * bend_rate * cos_rate_y;

    ray.in_water = std::sqrt(n * n - ray.qx * ray.qx - ray.qy * ray.qy);
    Passed water;
    water.add(z, ray.in_water);
    const Passed in_x = panes(course.across_x, ray.qx), in_y = panes(course.across_y, ray.qy);
    ray.water_path_m = n * (water.reduced - in_x.reduced - in_y.reduced);

    const double x_qx = water.reduced - in_x.reduced + ray.qx * ray.qx * (water.turn + in_x.turn);
    const double y_qy = water.reduced - in_y.reduced + ray.qy * ray.qy * (water.turn + in_y.turn);
    const double x_qy = ray.qx * ray.qy * water.turn, p_cross = ray.px * ray.py * air.turn;
    const double xx =
        air.reduced - strip_x.reduced + ray.px * ray.px * (air.turn + strip_x.turn) + x_qx * qx_px + x_qy * qy_px;
    const double xy = p_cross + x_qx * qx_py + x_qy * qy_py;
    const double yx = p_cross + x_qy * qx_px + y_qy * qy_px;
    const double yy =
        air.reduced - strip_y.reduced + ray.py * ray.py * (air.turn + strip_y.turn) + x_qy * qx_py + y_qy * qy_py;
    ray.det = xx * yy - xy * yx;

    const double off_x = dx - ray.air_x - ray.qx * (water.reduced - in_x.reduced);
    const double off_y = dy - ray.air_y - ray.qy * (water.reduced - in_y.reduced);
    error = std::max(std::abs(off_x), std::abs(off_y));
    if (error <= 1e-10 * (distance + height + z)) return ray;
    double step_x = (off_x * yy - off_y * xy) / ray.det, step_y = (off_y * xx - off_x * yx) / ray.det;
    while (!(std::hypot(ray.px + step_x, ray.py + step_y) < 1.0)) {
      if (!(std::abs(step_x) + std::abs(step_y) > 1e-15)) return {};  // grazing
      step_x *= 0.5;
      step_y *= 0.5;
    }
    ray.px += step_x;
    ray.py += step_y;
  }
  throw NotConverged("ray into the tank", error, most_iterations);
}

/// What an unfolded path meets along one axis.
struct Meetings {
  int air_low = 0, air_high = 0, water_low = 0, water_high = 0;
  const WallOptics* entered = nullptr;  ///< the wall whose strip above the water it came in through
};

/// How many meetings with the low wall, and the high one, lead to an image.
int low_meetings(int cell) { return cell < 0 ? (1 - cell) / 2 : cell / 2; }
int high_meetings(int cell) { return low_meetings(-cell); }

/// True for a point that light may leave through a pane's strip above the water, on its way into the tank.
bool behind_pane(const WallPair& walls, double start) {
  return (start < 0.0 && walls.low.kind == WallKind::pane) ||
         (start > walls.side_m && walls.high.kind == WallKind::pane);
}

/// The walls between a point at `start` and the image of the receiver in `cell`; the path enters the water at `entry`.
/// Nothing where it passes over a wall, falls on its upper edge or comes from outside under water.
/// @param fall     height lost for each length along the axis
/// @param through  whether it was solved to pass a pane above the water from outside
std::optional<Meetings> meetings(const WallPair& walls, int cell, double start, double entry, double height_m,
                                 double fall, double freeboard_m, bool through) {
  const double side = walls.side_m, rounding = 1e-12 * (side + std::abs(start));
  const auto over_at = [&](double place) { return height_m - std::abs(place - start) * fall > freeboard_m; };
  Meetings met;
  if (start < 0.0 || start > side) {
    const bool from_low = start < 0.0;
    if (from_low ? cell < 0 : cell > 0) return {};
    const WallOptics& wall = from_low ? walls.low : walls.high;
    const double inner = from_low ? 0.0 : side, outer = inner + (from_low ? -1.0 : 1.0) * wall.pane.thickness_m;
    if (wall.kind != WallKind::ignored) {
      if (from_low ? entry < 0.0 : entry > side) return {};
      if (through ? over_at(outer) : !over_at(inner)) return {};
      if (through) met.entered = &wall;
    }
  }
  const bool beyond_low = entry < std::min(cell, 0) * side - rounding;
  const bool beyond_high = entry > (std::max(cell, 0) + 1) * side + rounding;
  if (beyond_low && !(cell >= 0 && walls.low.kind == WallKind::ignored)) return {};
  if (beyond_high && !(cell <= 0 && walls.high.kind == WallKind::ignored)) return {};
  const double passed = cell > 0 ? std::floor(entry / side) : std::ceil(-entry / side);
  const int in_air = static_cast<int>(std::clamp(passed, 0.0, static_cast<double>(std::abs(cell))));
  if (in_air > 0 && over_at(cell > 0 ? side : 0.0)) return {};
  met.air_low = low_meetings(cell > 0 ? in_air : -in_air);
  met.air_high = high_meetings(cell > 0 ? in_air : -in_air);
  met.water_low = low_meetings(cell) - met.air_low;
  met.water_high = high_meetings(cell) - met.air_high;
  return met;
}

/// Share that a wall under water returns in all meetings, with this many passes out and back through its pane; what
/// passes more often than one time more than it meets is counted with those.
double returned_in_water(const WallOptics& wall, double water_index, double normal, int meets, int passes) {
  if (meets == 0) return passes == 0 ? 1.0 : 0.0;
  if (wall.kind != WallKind::pane) return passes == 0 ? whole_power(wall.mirror_share, meets) : 0.0;
  if (passes > meets + 1) return 0.0;
  const PaneMeeting pane = PaneWall(wall.pane, water_index).at(normal);
  return passes > meets ? pane.rest(meets, meets).share : pane.share(meets, passes);
}

double returned(const WallPair& walls, const Meetings& met, double water_index, double p, double q, int passes_low,
                int passes_high) {
  const double in_air = std::abs(p), in_water = std::abs(q);
  double share = met.entered ? met.entered->in_air(in_air).passed : 1.0;
  if (met.air_low > 0) share *= whole_power(walls.low.in_air(in_air).reflected, met.air_low);
  if (met.air_high > 0) share *= whole_power(walls.high.in_air(in_air).reflected, met.air_high);
  if (walls.alike)
    return share * returned_in_water(walls.low, water_index, in_water, met.water_low + met.water_high, passes_low);
  return share * returned_in_water(walls.low, water_index, in_water, met.water_low, passes_low) *
         returned_in_water(walls.high, water_index, in_water, met.water_high, passes_high);
}

/// Calls visit(passes through the low wall's pane, through the high one's) for all that count.
template <class Visit>
void for_each_passes(const WallPair& walls, int cell, Visit&& visit) {
  const auto most = [](const WallOptics& wall, int meets) {
    return wall.kind == WallKind::pane && meets > 0 ? meets + 1 : 0;
  };
  const int low = low_meetings(cell), high = high_meetings(cell);
  const int most_low = walls.alike ? most(walls.low, low + high) : most(walls.low, low);
  const int most_high = walls.alike ? 0 : most(walls.high, high);
  for (int i = 0; i <= most_low; ++i)
    for (int j = 0; j <= most_high; ++j) visit(i, j);
}

Layer out_and_back(const WallOptics& wall, double water_index, int passes) {
  return {2.0 * wall.pane.thickness_m * passes, wall.pane.index * wall.pane.index - water_index * water_index};
}

bool reaches(const WallPair& walls, int cell) {
  return (low_meetings(cell) == 0 || walls.low.mirrors()) && (high_meetings(cell) == 0 || walls.high.mirrors());
}

struct Cells {
  int first, last;
};
/// From outside a wall, other than an ignored one, light goes in away from it and so meets the other wall first.
Cells cells_in_reach(const WallPair& walls, double start, double reach_m) {
  Cells cells{static_cast<int>(std::floor(-reach_m / walls.side_m)),
              static_cast<int>(std::floor(1.0 + reach_m / walls.side_m))};
  if (start < 0.0) cells.first = 0;
  if (start > walls.side_m) cells.last = 0;
  return cells;
}

/// Five slopes of the facets in one direction that stand for their normal distribution.
/// @source Gauss-Hermite quadrature, Abramowitz & Stegun, table 25.10
struct SlopeNode {
  double deviations, share;
};
constexpr std::array<SlopeNode, 5> slope_nodes{{{0.0, 0.5333333333333333},
                                                {1.3556261799742659, 0.2220759220056126},
                                                {-1.3556261799742659, 0.2220759220056126},
                                                {2.8569700138728057, 0.0112574113277207},
                                                {-2.8569700138728057, 0.0112574113277207}}};

class FittedPaths {
 public:
  FittedPaths(const Scene& scene, std::size_t from, double x_m, double y_m, std::vector<Arrival>& arrivals)
      : scene_(scene),
        tank_(*scene.fitted),
        point_(scene.points[from]),
        from_(from),
        x_m_(x_m),
        y_m_(y_m),
        n_(scene.optics.index),
        arrivals_(arrivals) {}

  void add() {
    const auto farthest = farthest_beyond_walls();
    // A side of a brace may send light back toward the wall that it came over.
    const bool turned_back = tank_.braces.any() && !tank_.braces.opaque;
    const auto start = [&](double at, const WallPair& walls) { return turned_back ? 0.5 * walls.side_m : at; };
    const Cells in_x = cells_in_reach(tank_.across_x, start(point_.x_m, tank_.across_x), farthest[0]),
                in_y = cells_in_reach(tank_.across_y, start(point_.y_m, tank_.across_y), farthest[1]);
    require::that(static_cast<double>(in_x.last - in_x.first + 1) * (in_y.last - in_y.first + 1) <= most_images,
                  "plane depth", from_si<Length>(scene_.depth_m),
                  "one so small against the tank's sides that at most 1000000 wall images are in reach");
    for (int b = in_y.first; b <= in_y.last; ++b) {
      if (!reaches(tank_.across_y, b)) continue;
      for (int a = in_x.first; a <= in_x.last; ++a)
        if (reaches(tank_.across_x, a)) add_image(a, b);
    }
  }

 private:
  using Place = std::array<double, 2>;

  /// A ray enters the water at most at the farthest corner, or was mirrored by the strip above it; under water none
  /// leans farther than from there. Along one axis none leans farther than one that leans that way only, but for
  /// ruffled water.
  Place farthest_beyond_walls() const {
    const double to_x = std::max(std::abs(point_.x_m), std::abs(tank_.across_x.side_m - point_.x_m));
    const double to_y = std::max(std::abs(point_.y_m), std::abs(tank_.across_y.side_m - point_.y_m));
    const double ruffled = slope_nodes.back().deviations * -tank_.slope_deviation * n_;
    const auto beyond = [&](double to_wall) {
      const double steepest = to_wall / (point_.height_m - tank_.freeboard_m);
      const double sine = std::min(steepest / std::sqrt(1.0 + steepest * steepest) + ruffled, 0.999 * n_);
      return tank_.freeboard_m * steepest + scene_.depth_m * sine / std::sqrt(n_ * n_ - sine * sine);
    };
    if (ruffled > 0.0) return {beyond(std::hypot(to_x, to_y)), beyond(std::hypot(to_x, to_y))};
    return {beyond(to_x), beyond(to_y)};
  }

  void add_image(int a, int b) {
    for_each_passes(tank_.across_x, a, [&](int low_x, int high_x) {
      for_each_passes(tank_.across_y, b, [&](int low_y, int high_y) {
        Course course{
            .air_m = 0.0,
            .plates = {},
            .slope_x = 0.0,
            .slope_y = 0.0,
            .depth_m = scene_.depth_m,
            .water_index = n_,
            .across_x = {out_and_back(tank_.across_x.low, n_, low_x), out_and_back(tank_.across_x.high, n_, high_x)},
            .across_y = {out_and_back(tank_.across_y.low, n_, low_y), out_and_back(tank_.across_y.high, n_, high_y)}};
        const auto share = [&](const Meetings& at_x, const Meetings& at_y, const Ray& ray) {
          return returned(tank_.across_x, at_x, n_, ray.px, ray.qx, low_x, high_x) *
                 returned(tank_.across_y, at_y, n_, ray.py, ray.qy, low_y, high_y);
        };
        if (tank_.slope_deviation == 0.0) return add_above(a, b, course, 1.0, share);
        for (const SlopeNode& along : slope_nodes)
          for (const SlopeNode& across : slope_nodes) {
            course.slope_x = along.deviations * tank_.slope_deviation;
            course.slope_y = across.deviations * tank_.slope_deviation;
            add_above(a, b, course, along.share * across.share, share);
          }
      });
    });
  }

  /// The ways past or through what stands above the water.
  struct Above {
    bool through_x, through_y;  ///< panes, from outside
    bool braced;
    int returns;  ///< to and fro between water and cover
  };

  /// An upright side of a clear brace.
  struct Side {
    bool across_x;  ///< else across y
    double at_m;
  };

  template <class Share>
  void add_above(int a, int b, Course& course, double of_facets, const Share& share) {
    constexpr int most_returns = 2;
    const bool strips = tank_.freeboard_m > 0.0, clear = tank_.braces.any() && !tank_.braces.opaque;
    const int ways_x = strips && behind_pane(tank_.across_x, point_.x_m) ? 2 : 1;
    const int ways_y = strips && behind_pane(tank_.across_y, point_.y_m) ? 2 : 1;
    for (int x = 0; x < ways_x; ++x)
      for (int y = 0; y < ways_y; ++y)
        for (int brace = 0; brace < (clear ? 2 : 1); ++brace)
          for (int returns = 0; returns <= (tank_.cover ? most_returns : 0); ++returns)
            add_path(a, b, course, of_facets, share, {x == 1, y == 1, brace == 1, returns});
    if (!clear) return;
    for (const Side& side : sides_of_braces()) {
      add_mirrored(a, b, course, of_facets, share, side, true);
      add_mirrored(a, b, course, of_facets, share, side, false);
    }
    for (const double at : tank_.braces.cross_at_m)
      if (tank_.braces.half_cross_m > 0.0) add_across(a, b, course, of_facets, share, at);
  }

  std::vector<Side> sides_of_braces() const {
    const BraceOptics& braces = tank_.braces;
    std::vector<Side> sides;
    if (braces.rim_m > 0.0)
      sides = {{true, braces.rim_m},
               {true, tank_.across_x.side_m - braces.rim_m},
               {false, braces.rim_m},
               {false, tank_.across_y.side_m - braces.rim_m}};
    if (braces.half_cross_m > 0.0)
      for (const double at : braces.cross_at_m) {
        sides.push_back({true, at - braces.half_cross_m});
        sides.push_back({true, at + braces.half_cross_m});
      }
    return sides;
  }

  /// Reduced length of the way down to the walls' upper edge.
  double reduced_to_edge(const Ray& ray) const {
    const double plate = tank_.cover ? tank_.cover->pane.thickness_m : 0.0;
    double reduced = (point_.height_m - tank_.freeboard_m - plate) / ray.cos_air;
    if (tank_.cover) reduced += through_plate(tank_.cover->pane, ray);
    return reduced;
  }

  static double through_plate(const PaneOptics& plate, const Ray& ray) {
    return plate.thickness_m / std::sqrt(plate.index * plate.index - 1.0 + ray.cos_air * ray.cos_air);
  }

  /// Light that meets one side of a brace. What went in by the top is mirrored whole (index above 1.42: total
  /// reflection) and comes out below; what falls on it from the opening is mirrored by Fresnel's share. Either is seen
  /// from the point's image behind that side.
  template <class Share>
  void add_mirrored(int a, int b, Course& course, double of_facets, const Share& share, const Side& side,
                    bool in_glass) {
    const BraceOptics& braces = tank_.braces;
    set_level_plates(course, in_glass);
    course.strip_x = course.strip_y = {};
    double start_x = point_.x_m, start_y = point_.y_m;
    (side.across_x ? start_x : start_y) = 2.0 * side.at_m - (side.across_x ? start_x : start_y);
    const auto ray = ray_along(course, image(x_m_, tank_.across_x.side_m, a) - start_x,
                               image(y_m_, tank_.across_y.side_m, b) - start_y);
    if (!ray || ray->water_path_m < 0.0) return;
    const double reduced = reduced_to_edge(*ray);
    const double below =
        reduced + (in_glass ? through_plate(braces.pane, *ray) : braces.pane.thickness_m / ray->cos_air);
    const double top_x = start_x + reduced * ray->px, top_y = start_y + reduced * ray->py;
    const double low_x = start_x + below * ray->px, low_y = start_y + below * ray->py;
    const double p = side.across_x ? ray->px : ray->py;
    const double top = side.across_x ? top_x : top_y, low = side.across_x ? low_x : low_y;
    if ((top - side.at_m) * (low - side.at_m) >= 0.0) return;
    // Before it was mirrored, on the side where it is afterwards.
    const double before_x = side.across_x ? 2.0 * side.at_m - top_x : top_x;
    const double before_y = side.across_x ? top_y : 2.0 * side.at_m - top_y;
    if (!inside(low_x, low_y) || !inside(before_x, before_y)) return;
    if (tank_.on_brace(before_x, before_y) != in_glass || tank_.on_brace(low_x, low_y) != in_glass) return;
    // There is a side only where glass and air meet.
    if (tank_.on_brace(top_x, top_y) == in_glass) return;
    const double mirrored = in_glass ? plate_in_air(braces.pane, ray->cos_air).passed
                                     : kernel::reflectance(std::abs(p), braces.pane.index).unpolarised;
    add_from_edge(a, b, course, of_facets * mirrored, share, *ray, {start_x, start_y}, {low_x, low_y},
                  {side.across_x ? -ray->px : ray->px, side.across_x ? ray->py : -ray->py});
  }

  /// Light that goes in by one side of a cross brace, to and fro between its top and bottom (total reflection), and out
  /// by the other side, downward: as through a pane across x, from a point higher by the turns that it made.
  template <class Share>
  void add_across(int a, int b, Course& course, double of_facets, const Share& share, double middle_m) {
    const BraceOptics& braces = tank_.braces;
    const double wide = 2.0 * braces.half_cross_m, thick = braces.pane.thickness_m;
    const double sign = point_.x_m < middle_m ? 1.0 : -1.0;
    const double in_at = middle_m - sign * braces.half_cross_m, out_at = middle_m + sign * braces.half_cross_m;
    if (sign * (in_at - point_.x_m) <= 0.0) return;
    const double most = wide / (thick * std::sqrt(braces.pane.index * braces.pane.index - 1.0)) + 1.0;
    for (int turns = 0; turns <= most; turns += 2) {
      set_level_plates(course, false);
      course.air_m += turns * thick;
      course.strip_x = {wide, braces.pane.index * braces.pane.index - 1.0};
      course.strip_y = {};
      const double start_x = point_.x_m + sign * wide, start_y = point_.y_m;
      const auto ray = ray_along(course, image(x_m_, tank_.across_x.side_m, a) - start_x,
                                 image(y_m_, tank_.across_y.side_m, b) - start_y);
      if (!ray || ray->water_path_m < 0.0 || ray->px * sign <= 0.0) continue;
      const double to_edge = reduced_to_edge(*ray), to_side = (in_at - point_.x_m) / ray->px;
      const double sunk = (to_side - to_edge) * ray->cos_air;  // below the top where it goes in
      if (sunk <= 0.0 || sunk >= thick) continue;
      const double in_x = std::sqrt(braces.pane.index * braces.pane.index - 1.0 + ray->px * ray->px);
      const double fallen = sunk + ray->cos_air * wide / in_x - turns * thick;  // where it comes out
      if (fallen <= 0.0 || fallen >= thick) continue;
      const double low = (thick - fallen) / ray->cos_air;
      const double in_y = start_y + to_side * ray->py, out_y = in_y + wide / in_x * ray->py;
      const double low_x = out_at + low * ray->px, low_y = out_y + low * ray->py;
      const double beside = sign * 1e-9;
      if (!inside(low_x, low_y) || tank_.on_brace(in_at - beside, in_y) || tank_.on_brace(out_at + beside, out_y) ||
          tank_.on_brace(point_.x_m + to_edge * ray->px, start_y + to_edge * ray->py) || tank_.on_brace(low_x, low_y))
        continue;
      const double r = kernel::reflectance(std::abs(ray->px), braces.pane.index).unpolarised;
      const double passed =
          (1.0 - r) * (1.0 - r) * std::exp(-braces.pane.attenuation_per_m * wide * braces.pane.index / in_x);
      add_from_edge(a, b, course, of_facets * passed, share, *ray, {start_x, start_y}, {low_x, low_y},
                    {ray->px, ray->py});
    }
    course.strip_x = {};
  }

  /// A path that has passed the braces and stands at `low` under them, inside the tank.
  /// @param start  from which it seems to come
  /// @param sent   as it left the point: index times the sideways parts of its unit vector
  template <class Share>
  void add_from_edge(int a, int b, const Course& course, double shares, const Share& share, const Ray& ray,
                     const Place& start, const Place& low, const Place& sent) {
    const double entry_x = start[0] + ray.air_x, entry_y = start[1] + ray.air_y, freeboard = tank_.freeboard_m;
    const auto at_x =
        meetings(tank_.across_x, a, low[0], entry_x, freeboard, ray.cos_air / std::abs(ray.px), freeboard, false);
    const auto at_y =
        meetings(tank_.across_y, b, low[1], entry_y, freeboard, ray.cos_air / std::abs(ray.py), freeboard, false);
    if (at_x && at_y)
      add_arrival(a, b, course, shares * cover_passed(ray, 0), share(*at_x, *at_y, ray), ray, {entry_x, entry_y}, sent);
  }

  static Layer in_air(const PaneOptics& pane) { return {pane.thickness_m, pane.index * pane.index - 1.0}; }

  static const PaneOptics& pane_before(const WallPair& walls, double start) {
    return start < 0.0 ? walls.low.pane : walls.high.pane;
  }

  template <class Share>
  void add_path(int a, int b, Course& course, double of_facets, const Share& share, const Above& above) {
    const double h = point_.height_m, freeboard = tank_.freeboard_m;
    set_level_plates(course, above.braced);
    course.strip_x = above.through_x ? in_air(pane_before(tank_.across_x, point_.x_m)) : Layer{};
    course.strip_y = above.through_y ? in_air(pane_before(tank_.across_y, point_.y_m)) : Layer{};
    const double to_and_fro = tank_.cover ? 2.0 * above.returns * tank_.cover->height_m : 0.0;
    course.air_m += to_and_fro;
    // The strips' thickness lies toward the tank.
    const double start_x = point_.x_m + std::copysign(course.strip_x.thickness_m, -point_.x_m);
    const double start_y = point_.y_m + std::copysign(course.strip_y.thickness_m, -point_.y_m);
    const auto found = ray_along(course, image(x_m_, tank_.across_x.side_m, a) - start_x,
                                 image(y_m_, tank_.across_y.side_m, b) - start_y);
    if (!found || found->water_path_m < 0.0) return;
    const Ray& ray = *found;
    if (!passes_as_told(ray, above.braced)) return;

    const double entry_x = start_x + ray.air_x, entry_y = start_y + ray.air_y;
    if (above.returns > 0) {
      const double later = to_and_fro / ray.cos_air;
      if (!inside(entry_x, entry_y) || !inside(entry_x - ray.px * later, entry_y - ray.py * later)) return;
    }
    const auto at_x =
        meetings(tank_.across_x, a, point_.x_m, entry_x, h, ray.cos_air / std::abs(ray.px), freeboard, above.through_x);
    const auto at_y =
        meetings(tank_.across_y, b, point_.y_m, entry_y, h, ray.cos_air / std::abs(ray.py), freeboard, above.through_y);
    if (!at_x || !at_y) return;

    add_arrival(a, b, course, of_facets * passed_above(ray, above), share(*at_x, *at_y, ray), ray, {entry_x, entry_y},
                {ray.px, ray.py});
  }

  void set_level_plates(Course& course, bool braced) const {
    course.plates[0] = tank_.cover ? in_air(tank_.cover->pane) : Layer{};
    course.plates[1] = braced ? in_air(tank_.braces.pane) : Layer{};
    course.air_m = point_.height_m - course.plates[0].thickness_m - course.plates[1].thickness_m;
  }

  void add_arrival(int a, int b, const Course& course, double above, double of_walls, const Ray& ray,
                   const Place& entry, const Place& sent) {
    const double to_x = turned(std::abs(a)) * ray.qx / n_, to_y = turned(std::abs(b)) * ray.qy / n_;
    const double down = ray.in_water / n_;
    const double seen = received(scene_, to_x, to_y, down);
    if (!(seen > 0.0)) return;
    // A facet gets light in proportion to its area as seen along the ray.
    const double facets_seen = above * (1.0 + (ray.px * course.slope_x + ray.py * course.slope_y) / ray.cos_air);
    const double ppfd = point_.share * facets_seen * of_walls * seen *
                        intensity_toward(scene_, point_, sent[0], sent[1], ray.cos_air) *
                        (1.0 - kernel::reflectance(ray.facet_cos, n_).unpolarised) *
                        scene_.optics.left_after(ray.water_path_m) / (ray.cos_air * std::abs(ray.det));
    if (ppfd > 0.0) arrivals_.push_back({ppfd, to_x, to_y, down, from_, entry[0] - point_.x_m, entry[1] - point_.y_m});
  }

  double passed_above(const Ray& ray, const Above& above) const {
    return (above.braced ? plate_in_air(tank_.braces.pane, ray.cos_air).passed : 1.0) *
           cover_passed(ray, above.returns);
  }

  double cover_passed(const Ray& ray, int returns) const {
    if (!tank_.cover) return 1.0;
    const PlateShares cover = plate_in_air(tank_.cover->pane, ray.cos_air);
    const double back = kernel::reflectance(ray.cos_air, n_).unpolarised * cover.reflected;
    return cover.passed * whole_power(back, returns);
  }

  bool inside(double x, double y) const {
    return x >= 0.0 && x <= tank_.across_x.side_m && y >= 0.0 && y <= tank_.across_y.side_m;
  }

  /// True where the ray goes through a brace, or past it, just as it was solved for.
  bool passes_as_told(const Ray& ray, bool braced) const {
    if (!tank_.braces.any()) return true;
    double reduced = reduced_to_edge(ray);
    const auto x = [&] { return point_.x_m + reduced * ray.px; };
    const auto y = [&] { return point_.y_m + reduced * ray.py; };
    if (tank_.on_brace(x(), y()) != braced) return false;
    reduced += braced ? through_plate(tank_.braces.pane, ray) : tank_.braces.pane.thickness_m / ray.cos_air;
    if (!braced) return !tank_.on_brace(x(), y());
    // By the end of a brace light goes on into the pane that it is bonded to, and stays there; coated walls mirror it.
    const auto folded = [](const WallPair& walls, double place) {
      if (place < 0.0) return walls.low.kind == WallKind::coated ? -place : HUGE_VAL;
      if (place > walls.side_m) return walls.high.kind == WallKind::coated ? 2.0 * walls.side_m - place : HUGE_VAL;
      return place;
    };
    return tank_.on_brace(folded(tank_.across_x, x()), folded(tank_.across_y, y()));
  }

  const Scene& scene_;
  const FittedTank& tank_;
  const EmitterPoint& point_;
  std::size_t from_;
  double x_m_, y_m_, n_;
  std::vector<Arrival>& arrivals_;
};

}  // namespace

void add_in_fitted_tank(const Scene& scene, std::size_t point, double x_m, double y_m, std::vector<Arrival>& arrivals) {
  FittedPaths(scene, point, x_m, y_m, arrivals).add();
}

}  // namespace theca::light
