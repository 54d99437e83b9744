#include "theca/thermal/lid.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

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
const Lid acrylic{.gap = 50_mm, .layers = {{.thickness = 5_mm, .conductivity = 0.19_W_mK}}};
const LidExposure hall{.water = 78_degF,
                       .salinity = absolute_salinity(35_psu),
                       .room = {.temperature = 70_degF, .humidity = 50_rh},
                       .surroundings = 70_degF,
                       .length = 2.4_m,
                       .width = 0.72_m,
                       .air_speed = 10_cm_s};
}  // namespace

TEST_CASE("trap, a lid taken as a dry air gap: vapour that condenses on it carries heat, the dry gap shows far less") {
  const LidHeat h = lid_heat(acrylic, hall);
  CHECK(si(h.latent) > si(h.convection));
  CHECK(si(h.dry_gap) < 0.85 * si(h.flux));
  // Under an insulated lid most of the resistance is the lid's own, and the gap matters less.
  Lid thick = acrylic;
  thick.layers.push_back({.thickness = 50_mm, .conductivity = 0.035_W_mK});
  const LidHeat insulated = lid_heat(thick, hall);
  CHECK(si(insulated.dry_gap) > 0.85 * si(insulated.flux));
  CHECK(si(insulated.flux) < 0.25 * si(h.flux));
}

TEST_CASE("lid: what crosses the gap goes through the lid and leaves its top") {
  const LidHeat h = lid_heat(acrylic, hall);
  CHECK(std::abs(si(h.residual)) < 1e-7);
  CHECK(near(si(h.flux), si(h.convection) + si(h.radiation) + si(h.latent), 1e-8));
  CHECK(near(si(h.flux), si(h.underside - h.top) * 0.19 / 0.005, 1e-7));
  const Film top = horizontal_film(h.top, 70_degF, standard_atmosphere, Facing::up, 2.4_m, 0.72_m, 10_cm_s);
  CHECK(near(si(h.flux), si(top.coefficient) * si(h.top - 70_degF) + si(radiative_flux(h.top, 70_degF, 0.9)), 1e-8));
  CHECK(near(si(h.latent), si(h.dripping) * si(seawater::latent_heat_of_vaporisation(78_degF, hall.salinity)), 1e-12));
  CHECK(h.flux_low < h.flux);
  CHECK(h.flux < h.flux_high);
}

TEST_CASE("lid: far below what the open water loses, by evaporation that no longer leaves") {
  CHECK(si(lid_heat(acrylic, hall).flux) < 50.0);
  CHECK(si(lid_heat(acrylic, hall).flux) > 10.0);
}

TEST_CASE("lid warmer than the water: it stays dry, heat comes down, the gap does not stir") {
  LidExposure hot = hall;
  hot.water = 70_degF;
  hot.room.temperature = hot.surroundings = 95_degF;
  const LidHeat h = lid_heat(acrylic, hot);
  CHECK(si(h.latent) == 0.0);
  CHECK(si(h.dripping) == 0.0);
  CHECK(si(h.flux) < 0.0);
  CHECK(h.flux_low < h.flux);
  CHECK(h.flux < h.flux_high);
  const double conduction =
      si(air::thermal_conductivity(from_si<Temperature>(0.5 * (si(hot.water) + si(h.underside))))) / 0.05 *
      si(hot.water - h.underside);
  CHECK(near(si(h.convection), conduction, 1e-9));
}

TEST_CASE("lid: perfect insulation lets nothing through, and the underside stands at the water's dew point or above") {
  Lid closed = acrylic;
  closed.layers = {{.thickness = 1_m, .conductivity = from_si<ThermalConductivity>(1e-9)}};
  const LidHeat h = lid_heat(closed, hall);
  CHECK(std::abs(si(h.flux)) < 1e-6);
  const Temperature dew = air::saturation_temperature(seawater::vapour_pressure(78_degF, hall.salinity));
  CHECK(si(h.underside) > si(dew) - 1e-3);
  CHECK(si(h.underside) < si(78_degF));
}

TEST_CASE("lid: two thousand random lids all converge, dry or dripping, more loss under a thinner lid") {
  std::mt19937 random(11);
  const auto between = [&](double low, double high) {
    return low + (high - low) * std::generate_canonical<double, 53>(random);
  };
  int most = 0, dry = 0;
  for (int i = 0; i < 2000; ++i) {
    LidExposure e = hall;
    e.water = celsius(between(10.0, 38.0));
    e.room = {.temperature = celsius(between(2.0, 38.0)), .humidity = 50_rh};
    e.surroundings = celsius(between(2.0, 38.0));
    e.air_speed = between(0.0, 2.0) * units::metre_per_second;
    Lid lid = acrylic;
    lid.gap = between(5.0, 150.0) * units::millimetre;
    lid.layers[0].thickness = between(1.0, 40.0) * units::millimetre;
    const LidHeat h = lid_heat(lid, e);
    REQUIRE(std::abs(si(h.residual)) < 1e-5);
    REQUIRE(h.flux_low <= h.flux);
    REQUIRE(h.flux <= h.flux_high);
    REQUIRE(si(h.latent) >= 0.0);
    most = std::max(most, h.iterations);
    dry += si(h.latent) == 0.0;
    lid.layers[0].thickness = lid.layers[0].thickness * 0.5;
    REQUIRE(std::abs(si(lid_heat(lid, e).flux)) > std::abs(si(h.flux)) - 1e-6);
  }
  CHECK(most <= 40);
  CHECK(dry > 100);
}

TEST_CASE("lid refuses impossible input by name") {
  const auto with = [](auto change) {
    Lid lid = acrylic;
    change(lid);
    return message_of<InvalidInput>([&] { lid_heat(lid, hall); });
  };
  CHECK(contains(with([](Lid& l) { l.gap = 0_mm; }), "gap"));
  CHECK(contains(with([](Lid& l) { l.covered_share = 1.5; }), "covered share"));
  CHECK(contains(with([](Lid& l) { l.layers.clear(); }), "layers"));
  CHECK(contains(with([](Lid& l) { l.layers = {air_gap(10_mm)}; }), "the one under it"));
  CHECK(contains(with([](Lid& l) { l.top_emissivity = -1.0; }), "top emissivity"));
  LidExposure boiling = hall;
  boiling.water = 60_degC;
  CHECK(contains(message_of<InvalidInput>([&] { lid_heat(acrylic, boiling); }), "water temperature"));
}
