#include "theca/structure/checks.hpp"

#include <cmath>
#include <utility>

#include "theca/require.hpp"

namespace theca::structure {
namespace {

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

std::string subject_name(const std::string& subject, const char* what) {
  return "structure: " + (subject.empty() ? std::string() : subject + " ") + what;
}

std::string place_text(const PanelPlace& place) {
  return number(in(place.x, units::inch)) + " in from the left end, " + number(in(place.y, units::inch)) +
         " in over the bottom edge";
}

/// Gives the check as it would be, or without a verdict where the deflection is too large for linear theory; then the
/// numbers are still shown.
Check within_linear_theory(CheckText words, const Measure& demand, const Measure& capacity, double uncertainty,
                           const BentPanel& bent) {
  const double ratio = bent.deflection_over_thickness;
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

}  // namespace

Check panel_stress_check(const std::string& subject, const BentPanel& bent, const StrengthCriterion& criterion) {
  require::positive("design strength", criterion.strength.value);
  require::that(criterion.load_factor >= 1.0 && std::isfinite(criterion.load_factor), "load factor",
                criterion.load_factor, ">= 1 and finite");
  const Pressure demand = criterion.load_factor * bent.max_tension;
  CheckText words;
  words.name = subject_name(subject, "stress");
  words.question = "Does the panel bear the water, with the load factor, within its design strength?";
  words.where = place_text(bent.max_tension_at) + (bent.max_tension_on_far_face ? ", dry face" : ", wet face");
  words.source = "Kirchhoff plate (Timoshenko & Woinowsky-Krieger 1959), load factor " +
                 text(criterion.load_factor, "") + "; strength: " + criterion.strength.source;
  words.caution = panel_caution;
  return within_linear_theory(std::move(words), measure(demand, units::psi),
                              measure(criterion.strength.value, units::psi), 0.10, bent);
}

Check brace_stress_check(const std::string& subject, const BentStrip& brace, const StrengthCriterion& criterion) {
  require::positive("design strength", criterion.strength.value);
  require::that(criterion.load_factor >= 1.0 && std::isfinite(criterion.load_factor), "load factor",
                criterion.load_factor, ">= 1 and finite");
  CheckText words;
  words.name = subject_name(subject, "stress");
  words.question = "Does the brace bear what the wall hands to it, with the load factor, within its design strength?";
  words.where = "mid-span, edge at the wall";
  words.source = "beam theory, strip hinged at its ends in its own plane, load factor " +
                 text(criterion.load_factor, "") + "; strength: " + criterion.strength.source;
  words.caution = panel_caution;
  return make_check(std::move(words), measure(criterion.load_factor * brace.stress, units::psi),
                    measure(criterion.strength.value, units::psi), 0.20);
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
                              0.10, bent);
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
