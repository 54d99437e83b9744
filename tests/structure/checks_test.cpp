// Checks of the structure module: the numbers compared, the verdicts at their borders, cautions and bad input.
#include "theca/structure/checks.hpp"

#include <cmath>
#include <limits>

#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/materials/glass.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using test::contains;
using test::message_of;
using test::near;

namespace {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

BentPanel bent(const Length& thickness) {
  Panel p;
  p.width = 1.2_m;
  p.height = 420_mm;
  p.thickness = thickness;
  p.material = materials::float_glass();
  return bend(p, hydrostatic(390_mm, 1023_kg_m3));
}

}  // namespace

TEST_CASE("panel stress: load factor on the demand, verdict from the margin, place in inches") {
  const BentPanel b = bent(12_mm);
  const auto verdict = [&](double capacity_over_demand, double factor) {
    return panel_stress_check(
        "tank A long wall", b,
        {.strength = {capacity_over_demand * b.max_tension, "", "a test"}, .load_factor = factor});
  };
  const Check holds = verdict(1.5, 1.35);
  CHECK(holds.name == "structure: tank A long wall stress");
  CHECK(near(holds.demand.si_value, 1.35 * si(b.max_tension), 1e-12));
  CHECK(holds.demand.shown_unit == "psi");
  CHECK(near(holds.utilisation, 0.9, 1e-12));
  CHECK(holds.verdict == Verdict::holds);
  CHECK(verdict(1.4, 1.35).verdict == Verdict::marginal);
  CHECK(verdict(1.3, 1.35).verdict == Verdict::fails);
  CHECK(contains(holds.where, "dry face"));
  CHECK(contains(holds.where, "in over the bottom edge"));
  CHECK(contains(holds.source, "a test"));
  CHECK(contains(holds.caution, "licensed engineer"));
}

TEST_CASE("panel checks: a caution over a third of the thickness, no verdict over a half") {
  const materials::DesignStrength strong{1_GPa, "", "a test"};
  // deflection goes with 1/t^3, so w/t with 1/t^4
  const BentPanel stiff = bent(12_mm);
  const auto thickness_for = [&](double w_over_t) {
    return std::pow(stiff.deflection_over_thickness / w_over_t, 0.25) * 12_mm;
  };
  const Check fine = panel_stress_check("", bent(thickness_for(0.30)), {.strength = strong});
  const Check large = panel_stress_check("", bent(thickness_for(0.40)), {.strength = strong});
  const Check beyond = panel_stress_check("", bent(thickness_for(0.55)), {.strength = strong});
  CHECK(fine.name == "structure: stress");
  CHECK_FALSE(contains(fine.caution, "of the thickness"));
  CHECK(large.verdict == Verdict::holds);
  CHECK(contains(large.caution, "0.4 of the thickness"));
  CHECK(contains(large.caution, "licensed engineer"));
  CHECK(beyond.verdict == Verdict::outside_validity);
  CHECK(beyond.demand.si_value > 0.0);
  CHECK(beyond.utilisation > 0.0);
  CHECK(contains(beyond.caution, "0.55 times the thickness"));
  CHECK(panel_deflection_check("", bent(thickness_for(0.55)), 1_m, "a test").verdict == Verdict::outside_validity);
}

TEST_CASE("panel deflection against its limit") {
  const BentPanel b = bent(12_mm);
  const Check c = panel_deflection_check("wall", b, 2.0 * b.max_deflection, "a test");
  CHECK(c.name == "structure: wall deflection");
  CHECK(near(c.utilisation, 0.5, 1e-12));
  CHECK(c.verdict == Verdict::holds);
  CHECK(panel_deflection_check("wall", b, 1.05 * b.max_deflection, "a test").verdict == Verdict::marginal);
  CHECK(panel_deflection_check("wall", b, 0.95 * b.max_deflection, "a test").verdict == Verdict::fails);
}

TEST_CASE("joint, floor, leg, freeboard and stroke checks compare what they say") {
  const materials::DesignStrength adhesive{14_kPa, "", "a test"};
  const Check permanent = joint_stress_check("wall", 10_kPa, LoadDuration::permanent, adhesive);
  const Check brief = joint_stress_check("wall", 13_kPa, LoadDuration::short_term, adhesive);
  CHECK(permanent.name == "structure: wall joint stress, permanent");
  CHECK(permanent.verdict == Verdict::holds);
  CHECK(brief.name == "structure: wall joint stress, short-term");
  CHECK(brief.verdict == Verdict::marginal);
  CHECK(contains(permanent.caution, "floods"));

  FloorLoad load;
  load.footprint_pressure = 6_kPa;
  load.tributary_pressure = 5_kPa;
  load.leg_force = 2_kN;
  const Check floor = floor_pressure_check("tank A", load, 125_psf, "a test");
  CHECK(near(floor.demand.si_value, 5000.0, 1e-12));
  CHECK(near(floor.capacity.shown_value, 125.0, 1e-12));
  CHECK(floor.verdict == Verdict::holds);
  CHECK(floor_pressure_check("tank A", load, 5.1_kPa, "a test").verdict == Verdict::marginal);
  CHECK(contains(floor.caution, "joists"));
  CHECK(leg_load_check("tank A", load, 1.9_kN, "a test").verdict == Verdict::fails);
  CHECK(leg_load_check("tank A", load, 3_kN, "a test").verdict == Verdict::holds);

  CHECK(freeboard_check("tank A", 40_mm, 60_mm).verdict == Verdict::holds);
  CHECK(freeboard_check("tank A", 50_mm, 60_mm).verdict == Verdict::marginal);
  CHECK(freeboard_check("tank A", 70_mm, 60_mm).verdict == Verdict::fails);
  CHECK(freeboard_check("tank A", 70_mm, 0_mm).verdict == Verdict::fails);

  // A minimum criterion: the separation that is there is the capacity.
  CHECK(stroke_resonance_check("tank A", 1.05).verdict == Verdict::fails);
  CHECK(stroke_resonance_check("tank A", 0.95).verdict == Verdict::fails);
  CHECK(stroke_resonance_check("tank A", 1.22).verdict == Verdict::marginal);
  CHECK(stroke_resonance_check("tank A", 0.7).verdict == Verdict::holds);
  CHECK(near(stroke_resonance_check("tank A", 0.7).capacity.si_value, 0.3, 1e-12));
  CHECK(stroke_resonance_check("tank A", 1.0).verdict == Verdict::fails);
  CHECK(contains(stroke_resonance_check("tank A", 1.5).source, "common practice, no source"));
}

TEST_CASE("brace stress: tension where the brace is bonded to the wall, times the load factor") {
  const Check c = brace_stress_check("long brace", {.stress = 4_MPa, .deflection = 1_mm},
                                     {.strength = {6_MPa, "", "a test"}, .load_factor = 1.35});
  CHECK(c.name == "structure: long brace stress");
  CHECK(near(c.utilisation, 0.9, 1e-12));
  CHECK(c.verdict == Verdict::marginal);
  CHECK(c.where == "mid-span, edge at the wall");
  CHECK(contains(c.caution, "licensed engineer"));
}

TEST_CASE("joint, floor and freeboard checks say the place they were given") {
  const materials::DesignStrength adhesive{14_kPa, "", "a test"};
  const Check joint = joint_stress_check("wall", 10_kPa, LoadDuration::permanent, adhesive, "middle of the top edge");
  CHECK(joint.where == "middle of the top edge");
  CHECK(contains(joint.source, "plate edge reaction or strip statics"));
  CHECK(floor_pressure_check("tank A", {}, 125_psf, "a test", "under the sump").where == "under the sump");
  CHECK(freeboard_check("tank A", 40_mm, 60_mm, "long wall, first slosh mode").where == "long wall, first slosh mode");
  CHECK(freeboard_check("tank A", 40_mm, 60_mm).where == "end wall, first slosh mode");
}

TEST_CASE("checks: criteria that cannot be are refused by name") {
  const BentPanel b = bent(12_mm);
  for (const double bad : {0.0, -1.0, not_a_number}) {
    CAPTURE(bad);
    const materials::DesignStrength strength{bad * units::pascal, "", ""};
    const materials::DesignStrength good{1_MPa, "", ""};
    CHECK(contains(message_of<InvalidInput>([&] { panel_stress_check("", b, {.strength = strength}); }), "strength"));
    CHECK(contains(message_of<InvalidInput>([&] { panel_stress_check("", b, {.strength = good, .load_factor = bad}); }),
                   "load factor"));
    CHECK(contains(message_of<InvalidInput>([&] { panel_deflection_check("", b, bad * units::metre, ""); }), "limit"));
    CHECK(contains(message_of<InvalidInput>([&] { joint_stress_check("", 1_kPa, LoadDuration::permanent, strength); }),
                   "allowable"));
    CHECK(contains(message_of<InvalidInput>([&] { floor_pressure_check("", {}, bad * units::pascal, ""); }), "rated"));
    CHECK(contains(message_of<InvalidInput>([&] { leg_load_check("", {}, bad * units::newton, ""); }), "leg load"));
    CHECK(contains(message_of<InvalidInput>([&] { stroke_resonance_check("", bad); }), "frequency ratio"));
    CHECK(contains(message_of<InvalidInput>([&] { stroke_resonance_check("", 1.5, bad); }), "separation"));
  }
  for (const double bad : {-1.0, not_a_number}) {
    const materials::DesignStrength good{1_MPa, "", ""};
    CHECK(contains(
        message_of<InvalidInput>([&] { joint_stress_check("", bad * units::pascal, LoadDuration::permanent, good); }),
        "joint stress"));
    CHECK(contains(message_of<InvalidInput>([&] { freeboard_check("", bad * units::metre, 1_m); }), "wave height"));
    CHECK(contains(message_of<InvalidInput>([&] { freeboard_check("", 1_m, bad * units::metre); }), "freeboard"));
  }
}
