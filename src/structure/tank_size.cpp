#include "theca/structure/tank_size.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <exception>
#include <string>

#include "theca/error.hpp"
#include "theca/require.hpp"

namespace theca::structure {
namespace {

void require_possible(const Tank& tank, const TankCriteria& c, const std::vector<JointModel>& joints) {
  bool any = false;
  const auto given = [&](const char* what, const auto& criterion) {
    if (!criterion) return;
    require::positive(what, *criterion);
    any = true;
  };
  given("wall tension", c.wall_tension);
  given("base tension", c.base_tension);
  given("strip stress", c.strip_stress);
  given("wall deflection", c.wall_deflection);
  given("wall deflection over length", c.wall_deflection_over_length);
  given("joint load", c.joint_load);
  given("joint stress", c.joint_stress);
  require::that(any, "tank criteria", 0.0, "at least one");
  require::that(!joints.empty(), "joint models", 0.0, "at least one");
  require::that(!c.joint_stress || tank.joint.has_value(), "tank joint", 0.0,
                "an adhesive bead, over whose bite the joint stress acts");
}

bool is_wall(TankPart part) { return part <= TankPart::right_wall; }

/// The worst place of every criterion that is asked.
std::vector<TankUtilisation> utilisations(const BentTank& bent, const TankCriteria& c) {
  std::vector<TankUtilisation> worst;
  const auto use = [&](TankCriterion criterion, TankPart where, int number, double utilisation) {
    auto known =
        std::find_if(worst.begin(), worst.end(), [&](const TankUtilisation& u) { return u.criterion == criterion; });
    if (known == worst.end()) known = worst.insert(worst.end(), {criterion, bent.joints, where, number, -1.0});
    if (utilisation > known->utilisation) *known = {criterion, bent.joints, where, number, utilisation};
  };
  for (const BentPart& p : bent.parts) {
    if (is_wall(p.part)) {
      const double bow = si(p.max_deflection);
      if (c.wall_tension) use(TankCriterion::wall_tension, p.part, 0, si(p.max_tension) / si(*c.wall_tension));
      if (c.wall_deflection) use(TankCriterion::wall_deflection, p.part, 0, bow / si(*c.wall_deflection));
      if (c.wall_deflection_over_length)
        use(TankCriterion::wall_deflection, p.part, 0, bow / (si(p.width) * *c.wall_deflection_over_length));
      use(TankCriterion::linear_theory, p.part, 0, p.deflection_over_thickness / linear_deflection_limit);
    }
    if (p.part == TankPart::base && c.base_tension)
      use(TankCriterion::base_tension, p.part, 0, si(p.max_tension) / si(*c.base_tension));
  }
  for (const BentStripSections& s : bent.strips)
    if (c.strip_stress) use(TankCriterion::strip_stress, s.part, s.number, si(s.max_stress) / si(*c.strip_stress));
  for (const BentJoint& j : bent.joint_loads) {
    if (c.joint_load) use(TankCriterion::joint_load, j.first, 0, si(j.max_line_load) / si(*c.joint_load));
    if (c.joint_stress)
      use(TankCriterion::joint_stress, j.first, 0,
          si(j.max_line_load) / si(bent.tank.joint->bite) / si(*c.joint_stress));
  }
  return worst;
}

/// Rates a tank. A search stops at the first joint model under which it does not hold, to save the others.
RatedTank rate_tank(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
                    const std::vector<JointModel>& joints, bool until_failure) {
  RatedTank rated;
  rated.tank = tank;
  rated.governing.utilisation = -1.0;
  for (const JointModel model : joints) {
    rated.bent.push_back(bend(tank, load, model));
    for (const TankUtilisation& u : utilisations(rated.bent.back(), criteria)) {
      rated.utilisations.push_back(u);
      if (u.utilisation > rated.governing.utilisation) rated.governing = u;
    }
    if (until_failure && !rated.holds()) break;
  }
  return rated;
}

RatedTank search_rate(Tank tank, const TankLoad& load, const TankCriteria& criteria, const TankSizingRules& rules) {
  if (rules.bite_is_thickness) {
    if (tank.joint) tank.joint->bite = tank.wall_thickness;
    if (tank.rim && tank.rim->bond) tank.rim->bond->bite = tank.rim->thickness;
    for (TankCrossBrace& brace : tank.cross_braces)
      if (brace.bond) brace.bond->bite = brace.thickness;
  }
  return rate_tank(tank, load, criteria, rules.joints, true);
}

/// Adds the limits of the joints that the search did not ask: they inform, and do not govern.
RatedTank with_limits(RatedTank rated, const TankLoad& load, const TankCriteria& criteria) {
  for (const JointModel model : {JointModel::hinged, JointModel::monolithic}) {
    if (std::any_of(rated.bent.begin(), rated.bent.end(), [&](const BentTank& b) { return b.joints == model; }))
      continue;
    rated.bent.push_back(bend(rated.tank, load, model));
    for (const TankUtilisation& u : utilisations(rated.bent.back(), criteria)) rated.utilisations.push_back(u);
  }
  return rated;
}

std::vector<materials::StockThickness> rising(std::span<const materials::StockThickness> stock) {
  std::vector<materials::StockThickness> list(stock.begin(), stock.end());
  for (const auto& sheet : list) {
    require::positive("stock minimum thickness", sheet.minimum);
    require::positive("stock nominal thickness", sheet.nominal);
  }
  std::sort(list.begin(), list.end(), [](const auto& a, const auto& b) { return si(a.minimum) < si(b.minimum); });
  return list;
}

enum class Direction { length, width };

/// The same tank of another length or width; braces and what stands on the rim keep their places in proportion.
void stretch(Tank& tank, TankLoad& load, Direction direction, const Length& size) {
  Length& side = direction == Direction::length ? tank.inside_length : tank.inside_width;
  const double by = si(size) / si(side);
  side = size;
  if (direction == Direction::length)
    for (TankCrossBrace& brace : tank.cross_braces) brace.at *= by;
  for (RimLoad& r : load.rim_loads) {
    const bool along = r.on == TankPart::front_wall || r.on == TankPart::back_wall;
    if (along == (direction == Direction::length)) r.along *= by;
  }
}

std::optional<LargestTank> largest(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
                                   Direction direction, const Length& low, const Length& high, const Length& tolerance,
                                   const TankSizingRules& rules) {
  require_possible(tank, criteria, rules.joints);
  const bool along = direction == Direction::length;
  require::positive(along ? "inside length" : "inside width", along ? tank.inside_length : tank.inside_width);
  require::positive(along ? "shortest length" : "narrowest width", low);
  require::positive(along ? "longest length" : "widest width", high);
  require::that(high.value() > low.value(), along ? "longest length" : "widest width", high, "over " + text(low));
  require::positive("tolerance", tolerance);
  const auto of_size = [&](double size) {
    Tank stretched = tank;
    TankLoad on = load;
    stretch(stretched, on, direction, from_si<Length>(size));
    return search_rate(stretched, on, criteria, rules);
  };
  constexpr int steps = 8;
  const auto size_of = [&](int i) { return si(low) + (si(high) - si(low)) * i / steps; };
  RatedTank best = of_size(size_of(0));
  if (!best.holds()) return std::nullopt;
  LargestTank found;
  double holding = size_of(0), failing = 0.0;
  for (int i = 1; i <= steps; ++i) {
    RatedTank tried = of_size(size_of(i));
    if (failing > 0.0) {
      found.monotone = found.monotone && !tried.holds();
      continue;
    }
    if (!tried.holds()) {
      failing = size_of(i);
      continue;
    }
    holding = size_of(i);
    best = std::move(tried);
  }
  found.at_limit = failing == 0.0;
  while (!found.at_limit && failing - holding > si(tolerance)) {
    const double middle = 0.5 * (holding + failing);
    if (middle <= holding || middle >= failing) break;  // a tolerance under the rounding of the size
    RatedTank tried = of_size(middle);
    if (tried.holds()) {
      holding = middle;
      best = std::move(tried);
    } else {
      failing = middle;
    }
  }
  found.size = from_si<Length>(holding);
  Tank stretched = tank;
  TankLoad on = load;
  stretch(stretched, on, direction, found.size);
  found.rated = with_limits(std::move(best), on, criteria);
  return found;
}

}  // namespace

std::string_view name(TankCriterion criterion) {
  constexpr std::array<std::string_view, 7> names = {"wall tension", "base tension", "strip stress", "wall deflection",
                                                     "joint load",   "joint stress", "linear theory"};
  return names[static_cast<std::size_t>(criterion)];
}

RatedTank rate(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
               const std::vector<JointModel>& joints) {
  require_possible(tank, criteria, joints);
  return rate_tank(tank, load, criteria, joints, false);
}

std::optional<SizedTank> thinnest_tank(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
                                       std::span<const materials::StockThickness> stock,
                                       std::span<const materials::StockThickness> brace_stock,
                                       const TankSizingRules& rules) {
  require_possible(tank, criteria, rules.joints);
  require::that(!stock.empty(), "stock thicknesses", 0.0, "at least one");
  const auto sheets = rising(stock), of_braces = rising(brace_stock);
  const bool braced = tank.rim || !tank.cross_braces.empty();
  std::exception_ptr out_of_validity;
  bool any_valid = false;
  for (const auto& sheet : sheets) {
    const std::vector<materials::StockThickness> same = {sheet};
    for (const auto& brace_sheet : braced && !of_braces.empty() ? of_braces : same) {
      Tank tried = tank;
      tried.wall_thickness = tried.base_thickness = sheet.minimum;
      if (tried.rim) tried.rim->thickness = brace_sheet.minimum;
      for (TankCrossBrace& brace : tried.cross_braces) brace.thickness = brace_sheet.minimum;
      try {
        RatedTank rated = search_rate(tried, load, criteria, rules);
        any_valid = true;
        if (rated.holds()) return SizedTank{sheet, brace_sheet, with_limits(std::move(rated), load, criteria)};
      } catch (const OutOfValidity&) {
        out_of_validity = std::current_exception();
      }
    }
  }
  if (!any_valid) std::rethrow_exception(out_of_validity);
  return std::nullopt;
}

std::optional<RatedTank> narrowest_rim(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
                                       std::span<const Length> widths, const TankSizingRules& rules) {
  require_possible(tank, criteria, rules.joints);
  require::that(tank.rim.has_value(), "rim brace", 0.0, "a rim brace, for its thickness, material and bond");
  require::that(!widths.empty(), "rim brace widths", 0.0, "at least one");
  std::vector<Length> list(widths.begin(), widths.end());
  for (const Length& width : list) require::positive("rim brace width", width);
  std::sort(list.begin(), list.end(), [](const Length& a, const Length& b) { return si(a) < si(b); });
  for (const Length& width : list) {
    Tank tried = tank;
    tried.rim->width = width;
    RatedTank rated = search_rate(tried, load, criteria, rules);
    if (rated.holds()) return with_limits(std::move(rated), load, criteria);
  }
  return std::nullopt;
}

std::optional<RatedTank> fewest_cross_braces(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
                                             const TankCrossBrace& brace, int most, const TankSizingRules& rules) {
  require_possible(tank, criteria, rules.joints);
  require::within("most cross braces", static_cast<double>(most), 0.0, 20.0);
  for (int count = 0; count <= most; ++count) {
    Tank tried = tank;
    tried.cross_braces.assign(static_cast<std::size_t>(count), brace);
    for (int i = 0; i < count; ++i)
      tried.cross_braces[static_cast<std::size_t>(i)].at = tank.inside_length * ((i + 1.0) / (count + 1.0));
    RatedTank rated = search_rate(tried, load, criteria, rules);
    if (rated.holds()) return with_limits(std::move(rated), load, criteria);
  }
  return std::nullopt;
}

std::optional<LargestTank> longest_tank(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
                                        const Length& shortest, const Length& longest, const Length& tolerance,
                                        const TankSizingRules& rules) {
  return largest(tank, load, criteria, Direction::length, shortest, longest, tolerance, rules);
}

std::optional<LargestTank> widest_tank(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
                                       const Length& narrowest, const Length& widest, const Length& tolerance,
                                       const TankSizingRules& rules) {
  return largest(tank, load, criteria, Direction::width, narrowest, widest, tolerance, rules);
}

}  // namespace theca::structure
