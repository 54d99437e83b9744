#include "theca/structure/tank.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <utility>

#include "plate_basis.hpp"
#include "tank_model.hpp"
#include "theca/require.hpp"

namespace theca::structure {
namespace {

using detail::axis_x;
using detail::axis_y;
using detail::axis_z;
using detail::FoldedJoint;
using detail::FoldedPlate;
using detail::FoldedStructure;
using detail::JointIndex;
using detail::PartIndex;
using detail::TankModel;

bool is_strip(TankPart part) { return part >= TankPart::front_rim; }

/// A place of a part on the plate that stands for it, or back: an image runs the other way along the mirrored axis.
PanelPlace mirrored(const FoldedPlate& p, const PartIndex& index, PanelPlace place) {
  if (index.flipped_x && p.along_x == axis_x) place.x = from_si<Length>(p.length_x) - place.x;
  if (index.flipped_y && p.along_y == axis_y) place.y = from_si<Length>(p.length_y) - place.y;
  return place;
}

/// In which direction a strip runs, its bond to the wall and its inner edge.
bool runs_along_x(TankPart part) { return part == TankPart::front_rim || part == TankPart::back_rim; }

/// Where a place along a part lies: on which plate, and whether beyond the mirror.
struct Located {
  std::size_t plate;
  double along;
  bool beyond;
};

Located locate(const FoldedStructure& s, const PartIndex& index, double along) {
  if (index.segments.empty()) return {static_cast<std::size_t>(index.plate), along, false};
  const auto plate = [&](int segment) -> const FoldedPlate& { return s.plates[static_cast<std::size_t>(segment)]; };
  const double start = plate(index.segments.front()).start_x;
  const FoldedPlate& last = plate(index.segments.back());
  double place = start + along;
  const bool beyond = last.mirrored_x && place > last.start_x + last.length_x;
  if (beyond) place = start + index.length - along;
  for (const int segment : index.segments)
    if (place <= plate(segment).start_x + plate(segment).length_x || segment == index.segments.back())
      return {static_cast<std::size_t>(segment),
              std::clamp(place - plate(segment).start_x, 0.0, plate(segment).length_x), beyond};
  return {static_cast<std::size_t>(index.plate), along, false};
}

/// @param m  positive where the strip's high edge is in tension
StripSection strip_section(TankPart part, double at, double n, double m, double width, double thickness) {
  if (part == TankPart::back_rim || part == TankPart::right_rim) m = -m;  // its inner edge is the low one
  const double area = width * thickness, modulus = area * width / 6.0;
  return {from_si<Length>(at), from_si<Force>(n), from_si<Moment>(m), from_si<Pressure>(n / area + m / modulus),
          from_si<Pressure>(n / area - m / modulus)};
}

StripSection section(const FoldedStructure& s, const PartIndex& index, double at) {
  const TankPart part = index.part;
  const Located located = locate(s, index, at);
  const FoldedPlate& p = s.plates[located.plate];
  const bool x = runs_along_x(part);
  const double width = x ? p.length_y : p.length_x;
  const detail::GaussRule rule = detail::gauss_rule(4);
  double n = 0.0, m = 0.0;
  for (Eigen::Index q = 0; q < rule.point.size(); ++q) {
    const double across = 0.5 * width * (rule.point[q] + 1.0);
    const detail::FoldedState state =
        x ? s.at(located.plate, located.along, across) : s.at(located.plate, across, located.along);
    const double membrane = x ? state.membrane_x : state.membrane_y;
    n += 0.5 * width * rule.weight[q] * membrane;
    m += 0.5 * width * rule.weight[q] * membrane * (across - 0.5 * width);
  }
  return strip_section(part, at, n, m, width, p.thickness);
}

/// The section at an end of a strip, from what its joint there carries. The plate's own stresses converge slowly beside
/// the ring's inner corner, where they are singular; the forces of the joint keep the balance. None beyond a mirror.
std::optional<StripSection> end_section(const TankModel& model, const PartIndex& index, bool high) {
  const FoldedStructure& s = model.structure;
  const bool x = runs_along_x(index.part);
  const int plate = index.segments.empty() ? index.plate : high ? index.segments.back() : index.segments.front();
  const FoldedPlate& p = s.plates[static_cast<std::size_t>(plate)];
  const Side end = x ? (high ? Side::right : Side::left) : (high ? Side::top : Side::bottom);
  for (std::size_t k = 0; k < s.joints.size(); ++k) {
    const FoldedJoint& j = s.joints[k];
    const bool first = j.a.plate == plate && j.a.edge == end, second = j.b.plate == plate && j.b.edge == end;
    if (!first && !second) continue;
    const double sign = first != high ? 1.0 : -1.0;  // a joint hands from its first side to its second
    const detail::JointProfile profile = s.profile(k);
    const detail::GaussRule rule = detail::gauss_rule(12);
    const double width = j.to - j.from;
    double n = 0.0, m = 0.0;
    for (Eigen::Index q = 0; q < rule.point.size(); ++q) {
      const double off_middle = 0.5 * width * rule.point[q];
      const double pull = 0.5 * width * rule.weight[q] * sign *
                          profile.at(j.from + 0.5 * width + off_middle).force[x ? axis_x : axis_y];
      n += pull;
      m += pull * off_middle;
    }
    const double at = !high ? 0.0 : index.segments.empty() ? p.length_y : index.length;
    return strip_section(index.part, at, n, m, width, p.thickness);
  }
  return {};
}

BentStripSections strip_sections(const TankModel& model, const PartIndex& index) {
  const FoldedStructure& s = model.structure;
  const FoldedPlate& p = s.plates[static_cast<std::size_t>(index.plate)];
  const double span = index.segments.empty() ? p.length_y : index.length;
  BentStripSections r;
  r.part = index.part;
  r.number = index.number;
  r.mid_span = section(s, index, 0.5 * span);
  r.inner_corner = end_section(model, index, false).value_or(section(s, index, 0.0));
  constexpr int steps = 20;
  double most = 0.0;
  const auto count = [&most](const StripSection& at) { most = std::max({most, si(at.inner_edge), si(at.outer_edge)}); };
  count(r.inner_corner);
  if (const auto far = end_section(model, index, true)) count(*far);
  for (int i = 1; i < steps; ++i) count(section(s, index, span * i / steps));
  r.max_stress = from_si<Pressure>(most);
  double shear = 0.0, peel = 0.0;
  for (const JointIndex& bond : model.bonds) {
    const FoldedJoint& j = s.joints[bond.joint];
    if (j.a.plate != index.plate &&
        std::find(index.segments.begin(), index.segments.end(), j.a.plate) == index.segments.end())
      continue;
    const double edge = std::min(p.thickness, 0.1 * (j.to - j.from));
    const detail::JointProfile profile = s.profile(bond.joint);
    for (int i = 0; i <= steps; ++i) {
      const detail::JointForce f = profile.at(j.from + edge + (j.to - j.from - 2.0 * edge) * i / steps);
      const auto normal = static_cast<std::size_t>(bond.normal);
      double sum = 0.0;
      for (std::size_t g = 0; g < 3; ++g) sum += g == normal ? 0.0 : f.force[g] * f.force[g];
      shear = std::max(shear, std::sqrt(sum));
      // force on side a is -k (a - b); the strip is pulled off where it moves inward against the wall
      const bool low_side = j.a.edge == Side::bottom || j.a.edge == Side::left;
      peel = std::max(peel, low_side ? f.force[normal] : -f.force[normal]);
    }
  }
  r.bond_shear = from_si<LineLoad>(shear);
  r.bond_peel = from_si<LineLoad>(peel);
  return r;
}

BentPart bent_part(const TankModel& model, const PartIndex& index) {
  const FoldedStructure& s = model.structure;
  const auto plate = static_cast<std::size_t>(index.plate);
  const FoldedPlate& p = s.plates[plate];
  BentPart r;
  r.part = index.part;
  r.number = index.number;
  r.width = from_si<Length>(p.length_x);
  r.height = from_si<Length>(p.length_y);
  r.thickness = from_si<Length>(p.thickness);
  const auto place = [](const detail::Peak& peak) {
    return PanelPlace{from_si<Length>(peak.x), from_si<Length>(peak.y)};
  };
  auto deflection = s.largest_deflection(plate);
  if (!index.segments.empty()) {
    r.width = from_si<Length>(index.length);
    for (const int segment : index.segments) {
      detail::Peak peak = s.largest_deflection(static_cast<std::size_t>(segment));
      peak.x += s.plates[static_cast<std::size_t>(segment)].start_x - p.start_x;
      if (peak.value > deflection.value) deflection = peak;
    }
  }
  r.max_deflection = from_si<Length>(deflection.value);
  r.max_deflection_at = place(deflection);
  r.deflection_over_thickness = deflection.value / p.thickness;
  if (is_strip(index.part)) return r;  // its nominal section stress takes the place of the peak
  // A thickness off: nearer by, the twist falls off within the short reach of the joints' springs.
  const double from_edge = p.thickness;
  for (const double x : {from_edge, p.length_x - from_edge})
    for (const double y : {from_edge, p.length_y - from_edge}) {
      const Force corner = from_si<Force>(2.0 * std::abs(s.at(plate, x, y).moment_xy) / detail::twist_share(p, x, y));
      if (corner <= r.corner_force) continue;
      r.corner_force = corner;
      r.corner_force_at = {from_si<Length>(x), from_si<Length>(y)};
    }
  const double off = 0.5 * p.thickness;
  r.distance_from_joint = from_si<Length>(off);
  const bool wall = index.part != TankPart::base;
  const auto tension = s.largest_tension(plate, off, p.length_x - off, off, wall ? p.length_y : p.length_y - off);
  r.max_tension = from_si<Pressure>(tension.value);
  r.max_tension_at = place(tension);
  const bool normal_is_outside = index.part == TankPart::back_wall || index.part == TankPart::right_wall;
  r.max_tension_on_outside = s.at(plate, tension.x, tension.y).on_normal_side == normal_is_outside;
  return r;
}

BentJoint bent_joint(const FoldedStructure& s, const JointIndex& index) {
  const FoldedJoint& j = s.joints[index.joint];
  BentJoint r;
  r.first = index.first;
  r.second = index.second;
  const bool on_ground = index.joint + 1 < s.joints.size() && s.joints[index.joint + 1].b.plate < 0 &&
                         s.joints[index.joint + 1].a.plate == j.a.plate;  // its vertical and turning springs
  const detail::JointProfile profile = s.profile(index.joint);
  const detail::JointProfile ground = on_ground ? s.profile(index.joint + 1) : detail::JointProfile();
  const auto at = [&](double place) {
    detail::JointForce f = profile.at(place);
    if (on_ground) {
      const detail::JointForce under = ground.at(place);
      for (std::size_t g = 0; g < 3; ++g) f.force[g] += under.force[g];
      f.moment += under.moment;
    }
    return f;
  };
  const auto normal = static_cast<std::size_t>(index.normal), along = static_cast<std::size_t>(index.along);
  const std::size_t across = 3 - normal - along;
  // Opening is the first part moving away from the second: up from the base, away from the side wall.
  const bool second_low = index.second == TankPart::base || index.second == TankPart::front_wall;
  const double opens = second_low ? 1.0 : -1.0;
  detail::JointForce total = profile.total();
  if (on_ground) {
    const detail::JointForce under = ground.total();
    for (std::size_t g = 0; g < 3; ++g) total.force[g] += under.force[g];
  }
  r.opening = from_si<Force>(opens * total.force[normal]);
  r.along = from_si<Force>(total.force[along]);
  r.across = from_si<Force>(total.force[across]);
  const double edge = std::min(s.plates[static_cast<std::size_t>(j.a.plate)].thickness, 0.1 * (j.to - j.from));
  constexpr int steps = 40;
  for (int i = 0; i <= steps; ++i) {
    const double place = j.from + edge + (j.to - j.from - 2.0 * edge) * i / steps;
    const detail::JointForce f = at(place);
    const double line = std::hypot(std::max(opens * f.force[normal], 0.0), f.force[across]);
    if (line > si(r.max_line_load)) {
      r.max_line_load = from_si<LineLoad>(line);
      r.max_line_load_at = from_si<Length>(place);
    }
    r.max_opening = from_si<LineLoad>(std::max(si(r.max_opening), opens * f.force[normal]));
    r.max_moment = from_si<MomentPerLength>(std::max(si(r.max_moment), std::abs(f.moment)));
  }
  return r;
}

BentSupport bent_support(const TankModel& model) {
  const FoldedStructure& s = model.structure;
  constexpr int steps = 40;
  double most_pressure = 0.0, most_line = 0.0;
  double least_pressure = std::numeric_limits<double>::infinity(), least_line = least_pressure;
  for (std::size_t n = 0; n < s.plates.size(); ++n) {
    const FoldedPlate& p = s.plates[n];
    if (p.foundation <= 0.0) continue;
    constexpr int grid = 16;  // even, so that a mirror plane is on it; each place costs a microsecond
    for (int i = 0; i <= (p.mirrored_x ? grid / 2 : grid); ++i)
      for (int j = 0; j <= (p.mirrored_y ? grid / 2 : grid); ++j) {
        const double down = -s.at(n, p.length_x * i / grid, p.length_y * j / grid).displacement[axis_z];
        most_pressure = std::max(most_pressure, p.foundation * down);
        least_pressure = std::min(least_pressure, p.foundation * down);
      }
  }
  for (std::size_t k = 0; k < s.joints.size(); ++k) {
    const FoldedJoint& j = s.joints[k];
    if (j.b.plate >= 0 || j.stiffness[axis_z] <= 0.0) continue;
    const double edge = 0.02 * (j.to - j.from);  // at its very ends a polynomial's line load overshoots
    const detail::JointProfile profile = s.profile(k);
    for (int i = 0; i <= steps; ++i) {
      const detail::JointForce handed_down = profile.at(j.from + edge + (j.to - j.from - 2.0 * edge) * i / steps);
      const double up = -handed_down.force[axis_z];
      most_line = std::max(most_line, up);
      least_line = std::min(least_line, up);
    }
  }
  const auto or_none = [](double least) { return std::isfinite(least) ? least : 0.0; };
  // Under a thousandth of the largest is rounding of the polynomials.
  // On a plane the base, pressed down by its water, holds a foot that pulls.
  const bool on_plane = std::any_of(s.plates.begin(), s.plates.end(), [](const FoldedPlate& p) { return p.flat; });
  const bool pulls = !on_plane && (least_pressure < -1e-3 * most_pressure || least_line < -1e-3 * most_line);
  return {from_si<Pressure>(most_pressure), from_si<Pressure>(or_none(least_pressure)), from_si<LineLoad>(most_line),
          from_si<LineLoad>(or_none(least_line)), pulls};
}

/// Largest imbalance of a wall across its plane, over the water on it.
double imbalance(const FoldedStructure& s) {
  std::vector<detail::JointForce> force;
  for (std::size_t k = 0; k < s.joints.size(); ++k) force.push_back(s.profile(k).total());
  double worst = 0.0;
  for (std::size_t n = 0; n < s.plates.size(); ++n) {
    const FoldedPlate& p = s.plates[n];
    if (!p.pressure || p.normal == axis_z) continue;
    const auto g = static_cast<std::size_t>(p.normal);
    double sum = p.images * s.load_total(n)[g];
    const double water = std::abs(sum);
    for (std::size_t k = 0; k < s.joints.size(); ++k) {
      const FoldedJoint& j = s.joints[k];
      const bool a = j.a.plate == static_cast<int>(n), b = j.b.plate == static_cast<int>(n);
      if (a || b) sum -= (a ? 1.0 : -1.0) * j.images * force[k].force[g];
    }
    if (water > 0.0) worst = std::max(worst, std::abs(sum) / water);
  }
  return worst;
}

/// Kept with the solution, to find parts again.
struct Solution : FoldedStructure {
  explicit Solution(TankModel model) : FoldedStructure(std::move(model.structure)), parts(std::move(model.parts)) {}
  std::vector<PartIndex> parts;
};

/// Of the parts of the solution or of the results.
template <class Part>
const Part& find(const std::vector<Part>& parts, TankPart which, int number) {
  for (const Part& p : parts)
    if (p.part == which && p.number == number) return p;
  throw InvalidInput("tank part", std::string(name(which)) + " " + std::to_string(number), "a part that the tank has");
}

}  // namespace

std::string_view name(JointModel model) {
  switch (model) {
    case JointModel::as_bonded:
      return "as bonded";
    case JointModel::hinged:
      return "hinged";
    case JointModel::monolithic:
      break;
  }
  return "monolithic";
}

std::string_view name(TankPart part) {
  constexpr std::array<std::string_view, 10> names = {"front wall", "back wall",  "left wall", "right wall",
                                                      "base",       "front rim",  "back rim",  "left rim",
                                                      "right rim",  "cross brace"};
  return names[static_cast<std::size_t>(part)];
}

BentTank bend(const Tank& tank, const TankLoad& load, JointModel joints) {
  detail::require_possible(tank, load, joints);
  TankModel model = detail::tank_model(tank, load, joints);
  model.structure.solve();
  BentTank bent;
  bent.tank = tank;
  bent.load = load;
  bent.joints = joints;
  for (const PartIndex& index : model.parts) {
    const bool image = index.flipped_x || index.flipped_y;
    if (!image) {
      bent.parts.push_back(bent_part(model, index));
      if (is_strip(index.part)) {
        bent.strips.push_back(strip_sections(model, index));
        bent.parts.back().max_tension = bent.strips.back().max_stress;
      }
      continue;
    }
    const auto copy = [&](auto& list, const PartIndex& original) {
      for (auto& result : list)
        if (result.part == original.part && result.number == original.number) {
          auto twin = result;
          twin.part = index.part;
          twin.number = index.number;
          list.push_back(twin);
          return;
        }
    };
    const auto original = std::find_if(model.parts.begin(), model.parts.end(),
                                       [&](const PartIndex& p) { return p.plate == index.plate; });
    copy(bent.parts, *original);
    const FoldedPlate& p = model.structure.plates[static_cast<std::size_t>(index.plate)];
    bent.parts.back().max_deflection_at = mirrored(p, index, bent.parts.back().max_deflection_at);
    bent.parts.back().corner_force_at = mirrored(p, index, bent.parts.back().corner_force_at);
    if (is_strip(index.part)) copy(bent.strips, *original);
  }
  for (const JointIndex& index : model.joints) bent.joint_loads.push_back(bent_joint(model.structure, index));
  bent.support = bent_support(model);
  bent.equilibrium_residual = imbalance(model.structure);
  bent.unknowns = model.structure.unknowns();
  bent.solution = std::make_shared<Solution>(std::move(model));
  return bent;
}

TankBetweenLimits bend_between_limits(const Tank& tank, const TankLoad& load) {
  TankBetweenLimits limits{bend(tank, load, JointModel::hinged), bend(tank, load, JointModel::monolithic), {}};
  if (tank.joint) limits.as_bonded = bend(tank, load, JointModel::as_bonded);
  return limits;
}

BentPart part(const BentTank& bent, TankPart which, int number) { return find(bent.parts, which, number); }

TankState state_at(const BentTank& bent, TankPart which, const Length& x, const Length& y, int number) {
  require::that(bent.solution != nullptr, "bent tank", 0.0, "a tank that `bend` has returned");
  const auto& solution = static_cast<const Solution&>(*bent.solution);
  const PartIndex& index = find(solution.parts, which, number);
  const FoldedPlate& p = solution.plates[static_cast<std::size_t>(index.plate)];
  require::within("x", x, Length(), from_si<Length>(index.segments.empty() ? p.length_x : index.length));
  require::within("y", y, Length(), from_si<Length>(p.length_y));
  const PanelPlace place = mirrored(p, index, {x, y});
  const Located located = locate(solution, index, si(place.x));
  const detail::FoldedState s = solution.at(located.plate, located.along, si(place.y));
  return {from_si<Length>((index.flipped_x != located.beyond ? -1.0 : 1.0) * s.displacement[0]),
          from_si<Length>((index.flipped_y ? -1.0 : 1.0) * s.displacement[1]), from_si<Length>(s.displacement[2]),
          from_si<Pressure>(s.tension)};
}

}  // namespace theca::structure
