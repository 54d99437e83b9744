#include "theca/structure/strength_checks.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

#include "subject_name.hpp"
#include "theca/require.hpp"

namespace theca::structure {
namespace {

using detail::subject_name;

constexpr const char* glass_caution =
    "Glass breaks without warning, cuts and floods; scratches and chips weaken it more than any table says. ASTM E1300 "
    "leaves out tanks of water: this is an estimate for a licensed engineer to review.";
constexpr const char* bond_caution =
    "A joint that lets go floods the room at once. Published allowables are for mean stress; a peak is judged by them "
    "with caution, and workmanship is not in it. Have a licensed engineer review it.";
constexpr const char* crazing_caution =
    "Solvents, alcohol, cleaners and machining stress bring crazing at lower stress; crazed acrylic may break later "
    "without warning.";
constexpr const char* hole_caution =
    "Chips at the rim of a drilled hole start cracks. Toughened glass must be drilled before it is toughened and "
    "bursts if drilled after.";

Measure stress(const Pressure& p) { return measure(p, units::psi); }

/// A stress, 0 or more, held against a strength; both are named as the caller's arguments are.
Check against(CheckText words, std::string_view stress_name, const Pressure& demand, std::string_view strength_name,
              const materials::DesignStrength& strength, double model_uncertainty) {
  require::not_negative(stress_name, demand);
  require::positive(strength_name, strength.value);
  return make_check(std::move(words), stress(demand), stress(strength.value), model_uncertainty);
}

}  // namespace

Check glass_breakage_check(const std::string& subject, const GlassFailure& failure, const std::string& where,
                           double probability, const SurfaceFlaws& flaws) {
  const Pressure strength = equivalent_strength(failure.area, probability, flaws);
  return make_check({.name = subject_name(subject, "glass breakage"),
                     .question = "Is the probability of breakage, here " + number(failure.probability, 2) +
                                 ", at most " + number(probability, 2) + "?",
                     .where = where,
                     .source = "Glass failure prediction model, Beason & Morgan 1984; flaws: " + flaws.source,
                     .caution = glass_caution},
                    stress(failure.equivalent_stress), stress(strength), 0.3);
}

std::vector<Check> glass_criteria_checks(const std::string& subject, const Pressure& tension, const std::string& where,
                                         const std::vector<GlassCriterion>& criteria) {
  require::not_negative("tension", tension);
  std::vector<Check> checks;
  for (const GlassCriterion& c : criteria) {
    require::positive("allowable stress", c.allowable);
    checks.push_back(make_check({.name = subject_name(subject, "stress by " + c.name),
                                 .question = "Does the glass hold by " + c.name + "?",
                                 .where = where,
                                 .source = c.strength.source + "; " + c.strength.basis,
                                 .caution = glass_caution},
                                stress(tension), stress(c.allowable), 0.1 + c.uncertainty));
  }
  return checks;
}

Check thermal_stress_check(const std::string& subject, const Pressure& thermal, const Pressure& from_water,
                           const materials::DesignStrength& strength, const std::string& where) {
  require::not_negative("thermal stress", thermal);
  require::not_negative("stress from water", from_water);
  return against(
      {subject_name(subject, "thermal stress"), "Does the pane bear the temperature difference beside the water?",
       where, strength.source + "; " + strength.basis, glass_caution},
      "thermal stress", thermal + from_water, "design strength", strength, 0.25);
}

Check crazing_check(const std::string& subject, const Pressure& tension, const materials::DesignStrength& limit,
                    const std::string& where) {
  return against({subject_name(subject, "crazing"), "Does the acrylic stay below its crazing limit for years?", where,
                  limit.source + "; " + limit.basis, crazing_caution},
                 "tension", tension, "crazing limit", limit, 0.2);
}

Check peel_check(const std::string& subject, const Pressure& peak, const materials::DesignStrength& allowable,
                 const std::string& where) {
  return against({subject_name(subject, "joint peel"), "Does the joint bear the peeling at the side of its bite?",
                  where, allowable.source + "; " + allowable.basis, bond_caution},
                 "peel stress", peak, "allowable joint stress", allowable, 0.3);
}

Check hole_stress_check(const std::string& subject, const Pressure& rim_stress, const Panel& panel, const Hole& hole,
                        const materials::DesignStrength& strength, const std::string& where) {
  const Length centre_to_edge = hole_clearance(panel, hole).to_edge + 0.5 * hole.diameter;
  // The formula dips below 1 by 0.04 q where the edge is far; no edge relieves a hole.
  const double near_edge = std::max(1.0, hole_near_edge_factor(hole.diameter, centre_to_edge));
  return against({subject_name(subject, "hole stress"), "Does the rim of the drilled hole bear its stress?",
                  where + ", times " + number(near_edge, 3) + " for the nearest edge",
                  strength.source + "; concentration and nearness of the edge: Roark Table 17.1", hole_caution},
                 "rim stress", near_edge * rim_stress, "design strength", strength, 0.2);
}

std::vector<Check> hole_place_checks(const std::string& subject, const Panel& panel, const Hole& hole,
                                     const std::vector<Hole>& others, const Length& bite, const HoleRule& rule) {
  const HoleClearance clear = hole_clearance(panel, hole);
  const Length at_joint = hole_to_joint(panel, hole, bite);
  require::positive("thickness", panel.thickness);
  const Length t = panel.thickness;
  const std::string edge = std::string(name(clear.nearest_side)) + " edge";
  std::vector<Check> checks;
  const auto add = [&](const std::string& what, const std::string& question, const std::string& where,
                       const Length& demand, const Length& capacity) {
    // Overlap is a capacity of nothing, which fails.
    const Length there = std::max(capacity, from_si<Length>(0.0));
    checks.push_back(make_check({.name = subject_name(subject, what),
                                 .question = question,
                                 .where = where,
                                 .source = "EN 12150-1, ASTM C1048 as processors summarise them",
                                 .caution = hole_caution},
                                measure(demand, units::inch), measure(there, units::inch), 0.0));
  };
  add("hole diameter", "Is the hole wide enough to drill without chipping?", "hole", rule.least_diameter * t,
      hole.diameter);
  add("hole width", "Does the hole leave enough of the panel?", "hole", hole.diameter,
      rule.widest_over_side * std::min(panel.width, panel.height));
  add("hole to edge", "Is the hole far enough from the edge?", edge, rule.least_to_edge * t, clear.to_edge);
  add("hole to corner", "Is the hole far enough from the corner?", "nearest corner", rule.least_to_corner * t,
      clear.to_corner);
  if (si(bite) > 0.0)
    add("hole to joint", "Does the hole leave the joint its glass?", edge, rule.least_to_edge * t, at_joint);
  for (const Hole& other : others) {
    hole_clearance(panel, other);
    add("hole to hole", "Are the holes far enough apart?", "between two holes", rule.least_between * t,
        hole_spacing(hole, other));
  }
  return checks;
}

}  // namespace theca::structure
