#include "theca/thermal/cool_down.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "support/near.hpp"
#include "theca/require.hpp"
#include "theca/seawater.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {
constexpr double capacity = 2.0e6, room = 294.15;

StandingWater with_loss(double start_K, std::function<double(double)> watts) {
  return {.capacity = from_si<HeatCapacity>(capacity),
          .start = from_si<Temperature>(start_K),
          .loss = [watts](const Temperature& t) { return from_si<Power>(watts(si(t))); }};
}
}  // namespace

TEST_CASE("cooling at constant UA [closed form, Newton's law of cooling]") {
  const double ua = 60.0;
  const StandingWater w = with_loss(299.0, [=](double t) { return ua * (t - room); });
  const std::vector<Temperature> course = temperature_course(w, {0_h, 1_h, 6_h, 10_h, 48_h});
  const double hours[] = {0, 1, 6, 10, 48};
  for (std::size_t i = 0; i < course.size(); ++i)
    CHECK(within(si(course[i]), kernel::exponential_cooling(299.0, room, ua, capacity, 3600.0 * hours[i]), 1e-6));
  // t = C/UA ln(dT0/dT)
  const auto reached = time_to_reach(w, from_si<Temperature>(296.0));
  REQUIRE(reached);
  CHECK(near(si(*reached), capacity / ua * std::log((299.0 - room) / (296.0 - room)), 1e-8));
}

TEST_CASE("cooling by natural convection, loss as dT^(5/4) [Bejan & Kraus 2003, Heat Transfer Handbook, eq. 3.286]") {
  // (T - T_r)/(T_0 - T_r) = (1 + n h_0 A t / C)^(-1/n), h = h_0 (dT/dT_0)^n, n = 1/4
  const double start = 299.15, conductance = 60.0, n = 0.25;
  const StandingWater w =
      with_loss(start, [=](double t) { return conductance * std::pow((t - room) / (start - room), n) * (t - room); });
  for (const double hours : {2.0, 10.0, 30.0}) {
    const double fraction = std::pow(1.0 + n * conductance * 3600.0 * hours / capacity, -1.0 / n);
    CHECK(within(si(temperature_after(w, hours * units::hour)), room + (start - room) * fraction, 1e-6));
  }
}

TEST_CASE("warming towards a hot room follows the same law") {
  const StandingWater w = with_loss(298.0, [](double t) { return 60.0 * (t - 303.0); });
  CHECK(
      within(si(temperature_after(w, 10_h)), kernel::exponential_cooling(298.0, 303.0, 60.0, capacity, 36000.0), 1e-6));
  CHECK(time_to_reach(w, from_si<Temperature>(301.0)).has_value());
}

TEST_CASE("a limit beyond the balance point, or the wrong way, is never reached") {
  const StandingWater w = with_loss(299.0, [](double t) { return 60.0 * (t - room); });
  CHECK_FALSE(time_to_reach(w, from_si<Temperature>(room)));
  CHECK_FALSE(time_to_reach(w, from_si<Temperature>(room - 1.0)));
  CHECK_FALSE(time_to_reach(w, from_si<Temperature>(300.0)));
  CHECK(si(*time_to_reach(w, from_si<Temperature>(299.0))) == 0.0);
  // a loss that turns its sign between start and limit and back again
  const StandingWater caught = with_loss(299.0, [](double t) { return (t - 297.0) * (t - 297.0) - 0.25; });
  CHECK_FALSE(time_to_reach(caught, from_si<Temperature>(295.0)));
}

TEST_CASE("time and temperature agree on a real tank, and a scaled loss would be wrong by degrees") {
  TankSurfaces tank{.name = "A",
                    .water_length = 2.4_m,
                    .water_width = 0.74_m,
                    .walls = {},
                    .inside_film = 30_W_m2K,
                    .base = 1.8_m2,
                    .base_U = 1.5_W_m2K};
  tank.walls.push_back({.name = "all round",
                        .length = 6.4_m,
                        .height = 14_in,
                        .layers = {{.thickness = 12_mm, .conductivity = 1.0_W_mK}}});
  const AbsoluteSalinity salinity = absolute_salinity(35_psu);
  const Water water{.temperature = 78_degF, .salinity = salinity};
  const Room cold{.air = {.temperature = 50_degF, .humidity = 50_rh}, .surroundings = 50_degF, .air_speed = 5_cm_s};
  const TankSystem system{.tanks = {{.tank = tank, .count = 1}}, .sump_UA = 0_W_K, .sump_room = 50_degF, .gains = {}};
  const StandingWater w{
      .capacity = water_heat_capacity(0.63_m3, water), .start = 78_degF, .loss = loss_of(system, salinity, cold)};
  const Temperature after = temperature_after(w, 10_h);
  CHECK(after < 74_degF);
  CHECK(after > 60_degF);
  CHECK(near(si(*time_to_reach(w, after)), 36000.0, 1e-5));

  // small explicit steps with the same balance, another method: first order, 1 min steps leave 0.01 K
  double t = si(78_degF);
  for (int i = 0; i < 600; ++i) t -= 60.0 * si(w.loss(from_si<Temperature>(t))) / si(w.capacity);
  CHECK(within(si(after), t, 0.01));

  // Loss taken once at 78 degF and scaled with the difference to the room leaves too warm a tank... or too cold: not
  // it.
  const double ua = si(w.loss(78_degF)) / (si(78_degF) - si(50_degF));
  const double scaled = kernel::exponential_cooling(si(78_degF), si(50_degF), ua, si(w.capacity), 36000.0);
  CHECK(std::abs(scaled - si(after)) > 0.2);
}

TEST_CASE("heat capacity of salt water is rho V cp") {
  const Water water{.temperature = 25_degC, .salinity = absolute_salinity(35_psu)};
  // EOS-80 1023.343 kg/m3 and 3993 J/kg/K at 25 degC, practical salinity 35
  CHECK(near(si(water_heat_capacity(1_m3, water)), 1023.343 * 3993.0, 0.002));
}

TEST_CASE("cool-down refuses impossible input by name") {
  const StandingWater good = with_loss(299.0, [](double t) { return 60.0 * (t - room); });
  const auto with = [&](auto change) {
    StandingWater w = good;
    change(w);
    return message_of<InvalidInput>([&] { temperature_after(w, 1_h); });
  };
  CHECK(contains(with([](StandingWater& w) { w.capacity = from_si<HeatCapacity>(0.0); }), "heat capacity"));
  CHECK(contains(with([](StandingWater& w) { w.start = from_si<Temperature>(-1.0); }), "start temperature"));
  CHECK(contains(with([](StandingWater& w) { w.loss = nullptr; }), "loss"));
  CHECK(contains(with([](StandingWater& w) {
                   w.loss = [](const Temperature&) { return from_si<Power>(std::numeric_limits<double>::quiet_NaN()); };
                 }),
                 "loss"));
  CHECK(contains(message_of<InvalidInput>([&] { temperature_after(good, from_si<Time>(-1.0)); }), "time"));
  CHECK(contains(message_of<InvalidInput>([&] { temperature_course(good, {2_h, 1_h}); }), "time"));
  CHECK(contains(message_of<InvalidInput>([&] { time_to_reach(good, from_si<Temperature>(0.0)); }), "limit"));
  CHECK(contains(message_of<InvalidInput>(
                     [&] { water_heat_capacity(0_m3, {.temperature = 25_degC, .salinity = AbsoluteSalinity(35.0)}); }),
                 "volume"));
}
