// Blocked drain: level, time and volume against balances and fine steps.
#include "theca/hydraulics/blocked_drain.hpp"

#include <cmath>

#include "support/near.hpp"
#include "theca/hydraulics/checks.hpp"
#include "theca/hydraulics/standpipe.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
const BlockedTank tank{.inflow = 1.0 * units::litre_per_second,
                       .surface = 1.5 * units::square_metre,
                       .running_level = 0.50_m,
                       .tank_rim = 0.60_m,
                       .sump_reserve = 250.0 * units::litre};
const EmergencyDrain wide{.bore = 2.067_in, .rim = 0.52_m, .highest_level = 0.58_m};
const EmergencyDrain narrow{.bore = 1.049_in, .rim = 0.52_m, .highest_level = 0.58_m};
}  // namespace

TEST_CASE("blocked drain: without another one the tank runs over and the floor gets the rest of the sump [by hand]") {
  const BlockedDrainOutcome o = blocked_drain(tank, std::nullopt);
  CHECK(o.overflows);
  CHECK(near(si(o.held), 0.150, 1e-12));
  CHECK(near(si(o.on_floor), 0.100, 1e-12));
  CHECK(near(si(*o.time_to_overflow), 150.0, 1e-12));
  CHECK(near(si(*o.time_to_dry), 250.0, 1e-12));
}

TEST_CASE("blocked drain: an emergency drain that copes holds the level where it takes the whole flow") {
  const BlockedDrainOutcome o = blocked_drain(tank, wide);
  CHECK_FALSE(o.overflows);
  CHECK_FALSE(o.time_to_overflow.has_value());
  CHECK(near(emergency_drain_flow(wide, o.final_level), tank.inflow, 1e-9));
  CHECK(si(o.on_floor) == 0.0);
}

TEST_CASE("blocked drain: one that does not cope delays the flood and returns what it takes [fine Euler steps]") {
  const BlockedDrainOutcome o = blocked_drain(tank, narrow);
  REQUIRE(o.overflows);
  double h = 0.5, t = 0.0;
  const double dt = 0.01;
  while (h < 0.6) {
    h += dt * (1e-3 - si(emergency_drain_flow(narrow, h * units::metre))) / 1.5;
    t += dt;
  }
  CHECK(near(si(*o.time_to_overflow), t, 1e-3));  // first order in the step, and one step at the end
  CHECK(si(*o.time_to_overflow) > 150.0);
  CHECK(near(si(o.on_floor), 0.100, 1e-12));  // the drain only delays
  CHECK(*o.time_to_dry > *o.time_to_overflow);
}

TEST_CASE("blocked drain: the level over the rim as a weir rises in the time of its integral [Simpson's rule]") {
  BlockedTank t = tank;
  t.running_level = 0.53_m;
  t.tank_rim = 0.535_m;  // wide drain: a weir at 10 to 15 mm over its rim
  t.inflow = 0.7 * units::litre_per_second;
  const BlockedDrainOutcome o = blocked_drain(t, wide);
  REQUIRE(o.overflows);
  const auto slowness = [&](double h) {
    return 1.5 / (0.7e-3 - 1.84 * 3.14159265358979323846 * 2.067 * 0.0254 * std::pow(h, 1.5));
  };
  double sum = slowness(0.01) + slowness(0.015);
  const int parts = 2000;
  for (int i = 1; i < parts; ++i) sum += (i % 2 ? 4.0 : 2.0) * slowness(0.01 + 0.005 * i / parts);
  CHECK(near(si(*o.time_to_overflow), sum * 0.005 / parts / 3.0, 1e-9));
}

TEST_CASE("blocked drain: every inflow below, at and just above what the emergency drain takes has an answer") {
  // Tank rims where the rim is a weir, an orifice, and where the pipe governs.
  for (const double rim_m : {0.53, 0.5400, 0.60})
    for (const EmergencyDrain& drain : {wide, narrow}) {
      BlockedTank t = tank;
      t.tank_rim = rim_m * units::metre;
      t.sump_reserve = 5000.0 * units::litre;
      const VolumeFlow capacity = emergency_drain_flow(drain, t.tank_rim);
      for (const double below : {0.5, 1e-3, 1e-9, 1e-15, 0.0}) {
        t.inflow = (1.0 - below) * capacity;
        const BlockedDrainOutcome o = blocked_drain(t, drain);
        CHECK_FALSE(o.overflows);
        CHECK(o.final_level <= t.tank_rim * (1.0 + 1e-15));
      }
      double last = 0.0;
      for (const double above : {1.0, 1e-1, 1e-3, 1e-6, 1e-9, 1e-12, 1e-15, 3e-16}) {
        t.inflow = (1.0 + above) * capacity;
        const BlockedDrainOutcome o = blocked_drain(t, drain);
        CAPTURE(above);
        REQUIRE(o.overflows);
        CHECK(si(*o.time_to_overflow) > last);  // infinite at the last, if never cannot be told
        last = si(*o.time_to_overflow);
        if (std::isinf(last)) break;
      }
    }
}

TEST_CASE("blocked drain: a sump that ends just short of the settling level runs dry late, or never") {
  BlockedTank t = tank;
  t.inflow = 0.3 * units::litre_per_second;
  t.sump_reserve = 5000.0 * units::litre;
  const double settles = si(blocked_drain(t, wide).final_level);
  double last = 0.0;
  for (const double short_by : {1e-3, 1e-6, 1e-9, 1e-12, 1e-15}) {
    t.sump_reserve = from_si<Volume>(1.5 * (settles - short_by - 0.50));
    const BlockedDrainOutcome o = blocked_drain(t, wide);
    CHECK_FALSE(o.overflows);
    if (!o.pump_runs_dry) continue;
    CHECK(si(*o.time_to_dry) >= last);
    last = si(*o.time_to_dry);
  }
}

TEST_CASE("blocked drain: a small sump runs dry before anything runs over") {
  BlockedTank small = tank;
  small.sump_reserve = 60.0 * units::litre;
  const BlockedDrainOutcome o = blocked_drain(small, std::nullopt);
  CHECK_FALSE(o.overflows);
  CHECK(o.pump_runs_dry);
  CHECK(near(o.final_level, 0.54_m, 1e-12));
  CHECK(near(si(*o.time_to_dry), 60.0, 1e-12));
  CHECK(si(o.on_floor) == 0.0);
}

TEST_CASE("blocked drain: the check fails where water reaches the floor and meets its criterion where none does") {
  CHECK(blocked_drain_check("T1", tank, wide).utilisation < 1.0);
  CHECK(blocked_drain_check("T1", tank, narrow).utilisation > 1.0);
  CHECK(contains(blocked_drain_check("T1", tank, wide).where, "the level settles at "));
  // 150 L of room at 1 L/s: 2.5 min; the rest of the sump follows, in gallons.
  const std::string where = blocked_drain_check("T1", tank, std::nullopt).where;
  CHECK(contains(where, "no emergency drain at work, over the rim after 2.5 min (150 s), then "));
  CHECK(contains(where, " gal ("));
  CHECK(contains(where, "on the floor, pump draws air after "));
}

TEST_CASE("blocked drain: impossible input is named") {
  const auto with = [](auto change) {
    BlockedTank t = tank;
    change(t);
    return message_of<InvalidInput>([&] { blocked_drain(t, std::nullopt); });
  };
  CHECK(contains(with([](BlockedTank& t) { t.inflow = VolumeFlow(); }), "inflow"));
  CHECK(contains(with([](BlockedTank& t) { t.surface = Area(); }), "surface"));
  CHECK(contains(with([](BlockedTank& t) { t.running_level = -1.0 * units::metre; }), "running level"));
  CHECK(contains(with([](BlockedTank& t) { t.tank_rim = 0.4_m; }), "tank rim"));
  CHECK(contains(with([](BlockedTank& t) { t.sump_reserve = -1.0 * units::litre; }), "sump reserve"));
  CHECK(contains(message_of<InvalidInput>([] { blocked_drain(tank, EmergencyDrain{}); }), "bore"));
}
