#include "theca/thermal/water_surface.hpp"

#include <doctest/doctest.h>

#include "support/near.hpp"
#include "theca/seawater.hpp"
#include "theca/thermal/radiation.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

namespace {
WaterSurface winter_tank() {
  return {.free = {.water = 78_degF,
                   .salinity = absolute_salinity(35_psu),
                   .room = {.temperature = 70_degF, .humidity = 50_rh},
                   .air_speed = 10_cm_s,
                   .length = 2.4_m,
                   .width = 0.72_m,
                   .activity = 0.65},
          .surroundings = 66_degF};
}
const Lid lid{.covered_share = 0.8, .gap = 50_mm, .layers = {{.thickness = 5_mm, .conductivity = 0.19_W_mK}}};
}  // namespace

TEST_CASE("water surface: every part by its own function, over the area") {
  const WaterSurface s = winter_tank();
  const WaterSurfaceHeat h = water_surface_heat(s);
  const double area = 2.4 * 0.72;
  const EvaporationEstimate e = evaporation(s.free);
  CHECK(near(si(h.evaporation.central), area * si(e.latent), 1e-12));
  CHECK(near(si(h.evaporated_high), area * si(e.high), 1e-12));
  CHECK(near(si(h.radiation), area * si(radiative_flux(78_degF, 66_degF, 0.96)), 1e-12));
  CHECK(si(h.lid.central) == 0.0);
  for (const PowerRange& r : {h.evaporation, h.convection}) {
    CHECK(r.low < r.central);
    CHECK(r.central < r.high);
  }
}

TEST_CASE("water surface: convection over evaporation of the analogy is the Bowen ratio") {
  const WaterSurface s = winter_tank();
  const double latent = si(evaporation_rate(EvaporationModel::heat_mass_analogy, s.free)) *
                        si(seawater::latent_heat_of_vaporisation(78_degF, s.free.salinity));
  CHECK(near(si(water_surface_heat(s).convection.central), 2.4 * 0.72 * latent * bowen_ratio(s.free), 1e-12));
}

TEST_CASE("lid over four fifths: a fifth of the evaporation is left, and less heat than open by more than half") {
  WaterSurface covered = winter_tank();
  covered.lid = lid;
  const WaterSurfaceHeat open = water_surface_heat(winter_tank()), part = water_surface_heat(covered);
  CHECK(near(si(part.evaporated), 0.2 * si(open.evaporated), 1e-12));
  CHECK(near(si(part.radiation), 0.2 * si(open.radiation), 1e-12));
  CHECK(si(part.lid.central) > 0.0);
  const auto sum = [](const WaterSurfaceHeat& h) {
    return si(h.evaporation.central) + si(h.convection.central) + si(h.radiation) + si(h.lid.central);
  };
  CHECK(sum(part) < 0.5 * sum(open));
  covered.lid->covered_share = 0.0;
  CHECK(near(sum(water_surface_heat(covered)), sum(open), 1e-14));
}

TEST_CASE("water surface colder than the room's dew point: condensation brings heat in, range in order of sign") {
  WaterSurface s = winter_tank();
  s.free.water = 60_degF;
  s.free.room = {.temperature = 84_degF, .humidity = 80_rh};
  const WaterSurfaceHeat h = water_surface_heat(s);
  CHECK(si(h.evaporated) < 0.0);
  CHECK(si(h.evaporation.central) < 0.0);
  CHECK(h.evaporation.low < h.evaporation.central);
  CHECK(h.evaporation.central < h.evaporation.high);
  CHECK(h.convection.low < h.convection.central);
}

TEST_CASE("water surface: a share outside 0 to 1 is refused, and equal vapour pressures have no Bowen ratio") {
  WaterSurface s = winter_tank();
  s.lid = lid;
  s.lid->covered_share = 1.2;
  CHECK(contains(message_of<InvalidInput>([&] { water_surface_heat(s); }), "covered share"));
  EvaporatingSurface still = winter_tank().free;
  still.salinity = AbsoluteSalinity(0.0);
  still.room = {.temperature = still.water, .humidity = 100_rh};
  CHECK(contains(message_of<OutOfValidity>([&] { bowen_ratio(still); }), "Bowen"));
}
