#include "theca/thermal/evaporation.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "support/near.hpp"
#include "theca/seawater.hpp"
#include "theca/thermal/film.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

namespace {
constexpr EvaporationModel models[] = {EvaporationModel::ashrae, EvaporationModel::smith_lof_jones,
                                       EvaporationModel::shah, EvaporationModel::heat_mass_analogy};

EvaporatingSurface winter_tank() {
  return {.water = 78_degF,
          .salinity = absolute_salinity(35_psu),
          .room = {.temperature = 70_degF, .humidity = 50_rh, .pressure = 101.3_kPa_abs},
          .air_speed = 10_cm_s,
          .length = 2.4_m,
          .width = 0.72_m,
          .activity = 0.65};
}
}  // namespace

TEST_CASE("evaporation: central value lies between the models, the spread holds all of them and at least 25 %") {
  const EvaporationEstimate e = evaporation(winter_tank());
  double sum = 0.0;
  for (const ModelEvaporation& m : e.models) {
    CHECK(m.in_fitted_range);
    CHECK_FALSE(m.source.empty());
    CHECK(m.rate == evaporation_rate(m.model, winter_tank()));
    CHECK(m.rate >= e.low);
    CHECK(m.rate <= e.high);
    sum += si(m.rate);
  }
  CHECK(near(si(e.central), sum / 4.0, 1e-14));
  CHECK(si(e.high) >= 1.25 * si(e.central));
  CHECK(si(e.low) <= 0.75 * si(e.central));
  CHECK(near(si(e.latent),
             si(e.central) * si(seawater::latent_heat_of_vaporisation(78_degF, absolute_salinity(35_psu))), 1e-14));
  // A millimetre or several a day is what open indoor water loses (common practice, no source).
  const double millimetres_per_day = si(e.central) * 86400.0 / 1000.0 * 1000.0;
  CHECK(millimetres_per_day > 2.0);
  CHECK(millimetres_per_day < 8.0);
}

TEST_CASE("evaporation: no vapour pressure difference, no evaporation, in every model") {
  EvaporatingSurface s = winter_tank();
  s.salinity = AbsoluteSalinity(0.0);
  s.room.temperature = s.water;
  s.room.humidity = 100_rh;
  for (const EvaporationModel m : models) CHECK(std::abs(si(evaporation_rate(m, s))) < 1e-12);
}

TEST_CASE("trap, negative evaporation clipped: a room moister than the water condenses on it, and the sign stays") {
  EvaporatingSurface s = winter_tank();
  s.water = 60_degF;
  s.room = {.temperature = 84_degF, .humidity = 80_rh};
  CHECK(si(vapour_pressure_difference(s)) < 0.0);
  for (const EvaporationModel m : models) CHECK(si(evaporation_rate(m, s)) < 0.0);
  const EvaporationEstimate e = evaporation(s);
  CHECK(si(e.central) < 0.0);
  CHECK(e.low < e.central);
  CHECK(e.central < e.high);
  // only the analogy speaks for condensation
  for (const ModelEvaporation& m : e.models)
    CHECK(m.in_fitted_range == (m.model == EvaporationModel::heat_mass_analogy));
}

TEST_CASE("evaporation: a warm surface under a saturated hot room condenses in Shah's natural branch too") {
  EvaporatingSurface s = winter_tank();
  s.salinity = AbsoluteSalinity(40.0);
  s.water = 30_degC;
  s.room = {.temperature = 29.9_degC, .humidity = 99.9_rh};
  CHECK(si(vapour_pressure_difference(s)) < 0.0);
  CHECK(si(evaporation_rate(EvaporationModel::shah, s)) < 0.0);
}

TEST_CASE(
    "trap, fresh for salt vapour pressure: salt lowers evaporation by its share of the vapour pressure difference") {
  EvaporatingSurface fresh = winter_tank();
  fresh.salinity = AbsoluteSalinity(0.0);
  const double pure = si(seawater::vapour_pressure(78_degF, fresh.salinity));
  const double salt = si(seawater::vapour_pressure(78_degF, winter_tank().salinity));
  // Raoult's law for 35 g/kg of sea salt: 1.84 % (Millero 1983); the rule of thumb of 2 % is within a fifth of that.
  CHECK(near(1.0 - salt / pure, 0.0184, 0.02));
  const double difference = si(vapour_pressure_difference(winter_tank()));
  const double expected = difference / (difference + pure - salt);
  CHECK(expected < 0.975);
  const double ratio = si(evaporation_rate(EvaporationModel::ashrae, winter_tank())) /
                       si(evaporation_rate(EvaporationModel::ashrae, fresh));
  CHECK(near(ratio, expected, 1e-12));
  for (const EvaporationModel m : models)
    CHECK(si(evaporation_rate(m, winter_tank())) < 0.98 * si(evaporation_rate(m, fresh)));
}

TEST_CASE("trap, moist-air densities in Shah's law: it comes out a tenth too low and more") {
  const EvaporatingSurface s = winter_tank();
  const double vapour = si(seawater::vapour_pressure(s.water, s.salinity));
  const air::MoistAir surface{.temperature = s.water,
                              .humidity = RelativeHumidity(vapour / si(air::saturation_vapour_pressure(s.water))),
                              .pressure = s.room.pressure};
  const double wrong =
      kernel::evaporation_shah(si(air::density(surface)), si(air::density(s.room)), air::humidity_ratio(surface),
                               air::humidity_ratio(s.room), si(vapour_pressure_difference(s)), 0.0);
  CHECK(wrong < 0.91 * si(evaporation_rate(EvaporationModel::shah, s)));
}

TEST_CASE("trap, buoyancy from temperature alone: evaporation must not vanish when air and water are equally warm") {
  EvaporatingSurface level = winter_tank();
  level.room.temperature = level.water;
  level.air_speed = 0_m_s;
  for (const EvaporationModel m : models) CHECK(si(evaporation_rate(m, level)) > 0.0);
  // A plate as warm as the air has no natural convection at all, and the analogy on it would give nothing.
  const Film plate =
      horizontal_film(level.water, level.room.temperature, level.room.pressure, Facing::up, level.length, level.width);
  CHECK(si(plate.coefficient) == 0.0);
  // With the densities of moist air the analogy keeps its place among the measured laws.
  const double analogy = si(evaporation_rate(EvaporationModel::heat_mass_analogy, level));
  CHECK(near(analogy, si(evaporation_rate(EvaporationModel::shah, level)), 0.35));
}

TEST_CASE("evaporation: a fan of 1 m/s raises it by half and more, in Shah's law by (u/0.15)^0.7 on its air currents") {
  EvaporatingSurface fan = winter_tank();
  fan.air_speed = 1_m_s;
  CHECK(si(evaporation(fan).central) > 1.5 * si(evaporation(winter_tank()).central));
  const double currents = 5e-5 * si(vapour_pressure_difference(fan)) / 3600.0 * std::pow(1.0 / 0.15, 0.7);
  CHECK(near(si(evaporation_rate(EvaporationModel::shah, fan)), currents, 1e-12));
  CHECK_FALSE(in_fitted_range(EvaporationModel::shah, fan));
}

TEST_CASE("evaporation by analogy: convection and evaporation stand in the ratio that Lewis' law asks for") {
  // Bowen ratio = gamma (T_w - T_r) / (e_w - e_r), gamma = rho cp Le^(2/3) R_v T / L; with Le 0.85 to 0.87 and the
  // psychrometric constant cp p / (0.622 L) = 67 Pa/K this is 60 to 62 Pa/K.
  const EvaporatingSurface s = winter_tank();
  const Film film = water_surface_film(s.water, seawater::vapour_pressure(s.water, s.salinity), s.room, s.length,
                                       s.width, s.air_speed);
  const double convection = si(film.coefficient) * (si(s.water) - si(s.room.temperature));
  const double latent = si(evaporation_rate(EvaporationModel::heat_mass_analogy, s)) *
                        si(seawater::latent_heat_of_vaporisation(s.water, s.salinity));
  const double gamma = convection / latent * si(vapour_pressure_difference(s)) / (si(s.water) - si(s.room.temperature));
  CHECK(gamma > 59.0);
  CHECK(gamma < 63.0);
}

TEST_CASE("evaporation: drier air, warmer water and more draught each give more, in every model") {
  for (const EvaporationModel m : models) {
    const double base = si(evaporation_rate(m, winter_tank()));
    EvaporatingSurface s = winter_tank();
    s.room.humidity = 40_rh;
    CHECK(si(evaporation_rate(m, s)) > base);
    s = winter_tank();
    s.water = 80_degF;
    CHECK(si(evaporation_rate(m, s)) > base);
    s = winter_tank();
    s.air_speed = 15_cm_s;
    CHECK(si(evaporation_rate(m, s)) >= base);  // Shah's law is for quiet air and does not know it
  }
}

TEST_CASE("evaporation: a model outside its range is shown but kept out of the estimate") {
  EvaporatingSurface s = winter_tank();
  s.air_speed = 50_cm_s;
  const EvaporationEstimate e = evaporation(s);
  CHECK_FALSE(e.models[0].in_fitted_range);
  CHECK(e.models[1].in_fitted_range);
  CHECK_FALSE(e.models[2].in_fitted_range);
  CHECK(near(si(e.central), 0.5 * (si(e.models[1].rate) + si(e.models[3].rate)), 1e-14));
  s = winter_tank();
  s.room.humidity = 20_rh;
  CHECK_FALSE(in_fitted_range(EvaporationModel::shah, s));
}

TEST_CASE("evaporation: activity scales the ASHRAE model alone") {
  EvaporatingSurface busy = winter_tank();
  busy.activity = 1.3;
  CHECK(near(si(evaporation_rate(EvaporationModel::ashrae, busy)),
             2.0 * si(evaporation_rate(EvaporationModel::ashrae, winter_tank())), 1e-14));
  CHECK(evaporation_rate(EvaporationModel::shah, busy) == evaporation_rate(EvaporationModel::shah, winter_tank()));
}

TEST_CASE("evaporation refuses impossible input by name") {
  const auto with = [](auto change) {
    EvaporatingSurface s = winter_tank();
    change(s);
    return message_of<InvalidInput>([&] { evaporation(s); });
  };
  CHECK(contains(with([](EvaporatingSurface& s) { s.water = 60_degC; }), "water temperature"));
  CHECK(contains(with([](EvaporatingSurface& s) { s.salinity = AbsoluteSalinity(-1.0); }), "salinity"));
  CHECK(contains(with([](EvaporatingSurface& s) { s.room.temperature = 300_degC; }), "room temperature"));
  CHECK(contains(with([](EvaporatingSurface& s) { s.room.humidity = RelativeHumidity(50.0); }), "room humidity"));
  CHECK(contains(with([](EvaporatingSurface& s) { s.room.pressure = 0.0_kPa_abs; }), "pressure"));
  CHECK(contains(with([](EvaporatingSurface& s) { s.air_speed = from_si<Velocity>(-0.1); }), "air speed"));
  CHECK(contains(with([](EvaporatingSurface& s) { s.length = 0_m; }), "length"));
  CHECK(
      contains(with([](EvaporatingSurface& s) { s.width = from_si<Length>(std::numeric_limits<double>::infinity()); }),
               "width"));
  CHECK(contains(with([](EvaporatingSurface& s) { s.activity = -0.5; }), "activity"));
  CHECK(name(EvaporationModel::shah) == "Shah");
}
