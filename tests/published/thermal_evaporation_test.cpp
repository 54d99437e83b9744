// Evaporation models against Shah's table and against their own originals in other units.
#include <doctest/doctest.h>

#include "support/near.hpp"
#include "theca/seawater.hpp"
#include "theca/thermal/evaporation.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::near;
using theca::test::within;

TEST_CASE(
    "Shah: table of unoccupied indoor pools, 50 % RH, fresh water [Shah 2013/2014, values as quoted in public code]") {
  // E0 in kg/m2/h; dry-air density difference in kg/m3. Shah took moist air properties from other tables: 0.0002 kg/m3
  // and, through its cube root and the humidity ratios, 1 % in E0.
  struct Row {
    double water, air, rate, lift;
  };
  for (const Row row : {Row{28, 28, 0.1360, 0.0219}, Row{28, 29, 0.1171, 0.0168}, Row{28, 30, 0.0968, 0.0116},
                        Row{29, 28, 0.1651, 0.0282}, Row{29, 29, 0.1463, 0.0231}, Row{29, 30, 0.1268, 0.0180},
                        Row{30, 28, 0.1959, 0.0347}, Row{30, 29, 0.1771, 0.0295}, Row{30, 30, 0.1575, 0.0244}}) {
    CAPTURE(row.water);
    CAPTURE(row.air);
    const EvaporatingSurface pool{.water = celsius(row.water),
                                  .room = {.temperature = celsius(row.air), .humidity = 50_rh},
                                  .air_speed = 0_m_s,
                                  .length = 25_m,
                                  .width = 10_m};
    const air::MoistAir saturated{.temperature = celsius(row.water), .humidity = 100_rh};
    CHECK(within(si(air::dry_air_density(pool.room) - air::dry_air_density(saturated)), row.lift, 2e-4));
    CHECK(near(3600.0 * si(evaporation_rate(EvaporationModel::shah, pool)), row.rate, 0.01));
  }
}

TEST_CASE("ASHRAE natatorium equation is Carrier's (95 + 0.425 v) dp / Y in SI [ASHRAE; Smith et al. 1998, abstract]") {
  // The SI constants of the handbook are rounded: 0.0885 + 0.0779 V becomes 0.089 + 0.0782 V, 0.6 %.
  for (const double speed : {0.0, 0.1, 0.5}) {
    const double carrier = kernel::evaporation_smith_lof_jones(2000.0, speed, 2.43e6) / 0.74;
    CHECK(near(kernel::evaporation_ashrae(2000.0, speed, 2.43e6, 1.0), carrier, 0.007));
  }
  // By hand, 1 inHg, still air, Y = 1045 Btu/lb: 95/1045 lb/h/ft2, and 74 % of it on an undisturbed pool.
  const double pounds_per_hour_ft2 = 0.45359237 / 3600.0 / 0.09290304;
  CHECK(near(kernel::evaporation_smith_lof_jones(3386.389, 0.0, 1045.0 * 2326.0),
             0.74 * 95.0 / 1045.0 * pounds_per_hour_ft2, 1e-6));
}

TEST_CASE("ASHRAE: 4e-5 A dp for Y 2400 kJ/kg and 0.1 m/s [ASHRAE HVAC Applications, simplified form, from memory]") {
  CHECK(near(kernel::evaporation_ashrae(1000.0, 0.1, 2.4e6, 1.0), 4.0e-5, 0.01));  // printed with one digit
}

TEST_CASE("wet bulb: convection in all but pays for evaporation out [psychrometric tables, 17.9, 13.8, 20.1 degC]") {
  // Thermodynamic wet bulb temperatures as tabulated, from memory. There sensible heat over latent would be -1 for a
  // Lewis factor of 1; Chilton and Colburn's Le^(2/3) for vapour in air, 0.85^(2/3), makes it -0.90 to -0.93. The wet
  // bulbs are rounded to 0.1 K: 2 %.
  struct Row {
    double air, humidity, wet_bulb;
  };
  for (const Row row : {Row{25, 0.50, 17.9}, Row{20, 0.50, 13.8}, Row{30, 0.40, 20.1}}) {
    CAPTURE(row.air);
    const EvaporatingSurface wick{.water = celsius(row.wet_bulb),
                                  .room = {.temperature = celsius(row.air), .humidity = RelativeHumidity(row.humidity)},
                                  .air_speed = 3_m_s,
                                  .length = 1_m,
                                  .width = 1_m};
    CHECK(within(bowen_ratio(wick), -0.915, 0.035));
  }
}
