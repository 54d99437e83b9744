// Wall friction, fittings and pipe sizes against published figures and independent solutions.
#include <cmath>

#include "support/near.hpp"
#include "theca/hydraulics/duty_point.hpp"
#include "theca/hydraulics/fittings.hpp"
#include "theca/hydraulics/friction.hpp"
#include "theca/hydraulics/pipe.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::near;

TEST_CASE("Colebrook-White over its whole range [mpmath, 50 digits, tests/reference/hydraulics_values.py]") {
  const double table[][3] = {
      {4000, 0, 0.039907014055634898},    {4000, 1e-6, 0.039908029446170663}, {4000, 5e-5, 0.039957753381664392},
      {4000, 1e-3, 0.040910389862846133}, {4000, 1e-2, 0.04908226944789973},  {4000, 5e-2, 0.076986834889224867},
      {1e4, 0, 0.030882950353487691},     {1e4, 1e-6, 0.030884498091421111},  {1e4, 5e-5, 0.030960210153381696},
      {1e4, 1e-3, 0.032381806363092721},  {1e4, 1e-2, 0.043126584706811694},  {1e4, 5e-2, 0.073801275638538282},
      {5e4, 0, 0.020891443528337245},     {5e4, 1e-6, 0.020895069598236435},  {5e4, 5e-5, 0.021071198511432808},
      {5e4, 1e-3, 0.024020783975372},     {5e4, 1e-2, 0.039081647020699298},  {5e4, 5e-2, 0.07200997690051911},
      {1e5, 0, 0.017989773084273838},     {1e5, 1e-6, 0.01799519319334717},   {1e5, 5e-5, 0.018256220612143323},
      {1e5, 1e-3, 0.022174535944515075},  {1e5, 1e-2, 0.038503543527335095},  {1e5, 5e-2, 0.071780929441140334},
      {1e6, 0, 0.011645040997991623},     {1e6, 1e-6, 0.011668155513485805},  {1e6, 5e-5, 0.012648877228566063},
      {1e6, 1e-3, 0.019943465840476866},  {1e6, 1e-2, 0.037964741876160063},  {1e6, 5e-2, 0.071573753859857869},
      {1e7, 0, 0.0081026694308749133},    {1e7, 1e-6, 0.0082131804042593886}, {1e7, 5e-5, 0.010859745053680477},
      {1e7, 1e-3, 0.019667052432096763},  {1e7, 1e-2, 0.0379098257518066},    {1e7, 5e-2, 0.071552981840866772},
      {1e8, 0, 0.0059404663516367614},    {1e8, 1e-6, 0.0064325565196922799}, {1e8, 5e-5, 0.010578079361991109},
      {1e8, 1e-3, 0.019638632837385287},  {1e8, 1e-2, 0.037904323387354329},  {1e8, 5e-2, 0.071550904091083255},
  };
  // Four Newton steps leave rounding only: a few units in the last place.
  for (const auto& [re, roughness, f] : table) CHECK(near(friction_factor(re, roughness), f, 2e-15));
}

TEST_CASE("oil in 500 m of 200 mm cast iron pipe [White, Fluid Mechanics, 4th ed. 1999, example 6.7]") {
  // 0.2 m3/s, nu 1e-5 m2/s, roughness 0.26 mm: Re 128,000 (rounded to three digits), f 0.0225 read off Moody's chart
  // (which is good to about 2 %), hence 117 m.
  const VolumeFlow q = 0.2_m3_s;
  const Pipe pipe{.bore = 200_mm, .length = 500_m, .roughness = 0.26_mm};
  const double re = reynolds_number(velocity(pipe, q), pipe.bore, 1e-5_m2_s);
  CHECK(near(re, 128000.0, 0.006));
  CHECK(near(friction_factor(re, 0.0013), 0.0225, 0.02));
  CHECK(near(head_loss_friction(q, pipe.bore, pipe.length, pipe.roughness, 1e-5_m2_s), 117_m, 0.025));
}

TEST_CASE("smooth pipes: Colebrook-White meets Prandtl's law 1/sqrt(f) = 2 log10(Re sqrt(f)) - 0.8 [Prandtl 1935]") {
  // 2 log10(2.51) = 0.7993, printed as 0.8: a difference of 0.0007 in 1/sqrt(f), which is 5 at the least.
  for (double re = 4000.0; re <= 1e8; re *= 10.0) {
    const double f = friction_factor(re, 0.0);
    CHECK(near(1.0 / std::sqrt(f), 2.0 * std::log10(re * std::sqrt(f)) - 0.8, 0.0008 / 5.0));
  }
}

TEST_CASE("friction factor of complete turbulence in clean steel [Crane TP-410, table A-26, from memory]") {
  // Bores of Schedule 40. The table was read off a chart and prints three decimals; 0.0011 covers both.
  const double table[][2] = {{0.622, 0.027}, {0.824, 0.025}, {1.049, 0.023}, {1.380, 0.022},
                             {1.610, 0.021}, {2.067, 0.019}, {3.068, 0.018}, {4.026, 0.017},
                             {5.047, 0.016}, {6.065, 0.015}, {7.981, 0.014}, {11.938, 0.013}};
  for (const auto& [bore_in, fT] : table)
    CHECK(test::within(complete_turbulence_friction_factor(bore_in * units::inch), fT, 0.0011));
}

TEST_CASE("bores of Schedule 40 and 80 [package fluids 1.0.22, nearest_pipe, ASME B36.10M in rounded millimetres]") {
  // The package holds diameters and walls rounded to 0.01 to 0.1 mm: twice 0.05 mm of wall and 0.05 mm of diameter.
  struct Row {
    const char* nominal;
    double s40_in, s80_in;
  };
  const Row rows[] = {{"1/2", 0.6205, 0.5449},   {"3/4", 0.8252, 0.7433},   {"1", 1.0488, 0.9567},
                      {"1-1/4", 1.3811, 1.2795}, {"1-1/2", 1.6118, 1.5016}, {"2", 2.0661, 1.9378},
                      {"2-1/2", 2.4677, 2.3220}, {"3", 3.0677, 2.9000},     {"4", 4.0260, 3.8260},
                      {"5", 5.0472, 4.8126},     {"6", 6.0661, 5.7622},     {"8", 7.9819, 7.6260},
                      {"10", 10.0181, 9.5598},   {"12", 11.9362, 11.3717}};
  CHECK(std::size(rows) == plastic_pipe_sizes().size());
  for (const Row& r : rows) {
    const PipeSize& s = plastic_pipe_size(r.nominal);
    CHECK(test::within(bore(s, Schedule::s40), r.s40_in * units::inch, 0.15_mm));
    CHECK(test::within(bore(s, Schedule::s80), r.s80_in * units::inch, 0.15_mm));
  }
}

TEST_CASE("bores that the trade prints to a thousandth [Schedule 40 steel tables, Crane TP-410, table B-14]") {
  const std::pair<const char*, double> rows[] = {{"1", 1.049}, {"1-1/2", 1.610}, {"2", 2.067},
                                                 {"3", 3.068}, {"4", 4.026},     {"6", 6.065}};
  for (const auto& [nominal, inches] : rows)
    CHECK(test::within(bore(plastic_pipe_size(nominal), Schedule::s40), inches * units::inch, 1e-9_m));
}

TEST_CASE(
    "walls of metric PVC-U pipe follow the pipe series [ISO 4065: dn / (2 S + 1), S of Renard's R10, up to 0.1 mm]") {
  // S 12.5, 10, 8 and 6.3 are 10 to the power of 1.1, 1, 0.9 and 0.8. The 110 mm wall of S 12.5 is printed 4.2
  // for 4.202 and the 40 mm wall of S 10 1.9 for 1.905; all else is rounded up.
  const auto follows = [](const Length& wall, int nominal, double exponent) {
    const double excess_mm = in(wall, units::millimetre) - nominal / (2 * std::pow(10.0, exponent) + 1);
    return excess_mm > -0.01 && excess_mm < 0.1 + 1e-9;
  };
  for (const MetricPipeSize& s : metric_pipe_sizes()) {
    CHECK(follows(s.wall_sdr13_6, s.nominal, 0.8));
    if (s.wall_sdr21) CHECK(follows(*s.wall_sdr21, s.nominal, 1.0));
    if (s.wall_sdr17) CHECK(follows(*s.wall_sdr17, s.nominal, 0.9));
    if (s.wall_sdr26) CHECK(follows(*s.wall_sdr26, s.nominal, 1.1));
  }
}

TEST_CASE("walls of metric PVC-U pipe as sold [a pipe merchant's table, 10 and 16 bar]") {
  // The merchant's 63 to 90 mm are of a thinner series (SDR 26 and 17), 20 to 32 mm of 10 bar of none in the standard.
  const double pn10[][2] = {{40, 1.9}, {50, 2.4}, {110, 4.2}, {125, 4.8}, {140, 5.4}, {160, 6.2}, {200, 7.7}};
  const double pn16[][2] = {{20, 1.5},  {25, 1.9},  {32, 2.4},  {40, 3.0},  {50, 3.7},
                            {110, 6.6}, {125, 7.4}, {140, 8.3}, {160, 9.5}, {200, 11.9}};
  const auto wall = [](double nominal, MetricClass c) {
    return minimum_wall(metric_pipe_size(static_cast<int>(nominal)), c);
  };
  for (const auto& [nominal, mm] : pn10)
    CHECK(test::within(wall(nominal, MetricClass::water_pn10), mm * units::millimetre, 1e-12_m));
  for (const auto& [nominal, mm] : pn16)
    CHECK(test::within(wall(nominal, MetricClass::water_pn16), mm * units::millimetre, 1e-12_m));
}
