#include "theca/farm/reach.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "theca/require.hpp"

namespace theca::farm {
namespace {

// Everything in metres. x = 0 is the outer tank face on the person's side, y = 0 the floor.
struct Point {
  double x, y;
};
// Metres: nothing overflows that hypot would save, and it takes most of the time of a reach.
double distance(Point a, Point b) {
  const double x = a.x - b.x, y = a.y - b.y;
  return std::sqrt(x * x + y * y);
}

struct Section {
  double width, wall, rim, edge, plane;  // edge: from the outer face to the inner edge of wall and brace
};

struct Interval {
  double low, high;
};

constexpr double unreachable = std::numeric_limits<double>::infinity();
constexpr double right_angle = 1.57079632679489661923;
constexpr double bend_step = 0.25 * right_angle / 90.0;

Section checked(const RackSection& s) {
  require::positive("outside width", s.outside_width);
  require::positive("wall thickness", s.wall_thickness);
  require::positive("rim height", s.rim_height);
  require::not_negative("rim brace width", s.rim_brace_width);
  require::not_negative("plane height", s.plane_height);
  const Section out{si(s.outside_width), si(s.wall_thickness), si(s.rim_height),
                    si(s.wall_thickness) + si(s.rim_brace_width), si(s.plane_height)};
  require::that(2.0 * out.wall < out.width, "wall thickness", s.wall_thickness,
                "less than half the outside width, " + text(s.outside_width));
  require::that(2.0 * out.edge < out.width, "rim brace width", s.rim_brace_width,
                "so narrow that an opening is left in " + text(s.outside_width));
  require::that(out.plane < out.rim, "plane height", s.plane_height, "below the rim, " + text(s.rim_height));
  return out;
}

void require_stance(const Stance& stance) {
  require::positive("shoulder stand-off", stance.shoulder_stand_off);
  require::not_negative("step", stance.step);
}

// The shoulder after bending the trunk by an angle.
Point shoulder_at(const Body& body, const Section& s, const Stance& stance, double bend) {
  const double stand_off = si(stance.shoulder_stand_off);
  const double hip = si(body.hip_height) + si(body.footwear) + si(stance.step);
  const double trunk = si(body.shoulder_height) - si(body.hip_height);
  double back = stand_off;  // hip behind the tank face
  if (stance.trunk_clears_rim) {
    // The trunk, a line from hip to shoulder, keeps the stand-off from the tank face and from the rim's outer edge.
    const double sine = std::sin(bend), cosine = std::cos(bend);
    const double rim_over_hip = s.rim - hip;
    const double shoulder_over_rim = trunk * cosine - rim_over_hip;
    if (shoulder_over_rim <= 0.0)  // the shoulder itself stays before the face
      back = std::max(back, trunk * sine + stand_off);
    else if (shoulder_over_rim < stand_off * sine)  // the shoulder comes closest to the edge
      back = std::max(back, trunk * sine + std::sqrt(stand_off * stand_off - shoulder_over_rim * shoulder_over_rim));
    else if (rim_over_hip + stand_off * sine > 0.0)  // some place between hip and shoulder does
      back = std::max(back, (stand_off + rim_over_hip * sine) / cosine);
  }
  return {trunk * std::sin(bend) - back, hip + trunk * std::cos(bend)};
}

// Length of the string from the shoulder over the rim to a point on the plane.
double string_length(const Section& s, Point shoulder, double x) {
  const Point target{x, s.plane};
  const Point outer{0.0, s.rim}, near_edge{s.edge, s.rim}, far_edge{s.width - s.edge, s.rim};
  if (shoulder.y <= s.rim) {
    if (shoulder.x <= 0.0) return distance(shoulder, outer) + s.edge + distance(near_edge, target);
    if (shoulder.x < s.edge || shoulder.x > far_edge.x) return unreachable;  // inside glass or brace
    return distance(shoulder, target);
  }
  const double crossing = shoulder.x + (x - shoulder.x) * (shoulder.y - s.rim) / (shoulder.y - s.plane);
  const Point* bent_over = crossing < near_edge.x ? &near_edge : crossing > far_edge.x ? &far_edge : nullptr;
  if (bent_over == nullptr) return distance(shoulder, target);
  return distance(shoulder, *bent_over) + distance(*bent_over, target);
}

// The string length is a convex function of the target's place on the plane: a shortest path inside a polygon.
Interval reached(const Section& s, Point shoulder, double arm) {
  const auto length = [&](double x) { return string_length(s, shoulder, x); };
  double low = s.wall, high = s.width - s.wall;
  while (high - low > 1e-10) {  // m
    const double left = low + (high - low) / 3.0, right = high - (high - low) / 3.0;
    if (length(left) <= length(right))
      high = right;
    else
      low = left;
  }
  const double best = 0.5 * (low + high);
  if (!(length(best) <= arm)) return {s.wall, s.wall};
  const auto last_within = [&](double inside, double outside) {
    if (length(outside) <= arm) return outside;
    for (int i = 0; i < 45; ++i) {
      const double middle = 0.5 * (inside + outside);
      (length(middle) <= arm ? inside : outside) = middle;
    }
    return inside;
  };
  return {last_within(best, s.wall), last_within(best, s.width - s.wall)};
}

Reach combine(const Section& s, OpenSides sides, std::vector<Interval> parts) {
  std::erase_if(parts, [](const Interval& p) { return p.high <= p.low; });
  if (parts.empty()) return {from_si<Length>(s.wall), from_si<Length>(s.wall), 0.0};
  double nearest = s.width, farthest = 0.0;
  for (const Interval& p : parts) {
    nearest = std::min(nearest, p.low);
    farthest = std::max(farthest, p.high);
  }
  if (sides == OpenSides::both) {
    const std::size_t from_this_side = parts.size();
    for (std::size_t i = 0; i < from_this_side; ++i) parts.push_back({s.width - parts[i].high, s.width - parts[i].low});
  }
  std::sort(parts.begin(), parts.end(), [](const Interval& a, const Interval& b) { return a.low < b.low; });
  double covered = 0.0, end = s.wall;
  for (const Interval& p : parts) {
    covered += std::max(0.0, p.high - std::max(end, p.low));
    end = std::max(end, p.high);
  }
  return {from_si<Length>(nearest), from_si<Length>(farthest), std::min(1.0, covered / (s.width - 2.0 * s.wall))};
}

// Bends of a fixed grid up to the limit, and the limit itself: a larger limit only ever adds bends.
std::vector<double> bends_up_to(double limit) {
  std::vector<double> bends;
  for (int i = 0; i * bend_step < limit; ++i) bends.push_back(i * bend_step);
  bends.push_back(limit);
  return bends;
}

double checked_bend(std::string_view argument, const Angle& bend) {
  require::within(argument, bend, from_si<Angle>(0.0), 90.0 * units::degree);
  return std::min(si(bend), right_angle - 1e-9);  // the trunk's stand-off has no meaning when it lies on the rim
}

ArmNeeded worst_point(const Section& s, OpenSides sides, const std::vector<Point>& shoulders) {
  constexpr int cells = 200;  // even, so that the middle is a grid point
  ArmNeeded worst{from_si<Length>(0.0), from_si<Length>(s.wall)};
  for (int i = 0; i <= cells; ++i) {
    const double x = s.wall + (s.width - 2.0 * s.wall) * i / cells;
    double needed = unreachable;
    for (const Point& shoulder : shoulders) {
      needed = std::min(needed, string_length(s, shoulder, x));
      if (sides == OpenSides::both) needed = std::min(needed, string_length(s, shoulder, s.width - x));
    }
    if (needed > si(worst.arm)) worst = {from_si<Length>(needed), from_si<Length>(x)};
  }
  return worst;
}

std::vector<Point> shoulders_up_to(const Body& body, const Section& s, const Stance& stance, double limit) {
  std::vector<Point> shoulders;
  for (const double bend : bends_up_to(limit)) shoulders.push_back(shoulder_at(body, s, stance, bend));
  return shoulders;
}

}  // namespace

Reach reach(const Body& body, const RackSection& section, OpenSides sides, const Stance& stance, const Angle& bend) {
  require_body(body);
  const Section s = checked(section);
  require_stance(stance);
  const double angle = checked_bend("bend", bend);
  return combine(s, sides, {reached(s, shoulder_at(body, s, stance, angle), si(body.shoulder_grip))});
}

ArmNeeded arm_needed(const Body& body, const RackSection& section, OpenSides sides, const Stance& stance,
                     const Angle& limit) {
  require_body(body);
  const Section s = checked(section);
  require_stance(stance);
  return worst_point(s, sides, shoulders_up_to(body, s, stance, checked_bend("bend limit", limit)));
}

Reach reach_up_to(const Body& body, const RackSection& section, OpenSides sides, const Stance& stance,
                  const Angle& limit) {
  require_body(body);
  const Section s = checked(section);
  require_stance(stance);
  std::vector<Interval> parts;
  for (const Point& shoulder : shoulders_up_to(body, s, stance, checked_bend("bend limit", limit)))
    parts.push_back(reached(s, shoulder, si(body.shoulder_grip)));
  return combine(s, sides, std::move(parts));
}

std::vector<ReachPoint> reach_map(const Body& body, const RackSection& section, OpenSides sides, const Stance& stance,
                                  const Angle& limit, int columns, int rows) {
  require_body(body);
  Section s = checked(section);
  require_stance(stance);
  require::that(columns >= 2 && columns <= 1000, "columns", columns, "2 to 1000");
  require::that(rows >= 2 && rows <= 1000, "rows", rows, "2 to 1000");
  const std::vector<double> bends = bends_up_to(checked_bend("bend limit", limit));
  const std::vector<Point> shoulders = shoulders_up_to(body, s, stance, bends.back());
  const double arm = si(body.shoulder_grip), lowest = s.plane, height = s.rim - s.plane;
  std::vector<ReachPoint> map;
  for (int row = 0; row < rows; ++row) {
    s.plane = lowest + height * (row + 0.5) / rows;
    for (int column = 0; column < columns; ++column) {
      const double x = s.wall + (s.width - 2.0 * s.wall) * (column + 0.5) / columns;
      const auto within_arm = [&](const Point& shoulder) {
        return string_length(s, shoulder, x) <= arm ||
               (sides == OpenSides::both && string_length(s, shoulder, s.width - x) <= arm);
      };
      const auto first = std::find_if(shoulders.begin(), shoulders.end(), within_arm);
      const bool found = first != shoulders.end();
      const double bend = found ? bends[static_cast<std::size_t>(first - shoulders.begin())] : bends.back();
      map.push_back({from_si<Length>(x), from_si<Length>(s.plane), found, from_si<Angle>(bend)});
    }
  }
  return map;
}

std::optional<Angle> smallest_bend(const Body& body, const RackSection& section, OpenSides sides, const Stance& stance,
                                   const Angle& limit) {
  require_body(body);
  const Section s = checked(section);
  require_stance(stance);
  const double most = checked_bend("bend limit", limit);
  const auto enough = [&](double bend) {
    return worst_point(s, sides, shoulders_up_to(body, s, stance, bend)).arm <= body.shoulder_grip;
  };
  if (!enough(most)) return std::nullopt;
  if (enough(0.0)) return from_si<Angle>(0.0);
  double too_little = 0.0, suffices = most;
  while (suffices - too_little > 0.01 * right_angle / 90.0) {
    const double middle = 0.5 * (too_little + suffices);
    (enough(middle) ? suffices : too_little) = middle;
  }
  return from_si<Angle>(suffices);
}

}  // namespace theca::farm
