// Held tops, joints, weight and floor: each against statics worked by hand, and what is refused.
#include <limits>

#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/materials/glass.hpp"
#include "theca/structure/bend.hpp"
#include "theca/structure/floor.hpp"
#include "theca/structure/joint.hpp"
#include "theca/structure/rim.hpp"
#include "theca/structure/weight.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using test::contains;
using test::message_of;
using test::near;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

TankShell tank() {
  return {.outside_length = 2.0_m,
          .outside_width = 1.0_m,
          .outside_height = 0.5_m,
          .wall_thickness = 10_mm,
          .base_thickness = 20_mm,
          .water_depth = 0.4_m,
          .material = materials::float_glass()};
}

}  // namespace

TEST_CASE("top and bottom line loads of a held wall: numbers worked by hand, and together the whole water load") {
  // p0 = 1000 x 9.80665 x 0.3 = 2941.995 Pa; top p0 0.09 / (6 x 0.5) = 88.26 N/m; whole p0 0.3 / 2 = 441.30 N/m
  const LineLoad top = held_top_line_load(0.3_m, 0.5_m, 1000_kg_m3);
  const LineLoad bottom = bottom_joint_line_load(0.3_m, 0.5_m, 1000_kg_m3);
  CHECK(near(si(top), 88.25985, 1e-9));
  CHECK(near(si(top) + si(bottom), 441.29925, 1e-9));
  CHECK(near(si(held_top_line_load(0.5_m, 0.5_m, 1000_kg_m3)), 9806.65 * 0.25 / 6.0, 1e-12));  // a third of p0 h / 2
}

TEST_CASE("middle of a long plate held at the top: line loads of the strip [plate solver as the other method]") {
  Panel p;
  p.width = 5_m;
  p.height = 0.5_m;
  p.thickness = 10_mm;
  p.material.youngs_modulus = 70_GPa;
  p.material.poisson_ratio = 0.22;
  p.top = hinged();
  const BentPanel b = bend(p, hydrostatic(0.3_m, 1000_kg_m3), 24);
  // 10 times as long as high; the plate's tables end in a strip within about 0.5 % of the middle
  CHECK(near(b.reaction_at(Side::top, 2.5_m), held_top_line_load(0.3_m, 0.5_m, 1000_kg_m3), 5e-3));
  CHECK(near(b.reaction_at(Side::bottom, 2.5_m), bottom_joint_line_load(0.3_m, 0.5_m, 1000_kg_m3), 5e-3));
}

TEST_CASE("joint stress is line load over bite, and the needed bite turns it round") {
  CHECK(near(joint_stress(1200_N_m, 12_mm), 100_kPa, 1e-12));
  CHECK(near(needed_bite(1200_N_m, 100_kPa), 12_mm, 1e-12));
}

TEST_CASE("held top and joint: bad input is refused by name") {
  for (const double bad : {0.0, -1.0, not_a_number, infinite}) {
    CAPTURE(bad);
    const auto top = [](Length h, Length wall, Density rho, Acceleration g) {
      return message_of<InvalidInput>([&] { held_top_line_load(h, wall, rho, g); });
    };
    const auto bottom = [](Length h, Length wall, Density rho, Acceleration g) {
      return message_of<InvalidInput>([&] { bottom_joint_line_load(h, wall, rho, g); });
    };
    const Length length = bad * units::metre;
    const Density density = bad * units::kilogram_per_cubic_metre;
    const Acceleration gravity = bad * units::metre_per_second_squared;
    CHECK(contains(top(length, 1_m, 1000_kg_m3, standard_gravity), "water depth"));
    CHECK(contains(top(1_m, length, 1000_kg_m3, standard_gravity), "wall height"));
    CHECK(contains(top(1_m, 1_m, density, standard_gravity), "water density"));
    CHECK(contains(top(1_m, 1_m, 1000_kg_m3, gravity), "gravity"));
    CHECK(contains(bottom(length, 1_m, 1000_kg_m3, standard_gravity), "water depth"));
    CHECK(contains(bottom(1_m, length, 1000_kg_m3, standard_gravity), "wall height"));
    CHECK(contains(bottom(1_m, 1_m, density, standard_gravity), "water density"));
    CHECK(contains(bottom(1_m, 1_m, 1000_kg_m3, gravity), "gravity"));
    CHECK(contains(message_of<InvalidInput>([&] { joint_stress(1_N_m, length); }), "bite"));
    CHECK(contains(message_of<InvalidInput>([&] { needed_bite(1_N_m, bad * units::pascal); }), "allowable"));
  }
  CHECK(contains(message_of<InvalidInput>([] { held_top_line_load(1.1_m, 1_m, 1000_kg_m3); }), "wall height"));
  CHECK(contains(message_of<InvalidInput>([] { bottom_joint_line_load(1.1_m, 1_m, 1000_kg_m3); }), "wall height"));
  for (const double bad : {-1.0, not_a_number, infinite}) {
    const LineLoad q = bad * units::newton_per_metre;
    CHECK(contains(message_of<InvalidInput>([&] { joint_stress(q, 10_mm); }), "line load"));
    CHECK(contains(message_of<InvalidInput>([&] { needed_bite(q, 1_kPa); }), "line load"));
  }
}

TEST_CASE("tank weight: volumes and masses worked by hand") {
  const TankShell t = tank();
  CHECK(near(inside_length(t), 1.98_m, 1e-12));
  CHECK(near(inside_width(t), 0.98_m, 1e-12));
  CHECK(near(wall_height(t), 0.48_m, 1e-12));
  CHECK(near(si(inside_area(t)), 1.9404, 1e-12));
  CHECK(near(si(water_volume(t)), 0.77616, 1e-12));
  // base 2 x 1 x 0.02 = 0.04; walls (2 - 1.9404) x 0.48 = 0.028608 m3
  CHECK(near(si(shell_volume(t)), 0.068608, 1e-12));
  const TankWeight w = weigh(t, 1025_kg_m3, 100_kg, 30_kg);
  CHECK(near(si(w.shell), 171.52, 1e-12));  // glass 2500 kg/m3, EN 572-1
  CHECK(near(si(w.water), 795.564, 1e-12));
  CHECK(near(si(w.total), 171.52 + 795.564 + 130.0, 1e-12));
  CHECK(near(si(w.weight), 9.80665 * (171.52 + 795.564 + 130.0), 1e-12));
  // Drain blocked: brimful.
  const TankWeight full = weigh(t, wall_height(t), 1025_kg_m3, 100_kg, 30_kg);
  CHECK(near(si(full.water), 1.9404 * 0.48 * 1025.0, 1e-12));
  // Sheet and inside fill the outside box.
  CHECK(near(si(shell_volume(t)) + si(volume_at(t, wall_height(t))), 1.0, 1e-12));
  CHECK(volume_at(t, 0_m) == Volume());
}

TEST_CASE("tank weight: impossible tanks are refused by name") {
  const auto refused = [](auto change) {
    TankShell t = tank();
    change(t);
    return message_of<InvalidInput>([&] { weigh(t, 1000_kg_m3, 0_kg, 0_kg); });
  };
  for (const double bad : {0.0, -1.0, not_a_number, infinite}) {
    const Length length = bad * units::metre;
    CHECK(contains(refused([&](TankShell& t) { t.outside_length = length; }), "outside length"));
    CHECK(contains(refused([&](TankShell& t) { t.outside_width = length; }), "outside width"));
    CHECK(contains(refused([&](TankShell& t) { t.outside_height = length; }), "outside height"));
    CHECK(contains(refused([&](TankShell& t) { t.wall_thickness = length; }), "wall thickness"));
    CHECK(contains(refused([&](TankShell& t) { t.base_thickness = length; }), "base thickness"));
    CHECK(contains(refused([&](TankShell& t) { t.material.density = bad * units::kilogram_per_cubic_metre; }),
                   "shell density"));
    CHECK(contains(message_of<InvalidInput>([&] { weigh(tank(), bad * units::kilogram_per_cubic_metre, 0_kg, 0_kg); }),
                   "water density"));
  }
  for (const double bad : {-1.0, not_a_number, infinite}) {
    CHECK(contains(refused([&](TankShell& t) { t.water_depth = bad * units::metre; }), "water depth"));
    CHECK(contains(message_of<InvalidInput>([&] { weigh(tank(), 1000_kg_m3, bad * units::kilogram, 0_kg); }), "stand"));
    CHECK(contains(message_of<InvalidInput>([&] { weigh(tank(), 1000_kg_m3, 0_kg, bad * units::kilogram); }), "load"));
  }
  CHECK(contains(refused([](TankShell& t) { t.water_depth = 0.481_m; }), "water depth"));
  CHECK(contains(refused([](TankShell& t) { t.wall_thickness = 0.5_m; }), "wall thickness"));
  CHECK(contains(refused([](TankShell& t) { t.base_thickness = 0.5_m; }), "base thickness"));
}

TEST_CASE("floor: mean pressure, tributary pressure and leg force worked by hand") {
  const Footprint stand{
      .length = 2_m, .width = 1_m, .tributary_area = 5_m2, .legs = 6, .leg_plate = 0.01_m2, .unevenness = 1.5};
  const FloorLoad load = floor_load(12_kN, stand);
  CHECK(near(load.footprint_pressure, 6_kPa, 1e-12));
  CHECK(near(load.tributary_pressure, 2.4_kPa, 1e-12));
  CHECK(near(load.leg_force, 3_kN, 1e-12));
  CHECK(near(load.leg_pressure, 300_kPa, 1e-12));
  Footprint alone = stand;
  alone.tributary_area = Area();
  alone.unevenness = 1.0;
  CHECK(floor_load(12_kN, alone).tributary_pressure == floor_load(12_kN, alone).footprint_pressure);
  CHECK(near(floor_load(12_kN, alone).leg_force, 2_kN, 1e-12));
}

TEST_CASE("floor: bad input is refused by name") {
  const Footprint good{.length = 2_m, .width = 1_m, .tributary_area = Area(), .legs = 4, .leg_plate = 0.01_m2};
  const auto refused = [&](auto change) {
    Footprint f = good;
    change(f);
    return message_of<InvalidInput>([&] { floor_load(1_kN, f); });
  };
  for (const double bad : {0.0, -1.0, not_a_number, infinite}) {
    CHECK(contains(refused([&](Footprint& f) { f.length = bad * units::metre; }), "footprint length"));
    CHECK(contains(refused([&](Footprint& f) { f.width = bad * units::metre; }), "footprint width"));
    CHECK(contains(refused([&](Footprint& f) { f.leg_plate = bad * units::square_metre; }), "leg plate"));
  }
  for (const double bad : {-1.0, not_a_number, infinite}) {
    CHECK(contains(refused([&](Footprint& f) { f.tributary_area = bad * units::square_metre; }), "tributary area"));
    CHECK(contains(message_of<InvalidInput>([&] { floor_load(bad * units::newton, good); }), "weight"));
  }
  CHECK(contains(refused([](Footprint& f) { f.tributary_area = 1.9_m2; }), "tributary area"));
  CHECK(contains(refused([](Footprint& f) { f.legs = 0; }), "legs"));
  CHECK(contains(refused([](Footprint& f) { f.leg_plate = 0.51_m2; }), "leg plate"));
  for (const double bad : {0.9, 4.1, not_a_number})
    CHECK(contains(refused([&](Footprint& f) { f.unevenness = bad; }), "unevenness"));
}
