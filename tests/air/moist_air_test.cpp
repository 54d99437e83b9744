// Moist air: inverses, limits, conservation and refusals. Published values are in tests/published.
#include <limits>

#include "support/near.hpp"
#include "theca/air.hpp"

using namespace theca;
using namespace theca::literals;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr air::MoistAir room{.temperature = celsius(25.0), .humidity = RelativeHumidity(0.5)};

/// Temperatures from -40 to 100 degC and humidities from 5 to 95 %, where the air can exist at one atmosphere.
template <class F>
void over_the_range(F&& f) {
  for (int t = -40; t <= 100; t += 5)
    for (int rh = 5; rh <= 95; rh += 10)
      f(air::MoistAir{.temperature = celsius(t), .humidity = RelativeHumidity(0.01 * rh)});
}
}  // namespace

TEST_CASE("dew point: the exact inverse of the saturation pressure, over ice and over water") {
  for (double t = -100.0; t <= 100.0; t += 0.25) {
    CAPTURE(t);
    within(in_celsius(air::saturation_temperature(air::saturation_vapour_pressure(celsius(t)))), t, 1e-9);
  }
  over_the_range([](const air::MoistAir& a) {
    near(si(air::saturation_vapour_pressure(air::dew_point(a))), si(air::vapour_pressure(a)), 1e-11);
  });
}

TEST_CASE("dew point: the air's own temperature at saturation, lower below it, rising with humidity") {
  within(in_celsius(air::dew_point({.temperature = 25_degC, .humidity = 100_rh})), 25.0, 1e-9);
  double last = -100.0;
  for (int rh = 5; rh < 100; rh += 5) {
    const double dew = in_celsius(air::dew_point({.temperature = 25_degC, .humidity = RelativeHumidity(0.01 * rh)}));
    CHECK(dew > last);
    CHECK(dew < 25.0);
    last = dew;
  }
}

TEST_CASE("saturation pressure: no step at the triple point, always rising") {
  near(air::kernel::saturation_pressure_over_ice(273.16), air::kernel::saturation_pressure_over_water(273.16), 1e-7);
  for (double t = -100.0; t < 99.985; t += 0.01)
    CHECK(si(air::saturation_vapour_pressure(celsius(t + 0.01))) > si(air::saturation_vapour_pressure(celsius(t))));
}

TEST_CASE("saturation pressure: its slope obeys Clausius and Clapeyron with the latent heat [physics]") {
  // dp/dT = L p / (Rw T^2) for a perfect vapour; at 25 degC with L = 2441.7 kJ/kg (IAPWS). Vapour is real by 0.1 %.
  const double slope =
      (air::kernel::saturation_pressure_over_water(298.16) - air::kernel::saturation_pressure_over_water(298.14)) /
      0.02;
  const double p = air::kernel::saturation_pressure_over_water(298.15);
  near(slope, 2441.7e3 * p / (461.524 * 298.15 * 298.15), 2e-3);
}

TEST_CASE("relative humidity: the inverse of the humidity ratio, saturated air included") {
  over_the_range([](const air::MoistAir& a) {
    near(air::relative_humidity(a.temperature, air::humidity_ratio(a), a.pressure).ratio, a.humidity.ratio, 1e-12);
  });
  for (int t = -40; t <= 95; ++t) {
    const air::MoistAir saturated{.temperature = celsius(t), .humidity = 100_rh};
    const RelativeHumidity back = air::relative_humidity(saturated.temperature, air::humidity_ratio(saturated));
    CHECK(back.ratio <= 1.0);
    near(back.ratio, 1.0, 1e-12);
  }
}

TEST_CASE("humidity ratio: mass of vapour over mass of dry air in the same volume") {
  over_the_range([](const air::MoistAir& a) {
    // The gas constants are rounded to six digits, as is the ratio of molar masses.
    near(air::vapour_density(a) / air::dry_air_density(a), air::humidity_ratio(a), 5e-6);
    near(si(air::density(a)), si(air::dry_air_density(a)) + si(air::vapour_density(a)), 1e-15);
  });
}

TEST_CASE("density: moist air is lighter than dry air at one pressure [Avogadro]") {
  for (int rh = 0; rh < 100; rh += 10)
    CHECK(air::density({.temperature = 30_degC, .humidity = RelativeHumidity(0.01 * (rh + 10))}) <
          air::density({.temperature = 30_degC, .humidity = RelativeHumidity(0.01 * rh)}));
}

TEST_CASE("enthalpy: zero for dry air at 0 degC, rises with heat and with moisture") {
  CHECK(si(air::enthalpy({.temperature = 0_degC, .humidity = 0_rh})) == 0.0);
  CHECK(air::enthalpy({.temperature = 26_degC, .humidity = 50_rh}) > air::enthalpy(room));
  CHECK(air::enthalpy({.temperature = 25_degC, .humidity = 60_rh}) > air::enthalpy(room));
}

TEST_CASE("dry air: no vapour, and no dew point to be given") {
  const air::MoistAir dry{.temperature = 25_degC, .humidity = 0_rh};
  CHECK(air::humidity_ratio(dry) == 0.0);
  CHECK(si(air::vapour_density(dry)) == 0.0);
  CHECK(contains(message_of<OutOfValidity>([&] { air::dew_point(dry); }), "-100 degC"));
}

TEST_CASE("moist air: impossible states are refused by name") {
  const auto refused = [](const air::MoistAir& a, const char* argument) {
    CHECK(contains(message_of<InvalidInput>([&] { air::vapour_pressure(a); }), argument));
    CHECK(contains(message_of<InvalidInput>([&] { air::humidity_ratio(a); }), argument));
    CHECK(contains(message_of<InvalidInput>([&] { air::enthalpy(a); }), argument));
    CHECK(contains(message_of<InvalidInput>([&] { air::dew_point(a); }), argument));
    CHECK(contains(message_of<InvalidInput>([&] { air::density(a); }), argument));
    CHECK(contains(message_of<InvalidInput>([&] { air::dry_air_density(a); }), argument));
    CHECK(contains(message_of<InvalidInput>([&] { air::vapour_density(a); }), argument));
  };
  for (const double t : {-40.1, 100.1, not_a_number, infinity})
    refused({.temperature = celsius(t), .humidity = 50_rh}, "temperature");
  for (const double rh : {-0.01, 1.01, not_a_number})
    refused({.temperature = 25_degC, .humidity = RelativeHumidity(rh)}, "humidity");
  for (const double p : {0.0, -1e5, not_a_number, infinity})
    refused({.temperature = 25_degC, .humidity = 50_rh, .pressure = from_si<AbsolutePressure>(p)}, "pressure");
  // Water boils at 100 degC under one atmosphere: saturated "air" there would be steam alone.
  refused({.temperature = 100_degC, .humidity = 100_rh}, "pressure");
}

TEST_CASE("relative humidity: more vapour than saturation holds, and other bad input, is refused") {
  CHECK(contains(message_of<InvalidInput>([] { air::relative_humidity(20_degC, 0.02); }), "humidity ratio"));
  for (const double w : {-1e-6, not_a_number, infinity})
    CHECK(contains(message_of<InvalidInput>([&] { air::relative_humidity(20_degC, w); }), "humidity ratio"));
  CHECK(contains(message_of<InvalidInput>([] { air::relative_humidity(celsius(-50.0), 1e-6); }), "temperature"));
  CHECK(contains(
      message_of<InvalidInput>([] { air::relative_humidity(20_degC, 0.005, from_si<AbsolutePressure>(-1.0)); }),
      "pressure"));
}

TEST_CASE("saturation: outside -100 to 100 degC and its pressures is refused") {
  for (const double t : {-100.1, 100.1, not_a_number})
    CHECK(contains(message_of<InvalidInput>([&] { air::saturation_vapour_pressure(celsius(t)); }), "temperature"));
  for (const double p : {0.0, -1.0, 1.0e-3, 1.02e5, not_a_number, infinity})
    CHECK(contains(message_of<InvalidInput>([&] { air::saturation_temperature(from_si<AbsolutePressure>(p)); }),
                   "vapour pressure"));
}
