// Maps of level, vertical and sloping planes against the field point by point, and against the law of cosines.
#include "theca/light/plane_map.hpp"

#include <cmath>

#include "demo_luminaire.hpp"
#include "support/near.hpp"
#include "theca/light/map_measures.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using test::near;

namespace {
std::vector<PlacedLuminaire> row(const Waterbody& water) {
  return evenly_spaced(test::demo_luminaire(), 3, water.length, water.width, 30_in, 90_deg);
}
}  // namespace

TEST_CASE("plane map: a level plane over the whole tank is the map of its depth") {
  Waterbody water = test::demo_water();
  water.walls = Walls::pane;
  const SlopingPlane floor{.x = 0_m, .y = 0_m, .depth = 8_in, .length = water.length, .width = water.width};
  const PpfdMap level = map(row(water), water, 8_in, 6, 4), plane = map(row(water), water, floor, 6, 4);
  for (std::size_t i = 0; i < level.values.size(); ++i) CHECK(near(plane.values[i], level.values[i], 1e-9));
  CHECK(near(coefficient_of_variation(plane), coefficient_of_variation(level), 1e-7));
}

TEST_CASE("plane map: the inside of the wall y = 0 and a rack that slopes by 25 deg, point by point") {
  Waterbody water = test::demo_water();
  water.walls = Walls::pane;
  // Level side against the tank's length, so that the vertical plane looks toward y.
  const SlopingPlane wall{
      .x = 2_m, .y = 0_m, .depth = 40_cm, .length = 1.5_m, .width = 30_cm, .azimuth = 180_deg, .slope = 90_deg};
  const PpfdMap glass = map(row(water), water, wall, 5, 3);
  for (int j = 0; j < 3; ++j)
    for (int i = 0; i < 5; ++i)
      CHECK(near(
          glass.at(i, j),
          ppfd_at(row(water), water, 40_cm - glass.y(j), 2_m - glass.x(i), 0_m, {.tilt = 90_deg, .azimuth = 90_deg}),
          1e-9));
  const SlopingPlane rack{
      .x = 50_cm, .y = 10_cm, .depth = 40_cm, .length = 40_cm, .width = 50_cm, .azimuth = 30_deg, .slope = 25_deg};
  const PpfdMap sloping = map(row(water), water, rack, 4, 4);
  const double c = std::sqrt(3.0) / 2.0, s = 0.5;
  for (int j = 0; j < 4; ++j)
    for (int i = 0; i < 4; ++i) {
      const Length out = std::cos(si(25_deg)) * sloping.y(j), rise = std::sin(si(25_deg)) * sloping.y(j);
      CHECK(near(sloping.at(i, j),
                 ppfd_at(row(water), water, 40_cm - rise, 50_cm + c * sloping.x(i) - s * out,
                         10_cm + s * sloping.x(i) + c * out, {.tilt = 25_deg, .azimuth = -1.0 * 60_deg}),
                 1e-9));
    }
}

TEST_CASE("plane map: without water a point source lights a vertical plane by I cos / d^2 [inverse-square law]") {
  const Waterbody air{.length = 2_m, .width = 1_m, .refractive_index = 1.0, .attenuation = 0_per_m};
  const std::vector<PlacedLuminaire> one{
      {.luminaire = {.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 0.0}, .power = 20_W},
       .x = 80_cm,
       .y = 60_cm,
       .mounting_height = 50_cm}};
  const SlopingPlane wall{
      .x = 1.5_m, .y = 0_m, .depth = 30_cm, .length = 1.2_m, .width = 30_cm, .azimuth = 180_deg, .slope = 90_deg};
  const PpfdMap lit = map(one, air, wall, 6, 2);
  for (int j = 0; j < 2; ++j)
    for (int i = 0; i < 6; ++i) {
      const double dx = 1.5 - si(lit.x(i)) - 0.8, dy = 0.6, dz = 0.5 + 0.3 - si(lit.y(j));
      CHECK(near(si(lit.at(i, j)), 50e-6 * dy / std::pow(std::hypot(dx, dy, dz), 3), 1e-12));
    }
}

TEST_CASE("plane map: a plane that leaves the tank is refused by name") {
  const Waterbody water = test::demo_water();
  const auto refused = [&](SlopingPlane plane) {
    return test::message_of<InvalidInput>([&] { map(row(water), water, plane, 2, 2); });
  };
  const SlopingPlane good{.x = 1_m, .y = 20_cm, .depth = 20_cm, .length = 20_cm, .width = 10_cm};
  CHECK_NOTHROW(map(row(water), water, good, 2, 2));
  auto plane = good;
  plane.length = 5_m;
  CHECK(test::contains(refused(plane), "x of a corner"));
  plane = good;
  plane.azimuth = 90_deg, plane.length = 60_cm;
  CHECK(test::contains(refused(plane), "y of a corner"));
  plane = good;
  plane.slope = 90_deg, plane.width = 25_cm;
  CHECK(test::contains(refused(plane), "depth of a corner"));
  plane = good;
  plane.width = Length();
  CHECK(test::contains(refused(plane), "width of the plane"));
  CHECK_THROWS_AS(map(row(water), water, good, 0, 2), InvalidInput);
}
