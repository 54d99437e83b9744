#include "theca/thermal/radiation.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "support/near.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

TEST_CASE("radiation: flux and film agree, and the film stays finite at equal temperatures [4 eps sigma T^3]") {
  const Temperature a = 26_degC, b = 21_degC;
  CHECK(near(si(radiative_flux(a, b, 0.9)), si(radiative_film(a, b, 0.9)) * 5.0, 1e-12));
  const double t = 294.15;
  CHECK(near(si(radiative_film(b, b, 0.9)), 4.0 * 0.9 * 5.670374419e-8 * t * t * t, 1e-12));
  CHECK(si(radiative_flux(b, a, 0.9)) == -si(radiative_flux(a, b, 0.9)));
}

TEST_CASE("mean radiant temperature: several surfaces draw as much as one at the fourth-power mean") {
  const std::vector<SeenSurface> seen = {{0.6, 21_degC}, {0.25, 5_degC}, {0.15, 30_degC}};
  const Temperature mean = mean_radiant_temperature(seen);
  double sum = 0.0;
  for (const SeenSurface& s : seen) sum += s.view * si(radiative_flux(26_degC, s.temperature, 0.9));
  CHECK(near(si(radiative_flux(26_degC, mean, 0.9)), sum, 1e-10));
  // above the plain mean, as any fourth-power mean is
  CHECK(si(mean) > 273.15 + 0.6 * 21 + 0.25 * 5 + 0.15 * 30);
  CHECK(contains(message_of<InvalidInput>([] { mean_radiant_temperature({{0.5, 21_degC}}); }), "view factors"));
}

TEST_CASE("parallel plates: two black faces, a mirror, and a grey face opposite a black one") {
  CHECK(kernel::exchange_emissivity(1.0, 1.0) == 1.0);
  CHECK(kernel::exchange_emissivity(0.9, 0.0) == 0.0);
  CHECK(near(kernel::exchange_emissivity(0.837, 1.0), 0.837, 1e-14));
}

TEST_CASE("radiation refuses impossible input by name") {
  CHECK(contains(message_of<InvalidInput>([] { radiative_flux(25_degC, 20_degC, 1.1); }), "emissivity"));
  CHECK(contains(message_of<InvalidInput>([] { radiative_film(25_degC, from_si<Temperature>(-1.0), 0.9); }),
                 "surroundings temperature"));
}
