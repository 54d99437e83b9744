#include "theca/thermal/sizing.hpp"

#include <doctest/doctest.h>

#include "support/near.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {
// Heat leaves by a plain conductance: 100 W/K to the sump's room, so that everything can be done by hand.
DesignDay day(Temperature outside, Power gain) {
  return {.system = {.sump_UA = 100_W_K, .sump_room = outside, .gains = {{"pump", gain}}},
          .room = {.air = {.temperature = 21_degC, .humidity = 50_rh}, .surroundings = 21_degC}};
}
const UnitCriteria heaters{.set_point = {.temperature = 26_degC, .salinity = absolute_salinity(35_psu)},
                           .lowest = 22_degC,
                           .highest = 29_degC,
                           .margin = 0.2,
                           .sizes = {300_W, 500_W, 1000_W, 2000_W}};
const DesignDay cold = day(10_degC, 100_W), warm = day(25_degC, 200_W);
}  // namespace

TEST_CASE("settled temperature: power over conductance over the room's, by hand; outside 0 to 40 degC there is none") {
  const AbsoluteSalinity s = heaters.set_point.salinity;
  const std::optional<Temperature> t = settled_temperature(cold.system, s, cold.room, 1500_W);
  REQUIRE(t);
  CHECK(within(in_celsius(*t), 10.0 + 16.0, 1e-9));
  CHECK_FALSE(settled_temperature(cold.system, s, cold.room, 5_kW));
  CHECK_FALSE(settled_temperature(cold.system, s, cold.room, from_si<Power>(-5000.0)));
}

TEST_CASE("heaters: 1.5 kW needed, 1.8 kW with margin; one of 2 kW cooks when stuck, two of 1 kW too, 500 W do") {
  // Warm day: 200 W of gain over 100 W/K stand 2 K over 25 degC; a stuck unit adds its power over 100 W/K.
  const std::vector<UnitSplit> list = heater_splits(cold, warm, heaters);
  const auto split = [&](int units, double watts) {
    for (const UnitSplit& s : list)
      if (s.units == units && si(s.each) == watts) return s;
    FAIL("no such split");
    return UnitSplit{};
  };
  CHECK(near(si(list.front().need), 1500.0, 1e-12));
  const UnitSplit one = split(1, 2000.0);
  CHECK(one.covers);
  CHECK_FALSE(one.bears_stuck);
  CHECK_FALSE(one.one_stuck);  // 47 degC
  CHECK_FALSE(one.bears_dead);
  CHECK(within(in_celsius(*one.one_dead), 11.0, 1e-9));
  const UnitSplit two = split(2, 1000.0);
  CHECK(two.covers);
  CHECK(within(in_celsius(*two.one_stuck), 37.0, 1e-9));
  CHECK(within(in_celsius(*two.one_dead), 21.0, 1e-9));
  const UnitSplit four = split(4, 500.0);
  CHECK(four.covers);
  CHECK(four.bears_dead);
  CHECK(*four.one_dead == 26_degC);
  CHECK(within(in_celsius(*four.one_stuck), 32.0, 1e-9));
  CHECK_FALSE(four.bears_stuck);  // 32 degC on the warm day
  const UnitSplit six = split(6, 300.0);
  CHECK(six.covers);
  CHECK(six.bears_dead);
  CHECK(within(in_celsius(*six.one_stuck), 30.0, 1e-9));
  CHECK_FALSE(fewest_units(list));  // none of these: a smaller unit or a chiller is called for
}

TEST_CASE("heaters: with room up to 33 degC the fewest units that meet all are four of 500 W") {
  UnitCriteria wide = heaters;
  wide.highest = 33_degC;
  const std::optional<UnitSplit> best = fewest_units(heater_splits(cold, warm, wide));
  REQUIRE(best);
  CHECK(best->units == 4);
  CHECK(si(best->each) == 500.0);
  CHECK(si(best->installed) == 2000.0);
}

TEST_CASE("heaters: a unit stuck on a day that needs it more does no harm, the others hold the set point") {
  const DesignDay mild = day(15_degC, 0_W);  // 1.1 kW needed
  for (const UnitSplit& s : heater_splits(cold, mild, heaters))
    if (si(s.each) == 500.0 && s.units >= 3) CHECK(*s.one_stuck == 26_degC);
}

TEST_CASE("chillers: one stuck on the cold day is held by the heaters, or chills by what they lack") {
  const DesignDay hot = day(30_degC, 1000_W);  // 1.4 kW to take out at 26 degC
  UnitCriteria c = heaters;
  c.sizes = {1000_W, 2000_W};
  c.most_units = 2;
  const std::vector<UnitSplit> helped = chiller_splits(hot, cold, 4_kW, c), alone = chiller_splits(hot, cold, 2_kW, c);
  for (const UnitSplit& s : helped) CHECK(*s.one_stuck == 26_degC);
  for (const UnitSplit& s : alone) {
    CHECK(near(si(s.need), 1400.0, 1e-12));
    CHECK(s.covers == (si(s.installed) >= 1680.0));
    if (s.units == 1 && si(s.each) == 2000.0) {
      CHECK(within(in_celsius(*s.one_stuck), 11.0, 1e-9));  // 10 + (100 + 2000 - 2000)/100
      CHECK_FALSE(s.bears_stuck);
      CHECK(within(in_celsius(*s.one_dead), 40.0, 1e-9));  // 30 + 1000/100
      CHECK_FALSE(s.bears_dead);
    }
    if (s.units == 2 && si(s.each) == 1000.0)
      CHECK(within(in_celsius(*s.one_dead), 30.0, 1e-9));  // 30 + (1000 - 1000)/100
  }
}

TEST_CASE("unit split refuses impossible criteria by name") {
  const auto with = [](auto change) {
    UnitCriteria c = heaters;
    change(c);
    return message_of<InvalidInput>([&] { heater_splits(cold, warm, c); });
  };
  CHECK(contains(with([](UnitCriteria& c) { c.sizes.clear(); }), "sizes"));
  CHECK(contains(with([](UnitCriteria& c) { c.sizes = {0_W}; }), "size of a unit"));
  CHECK(contains(with([](UnitCriteria& c) { c.lowest = 30_degC; }), "lowest"));
  CHECK(contains(with([](UnitCriteria& c) { c.highest = 20_degC; }), "highest"));
  CHECK(contains(with([](UnitCriteria& c) { c.margin = -0.1; }), "margin"));
  CHECK(contains(with([](UnitCriteria& c) { c.most_units = 0; }), "most units"));
  CHECK(
      contains(message_of<InvalidInput>([] { chiller_splits(warm, cold, from_si<Power>(-1.0), heaters); }), "heaters"));
}
