#include "theca/thermal/batch.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <cmath>
#include <numeric>
#include <thread>

#include "support/near.hpp"
#include "theca/thermal.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {

constexpr double hour = 3600.0, day = 86400.0;

TankSurfaces open_tank(double length, double width, double depth) {
  TankSurfaces tank{.name = "open tank",
                    .water_length = from_si<Length>(length),
                    .water_width = from_si<Length>(width),
                    .inside_film = 100_W_m2K,
                    .base = from_si<Area>(length * width),
                    .base_U = 1.5_W_m2K,
                    .evaporation_activity = 0.65};
  for (const double side : {length, length, width, width})
    tank.walls.push_back({.name = "wall",
                          .length = from_si<Length>(side),
                          .height = from_si<Length>(depth),
                          .layers = {{.thickness = 12_mm, .conductivity = 1.0_W_mK}}});
  return tank;
}

TankSurfaces covered_sump(double U_area) { return {.name = "sump", .base = from_si<Area>(U_area), .base_U = 1_W_m2K}; }

RoomSeries hall(double duration) {
  RoomSeries room{.name = "hall", .interval = 1_h, .air_speed = 10_cm_s};
  for (int i = 0; i <= static_cast<int>(std::ceil(duration / hour)); ++i) {
    const double clock = std::cos(2.0 * M_PI * (i - 15) / 24.0);
    room.air.push_back(celsius(20.0 + 3.0 * clock));
    room.surroundings.push_back(celsius(19.0 + 2.0 * clock));
    room.humidity.push_back(RelativeHumidity(0.6 - 0.05 * clock));
  }
  return room;
}

void add_system(Batch& batch, double sump_water, double heater, double chiller) {
  BatchSystems& s = batch.systems;
  s.room.push_back(0);
  s.sump_room.push_back(0);
  s.sump_type.push_back(static_cast<int>(batch.types.size()) - 1);
  s.sump_water.push_back(from_si<Volume>(sump_water));
  s.sump_start.push_back(25_degC);
  s.gain.push_back(100_W);
  s.heater.push_back(from_si<Power>(heater));
  s.chiller.push_back(from_si<Power>(chiller));
  s.heater_set_point.push_back(25_degC);
  s.chiller_set_point.push_back(celsius(25.8));
  s.spread.push_back(from_si<TemperatureDifference>(0.4));
  s.lights_from.push_back(from_si<Time>(9.25 * hour));  // in the middle of a step
  s.lights_length.push_back(10_h);
}

void add_tank(Batch& batch, int type, double water, double turns_per_hour, double light, double start = 25.0) {
  batch.tanks.system.push_back(static_cast<int>(batch.systems.room.size()) - 1);
  batch.tanks.type.push_back(type);
  batch.tanks.water.push_back(from_si<Volume>(water));
  batch.tanks.turnover.push_back(from_si<VolumeFlow>(turns_per_hour / hour * water));
  batch.tanks.light.push_back(from_si<Power>(light));
  batch.tanks.start.push_back(celsius(start));
}

// Three tanks of two types, unlike in water, light and turnover, on a sump of 30 s.
Batch small_farm(double days) {
  Batch batch;
  batch.types = {open_tank(2.4, 0.74, 0.36), open_tank(1.2, 0.6, 0.45), covered_sump(10.0)};
  batch.duration = from_si<Time>(days * day);
  batch.rooms = {hall(days * day)};
  batch.water_low = 18_degC;
  batch.water_high = 31_degC;
  batch.cold_limit = celsius(24.9);
  batch.warm_limit = celsius(25.4);
  add_system(batch, 0.05, 1500.0, 1200.0);
  add_tank(batch, 0, 0.62, 4.0, 1200.0);
  add_tank(batch, 1, 0.31, 6.0, 100.0, 24.5);
  add_tank(batch, 0, 0.58, 4.0, 400.0, 25.5);
  batch.traced = {0, 1, 2};
  return batch;
}

double capacity(const Batch& b, const Volume& water) {
  return si(water_heat_capacity(water, {.temperature = 25_degC, .salinity = b.salinity}));
}

double sum(const std::vector<Energy>& list) {
  return std::accumulate(list.begin(), list.end(), 0.0, [](double s, const Energy& e) { return s + si(e); });
}

// Heat given less heat lost less heat stored, over the heat lost.
double imbalance(const Batch& b, const BatchResult& r) {
  double stored = 0.0;
  for (std::size_t i = 0; i < r.tank.size(); ++i)
    stored += capacity(b, b.tanks.water[i]) * (si(r.end[i]) - si(b.tanks.start[i]));
  for (std::size_t i = 0; i < r.system.size(); ++i)
    stored += capacity(b, b.systems.sump_water[i]) * (si(r.sump_end[i]) - si(b.systems.sump_start[i]));
  const double lost = sum(r.lost) + sum(r.sump_lost);
  return (sum(r.lit) + sum(r.gained) + sum(r.heated) - sum(r.chilled) - lost - stored) / lost;
}

// The same farm by Dormand & Prince 5(4) of Boost.Odeint at 1e-7 K on tank_balance itself, thermostats by bisection of
// the dense output. Nothing of it is shared with the batch but the physics.
struct Reference {
  std::vector<std::array<double, 4>> course;  // tanks, sump; degC, at the steps of the batch
  double heated = 0.0, chilled = 0.0;
  int heater_starts = 0, chiller_starts = 0;
};
Reference integrated(const Batch& b) {
  using State = std::array<double, 4>;
  const BatchSystems& s = b.systems;
  const RoomSeries& series = b.rooms[0];
  bool heating = false, chilling = false, lit = false;
  std::array<double, 4> heat_capacity{};
  for (std::size_t i = 0; i < 3; ++i) heat_capacity[i] = capacity(b, b.tanks.water[i]);
  heat_capacity[3] = capacity(b, s.sump_water[0]);

  const auto slope = [&](const State& y, State& dy, double t) {
    const auto n = static_cast<std::size_t>(t / hour);
    const std::size_t k = std::min(n, series.air.size() - 2);
    const double way = t / hour - double(k);
    const auto mean = [&](double from, double to) { return from + way * (to - from); };
    const Room room{
        .air = {.temperature = from_si<Temperature>(mean(si(series.air[k]), si(series.air[k + 1]))),
                .humidity = RelativeHumidity(mean(series.humidity[k].ratio, series.humidity[k + 1].ratio))},
        .surroundings = from_si<Temperature>(mean(si(series.surroundings[k]), si(series.surroundings[k + 1]))),
        .air_speed = series.air_speed};
    const auto lost = [&](int type, double water) {
      return si(tank_balance(b.types[std::size_t(type)], {.temperature = celsius(water), .salinity = b.salinity}, room)
                    .total_loss);
    };
    double into_sump = si(s.gain[0]) + (heating ? si(s.heater[0]) : 0.0) - (chilling ? si(s.chiller[0]) : 0.0) -
                       lost(s.sump_type[0], y[3]);
    for (std::size_t i = 0; i < 3; ++i) {
      const double exchange = heat_capacity[i] * si(b.tanks.turnover[i]) / si(b.tanks.water[i]) * (y[i] - y[3]);
      into_sump += exchange;
      dy[i] = ((lit ? si(b.tanks.light[i]) : 0.0) - lost(b.tanks.type[i], y[i]) - exchange) / heat_capacity[i];
    }
    dy[3] = into_sump / heat_capacity[3];
  };

  const double half = 0.5 * si(s.spread[0]);
  const double heater_on = in_celsius(s.heater_set_point[0]) - half, heater_off = heater_on + 2.0 * half;
  const double chiller_off = in_celsius(s.chiller_set_point[0]) - half, chiller_on = chiller_off + 2.0 * half;
  // How far the sump is past what would switch something; the larger of both.
  const auto past = [&](double sump) {
    return std::max(heating ? sump - heater_off : heater_on - sump, chilling ? chiller_off - sump : sump - chiller_on);
  };

  auto stepper =
      boost::numeric::odeint::make_dense_output(1e-7, 0.0, boost::numeric::odeint::runge_kutta_dopri5<State>());
  State now{};
  for (std::size_t i = 0; i < 3; ++i) now[i] = in_celsius(b.tanks.start[i]);
  now[3] = in_celsius(s.sump_start[0]);
  Reference ref;
  ref.course.push_back(now);
  double t = 0.0;
  const double end = si(b.duration), step = si(b.step);
  // From one time at which something jumps to the next: steps, hours of the series, lights.
  while (t < end - 1e-6) {
    const double clock = std::fmod(t, day), on = si(s.lights_from[0]), off = on + si(s.lights_length[0]);
    lit = clock >= on - 1e-6 && clock < off - 1e-6;
    double to = (std::floor(t / step + 1e-9) + 1.0) * step;
    for (const double edge : {on, off})
      if (clock < edge - 1e-6) to = std::min(to, t - clock + edge);
    while (t < to - 1e-9) {
      stepper.initialize(now, t, std::min(10.0, to - t));
      bool switched = false;
      while (!switched && stepper.current_time() < to) {
        stepper.do_step(slope);
        const double last = std::min(to, stepper.current_time());
        State at_last{};
        stepper.calc_state(last, at_last);
        if (past(at_last[3]) > 0.0) {
          double low = std::max(t, stepper.previous_time()), high = last;
          State y{};
          for (int i = 0; i < 60; ++i) {
            const double middle = 0.5 * (low + high);
            stepper.calc_state(middle, y);
            (past(y[3]) > 0.0 ? high : low) = middle;
          }
          stepper.calc_state(high, y);
          ref.heated += heating ? (high - t) * si(s.heater[0]) : 0.0;
          ref.chilled += chilling ? (high - t) * si(s.chiller[0]) : 0.0;
          t = high;
          now = y;
          switched = true;
          if (heating ? y[3] >= heater_off : y[3] <= heater_on) {
            heating = !heating;
            ref.heater_starts += heating ? 1 : 0;
          } else {
            chilling = !chilling;
            ref.chiller_starts += chilling ? 1 : 0;
          }
        }
      }
      if (switched) continue;
      stepper.calc_state(to, now);
      ref.heated += heating ? (to - t) * si(s.heater[0]) : 0.0;
      ref.chilled += chilling ? (to - t) * si(s.chiller[0]) : 0.0;
      t = to;
    }
    t = to;
    if (std::abs(t / step - std::round(t / step)) < 1e-9) ref.course.push_back(now);
  }
  return ref;
}

// Many unlike systems, for what must hold whatever they are.
Batch many(int systems, double days) {
  Batch batch = small_farm(days);
  batch.traced = {};
  batch.systems = {};
  batch.tanks = {};
  for (int s = 0; s < systems; ++s) {
    add_system(batch, 0.05 + 0.1 * s, 1500.0 + 300.0 * s, 600.0);
    for (int i = 0; i < 3 + s % 4; ++i)
      add_tank(batch, (i + s) % 2, 0.3 + 0.05 * i, 3.0 + (i % 3), 300.0 + 40.0 * ((i * 7 + s) % 5),
               24.5 + 0.2 * (i % 4));
  }
  return batch;
}

}  // namespace

TEST_CASE("A batch follows the integrated physics of a farm within 5 mK, its energies and its thermostats") {
  const Batch batch = small_farm(4.0);
  const Reference real = integrated(batch);
  const PreparedBatch prepared = prepare(batch);
  const BatchResult r = run_batch(prepared);
  REQUIRE(r.courses.size() == 3);
  REQUIRE(r.courses[0].size() == real.course.size());
  double worst = 0.0;
  for (std::size_t n = 0; n < real.course.size(); ++n)
    for (std::size_t i = 0; i < 3; ++i)
      worst = std::max(worst, std::abs(in_celsius(r.courses[i][n]) - real.course[n][i]));
  MESSAGE("largest difference ", worst, " K; heater starts ", r.heater_starts[0], ", chiller starts ",
          r.chiller_starts[0], ", heated ", si(r.heated[0]) / real.heated - 1.0);
  CHECK(worst < 5e-3);
  CHECK(r.heater_starts[0] == real.heater_starts);
  CHECK(r.chiller_starts[0] == real.chiller_starts);
  CHECK(real.heater_starts > 10);
  CHECK(real.chiller_starts > 3);
  CHECK(near(si(r.heated[0]), real.heated, 1e-3));
  CHECK(near(si(r.chilled[0]), real.chilled, 1e-3));
}

TEST_CASE("A batch keeps heat to 1e-9 over a year, with sumps of half a minute and thermostats at work") {
  Batch batch = small_farm(365.0);
  batch.traced = {};
  const BatchResult r = run_batch(prepare(batch));
  CHECK(std::abs(imbalance(batch, r)) < 1e-9);
  CHECK(r.heater_starts[0] > 1000);
}

TEST_CASE("A system of a batch is the same bits whatever runs beside it and on whatever thread") {
  const Batch batch = many(7, 3.0);
  const PreparedBatch prepared = prepare(batch);
  const BatchResult whole = run_batch(prepared);
  std::array<BatchResult, 3> parts;
  std::vector<std::thread> threads;
  const std::array<std::pair<int, int>, 3> ranges{{{0, 1}, {1, 5}, {5, 7}}};
  for (std::size_t i = 0; i < 3; ++i)
    threads.emplace_back([&, i] { parts[i] = run_batch(prepared, ranges[i].first, ranges[i].second); });
  for (std::thread& t : threads) t.join();
  std::size_t tank = 0, system = 0;
  for (const BatchResult& p : parts) {
    for (std::size_t i = 0; i < p.tank.size(); ++i, ++tank) {
      REQUIRE(p.tank[i] == whole.tank[tank]);
      CHECK(si(p.mean[i]) == si(whole.mean[tank]));
      CHECK(si(p.end[i]) == si(whole.end[tank]));
      CHECK(si(p.lost[i]) == si(whole.lost[tank]));
      CHECK(si(p.evaporated[i]) == si(whole.evaporated[tank]));
    }
    for (std::size_t i = 0; i < p.system.size(); ++i, ++system) {
      REQUIRE(p.system[i] == whole.system[system]);
      CHECK(si(p.heated[i]) == si(whole.heated[system]));
      CHECK(p.heater_starts[i] == whole.heater_starts[system]);
      CHECK(si(p.sump_mean[i]) == si(whole.sump_mean[system]));
    }
  }
  CHECK(tank == whole.tank.size());
  CHECK(system == whole.system.size());
}

TEST_CASE("Equal tanks of a batch swap without a trace, and tanks may be listed in any order") {
  Batch batch = small_farm(2.0);
  add_tank(batch, 1, 0.31, 6.0, 100.0, 24.5);  // as tank 1
  const BatchResult r = run_batch(prepare(batch));
  CHECK(si(r.mean[1]) == si(r.mean[3]));
  CHECK(si(r.lost[1]) == si(r.lost[3]));

  Batch turned = batch;
  const auto turn = [](auto& list) { std::reverse(list.begin(), list.end()); };
  turn(turned.tanks.type);
  turn(turned.tanks.water);
  turn(turned.tanks.turnover);
  turn(turned.tanks.light);
  turn(turned.tanks.start);
  const BatchResult t = run_batch(prepare(turned));
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(within(si(t.mean[3 - i]), si(r.mean[i]), 1e-9));  // sums in another order
    CHECK(within(si(t.end[3 - i]), si(r.end[i]), 1e-9));
  }
}

TEST_CASE("A batch's error falls with the square of its step") {
  std::array<double, 3> end{};
  const std::array<double, 3> steps{1200.0, 600.0, 60.0};
  for (std::size_t i = 0; i < 3; ++i) {
    Batch batch = small_farm(1.0);
    batch.systems.heater[0] = batch.systems.chiller[0] = 0_W;  // switching times would hide it
    batch.step = from_si<Time>(steps[i]);
    batch.table_bound = from_si<TemperatureDifference>(1e-3);
    end[i] = in_celsius(run_batch(prepare(batch)).end[0]);
  }
  const double coarse = std::abs(end[0] - end[2]), fine = std::abs(end[1] - end[2]);
  CHECK(coarse < 5e-3);
  CHECK(coarse / fine > 3.0);
  CHECK(coarse / fine < 5.5);
}

TEST_CASE("A sump left alone cools by Newton's law, and one without difference stays") {
  Batch batch = small_farm(5.0);
  batch.tanks = {};
  batch.traced = {};
  batch.rooms = {{.name = "even", .air = {20_degC}, .humidity = {50_rh}, .air_speed = 10_cm_s}};
  batch.systems.gain = {0_W};
  batch.systems.heater = batch.systems.chiller = {0_W};
  batch.systems.sump_water = {1_m3};
  const BatchResult r = run_batch(prepare(batch));
  const double expected = kernel::exponential_cooling(25.0, 20.0, 10.0, capacity(batch, 1_m3), 5.0 * day);
  CHECK(within(in_celsius(r.sump_end[0]), expected, 1e-5));  // second order in a step of 1/700 of the time constant

  batch.systems.sump_start = {20_degC};
  CHECK(within(in_celsius(run_batch(prepare(batch)).sump_end[0]), 20.0, 1e-6));
}

TEST_CASE("However quick the sump, tanks and sump settle on their common mean and stay there") {
  for (const double turns : {0.5, 60.0, 3600.0}) {
    CAPTURE(turns);
    Batch batch = small_farm(10.0);
    batch.types = {covered_sump(0.0), covered_sump(0.0), covered_sump(0.0)};
    batch.tanks = {};
    batch.traced = {};
    add_tank(batch, 0, 0.5, turns, 0.0, 22.0);
    add_tank(batch, 0, 1.0, 2.0 * turns, 0.0, 28.0);
    batch.systems.gain = {0_W};
    batch.systems.heater = batch.systems.chiller = {0_W};
    const BatchResult r = run_batch(prepare(batch));
    const double mean = (0.5 * 22.0 + 1.0 * 28.0 + 0.05 * 25.0) / 1.55;
    for (const Temperature& t : r.end) CHECK(within(in_celsius(t), mean, 1e-9));
    CHECK(within(in_celsius(r.sump_end[0]), mean, 1e-9));
    for (std::size_t i = 0; i < 2; ++i) {
      CHECK(in_celsius(r.lowest[i]) >= 22.0 - 1e-9);
      CHECK(in_celsius(r.highest[i]) <= 28.0 + 1e-9);
    }
  }
}

TEST_CASE("Summaries are those of the course") {
  const Batch batch = small_farm(3.0);
  const BatchResult r = run_batch(prepare(batch));
  for (std::size_t i = 0; i < 3; ++i) {
    const std::vector<Temperature>& c = r.courses[i];
    REQUIRE(c.size() == 3 * 144 + 1);
    CHECK(si(*std::min_element(c.begin(), c.end())) == doctest::Approx(si(r.lowest[i])).epsilon(1e-12));
    CHECK(si(*std::max_element(c.begin(), c.end())) == doctest::Approx(si(r.highest[i])).epsilon(1e-12));
    CHECK(si(c.back()) == si(r.end[i]));
    double area = 0.0, cold = 0.0, warm = 0.0;
    const auto beyond = [](double a, double b) {  // share of a line from a to b above 0
      return a > 0.0 && b > 0.0 ? 1.0 : a <= 0.0 && b <= 0.0 ? 0.0 : std::max(a, b) / std::abs(a - b);
    };
    for (std::size_t n = 0; n + 1 < c.size(); ++n) {
      const double a = in_celsius(c[n]), b = in_celsius(c[n + 1]);
      area += 600.0 * 0.5 * (a + b);
      cold += 600.0 * beyond(24.9 - a, 24.9 - b);
      warm += 600.0 * beyond(a - 25.4, b - 25.4);
    }
    // The batch cuts two steps a day where the lights switch within them; the course has only whole ones.
    CHECK(within(in_celsius(r.mean[i]), area / si(batch.duration), 1e-3));
    CHECK(within(si(r.cold[i]), cold, 300.0));
    CHECK(within(si(r.warm[i]), warm, 300.0));
    CHECK(near(si(r.lit[i]), 3.0 * 10.0 * hour * si(batch.tanks.light[i]), 1e-12));
  }
  CHECK(si(r.warm[0]) > 0.0);
}

TEST_CASE("Water that leaves the range of the tables is refused, and so is a batch that does not fit together") {
  Batch cold = small_farm(30.0);
  cold.systems.heater = {0_W};
  cold.rooms = {{.name = "cold", .air = {10_degC}, .humidity = {60_rh}, .air_speed = 10_cm_s}};
  CHECK(contains(message_of<OutOfValidity>([&] { run_batch(prepare(cold)); }), "water of "));

  Batch b = small_farm(1.0);
  b.tanks.water.pop_back();
  CHECK(contains(message_of<InvalidInput>([&] { prepare(b); }), "tank water"));
  b = small_farm(1.0);
  b.tanks.type[1] = 3;
  CHECK_THROWS_AS(prepare(b), InvalidInput);
  b = small_farm(1.0);
  b.duration = from_si<Time>(1000.0);
  CHECK_THROWS_AS(prepare(b), InvalidInput);
  b = small_farm(1.0);
  b.duration = 2_d;
  CHECK(contains(message_of<InvalidInput>([&] { prepare(b); }), "room hall"));
  b = small_farm(1.0);
  b.systems.chiller_set_point[0] = celsius(25.3);
  CHECK(contains(message_of<InvalidInput>([&] { prepare(b); }), "chiller set point"));
  b = small_farm(1.0);
  b.tanks.water[0] = from_si<Volume>(0.002);  // 2 L under the surface of 600
  CHECK(contains(message_of<InvalidInput>([&] { prepare(b); }), "step"));
  const PreparedBatch prepared = prepare(small_farm(1.0));
  CHECK_THROWS_AS(run_batch(prepared, 0, 2), InvalidInput);
  CHECK_THROWS_AS(run_batch(prepared, -1, 1), InvalidInput);
  CHECK(run_batch(prepared, 1, 1).tank.empty());
  CHECK_THROWS_AS(run_batch(PreparedBatch{}), InvalidInput);
}
