// Water motion: limits of wave theory, exact potential flow beside Housner's shares, the earthquake wave, bad input.
#include "theca/structure/sloshing.hpp"

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

namespace {
constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double pi = 3.14159265358979323846;
}  // namespace

TEST_CASE("slosh frequency: worked example, deep and shallow limits, modes [linear wave theory]") {
  // L 2.4 m, h 0.36 m: k 1.308997 /m, k h 0.471239, tanh 0.439200; 9.80665 x 1.308997 x 0.439200 = 5.637953;
  // root 2.374437
  CHECK(near(si(slosh_frequency(2.4_m, 0.36_m)), 2.374437 / (2.0 * pi), 2e-6));
  CHECK(near(si(slosh_frequency(1_m, 20_m)), std::sqrt(9.80665 / (4.0 * pi)), 1e-9));   // sqrt(g pi / L) / 2 pi
  CHECK(near(si(slosh_frequency(2_m, 1_mm)), std::sqrt(9.80665 * 0.001) / 4.0, 1e-5));  // sqrt(g h) / 2 L
  CHECK(near(slosh_frequency(3_m, 0.4_m, 3), slosh_frequency(1_m, 0.4_m, 1), 1e-12));   // three waves in three tanks
  CHECK(slosh_frequency(1_m, 0.5_m) > slosh_frequency(1_m, 0.4_m));
  CHECK(slosh_frequency(1_m, 0.5_m) > slosh_frequency(1.1_m, 0.5_m));
}

TEST_CASE("Housner's shares of the water stay near those of exact potential flow") {
  // Exact for a rigid rectangular tank: mode n of the odd ones swings 8 tanh(k h) / (k h (n pi)^2), k = n pi / L, of
  // the water, the rest moves with the tank (E. W. Graham, A. M. Rodriguez 1952, from memory; checked here by the
  // shares of all modes of shallow water adding up to 1). Housner is 2 to 3 % over on the swinging part, 6 to 11 % on
  // the other.
  const auto exact_swinging = [](double length, double depth, int n) {
    const double k = n * pi / length;
    return 8.0 * std::tanh(k * depth) / (k * depth * n * n * pi * pi);
  };
  double all = 0.0;
  for (int n = 1; n < 4000; n += 2) all += exact_swinging(1e6, 1.0, n);
  CHECK(near(all, 1.0, 5e-4));
  for (const double ratio : {0.8, 1.0, 1.5, 2.0, 3.0, 5.0, 6.7}) {
    CAPTURE(ratio);
    const SloshMasses m = slosh_masses(ratio * 0.4_m, 0.4_m, 100_kg);
    CHECK(near(si(m.convective) / 100.0, exact_swinging(ratio, 1.0, 1), 0.03));
    double impulsive = 1.0;
    for (int n = 1; n < 2000; n += 2) impulsive -= exact_swinging(ratio, 1.0, n);
    CHECK(near(si(m.impulsive) / 100.0, impulsive, 0.11));
  }
}

TEST_CASE("slosh period of ACI 350.3, sqrt(3.16 g tanh(3.16 H/L) / L), agrees with wave theory to 1 %") {
  for (const double ratio : {0.5, 1.0, 2.0, 6.0}) {
    const double omega = std::sqrt(3.16 * 9.80665 * std::tanh(3.16 / ratio) / (0.4 * ratio));
    CHECK(near(2.0 * pi * si(slosh_frequency(ratio * 0.4_m, 0.4_m)), omega, 0.01));
  }
}

TEST_CASE("earthquake wave: plateau, velocity and displacement branches worked by hand [ACI 350.3-06, 9.4 and 7]") {
  const Earthquake site{.short_period = 0.5, .one_second = 0.2};      // T_s 0.4 s, branch change at 4 s
  CHECK(near(convective_spectral_factor(0.3_s, site), 0.75, 1e-12));  // plateau 1.5 S_DS
  CHECK(near(convective_spectral_factor(2_s, site), 0.15, 1e-12));    // 1.5 x 0.2 / 2
  CHECK(near(convective_spectral_factor(5_s, site), 0.048, 1e-12));   // 2.4 x 0.5 / 25
  // The two branches meet at 1.6 / T_s.
  CHECK(near(convective_spectral_factor(3.999999_s, site), convective_spectral_factor(4.000001_s, site), 1e-5));
  // L 2.4 m, h 0.36 m: T 2.646179 s, C_c 0.113371, d = 1.2 x C_c
  CHECK(near(si(slosh_wave_height(2.4_m, 0.36_m, site)), 1.2 * 0.3 / (2.0 * pi / 2.374437), 1e-5));
  Earthquake important = site;
  important.importance_factor = 1.5;
  CHECK(near(slosh_wave_height(2.4_m, 0.36_m, important), 1.5 * slosh_wave_height(2.4_m, 0.36_m, site), 1e-12));
}

TEST_CASE("hand strokes at the natural frequency give a ratio of one") {
  CHECK(near(stroke_frequency_ratio(slosh_frequency(0.75_m, 0.36_m), 0.75_m, 0.36_m), 1.0, 1e-12));
  CHECK(near(stroke_frequency_ratio(2.0 * slosh_frequency(0.75_m, 0.36_m), 0.75_m, 0.36_m), 2.0, 1e-12));
}

TEST_CASE("kernels take other scalars") {
  CHECK(near(static_cast<double>(kernel::slosh_frequency(2.4F, 0.36F, 9.80665F, 1)), 2.374437 / (2.0 * pi), 1e-5));
}

TEST_CASE("water motion: bad input is refused by name") {
  const Earthquake site{.short_period = 0.5, .one_second = 0.2};
  for (const double bad : {0.0, -1.0, not_a_number, infinite}) {
    CAPTURE(bad);
    const Length length = bad * units::metre;
    const Acceleration g = bad * units::metre_per_second_squared;
    CHECK(contains(message_of<InvalidInput>([&] { slosh_frequency(length, 1_m); }), "inside length"));
    CHECK(contains(message_of<InvalidInput>([&] { slosh_frequency(1_m, length); }), "water depth"));
    CHECK(contains(message_of<InvalidInput>([&] { slosh_frequency(1_m, 1_m, 1, g); }), "gravity"));
    CHECK(contains(message_of<InvalidInput>([&] { slosh_masses(length, 1_m, 1_kg); }), "inside length"));
    CHECK(contains(message_of<InvalidInput>([&] { slosh_masses(1_m, length, 1_kg); }), "water depth"));
    CHECK(contains(message_of<InvalidInput>([&] { slosh_masses(1_m, 1_m, bad * units::kilogram); }), "water mass"));
    CHECK(contains(message_of<InvalidInput>([&] { convective_spectral_factor(bad * units::second, site); }), "period"));
    CHECK(contains(
        message_of<InvalidInput>([&] { convective_spectral_factor(1_s, {.short_period = bad, .one_second = 0.2}); }),
        "S_DS"));
    CHECK(contains(
        message_of<InvalidInput>([&] { convective_spectral_factor(1_s, {.short_period = 0.5, .one_second = bad}); }),
        "S_D1"));
    CHECK(contains(message_of<InvalidInput>([&] { slosh_wave_height(length, 1_m, site); }), "inside length"));
    CHECK(contains(message_of<InvalidInput>([&] { stroke_frequency_ratio(bad * units::per_second, 1_m, 1_m); }),
                   "stroke rate"));
  }
  for (const double bad : {0.9, 1.6, not_a_number})
    CHECK(contains(message_of<InvalidInput>([&] {
                     convective_spectral_factor(1_s,
                                                {.short_period = 0.5, .one_second = 0.2, .importance_factor = bad});
                   }),
                   "importance factor"));
  CHECK(contains(message_of<InvalidInput>([] { slosh_frequency(1_m, 1_m, 0); }), "mode"));
  CHECK(contains(message_of<InvalidInput>([] { slosh_frequency(1_m, 1_m, 101); }), "mode"));
}
