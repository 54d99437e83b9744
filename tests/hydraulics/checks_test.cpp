#include "theca/hydraulics/checks.hpp"

#include "demo.hpp"
#include "support/near.hpp"
#include "theca/hydraulics/intake.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
const auto water = 0.93e-6_m2_s;
const ManifoldFlow& drawn() {
  static const ManifoldFlow flow = solve(test::demo_manifold(3.068_in, 2.067_in), test::demo_pump(), water);
  return flow;
}
}  // namespace

TEST_CASE("checks: the fastest pipe and the branch furthest from the mean are named [reference flows, by hand]") {
  // 10918.4589 gph in 3.068 in: 10918.4589 x 231/3600 in3/s over 7.3927 in2, /12 = 7.898 ft/s; the branches: 919.6 gph
  // in 1.049 in, 5.69 ft/s.
  const Check v = pipe_velocity_check(drawn(), 5_ft_s);
  CHECK(v.where == "main");
  CHECK(near(v.demand.shown_value, 7.898, 0.0005 / 7.898 + 1e-4));
  CHECK(v.demand.shown_unit == "ft/s");
  CHECK(v.verdict == Verdict::fails);
  CHECK(contains(v.caution, "floods"));
  // Mean 779.89 gph; the extremes 919.61 (+17.9 %) and 667.39 (-14.4 %).
  const Check b = branch_balance_check(drawn(), 0.10);
  CHECK(b.where == "branch 1 of header 3, above the mean");
  CHECK(near(b.demand.shown_value, 17.92, 0.005 / 17.92));
  CHECK(b.verdict == Verdict::fails);
  const Check cured =
      branch_balance_check(solve(test::demo_manifold(3.068_in, 3.068_in), test::demo_pump(), water), 0.10);
  CHECK(cured.verdict == Verdict::holds);
}

TEST_CASE("checks: least flows ask demand against what is there") {
  const Check low = tank_flow_check("T10", 700_gph, 667_gph);
  CHECK(low.verdict == Verdict::fails);
  CHECK(near(low.utilisation, 700.0 / 667.0, 1e-13));
  CHECK(tank_flow_check("T10", 650_gph, 667_gph).verdict == Verdict::marginal);
  CHECK(tank_flow_check("T10", 500_gph, 667_gph).verdict == Verdict::holds);
  const Check t = turnover_check("sump", 1000_gph, 250_gal, 3_per_h);
  CHECK(t.verdict == Verdict::holds);
  CHECK(near(t.capacity.shown_value, 4.0, 1e-13));
  for (const Check& c : {low, t}) CHECK(contains(c.caution, "residual-current"));
  const Check p = pump_margin_check("return", test::demo_pump(), 9000_gph, 18_ft);
  CHECK(near(p.utilisation, 18.0 / 19.7, 1e-13));
  CHECK(contains(p.caution, "protection"));
}

TEST_CASE("checks: drain-back against spare volume") {
  const Check full = drain_back_check({.from_tanks = 90_gal, .from_pipes = 20_gal, .total = 110_gal}, 100_gal);
  CHECK(full.verdict == Verdict::fails);
  CHECK(near(full.utilisation, 1.1, 1e-13));
  CHECK(contains(full.caution, "check valves"));
  CHECK(contains(full.caution, "drown"));
}

TEST_CASE("checks: standpipe at a quarter and a third of its section [27.8 r^(5/3) d^(8/3), by hand]") {
  // d = 1.61 in: 27.8 x 0.25^(5/3) x 1.61^(8/3) = 9.824 gpm = 589 gph; at a third 952 gph.
  CHECK(standpipe_check("T11", 700_gph, 1.61_in, 0.25).verdict == Verdict::fails);
  const Check third = standpipe_check("T11", 700_gph, 1.61_in, 1.0 / 3.0);
  CHECK(third.verdict == Verdict::holds);
  CHECK(near(third.capacity.shown_value, 952.0, 0.5 / 952));
  CHECK(contains(third.question, "no more than 33.3 % full"));
  CHECK(contains(third.where, "T11, 33.3 %"));
  CHECK(contains(third.source, "below 3 in are an extrapolation"));
}

TEST_CASE("checks: emergency drain by the smaller of rim and pipe, and none at all fails") {
  const EmergencyDrain drain{.bore = 1.61_in, .rim = 12.2_in, .highest_level = 13.45_in};
  const Check a = emergency_drain_check("T01", 700_gph, drain);
  // 0.6 (pi/4) 0.040894^2 sqrt(2 g 0.03175) = 6.219e-4 m3/s = 591 gph
  CHECK(near(a.capacity.shown_value, 591.5, 0.001));
  CHECK(contains(a.where, "orifice"));
  CHECK(a.verdict == Verdict::fails);
  EmergencyDrain high = drain;
  high.highest_level = 24_in;
  CHECK(contains(emergency_drain_check("T01", 700_gph, high).where, "pipe governs"));
  high.highest_level = 12.5_in;
  CHECK(contains(emergency_drain_check("T01", 700_gph, high).where, "weir"));
  const Check none = emergency_drain_check("T11", 700_gph, std::nullopt);
  CHECK(none.verdict == Verdict::fails);
  CHECK(contains(none.where, "no emergency drain"));
  high.highest_level = 12_in;
  CHECK(contains(message_of<InvalidInput>([&] { emergency_drain_check("T01", 1_gph, high); }), "highest level"));
}

TEST_CASE("checks: gravity main, intake, water velocity") {
  const GravityMain main{.bore = 6.065_in, .slope = 1.0 / 48.0, .manning_n = 0.009};
  const Check g = gravity_main_check("gravity main", 10918_gph, main, 0.5);
  CHECK(g.verdict == Verdict::holds);
  CHECK(near(g.capacity.si_value, 0.5 * si(full_bore_flow(main)), 1e-12));
  const Check s = submergence_check("return pump", 3.068_in, 10918_gph, 10_in);
  CHECK(s.verdict == Verdict::fails);
  CHECK(near(s.demand.si_value, si(critical_submergence(3.068_in, 10918_gph)), 1e-14));
  // 8 in bell: v = 0.354 m/s, Fr = 0.251, S = 12.6 in
  CHECK(submergence_check("return pump", 8_in, 10918_gph, 12_in).verdict == Verdict::fails);
  CHECK(submergence_check("return pump", 8_in, 10918_gph, 13_in).verdict == Verdict::marginal);
  CHECK(submergence_check("return pump", 8_in, 10918_gph, 15_in).verdict == Verdict::marginal);
  CHECK(submergence_check("return pump", 8_in, 10918_gph, 17_in).verdict == Verdict::holds);
  const Check slow = water_velocity_check("T01", 8_cm_s, 10_cm_s, 25_cm_s);
  CHECK(slow.verdict == Verdict::fails);
  CHECK(contains(slow.where, "least"));
  const Check fast = water_velocity_check("T01", 30_cm_s, 10_cm_s, 25_cm_s);
  CHECK(fast.verdict == Verdict::fails);
  CHECK(contains(fast.where, "most"));
  CHECK(water_velocity_check("T01", 16_cm_s, 10_cm_s, 25_cm_s).verdict == Verdict::holds);
  const GyreTank loop{.length = 96_in, .width = 30_in, .depth = 14_in, .drag_area = {}};
  const Jet jet{.flow = 1150_gph, .outlet_diameter = 2_in};
  const Velocity speed = gyre_speed(loop, jet, 2);
  const Check round = gyre_check("T01", loop, jet, 2, 1.2 * speed, 5.0 * speed);
  CHECK(round.verdict == Verdict::fails);
  CHECK(near(round.utilisation, 1.2, 1e-9));
  // Known to half: only twice and more of the least is sure.
  CHECK(gyre_check("T01", loop, jet, 2, speed / 1.2, 5.0 * speed).verdict == Verdict::marginal);
}

TEST_CASE("checks: bad input is refused by name") {
  CHECK(contains(message_of<InvalidInput>([] { pipe_velocity_check("a", -1_m_s, 1_m_s); }), "velocity"));
  CHECK(contains(message_of<InvalidInput>([] { pipe_velocity_check("a", 1_m_s, 0_m_s); }), "velocity limit"));
  CHECK(contains(message_of<InvalidInput>([] { branch_balance_check(drawn(), 0.0); }), "allowed imbalance"));
  CHECK(contains(message_of<InvalidInput>([] { branch_balance_check({}, 0.1); }), "headers"));
  CHECK(contains(message_of<InvalidInput>([] { tank_flow_check("a", -1_gph, 1_gph); }), "needed flow"));
  CHECK(contains(message_of<InvalidInput>([] { tank_flow_check("a", 1_gph, -1_gph); }), "given flow"));
  CHECK(contains(message_of<InvalidInput>([] { turnover_check("a", 1_gph, 1_gal, -1_per_h); }), "least turnover"));
  CHECK(contains(message_of<InvalidInput>([] { pump_margin_check("a", test::demo_pump(), 1_gph, -1_ft); }), "head"));
  CHECK(contains(message_of<InvalidInput>([] { drain_back_check({}, -1_gal); }), "spare volume"));
  CHECK(contains(message_of<InvalidInput>([] { standpipe_check("a", -1_gph, 2_in, 0.25); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { emergency_drain_check("a", -1_gph, std::nullopt); }), "flow"));
  const GravityMain main{.bore = 6_in, .slope = 0.02, .manning_n = 0.009};
  CHECK(contains(message_of<InvalidInput>([&] { gravity_main_check("a", 1_gph, main, 1.1); }), "filling"));
  CHECK(contains(message_of<InvalidInput>([] { submergence_check("a", 2_in, 1_gph, -1_in); }), "submergence"));
  CHECK(contains(message_of<InvalidInput>([] { water_velocity_check("a", 1_m_s, 2_m_s, 1_m_s); }), "least velocity"));
}

TEST_CASE("water hammer check: working pressure and surge against the rating [sum by hand]") {
  Surge surge;
  surge.rise = 60.0 * units::psi;
  const Check c = water_hammer_check("main", 10.0 * units::psi, surge, 140.0 * units::psi);
  CHECK(near(c.utilisation, 0.5, 1e-12));
  CHECK(contains(
      message_of<InvalidInput>([&] { water_hammer_check("main", -1.0 * units::psi, surge, 1.0 * units::psi); }),
      "working pressure"));
  CHECK(contains(message_of<InvalidInput>([&] { water_hammer_check("main", 1.0 * units::psi, surge, Pressure()); }),
                 "pressure rating"));
}

TEST_CASE("restart check: what is missing below the sump's bottom counts as asked for") {
  const Check c = restart_check("sump", 10_in, 4_in);
  CHECK(near(c.utilisation, 0.4, 1e-12));
  CHECK(c.verdict == Verdict::holds);
  const Check empty = restart_check("sump", -2_in, Length());
  CHECK(empty.verdict == Verdict::fails);
  CHECK(contains(empty.where, "empty with 2 in"));
  CHECK(near(empty.demand.shown_value, 2.0, 1e-12));
  CHECK(contains(message_of<InvalidInput>([] { restart_check("sump", 1_in, -1_in); }), "draws air"));
  CHECK(contains(message_of<InvalidInput>([] { restart_check("sump", from_si<Length>(NAN), 1_in); }), "lowest level"));
}

TEST_CASE("operating region check: the nearer end of what the maker allows, the preferred region in words") {
  const OperatingRegion region{.allowable_low = 0.5, .allowable_high = 1.3};
  const Check high = operating_region_check("pump", 1250_gph, 1000_gph, region);
  CHECK(near(high.utilisation, 1250.0 / 1300.0, 1e-12));
  CHECK(high.verdict == Verdict::marginal);
  CHECK(contains(high.where, "125 % of the flow of best efficiency, outside the preferred 70 to 120 %"));
  const Check low = operating_region_check("pump", 400_gph, 1000_gph, region);
  CHECK(near(low.utilisation, 500.0 / 400.0, 1e-12));
  CHECK(low.verdict == Verdict::fails);
  CHECK(contains(operating_region_check("pump", 1000_gph, 1000_gph, region).where, "within the preferred"));
  CHECK(contains(message_of<InvalidInput>([] { operating_region_check("pump", 1_gph, 1_gph, {}); }), "allowable"));
}

TEST_CASE("NPSH check: a margin ratio on what the pump asks, no less than nothing available") {
  const Check c = npsh_check("pump", 26_ft, 10_ft);
  CHECK(near(c.utilisation, 0.5, 1e-12));
  CHECK(npsh_check("pump", -1_ft, 10_ft).verdict == Verdict::fails);
  CHECK(npsh_check("pump", -1_ft, 0_ft).verdict == Verdict::fails);
  CHECK(contains(message_of<InvalidInput>([] { npsh_check("pump", 1_ft, -1_ft); }), "required NPSH"));
  CHECK(contains(message_of<InvalidInput>([] { npsh_check("pump", 1_ft, 1_ft, 1.0); }), "ratio"));
}

TEST_CASE("pump power check: watts against watts, and the energy of a year of 365 days [1 kW is 8760 kWh]") {
  const Check c = pump_power_check("pump", 1000_W, 1250_W);
  CHECK(near(c.demand.shown_value, 1000.0, 1e-12));
  CHECK(near(c.utilisation, 0.8, 1e-12));
  CHECK(contains(c.where, "8760 kWh"));
  CHECK(contains(message_of<InvalidInput>([] { pump_power_check("pump", 1_W, 0_W); }), "rated power"));
}

TEST_CASE("intake check: Gordon's rule beside the standard's, their distance is the uncertainty [by hand, feet]") {
  // 8 in opening, 10918 gph = 0.40542 ft3/s: v = 1.16145 ft/s; 0.4 v sqrt(D) = 0.37933 ft over its top, 0.71266 ft =
  // 8.552 in over its centre. Fr = 0.25078, the standard asks 8 (1 + 0.57680) = 12.614 in.
  const Check c = submergence_check("return pump", 8_in, 10918_gph, 17_in);
  CHECK(contains(c.where, "Gordon's rule 8.55"));
  CHECK(near(c.uncertainty, 1.0 - 8.552 / 12.614, 1e-3));
  CHECK(c.verdict == Verdict::holds);
  // A small opening with fast water: both rules go with the velocity and differ little; then it is 15 %.
  CHECK(submergence_check("return pump", 3.068_in, 10918_gph, 10_in).uncertainty == 0.15);
}
