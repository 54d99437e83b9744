// Reach over a rim: closed geometry, another way to find the shortest path, limits and monotony.
#include "theca/farm/reach.hpp"

#include <algorithm>
#include <cmath>

#include "support/near.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::near;
using test::within;

namespace {
Body person(Length shoulder, Length arm, Length hip = 0.80_m) {
  return {.stature = shoulder + 0.30_m,
          .shoulder_height = shoulder,
          .elbow_height = shoulder - 0.30_m,
          .forward_grip_reach = arm + 0.10_m,
          .shoulder_grip = arm,
          .hip_height = hip,
          .footwear = 0_m};
}
RackSection wide_tank(Length rim, Length plane) {
  return {
      .outside_width = 2_m, .wall_thickness = 10_mm, .rim_height = rim, .rim_brace_width = 0_m, .plane_height = plane};
}
const Stance stance{.shoulder_stand_off = 0.10_m};

// Shortest path over the rim by trying every place where it crosses the height of the rim: shoulder above the rim.
double shortest_by_search(double shoulder_x, double shoulder_y, double rim, double edge, double far_edge, double plane,
                          double x) {
  double best = 1e9;
  for (int i = 0; i <= 20000; ++i) {
    const double crossing = edge + (far_edge - edge) * i / 20000;
    best = std::min(best, std::hypot(crossing - shoulder_x, shoulder_y - rim) + std::hypot(x - crossing, rim - plane));
  }
  return best;
}
}  // namespace

TEST_CASE("reach: straight arm over a low rim is the arm sphere cut by the plane [closed form]") {
  const Reach r = reach(person(1.5_m, 0.8_m), wide_tank(1.0_m, 0.9_m), OpenSides::one, stance, 0_deg);
  const double expected = std::sqrt(0.8 * 0.8 - 0.6 * 0.6) - 0.10;
  CHECK(within(si(r.farthest), expected, 1e-9));
  CHECK(near(r.share, (expected - 0.010) / 1.98, 1e-9));
  CHECK(near(r.nearest, 10_mm, 1e-9));
}

TEST_CASE("reach: footwear and a step raise the shoulder by their height") {
  Body body = person(1.45_m, 0.8_m);
  body.footwear = 0.03_m;
  Stance raised = stance;
  raised.step = 0.02_m;
  const auto tank = wide_tank(1.0_m, 0.9_m);
  CHECK(near(reach(body, tank, OpenSides::one, raised, 0_deg).farthest,
             reach(person(1.5_m, 0.8_m), tank, OpenSides::one, stance, 0_deg).farthest, 1e-9));
}

TEST_CASE("reach: a rim in the way takes the arm over its inner edge [closed form]") {
  // shoulder (-0.10, 1.25), rim edge at (0.07, 1.20), plane at 0.95: a straight arm would cut through the brace
  auto tank = wide_tank(1.20_m, 0.95_m);
  tank.rim_brace_width = 60_mm;
  const double left = 0.6 - std::hypot(0.17, 0.05);
  const Reach r = reach(person(1.25_m, 0.6_m), tank, OpenSides::one, stance, 0_deg);
  CHECK(within(si(r.farthest), 0.07 + std::sqrt(left * left - 0.25 * 0.25), 1e-9));
}

TEST_CASE("reach: a rim above the shoulder takes the arm up, across and down [closed form]") {
  const Reach r = reach(person(1.1_m, 0.7_m), wide_tank(1.3_m, 1.2_m), OpenSides::one, stance, 0_deg);
  const double left = 0.7 - std::hypot(0.10, 0.20) - 0.010;
  CHECK(within(si(r.farthest), 0.010 + std::sqrt(left * left - 0.10 * 0.10), 1e-9));
}

TEST_CASE("reach: arm needed agrees with a search over every crossing of the rim's height") {
  auto tank = wide_tank(1.10_m, 0.80_m);
  tank.rim_brace_width = 80_mm;
  for (const double shoulder : {1.12, 1.2, 1.4, 1.6})
    for (const double width : {0.5, 0.8, 1.5}) {
      tank.outside_width = width * units::metre;
      const ArmNeeded needed = arm_needed(person(shoulder * units::metre, 0.7_m), tank, OpenSides::one, stance, 0_deg);
      const double x = si(needed.worst);
      // the search is coarse to (1.4 m/20000)^2 over its curvature
      CHECK(near(si(needed.arm), shortest_by_search(-0.10, shoulder, 1.10, 0.09, width - 0.09, 0.80, x), 1e-6));
      // one open side: the far end of the rack is the worst point, or the near one under the brace
      CHECK((near(x, width - 0.010, 1e-9) || near(x, 0.010, 1e-9)));
    }
}

TEST_CASE("reach: the far rim brace is in the way of an arm from above [closed form]") {
  // shoulder (-0.10, 1.60), far brace's edge (0.39, 1.00), far end of the rack (0.59, 0.95) beneath the brace
  RackSection tank = wide_tank(1.0_m, 0.95_m);
  tank.outside_width = 0.60_m;
  tank.rim_brace_width = 0.20_m;
  const ArmNeeded needed = arm_needed(person(1.6_m, 0.7_m), tank, OpenSides::one, stance, 0_deg);
  CHECK(near(needed.worst, 0.59_m, 1e-9));
  CHECK(near(si(needed.arm), std::hypot(0.49, 0.60) + std::hypot(0.20, 0.05), 1e-9));
}

TEST_CASE("reach: the worst point of a tank open on both sides is its middle or its edge, and asks for less") {
  const auto tank = wide_tank(1.0_m, 0.9_m);
  const Body body = person(1.5_m, 0.8_m);
  const ArmNeeded one = arm_needed(body, tank, OpenSides::one, stance, 0_deg);
  const ArmNeeded both = arm_needed(body, tank, OpenSides::both, stance, 0_deg);
  CHECK(both.arm < one.arm);
  CHECK(near(both.worst, 1_m, 1e-9));
  CHECK(near(si(both.arm), std::hypot(1.10, 0.60), 1e-9));
}

TEST_CASE("reach: share from both sides is twice that from one until they meet, then one") {
  const Body body = person(1.5_m, 0.8_m);
  auto tank = wide_tank(1.0_m, 0.9_m);
  const double one = reach(body, tank, OpenSides::one, stance, 0_deg).share;
  CHECK(near(reach(body, tank, OpenSides::both, stance, 0_deg).share, 2.0 * one, 1e-9));
  tank.outside_width = 0.8_m;  // each side reaches 0.43 m
  CHECK(reach(body, tank, OpenSides::one, stance, 0_deg).share < 1.0);
  CHECK(near(reach(body, tank, OpenSides::both, stance, 0_deg).share, 1.0, 1e-12));
}

TEST_CASE("reach: nothing is reached when the arm is too short for the plane") {
  const Reach r = reach(person(1.5_m, 0.5_m), wide_tank(1.0_m, 0.9_m), OpenSides::both, stance, 0_deg);
  CHECK(r.share == 0.0);
  CHECK(r.farthest == r.nearest);
}

TEST_CASE("reach: bending turns the shoulder about the hip, beside a tank below the hip [closed form]") {
  // rim 0.5 m, hip 0.8 m, trunk 0.7 m: at 30 deg the shoulder is 0.35 m ahead of the hip and 0.606 m above it
  const Reach r = reach(person(1.5_m, 0.9_m, 0.8_m), wide_tank(0.5_m, 0.6_m - 0.2_m), OpenSides::one, stance, 30_deg);
  const double x = 0.7 * 0.5 - 0.10, y = 0.8 + 0.7 * std::sqrt(3.0) / 2.0;
  const double drop = y - 0.4;
  CHECK(drop > 0.9);  // out of reach at this bend
  CHECK(r.share == 0.0);
  const Reach longer = reach(person(1.5_m, 1.1_m, 0.8_m), wide_tank(0.5_m, 0.4_m), OpenSides::one, stance, 30_deg);
  CHECK(within(si(longer.farthest), x + std::sqrt(1.1 * 1.1 - drop * drop), 1e-9));
}

TEST_CASE("reach: the trunk keeps its distance from a rim above the hip [closed form]") {
  // rim 0.3 m above the hip, trunk 0.7 m, stand-off 0.1 m, 30 deg: hip (0.1 + 0.3 sin)/cos = 0.2887 m behind the face
  const auto tank = wide_tank(1.1_m, 1.0_m);
  const Body body = person(1.5_m, 0.7_m, 0.8_m);
  const double back = (0.1 + 0.3 * 0.5) / (std::sqrt(3.0) / 2.0);
  const double x = 0.7 * 0.5 - back, y = 0.8 + 0.7 * std::sqrt(3.0) / 2.0;
  const Reach r = reach(body, tank, OpenSides::one, stance, 30_deg);
  CHECK(within(si(r.farthest), x + std::sqrt(0.49 - (y - 1.0) * (y - 1.0)), 1e-9));
  Stance through = stance;
  through.trunk_clears_rim = false;
  CHECK(within(si(reach(body, tank, OpenSides::one, through, 30_deg).farthest),
               0.35 - 0.10 + std::sqrt(0.49 - (y - 1.0) * (y - 1.0)), 1e-9));
}

TEST_CASE("reach: with the rim level with the shoulder bending brings nothing") {
  const Body body = person(1.2_m, 0.7_m, 0.8_m);
  const auto tank = wide_tank(1.2_m, 1.0_m);
  CHECK(near(reach_up_to(body, tank, OpenSides::one, stance, 60_deg).farthest,
             reach(body, tank, OpenSides::one, stance, 0_deg).farthest, 1e-9));
}

TEST_CASE("reach: the trunk's clearance changes without a jump as it bends") {
  const auto tank = wide_tank(1.25_m, 1.0_m);
  const Body body = person(1.35_m, 0.7_m, 0.8_m);
  double before = si(arm_needed(body, tank, OpenSides::one, stance, 0_deg).arm);
  Length farthest = reach(body, tank, OpenSides::one, stance, 0_deg).farthest;
  for (int i = 1; i < 600; ++i) {
    const Angle bend = 0.1 * i * units::degree;
    const Length now = reach(body, tank, OpenSides::one, stance, bend).farthest;
    CHECK(std::abs(si(now - farthest)) < 0.02);  // 0.1 deg moves a 0.55 m trunk by 1 mm; the arm's end moves faster
    farthest = now;
    const double arm = si(arm_needed(body, tank, OpenSides::one, stance, bend).arm);
    CHECK(arm <= before);  // more bend never asks for more arm
    before = arm;
  }
}

TEST_CASE("reach: the smallest bend just reaches the whole rack") {
  const Body body = person(1.5_m, 0.75_m);
  RackSection tank = wide_tank(0.9_m, 0.75_m);
  tank.outside_width = 0.55_m;
  const auto bend = smallest_bend(body, tank, OpenSides::one, stance, 60_deg);
  REQUIRE(bend.has_value());
  CHECK(*bend > 1_deg);
  CHECK(near(reach_up_to(body, tank, OpenSides::one, stance, *bend).share, 1.0, 1e-9));
  CHECK(reach_up_to(body, tank, OpenSides::one, stance, *bend - 0.1 * units::degree).share < 1.0 - 1e-6);
}

TEST_CASE("reach: smallest bend is zero where none is needed, nothing where the tank is too wide") {
  RackSection tank = wide_tank(1.0_m, 0.9_m);
  CHECK_FALSE(smallest_bend(person(1.5_m, 0.8_m), tank, OpenSides::one, stance, 60_deg).has_value());
  tank.outside_width = 0.4_m;
  CHECK(*smallest_bend(person(1.5_m, 0.8_m), tank, OpenSides::one, stance, 60_deg) == 0_rad);
}

TEST_CASE("reach: a longer arm, a lower rim, a narrower brace or more bend never reaches less") {
  const Stance close{.shoulder_stand_off = 4_in};
  const auto share = [&](Length more_arm, Length rim, Length brace, Angle bend) {
    Body body = pheasant_female_5();
    body.shoulder_grip += more_arm;
    const RackSection tank{.outside_width = 36_in,
                           .wall_thickness = 10_mm,
                           .rim_height = rim,
                           .rim_brace_width = brace,
                           .plane_height = 30_in};
    return reach_up_to(body, tank, OpenSides::one, close, bend).share;
  };
  for (int i = 0; i < 8; ++i) {
    const Length one_more = 1_in;
    CHECK(share((i + 1.0) * one_more, 44_in, 2_in, 20_deg) >= share(double(i) * one_more, 44_in, 2_in, 20_deg) - 1e-9);
    CHECK(share(4_in, (44.0 - i) * one_more, 2_in, 20_deg) >= share(4_in, (45.0 - i) * one_more, 2_in, 20_deg) - 1e-9);
    CHECK(share(4_in, 44_in, 0.5 * double(i) * one_more, 20_deg) >=
          share(4_in, 44_in, 0.5 * (i + 1.0) * one_more, 20_deg) - 1e-9);
    CHECK(share(4_in, 44_in, 2_in, (i + 1.0) * 7_deg) >= share(4_in, 44_in, 2_in, double(i) * 7_deg) - 1e-9);
  }
  CHECK(share(8_in, 44_in, 2_in, 20_deg) > share(0_in, 44_in, 2_in, 20_deg) + 0.05);
}

TEST_CASE("reach: a tall person's shoulder is farther from a low rack, and bending brings it closer") {
  const RackSection low{.outside_width = 36_in,
                        .wall_thickness = 10_mm,
                        .rim_height = 40_in,
                        .rim_brace_width = 0_in,
                        .plane_height = 28_in};
  const Stance close{.shoulder_stand_off = 4_in};
  const Body tall = pheasant_male_95();
  CHECK(reach(tall, low, OpenSides::one, close, 0_deg).share == 0.0);  // 34 in down, arm 28.1 in
  CHECK(reach_up_to(tall, low, OpenSides::one, close, 60_deg).share > 0.3);
}

TEST_CASE("reach: impossible bodies, tanks and bends are refused by name") {
  const auto refused = [](Body b, RackSection t, Stance s, Angle bend) {
    return test::message_of<InvalidInput>([&] { reach(b, t, OpenSides::one, s, bend); });
  };
  const Body body = person(1.5_m, 0.8_m);
  const RackSection tank = wide_tank(1.0_m, 0.9_m);
  Body bad = body;
  bad.shoulder_grip = -0.1_m;
  CHECK(test::contains(refused(bad, tank, stance, 0_deg), "shoulder-grip"));
  bad = body;
  bad.hip_height = 1.6_m;
  CHECK(test::contains(refused(bad, tank, stance, 0_deg), "hip height"));
  bad = body;
  bad.stature = from_si<Length>(std::nan(""));
  CHECK(test::contains(refused(bad, tank, stance, 0_deg), "stature"));
  RackSection t = tank;
  t.plane_height = 1.0_m;
  CHECK(test::contains(refused(body, t, stance, 0_deg), "plane height"));
  t = tank;
  t.rim_brace_width = 1_m;
  CHECK(test::contains(refused(body, t, stance, 0_deg), "rim brace width"));
  t = tank;
  t.wall_thickness = 1.2_m;
  CHECK(test::contains(refused(body, t, stance, 0_deg), "wall thickness"));
  CHECK(test::contains(refused(body, tank, {.shoulder_stand_off = 0_m}, 0_deg), "stand-off"));
  CHECK(test::contains(refused(body, tank, {.shoulder_stand_off = 0.1_m, .step = -1_m}, 0_deg), "step"));
  CHECK(test::contains(refused(body, tank, stance, 91_deg), "bend"));
  CHECK(
      test::contains(test::message_of<InvalidInput>([&] { smallest_bend(body, tank, OpenSides::one, stance, -1_deg); }),
                     "bend limit"));
}

TEST_CASE("reach map: without bending it is the arm sphere, cut by the walls [closed form]") {
  const auto tank = wide_tank(1.0_m, 0.8_m);
  // the rim is far below the line from shoulder to any place: the straight arm decides
  const auto map = reach_map(person(1.6_m, 0.9_m), tank, OpenSides::one, stance, 0_deg, 40, 5);
  REQUIRE(map.size() == 200);
  int reached = 0;
  for (const ReachPoint& p : map) {
    const double straight = std::hypot(si(p.across) + 0.10, 1.6 - si(p.height));
    const double crossing = -0.10 + (si(p.across) + 0.10) * (1.6 - 1.0) / (1.6 - si(p.height));
    if (crossing < 0.010) continue;  // the arm bends over the rim
    CHECK(p.reached == (straight <= 0.9));
    reached += p.reached;
  }
  CHECK(reached > 20);
}

TEST_CASE("reach map: its lowest row covers the share that reach_up_to finds on the plane") {
  // rows as thin as the map allows, so that the lowest lies within 0.2 mm of the plane
  const auto tank = wide_tank(1.0_m, 0.8_m);
  const Body body = person(1.5_m, 0.75_m);
  for (const OpenSides sides : {OpenSides::one, OpenSides::both}) {
    const auto map = reach_map(body, tank, sides, stance, 60_deg, 400, 600);
    const auto row =
        static_cast<double>(std::count_if(map.begin(), map.begin() + 400, [](auto& p) { return p.reached; }));
    CHECK(within(row / 400.0, reach_up_to(body, tank, sides, stance, 60_deg).share, 1.5 / 400.0));
  }
}

TEST_CASE("reach map: two open sides give a map that is its own mirror image") {
  const auto map = reach_map(person(1.5_m, 0.7_m), wide_tank(1.0_m, 0.8_m), OpenSides::both, stance, 60_deg, 50, 4);
  for (std::size_t row = 0; row < 4; ++row)
    for (std::size_t i = 0; i < 50; ++i) {
      CHECK(map[row * 50 + i].reached == map[row * 50 + 49 - i].reached);
      CHECK(map[row * 50 + i].bend == map[row * 50 + 49 - i].bend);
    }
  CHECK_THROWS_AS(reach_map(person(1.5_m, 0.7_m), wide_tank(1.0_m, 0.8_m), OpenSides::both, stance, 60_deg, 1, 4),
                  InvalidInput);
}
