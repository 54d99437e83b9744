// Sizing of whole tanks: what is found holds, the next smaller does not, and both limits of the joints are in it.
#include "theca/structure/tank_size.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <string>
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

Tank tank_of(const Length& thickness = 9.02_mm) {
  Tank tank;
  tank.inside_length = 1.2_m;
  tank.inside_width = 0.6_m;
  tank.wall_height = 0.45_m;
  tank.wall_thickness = tank.base_thickness = thickness;
  tank.material = materials::float_glass();
  return tank;
}

TankLoad water() {
  TankLoad load;
  load.water_depth = 0.42_m;
  load.water = 1025_kg_m3;
  return load;
}

TankRimBrace rim_of(const Tank& tank, const Length& width) {
  return {.width = width, .thickness = tank.wall_thickness, .material = tank.material, .bond = {}};
}

TankCrossBrace brace_of(const Tank& tank) {
  return {.at = {}, .width = 100_mm, .thickness = tank.wall_thickness, .material = tank.material, .bond = {}};
}

TankCriteria tension(const Pressure& allowable) {
  TankCriteria c;
  c.wall_tension = allowable;
  return c;
}

const auto stock = materials::float_glass_thicknesses();

}  // namespace

TEST_CASE("tank sizing: every criterion is used as its demand over its allowable says [definition]") {
  Tank tank = tank_of();
  tank.joint = adhesive_bead(2_mm, 9_mm, materials::silicone_adhesive());
  tank.rim = rim_of(tank, 50_mm);
  tank.support = TankSupport::foam;
  tank.foundation = from_si<FoundationModulus>(2e7);
  TankCriteria c = tension(6_MPa);
  c.base_tension = 5_MPa;
  c.strip_stress = 4_MPa;
  c.wall_deflection = 2_mm;
  c.joint_load = 700_N_m;
  c.joint_stress = 0.1_MPa;
  const RatedTank rated = rate(tank, water(), c, {JointModel::hinged, JointModel::as_bonded, JointModel::monolithic});
  REQUIRE(rated.bent.size() == 3);
  CHECK(rated.utilisations.size() == 3 * 7);
  double largest = 0.0;
  for (std::size_t i = 0; i < 3; ++i) {
    const BentTank& bent = rated.bent[i];
    const auto used = [&](TankCriterion criterion) {
      for (const TankUtilisation& u : rated.utilisations)
        if (u.criterion == criterion && u.joints == bent.joints) return u.utilisation;
      return -1.0;
    };
    double wall = 0.0, bow = 0.0, over = 0.0, base = 0.0, strip = 0.0, joint = 0.0;
    for (const BentPart& p : bent.parts) {
      if (p.part == TankPart::base) base = si(p.max_tension);
      if (p.part > TankPart::right_wall) continue;
      wall = std::max(wall, si(p.max_tension));
      bow = std::max(bow, si(p.max_deflection));
      over = std::max(over, p.deflection_over_thickness);
    }
    for (const BentStripSections& s : bent.strips) strip = std::max(strip, si(s.max_stress));
    for (const BentJoint& j : bent.joint_loads) joint = std::max(joint, si(j.max_line_load));
    CHECK(near(used(TankCriterion::wall_tension), wall / 6e6, 1e-12));
    CHECK(near(used(TankCriterion::base_tension), base / 5e6, 1e-12));
    CHECK(near(used(TankCriterion::strip_stress), strip / 4e6, 1e-12));
    CHECK(near(used(TankCriterion::wall_deflection), bow / 2e-3, 1e-12));
    CHECK(near(used(TankCriterion::joint_load), joint / 700.0, 1e-12));
    CHECK(near(used(TankCriterion::joint_stress), joint / 9e-3 / 0.1e6, 1e-12));
    CHECK(near(used(TankCriterion::linear_theory), over / 0.5, 1e-12));
  }
  for (const TankUtilisation& u : rated.utilisations) largest = std::max(largest, u.utilisation);
  CHECK(rated.governing.utilisation == largest);
  CHECK(rated.holds() == (largest <= 1.0));
}

TEST_CASE("tank sizing: a bow over length is held against each wall's own length") {
  TankCriteria c;
  c.wall_deflection_over_length = 1.0 / 300.0;
  const RatedTank rated = rate(tank_of(), water(), c, {JointModel::hinged});
  const BentPart& wall = part(rated.bent[0], TankPart::front_wall);
  REQUIRE(rated.utilisations[0].criterion == TankCriterion::wall_deflection);
  CHECK(near(rated.utilisations[0].utilisation, 300.0 * si(wall.max_deflection) / si(wall.width), 1e-12));
}

TEST_CASE("tank sizing: the sheet found holds and every thinner one of the stock does not") {
  for (const double allowable_MPa : {1.5, 4.0, 9.0}) {
    CAPTURE(allowable_MPa);
    const TankCriteria c = tension(allowable_MPa * units::megapascal);
    const auto found = thinnest_tank(tank_of(), water(), c, stock);
    REQUIRE(found);
    CHECK(found->rated.holds());
    CHECK(found->rated.bent.size() == 2);
    CHECK(found->rated.tank.wall_thickness == found->sheet.minimum);
    CHECK(found->rated.tank.base_thickness == found->sheet.minimum);
    CHECK(found->rated.tank.inside_length == 1.2_m);
    for (const auto& sheet : stock)
      if (sheet.minimum < found->sheet.minimum) CHECK(!rate(tank_of(sheet.minimum), water(), c).holds());
    CHECK(rate(found->rated.tank, water(), c).governing.utilisation == found->rated.governing.utilisation);
  }
  CHECK(!thinnest_tank(tank_of(), water(), tension(0.1_MPa), stock));
}

TEST_CASE("tank sizing: the limits of the joints are in the answer also where only the bond was asked") {
  Tank tank = tank_of();
  tank.joint = adhesive_bead(2_mm, 3_mm, materials::silicone_adhesive());
  TankSizingRules rules;
  rules.joints = {JointModel::as_bonded};
  const auto found = thinnest_tank(tank, water(), tension(6_MPa), stock, {}, rules);
  REQUIRE(found);
  REQUIRE(found->rated.bent.size() == 3);
  CHECK(found->rated.bent[0].joints == JointModel::as_bonded);
  CHECK(found->rated.bent[1].joints == JointModel::hinged);
  CHECK(found->rated.bent[2].joints == JointModel::monolithic);
  CHECK(found->rated.governing.joints == JointModel::as_bonded);
  CHECK(found->rated.tank.joint->bite == found->sheet.minimum);  // as wide as the sheet is thick
  rules.bite_is_thickness = false;
  const auto narrow = thinnest_tank(tank, water(), tension(6_MPa), stock, {}, rules);
  REQUIRE(narrow);
  CHECK(narrow->rated.tank.joint->bite == 3_mm);
}

TEST_CASE("tank sizing: the braces' own stock gives the thinnest brace with the thinnest wall") {
  Tank tank = tank_of();
  tank.rim = rim_of(tank, 60_mm);
  TankCriteria c = tension(5_MPa);
  c.strip_stress = 3_MPa;  // the middle brace, so that both a thinner and a thicker one could be taken in its place
  const std::array<materials::StockThickness, 3> braces = {
      materials::StockThickness{6_mm, 5.56_mm}, {8_mm, 7.42_mm}, {12_mm, 11.91_mm}};
  const auto found = thinnest_tank(tank, water(), c, stock, braces);
  REQUIRE(found);
  CHECK(found->rated.tank.rim->thickness == found->brace_sheet.minimum);
  int thinner_braces = 0, thinner_sheets = 0;
  for (const auto& brace : braces) {
    if (!(brace.minimum < found->brace_sheet.minimum)) continue;
    ++thinner_braces;
    Tank thinner = found->rated.tank;
    thinner.rim->thickness = brace.minimum;
    CHECK(!rate(thinner, water(), c).holds());
  }
  for (const auto& sheet : stock) {
    if (!(sheet.minimum < found->sheet.minimum)) continue;
    ++thinner_sheets;
    Tank thinner = tank;
    thinner.wall_thickness = thinner.base_thickness = sheet.minimum;
    for (const auto& brace : braces) {
      thinner.rim->thickness = brace.minimum;
      CHECK(!rate(thinner, water(), c).holds());
    }
  }
  // Without a thinner one of each to try, nothing above was put to the test.
  CHECK(thinner_braces > 0);
  CHECK(thinner_sheets > 0);
  const auto same = thinnest_tank(tank, water(), c, stock);
  REQUIRE(same);
  CHECK(same->brace_sheet.minimum == same->sheet.minimum);
}

TEST_CASE("tank sizing: the narrowest rim brace and the fewest cross braces that hold") {
  Tank tank = tank_of(7.42_mm);
  TankCriteria c;
  c.wall_deflection = 0.43_mm;
  const std::array<Length, 5> widths = {90_mm, 30_mm, 45_mm, 120_mm, 60_mm};  // in any order
  tank.rim = rim_of(tank, 10_mm);
  const auto rim = narrowest_rim(tank, water(), c, widths);
  REQUIRE(rim);
  CHECK(rim->holds());
  CHECK(rim->tank.rim->width > 30_mm);
  for (const Length& width : widths) {
    if (!(width < rim->tank.rim->width)) continue;
    tank.rim->width = width;
    CHECK(!rate(tank, water(), c).holds());
  }
  c.wall_deflection = 0.001_mm;
  CHECK(!narrowest_rim(tank, water(), c, widths));

  Tank open = tank_of(7.42_mm);
  c.wall_deflection = 1.2_mm;
  const auto crossed = fewest_cross_braces(open, water(), c, brace_of(open), 4);
  REQUIRE(crossed);
  const std::size_t count = crossed->tank.cross_braces.size();
  CHECK(count >= 1);
  for (std::size_t i = 0; i < count; ++i)
    CHECK(near(crossed->tank.cross_braces[i].at, 1.2_m * (double(i + 1) / double(count + 1)), 1e-12));
  CHECK(!fewest_cross_braces(open, water(), c, brace_of(open), static_cast<int>(count) - 1));
  c.wall_deflection = 50_mm;
  c.wall_tension = 100_MPa;
  open = tank_of(11.91_mm);
  const auto none = fewest_cross_braces(open, water(), c, brace_of(open), 4);
  REQUIRE(none);
  CHECK(none->tank.cross_braces.empty());
}

TEST_CASE("tank sizing: the longest tank holds and one a tolerance longer does not") {
  const TankCriteria c = tension(4_MPa);
  const auto found = longest_tank(tank_of(), water(), c, 0.5_m, 3_m, 2_mm);
  REQUIRE(found);
  CHECK(!found->at_limit);
  CHECK(found->monotone);
  CHECK(found->rated.holds());
  CHECK(found->rated.tank.inside_length == found->size);
  Tank longer = found->rated.tank;
  longer.inside_length += 2_mm;
  CHECK(!rate(longer, water(), c).holds());
  Tank square = tank_of();
  square.inside_length = found->size;
  const auto wide = widest_tank(square, water(), tension(4.5_MPa), 0.3_m, 3_m, 2_mm);
  REQUIRE(wide);
  CHECK(!wide->at_limit);
  CHECK(wide->rated.tank.inside_width == wide->size);
  CHECK(wide->rated.holds());
  square.inside_width = wide->size + 2_mm;
  CHECK(!rate(square, water(), tension(4.5_MPa)).holds());
  const auto unlimited = longest_tank(tank_of(18.26_mm), water(), tension(50_MPa), 0.5_m, 1_m);
  REQUIRE(unlimited);
  CHECK(unlimited->at_limit);
  CHECK(unlimited->size == 1_m);
  CHECK(!longest_tank(tank_of(), water(), tension(0.2_MPa), 0.5_m, 1_m));
}

TEST_CASE("tank sizing: a longer tank keeps its braces and rim loads in proportion") {
  Tank tank = tank_of();
  tank.cross_braces = {brace_of(tank)};
  tank.cross_braces[0].at = 0.3_m;  // a quarter of its length
  TankLoad load = water();
  load.rim_loads = {{.on = TankPart::back_wall, .along = 0.9_m, .length = 0.1_m, .down = 50_N, .outward = {}},
                    {.on = TankPart::left_wall, .along = 0.2_m, .length = 0.1_m, .down = 50_N, .outward = {}}};
  const auto found = longest_tank(tank, load, tension(200_MPa), 0.8_m, 0.9_m, 5_mm);
  REQUIRE(found);
  CHECK(near(found->rated.tank.cross_braces[0].at, 0.25 * found->size, 1e-12));
  CHECK(near(found->rated.bent[0].load.rim_loads[0].along, 0.75 * found->size, 1e-12));
  CHECK(found->rated.bent[0].load.rim_loads[1].along == 0.2_m);
}

TEST_CASE("tank sizing: sheets outside thin plate theory are passed over, and refused where all of them are") {
  const std::array<materials::StockThickness, 2> odd = {materials::StockThickness{0.1_mm, 0.1_mm}, {12_mm, 11.91_mm}};
  const auto found = thinnest_tank(tank_of(), water(), tension(20_MPa), odd);
  REQUIRE(found);
  CHECK(found->sheet.minimum == 11.91_mm);
  const std::array<materials::StockThickness, 1> block = {materials::StockThickness{90_mm, 90_mm}};
  CHECK(contains(message_of<OutOfValidity>([&] { (void)thinnest_tank(tank_of(), water(), tension(20_MPa), block); }),
                 "wall thickness / wall height"));
}

TEST_CASE("tank sizing: bad input is refused by name") {
  const Tank tank = tank_of();
  const TankLoad load = water();
  const auto says = [](const std::string& what, auto&& f) {
    CAPTURE(what);
    CHECK(contains(message_of<InvalidInput>(f), what));
  };
  says("tank criteria", [&] { (void)rate(tank, load, {}); });
  says("joint models", [&] { (void)rate(tank, load, tension(1_MPa), {}); });
  says("wall tension", [&] { (void)rate(tank, load, tension(-1_MPa)); });
  const auto with = [](auto&& change) {
    TankCriteria c;
    change(c);
    return c;
  };
  const double no_number = std::numeric_limits<double>::quiet_NaN();
  says("base tension", [&] { (void)rate(tank, load, with([](auto& c) { c.base_tension = Pressure(); })); });
  says("strip stress", [&] { (void)rate(tank, load, with([](auto& c) { c.strip_stress = -1_Pa; })); });
  says("wall deflection", [&] { (void)rate(tank, load, with([](auto& c) { c.wall_deflection = Length(); })); });
  says("wall deflection over length",
       [&] { (void)rate(tank, load, with([&](auto& c) { c.wall_deflection_over_length = no_number; })); });
  says("joint load", [&] { (void)rate(tank, load, with([](auto& c) { c.joint_load = LineLoad(); })); });
  says("tank joint", [&] { (void)rate(tank, load, with([](auto& c) { c.joint_stress = 1_MPa; })); });
  says("stock thicknesses", [&] { (void)thinnest_tank(tank, load, tension(1_MPa), {}); });
  const std::array<materials::StockThickness, 1> negative = {materials::StockThickness{10_mm, -9_mm}};
  says("stock minimum thickness", [&] { (void)thinnest_tank(tank, load, tension(1_MPa), negative); });
  const std::array<Length, 1> none = {Length()};
  says("rim brace", [&] { (void)narrowest_rim(tank, load, tension(1_MPa), none); });
  Tank rimmed = tank;
  rimmed.rim = rim_of(tank, 50_mm);
  says("rim brace widths", [&] { (void)narrowest_rim(rimmed, load, tension(1_MPa), {}); });
  says("rim brace width", [&] { (void)narrowest_rim(rimmed, load, tension(1_MPa), none); });
  says("most cross braces", [&] { (void)fewest_cross_braces(tank, load, tension(1_MPa), brace_of(tank), -1); });
  says("longest length", [&] { (void)longest_tank(tank, load, tension(1_MPa), 1_m, 0.5_m); });
  says("shortest length", [&] { (void)longest_tank(tank, load, tension(1_MPa), Length(), 0.5_m); });
  says("widest width", [&] { (void)widest_tank(tank, load, tension(1_MPa), 1_m, no_number * units::metre); });
  says("tolerance", [&] { (void)widest_tank(tank, load, tension(1_MPa), 0.5_m, 1_m, Length()); });
  CHECK(name(TankCriterion::joint_stress) == "joint stress");
  CHECK(name(TankCriterion::linear_theory) == "linear theory");
}
