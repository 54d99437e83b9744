#include "theca/thermal/tank_options.hpp"

#include <doctest/doctest.h>

#include "support/near.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

namespace {
const Layer glass{12_mm, 1.0_W_mK}, acrylic{12_mm, 0.19_W_mK}, foam{25_mm, 0.035_W_mK};
const Water water{.temperature = 78_degF, .salinity = absolute_salinity(35_psu)};
const Room hall{.air = {.temperature = 70_degF, .humidity = 50_rh}, .surroundings = 70_degF, .air_speed = 10_cm_s};
TankSurfaces open_tank() {
  return {.name = "A",
          .water_length = 2.4_m,
          .water_width = 0.74_m,
          .walls = {{.name = "all round", .length = 6.3_m, .height = 0.36_m, .layers = {glass}},
                    {.name = "base", .length = 2.4_m, .height = 0.74_m, .layers = {glass}, .facing = Facing::down}},
          .evaporation_activity = 0.65};
}
}  // namespace

TEST_CASE("whole tank: acrylic for glass saves a few per cent of all it loses; k/t promises several times all of it") {
  const auto options = compare_tank_walls(
      open_tank(), {{"glass", {glass}}, {"acrylic", {acrylic}}, {"insulated glass", {glass, foam}}}, water, hall);
  const double whole = si(options[0].balance.total_loss);
  CHECK(si(options[0].saved) == 0.0);
  CHECK(si(options[1].saved) > 0.01 * whole);
  CHECK(si(options[1].saved) < 0.08 * whole);
  CHECK(si(options[1].saved_films_ignored) > whole);
  CHECK(options[0].overstated > 10.0);
  CHECK(options[2].saved > options[1].saved);
  CHECK(near(si(options[0].walls_films_ignored), 1.0 / 0.012 * 6.3 * 0.36 * 8.0 / 1.8, 1e-12));
  // base and surface are the same in all
  CHECK(options[1].balance.loss("base") == options[0].balance.loss("base"));
  CHECK(near(si(options[0].saved - options[1].saved), si(options[1].walls - options[0].walls), 1e-9));
}

TEST_CASE("whole tank side by side refuses nothing to compare") {
  CHECK(contains(message_of<InvalidInput>([] { compare_tank_walls(open_tank(), {}, water, hall); }), "options"));
  TankSurfaces sunk = open_tank();
  sunk.walls.erase(sunk.walls.begin());
  CHECK(contains(message_of<InvalidInput>([&] {
                   compare_tank_walls(sunk, {{"glass", {glass}}}, water, hall);
                 }),
                 "walls"));
}
