#include "theca/seawater/carbonate.hpp"

#include <cmath>

#include "support/near.hpp"
#include "theca/seawater.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::seawater;
using test::near;

namespace {
const CarbonateWater reef{.temperature = 26_degC, .salinity = 35_psu, .alkalinity = 8.0_dKH};
}

TEST_CASE("the same water by its pH, its carbon and its air is the same system") {
  const auto by_ph = carbonate_at_ph(reef, 8.1);
  const auto by_carbon = carbonate_with_carbon(reef, by_ph.inorganic_carbon);
  CHECK(near(by_carbon.ph, 8.1, 1e-12));
  CHECK(near(by_carbon.carbonate, by_ph.carbonate, 1e-11));
  const double moist = si(standard_atmosphere) - si(vapour_pressure(26_degC, absolute_salinity(35_psu)));
  const auto by_air = carbonate_under_air(reef, si(by_ph.carbon_dioxide_pressure) / moist);
  CHECK(near(by_air.ph, 8.1, 1e-12));
}

TEST_CASE("alkalinity is what its parts sum to") {
  const auto s = carbonate_at_ph(reef, 8.2);
  const auto k = kernel::carbonate_constants(299.15, 35.0);
  const double h = std::pow(10.0, -8.2), rho = si(density(26_degC, absolute_salinity(35_psu)));
  const double sum = si(s.bicarbonate) + 2.0 * si(s.carbonate) + rho * (k.borate * k.kb / (k.kb + h) + k.kw / h - h);
  CHECK(near(sum, si(reef.alkalinity), 1e-12));
}

TEST_CASE("air rich in CO2 lowers pH and the saturation of aragonite") {
  double ph = 9.0, saturation = 100.0;
  for (const double ppm : {280.0, 420.0, 800.0, 1500.0, 3000.0, 50000.0}) {
    const auto s = carbonate_under_air(reef, ppm * 1e-6);
    CHECK(s.ph < ph);
    CHECK(s.aragonite_saturation < saturation);
    ph = s.ph;
    saturation = s.aragonite_saturation;
  }
}

TEST_CASE("calcium stated instead of that of reference seawater scales both saturations alone") {
  auto water = reef;
  const auto reference = carbonate_at_ph(water, 8.1);
  water.calcium =
      from_si<Concentration>(2.0 * 0.02128 / 40.087 * 35.0 / 1.80655 * si(density(26_degC, absolute_salinity(35_psu))));
  const auto twice = carbonate_at_ph(water, 8.1);
  CHECK(near(twice.aragonite_saturation, 2.0 * reference.aragonite_saturation, 1e-12));
  CHECK(near(twice.calcite_saturation, 2.0 * reference.calcite_saturation, 1e-12));
  CHECK(twice.carbonate == reference.carbonate);
}

TEST_CASE("calcite is the less soluble form") {
  const auto s = carbonate_at_ph(reef, 8.1);
  CHECK(s.calcite_saturation > s.aragonite_saturation);
}

TEST_CASE("what the constants do not cover is refused") {
  auto cold = reef;
  cold.temperature = 1_degC;
  CHECK_THROWS_AS(carbonate_at_ph(cold, 8.1), OutOfValidity);
  auto fresh = reef;
  fresh.salinity = 5_psu;
  CHECK_THROWS_AS(carbonate_at_ph(fresh, 8.1), OutOfValidity);
  CHECK_THROWS_AS(carbonate_at_ph(reef, 6.0), InvalidInput);
  CHECK_THROWS_AS(carbonate_under_air(reef, 0.2), InvalidInput);
  CHECK_THROWS_AS(carbonate_under_air(reef, std::nan("")), InvalidInput);
  CHECK_THROWS_AS(carbonate_with_carbon(reef, from_si<Concentration>(5000.0)), InvalidInput);
  auto poor = reef;
  poor.alkalinity = 0.2_meq_L;
  CHECK(test::message_of<InvalidInput>([&] { carbonate_at_ph(poor, 8.8); }).find("alkalinity") != std::string::npos);
}
