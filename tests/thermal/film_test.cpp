#include "theca/thermal/film.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "support/near.hpp"
#include "theca/seawater.hpp"
#include "theca/thermal/nusselt.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

namespace {
const double not_a_number = std::numeric_limits<double>::quiet_NaN();

Film over_water(Temperature water, air::MoistAir room, Velocity speed = 0_m_s) {
  return water_surface_film(water, seawater::vapour_pressure(water, absolute_salinity(35_psu)), room, 2.4_m, 0.72_m,
                            speed);
}
}  // namespace

TEST_CASE("vertical film: the same for a warm and for a cold wall at the same mean temperature") {
  const Film warm = vertical_film(25_degC, 20_degC, standard_atmosphere, 0.35_m);
  const Film cold = vertical_film(20_degC, 25_degC, standard_atmosphere, 0.35_m);
  CHECK(near(warm.coefficient, cold.coefficient, 1e-14));
}

TEST_CASE("vertical film: grows as the cube root of the temperature difference on a tall wall, not linearly in heat") {
  // Churchill & Chu tends to Ra^(1/3); at Ra of 1e11 the constant 0.825 still takes 4 % off the exponent.
  const auto film = [](double kelvin) {
    return si(vertical_film(from_si<Temperature>(293.15 + 0.5 * kelvin), from_si<Temperature>(293.15 - 0.5 * kelvin),
                            standard_atmosphere, 3.5_m)
                  .coefficient);
  };
  CHECK(near(std::log2(film(16.0) / film(8.0)), 1.0 / 3.0, 0.05));
}

TEST_CASE("water surface: buoyancy follows the density of moist air, not temperature alone") {
  // Water 1.5 K colder than a dry room: by temperature alone the air would be held down at the surface, but the vapour
  // over the water makes it the lighter of the two.
  const air::MoistAir room{.temperature = 26_degC, .humidity = 30_rh};
  const Film film = over_water(24.5_degC, room);
  CHECK(film.unstable);

  // Virtual temperature T / (1 - 0.378 e/p), the meteorologists' form, gives the same buoyancy.
  const double e_water = si(seawater::vapour_pressure(24.5_degC, absolute_salinity(35_psu)));
  const double e_room = si(air::vapour_pressure(room));
  const double virtual_difference =
      297.65 / (1.0 - 0.378 * e_water / 101325.0) - 299.15 / (1.0 - 0.378 * e_room / 101325.0);
  CHECK(virtual_difference > 0.0);
  const double size = 2.4 * 0.72 / (2.0 * (2.4 + 0.72));
  const Temperature mean = from_si<Temperature>(298.4);
  const double nu = si(air::kinematic_viscosity(mean, standard_atmosphere));
  const double rayleigh = 9.80665 * virtual_difference / 300.4 * size * size * size / (nu * nu) * air::prandtl(mean);
  CHECK(near(film.rayleigh, rayleigh, 0.01));  // 0.378 is rounded, and the difference is a small one of large terms

  // In a room as moist as the water's own vapour, the same water is colder and heavier indeed.
  CHECK_FALSE(over_water(24.5_degC, {.temperature = 26_degC, .humidity = 92_rh}).unstable);
}

TEST_CASE("water surface: no jump where buoyancy changes its sign") {
  double last = si(over_water(20_degC, {.temperature = 24_degC, .humidity = 60_rh}, 5_cm_s).coefficient);
  for (int i = 1; i <= 2000; ++i) {
    const auto water = from_si<Temperature>(293.15 + 0.004 * i);
    const double now = si(over_water(water, {.temperature = 24_degC, .humidity = 60_rh}, 5_cm_s).coefficient);
    CHECK(std::abs(now - last) < 0.02);  // W/m2/K per 4 mK step: the natural part starts from nothing with Ra^(1/5)
    last = now;
  }
}

TEST_CASE("water surface: a draught adds to natural convection and never takes from it") {
  const air::MoistAir room{.temperature = 21_degC, .humidity = 50_rh};
  double last = 0.0;
  for (const Velocity& speed : {0_cm_s, 5_cm_s, 10_cm_s, 30_cm_s, 100_cm_s}) {
    const double now = si(over_water(25.5_degC, room, speed).coefficient);
    CHECK(now > last);
    last = now;
  }
}

TEST_CASE("mixed convection: either alone is returned unchanged") {
  CHECK(near(kernel::combine_forced_and_natural(3.0, 0.0, 3.5), 3.0, 1e-14));
  CHECK(near(kernel::combine_forced_and_natural(0.0, 4.0, 3.0), 4.0, 1e-14));
}

TEST_CASE("every film: the spread between correlations holds the coefficient, 10 % at least either side") {
  const air::MoistAir room{.temperature = 21_degC, .humidity = 50_rh};
  const auto holds = [](const Film& film) {
    CHECK(si(film.low) <= 0.9 * si(film.coefficient) * (1.0 + 1e-12));
    CHECK(si(film.high) >= 1.1 * si(film.coefficient) * (1.0 - 1e-12));
    CHECK(si(film.high) < 2.0 * si(film.low) + 1e-12);
  };
  for (const double kelvin : {0.5, 3.0, 10.0}) {
    const auto warm = from_si<Temperature>(294.15 + kelvin);
    for (const Velocity& speed : {0_m_s, 30_cm_s}) {
      holds(vertical_film(warm, 21_degC, standard_atmosphere, 40_cm, speed));
      holds(horizontal_film(warm, 21_degC, standard_atmosphere, Facing::up, 2_m, 75_cm, speed));
      holds(horizontal_film(warm, 21_degC, standard_atmosphere, Facing::down, 2_m, 75_cm, speed));
      holds(over_water(warm, room, speed));
      holds(water_film(warm, 21_degC, absolute_salinity(35_psu), Facing::sideways, 40_cm, 2_m, speed));
    }
  }
}

TEST_CASE("horizontal film: a cold plate facing down is a warm plate facing up, turned over") {
  const Film warm_up = horizontal_film(25_degC, 20_degC, standard_atmosphere, Facing::up, 2_m, 1_m);
  const Film cold_down = horizontal_film(20_degC, 25_degC, standard_atmosphere, Facing::down, 2_m, 1_m);
  CHECK(warm_up.unstable);
  CHECK(cold_down.unstable);
  CHECK(near(warm_up.coefficient, cold_down.coefficient, 1e-14));
  CHECK_FALSE(horizontal_film(25_degC, 20_degC, standard_atmosphere, Facing::down, 2_m, 1_m).unstable);
}

TEST_CASE("water film: a hundred times that of air, stronger where stirred; a base under colder water stirs itself") {
  const AbsoluteSalinity s = absolute_salinity(35_psu);
  const double air = si(vertical_film(24_degC, 25_degC, standard_atmosphere, 40_cm).coefficient);
  const double still = si(water_film(24_degC, 25_degC, s, Facing::sideways, 40_cm, 2_m).coefficient);
  CHECK(still > 50.0 * air);
  CHECK(still < 150.0 * air);
  CHECK(si(water_film(24_degC, 25_degC, s, Facing::sideways, 40_cm, 2_m, 10_cm_s).coefficient) > 1.5 * still);
  CHECK(water_film(26_degC, 25_degC, s, Facing::up, 75_cm, 2_m).unstable);
  CHECK_FALSE(water_film(24_degC, 25_degC, s, Facing::up, 75_cm, 2_m).unstable);
}

TEST_CASE("films refuse impossible input by name") {
  CHECK(contains(message_of<InvalidInput>([] { nusselt_vertical_plate(-1.0, 0.7); }), "rayleigh"));
  CHECK(contains(message_of<InvalidInput>([] { nusselt_vertical_plate(1e6, 0.0); }), "prandtl"));
  CHECK(contains(message_of<OutOfValidity>([] { nusselt_vertical_plate(1e13, 0.7); }), "Churchill & Chu 1975"));
  CHECK(contains(message_of<OutOfValidity>([] { nusselt_vertical_plate_laminar(2e9, 0.7); }), "Rayleigh"));
  CHECK(contains(message_of<OutOfValidity>([] { nusselt_horizontal_unstable(1e3); }), "Lloyd & Moran"));
  CHECK(contains(message_of<OutOfValidity>([] { nusselt_horizontal_stable(1e11); }), "McAdams"));
  CHECK(contains(message_of<InvalidInput>([] { nusselt_horizontal_stable(not_a_number); }), "rayleigh"));
  CHECK(contains(message_of<OutOfValidity>([] { nusselt_flat_plate(1e9, 0.7); }), "Reynolds"));
  CHECK(contains(message_of<OutOfValidity>([] { nusselt_flat_plate(1e4, 0.01); }), "Prandtl"));
  CHECK(contains(message_of<InvalidInput>(
                     [] { horizontal_film(25_degC, 20_degC, standard_atmosphere, Facing::sideways, 1_m, 1_m); }),
                 "facing"));
  CHECK(contains(
      message_of<InvalidInput>([] { water_film(25_degC, 50_degC, AbsoluteSalinity(35.0), Facing::up, 1_m, 1_m); }),
      "water temperature"));
  CHECK(
      contains(message_of<InvalidInput>([] { vertical_film(25_degC, 20_degC, standard_atmosphere, 0_m); }), "height"));
  CHECK(contains(message_of<InvalidInput>([] { vertical_film(150_degC, 20_degC, standard_atmosphere, 1_m); }),
                 "surface temperature"));
  CHECK(contains(message_of<OutOfValidity>([] { vertical_film(90_degC, 20_degC, standard_atmosphere, 20_m); }),
                 "Rayleigh"));
  const air::MoistAir room{.temperature = 21_degC, .humidity = 50_rh};
  CHECK(contains(message_of<InvalidInput>([&] { water_surface_film(25_degC, 5.0_kPa_abs, room, 1_m, 1_m, 0_m_s); }),
                 "vapour pressure at the surface"));
  CHECK(contains(message_of<InvalidInput>([&] { water_surface_film(25_degC, 3.0_kPa_abs, room, 1_m, 0_m, 0_m_s); }),
                 "width"));
  CHECK(contains(message_of<InvalidInput>(
                     [&] { water_surface_film(25_degC, 3.0_kPa_abs, room, 1_m, 1_m, from_si<Velocity>(-0.1)); }),
                 "air speed"));
}
