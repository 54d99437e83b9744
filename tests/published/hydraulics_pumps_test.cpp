// Pumps alone, in parallel and in series on a line, and their suction, against worked textbook examples.
#include <cmath>

#include "support/near.hpp"
#include "theca/hydraulics/duty_point.hpp"
#include "theca/hydraulics/pump_performance.hpp"
#include "theca/hydraulics/pump_set.hpp"
#include "theca/hydraulics/pump_speed.hpp"
#include "theca/hydraulics/pump_suction.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::near;

namespace {
// Pump 490 - 0.26 Q^2 and system 120 + 1.335 Q^2, heads in ft and Q in 1000 gpm.
PumpCurve pump() {
  PumpCurve curve;
  for (int q = 0; q <= 30; ++q) curve.points.push_back({1000.0 * q * units::gpm, (490 - 0.26 * q * q) * units::foot});
  return curve;
}

PipeLine line() {
  const Length bore = 20_in;  // any: all the loss is a K on its velocity head
  const double v = si(1000_gpm) / si(bore_area(bore));
  const double K = 1.335 * si(1_ft) * 2 * 9.80665 / (v * v);
  return {.static_head = 120_ft, .pipes = {{.bore = bore, .length = 0_m, .roughness = 0_m, .minor_loss_K = K}}};
}

double duty_gpm(const PumpCurve& curve) { return in(duty_point(line(), curve, 1e-6_m2_s).flow, units::gpm); }
}  // namespace

TEST_CASE("one pump, two in parallel, two in series [White, Fluid Mechanics, ex. 11.6 and 11.7, from memory]") {
  // The book: 15,200, 16,300 and 21,500 gpm, in three digits. The crossing of the parabolas is exact; between points
  // the monotone cubic leaves them by less than 1e-4.
  const PumpCurve one = pump();
  CHECK(near(duty_gpm(one), 15200, 0.004));
  CHECK(near(duty_gpm(parallel({one, one})), 16300, 0.004));
  CHECK(near(duty_gpm(series({one, one})), 21500, 0.004));
  CHECK(near(duty_gpm(one), 1000 * std::sqrt(370 / 1.595), 1e-4));
  CHECK(near(duty_gpm(parallel({one, one})), 1000 * std::sqrt(370 / 1.4), 1e-4));
  CHECK(near(duty_gpm(series({one, one})), 1000 * std::sqrt(860 / 1.855), 1e-4));
}

TEST_CASE("slower pump on a static head: the curve moves, not the duty point [crossing of parabolas, closed form]") {
  // r^2 490 - 0.26 Q^2 = 120 + 1.335 Q^2: at 0.7 speed 8,670 gpm, where the laws on the duty point would say 10,660.
  CHECK(near(duty_gpm(at_speed(pump(), 0.7)), 1000 * std::sqrt((0.49 * 490 - 120) / 1.595), 2e-4));
}

TEST_CASE("two unlike pumps in parallel [crossing of parabolas, closed form]") {
  // A worn pump of 0.9 of the head: at a head h the flows are sqrt((490 - h)/0.26) and sqrt((441 - h)/0.234).
  const PumpCurve joint = parallel({pump(), worn(pump(), 1.0, 0.9)});
  for (const double h : {300.0, 400.0, 440.0, 460.0, 480.0}) {
    const double q = std::sqrt((490 - h) / 0.26) + (h < 441 ? std::sqrt((441 - h) / 0.234) : 0.0);
    CHECK(near(in(flow_at_head(joint, h * units::foot), units::gpm), 1000 * q, 1e-3));
  }
}

TEST_CASE(
    "highest place of a pump inlet: 12.7 ft below the water [White, Fluid Mechanics, example 11.3, from memory]") {
  // 14.7 psia on the water, vapour 0.26 psia, 62.4 lbf/ft3, loss 6 ft, NPSH 40 ft; three digits.
  const Suction suction{.surface_pressure = from_si<AbsolutePressure>(si(14.7_psi)),
                        .vapour_pressure = 0.26_psi,
                        .density = 999.55_kg_m3,
                        .level_above_impeller = 12.7_ft,
                        .loss = 6_ft};
  CHECK(test::within(npsh_available(suction), 40_ft, 0.06_ft));
  const std::vector<NpshPoint> needs{{0_gpm, 40_ft}, {30000_gpm, 40_ft}};
  CHECK(test::within(npsh_margin(suction, needs, 24000_gpm), 0_ft, 0.06_ft));
}

TEST_CASE("water horsepower of 100 gpm to 100 ft is 2.53 hp [trade formula gpm ft / 3960]") {
  // 3960 rounds 33,000 / 8.345 lb/gal to 0.1 %; 550 ft lbf/s are 745.7 W.
  CHECK(near(si(hydraulic_power(100_gpm, 100_ft, 1000_kg_m3)) / 745.7, 100.0 * 100.0 / 3960.0, 2e-3));
}
