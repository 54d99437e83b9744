#include "theca/thermal/heater_odds.hpp"

#include <vector>

#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/thermal/thermostat_cycle.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {
const Water set_point{.temperature = 26_degC, .salinity = absolute_salinity(35_psu)};

// Heat leaves by 100 W/K, nothing else.
DesignDay day(double celsius, Power gain = Power()) {
  return {
      .system = {.sump_UA = 100_W_K, .sump_room = from_si<Temperature>(273.15 + celsius), .gains = {{"pump", gain}}},
      .room = {.air = {.temperature = 21_degC, .humidity = 50_rh}, .surroundings = 21_degC}};
}
}  // namespace

TEST_CASE("cold design temperature: 99.6 and 99 % of a normal winter lie over 2.652 and 2.326 deviations [tables]") {
  // Quantiles of the normal distribution as statistical tables print them, to their last digit.
  const auto deviations = [](double probability) {
    return 10.0 - in_celsius(cold_design_temperature(10_degC, TemperatureDifference(1.0 * units::kelvin), probability));
  };
  CHECK(within(deviations(0.004), 2.652, 5e-4));
  CHECK(within(deviations(0.01), 2.326, 5e-4));
  CHECK(within(deviations(0.5), 0.0, 1e-9));
  CHECK(contains(message_of<InvalidInput>([] { (void)cold_design_temperature(10_degC, {}, 0.0); }), "probability"));
  CHECK(contains(message_of<InvalidInput>(
                     [] { (void)cold_design_temperature(10_degC, TemperatureDifference(-1.0 * units::kelvin), 0.1); }),
                 "deviation"));
}

TEST_CASE("heater for odds: of ten days the power for one cold one is the second largest need [by hand]") {
  std::vector<DesignDay> days;
  for (int i = 0; i < 10; ++i) days.push_back(day(25.0 - i));  // needs of 100 to 1000 W
  const auto power = [&](double probability) { return si(heater_for_odds(days, set_point, probability).power); };
  CHECK(near(power(0.0), 1000.0, 1e-12));
  CHECK(near(power(0.0999), 1000.0, 1e-12));
  CHECK(near(power(0.1), 900.0, 1e-12));
  CHECK(near(power(0.3), 700.0, 1e-12));
  CHECK(near(power(0.99), 100.0, 1e-12));
  const HeaterForOdds odds = heater_for_odds(days, set_point, 0.3);
  CHECK(odds.days_cold == 0.3);
  CHECK(near(si(odds.worst), 1000.0, 1e-12));
  CHECK(near(si(odds.need[2]), 300.0, 1e-12));
  // Days that the gains keep warm need none.
  CHECK(si(heater_for_odds({day(20.0, 900_W), day(10.0, 2_kW)}, set_point, 0.0).power) == 0.0);
  CHECK(contains(message_of<InvalidInput>([] { (void)heater_for_odds({}, set_point, 0.1); }), "number of days"));
  CHECK(contains(message_of<InvalidInput>([&] { (void)heater_for_odds(days, set_point, 1.0); }), "probability"));
}

TEST_CASE("thermostat cycle: 1 m3 of water, 0.5 K, 1 kW against 400 W [by hand]") {
  const HeatCapacity water = from_si<HeatCapacity>(4.1e6);
  const TemperatureDifference half = 0.5 * units::kelvin;
  const ThermostatCycle cycle = thermostat_cycle(water, half, 400_W, 1_kW);
  CHECK(near(si(cycle.on), 4.1e6 * 0.5 / 600.0, 1e-12));
  CHECK(near(si(cycle.off), 4.1e6 * 0.5 / 400.0, 1e-12));
  CHECK(near(cycle.duty, 0.4, 1e-12));
  CHECK(near(si(cycle.on) / (si(cycle.on) + si(cycle.off)), cycle.duty, 1e-12));
  CHECK_THROWS_AS(thermostat_cycle(water, half, 1_kW, 1_kW), OutOfValidity);
  CHECK_THROWS_AS(thermostat_cycle(water, TemperatureDifference(), 400_W, 1_kW), InvalidInput);
}

TEST_CASE("hysteresis for cycles: at the worst loss, half the power, the unit starts just so often, at others less") {
  const HeatCapacity water = from_si<HeatCapacity>(4.1e6);
  const Frequency most = 6.0 * units::per_day;
  const TemperatureDifference h = hysteresis_for_cycles(water, 1_kW, most);
  CHECK(near(thermostat_cycle(water, h, 500_W, 1_kW).cycles, most, 1e-12));
  for (const double loss : {50.0, 300.0, 499.0, 501.0, 900.0})
    CHECK(thermostat_cycle(water, h, loss * units::watt, 1_kW).cycles < most);
}
