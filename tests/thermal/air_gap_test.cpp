#include "theca/thermal/air_gap.hpp"

#include <doctest/doctest.h>

#include "support/near.hpp"
#include "theca/air.hpp"
#include "theca/thermal/radiation.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

TEST_CASE("air gap: thin or with heat downwards it is conduction and radiation, k/s + h_r") {
  const double radiation = si(radiative_film(12_degC, 8_degC, kernel::exchange_emissivity(0.837, 0.837)));
  const double conductivity = si(air::thermal_conductivity(10_degC));
  CHECK(near(si(gap_conductance({}, 6_mm, 12_degC, 8_degC)), conductivity / 0.006 + radiation, 1e-12));
  CHECK(near(si(gap_conductance({}, 40_mm, 12_degC, 8_degC, GapHeat::downwards)), conductivity / 0.040 + radiation,
             1e-12));
}

TEST_CASE("air gap: heat upwards crosses a wide gap more easily than sideways, and least downwards") {
  const double up = si(gap_conductance({}, 40_mm, 20_degC, 5_degC, GapHeat::upwards));
  const double sideways = si(gap_conductance({}, 40_mm, 20_degC, 5_degC, GapHeat::sideways));
  const double down = si(gap_conductance({}, 40_mm, 20_degC, 5_degC, GapHeat::downwards));
  CHECK(up > sideways);
  CHECK(sideways > down);
}

TEST_CASE("air gap: a low-emissivity face takes most of the radiation away") {
  const double plain = si(gap_conductance({}, 16_mm, 15_degC, 5_degC));
  const double coated = si(gap_conductance({.outer_emissivity = 0.04}, 16_mm, 15_degC, 5_degC));
  CHECK(coated < 0.4 * plain);
}

TEST_CASE("air gap refuses impossible input by name") {
  CHECK(contains(message_of<InvalidInput>([] { gap_conductance({}, 0_mm, 20_degC, 5_degC); }), "gap thickness"));
  CHECK(contains(message_of<InvalidInput>([] { gap_conductance({.inner_emissivity = 1.2}, 6_mm, 20_degC, 5_degC); }),
                 "inner emissivity"));
  CHECK(contains(message_of<InvalidInput>([] { gap_conductance({}, 6_mm, 200_degC, 5_degC); }), "inner face"));
  CHECK(contains(message_of<InvalidInput>([] { nusselt_gap(-1.0, GapHeat::sideways); }), "rayleigh"));
}
