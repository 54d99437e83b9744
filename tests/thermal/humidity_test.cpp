#include "theca/thermal/humidity.hpp"

#include <doctest/doctest.h>

#include <limits>

#include "support/near.hpp"
#include "theca/require.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {
const VentilatedRoom hall{.volume = 48_ft * 20_ft * 10_ft, .air_changes = 0.35_per_h};
const air::MoistAir inside{.temperature = 70_degF, .humidity = 50_rh, .pressure = 101.3_kPa_abs};
const air::MoistAir winter{.temperature = 14_degF, .humidity = 70_rh, .pressure = 101.3_kPa_abs};
const air::MoistAir summer{.temperature = 90_degF, .humidity = 50_rh, .pressure = 101.3_kPa_abs};
// 0.48 Btu/h ft2 F and 0.68 h ft2 F/Btu
const Pane window{.U = 0.48 * units::Btu_per_hour_ft2_degF, .inside_film = 0.68 / (1.0 * units::Btu_per_hour_ft2_degF)};
}  // namespace

TEST_CASE(
    "ventilation: by hand from humidity ratios of a psychrometric table [W 0.00780 at 70 degF, 50 %; from memory]") {
  // 14 degF, 70 %: saturation over ice 260 Pa, W = 0.622 x 182 / 101118 = 0.00112. Dry air 1.184 kg/m3 in the hall.
  const double by_hand = 0.35 / 3600.0 * 271.84 * 1.184 * (0.00780 - 0.00112);
  CHECK(near(si(ventilation_removal(hall, inside, winter)), by_hand, 0.01));  // the ratios carry three digits
  CHECK(si(ventilation_removal(hall, inside, summer)) < 0.0);
}

TEST_CASE("dehumidification: what evaporates less what ventilation carries off") {
  const auto evaporation = from_si<MassFlow>(80.0 / 86400.0);
  const double need = si(required_dehumidification(evaporation, hall, inside, winter));
  CHECK(near(need, 80.0 / 86400.0 - si(ventilation_removal(hall, inside, winter)), 1e-14));
  CHECK(si(required_dehumidification(from_si<MassFlow>(0.0), hall, inside, winter)) < 0.0);
  CHECK(si(required_dehumidification(evaporation, hall, inside, summer)) > si(evaporation));
}

TEST_CASE("steady humidity: the balance closes at the answer") {
  // evaporation falling with the room's vapour pressure, as it does over water
  const auto evaporation = [](const air::MoistAir& room) {
    return from_si<MassFlow>(6e-7 * (3200.0 - si(air::vapour_pressure(room))));
  };
  const auto dehumidifier = from_si<MassFlow>(88.0 * 0.473 / 86400.0);
  const RelativeHumidity settled = steady_humidity(hall, 70_degF, winter, evaporation, dehumidifier);
  const air::MoistAir room{.temperature = 70_degF, .humidity = settled, .pressure = 101.3_kPa_abs};
  CHECK(settled.ratio > 0.3);
  CHECK(settled.ratio < 0.9);
  CHECK(within(si(evaporation(room)), si(ventilation_removal(hall, room, winter)) + si(dehumidifier), 1e-13));
  CHECK(steady_humidity(hall, 70_degF, winter, evaporation, from_si<MassFlow>(0.0)).ratio > settled.ratio);
}

TEST_CASE("steady humidity: without water and dehumidifier the room takes the moisture content of outside") {
  const auto nothing = [](const air::MoistAir&) { return from_si<MassFlow>(0.0); };
  const RelativeHumidity settled = steady_humidity(hall, 70_degF, winter, nothing, from_si<MassFlow>(0.0));
  CHECK(near(settled.ratio, air::relative_humidity(70_degF, air::humidity_ratio(winter), 101.3_kPa_abs).ratio, 1e-10));
}

TEST_CASE("steady humidity: fog and over-drying are refused, not clamped to 100 % and 0 %") {
  const auto steam = [](const air::MoistAir&) { return from_si<MassFlow>(1.0); };
  CHECK(contains(
      message_of<OutOfValidity>([&] { steady_humidity(hall, 70_degF, winter, steam, from_si<MassFlow>(0.0)); }),
      "saturation"));
  const auto nothing = [](const air::MoistAir&) { return from_si<MassFlow>(0.0); };
  CHECK(contains(
      message_of<OutOfValidity>([&] { steady_humidity(hall, 70_degF, winter, nothing, from_si<MassFlow>(0.01)); }),
      "perfectly dry"));
}

TEST_CASE("window: inner face at 70 - 0.48 x 0.68 x 56 = 51.7 degF, dew point of 70 degF and 50 % RH 50.5 degF") {
  const Condensation c = condensation(window, inside, 14_degF);
  CHECK(within(in_fahrenheit(c.surface), 70.0 - 0.48 * 0.68 * 56.0, 1e-9));
  CHECK(within(in_fahrenheit(c.dew_point), 50.5, 0.1));  // psychrometric chart, from memory
  CHECK(within(si(c.margin) * 1.8, in_fahrenheit(c.surface) - in_fahrenheit(c.dew_point), 1e-9));
  CHECK(si(c.margin) > 0.0);
  CHECK(c.at_surface.ratio < 1.0);
  CHECK(c.highest_in_room.ratio > 0.50);
}

TEST_CASE("window: at the highest humidity it names, the face stands at its dew point") {
  const Condensation c = condensation(window, inside, 14_degF);
  const Condensation limit =
      condensation(window, {.temperature = 70_degF, .humidity = c.highest_in_room, .pressure = 101.3_kPa_abs}, 14_degF);
  CHECK(within(si(limit.margin), 0.0, 1e-6));
  CHECK(near(limit.at_surface.ratio, 1.0, 1e-9));
  CHECK(si(condensation(window, {.temperature = 70_degF, .humidity = 60_rh}, 14_degF).margin) < 0.0);
}

TEST_CASE("fresh water: 88 US pints a day are 41.6 kg a day") {
  CHECK(near(si(fresh_water(from_si<VolumeFlow>(88.0 * si(units::us_pint.size) / 86400.0))) * 86400.0, 41.64, 1e-4));
}

TEST_CASE("humidity functions refuse impossible input by name") {
  CHECK(contains(message_of<InvalidInput>([] {
                   ventilation_removal({0_m3, 0.35_per_h}, inside, winter);
                 }),
                 "room volume"));
  CHECK(contains(message_of<InvalidInput>([] {
                   ventilation_removal({10_m3, from_si<Frequency>(-1.0)}, inside, winter);
                 }),
                 "air changes"));
  CHECK(contains(message_of<InvalidInput>([] {
                   required_dehumidification(from_si<MassFlow>(std::numeric_limits<double>::quiet_NaN()), hall, inside,
                                             winter);
                 }),
                 "evaporation"));
  CHECK(contains(
      message_of<InvalidInput>([] { steady_humidity(hall, 70_degF, winter, nullptr, from_si<MassFlow>(0.0)); }),
      "evaporation"));
  const auto no_number = [](const air::MoistAir&) {
    return from_si<MassFlow>(std::numeric_limits<double>::quiet_NaN());
  };
  CHECK(contains(
      message_of<InvalidInput>([&] { steady_humidity(hall, 70_degF, winter, no_number, from_si<MassFlow>(0.0)); }),
      "evaporation"));
  const auto nothing = [](const air::MoistAir&) { return from_si<MassFlow>(0.0); };
  CHECK(contains(
      message_of<InvalidInput>([&] { steady_humidity(hall, 70_degF, winter, nothing, from_si<MassFlow>(-1.0)); }),
      "dehumidifiers"));
  CHECK(contains(message_of<InvalidInput>([] {
                   inside_surface({0_W_m2K, window.inside_film}, 70_degF, 14_degF);
                 }),
                 "U"));
  CHECK(contains(message_of<InvalidInput>([] {
                   inside_surface({20_W_m2K, from_si<ThermalResistance>(0.1)}, 70_degF, 14_degF);
                 }),
                 "below 1/U"));
  CHECK(contains(message_of<InvalidInput>([] { inside_surface(window, 70_degF, from_si<Temperature>(0.0)); }),
                 "outside temperature"));
  CHECK(contains(message_of<InvalidInput>([] { fresh_water(from_si<VolumeFlow>(-1.0)); }), "flow"));
}
