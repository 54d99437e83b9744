#include "theca/hydraulics/pump_performance.hpp"

#include <limits>

#include "support/near.hpp"
#include "theca/hydraulics/pump_suction.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
const double not_a_number = std::numeric_limits<double>::quiet_NaN();
std::vector<EfficiencyPoint> measured() {
  return {{0_L_s, 0.0}, {2_L_s, 0.35}, {4_L_s, 0.55}, {6_L_s, 0.6}, {8_L_s, 0.45}};
}
std::vector<NpshPoint> needs() {
  return {{0_L_s, 2_m}, {2_L_s, 2.1_m}, {4_L_s, 2.5_m}, {6_L_s, 3.6_m}, {8_L_s, 5.5_m}};
}
Suction sump() {
  return {.surface_pressure = 101.0_kPa_abs,
          .vapour_pressure = 3_kPa,
          .density = 1022_kg_m3,
          .level_above_impeller = 0.4_m,
          .loss = 0.2_m};
}
OperatingRegion region() { return {.allowable_low = 0.4, .allowable_high = 1.3}; }
}  // namespace

TEST_CASE("efficiency and required NPSH between points [scipy 1.10.1 PchipInterpolator]") {
  const double e[][2] = {{0.5, 0.10252130681818179}, {3, 0.47181818181818186}, {5.5, 0.5959375}, {7, 0.55625}};
  for (const auto& [q, expected] : e) CHECK(near(efficiency(measured(), q * 1_L_s), expected, 1e-13));
  CHECK(near(npsh_required(needs(), 1_L_s), 2.03_m, 1e-13));
  CHECK(near(npsh_required(needs(), 7.5_L_s), 4.945_m, 1e-13));
  CHECK(best_efficiency_point(measured()).flow == 6_L_s);
}

TEST_CASE("power drawn is hydraulic power over efficiency; at rest the efficiency leaves it open") {
  const PumpCurve curve{.points = {{0_L_s, 10_m}, {8_L_s, 2_m}}};
  CHECK(near(power_drawn(curve, measured(), 4_L_s, 1000_kg_m3), 1000 * 9.80665 * 0.004 * 6 / 0.55 * 1_W, 1e-13));
  CHECK(contains(message_of<OutOfValidity>([&] { power_drawn(curve, measured(), 0_L_s, 1000_kg_m3); }), "0"));
}

TEST_CASE("operating region: preferred, allowable, outside, with its limits inside") {
  CHECK(operation(region(), 7_L_s, 10_L_s) == Operation::preferred);
  CHECK(operation(region(), 12_L_s, 10_L_s) == Operation::preferred);
  CHECK(operation(region(), 6.9_L_s, 10_L_s) == Operation::allowable);
  CHECK(operation(region(), 12.9_L_s, 10_L_s) == Operation::allowable);
  CHECK(operation(region(), 3.9_L_s, 10_L_s) == Operation::outside);
  CHECK(operation(region(), 13.1_L_s, 10_L_s) == Operation::outside);
}

TEST_CASE("NPSH available: air and level less vapour and losses [definition]") {
  CHECK(near(si(npsh_available(sump())), 98e3 / (1022 * 9.80665) + 0.4 - 0.2, 1e-13));
  CHECK(near(npsh_margin(sump(), needs(), 6_L_s), npsh_available(sump()) - 3.6_m, 1e-13));
}

TEST_CASE("pump performance and suction: bad input is refused by name") {
  CHECK(contains(message_of<InvalidInput>([] { hydraulic_power(-1_L_s, 1_m, 1_kg_m3); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { hydraulic_power(1_L_s, -1_m, 1_kg_m3); }), "head"));
  CHECK(contains(message_of<InvalidInput>([] { hydraulic_power(1_L_s, 1_m, 0_kg_m3); }), "density"));
  CHECK(contains(message_of<InvalidInput>([] { efficiency({{0_L_s, 0.1}}, 0_L_s); }), "points"));
  CHECK(contains(message_of<InvalidInput>([] { efficiency({{0_L_s, 0.1}, {1_L_s, 1.1}}, 0_L_s); }), "point 2"));
  CHECK(contains(message_of<InvalidInput>([] { efficiency({{1_L_s, 0.1}, {1_L_s, 0.2}}, 1_L_s); }), "point 2"));
  CHECK(contains(message_of<InvalidInput>([] { best_efficiency_point({}); }), "points"));
  CHECK(contains(message_of<OutOfValidity>([] { efficiency(measured(), 9_L_s); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { operation({}, 1_L_s, 1_L_s); }), "allowable low"));
  CHECK(contains(message_of<InvalidInput>([] { operation(region(), -1_L_s, 1_L_s); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { operation(region(), 1_L_s, 0_L_s); }), "best flow"));
  CHECK(contains(message_of<InvalidInput>([] {
                   OperatingRegion r = region();
                   r.preferred_high = 1.4;
                   operation(r, 1_L_s, 1_L_s);
                 }),
                 "allowable high"));
  const auto refused = [](auto change) {
    Suction s = sump();
    change(s);
    return message_of<InvalidInput>([&s] { npsh_available(s); });
  };
  CHECK(contains(refused([](Suction& s) { s.surface_pressure = 0.0_kPa_abs; }), "surface pressure"));
  CHECK(contains(refused([](Suction& s) { s.vapour_pressure = -1_kPa; }), "vapour pressure"));
  CHECK(contains(refused([](Suction& s) { s.density = 0_kg_m3; }), "density"));
  CHECK(contains(refused([](Suction& s) { s.level_above_impeller = from_si<Length>(not_a_number); }), "level"));
  CHECK(contains(refused([](Suction& s) { s.loss = -1_m; }), "loss"));
  CHECK(contains(message_of<InvalidInput>([] { npsh_required({{0_L_s, 1_m}}, 0_L_s); }), "points"));
  CHECK(contains(message_of<InvalidInput>([] { npsh_required({{0_L_s, 1_m}, {1_L_s, -1_m}}, 0_L_s); }), "point 2"));
  CHECK(contains(message_of<OutOfValidity>([] { npsh_required(needs(), 9_L_s); }), "flow"));
}
