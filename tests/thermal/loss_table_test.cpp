#include "theca/thermal/loss_table.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "support/near.hpp"
#include "theca/thermal.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::near;

namespace {

TemperatureDifference kelvins(double d) { return from_si<TemperatureDifference>(d); }

TankSurfaces open_tank() {
  TankSurfaces tank{.name = "open tank",
                    .water_length = 2.4_m,
                    .water_width = 0.74_m,
                    .inside_film = 100_W_m2K,
                    .base = 1.8_m2,
                    .base_U = 1.5_W_m2K};
  for (int side = 0; side < 4; ++side)
    tank.walls.push_back({.name = "wall",
                          .length = 1.6_m,
                          .height = 0.36_m,
                          .layers = {{.thickness = 12_mm, .conductivity = 1.0_W_mK}}});
  return tank;
}

TankSurfaces lidded_tank() {
  TankSurfaces tank = open_tank();
  tank.lid = Lid{.covered_share = 0.6, .gap = 5_cm, .layers = {{.thickness = 4_mm, .conductivity = 0.2_W_mK}}};
  return tank;
}

const AbsoluteSalinity salt(35.0);

Room draught(double speed_m_s) {
  return {.air = {.temperature = 22_degC, .humidity = 50_rh},
          .surroundings = 22_degC,
          .air_speed = from_si<Velocity>(speed_m_s)};
}

LossRange farm_hall() {
  return {.water_low = 18_degC,
          .water_high = 31_degC,
          .room_low = 15_degC,
          .room_high = 30_degC,
          .surroundings_low = kelvins(-3.0),
          .surroundings_high = kelvins(1.0),
          .humidity_low = 35_rh,
          .humidity_high = 85_rh};
}

// Van der Corput's sequence: even, and no knots of a table.
double between(double low, double high, int i, int base) {
  double f = 1.0, x = 0.0;
  for (; i > 0; i /= base) x += (f /= base) * (i % base);
  return low + (high - low) * x;
}

// Largest error of loss in W and of evaporation as its latent heat in W, at states spread evenly over the range.
double largest_error(const LossTable& table, const TankSurfaces& tank, Room room) {
  const LossRange& r = table.range;
  double worst = 0.0;
  for (int i = 1; i <= 500; ++i) {
    const auto water = from_si<Temperature>(between(si(r.water_low), si(r.water_high), i, 2));
    room.air.temperature = from_si<Temperature>(between(si(r.room_low), si(r.room_high), i, 3));
    room.surroundings = room.air.temperature + kelvins(between(si(r.surroundings_low), si(r.surroundings_high), i, 5));
    room.air.humidity = RelativeHumidity(between(r.humidity_low.ratio, r.humidity_high.ratio, i, 7));
    const HeatBalance real = tank_balance(tank, {.temperature = water, .salinity = salt}, room);
    constexpr double latent = 2.45e6;
    worst = std::max({worst, std::abs(si(table.loss(water, room)) - si(real.total_loss)),
                      latent * std::abs(si(table.evaporation(water, room)) - si(real.evaporation))});
  }
  return worst;
}

}  // namespace

TEST_CASE("A loss table keeps its bound against the balance at states it was not built or checked on") {
  for (const TankSurfaces& tank : {open_tank(), lidded_tank()})
    for (const double speed : {0.0, 0.1, 0.3}) {
      CAPTURE(tank.lid.has_value());
      CAPTURE(speed);
      const LossTable table = loss_table(tank, salt, draught(speed), farm_hall());
      CHECK(si(table.temperature_error) <= 5e-3);
      // The bound in W is that of 5 mK; a fifth more than was found at its own states, for these are others.
      CHECK(largest_error(table, tank, draught(speed)) <= 1.2 * 5e-3 / si(table.temperature_error) * si(table.error));
    }
}

TEST_CASE("A loss table follows the steps where a model of evaporation leaves its range") {
  LossRange range = farm_hall();
  range.humidity_low = 15_rh;
  range.room_high = 37_degC;
  const LossTable table = loss_table(open_tank(), salt, draught(0.1), range);
  CHECK(largest_error(table, open_tank(), draught(0.1)) <= 1.5 * si(table.error));
  Room room = draught(0.1);
  for (const double humidity : {0.2799, 0.28, 0.2801}) {
    room.air.humidity = RelativeHumidity(humidity);
    const Power real = tank_balance(open_tank(), {.temperature = 25_degC, .salinity = salt}, room).total_loss;
    CHECK(near(table.loss(25_degC, room), real, 1e-4));
  }
}

TEST_CASE("A loss table of a state that does not change holds its one state") {
  LossRange range = farm_hall();
  range.room_low = range.room_high = 22_degC;
  range.surroundings_low = range.surroundings_high = kelvins(0.0);
  range.humidity_low = range.humidity_high = 50_rh;
  const LossTable table = loss_table(open_tank(), salt, draught(0.1), range, kelvins(1e-3));
  const Power real = tank_balance(open_tank(), {.temperature = 26_degC, .salinity = salt}, draught(0.1)).total_loss;
  CHECK(near(table.loss(26_degC, draught(0.1)), real, 1e-4));
}

TEST_CASE("A covered sump known by its U alone has a table") {
  const TankSurfaces sump{.name = "sump", .base = 6_m2, .base_U = 3_W_m2K};
  const LossTable table = loss_table(sump, salt, draught(0.0), farm_hall());
  CHECK(near(si(table.loss(26_degC, draught(0.0))), 18.0 * 4.0, 1e-6));  // pieces are cubic in the fourth root
  CHECK(si(table.evaporation(26_degC, draught(0.0))) == 0.0);
}

TEST_CASE("A loss table refuses a bound it cannot meet and states it does not hold") {
  LossRange range = farm_hall();
  range.room_high = range.room_low;
  CHECK_THROWS_AS(loss_table(open_tank(), salt, draught(0.1), range, kelvins(1e-12)), NotConverged);
  CHECK_THROWS_AS(loss_table(open_tank(), salt, draught(0.1), farm_hall(), kelvins(0.0)), InvalidInput);
  range = farm_hall();
  range.water_low = 8_degC;
  CHECK_THROWS_AS(loss_table(open_tank(), salt, draught(0.1), range), InvalidInput);
  range = farm_hall();
  range.humidity_high = 30_rh;
  CHECK_THROWS_AS(loss_table(open_tank(), salt, draught(0.1), range), InvalidInput);
  const LossTable table = loss_table(open_tank(), salt, draught(0.1), farm_hall());
  CHECK_THROWS_AS(table.loss(32_degC, draught(0.1)), InvalidInput);
  Room room = draught(0.1);
  CHECK_THROWS_AS(LossTable{}.loss(25_degC, room), InvalidInput);
  room.surroundings = 26_degC;
  CHECK_THROWS_AS(table.evaporation(25_degC, room), InvalidInput);
}
