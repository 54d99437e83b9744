#include "theca/structure/checks.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "subject_name.hpp"
#include "theca/error.hpp"
#include "theca/require.hpp"
#include "theca/structure/joint.hpp"

namespace theca::structure {
namespace {

using detail::subject_name;

constexpr const char* panel_caution =
    "Glass and acrylic fail suddenly and can cut, flood and drop heavy pieces. This is an estimate on the stated "
    "assumptions: have a licensed engineer review it, and stay clear of a loaded tank that creaks, leaks or shows a "
    "chip.";
constexpr const char* joint_caution =
    "A joint that lets go floods the room at once. The mean stress says nothing of workmanship, voids or old adhesive: "
    "have a licensed engineer review it, and stay clear of a loaded tank that creaks or weeps at a joint.";
constexpr const char* floor_caution =
    "A rating is a design value for the building, not for this tank: joists, decay, shared walls and point loads "
    "matter. Ask a licensed engineer before loading the floor.";
constexpr const char* wave_caution =
    "Water over the rim reaches electrics and neighbours. Local seismic rules come first; anchorage of tank and stand "
    "is not part of this check.";

std::string place_text(const PanelPlace& place) {
  return number(in(place.x, units::inch)) + " in from the left end, " + number(in(place.y, units::inch)) +
         " in over the bottom edge";
}

/// Gives the check as it would be, or without a verdict where the deflection is too large for linear theory; then the
/// numbers are still shown.
Check within_linear_theory(CheckText words, const Measure& demand, const Measure& capacity, double uncertainty,
                           double deflection_over_thickness) {
  const double ratio = deflection_over_thickness;
  if (ratio > linear_deflection_limit) {
    Check numbers = make_check(words, demand, capacity, uncertainty);
    std::string reason = "The linear theory finds a deflection of " + number(ratio, 2) +
                         " times the thickness and holds up to " + number(linear_deflection_limit, 2) + ".";
    if (numbers.verdict == Verdict::fails)
      reason += " By that theory the criterion is not met: treat it as failing until shown otherwise.";
    Check c = outside_validity(std::move(words), reason);
    c.demand = numbers.demand;
    c.capacity = numbers.capacity;
    c.utilisation = numbers.utilisation;
    c.uncertainty = numbers.uncertainty;
    return c;
  }
  if (ratio > 1.0 / 3.0) {
    words.caution.insert(0, "The deflection is " + number(ratio, 2) +
                                " of the thickness: from about a third on, linear theory errs by more than is reckoned "
                                "with here. ");
  }
  return make_check(std::move(words), demand, capacity, uncertainty);
}

void require_criterion(const StrengthCriterion& criterion) {
  require::positive("design strength", criterion.strength.value);
  require::that(criterion.load_factor >= 1.0 && std::isfinite(criterion.load_factor), "load factor",
                criterion.load_factor, ">= 1 and finite");
}

/// The tank under one joint model with the figure that it is judged by.
struct Judged {
  const BentTank* tank;
  double figure;
};

/// The model with the largest figure first, in the order as bonded, hinged, monolithic otherwise.
template <class Figure>
std::vector<Judged> by_model(const TankBetweenLimits& bent, Figure&& figure) {
  std::vector<Judged> cases;
  if (bent.as_bonded) cases.push_back({&*bent.as_bonded, figure(*bent.as_bonded)});
  cases.push_back({&bent.hinged, figure(bent.hinged)});
  cases.push_back({&bent.monolithic, figure(bent.monolithic)});
  const auto worst = std::max_element(cases.begin(), cases.end(),
                                      [](const Judged& p, const Judged& q) { return p.figure < q.figure; });
  std::rotate(cases.begin(), worst, worst + 1);
  return cases;
}

/// The bead where there is one: rigid joints take all of the load at the corners of a plate, where it is singular.
template <class Figure>
std::vector<Judged> by_bead(const TankBetweenLimits& bent, Figure&& figure) {
  if (!bent.as_bonded) return by_model(bent, figure);
  return {{&*bent.as_bonded, figure(*bent.as_bonded)},
          {&bent.hinged, figure(bent.hinged)},
          {&bent.monolithic, figure(bent.monolithic)}};
}

/// "joints hinged; as bonded 412 psi, monolithic 280 psi" of SI figures.
template <class Unit>
std::string models_text(const std::vector<Judged>& cases, const NamedUnit<Unit>& shown) {
  std::string words = "joints " + std::string(name(cases.front().tank->joints));
  for (std::size_t i = 1; i < cases.size(); ++i)
    words += (i == 1 ? "; " : ", ") + std::string(name(cases[i].tank->joints)) + " " +
             number(in(from_si<Quantity<Unit>>(cases[i].figure), shown), 3) + " " + std::string(shown.symbol);
  return words;
}

const BentStripSections& worst_strip(const BentTank& bent) {
  if (bent.strips.empty()) throw InvalidInput("tank brace", "none", "a tank with a rim brace or cross brace");
  return *std::max_element(bent.strips.begin(), bent.strips.end(),
                           [](const auto& p, const auto& q) { return p.max_stress < q.max_stress; });
}

double bond_load(const BentStripSections& strip) {
  return std::hypot(si(strip.bond_shear), std::max(si(strip.bond_peel), 0.0));
}
const BentStripSections& worst_bond(const BentTank& bent) {
  if (bent.strips.empty()) throw InvalidInput("tank brace", "none", "a tank with a rim brace or cross brace");
  return *std::max_element(bent.strips.begin(), bent.strips.end(),
                           [](const auto& p, const auto& q) { return bond_load(p) < bond_load(q); });
}

const BentJoint& worst_joint(const BentTank& bent) {
  return *std::max_element(bent.joint_loads.begin(), bent.joint_loads.end(),
                           [](const auto& p, const auto& q) { return p.max_line_load < q.max_line_load; });
}

constexpr const char* folded_plate_source =
    "folded plates joined through line springs (Timoshenko & Woinowsky-Krieger 1959, plane stress)";

}  // namespace

Check tank_stress_check(const std::string& subject, const TankBetweenLimits& bent, TankPart which,
                        const StrengthCriterion& criterion) {
  require_criterion(criterion);
  const auto cases = by_model(bent, [&](const BentTank& b) { return si(part(b, which).max_tension); });
  const BentPart worst = part(*cases.front().tank, which);
  CheckText words;
  words.name = subject_name(subject, "stress");
  words.question = "Does the panel bear the water, with the load factor, within its design strength?";
  const bool wall = which <= TankPart::right_wall;
  words.where = place_text(worst.max_tension_at) + ", " +
                (worst.max_tension_on_outside ? (wall ? "dry face" : "underside") : "wet face") + "; " +
                models_text(cases, units::psi) + " (without load factor)";
  words.source = folded_plate_source + (", load factor " + text(criterion.load_factor, "") + "; strength: ") +
                 criterion.strength.source;
  words.caution = panel_caution;
  return within_linear_theory(std::move(words), measure(criterion.load_factor * worst.max_tension, units::psi),
                              measure(criterion.strength.value, units::psi), 0.10, worst.deflection_over_thickness);
}

Check tank_deflection_check(const std::string& subject, const TankBetweenLimits& bent, TankPart which,
                            const Length& limit, const std::string& limit_source) {
  require::positive("deflection limit", limit);
  const auto cases = by_model(bent, [&](const BentTank& b) { return si(part(b, which).max_deflection); });
  const BentPart worst = part(*cases.front().tank, which);
  CheckText words;
  words.name = subject_name(subject, "deflection");
  words.question = "Does the panel bulge by no more than the limit?";
  words.where = place_text(worst.max_deflection_at) + "; " + models_text(cases, units::inch);
  words.source = std::string(folded_plate_source) + "; limit: " + limit_source;
  words.caution = panel_caution;
  return within_linear_theory(std::move(words), measure(worst.max_deflection, units::inch), measure(limit, units::inch),
                              0.10, worst.deflection_over_thickness);
}

Check tank_brace_stress_check(const std::string& subject, const TankBetweenLimits& bent,
                              const StrengthCriterion& criterion) {
  require_criterion(criterion);
  const auto cases = by_model(bent, [](const BentTank& b) { return si(worst_strip(b).max_stress); });
  const BentStripSections& worst = worst_strip(*cases.front().tank);
  const auto at = [](const StripSection& section) {
    return number(in(std::max(section.inner_edge, section.outer_edge), units::psi), 3) + " psi";
  };
  CheckText words;
  words.name = subject_name(subject, "stress");
  words.question = "Does the brace bear what the walls hand to it, with the load factor, within its design strength?";
  words.where = std::string(name(worst.part)) + ", nominal stress of the section: mid-span " + at(worst.mid_span) +
                ", inner corner " + at(worst.inner_corner) + "; " + models_text(cases, units::psi) +
                " (without load factor)";
  words.source = folded_plate_source + (", load factor " + text(criterion.load_factor, "") + "; strength: ") +
                 criterion.strength.source;
  words.caution = std::string(
                      "At the inner corner the elastic peak is singular: the nominal stress stands for it, "
                      "and a sharp or chipped corner breaks first. ") +
                  panel_caution;
  return make_check(std::move(words), measure(criterion.load_factor * worst.max_stress, units::psi),
                    measure(criterion.strength.value, units::psi), 0.20);
}

Check tank_joint_check(const std::string& subject, const TankBetweenLimits& bent, const Length& bite,
                       LoadDuration duration, const materials::DesignStrength& allowable) {
  require::positive("bite", bite);
  const auto cases = by_bead(bent, [&](const BentTank& b) { return si(worst_joint(b).max_line_load / bite); });
  const BentJoint& worst = worst_joint(*cases.front().tank);
  Check check = joint_stress_check(subject, joint_stress(worst.max_line_load, bite), duration, allowable,
                                   std::string(name(worst.first)) + " on " + std::string(name(worst.second)) + ", " +
                                       number(in(worst.max_line_load_at, units::inch), 3) + " in from its low end; " +
                                       models_text(cases, units::psi));
  check.source = std::string(folded_plate_source) + ", joint load over the bite; allowable: " + allowable.source;
  return check;
}

Check tank_bond_check(const std::string& subject, const TankBetweenLimits& bent, const Length& bite,
                      LoadDuration duration, const materials::DesignStrength& allowable) {
  require::positive("bite", bite);
  const auto cases = by_bead(bent, [&](const BentTank& b) { return bond_load(worst_bond(b)) / si(bite); });
  const BentStripSections& worst = worst_bond(*cases.front().tank);
  const auto over_bite = [&](const LineLoad& load) { return number(in(load / bite, units::psi), 3) + " psi"; };
  Check check =
      joint_stress_check(subject, from_si<Pressure>(cases.front().figure), duration, allowable,
                         std::string(name(worst.part)) + ", shear " + over_bite(worst.bond_shear) + " and peel " +
                             over_bite(worst.bond_peel) + "; " + models_text(cases, units::psi));
  check.source = std::string(folded_plate_source) + ", bond load over the bite; allowable: " + allowable.source;
  return check;
}

Check panel_stress_check(const std::string& subject, const BentPanel& bent, const StrengthCriterion& criterion) {
  require_criterion(criterion);
  const Pressure demand = criterion.load_factor * bent.max_tension;
  CheckText words;
  words.name = subject_name(subject, "stress");
  words.question = "Does the panel bear the water, with the load factor, within its design strength?";
  words.where = place_text(bent.max_tension_at) + (bent.max_tension_on_far_face ? ", dry face" : ", wet face");
  words.source = "Kirchhoff plate (Timoshenko & Woinowsky-Krieger 1959), load factor " +
                 text(criterion.load_factor, "") + "; strength: " + criterion.strength.source;
  words.caution = panel_caution;
  return within_linear_theory(std::move(words), measure(demand, units::psi),
                              measure(criterion.strength.value, units::psi), 0.10, bent.deflection_over_thickness);
}

Check panel_deflection_check(const std::string& subject, const BentPanel& bent, const Length& limit,
                             const std::string& limit_source) {
  require::positive("deflection limit", limit);
  CheckText words;
  words.name = subject_name(subject, "deflection");
  words.question = "Does the panel bulge by no more than the limit?";
  words.where = place_text(bent.max_deflection_at);
  words.source = "Kirchhoff plate (Timoshenko & Woinowsky-Krieger 1959); limit: " + limit_source;
  words.caution = panel_caution;
  return within_linear_theory(std::move(words), measure(bent.max_deflection, units::inch), measure(limit, units::inch),
                              0.10, bent.deflection_over_thickness);
}

Check joint_stress_check(const std::string& subject, const Pressure& stress, LoadDuration duration,
                         const materials::DesignStrength& allowable, std::string where) {
  require::not_negative("joint stress", stress);
  require::positive("allowable joint stress", allowable.value);
  const bool permanent = duration == LoadDuration::permanent;
  CheckText words;
  words.name = subject_name(subject, permanent ? "joint stress, permanent" : "joint stress, short-term");
  words.question = permanent ? "Does the adhesive bear the water for years?" : "Does the adhesive bear a short load?";
  words.where = std::move(where);
  words.source = "plate edge reaction or strip statics over the bite; allowable: " + allowable.source;
  words.caution = joint_caution;
  return make_check(std::move(words), measure(stress, units::psi), measure(allowable.value, units::psi), 0.20);
}

Check floor_pressure_check(const std::string& subject, const FloorLoad& load, const Pressure& rated_load,
                           const std::string& rating_source, std::string where) {
  require::positive("rated floor load", rated_load);
  CheckText words;
  words.name = subject_name(subject, "floor pressure");
  words.question = "Is the weight, spread over the floor that carries it, within the rating of the floor?";
  words.where = std::move(where);
  words.source = "statics; rating: " + rating_source;
  words.caution = floor_caution;
  return make_check(std::move(words), measure(load.tributary_pressure, units::psf), measure(rated_load, units::psf),
                    0.05);
}

Check leg_load_check(const std::string& subject, const FloorLoad& load, const Force& allowable,
                     const std::string& allowable_source) {
  require::positive("allowable leg load", allowable);
  CheckText words;
  words.name = subject_name(subject, "leg load");
  words.question = "Is the force under the most loaded leg within what the floor bears at one point?";
  words.where = "most loaded leg";
  words.source = "statics; allowable: " + allowable_source;
  words.caution = floor_caution;
  return make_check(std::move(words), measure(load.leg_force, units::pound_force),
                    measure(allowable, units::pound_force), 0.20);
}

Check freeboard_check(const std::string& subject, const Length& wave_height, const Length& freeboard,
                      std::string where) {
  require::not_negative("wave height", wave_height);
  require::not_negative("freeboard", freeboard);
  CheckText words;
  words.name = subject_name(subject, "freeboard");
  words.question = "Does the wave of the design earthquake stay below the rim?";
  words.where = std::move(where);
  words.source = "ACI 350.3-06, d_max = (L/2) C_c I (article and equation numbers from memory); Housner 1963";
  words.caution = wave_caution;
  return make_check(std::move(words), measure(wave_height, units::inch), measure(freeboard, units::inch), 0.25);
}

Check stroke_resonance_check(const std::string& subject, double frequency_ratio, double least_separation) {
  require::positive("frequency ratio", frequency_ratio);
  require::positive("least separation", least_separation);
  CheckText words;
  words.name = subject_name(subject, "scraping strokes");
  words.question = "Is the rate of scraping strokes far enough from the rate at which the water swings by itself?";
  words.where = "first slosh mode along the strokes";
  words.source = "linear wave theory (Lamb 1932); least separation: an input, 0.2 is common practice, no source";
  words.caution = "Near this rate small strokes build up a wave that can run over the rim.";
  return make_check(std::move(words), measure(least_separation), measure(std::abs(frequency_ratio - 1.0)), 0.25);
}

}  // namespace theca::structure
