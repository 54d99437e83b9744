#include "theca/thermal/balance.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "support/near.hpp"
#include "theca/seawater.hpp"
#include "theca/thermal/film.hpp"
#include "theca/thermal/radiation.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {
// An invented tank, 96 x 30 in of 12 mm glass with 14 in of water, open on top.
TankSurfaces open_tank() {
  const std::vector<Layer> glass = {{.thickness = 12_mm, .conductivity = 1.0_W_mK}};
  TankSurfaces tank{.name = "A",
                    .water_length = 96_in - 24_mm,
                    .water_width = 30_in - 24_mm,
                    .walls = {},
                    .inside_film = 100_W_m2K,
                    .base = 96_in * 30_in,
                    .base_U = 1.5_W_m2K,
                    .evaporation_activity = 0.65};
  for (int side = 0; side < 2; ++side) {
    tank.walls.push_back({.name = "long side", .length = 96_in, .height = 14_in, .layers = glass});
    tank.walls.push_back({.name = "end", .length = 30_in, .height = 14_in, .layers = glass});
  }
  return tank;
}
const Water water{.temperature = 78_degF, .salinity = absolute_salinity(35_psu)};
Room hall(Temperature t, RelativeHumidity humidity) {
  return {.air = {.temperature = t, .humidity = humidity, .pressure = 101.3_kPa_abs},
          .surroundings = t,
          .air_speed = 10_cm_s};
}
}  // namespace

TEST_CASE("tank balance: sums are exact and shares add up to one") {
  const HeatBalance b =
      tank_balance(open_tank(), water, hall(70_degF, 50_rh), {{"circulation", 50_W}, {"lights", 106_W}});
  double loss = 0.0, share = 0.0;
  for (const HeatPath& p : b.losses) {
    loss += si(p.power);
    share += p.share;
  }
  CHECK(loss == si(b.total_loss));
  CHECK(near(share, 1.0, 1e-14));
  CHECK(si(b.total_gain) == 156.0);
  CHECK(si(b.net) == si(b.total_loss) - si(b.total_gain));
  CHECK(b.heating == b.net);
  CHECK(si(b.cooling) == 0.0);
  CHECK(b.total_loss_low < b.total_loss);
  CHECK(b.total_loss < b.total_loss_high);
}

TEST_CASE("tank balance: each path is what its own function gives") {
  const TankSurfaces tank = open_tank();
  const Room room = hall(70_degF, 50_rh);
  const HeatBalance b = tank_balance(tank, water, room);
  const double area = si(tank.water_length * tank.water_width);
  const EvaporationEstimate e = evaporation({.water = water.temperature,
                                             .salinity = water.salinity,
                                             .room = room.air,
                                             .air_speed = room.air_speed,
                                             .length = tank.water_length,
                                             .width = tank.water_width,
                                             .activity = 0.65});
  CHECK(near(si(b.loss("evaporation")), area * si(e.latent), 1e-14));
  CHECK(near(si(b.evaporation), area * si(e.central), 1e-14));
  CHECK(near(si(b.loss("surface radiation")), area * si(radiative_flux(78_degF, 70_degF, 0.96)), 1e-14));
  const double kelvin = 8.0 / 1.8;
  CHECK(near(si(b.loss("base")), si(tank.base) * 1.5 * kelvin, 1e-12));
  const WallHeat w = wall_heat(tank.walls[0].layers, {.water = 78_degF,
                                                      .inside_film = 100_W_m2K,
                                                      .room = 70_degF,
                                                      .surroundings = 70_degF,
                                                      .pressure = 101.3_kPa_abs,
                                                      .height = 14_in});
  CHECK(near(si(b.loss("walls")), si(w.flux) * 2.0 * (2.4384 + 0.762) * 0.3556, 1e-9));
}

TEST_CASE("trap, no evaporation: about half of an open tank's heat goes missing") {
  const HeatBalance b = tank_balance(open_tank(), water, hall(70_degF, 50_rh));
  const double share = si(b.loss("evaporation")) / si(b.total_loss);
  CHECK(share > 0.45);
  CHECK(share < 0.70);
}

TEST_CASE("tank balance: leaving long-wave radiation out takes more than a tenth off the loss at the surface alone") {
  const HeatBalance b = tank_balance(open_tank(), water, hall(70_degF, 50_rh));
  CHECK(si(b.loss("surface radiation")) > 0.10 * si(b.total_loss));
  CHECK(si(b.loss("surface radiation")) > si(b.loss("surface convection")));
}

TEST_CASE("trap, loss scaled linearly from one temperature: it says nothing is lost where the tank still evaporates") {
  // Water and room at one temperature: scaling with the difference says no loss, but the tank still evaporates.
  const HeatBalance level = tank_balance(open_tank(), water, hall(78_degF, 50_rh));
  CHECK(std::abs(si(level.loss("walls"))) < 1e-6);
  CHECK(si(level.total_loss) > 100.0);
  const double at_70 = si(tank_balance(open_tank(), water, hall(70_degF, 50_rh)).total_loss);
  const double at_62 = si(tank_balance(open_tank(), water, hall(62_degF, 50_rh)).total_loss);
  CHECK(at_62 < 0.85 * 2.0 * at_70);  // twice the difference, far less than twice the loss
}

TEST_CASE("tank balance: a hot room gives heat to the water while evaporation still takes some") {
  const HeatBalance b = tank_balance(open_tank(), water, hall(86_degF, 60_rh), {{"pump", 910_W}});
  CHECK(si(b.loss("walls")) < 0.0);
  CHECK(si(b.loss("surface radiation")) < 0.0);
  CHECK(si(b.loss("evaporation")) > 0.0);
  CHECK(si(b.heating) == 0.0);
  CHECK(si(b.cooling) == -si(b.net));
  CHECK(si(b.cooling) > 0.0);
}

TEST_CASE("tank balance: fixed outside films give U A dT by hand") {
  TankSurfaces tank = open_tank();
  for (WallPatch& w : tank.walls) w.fixed_outside_film = 8.3_W_m2K;
  const HeatBalance b = tank_balance(tank, water, hall(70_degF, 50_rh));
  const double u = 1.0 / (1.0 / 100.0 + 0.012 + 1.0 / 8.3);
  CHECK(near(si(b.loss("walls")), u * 2.0 * (2.4384 + 0.762) * 0.3556 * 8.0 / 1.8, 1e-12));
}

TEST_CASE("tank balance: a covered tank has walls and base only") {
  TankSurfaces tank = open_tank();
  tank.water_width = 0_m;
  const HeatBalance b = tank_balance(tank, water, hall(70_degF, 50_rh));
  CHECK(si(b.loss("evaporation")) == 0.0);
  CHECK(si(b.evaporation) == 0.0);
  CHECK(si(b.total_loss) == si(b.loss("walls")) + si(b.loss("base")));
}

TEST_CASE("system balance: twice three tanks is six tanks, and the sump adds UA dT of its own room") {
  const Room room = hall(70_degF, 50_rh);
  TankSystem system{.tanks = {{.tank = open_tank(), .count = 2}, {.tank = open_tank(), .count = 4}},
                    .sump_UA = 18_W_K,
                    .sump_room = 60_degF,
                    .gains = {{"return pump", 910_W}}};
  const HeatBalance b = system_balance(system, water, room);
  const HeatBalance one = tank_balance(open_tank(), water, room);
  CHECK(near(si(b.total_loss), 6.0 * si(one.total_loss) + 18.0 * 10.0, 1e-12));
  CHECK(near(si(b.loss("sump")), 180.0, 1e-12));
  CHECK(near(si(b.evaporation), 6.0 * si(one.evaporation), 1e-12));
  system.tanks = {{.tank = open_tank(), .count = 0}};
  CHECK(near(si(system_balance(system, water, room).total_loss), 180.0, 1e-12));
}

TEST_CASE(
    "tank balance: a lid takes evaporation off and shows its own path; a base facing down is solved like a wall") {
  TankSurfaces tank = open_tank();
  tank.lid = Lid{.covered_share = 0.9, .gap = 50_mm, .layers = {{.thickness = 5_mm, .conductivity = 0.19_W_mK}}};
  tank.base = from_si<Area>(0.0);
  tank.walls.push_back({.name = "base",
                        .length = 96_in,
                        .height = 30_in,
                        .layers = {{.thickness = 12_mm, .conductivity = 1.0_W_mK}},
                        .facing = Facing::down});
  const Room room = hall(70_degF, 50_rh);
  const HeatBalance covered = tank_balance(tank, water, room), open = tank_balance(open_tank(), water, room);
  CHECK(near(si(covered.evaporation), 0.1 * si(open.evaporation), 1e-12));
  CHECK(si(covered.loss("lid")) > 0.0);
  CHECK(near(si(covered.loss("walls")), si(open.loss("walls")), 1e-12));
  CHECK(si(covered.loss("base")) > 0.0);
  for (const HeatPath& p : covered.losses) {
    CAPTURE(p.name);
    CHECK(p.low <= p.power);
    CHECK(p.power <= p.high);
  }
}

TEST_CASE("balance: what the room takes is every path but vapour, with what equipment gives to it") {
  const HeatBalance b = tank_balance(open_tank(), water, hall(70_degF, 50_rh), {light_gain("lights", 588_W, 0.18)});
  CHECK(near(si(b.sensible_to_room), si(b.total_loss - b.loss("evaporation")) + 0.82 * 588.0, 1e-12));
  TankSystem system{.tanks = {{.tank = open_tank(), .count = 1}}, .sump_UA = 18_W_K, .sump_room = 60_degF};
  const HeatBalance s = system_balance(system, water, hall(70_degF, 50_rh));
  CHECK(near(si(s.sensible_to_room), si(s.total_loss - s.loss("evaporation") - s.loss("sump")), 1e-12));
}

TEST_CASE("balance: a wall that looks at a cold window loses more than its neighbours") {
  TankSurfaces tank = open_tank();
  tank.walls[0].surroundings = 45_degF;
  CHECK(si(tank_balance(tank, water, hall(70_degF, 50_rh)).loss("walls")) >
        1.2 * si(tank_balance(open_tank(), water, hall(70_degF, 50_rh)).loss("walls")));
}

TEST_CASE("balance: no temperature and no humidity difference, no loss by any path") {
  TankSurfaces tank = open_tank();
  const Water fresh{.temperature = 78_degF, .salinity = AbsoluteSalinity(0.0)};
  for (const HeatPath& p : tank_balance(tank, fresh, hall(78_degF, 100_rh)).losses) {
    CAPTURE(p.name);
    CHECK(std::abs(si(p.power)) < 1e-6);
  }
}

TEST_CASE("balance refuses impossible input by name") {
  const Room room = hall(70_degF, 50_rh);
  const auto with = [&](auto change) {
    TankSurfaces tank = open_tank();
    change(tank);
    return message_of<InvalidInput>([&] { tank_balance(tank, water, room); });
  };
  CHECK(contains(with([](TankSurfaces& t) { t.water_length = from_si<Length>(-1.0); }), "water length"));
  CHECK(contains(with([](TankSurfaces& t) { t.base = from_si<Area>(-1.0); }), "base"));
  CHECK(contains(with([](TankSurfaces& t) { t.base_U = from_si<ThermalTransmittance>(-1.0); }), "base U"));
  CHECK(contains(with([](TankSurfaces& t) { t.water_emissivity = 2.0; }), "water emissivity"));
  CHECK(contains(with([](TankSurfaces& t) { t.walls[0].length = 0_m; }), "wall length"));
  CHECK(contains(with([](TankSurfaces& t) { t.walls[0].height = 0_m; }), "wall height"));
  CHECK(contains(with([](TankSurfaces& t) { t.walls[0].layers.clear(); }), "layers"));
  CHECK(contains(with([](TankSurfaces& t) { t.inside_film = 0_W_m2K; }), "inside film"));
  CHECK(contains(message_of<InvalidInput>(
                     [&] { tank_balance(open_tank(), {.temperature = 50_degC, .salinity = water.salinity}, room); }),
                 "water temperature"));
  CHECK(contains(message_of<InvalidInput>([&] {
                   tank_balance(open_tank(), water, room, {{"pump", from_si<Power>(-1.0)}});
                 }),
                 "gain pump"));
  Room bad = room;
  bad.surroundings = from_si<Temperature>(std::numeric_limits<double>::quiet_NaN());
  CHECK(contains(message_of<InvalidInput>([&] { tank_balance(open_tank(), water, bad); }), "surroundings"));
  TankSystem system{
      .tanks = {{.tank = open_tank(), .count = -1}}, .sump_UA = 18_W_K, .sump_room = 60_degF, .gains = {}};
  CHECK(contains(message_of<InvalidInput>([&] { system_balance(system, water, room); }), "count of tanks"));
  system.sump_UA = from_si<ThermalConductance>(-1.0);
  CHECK(contains(message_of<InvalidInput>([&] { system_balance(system, water, room); }), "sump UA"));
  CHECK(contains(message_of<InvalidInput>([&] { tank_balance(open_tank(), water, room).loss("roof"); }), "roof"));
}
