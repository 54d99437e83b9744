#include "theca/thermal/transient.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "support/near.hpp"
#include "theca/require.hpp"
#include "theca/thermal/cool_down.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {
constexpr double C = 2.0e6, UA = 60.0;  // J/K, W/K: a time constant of 9.3 h
constexpr double tau = C / UA;
// An error per step of 1e-9 K, some hundred steps, all damped: what is left is under this.
constexpr double kelvin_left = 1e-7;

Temperature kelvin(double t) { return from_si<Temperature>(t); }
Time seconds(double t) { return from_si<Time>(t); }
Power watts(double p) { return from_si<Power>(p); }

LoopNode node(double start_K, double capacity = C, double conductance = UA) {
  LoopNode n;
  n.name = "tank";
  n.capacity = from_si<HeatCapacity>(capacity);
  n.start = kelvin(start_K);
  n.UA = from_si<ThermalConductance>(conductance);
  return n;
}
LoopFlow flow(std::size_t from, std::size_t to, double exchange, std::string pump = "return pump") {
  LoopFlow f;
  f.from = from;
  f.to = to;
  f.exchange = from_si<ThermalConductance>(exchange);
  f.pump = std::move(pump);
  return f;
}
Incident incident(Failure failure, std::string name, const Time& from, const Time& to) {
  return {.failure = failure, .name = std::move(name), .from = from, .to = to};
}
TankLoop one_tank(double start_K, double surroundings_K) {
  TankLoop loop;
  loop.nodes = {node(start_K)};
  loop.courses = {{.mean = kelvin(surroundings_K)}};
  return loop;
}
double end_of(const LoopRun& r, std::size_t n = 0) { return si(r.temperatures.back()[n]); }

// Two racks of unlike tanks on a sump in a room that is heated, with lights, a chiller and a bad week.
TankLoop farm() {
  TankLoop loop;
  for (int i = 0; i < 6; ++i) loop.nodes.push_back(node(298.0 + 0.1 * i, 1.5e6 + 3e5 * i, 25.0 + 5.0 * i));
  loop.nodes.push_back(node(298.5, 8e5, 10.0));   // sump, 6
  loop.nodes.push_back(node(294.0, 3e6, 120.0));  // room, 7
  for (std::size_t i = 0; i < 7; ++i) {
    loop.nodes[i].in_room = 7;
    loop.nodes[i].share_to_room = 0.4;
  }
  for (std::size_t i = 0; i < 6; ++i) {
    loop.flows.push_back(flow(6, i, 900.0 + 100.0 * double(i)));
    loop.units.push_back(heater_unit("heater", i, watts(150.0), 25.5_degC, from_si<TemperatureDifference>(0.4)));
  }
  loop.units.push_back(heater_unit("room heater", 7, watts(2500.0), 21_degC, from_si<TemperatureDifference>(1.0)));
  loop.units.push_back(chiller_unit("chiller", 6, watts(1200.0), 26.2_degC, from_si<TemperatureDifference>(0.3), 3.0));
  loop.units.back().warms = 7;
  for (std::size_t i = 0; i < 6; ++i)
    loop.gains.push_back({.name = "lights",
                          .node = i,
                          .heat = watts(120.0),
                          .electricity = watts(300.0),
                          .hours = DailyHours{.from = 9_h, .length = 10_h}});
  loop.gains.push_back({.name = "lights to the room",
                        .node = 7,
                        .heat = watts(1080.0),
                        .hours = DailyHours{.from = 9_h, .length = 10_h}});
  loop.courses = {{.mean = 5_degC,
                   .swings = {{.amplitude = from_si<TemperatureDifference>(6.0), .period = 24_h, .warmest = 15_h}}}};
  loop.incidents = {incident(Failure::power_cut, "", 40_h, 46_h), incident(Failure::stuck_on, "chiller", 70_h, 75_h),
                    incident(Failure::off, "return pump", 90_h, 93_h), incident(Failure::off, "heater", 100_h, 104_h)};
  return loop;
}
}  // namespace

TEST_CASE("a tank left to itself cools by Newton's law [closed form], and hours to a limit follow its logarithm") {
  const LoopRun r = run_loop(one_tank(299.0, 290.0), {0_h, 1_h, 6_h, 48_h},
                             {{0, kelvin(296.0)}, {0, kelvin(289.0)}, {0, kelvin(299.0)}});
  for (std::size_t i = 0; i < r.times.size(); ++i)
    CHECK(within(si(r.temperatures[i][0]), kernel::exponential_cooling(299.0, 290.0, UA, C, si(r.times[i])),
                 kelvin_left));
  REQUIRE(r.reached[0]);
  CHECK(within(si(*r.reached[0]), tau * std::log(9.0 / 6.0), 1e-3));
  CHECK_FALSE(r.reached[1]);
  CHECK(si(*r.reached[2]) == 0.0);
  CHECK(near(si(r.lost[0]), -si(r.stored[0]), 1e-12));
}

TEST_CASE("a thermostat cycles with the times of the closed form") {
  // on: T -> room + P/UA, off: T -> room, between 298.0 and 298.4
  TankLoop loop = one_tank(298.4, 290.0);
  loop.units = {heater_unit("heater", 0, watts(900.0), kelvin(298.2), from_si<TemperatureDifference>(0.4))};
  const LoopRun r = run_loop(loop, {48_h});
  const double cooling = tau * std::log(8.4 / 8.0), heating = tau * std::log((15.0 - 8.0) / (15.0 - 8.4));
  REQUIRE(r.switchings.size() >= 20);
  double at = 0.0;
  for (std::size_t i = 0; i < 20; ++i) {
    at += i % 2 == 0 ? cooling : heating;
    CHECK(r.switchings[i].on == (i % 2 == 0));
    CHECK(within(si(r.switchings[i].time), at, 1e-3));
  }
  CHECK(within(si(r.lowest[0]), 298.0, kelvin_left));
  CHECK(within(si(r.highest[0]), 298.4, kelvin_left));
}

TEST_CASE("a tank follows a daily swing, damped and late [closed form of the first-order lag]") {
  TankLoop loop = one_tank(295.0, 295.0);
  loop.courses[0].swings = {{.amplitude = from_si<TemperatureDifference>(5.0), .period = 24_h, .warmest = 15_h}};
  const double w = 2.0 * std::numbers::pi / 86400.0, phase = std::atan(w * tau),
               damped = 5.0 / std::hypot(1.0, w * tau);
  const auto steady = [&](double t) { return damped * std::cos(w * (t - 54000.0) - phase); };
  for (const Time& t : {10_h, 100_h, 400_h}) {
    const double expected = 295.0 + steady(si(t)) - steady(0.0) * std::exp(-si(t) / tau);
    CHECK(within(end_of(run_loop(loop, {t})), expected, kelvin_left));
  }
}

TEST_CASE("a course of points is linear between them, comes again, and a tank follows its ramps [closed form]") {
  Course course;
  course.points = {{6_h, kelvin(290.0)}, {12_h, kelvin(300.0)}};
  course.repeats_after = 24_h;
  CHECK(within(si(temperature_at(course, 9_h)), 295.0, 1e-9));
  CHECK(within(si(temperature_at(course, 21_h)), 295.0, 1e-9));  // 18 h from 300 to 290 over midnight
  CHECK(within(si(temperature_at(course, 0_h)), 290.0 + 10.0 * 6.0 / 18.0, 1e-9));
  CHECK(within(si(temperature_at(course, 249_h)), 295.0, 1e-9));
  TankLoop loop = one_tank(290.0, 0.0);
  loop.courses[0].points = {{0_h, kelvin(290.0)}, {10_h, kelvin(300.0)}, {20_h, kelvin(300.0)}};
  // behind a ramp of slope s: T = s (t - tau + tau exp(-t/tau)); then an exponential to 300 K
  const double s = 10.0 / 36000.0, ramp = s * (36000.0 - tau + tau * std::exp(-36000.0 / tau));
  const LoopRun r = run_loop(loop, {10_h, 20_h});
  CHECK(within(si(r.temperatures[0][0]), 290.0 + ramp, kelvin_left));
  CHECK(within(si(r.temperatures[1][0]), 300.0 + (ramp - 10.0) * std::exp(-36000.0 / tau), kelvin_left));
}

TEST_CASE("tank and sump even out with the time constant of both [closed form], and a one-way round does the same") {
  TankLoop loop;
  loop.nodes = {node(300.0, 2e6, 0.0), node(296.0, 1e6, 0.0)};
  loop.courses = {{.mean = kelvin(290.0)}};
  loop.flows = {flow(0, 1, 500.0)};
  const double mean = (2.0 * 300.0 + 296.0) / 3.0, rate = 500.0 / 2e6 + 500.0 / 1e6;
  const LoopRun r = run_loop(loop, {0.5_h});
  CHECK(within(end_of(r, 0), mean + (300.0 - mean) * std::exp(-rate * 1800.0), kelvin_left));
  CHECK(within(end_of(r, 1), mean + (296.0 - mean) * std::exp(-rate * 1800.0), kelvin_left));
  LoopFlow there = flow(0, 1, 500.0), back = flow(1, 0, 500.0);
  there.returns = back.returns = false;
  loop.flows = {there, back};
  CHECK(end_of(run_loop(loop, {0.5_h}), 0) == end_of(r, 0));
  loop.flows = {there};
  CHECK(contains(message_of<InvalidInput>([&] { run_loop(loop, {1_h}); }), "flows out"));
}

TEST_CASE("a temperature that touches its limit between two steps is seen") {
  // the peak of the damped swing passes the chiller's contact by a millionth of a kelvin, for less than a minute
  TankLoop loop = one_tank(295.0, 295.0);
  loop.courses[0].swings = {{.amplitude = from_si<TemperatureDifference>(5.0), .period = 24_h, .warmest = 15_h}};
  const double peak = si(run_loop(loop, {24_h}).highest[0]);
  loop.units = {
      chiller_unit("chiller", 0, watts(100.0), kelvin(peak - 1e-6 - 0.25), from_si<TemperatureDifference>(0.5), 3.0)};
  CHECK(run_loop(loop, {24_h}).switchings.size() == 2);
  loop.units = {
      chiller_unit("chiller", 0, watts(100.0), kelvin(peak + 1e-6 - 0.25), from_si<TemperatureDifference>(0.5), 3.0)};
  CHECK(run_loop(loop, {24_h}).switchings.empty());
}

TEST_CASE("lights by the clock, a heater stuck, dead, and a power cut: each at its time [closed form]") {
  const double start = 295.0, room = 295.0;
  TankLoop loop = one_tank(start, room);
  loop.gains = {{.name = "lights",
                 .node = 0,
                 .heat = watts(300.0),
                 .electricity = watts(900.0),
                 .hours = DailyHours{.from = 20_h, .length = 8_h}}};  // over midnight
  LoopRun r = run_loop(loop, {48_h});
  CHECK(near(si(r.gains[0].running), 4 * 3600.0 + 8 * 3600.0 + 4 * 3600.0, 1e-12));
  CHECK(near(si(r.gains[0].electricity), 900.0 * 16 * 3600.0, 1e-12));

  loop.gains.clear();
  loop.units = {heater_unit("heater", 0, watts(600.0), kelvin(295.5), from_si<TemperatureDifference>(0.4))};
  loop.incidents = {incident(Failure::stuck_on, "heater", 1_h, 5_h)};
  loop.units[0].on_at = kelvin(290.0);  // never asks
  r = run_loop(loop, {3_h, 5_h, 9_h});
  const auto rising = [&](double t) { return room + 10.0 * (1.0 - std::exp(-t / tau)); };
  CHECK(within(si(r.temperatures[0][0]), rising(7200.0), kelvin_left));
  CHECK(within(si(r.temperatures[1][0]), rising(14400.0), kelvin_left));
  CHECK(within(si(r.temperatures[2][0]), room + (rising(14400.0) - room) * std::exp(-14400.0 / tau), kelvin_left));
  CHECK(near(si(r.units[0].heat), 600.0 * 14400.0, 1e-12));

  loop.incidents.push_back(incident(Failure::power_cut, "", 1_h, 6_h));  // a stuck heater needs power too
  CHECK(si(run_loop(loop, {9_h}).units[0].heat) == 0.0);
  loop.units[0].backed_up = true;
  CHECK(near(si(run_loop(loop, {9_h}).units[0].heat), 600.0 * 14400.0, 1e-12));
  loop.incidents = {incident(Failure::off, "heater", 0_h, 9_h)};
  loop.units[0] = heater_unit("heater", 0, watts(600.0), kelvin(299.0), from_si<TemperatureDifference>(0.4));
  r = run_loop(loop, {9_h});
  CHECK(si(r.units[0].heat) == 0.0);
  CHECK(end_of(r) == 295.0);
}

TEST_CASE("energy is conserved to 1e-9 over a bad fortnight, and electricity is power times time") {
  const LoopRun r = run_loop(farm(), {336_h});
  double turned_over = 0.0;
  for (const LoopEnergy& e : r.units) turned_over += std::abs(si(e.heat));
  for (const LoopEnergy& e : r.gains) turned_over += std::abs(si(e.heat));
  CHECK(std::abs(si(r.imbalance)) < 1e-9 * turned_over);
  CHECK(r.switchings.size() > 100);
  const LoopEnergy& chiller = r.units.back();
  CHECK(near(si(chiller.electricity), -si(chiller.heat) / 3.0, 1e-12));
  CHECK(si(chiller.running) >= 4.99 * 3600.0);  // while stuck
}

TEST_CASE("the same input gives the same bits, and the times asked change nothing") {
  const LoopRun a = run_loop(farm(), {200_h}), b = run_loop(farm(), {200_h}),
                c = run_loop(farm(), {1_h, 77.7_h, 200_h});
  CHECK(a.temperatures.back() == b.temperatures.back());
  CHECK(a.temperatures.back() == c.temperatures.back());
  REQUIRE(a.switchings.size() == c.switchings.size());
  for (std::size_t i = 0; i < a.switchings.size(); ++i) CHECK(a.switchings[i].time == c.switchings[i].time);
}

TEST_CASE("equal tanks swap places without a trace; unlike tanks in another order run the same course") {
  TankLoop equal = farm();
  for (std::size_t i = 1; i < 6; ++i) {
    equal.nodes[i] = equal.nodes[0];
    equal.flows[i].exchange = equal.flows[0].exchange;
  }
  const LoopRun r = run_loop(equal, {200_h});
  for (std::size_t i = 1; i < 6; ++i) CHECK(r.temperatures.back()[i] == r.temperatures.back()[0]);

  TankLoop turned = farm();
  std::swap(turned.nodes[1], turned.nodes[4]);
  std::swap(turned.flows[1].exchange, turned.flows[4].exchange);
  const LoopRun a = run_loop(farm(), {100_h}), b = run_loop(turned, {100_h});
  // sums in another order: last bits, carried on by every switching
  CHECK(within(end_of(a, 1), end_of(b, 4), 1e-6));
  CHECK(within(end_of(a, 6), end_of(b, 6), 1e-6));
  CHECK(a.switchings.size() == b.switchings.size());
}

TEST_CASE("no drift: a year of days ends where the steady swing says") {
  TankLoop loop = one_tank(295.0, 295.0);
  loop.courses[0].swings = {{.amplitude = from_si<TemperatureDifference>(5.0), .period = 24_h, .warmest = 15_h}};
  const double w = 2.0 * std::numbers::pi / 86400.0;
  const double end = 365.0 * 86400.0;
  CHECK(within(end_of(run_loop(loop, {seconds(end)})),
               295.0 + 5.0 / std::hypot(1.0, w * tau) * std::cos(w * (end - 54000.0) - std::atan(w * tau)),
               kelvin_left));
}

TEST_CASE("a real tank in a power cut: hours to a limit as time_to_reach has them") {
  TankSurfaces tank{.name = "A", .water_length = 2.4_m, .water_width = 0.74_m, .inside_film = 30_W_m2K};
  const AbsoluteSalinity salinity = absolute_salinity(35_psu);
  const thermal::Room cold{.air = {.temperature = 10_degC, .humidity = 50_rh}, .surroundings = 10_degC};
  const auto loss = loss_of({.tanks = {{.tank = tank, .count = 1}}}, salinity, cold);
  TankLoop loop = one_tank(298.0, 283.15);
  loop.nodes[0].UA = 0_W_K;
  loop.nodes[0].loss = [&](const Temperature& water, const Temperature&) { return loss(water); };
  const LoopRun r = run_loop(loop, {12_h}, {{0, kelvin(295.0)}});
  const StandingWater standing{.capacity = from_si<HeatCapacity>(C), .start = kelvin(298.0), .loss = loss};
  REQUIRE(r.reached[0]);
  CHECK(near(si(*r.reached[0]), si(*time_to_reach(standing, kelvin(295.0))), 1e-7));
  CHECK(within(end_of(r), si(temperature_after(standing, 12_h)), 1e-6));
}

TEST_CASE("trap: a year from annual means finds no heating in a room that freezes for months") {
  // 26 degC water in surroundings of 26 +- 12 K over the year: the mean says nothing to heat, nothing to chill
  TankLoop loop = one_tank(si(26_degC), si(26_degC));
  loop.units = {heater_unit("heater", 0, watts(2000.0), 26_degC, from_si<TemperatureDifference>(0.5)),
                chiller_unit("chiller", 0, watts(2000.0), 27_degC, from_si<TemperatureDifference>(0.5), 3.0)};
  const Time year = 365.0 * units::day;
  const LoopRun means = run_loop(loop, {year});
  CHECK(si(means.units[0].heat) == 0.0);
  loop.courses[0].swings = {{.amplitude = from_si<TemperatureDifference>(12.0), .period = year, .warmest = 0.5 * year}};
  const LoopRun seasons = run_loop(loop, {year});
  // Degrees below 26 over half a year: amplitude x year / pi. The water stays within 0.25 K of its set point.
  CHECK(near(si(seasons.units[0].heat), UA * 12.0 * si(year) / std::numbers::pi, 0.04));
  CHECK(si(seasons.units[1].heat) < -0.8 * si(seasons.units[0].heat));
}

TEST_CASE("a tank loop refuses impossible input by name") {
  const auto with = [](auto change) {
    TankLoop loop = farm();
    change(loop);
    return message_of<InvalidInput>([&] { run_loop(loop, {1_h}); });
  };
  CHECK(contains(with([](TankLoop& l) { l.nodes.clear(); }), "nodes"));
  CHECK(contains(with([](TankLoop& l) { l.nodes[2].capacity = from_si<HeatCapacity>(0.0); }), "heat capacity"));
  CHECK(contains(with([](TankLoop& l) { l.nodes[2].UA = from_si<ThermalConductance>(-1.0); }), "UA"));
  CHECK(contains(with([](TankLoop& l) { l.nodes[7].course = 1; }), "course"));
  CHECK(contains(with([](TankLoop& l) { l.nodes[2].in_room = 2; }), "another node"));
  CHECK(contains(with([](TankLoop& l) { l.flows[0].to = 8; }), "to of a flow"));
  CHECK(contains(with([](TankLoop& l) { l.units[0].off_at = l.units[0].on_at; }), "off_at"));
  CHECK(contains(with([](TankLoop& l) { l.units[0].warms = 7; }), "chiller alone"));
  CHECK(contains(with([](TankLoop& l) { l.gains[0].hours->length = 24_h; }), "below 24 h"));
  CHECK(contains(with([](TankLoop& l) { l.incidents[1].name = "lights"; }), "that of a unit"));
  CHECK(contains(with([](TankLoop& l) { l.incidents[2].name = "nobody"; }), "nobody"));
  CHECK(contains(with([](TankLoop& l) { l.incidents[0].to = l.incidents[0].from; }), "to of an incident"));
  CHECK(contains(with([](TankLoop& l) { l.courses[0].swings[0].period = 0_s; }), "period"));
  CHECK(contains(with([](TankLoop& l) { l.courses[0].points = {{0_s, kelvin(290.0)}}; }), "past the last point"));
  CHECK(contains(with([](TankLoop& l) {
                   l.nodes[3].loss = [](const Temperature&, const Temperature&) { return watts(std::nan("")); };
                 }),
                 "loss of tank"));
  CHECK(contains(message_of<InvalidInput>([] { run_loop(farm(), {}); }), "times"));
  CHECK(contains(message_of<InvalidInput>([] { run_loop(farm(), {2_h, 1_h}); }), "time"));
  CHECK(contains(message_of<InvalidInput>([] { run_loop(farm(), {1_h}, {{9, kelvin(290.0)}}); }), "node of a limit"));
}
