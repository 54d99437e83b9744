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
