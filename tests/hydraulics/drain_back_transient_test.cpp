// Power off and on against time: closed forms, the static drain-back as the end, and conservation.
#include "theca/hydraulics/drain_back_transient.hpp"

#include <cmath>

#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
const OverflowingTank plain{.surface = 1.2 * units::square_metre,
                            .weir_crest = 1.40_m,
                            .weir = {.crest_length = 0.3_m, .end_contractions = 0},
                            .inflow = 1.0 * units::litre_per_second,
                            .siphon = std::nullopt,
                            .count = 4};
const OverflowingTank siphoning{
    .surface = 0.8 * units::square_metre,
    .weir_crest = 1.40_m,
    .weir = {.crest_length = 0.2_m, .end_contractions = 2},
    .inflow = 0.5 * units::litre_per_second,
    .siphon = BackSiphon{.bore = 25.0 * units::millimetre, .total_K = 4.0, .breaks_at = 1.37_m},
    .count = 2};
const ReceivingSump sump{.surface = 1.0 * units::square_metre,
                         .running_level = 0.30_m,
                         .pipes = 60.0 * units::litre,
                         .pipes_empty_in = 20.0 * units::second};
const std::vector<Time> hours_after{0.0 * units::second, 10.0 * units::second, 1.0 * units::minute,
                                    10.0 * units::minute, 100.0 * units::hour};

double water_in(const std::vector<OverflowingTank>& tanks, const DrainBackMoment& m) {
  double v = si(sump.surface) * si(m.sump_level);
  for (std::size_t i = 0; i < tanks.size(); ++i) v += tanks[i].count * si(tanks[i].surface) * si(m.tank_levels[i]);
  return v;
}
}  // namespace

TEST_CASE("drain-back course: a weir head without contractions runs down as 1/(1 + t/T)^2 [closed form]") {
  const double h0 = si(running_level(plain)) - 1.40;
  const double T = 2.0 * 1.2 / (1.84 * 0.3 * std::sqrt(h0));
  const DrainBackCourse c = drain_back_course({plain}, sump, hours_after);
  for (const DrainBackMoment& m : c.moments) {
    CAPTURE(si(m.time));
    const double f = 1.0 + si(m.time) / T;
    CHECK(test::within(si(m.tank_levels[0]) - 1.40, h0 / (f * f), 1e-8));
  }
}

TEST_CASE("drain-back course: a siphon alone empties its tank to the break as an orifice does [closed form]") {
  OverflowingTank t = siphoning;
  t.inflow = VolumeFlow();
  t.count = 1;
  ReceivingSump wide = sump;
  wide.surface = 1e9 * units::square_metre;  // its level stays
  wide.pipes = Volume();
  const double a = 3.14159265358979323846 / 4.0 * 0.025 * 0.025;
  const double to_break = 2.0 * 0.8 / (a * std::sqrt(2.0 * 9.80665 / 4.0)) * (std::sqrt(1.10) - std::sqrt(1.07));
  const DrainBackCourse c = drain_back_course({t}, wide,
                                              {0.5 * to_break * units::second, 0.999 * to_break * units::second,
                                               1.001 * to_break * units::second, 1.0 * units::hour});
  CHECK(si(c.moments[1].tank_levels[0]) > 1.37);
  CHECK(test::within(si(c.moments[2].tank_levels[0]), 1.37, 1e-8));
  CHECK(test::within(si(c.moments[3].tank_levels[0]), 1.37, 1e-8));
  const double s = std::sqrt(1.10) - 0.5 * (std::sqrt(1.10) - std::sqrt(1.07));
  CHECK(test::within(si(c.moments[0].tank_levels[0]), 0.30 + s * s, 1e-8));
}

TEST_CASE("drain-back course: it ends where the static drain-back says, from below, and loses no water") {
  const std::vector<OverflowingTank> tanks{plain, siphoning};
  const DrainBackCourse c = drain_back_course(tanks, sump, hours_after);
  const DrainBack end = drain_back({{plain.surface, running_level(plain), plain.weir_crest, plain.count},
                                    {siphoning.surface, running_level(siphoning), 1.37_m, siphoning.count}},
                                   sump.pipes);
  const double level = si(sump_level_after(end, sump.surface, sump.running_level));
  // After 100 h the weir head has fallen as (T/t)^2 to below a nanometre.
  CHECK(test::within(si(c.highest_sump_level), level, 1e-7));
  CHECK(si(c.highest_sump_level) <= level + 1e-8);
  double last = 0.0;
  for (const DrainBackMoment& m : c.moments) {
    CHECK(si(m.sump_level) > last);
    last = si(m.sump_level);
    const double pipes = 0.060 * std::min(1.0, si(m.time) / 20.0);
    CHECK(near(water_in(tanks, m) - pipes, water_in(tanks, c.moments[0]), 1e-9));
  }
}

TEST_CASE("restart: the sump falls from its drained level back to its running level, lower with a surge") {
  const std::vector<OverflowingTank> tanks{plain, siphoning};
  const DrainBackCourse c = restart_course(tanks, sump, hours_after);
  CHECK(test::within(c.moments.back().sump_level, sump.running_level, from_si<Length>(1e-7)));
  CHECK(test::within(c.lowest_sump_level, sump.running_level, from_si<Length>(1e-7)));
  CHECK(test::within(c.highest_sump_level, drain_back_course(tanks, sump, hours_after).highest_sump_level,
                     from_si<Length>(1e-7)));
  const DrainBackCourse surged = restart_course(tanks, sump, hours_after, 1.3);
  // The extra weir heads stand in the tanks.
  double extra = 0.0;
  for (const OverflowingTank& t : tanks)
    extra += t.count * si(t.surface) * (si(weir_head(t.weir, 1.3 * t.inflow)) - si(weir_head(t.weir, t.inflow)));
  CHECK(test::within(si(surged.lowest_sump_level), 0.30 - extra, 1e-7));
}

TEST_CASE("restart: the sump's lowest level is where the course of levels ends [the integrated course]") {
  for (const double surge : {1.0, 1.25, 1.5}) {
    const DrainBackCourse course = restart_course({plain, siphoning}, sump, hours_after, surge);
    const Length level = sump_level_at_restart({plain, siphoning}, sump.surface, sump.running_level, surge);
    CHECK(test::within(si(level), si(course.lowest_sump_level), 1e-6));
  }
  // A hundredth of the sump's surface makes a hundred times the fall, and may want more water than there is.
  CHECK(sump_level_at_restart({plain}, 0.01 * sump.surface, sump.running_level, 1.5) < Length());
  CHECK(contains(message_of<InvalidInput>([] { sump_level_at_restart({}, 1_m2, 0.3_m); }), "number of tanks"));
  CHECK(contains(message_of<InvalidInput>([] { sump_level_at_restart({plain}, Area(), 0.3_m); }), "sump surface"));
  CHECK(
      contains(message_of<InvalidInput>([] { sump_level_at_restart({plain}, sump.surface, -1_m); }), "running level"));
  CHECK(contains(message_of<InvalidInput>([] { sump_level_at_restart({plain}, sump.surface, 1_m, 1.6); }), "surge"));
}

TEST_CASE("restart: the least running level of the sump is that which the surge just draws down to the intake") {
  // Without contractions the head goes as Q^(2/3): h0 = (Q/(1.84 L))^(2/3), 4 tanks of 1.2 m2 over 1 m2 [by hand].
  const double h0 = std::pow(0.001 / (1.84 * 0.3), 2.0 / 3.0);
  CHECK(near(si(least_sump_running_level({plain}, sump.surface, 0.2_m, 1.3)),
             0.2 + 4.8 * h0 * (std::pow(1.3, 2.0 / 3.0) - 1.0), 1e-12));
  CHECK(near(least_sump_running_level({plain}, sump.surface, 0.2_m, 1.0), 0.2_m, 1e-15));
  ReceivingSump tight = sump;
  const std::vector<OverflowingTank> tanks{plain, siphoning};
  tight.running_level = least_sump_running_level(tanks, sump.surface, 0.15_m, 1.4);
  CHECK(test::within(restart_course(tanks, tight, hours_after, 1.4).lowest_sump_level, 0.15_m, from_si<Length>(1e-7)));
  CHECK(contains(message_of<InvalidInput>([] { least_sump_running_level({}, 1_m2, 0_m, 1.0); }), "number of tanks"));
  CHECK(contains(message_of<InvalidInput>([] { least_sump_running_level({plain}, 0_m2, 0_m, 1.0); }), "sump surface"));
  CHECK(contains(message_of<InvalidInput>([] { least_sump_running_level({plain}, 1_m2, -1_m, 1.0); }), "least level"));
  CHECK(contains(message_of<InvalidInput>([] { least_sump_running_level({plain}, 1_m2, 0_m, 1.6); }), "surge"));
}

TEST_CASE("drain-back course: impossible input is named") {
  const auto tank_with = [](auto change) {
    OverflowingTank t = siphoning;
    change(t);
    return message_of<InvalidInput>([&] { drain_back_course({t}, sump, hours_after); });
  };
  CHECK(contains(tank_with([](OverflowingTank& t) { t.surface = Area(); }), "surface"));
  CHECK(contains(tank_with([](OverflowingTank& t) { t.weir_crest = -1.0 * units::metre; }), "weir crest"));
  CHECK(contains(tank_with([](OverflowingTank& t) { t.inflow = -1.0 * units::gpm; }), "inflow"));
  CHECK(contains(tank_with([](OverflowingTank& t) { t.count = 0; }), "count"));
  CHECK(contains(tank_with([](OverflowingTank& t) { t.siphon->bore = Length(); }), "siphon bore"));
  CHECK(contains(tank_with([](OverflowingTank& t) { t.siphon->total_K = 0.5; }), "total K"));
  CHECK(contains(tank_with([](OverflowingTank& t) { t.siphon->breaks_at = 0.2_m; }), "sump level after drain-back"));
  const auto sump_with = [](auto change) {
    ReceivingSump s = sump;
    change(s);
    return message_of<InvalidInput>([&] { restart_course({plain}, s, hours_after); });
  };
  CHECK(contains(sump_with([](ReceivingSump& s) { s.surface = Area(); }), "sump surface"));
  CHECK(contains(sump_with([](ReceivingSump& s) { s.pipes = -1.0 * units::litre; }), "pipes"));
  CHECK(contains(sump_with([](ReceivingSump& s) { s.pipes_empty_in = Time(); }), "pipes empty"));
  CHECK(contains(message_of<InvalidInput>([] { drain_back_course({}, sump, hours_after); }), "number of tanks"));
  CHECK(contains(message_of<InvalidInput>([] {
                   drain_back_course({plain}, sump, {2.0 * units::second, 1.0 * units::second});
                 }),
                 "time"));
  CHECK(contains(message_of<InvalidInput>([] { restart_course({plain}, sump, hours_after, 2.0); }), "surge"));
}
