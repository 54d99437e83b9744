// Stand under a tank against printed coefficients and worked examples: beams, columns, legs.
#include <algorithm>
#include <cmath>

#include "support/near.hpp"
#include "theca/structure/column.hpp"
#include "theca/structure/leg_load.hpp"
#include "theca/structure/stand_beam.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using test::near;
using test::within;

namespace {
constexpr double pi = 3.14159265358979323846;
}

TEST_CASE("continuous beam: printed coefficients of 2, 3 and 4 spans [AISC Manual beam diagrams, from memory]") {
  const BeamSection s = rectangle_section(50_mm, 100_mm);
  // A modulus of shear so large that Bernoulli's theory is left.
  const BeamMaterial m{10_GPa, from_si<Pressure>(1e18)};
  const double ei = 10e9 * si(s.second_moment);
  const auto bent = [&](int n) { return bend_beam(1_m, n, 1000_N_m, m, s); };
  CHECK(near(si(bent(1).largest_moment), 125.0, 1e-12));
  CHECK(near(si(bent(1).deflection), 5.0 * 1000.0 / (384.0 * ei), 1e-9));
  CHECK(near(si(bent(2).largest_moment), 125.0, 1e-9));
  CHECK(near(si(bent(2).largest_reaction), 1250.0, 1e-9));
  CHECK(near(si(bent(2).end_reaction), 375.0, 1e-9));
  CHECK(within(si(bent(2).deflection) * ei / 1000.0, 0.0054, 5e-5));  // printed 0.0054 w l^4 / EI
  CHECK(near(si(bent(3).largest_moment), 100.0, 1e-9));
  CHECK(near(si(bent(3).largest_reaction), 1100.0, 1e-9));
  CHECK(near(si(bent(3).end_reaction), 400.0, 1e-9));
  CHECK(within(si(bent(3).deflection) * ei / 1000.0, 0.0069, 5e-5));
  CHECK(within(si(bent(4).largest_moment), 107.1, 0.06));
  CHECK(within(si(bent(4).largest_reaction), 1143.0, 0.6));
  CHECK(within(si(bent(4).deflection) * ei / 1000.0, 0.0065, 5e-5));
}

TEST_CASE("beam with shear: one span in closed form, two spans by the propped half [Timoshenko beam]") {
  const BeamSection s = rectangle_section(40_mm, 200_mm);
  const BeamMaterial m{11_GPa, 0.7_GPa};
  const double w = 2000.0, l = 1.0, ei = 11e9 * si(s.second_moment), ga = 5.0 / 6.0 * 0.7e9 * 0.008;
  CHECK(near(si(bend_beam(1_m, 1, 2000_N_m, m, s).deflection), 5 * w / (384 * ei) + w / (8 * ga), 1e-9));
  // Two spans: middle support as the redundant, deflections of the 2 m beam: X = (5 w (2l)^4 / 384 EI + w (2l)^2 / 8
  // GA) over ((2l)^3 / 48 EI + 2l / 4 GA).
  const double x = (5 * w * 16 / (384 * ei) + w * 4 / (8 * ga)) / (8.0 / (48 * ei) + 2.0 / (4 * ga));
  CHECK(near(si(bend_beam(1_m, 2, 2000_N_m, m, s).largest_reaction), x, 1e-9));
  CHECK(near(si(bend_beam(1_m, 2, 2000_N_m, m, s).end_reaction), w * l - 0.5 * x, 1e-9));
}

TEST_CASE("three spans with shear: inner supports as redundants of the whole beam [force method]") {
  const BeamSection s = rectangle_section(40_mm, 200_mm);
  const BeamMaterial m{11_GPa, 0.7_GPa};
  const double w = 2000.0, ei = 11e9 * si(s.second_moment), ga = 5.0 / 6.0 * 0.7e9 * 0.008, all = 3.0;
  // Sag at 1 m of the beam of 3 m: under w, under a unit force at 1 m (b 2 m) and at 2 m (b 1 m).
  const double load = w * (27.0 - 6.0 + 1.0) / (24.0 * ei) + w * 2.0 / (2.0 * ga);
  const auto unit = [&](double b) { return b * (9.0 - b * b - 1.0) / (6.0 * all * ei) + b / (all * ga); };
  const double inner = load / (unit(2.0) + unit(1.0));
  CHECK(near(si(bend_beam(1_m, 3, 2000_N_m, m, s).largest_reaction), inner, 1e-9));
}

TEST_CASE("hollow square 50 x 50 x 3: area and second moment [by hand]") {
  const BeamSection s = hollow_section(50_mm, 50_mm, 3_mm);
  CHECK(near(si(s.area), 564e-6, 1e-12));  // 2500 - 1936
  CHECK(near(si(s.second_moment), (std::pow(0.05, 4) - std::pow(0.044, 4)) / 12.0, 1e-12));
}

TEST_CASE("steel column: 8 m and 5.6 m [Steel Buildings in Europe, Multi-storey 4, worked example A.5]") {
  // Printed: A 149 cm2, f_y 235, N_cr,y 8151.2 kN, N_cr,z 5657.4 kN, chi_y 0.808 on curve b (I_y 25170, I_z 8560 cm4)
  Column c{8_m, 210_GPa, 235_MPa, {from_si<Area>(149e-4), from_si<SecondMomentOfArea>(25170e-8), Volume(), 1.0}};
  CHECK(within(si(euler_load(c)) / 1e3, 8151.2, 0.1));
  CHECK(within(si(steel_buckling_load(c, BucklingCurve::b)) / (235e6 * 149e-4), 0.808, 6e-4));
  c.effective_length = 5.6_m;
  c.section.second_moment = from_si<SecondMomentOfArea>(8560e-8);
  CHECK(within(si(euler_load(c)) / 1e3, 5657.4, 0.1));
}

TEST_CASE("timber column: EN 1995 and NDS factors worked by hand from the printed equations") {
  // 100 x 100 mm, 2 m: slenderness 69.282; f 21, E 7400 MPa: relative 69.282 / pi sqrt(21 / 7400) = 1.174800;
  // k = 0.5 (1 + 0.2 x 0.8748 + 1.380155) = 1.277558; k_c = 1 / (k + sqrt(k^2 - 1.380155)) = 0.561940
  const Column c{2_m, 7400_MPa, 21_MPa, rectangle_section(100_mm, 100_mm)};
  CHECK(near(si(timber_buckling_load(c)) / 210e3, 0.561940, 1e-4));
  // NDS: l/d 20: F_cE = 0.822 x 7400 / 400 = 15.207; ratio 0.724143; (1.724143)/1.6 = 1.077589;
  // C_p = 1.077589 - sqrt(1.161199 - 0.905179) = 0.571605
  CHECK(near(si(nds_column_load(c)) / 210e3, 0.571605, 1e-4));
}

TEST_CASE("secant and Johnson: limits, and a load whose stress is put back [Timoshenko & Gere]") {
  const Column c{2_m, 200_GPa, 250_MPa, hollow_section(50_mm, 50_mm, 3_mm)};
  const double p = si(secant_load(c, 10_mm)), e = si(euler_load(c)), a = si(c.section.area);
  CHECK(near(p / a * (1.0 + 0.01 * a / si(c.section.section_modulus) / std::cos(0.5 * pi * std::sqrt(p / e))), 250e6,
             1e-9));
  CHECK(near(si(secant_load(c, Length())), std::min(e, 250e6 * a), 1e-9));
  Column half = c;
  half.effective_length = from_si<Length>(std::sqrt(pi * pi * 200e9 * si(c.section.second_moment) / (125e6 * a)));
  CHECK(near(si(johnson_load(half)), 125e6 * a, 1e-9));  // the parabola meets Euler at half of the strength
}

TEST_CASE("legs: four, off centre by statics; one short, three carry and the load sits on a diagonal [statics]") {
  auto legs = rectangle_of_legs(2_m, 1_m, 4);
  const LegForces f = leg_forces(legs, 4000_N, 0.2_m, Length(), 1000000_N_m);
  // W/4 (1 +- e x / (L/2)^2) = 1000 (1 +- 0.2)
  CHECK(near(f.force[0], 800_N, 1e-8));
  CHECK(near(f.force[1], 1200_N, 1e-8));
  CHECK(f.standing == 4);
  legs[0].gap = 50_mm;
  const LegForces short_leg = leg_forces(legs, 4000_N, Length(), Length(), 1000000_N_m);
  // The weight in the middle is on the diagonal of legs 1 and 2: half each, nothing on the others.
  CHECK(within(short_leg.force[0], Force(), 1e-4_N));
  CHECK(near(short_leg.force[1], 2000_N, 1e-6));
  CHECK(near(short_leg.force[2], 2000_N, 1e-6));
  CHECK(within(short_leg.force[3], Force(), 0.01_N));
  for (const int n : {6, 8}) {
    const LegForces even = leg_forces(rectangle_of_legs(2_m, 1_m, n), 4800_N, Length(), Length(), 1000000_N_m);
    CHECK(near(even.largest, 4800_N / static_cast<double>(n), 1e-8));
  }
}
