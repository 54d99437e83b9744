#include "theca/thermal/make_up.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "support/near.hpp"
#include "theca/seawater.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {
RunningSystem farm() {
  return {.water = 8_m3,
          .above = 0.5_m3,
          .below = 0.4_m3,
          .state = {.temperature = 78_degF, .salinity = AbsoluteSalinity(35.0)},
          .evaporation = 100_kg / 1_d};
}
double salt_of(const WaterDrift& d) {
  return si(d.water) * si(seawater::density(78_degF, d.salinity)) * d.salinity.mass_fraction();
}
const MassFlow valve = 600_kg / 1_d;
}  // namespace

TEST_CASE("make-up stopped: salt stays, water goes: 100 kg of 8185 kg a day are 35.43 g/kg [by hand]") {
  const WaterDrift d = make_up_stopped(farm(), 1_d);
  const double mass = 8.0 * si(seawater::density(78_degF, AbsoluteSalinity(35.0)));
  CHECK(near(d.salinity.grams_per_kg, 35.0 * mass / (mass - 100.0), 1e-12));
  CHECK(within(d.salinity.grams_per_kg, 35.43, 0.01));
  CHECK(near(salt_of(d), 0.035 * mass, 1e-12));
  CHECK(si(d.overflowed) == 0.0);
}

TEST_CASE("make-up stopped: the pump draws air when the volume it has is gone") {
  const std::optional<Time> dry = time_to_dry_pump(farm());
  REQUIRE(dry);
  CHECK(near(si(make_up_stopped(farm(), *dry).water), 7.6, 1e-9));
  CHECK(within(si(*dry) / 86400.0, 4.0, 0.05));  // 400 L of fresh water at 100 kg a day
  RunningSystem covered = farm();
  covered.evaporation = MassFlow();
  CHECK_FALSE(time_to_dry_pump(covered));
}

TEST_CASE("make-up stuck open: the level rises to the overflow, then the system thins like a stirred tank") {
  const std::optional<Time> full = time_to_overflow(farm(), valve);
  REQUIRE(full);
  CHECK(within(si(*full) / 86400.0, 1.0, 0.02));  // 500 L at 600 - 100 kg a day
  const WaterDrift at = make_up_stuck(farm(), valve, *full);
  CHECK(near(si(at.water), 8.5, 1e-9));
  CHECK(near(at.salinity.grams_per_kg, 35.0 * 8185.0 / (8185.0 + 500.0), 2e-3));  // masses to the kilogram or two
  const WaterDrift week = make_up_stuck(farm(), valve, *full + 7_d);
  CHECK(near(si(week.water), 8.5, 1e-12));
  // constant volume, salt S exp(-q t / M); M between that of fresh and of the water as it was: 2.5 %
  const double turnover = 500.0 * 7.0 / (8.5 * 1013.0);
  CHECK(near(week.salinity.grams_per_kg, at.salinity.grams_per_kg * std::exp(-turnover), 5e-3));
  CHECK(near(si(week.overflowed), 500.0 * 7.0 / 1013.0, 0.03));
}

TEST_CASE("make-up stuck open: small steps of Euler's method on salt and water come to the same salinity") {
  double mass = 8.0 * si(seawater::density(78_degF, AbsoluteSalinity(35.0))), salt = 0.035 * mass;
  const double step = 20.0, surplus = 500.0 / 86400.0;
  const double days = 10.0;
  for (long i = 0; i < long(days * 86400.0 / step); ++i) {
    mass += surplus * step;
    const double fraction = salt / mass;
    const double most = 8.5 * si(seawater::density(78_degF, AbsoluteSalinity(1000.0 * fraction)));
    if (mass > most) {
      salt -= (mass - most) * fraction;
      mass = most;
    }
  }
  const WaterDrift d = make_up_stuck(farm(), valve, days * units::day.size);
  CHECK(near(d.salinity.grams_per_kg, 1000.0 * salt / mass, 2e-5));  // Euler's own error at this step
}

TEST_CASE("make-up: the time to a salinity is the time at which it stands there, up and down") {
  const auto check = [](const MassFlow& flow, double limit) {
    const std::optional<Time> t = time_to_salinity(farm(), flow, AbsoluteSalinity(limit));
    REQUIRE(t);
    CHECK(near(make_up_stuck(farm(), flow, *t).salinity.grams_per_kg, limit, 1e-9));
  };
  check(MassFlow(), 36.0);
  check(MassFlow(), 40.0);
  check(valve, 34.0);
  check(valve, 30.0);
  check(50_kg / 1_d, 36.0);
  CHECK_FALSE(time_to_salinity(farm(), valve, AbsoluteSalinity(36.0)));
  CHECK_FALSE(time_to_salinity(farm(), MassFlow(), AbsoluteSalinity(34.0)));
  CHECK_FALSE(time_to_salinity(farm(), farm().evaporation, AbsoluteSalinity(34.0)));
}

TEST_CASE("make-up that covers evaporation exactly changes nothing") {
  const WaterDrift d = make_up_stuck(farm(), farm().evaporation, 1_year);
  CHECK(near(si(d.water), 8.0, 1e-12));
  CHECK(near(d.salinity.grams_per_kg, 35.0, 1e-12));
  CHECK_FALSE(time_to_overflow(farm(), farm().evaporation));
}

TEST_CASE("make-up refuses impossible input by name") {
  const auto with = [](auto change) {
    RunningSystem s = farm();
    change(s);
    return message_of<InvalidInput>([&] { make_up_stopped(s, 1_d); });
  };
  CHECK(contains(with([](RunningSystem& s) { s.water = 0_m3; }), "water"));
  CHECK(contains(with([](RunningSystem& s) { s.below = 9_m3; }), "below the running level"));
  CHECK(contains(with([](RunningSystem& s) { s.above = from_si<Volume>(-1.0); }), "above the running level"));
  CHECK(contains(with([](RunningSystem& s) { s.evaporation = from_si<MassFlow>(-1.0); }), "evaporation"));
  CHECK(contains(with([](RunningSystem& s) { s.state.salinity = AbsoluteSalinity(0.0); }), "salinity"));
  CHECK(contains(message_of<InvalidInput>([] { make_up_stopped(farm(), from_si<Time>(-1.0)); }), "time"));
  CHECK(contains(message_of<OutOfValidity>([] { make_up_stopped(farm(), 30_d); }), "42"));
  CHECK(contains(message_of<OutOfValidity>([] { make_up_stopped(farm(), 1_year); }), "42"));
}
