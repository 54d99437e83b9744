#include "theca/hydraulics/drain_back.hpp"

#include <limits>

#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

TEST_CASE("drain-back: surface times fall of every tank, plus the pipes [geometry, by hand]") {
  // 10 x 1.5 m2 x 20 mm + 4 x 2 m2 x 75 mm + 100 L = 300 + 600 + 100 L
  const DrainBack back = drain_back({{1.5_m2, 360_mm, 340_mm, 10}, {2_m2, 450_mm, 375_mm, 4}}, 100_L);
  CHECK(near(back.from_tanks, 900_L, 1e-13));
  CHECK(near(back.from_pipes, 100_L, 1e-15));
  CHECK(near(back.total, 1000_L, 1e-13));
  CHECK(near(spare_volume(2.5_m2, 300_mm, 500_mm), 500_L, 1e-13));
  CHECK(near(sump_level_after(back, 2.5_m2, 300_mm), 700_mm, 1e-13));
  CHECK(si(drain_back({}, 0_L).total) == 0.0);
  CHECK(si(drain_back({{1_m2, 300_mm, 300_mm, 5}}, 0_L).total) == 0.0);
}

TEST_CASE("drain-back: water falls to the weir crest or to the siphon break, whichever is lower") {
  CHECK(near(rest_level_of(13.45_in, 11_in), 11_in, 1e-15));
  CHECK(near(rest_level_of(13.45_in, 13.6_in), 13.45_in, 1e-15));
}

TEST_CASE("siphon break: as deep under the weir crests as the sump's room over all surfaces [by hand]") {
  // At the crests 15 m2 x 20 mm + 8 m2 x 30 mm + 100 L = 640 L; 360 L more over 23 m2 are 15.652 mm.
  const std::vector<DrainingTank> tanks{{1.5_m2, 360_mm, 340_mm, 10}, {2_m2, 450_mm, 420_mm, 4}};
  const SiphonBreak b = siphon_break_for(tanks, 100_L, 1000_L);
  CHECK(near(si(b.depth), 0.360 / 23.0, 1e-13));
  CHECK(near(si(b.levels.at(0)), 0.340 - 0.360 / 23.0, 1e-13));
  CHECK(near(si(b.levels.at(1)), 0.420 - 0.360 / 23.0, 1e-13));
  CHECK(si(siphon_break_for(tanks, 100_L, 640.0000001_L).depth) < 1e-9);
  const std::string over = message_of<OutOfValidity>([&] { siphon_break_for(tanks, 100_L, 600_L); });
  CHECK(contains(over, "0.64 m3"));
  CHECK(contains(over, "0.04 m3 more"));
}

TEST_CASE("siphon break: a tank that is empty gives no more, the others sink on [by hand]") {
  // 23 m2 x 10 mm = 230 L empty the first; 70 L more over the other's 8 m2 are 8.75 mm.
  const std::vector<DrainingTank> tanks{{8_m2, 100_mm, 100_mm, 1}, {15_m2, 10_mm, 10_mm, 1}};
  const SiphonBreak b = siphon_break_for(tanks, 0_L, 300_L);
  CHECK(near(b.depth, 18.75_mm, 1e-13));
  CHECK(near(b.levels.at(0), 81.25_mm, 1e-13));
  CHECK(si(b.levels.at(1)) == 0.0);
  const SiphonBreak all = siphon_break_for(tanks, 0_L, 2000_L);
  CHECK(si(all.levels.at(0)) == 0.0);
  CHECK(si(all.levels.at(1)) == 0.0);
}

TEST_CASE("siphon break: with the breaks found the drain-back fills the sump's room, and no more") {
  const std::vector<DrainingTank> tanks{
      {1.2_m2, 350_mm, 330_mm, 6}, {0.7_m2, 120_mm, 110_mm, 3}, {2.5_m2, 610_mm, 600_mm, 2}, {1_m2, 20_mm, 20_mm, 4}};
  for (const double spare : {0.5, 0.7, 1.0, 1.6, 2.4, 4.0, 5.5}) {
    std::vector<DrainingTank> resting = tanks;
    const SiphonBreak b = siphon_break_for(tanks, 50_L, from_si<Volume>(spare));
    for (std::size_t i = 0; i < tanks.size(); ++i)
      resting[i].rest_level = rest_level_of(tanks[i].rest_level, b.levels[i]);
    CHECK(near(si(drain_back(resting, 50_L).total), spare, 1e-12));
  }
}

TEST_CASE("sump: least surface and least height that hold a drain-back with a margin [by hand, and back]") {
  const DrainBack back = drain_back({{1.5_m2, 360_mm, 340_mm, 10}, {2_m2, 450_mm, 375_mm, 4}}, 100_L);  // 1000 L
  CHECK(near(sump_surface_for(back, 300_mm, 500_mm, 0.1), 5.5_m2, 1e-13));
  CHECK(near(sump_spare_height_for(back, 2.5_m2, 0.1), 440_mm, 1e-13));
  const Area surface = sump_surface_for(back, 300_mm, 500_mm, 0.0);
  CHECK(near(spare_volume(surface, 300_mm, 500_mm), back.total, 1e-13));
  CHECK(near(sump_level_after(back, surface, 300_mm), 500_mm, 1e-13));
}

TEST_CASE("siphon break and sump size: bad input is refused by name") {
  CHECK(contains(message_of<InvalidInput>([] { siphon_break_for({}, 0_L, 1_L); }), "number of tanks"));
  CHECK(contains(message_of<InvalidInput>([] { siphon_break_for({{1_m2, 1_m, 1_m, 1}}, 0_L, -1_L); }), "spare volume"));
  CHECK(contains(message_of<InvalidInput>([] { siphon_break_for({{0_m2, 1_m, 1_m, 1}}, 0_L, 1_L); }), "surface"));
  CHECK(contains(message_of<InvalidInput>([] { sump_surface_for({}, 1_m, 1_m, 0.0); }), "highest level"));
  CHECK(contains(message_of<InvalidInput>([] { sump_surface_for({}, -1_m, 1_m, 0.0); }), "running level"));
  CHECK(contains(message_of<InvalidInput>([] { sump_surface_for({}, 1_m, 2_m, -0.1); }), "margin"));
  CHECK(contains(message_of<InvalidInput>([] { sump_spare_height_for({}, 0_m2, 0.0); }), "sump surface"));
  CHECK(contains(message_of<InvalidInput>([] { sump_spare_height_for({0_L, 0_L, -1_L}, 1_m2, 0.0); }), "drain-back"));
}

TEST_CASE("drain-back: bad input is refused by name") {
  const Length none = from_si<Length>(std::numeric_limits<double>::quiet_NaN());
  CHECK(contains(message_of<InvalidInput>([] { drain_back({{0_m2, 1_m, 1_m, 1}}, 0_L); }), "surface"));
  CHECK(contains(message_of<InvalidInput>([] { drain_back({{1_m2, 1_m, 1.1_m, 1}}, 0_L); }), "rest level"));
  CHECK(contains(message_of<InvalidInput>([] { drain_back({{1_m2, 1_m, -1_mm, 1}}, 0_L); }), "rest level"));
  CHECK(contains(message_of<InvalidInput>([&] { drain_back({{1_m2, none, 1_m, 1}}, 0_L); }), "running level"));
  CHECK(contains(message_of<InvalidInput>([&] { drain_back({{1_m2, 1_m, none, 1}}, 0_L); }), "rest level"));
  CHECK(contains(message_of<InvalidInput>([] { drain_back({{1_m2, 1_m, 1_m, -1}}, 0_L); }), "count"));
  CHECK(contains(message_of<InvalidInput>([] { drain_back({}, -1_L); }), "content of pipes"));
  CHECK(contains(message_of<InvalidInput>([] { spare_volume(0_m2, 1_m, 2_m); }), "sump surface"));
  CHECK(contains(message_of<InvalidInput>([] { spare_volume(1_m2, -1_m, 2_m); }), "running level"));
  CHECK(contains(message_of<InvalidInput>([] { spare_volume(1_m2, 2_m, 1_m); }), "highest level"));
  CHECK(contains(message_of<InvalidInput>([&] { rest_level_of(none, 1_m); }), "weir crest"));
  CHECK(contains(message_of<InvalidInput>([&] { rest_level_of(1_m, none); }), "siphon break"));
  CHECK(contains(message_of<InvalidInput>([] { sump_level_after({}, 0_m2, 1_m); }), "sump surface"));
  CHECK(contains(message_of<InvalidInput>([] { sump_level_after({}, 1_m2, -1_m); }), "running level"));
  CHECK(contains(message_of<InvalidInput>([] { sump_level_after({0_L, 0_L, -1_L}, 1_m2, 1_m); }), "drain-back"));
}
