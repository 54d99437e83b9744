// Sliding, tipping, racking, level and the checks of a stand: statics worked by hand, and what is refused.
#include <cmath>
#include <limits>

#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/structure/column.hpp"
#include "theca/structure/earthquake.hpp"
#include "theca/structure/motion_checks.hpp"
#include "theca/structure/stand_checks.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using test::contains;
using test::message_of;
using test::near;

namespace {
constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

template <class F>
std::string refused(F&& f) {
  return message_of<InvalidInput>(f);
}
Standing standing() { return {.weight = 1000_N, .base = 0.6_m, .off_centre = 0.1_m, .friction = 0.4, .uplift = 0.1}; }
StandFrame frame() {
  StandFrame f;
  f.height = 0.8_m;
  f.youngs_modulus = 10_GPa;
  f.second_moment = from_si<SecondMomentOfArea>(1e-6);
  return f;
}
WaveBasin basin() { return {1.2_m, 0.5_m, 0.3_m, 1025_kg_m3, from_si<KinematicViscosity>(1e-6)}; }
Stroke stroke() {
  Stroke s;
  s.amplitude = 0.1_m;
  s.rate = from_si<Frequency>(0.7);
  s.blade = from_si<Area>(0.005);
  s.place = 0.6_m;
  s.height = 0.2_m;
  return s;
}
Column column() { return {1_m, 10_GPa, 20_MPa, rectangle_section(50_mm, 50_mm)}; }
}  // namespace

TEST_CASE("sliding and tipping factors: worked by hand") {
  // 900 N down: friction 360 N over 120 N; righting 900 x 0.2 = 180 N m over 90
  const Stability s = stability(standing(), 120_N, from_si<Moment>(90.0));
  CHECK(near(s.sliding_factor, 3.0, 1e-12));
  CHECK(near(s.tipping_factor, 2.0, 1e-12));
  CHECK(stability(standing(), Force(), Moment()).sliding_factor > 1e300);
}

TEST_CASE("racking: K 3 E I / h^3 a leg and the weight's lean; diagonals worked by hand; a stand that folds") {
  // 4 x 3 x 1e10 x 1e-6 / 0.512 = 234375 N/m; W over K h = 18750 / 187500 = 0.1
  const Racking r = racking(frame(), 18750_N, 100_N);
  CHECK(near(r.amplification, 1.0 / 0.9, 1e-12));
  CHECK(near(si(r.sway), 100.0 / 0.9 / 234375.0, 1e-12));
  CHECK(near(si(r.leg_moment), 100.0 / 0.9 * 0.8 / 4.0, 1e-12));
  StandFrame f = frame();
  f.diagonals = true;
  f.bay = 0.6_m;
  f.diagonal_area = from_si<Area>(1e-4);
  const Racking d = racking(f, Force(), 120_N);  // 1 m long, cosine 0.6: 2 x 1e6 x 0.36 = 720 kN/m
  CHECK(near(si(d.sway), 120.0 / 720e3, 1e-12));
  CHECK(near(d.diagonal_force, 100_N, 1e-12));
  CHECK_THROWS_AS(racking(frame(), 187500_N, 100_N), OutOfValidity);
}

TEST_CASE("out of level: 1 in 100 over 1.2 m, worked by hand") {
  const OutOfLevel o = out_of_level(1.2_m, 0.4_m, 0.5_m, from_si<Angle>(std::atan(0.01)));
  CHECK(near(o.waterline, 12_mm, 1e-12));
  CHECK(near(o.low_depth, 406_mm, 1e-12));
  CHECK(near(o.high_depth, 394_mm, 1e-12));
  CHECK(near(o.low_freeboard, 94_mm, 1e-12));
  CHECK(near(o.wall_load_ratio, 1.015 * 1.015 / std::sqrt(1.0001), 1e-12));
  CHECK(near(o.rise, 12_mm / std::sqrt(1.0001), 1e-12));
  CHECK(near(si(tilt_of(600_mm, 3_mm)), std::asin(0.005), 1e-12));
}

TEST_CASE("centre of mass: two masses by hand") {
  const PlacedMass c = centre_of_mass({{10_kg, 1_m, Length(), 0.5_m}, {30_kg, Length(), 0.4_m, 1.5_m}});
  CHECK(near(c.mass, 40_kg, 1e-12));
  CHECK(near(c.x, 0.25_m, 1e-12));
  CHECK(near(c.y, 0.3_m, 1e-12));
  CHECK(near(c.z, 1.25_m, 1e-12));
}

TEST_CASE("checks of motion and stand: verdicts on both sides, and cautions of crush and collapse") {
  const Stability s = stability(standing(), 120_N, from_si<Moment>(90.0));
  CHECK(sliding_check("tank A", s, 1.5, "owner").verdict == Verdict::holds);
  CHECK(sliding_check("tank A", s, 3.1, "owner").verdict == Verdict::fails);
  CHECK(tipping_check("", s, 1.8, "owner").verdict == Verdict::marginal);
  CHECK(contains(tipping_check("", s, 1.8, "owner").caution, "licensed engineer"));
  HandWave w{};
  w.amplitude = 10_mm;
  w.linear = true;
  CHECK(hand_wave_check("", w, 20_mm).verdict == Verdict::holds);
  CHECK(hand_wave_check("", w, 9_mm).verdict == Verdict::fails);
  w.linear = false;
  CHECK(hand_wave_check("", w, 20_mm).verdict == Verdict::outside_validity);
  BentBeam b{};
  b.stress = 5_MPa;
  b.deflection = 2_mm;
  CHECK(beam_stress_check("", b, 8_MPa, "owner").verdict == Verdict::holds);
  CHECK(beam_stress_check("", b, 4_MPa, "owner").verdict == Verdict::fails);
  CHECK(beam_deflection_check("", b, 1_mm, "owner").verdict == Verdict::fails);
  CHECK(column_check("", 1000_N, 2500_N, 2.0, "Euler").verdict == Verdict::holds);
  CHECK(column_check("", 1000_N, 2500_N, 3.0, "Euler").verdict == Verdict::fails);
  LegForces legs{};
  legs.largest = 900_N;
  CHECK(leg_force_check("", legs, 1000_N, "owner").verdict == Verdict::marginal);
  CHECK(level_check("", out_of_level(1.2_m, 0.4_m, 0.5_m, from_si<Angle>(0.001)), 3_mm, "owner").verdict ==
        Verdict::holds);
  CHECK(contains(level_check("", OutOfLevel{}, 3_mm, "owner").caution, "licensed engineer"));
}

TEST_CASE("motion and stand: bad input is refused by name") {
  for (const double bad : {0.0, -1.0, not_a_number, infinite}) {
    CAPTURE(bad);
    const Length x = bad * units::metre;
    const Force force = bad * units::newton;
    Standing st = standing();
    st.weight = force;
    CHECK(contains(refused([&] { stability(st, 1_N, Moment()); }), "weight"));
    st = standing();
    st.base = x;
    CHECK(contains(refused([&] { stability(st, 1_N, Moment()); }), "base"));
    st = standing();
    st.friction = bad;
    CHECK(contains(refused([&] { stability(st, 1_N, Moment()); }), "friction"));
    CHECK(contains(refused([&] { housner_water(x, 1_m, 1_kg); }), "inside length"));
    CHECK(contains(refused([&] { potential_flow_water(1_m, x, 1_kg); }), "water depth"));
    CHECK(contains(refused([&] { housner_water(1_m, 1_m, bad * units::kilogram); }), "water mass"));
    WaveBasin b = basin();
    b.viscosity = from_si<KinematicViscosity>(bad);
    CHECK(contains(refused([&] { wave_damping(b, Surface::clean); }), "viscosity"));
    Stroke s = stroke();
    s.blade = from_si<Area>(bad);
    CHECK(contains(refused([&] { stroke_force(s, 1000_kg_m3); }), "blade"));
    CHECK(contains(refused([&] { hand_wave(basin(), stroke(), bad > 1.0 ? 1.0 : bad, 5); }), "damping"));
    StandFrame f = frame();
    f.height = x;
    CHECK(contains(refused([&] { racking(f, 1_N, 1_N); }), "leg height"));
    CHECK(contains(refused([&] { rectangle_section(x, 1_m); }), "width"));
    CHECK(contains(refused([&] { hollow_section(50_mm, 50_mm, x); }), "wall"));
    CHECK(contains(refused([&] { bend_beam(x, 1, 1_N_m, {10_GPa, 1_GPa}, rectangle_section(1_m, 1_m)); }), "span"));
    Column c = column();
    c.effective_length = x;
    CHECK(contains(refused([&] { euler_load(c); }), "effective length"));
    CHECK(contains(refused([&] { timber_buckling_load(c); }), "effective length"));
    CHECK(contains(refused([&] { leg_forces(rectangle_of_legs(1_m, 1_m, 4), force, Length(), Length(), 1_N_m); }),
                   "weight"));
    CHECK(contains(refused([&] { out_of_level(x, 1_m, 1_m, Angle()); }), "inside length"));
    CHECK(contains(refused([&] { tilt_of(x, Length()); }), "length"));
    CHECK(contains(refused([&] { sliding_check("", Stability{}, bad, ""); }), "least factor"));
    CHECK(contains(refused([&] { level_check("", OutOfLevel{}, x, ""); }), "limit"));
  }
  for (const double bad : {-1.0, not_a_number, infinite}) {
    CHECK(contains(refused([&] { stability(standing(), bad * units::newton, Moment()); }), "shear"));
    CHECK(contains(refused([&] { rim_wave(basin(), bad * units::metre, 1_mm); }), "amplitude"));
    CHECK(contains(refused([&] { secant_load(column(), bad * units::metre); }), "eccentricity"));
    CHECK(contains(refused([&] { centre_of_mass({{bad * units::kilogram, Length(), Length(), Length()}}); }), "mass"));
    CHECK(contains(refused([&] { out_of_level(1_m, 0.1_m, 1_m, from_si<Angle>(bad)); }), "tilt"));
  }
  CHECK(contains(refused([] { potential_flow_water(1_m, 1_m, 1_kg, 0); }), "modes"));
  CHECK(contains(refused([] { shaking_load(WaterModel{}, {}, {}); }), "convective masses"));
  CHECK(contains(refused([] { shaking_coefficients({.short_period = 1, .one_second = 0.4}, 1_s, 0.9); }), "impulsive"));
  CHECK(contains(refused([] { hand_wave(basin(), stroke(), 0.01, 0); }), "strokes"));
  CHECK(contains(refused([] { rectangle_of_legs(1_m, 1_m, 5); }), "legs"));
  CHECK(contains(refused([] { bend_beam(1_m, 0, 1_N_m, {10_GPa, 1_GPa}, rectangle_section(1_m, 1_m)); }), "spans"));
  // Outside the legs, and legs in one line.
  CHECK(contains(refused([] { leg_forces(rectangle_of_legs(1_m, 1_m, 4), 1_N, 0.6_m, Length(), 1_N_m); }), "tips"));
  CHECK(contains(refused([] {
                   leg_forces({{Length(), Length(), Length()}, {1_m, Length(), Length()}, {2_m, Length(), Length()}},
                              1_N, 1_m, Length(), 1_N_m);
                 }),
                 "line"));
  Column long_one = column();
  long_one.effective_length = 3_m;
  CHECK_THROWS_AS(nds_column_load(long_one), OutOfValidity);
  CHECK_THROWS_AS(out_of_level(2_m, 10_mm, 1_m, from_si<Angle>(0.05)), OutOfValidity);
}
