// Faults in a batch that runs day by day, against the integrator of tank loops under the same incidents.
#include "../../src/thermal/batch_runner.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <vector>

#include "support/near.hpp"
#include "theca/thermal.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::near;
using theca::test::within;

namespace {

namespace batch = theca::thermal::detail;
constexpr double hour = 3600.0, day = 86400.0;

Batch two_tanks() {
  Batch b;
  TankSurfaces tank{.name = "open tank",
                    .water_length = 240_cm,
                    .water_width = 74_cm,
                    .inside_film = 100_W_m2K,
                    .base = from_si<Area>(1.776),
                    .base_U = 1.5_W_m2K,
                    .evaporation_activity = 0.65};
  b.types = {tank, {.name = "sump", .base = 4_m2, .base_U = 1_W_m2K}};
  b.rooms = {{.name = "hall", .air = {20_degC}, .humidity = {55_rh}, .air_speed = 10_cm_s}};
  BatchSystems& s = b.systems;
  s.room = s.sump_room = {0};
  s.sump_type = {1};
  s.sump_water = {200_L};
  s.sump_start = {25_degC};
  s.gain = {150_W};
  s.heater = {2_kW};
  s.chiller = {900_W};
  s.heater_set_point = {25_degC};
  s.chiller_set_point = {celsius(25.8)};
  s.spread = {0.4_K};
  s.lights_from = {9_h};
  s.lights_length = {10_h};
  for (int i = 0; i < 2; ++i) {
    b.tanks.system.push_back(0);
    b.tanks.type.push_back(0);
    b.tanks.water.push_back(i == 0 ? 620_L : 500_L);
    b.tanks.turnover.push_back(2400_L_h);
    b.tanks.light.push_back(i == 0 ? 900_W : 300_W);
    b.tanks.start.push_back(25_degC);
  }
  b.duration = 3_d;
  b.water_low = 16_degC;
  b.water_high = 31_degC;
  b.cold_limit = 24_degC;
  b.warm_limit = 27_degC;
  b.table_bound = from_si<TemperatureDifference>(1e-3);
  return b;
}

// The same as nodes: tank, tank, sump.
TankLoop as_loop(const Batch& b) {
  TankLoop loop;
  loop.courses = {{.mean = b.rooms[0].air[0]}};
  const Room room{.air = {.temperature = b.rooms[0].air[0], .humidity = b.rooms[0].humidity[0]},
                  .surroundings = b.rooms[0].air[0],
                  .air_speed = b.rooms[0].air_speed};
  const Water water{.temperature = 25_degC, .salinity = b.salinity};
  // tank_balance itself takes ten times as long; batch_test.cpp holds the batch to it.
  const LossRange range{.water_low = b.water_low,
                        .water_high = b.water_high,
                        .room_low = b.rooms[0].air[0],
                        .room_high = b.rooms[0].air[0],
                        .humidity_low = b.rooms[0].humidity[0],
                        .humidity_high = b.rooms[0].humidity[0]};
  const std::array tables{loss_table(b.types[0], b.salinity, room, range, b.table_bound),
                          loss_table(b.types[1], b.salinity, room, range, b.table_bound)};
  for (std::size_t i = 0; i < 3; ++i) {
    const Volume volume = i < 2 ? b.tanks.water[i] : b.systems.sump_water[0];
    LoopNode node{.name = "node", .capacity = water_heat_capacity(volume, water), .start = 25_degC};
    node.loss = [table = tables[i < 2 ? 0 : 1], room](const Temperature& t, const Temperature&) {
      return table.loss(t, room);
    };
    loop.nodes.push_back(node);
  }
  for (std::size_t i = 0; i < 2; ++i) {
    const double per_volume = si(b.tanks.turnover[i]) / si(b.tanks.water[i]);
    loop.flows.push_back({.from = 2,
                          .to = i,
                          .exchange = from_si<ThermalConductance>(si(loop.nodes[i].capacity) * per_volume),
                          .pump = "pump"});
    loop.gains.push_back({.name = "light",
                          .node = i,
                          .heat = b.tanks.light[i],
                          .hours = DailyHours{.from = b.systems.lights_from[0], .length = b.systems.lights_length[0]}});
  }
  loop.gains.push_back({.name = "pump", .node = 2, .heat = b.systems.gain[0]});
  loop.units = {
      heater_unit("heater", 2, b.systems.heater[0], b.systems.heater_set_point[0], b.systems.spread[0]),
      chiller_unit("chiller", 2, b.systems.chiller[0], b.systems.chiller_set_point[0], b.systems.spread[0], 3.0)};
  return loop;
}

struct Difference {
  double tanks = 0.0, sump = 0.0;
};

// Largest difference at three midnights, of tanks and sump, with something out of order from half past two in the
// afternoon to three the next morning.
Difference largest_difference(const batch::Faults& faults, const std::vector<Incident>& incidents) {
  const double from = 14.5 * hour, to = day + 3.0 * hour;
  const Batch b = two_tanks();
  TankLoop loop = as_loop(b);
  loop.incidents = incidents;
  for (Incident& i : loop.incidents) {
    i.from = from_si<Time>(from);
    i.to = from_si<Time>(to);
  }
  const LoopRun real = run_loop(loop, {1_d, 2_d, 3_d});

  batch::BatchRunner runner(prepare(b).plan, 0, 1, 100.0);
  const auto step_of = [](double time) { return std::lround(std::fmod(time, day) / 600.0); };
  Difference worst;
  for (long n = 0; n < 3; ++n) {
    std::vector<batch::FaultChange> changes;
    if (n == 0) changes = {{.system = 0, .step = step_of(from), .faults = faults}};
    if (n == 1) changes = {{.system = 0, .step = step_of(to), .faults = {}}};
    runner.run(n, changes);
    // Slow exchange first: the larger tank, the smaller one, the sump, as in the loop.
    const batch::BatchMidnight now = runner.midnight();
    for (std::size_t i = 0; i < 3; ++i) {
      double& off = i < 2 ? worst.tanks : worst.sump;
      off = std::max(off, std::abs(now.temperature[i] - in_celsius(real.temperatures[std::size_t(n)][i])));
    }
  }
  return worst;
}

}  // namespace

TEST_CASE("A batch with faults follows the integrated loop with the same incidents, its tanks within 5 mK") {
  struct Case {
    batch::Faults faults;
    std::vector<Incident> incidents;
  };
  const Incident heater{.failure = Failure::off, .name = "heater"}, pump{.failure = Failure::off, .name = "pump"};
  const std::vector<Case> cases{
      {{}, {}},
      {{.heater_off = true}, {heater}},
      {{.heater_stuck_on = true}, {{.failure = Failure::stuck_on, .name = "heater"}}},
      {{.chiller_off = true}, {{.failure = Failure::off, .name = "chiller"}}},
      {{.pump_off = true}, {pump}},
      {{.no_power = true}, {{.failure = Failure::power_cut}}},
      {{.heater_off = true, .pump_off = true}, {heater, pump}},
  };
  for (std::size_t i = 0; i < cases.size(); ++i) {
    CAPTURE(i);
    const Difference d = largest_difference(cases[i].faults, cases[i].incidents);
    // 5 mK is what the batch itself keeps to the physics. The heater moves the sump by 2.4 mK a second: its own
    // temperature shows that after a night of failure thermostats switch up to some 4 s earlier or later.
    CHECK(d.tanks < 5e-3);
    CHECK(d.sump < 1.2e-2);
    if (i > 0) CHECK(largest_difference(cases[i].faults, {}).tanks > 0.1);  // not because nothing happens
  }
}

TEST_CASE("A heater that sticks is cut out by another thermostat, of its own spread") {
  Batch b = two_tanks();
  b.systems.lights_length = {0_h};
  batch::BatchRunner runner(prepare(b).plan, 0, 1, 27.0);
  const std::vector<batch::FaultChange> stuck{
      {.system = 0, .step = 0, .faults = {.heater_stuck_on = true, .chiller_off = true}}};
  runner.run(0, stuck);
  const batch::BatchDay& later = runner.run(1, {});
  const std::size_t sump = 2;
  CHECK(within(later.highest[sump], 27.0, 1e-9));
  CHECK(within(later.lowest[sump], 26.6, 1e-9));
}

TEST_CASE("A batch day by day is the batch, and the same bits taken up at any midnight") {
  const Batch b = two_tanks();
  const BatchResult whole = run_batch(prepare(b));
  batch::BatchRunner runner(prepare(b).plan, 0, 1, 100.0);
  double heater_time = 0.0;
  for (long n = 0; n < 3; ++n) {
    heater_time += runner.run(n, {}).heater_time[0];
    const batch::BatchMidnight now = runner.midnight();
    runner = batch::BatchRunner(prepare(b).plan, 0, 1, 100.0);
    runner.take_up(now);
  }
  CHECK(celsius(runner.midnight().temperature[0]) == whole.end[0]);
  CHECK(celsius(runner.midnight().temperature[2]) == whole.sump_end[0]);
  CHECK(near(si(b.systems.heater[0]) * heater_time, si(whole.heated[0]), 1e-12));
}
