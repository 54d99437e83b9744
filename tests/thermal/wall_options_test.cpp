#include "theca/thermal/wall_options.hpp"

#include <doctest/doctest.h>

#include "support/near.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

namespace {
const std::vector<Layer> glass = {{.thickness = 12_mm, .conductivity = 1.0_W_mK}};
const std::vector<Layer> acrylic = {{.thickness = 12_mm, .conductivity = 0.19_W_mK}};
const std::vector<Layer> insulated = {glass[0], {.thickness = 25_mm, .conductivity = 0.035_W_mK}};
const WallExposure hall{.water = 78_degF, .room = 70_degF, .surroundings = 70_degF, .height = 14_in};
}  // namespace

TEST_CASE("glass, acrylic, insulated: without films glass looks five times worse than acrylic; with them under half") {
  const auto walls = compare_walls({{"glass", glass}, {"acrylic", acrylic}, {"insulated glass", insulated}}, hall);
  REQUIRE(walls.size() == 3);
  CHECK(near(walls[1].films_ignored_to_first, 0.19, 1e-12));
  CHECK(walls[1].to_first > 0.65);
  CHECK(walls[1].to_first < 0.80);
  CHECK(walls[0].overstated > 10.0);
  CHECK(walls[1].overstated > 2.5);
  CHECK(walls[2].to_first < 0.25);  // insulation is worth what acrylic only seems to be
  CHECK(near(si(walls[0].pane_only), 83.3333333, 1e-8));
  CHECK(near(si(walls[0].films_ignored), 83.3333333 * 8.0 / 1.8, 1e-8));
}

TEST_CASE("walls side by side: with films as given the ratio is that of the resistances by hand") {
  WallExposure fixed = hall;
  fixed.inside_film = 100_W_m2K;
  fixed.outside_film = 8.3_W_m2K;
  const auto walls = compare_walls({{"glass", glass}, {"acrylic", acrylic}}, fixed);
  const double films = 0.01 + 1.0 / 8.3;
  CHECK(near(walls[1].to_first, (films + 0.012) / (films + 0.012 / 0.19), 1e-9));
}

TEST_CASE("walls side by side: no difference, no loss, no ratio") {
  WallExposure level = hall;
  level.room = level.surroundings = level.water;
  const auto walls = compare_walls({{"glass", glass}, {"acrylic", acrylic}}, level);
  CHECK(si(walls[1].wall.flux) == 0.0);
  CHECK(walls[1].to_first == 0.0);
  CHECK(contains(message_of<InvalidInput>([] { compare_walls({}, hall); }), "options"));
}
