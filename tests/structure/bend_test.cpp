// Bending of a panel: limits, symmetries, scaling laws, equilibrium, and what is refused.
#include "theca/structure/bend.hpp"

#include <cmath>
#include <limits>

#include "support/near.hpp"
#include "theca/error.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using test::contains;
using test::message_of;
using test::near;
using test::within;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

Panel wall() {
  Panel p;
  p.width = 1.2_m;
  p.height = 420_mm;
  p.thickness = 10_mm;
  p.material.youngs_modulus = 70_GPa;
  p.material.poisson_ratio = 0.22;
  return p;
}
const PressureLoad water = hydrostatic(390_mm, 1023_kg_m3);

/// Moment of all reactions about the bottom edge line.
double moment_about_bottom(const BentPanel& b) {
  const auto arm = [&](Side side) {
    double sum = 0.0;  // midpoint rule on the reaction times y
    constexpr int n = 4000;
    for (int i = 0; i < n; ++i) sum += si(b.reaction_at(side, (i + 0.5) / n * b.panel.height)) * (i + 0.5) / n;
    return sum / n * si(b.panel.height) * si(b.panel.height);
  };
  return arm(Side::left) + arm(Side::right) +
         si(b.panel.height) * (si(b.reactions.top) + si(b.reactions.top_left) + si(b.reactions.top_right));
}

}  // namespace

TEST_CASE("pressure load: falls to zero at the water line and stays zero above") {
  CHECK(near(water.at_bottom, from_si<Pressure>(1023.0 * 9.80665 * 0.39), 1e-15));
  CHECK(near(water.at(195_mm), 0.5 * water.at_bottom, 1e-12));
  CHECK(water.at(390_mm) == Pressure());
  CHECK(water.at(420_mm) == Pressure());
  CHECK(uniform(3_kPa).at(2_m) == 3_kPa);
}

TEST_CASE("reactions and corner forces balance the load, in force to rounding and in moment to 1e-3") {
  const double total = 0.5 * si(water.at_bottom) * 0.39 * 1.2;
  for (int kind = 0; kind < 6; ++kind) {
    CAPTURE(kind);
    Panel p = wall();
    p.top = kind % 2 == 0 ? free_edge() : hinged();
    if (kind / 2 == 1) p.left = p.bottom = clamped();
    if (kind / 2 == 2) p.right = elastic(2e4 * units::pascal, 300.0 * units::newton_per_radian);
    const BentPanel b = bend(p, water);
    CHECK(near(si(b.total_load), total, 1e-12));
    const EdgeReactions& r = b.reactions;
    CHECK(near(si(r.bottom + r.left + r.right + r.top + r.bottom_left + r.bottom_right + r.top_left + r.top_right),
               total, 1e-9));
    CHECK(b.equilibrium_residual < 1e-9);
    if (kind / 2 != 1)  // a clamped bottom takes a moment of its own
      CHECK(within(moment_about_bottom(b), total * 0.13, 2e-3 * total * 0.13));
  }
}

TEST_CASE("stress goes with 1 / thickness^2 and deflection with 1 / thickness^3, exactly") {
  Panel p = wall();
  const BentPanel thin = bend(p, water);
  p.thickness = 3.0 * p.thickness;
  const BentPanel thick = bend(p, water);
  CHECK(near(thick.max_tension, thin.max_tension / 9.0, 1e-12));
  CHECK(near(thick.max_deflection, thin.max_deflection / 27.0, 1e-12));
}

TEST_CASE("stress and deflection go with the pressure; deflection with 1 / modulus, stress not at all") {
  Panel p = wall();
  const BentPanel one = bend(p, uniform(1_kPa));
  const BentPanel seven = bend(p, uniform(7_kPa));
  CHECK(near(seven.max_tension, 7.0 * one.max_tension, 1e-12));
  CHECK(near(seven.max_deflection, 7.0 * one.max_deflection, 1e-12));
  p.material.youngs_modulus = 3.2_GPa;
  const BentPanel soft = bend(p, uniform(1_kPa));
  CHECK(near(soft.max_tension, one.max_tension, 1e-12));
  CHECK(near(soft.max_deflection, 70.0 / 3.2 * one.max_deflection, 1e-12));
}

TEST_CASE("a pull instead of a push: same sizes, tension on the other face") {
  const BentPanel push = bend(wall(), uniform(1_kPa));
  const BentPanel pull = bend(wall(), uniform(-1_kPa));
  CHECK(push.max_tension_on_far_face);
  CHECK_FALSE(pull.max_tension_on_far_face);
  CHECK(near(pull.max_tension, push.max_tension, 1e-12));
  CHECK(near(pull.max_deflection, push.max_deflection, 1e-12));
  CHECK(near(pull.reactions.bottom, -push.reactions.bottom, 1e-12));
}

TEST_CASE("no load: everything is zero and nothing is NaN") {
  const BentPanel b = bend(wall(), uniform(0_Pa));
  CHECK(b.max_deflection == Length());
  CHECK(b.max_tension == Pressure());
  CHECK(b.equilibrium_residual == 0.0);
  CHECK(b.at(600_mm, 200_mm).far_face.principal_max == Pressure());
}

TEST_CASE("symmetric edges give a symmetric panel; the parity shortcut does not change the answer") {
  Panel p = wall();
  p.left = p.right = elastic(1e5 * units::pascal, 40.0 * units::newton_per_radian);
  const BentPanel even = bend(p, water);
  CHECK(near(even.at(300_mm, 150_mm).deflection, even.at(900_mm, 150_mm).deflection, 1e-10));
  CHECK(near(even.reactions.left, even.reactions.right, 1e-10));
  // A difference of 1e-13 in one stiffness switches parity off.
  p.right.translation = (1.0 + 1e-13) * p.right.translation;
  const BentPanel full = bend(p, water);
  CHECK(near(full.max_tension, even.max_tension, 1e-6));  // found by another search, on the other side perhaps
  CHECK(near(full.max_deflection, even.max_deflection, 1e-9));
  CHECK(near(full.at(300_mm, 150_mm).moment_y, even.at(300_mm, 150_mm).moment_y, 1e-9));
}

TEST_CASE("turning the panel by a right angle turns the answer") {
  Panel p = wall();
  p.bottom = clamped();
  p.left = hinged();
  p.right = elastic(3e4 * units::pascal, 200.0 * units::newton_per_radian);
  p.top = free_edge();
  Panel turned = p;  // x and y swapped
  turned.width = p.height;
  turned.height = p.width;
  turned.left = p.bottom;
  turned.right = p.top;
  turned.bottom = p.left;
  turned.top = p.right;
  const BentPanel a = bend(p, uniform(2_kPa));
  const BentPanel b = bend(turned, uniform(2_kPa));
  CHECK(near(a.max_deflection, b.max_deflection, 1e-9));
  CHECK(near(a.max_tension, b.max_tension, 1e-9));
  const PanelState s = a.at(0.9_m, 100_mm);
  const PanelState t = b.at(100_mm, 0.9_m);
  CHECK(near(s.moment_x, t.moment_y, 1e-9));
  CHECK(near(s.moment_y, t.moment_x, 1e-9));
  CHECK(near(s.moment_xy, t.moment_xy, 1e-9));
  CHECK(near(a.reactions.right, b.reactions.top, 1e-9));
  CHECK(near(a.reactions.bottom_right, b.reactions.top_left, 1e-6));
}

TEST_CASE("an elastic edge runs from free to held as its stiffness runs from zero to infinity") {
  Panel p = wall();
  p.top = free_edge();
  const BentPanel loose = bend(p, water);
  p.top = clamped();
  const BentPanel held = bend(p, water);
  p.top = elastic(from_si<EdgeStiffness>(1e-6), from_si<RotationalStiffness>(1e-6));
  CHECK(near(bend(p, water).max_deflection, loose.max_deflection, 1e-7));
  p.top = elastic(from_si<EdgeStiffness>(1e15), from_si<RotationalStiffness>(1e15));
  CHECK(near(bend(p, water).max_deflection, held.max_deflection, 1e-7));
  CHECK(near(bend(p, water).max_tension, held.max_tension, 1e-7));
  p.top = elastic(from_si<EdgeStiffness>(1e300), from_si<RotationalStiffness>(1e300));
  CHECK(near(bend(p, water).max_deflection, held.max_deflection, 1e-9));
  p.top = elastic(from_si<EdgeStiffness>(infinite), from_si<RotationalStiffness>(infinite));
  CHECK(bend(p, water).max_deflection == held.max_deflection);
  Length last = 2.0 * loose.max_deflection;
  for (double k = 10.0; k < 1e9; k *= 10.0) {
    p.top = elastic(from_si<EdgeStiffness>(k));
    const BentPanel b = bend(p, water);
    CHECK(b.max_deflection < last);
    last = b.max_deflection;
  }
}

TEST_CASE("a wide wall with held top bends as a strip: M = p0 H^2 / (9 sqrt 3) [statics of a beam]") {
  Panel p = wall();
  p.width = 8_m;
  p.height = 500_mm;
  p.top = hinged();
  const BentPanel b = bend(p, hydrostatic(500_mm, 1000_kg_m3), 24);
  const PanelState mid = b.at(4_m, (1.0 - 1.0 / std::sqrt(3.0)) * p.height);
  CHECK(near(si(mid.moment_y), 1000.0 * 9.80665 * 0.5 * 0.25 / (9.0 * std::sqrt(3.0)), 1e-3));
  CHECK(near(si(mid.moment_x), 0.22 * si(mid.moment_y), 1e-2));
}

TEST_CASE("a cantilever wall: clamped bottom, all else free, bends as a beam [p0 H^4 / (30 E I), p0 H^2 / 6]") {
  Panel p = wall();
  p.width = 500_mm;
  p.height = 1_m;
  p.material.poisson_ratio = 0.0;  // without lateral contraction the plate is a beam exactly
  p.left = p.right = p.top = free_edge();
  p.bottom = clamped();
  const BentPanel b = bend(p, hydrostatic(1_m, 1000_kg_m3));
  const double p0 = 9806.65;
  CHECK(near(si(b.max_deflection), p0 / 30.0 / (70e9 * 1e-6 / 12.0), 1e-9));
  CHECK(near(si(b.at(250_mm, 0_m).moment_y), -p0 / 6.0, 1e-9));
  CHECK(near(si(b.max_tension), p0 / 6.0 * 6.0 / 1e-4, 1e-9));
  CHECK_FALSE(b.max_tension_on_far_face);
  CHECK(near(si(b.max_deflection_at.y), 1.0, 1e-9));
  CHECK(within(si(b.max_tension_at.y), 0.0, 1e-9));
}

TEST_CASE("largest tension: found where it is, in a rimless wall near the lower corners and not at the top middle") {
  Panel p = wall();
  const BentPanel b = bend(p, water);
  const Pressure top_middle = b.at(0.5 * p.width, p.height).far_face.principal_max;
  CHECK(b.max_tension > 1.1 * top_middle);
  CHECK(si(b.max_tension_at.y) < 0.5 * si(p.height));
  // Nothing on a fine raster is larger, and the place gives back the value.
  for (int i = 0; i <= 60; ++i)
    for (int j = 0; j <= 60; ++j) {
      const PanelState s = b.at(i / 60.0 * p.width, j / 60.0 * p.height);
      REQUIRE(si(s.far_face.principal_max) <= si(b.max_tension) * (1.0 + 1e-9));
      REQUIRE(si(s.loaded_face.principal_max) <= si(b.max_tension) * (1.0 + 1e-9));
      REQUIRE(std::abs(si(s.deflection)) <= si(b.max_deflection) * (1.0 + 1e-9));
    }
  CHECK(near(b.at(b.max_tension_at).far_face.principal_max, b.max_tension, 1e-12));
  CHECK(near(b.at(b.max_deflection_at).deflection, b.max_deflection, 1e-12));
}

TEST_CASE("stresses of the two faces mirror each other; principal stresses keep trace and determinant") {
  const PanelState s = bend(wall(), water).at(250_mm, 130_mm);
  CHECK(near(s.loaded_face.x, -s.far_face.x, 1e-15));
  CHECK(near(s.loaded_face.principal_max, -s.far_face.principal_min, 1e-12));
  const double x = si(s.far_face.x), y = si(s.far_face.y), xy = si(s.far_face.xy);
  CHECK(near(si(s.far_face.principal_max) + si(s.far_face.principal_min), x + y, 1e-12));
  CHECK(near(si(s.far_face.principal_max) * si(s.far_face.principal_min), x * y - xy * xy, 1e-9));
  CHECK(near(x, 6.0 * si(s.moment_x) / 1e-4, 1e-12));
}

TEST_CASE("degree 14 stands to 4 digits for walls up to 6 times as long as high") {
  for (const double width : {0.2, 0.42, 1.0, 2.5})
    for (const Edge& top : {free_edge(), hinged()}) {
      Panel p = wall();
      p.width = width * units::metre;
      p.top = top;
      CAPTURE(width);
      const BentPanel usual = bend(p, water);
      const BentPanel fine = bend(p, water, 24);
      CHECK(near(usual.max_deflection, fine.max_deflection, 5e-5));
      CHECK(near(usual.max_tension, fine.max_tension, 2e-4));
    }
}

TEST_CASE("edges that leave the panel loose are refused by name") {
  Panel p = wall();
  p.bottom = p.left = p.right = p.top = free_edge();
  std::string message = message_of<InvalidInput>([&] { bend(p, water); });
  CHECK(contains(message, "panel edges"));
  CHECK(contains(message, "bottom free, left free, right free, top free"));
  p.bottom = hinged();  // a swinging door
  CHECK(contains(message_of<InvalidInput>([&] { bend(p, water); }), "bottom hinged"));
  p.bottom = elastic(EdgeStiffness(), from_si<RotationalStiffness>(infinite));  // may still shift
  CHECK(contains(message_of<InvalidInput>([&] { bend(p, water); }), "bottom elastic"));
  p.left = p.right = p.top = p.bottom;
  CHECK_THROWS_AS(bend(p, water), InvalidInput);
  p.bottom = hinged();
  p.left = elastic(from_si<EdgeStiffness>(1e-9));  // held in name only
  p.top = p.right = free_edge();
  CHECK_THROWS_AS(bend(p, water), InvalidInput);
  p.left = hinged();  // two hinged edges at a corner hold a plane
  CHECK(bend(p, water).equilibrium_residual < 1e-9);
  p.left = free_edge();
  p.bottom = clamped();
  CHECK(bend(p, water).equilibrium_residual < 1e-9);
}

TEST_CASE("impossible panels and loads are refused by name") {
  const auto refused = [](auto change) {
    Panel p = wall();
    change(p);
    return message_of<InvalidInput>([&] { bend(p, water); });
  };
  for (const double bad : {0.0, -1.0, not_a_number, infinite}) {
    CHECK(contains(refused([&](Panel& p) { p.width = bad * units::metre; }), "panel width"));
    CHECK(contains(refused([&](Panel& p) { p.height = bad * units::metre; }), "panel height"));
    CHECK(contains(refused([&](Panel& p) { p.thickness = bad * units::metre; }), "panel thickness"));
    CHECK(contains(refused([&](Panel& p) { p.material.youngs_modulus = bad * units::pascal; }), "Young's modulus"));
  }
  for (const double bad : {-0.1, 0.6, not_a_number})
    CHECK(contains(refused([&](Panel& p) { p.material.poisson_ratio = bad; }), "Poisson's ratio"));
  for (const double bad : {-1.0, not_a_number}) {
    CHECK(
        contains(refused([&](Panel& p) { p.top.translation = from_si<EdgeStiffness>(bad); }), "top edge translation"));
    CHECK(contains(refused([&](Panel& p) { p.left.rotation = from_si<RotationalStiffness>(bad); }),
                   "left edge rotation"));
    CHECK_THROWS_AS(hydrostatic(bad * units::metre, 1000_kg_m3), InvalidInput);
    CHECK_THROWS_AS(hydrostatic(1_m, bad * units::kilogram_per_cubic_metre), InvalidInput);
    CHECK_THROWS_AS(hydrostatic(1_m, 1000_kg_m3, bad * units::metre_per_second_squared), InvalidInput);
  }
  CHECK_THROWS_AS(hydrostatic(infinite * units::metre, 1000_kg_m3), InvalidInput);
  CHECK_THROWS_AS(uniform(not_a_number * units::pascal), InvalidInput);
  CHECK(contains(message_of<InvalidInput>([] { bend(wall(), hydrostatic(421_mm, 1000_kg_m3)); }), "water depth"));
  CHECK(contains(message_of<InvalidInput>([] {
                   bend(wall(), {not_a_number * units::pascal, 1_m});
                 }),
                 "load at bottom"));
  CHECK(contains(message_of<InvalidInput>([] { bend(wall(), {1_Pa, not_a_number * units::metre}); }), "water depth"));
  for (const int bad : {3, 25, -1}) {
    CAPTURE(bad);
    CHECK(contains(message_of<InvalidInput>([&] { bend(wall(), water, bad); }), "degree"));
  }
  const BentPanel b = bend(wall(), water);
  CHECK(contains(message_of<InvalidInput>([&] { b.at(1.21_m, 0_m); }), "x"));
  CHECK(contains(message_of<InvalidInput>([&] { b.at(0_m, -1_mm); }), "y"));
  CHECK(
      contains(message_of<InvalidInput>([&] { b.reaction_at(Side::left, not_a_number * units::metre); }), "left edge"));
}

TEST_CASE("stout, paper-thin and very long panels are outside the theory") {
  Panel p = wall();
  p.thickness = 43_mm;
  CHECK(contains(message_of<OutOfValidity>([&] { bend(p, water); }), "thickness / shorter side"));
  p.thickness = 1_um;
  CHECK_THROWS_AS(bend(p, water), OutOfValidity);
  p = wall();
  p.width = 8.5_m;
  CHECK(contains(message_of<OutOfValidity>([&] { bend(p, water); }), "width / height"));
  p.width = 20_mm;
  CHECK_THROWS_AS(bend(p, water), OutOfValidity);
}

TEST_CASE("any depth of water from a film to the brim, any degree: finite and in balance") {
  for (const double depth : {1e-12, 1e-6, 1e-3, 0.05, 0.2, 0.42})
    for (const int degree : {4, 5, 9, 14, 24}) {
      CAPTURE(depth);
      CAPTURE(degree);
      const BentPanel b = bend(wall(), hydrostatic(depth * units::metre, 1000_kg_m3), degree);
      CHECK(std::isfinite(si(b.max_tension)));
      CHECK(si(b.max_deflection) > 0.0);
      CHECK(b.equilibrium_residual < 1e-9);
    }
}
