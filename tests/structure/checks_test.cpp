// Checks of the structure module: the numbers compared, the verdicts at their borders, cautions and bad input.
#include "theca/structure/checks.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/materials/adhesive.hpp"
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

/// A small braced tank.
Tank small_tank(bool braced) {
  Tank tank;
  tank.inside_length = 0.9_m;
  tank.inside_width = 0.45_m;
  tank.wall_height = 400_mm;
  tank.wall_thickness = tank.base_thickness = 9.02_mm;
  tank.material = materials::float_glass();
  tank.joint = adhesive_bead(1_mm, 9_mm, materials::silicone_adhesive());
  tank.support = TankSupport::plane;
  if (braced)
    tank.rim = TankRimBrace{.width = 60_mm,
                            .thickness = 9.02_mm,
                            .material = tank.material,
                            .corner = RingCorner::mitred,
                            .bond = tank.joint};
  return tank;
}

const TankBetweenLimits& limits(bool braced) {
  static const auto load = TankLoad{.water_depth = 370_mm, .water = 1023_kg_m3, .rim_loads = {}};
  static const TankBetweenLimits with = bend_between_limits(small_tank(true), load);
  static const TankBetweenLimits without = bend_between_limits(small_tank(false), load);
  return braced ? with : without;
}

/// The three solutions of a tank.
std::vector<const BentTank*> models(const TankBetweenLimits& l) { return {&l.hinged, &*l.as_bonded, &l.monolithic}; }

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

TEST_CASE("joint, floor and freeboard checks say the place they were given") {
  const materials::DesignStrength adhesive{14_kPa, "", "a test"};
  const Check joint = joint_stress_check("wall", 10_kPa, LoadDuration::permanent, adhesive, "middle of the top edge");
  CHECK(joint.where == "middle of the top edge");
  CHECK(contains(joint.source, "plate edge reaction or strip statics"));
  CHECK(floor_pressure_check("tank A", {}, 125_psf, "a test", "under the sump").where == "under the sump");
  CHECK(freeboard_check("tank A", 40_mm, 60_mm, "long wall, first slosh mode").where == "long wall, first slosh mode");
  CHECK(freeboard_check("tank A", 40_mm, 60_mm).where == "end wall, first slosh mode");
}

TEST_CASE("tank walls: the joints that stress or bend them most decide, the others stand in the place") {
  const TankBetweenLimits& l = limits(true);
  Pressure most{};
  Length widest{};
  for (const BentTank* bent : models(l)) {
    most = std::max(most, part(*bent, TankPart::front_wall).max_tension);
    widest = std::max(widest, part(*bent, TankPart::front_wall).max_deflection);
  }
  const Check stress = tank_stress_check("tank long wall", l, TankPart::front_wall,
                                         {.strength = {1.5 * most, "", "a test"}, .load_factor = 1.35});
  CHECK(stress.name == "structure: tank long wall stress");
  CHECK(near(stress.utilisation, 0.9, 1e-12));
  CHECK(stress.verdict == Verdict::holds);
  for (const char* model : {"hinged", "as bonded", "monolithic"}) CHECK(contains(stress.where, model));
  CHECK(contains(stress.caution, "licensed engineer"));
  const Check deflection = tank_deflection_check("tank long wall", l, TankPart::front_wall, 1.05 * widest, "a test");
  CHECK(deflection.name == "structure: tank long wall deflection");
  CHECK(near(deflection.demand.si_value, si(widest), 1e-12));
  CHECK(deflection.verdict == Verdict::marginal);
  CHECK(contains(tank_stress_check("", l, TankPart::base, {.strength = {1_GPa, "", ""}}).source, "folded plates"));
}

TEST_CASE("tank braces: nominal stress of the worst strip, and shear with peel over the bite of its bond") {
  const TankBetweenLimits& l = limits(true);
  double most = 0.0;
  for (const BentTank* bent : models(l))
    for (const BentStripSections& strip : bent->strips) most = std::max(most, si(strip.max_stress));
  const Check stress = tank_brace_stress_check(
      "rim brace", l, {.strength = {from_si<Pressure>(most), "", "a test"}, .load_factor = 1.35});
  CHECK(near(stress.utilisation, 1.35, 1e-12));
  CHECK(stress.verdict == Verdict::fails);
  CHECK(contains(stress.where, "inner corner"));
  CHECK(contains(stress.caution, "singular"));

  double bond = 0.0;
  for (const BentStripSections& strip : l.as_bonded->strips)
    bond = std::max(bond, std::hypot(si(strip.bond_shear), std::max(0.0, si(strip.bond_peel))));
  const Check held = tank_bond_check("rim brace bond", l, 9_mm, LoadDuration::permanent, {1_MPa, "", "a test"});
  CHECK(near(held.demand.si_value, bond / 9e-3, 1e-12));
  CHECK(held.name == "structure: rim brace bond joint stress, permanent");
  CHECK(contains(held.where, "peel"));
  CHECK(contains(message_of<InvalidInput>([&] {
                   tank_brace_stress_check("", limits(false), {{1_MPa, "", ""}, 1.0});
                 }),
                 "brace"));
  CHECK(contains(message_of<InvalidInput>([&] {
                   tank_bond_check("", limits(false), 9_mm, LoadDuration::permanent, {1_MPa, "", ""});
                 }),
                 "brace"));
}

TEST_CASE("tank joints: judged as bonded, or by the heavier limit where the tank has no bead") {
  const auto worst = [](const BentTank& bent) {
    double most = 0.0;
    for (const BentJoint& joint : bent.joint_loads) most = std::max(most, si(joint.max_line_load));
    return most;
  };
  TankBetweenLimits l = limits(false);
  const Check bonded = tank_joint_check("joints", l, 9_mm, LoadDuration::short_term, {1_MPa, "", "a test"});
  CHECK(bonded.name == "structure: joints joint stress, short-term");
  CHECK(near(bonded.demand.si_value, worst(*l.as_bonded) / 9e-3, 1e-12));
  CHECK(contains(bonded.where, "joints as bonded; hinged"));
  l.as_bonded.reset();
  const Check limit = tank_joint_check("joints", l, 9_mm, LoadDuration::short_term, {1_MPa, "", "a test"});
  CHECK(near(limit.demand.si_value, std::max(worst(l.hinged), worst(l.monolithic)) / 9e-3, 1e-12));
  CHECK(limit.demand.si_value > bonded.demand.si_value);
}

TEST_CASE("tank walls: no verdict where the case that decides bends by over half of the thickness") {
  Tank thin = small_tank(false);
  thin.wall_thickness = 4_mm;
  const TankBetweenLimits l =
      bend_between_limits(thin, TankLoad{.water_depth = 370_mm, .water = 1023_kg_m3, .rim_loads = {}});
  const Check c = tank_stress_check("", l, TankPart::front_wall, {.strength = {1_GPa, "", ""}});
  CHECK(c.verdict == Verdict::outside_validity);
  CHECK(c.demand.si_value > 0.0);
  CHECK(contains(c.caution, "times the thickness"));
}

TEST_CASE("tank checks: criteria that cannot be are refused by name") {
  const TankBetweenLimits& l = limits(true);
  for (const double bad : {0.0, -1.0, not_a_number}) {
    CAPTURE(bad);
    const materials::DesignStrength strength{bad * units::pascal, "", ""};
    const materials::DesignStrength good{1_MPa, "", ""};
    const Length length = bad * units::metre;
    CHECK(contains(message_of<InvalidInput>([&] { tank_stress_check("", l, TankPart::base, {.strength = strength}); }),
                   "strength"));
    CHECK(contains(
        message_of<InvalidInput>([&] { tank_brace_stress_check("", l, {.strength = good, .load_factor = bad}); }),
        "load factor"));
    CHECK(
        contains(message_of<InvalidInput>([&] { tank_deflection_check("", l, TankPart::base, length, ""); }), "limit"));
    CHECK(contains(message_of<InvalidInput>([&] { tank_joint_check("", l, length, LoadDuration::permanent, good); }),
                   "bite"));
    CHECK(contains(message_of<InvalidInput>([&] { tank_bond_check("", l, length, LoadDuration::permanent, good); }),
                   "bite"));
    CHECK(contains(message_of<InvalidInput>([&] { tank_joint_check("", l, 9_mm, LoadDuration::permanent, strength); }),
                   "allowable"));
  }
  CHECK(contains(message_of<InvalidInput>([&] {
                   tank_stress_check("", l, TankPart::cross_brace, {.strength = {1_MPa, "", ""}});
                 }),
                 "tank part"));
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
