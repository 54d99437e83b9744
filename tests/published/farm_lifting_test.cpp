// Revised NIOSH lifting equation against the tables and worked examples of its Applications Manual.
#include "support/near.hpp"
#include "theca/farm/lifting.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::near;
using test::within;

namespace {
Lift lift(Length h_from, Length v_from, Length h_to, Length v_to, Frequency rate, LiftingDuration duration,
          Coupling coupling) {
  return {.origin = {h_from, v_from, 0_deg},
          .destination = {h_to, v_to, 0_deg},
          .rate = rate,
          .duration = duration,
          .coupling = coupling};
}
constexpr auto us = LiftingConstants::us_customary;
}  // namespace

TEST_CASE("lifting: package inspection [NIOSH 94-110 rev. 2021, example 4, figure 14, p. 46]") {
  // The worksheet multiplies multipliers rounded to two digits: 51 x 1.0 x .94 x .87 x 1.0 x .88 x .95 = 34.9 lb at the
  // origin and 15.2 lb at the destination. Exact multipliers give 34.8 and 15.3, so 0.1 lb and half a last digit.
  const Lift task =
      lift(10_in, 22_in, 20_in, 59_in, 3.0 * units::per_minute, LiftingDuration::up_to_1_h, Coupling::fair);
  const WeightLimits limits = recommended_weight_limits(task, us);
  CHECK(within(limits.origin.horizontal, 1.0, 0.005));
  CHECK(within(limits.origin.vertical, 0.94, 0.005));
  CHECK(within(limits.origin.distance, 0.87, 0.005));
  CHECK(within(limits.origin.frequency, 0.88, 1e-12));
  CHECK(within(limits.origin.coupling, 0.95, 1e-12));
  CHECK(within(limits.destination.coupling, 1.0, 1e-12));
  CHECK(within(in(limits.at_origin, units::pound), 34.9, 0.15));
  CHECK(within(in(limits.at_destination, units::pound), 15.2, 0.15));
}

TEST_CASE("lifting: loading punch press stock [NIOSH 94-110, example 1, figures from memory]") {
  // 44 lb reel: 16.3 lb and index 2.7 at the origin, 14.5 lb and 3.0 at the destination. The manual's table prints .44
  // for H = 23 in, where 10/23 = .435: its printed limits are up to 1.7 % above the formula.
  const Lift task =
      lift(23_in, 15_in, 23_in, 63_in, 0.0 * units::per_minute, LiftingDuration::up_to_1_h, Coupling::fair);
  const WeightLimits limits = recommended_weight_limits(task, us);
  CHECK(near(in(limits.at_origin, units::pound), 16.3, 0.02));
  CHECK(near(in(limits.at_destination, units::pound), 14.5, 0.02));
  const LiftingIndex index = lifting_index(44_lb, task, us);
  CHECK(within(index.at_origin, 2.7, 0.06));
  CHECK(within(index.at_destination, 3.0, 0.08));
}

TEST_CASE("lifting: frequency between table rows is interpolated [NIOSH 94-110, section 1.3 and example 7]") {
  // 2.4 lifts per minute, between .91 at 2 and .88 at 3
  CHECK(within(frequency_multiplier(2.4 * units::per_minute, LiftingDuration::up_to_1_h, 80_cm), 0.898, 1e-9));
}

TEST_CASE("lifting: frequency multipliers at the corners of table 5 [NIOSH 94-110, p. 15]") {
  const auto fm = [](double f, LiftingDuration d, Length v) {
    return frequency_multiplier(f * units::per_minute, d, v);
  };
  using D = LiftingDuration;
  CHECK(within(fm(0.2, D::up_to_1_h, 80_cm), 1.00, 1e-12));
  CHECK(within(fm(0.2, D::up_to_2_h, 80_cm), 0.95, 1e-12));
  CHECK(within(fm(0.2, D::up_to_8_h, 80_cm), 0.85, 1e-12));
  CHECK(within(fm(12, D::up_to_1_h, 50_cm), 0.37, 1e-12));
  CHECK(fm(13, D::up_to_1_h, 50_cm) == 0.0);
  CHECK(within(fm(15, D::up_to_1_h, 80_cm), 0.28, 1e-12));
  CHECK(fm(15.1, D::up_to_1_h, 80_cm) == 0.0);
  CHECK(within(fm(10, D::up_to_2_h, 50_cm), 0.26, 1e-12));
  CHECK(fm(11, D::up_to_2_h, 50_cm) == 0.0);
  CHECK(within(fm(12, D::up_to_2_h, 80_cm), 0.21, 1e-12));
  CHECK(within(fm(8, D::up_to_8_h, 50_cm), 0.18, 1e-12));
  CHECK(fm(9, D::up_to_8_h, 50_cm) == 0.0);
  CHECK(within(fm(10, D::up_to_8_h, 80_cm), 0.13, 1e-12));
  CHECK(fm(11, D::up_to_8_h, 80_cm) == 0.0);
}

TEST_CASE("lifting: limits of the multipliers [NIOSH 94-110, section 1.3]") {
  const auto multipliers = [](Length h, Length v, Angle a) {
    return lift_multipliers({.origin = {h, v, a}, .destination = {h, v, a}, .rate = 0.2 * units::per_minute},
                            LiftEnd::origin, us);
  };
  CHECK(within(multipliers(10_in, 30_in, 0_deg).horizontal, 1.0, 1e-12));
  CHECK(multipliers(5_in, 30_in, 0_deg).horizontal == 1.0);  // under 10 in counts as 10 in
  CHECK(within(multipliers(25_in, 30_in, 0_deg).horizontal, 0.40, 1e-9));
  CHECK(multipliers(25.1_in, 30_in, 0_deg).horizontal == 0.0);
  CHECK(within(multipliers(10_in, 30_in, 0_deg).vertical, 1.0, 1e-12));
  CHECK(within(multipliers(10_in, 0_in, 0_deg).vertical, 0.775, 1e-9));  // table 2: .78
  CHECK(within(multipliers(10_in, 70_in, 0_deg).vertical, 0.70, 1e-9));
  CHECK(multipliers(10_in, 70.1_in, 0_deg).vertical == 0.0);
  CHECK(within(multipliers(10_in, 30_in, 0_deg).distance, 1.0, 1e-9));       // no travel counts as 10 in
  CHECK(within(multipliers(10_in, 30_in, 90_deg).asymmetry, 0.712, 1e-9));   // table 4: .71
  CHECK(within(multipliers(10_in, 30_in, 135_deg).asymmetry, 0.568, 1e-9));  // table 4: .57
  CHECK(multipliers(10_in, 30_in, 136_deg).asymmetry == 0.0);
}

TEST_CASE("lifting: the ideal lift reaches the load constant, in both unit systems [NIOSH 94-110, p. 7]") {
  const Lift metric =
      lift(25_cm, 75_cm, 25_cm, 100_cm, 0.2 * units::per_minute, LiftingDuration::up_to_1_h, Coupling::good);
  CHECK(near(recommended_weight_limits(metric).at_origin, 23_kg, 1e-12));
  const Lift customary =
      lift(10_in, 30_in, 10_in, 40_in, 0.2 * units::per_minute, LiftingDuration::up_to_1_h, Coupling::good);
  CHECK(near(recommended_weight_limits(customary, us).at_origin, 51_lb, 1e-12));
}

TEST_CASE("lifting: metric and US customary constants agree within their rounding") {
  for (const double h : {11.0, 15.0, 24.0})
    for (const double v : {5.0, 29.0, 45.0, 65.0}) {
      const Lift task = lift(h * units::inch, v * units::inch, h * units::inch, 40_in, 1.0 * units::per_minute,
                             LiftingDuration::up_to_2_h, Coupling::poor);
      // 23 kg for 51 lb, 25 cm for 10 in, 0.003/cm for 0.0075/in: 0.6, 1.6 and 1.6 % apart
      CHECK(near(recommended_weight_limits(task).at_origin, recommended_weight_limits(task, us).at_origin, 0.035));
    }
}
