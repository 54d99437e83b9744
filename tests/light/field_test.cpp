#include "theca/light/field.hpp"

#include <cmath>
#include <limits>

#include "demo_luminaire.hpp"
#include "support/near.hpp"
#include "theca/light/refraction.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;

namespace {

const CosineLobe lobe{.on_axis = 50_umol_s_sr, .exponent = 1.3};

PlacedLuminaire point_source(Length x, Length y, Length height) {
  return {.luminaire = {.intensity = lobe, .power = 20_W}, .x = x, .y = y, .mounting_height = height};
}

std::vector<PlacedLuminaire> demo_row(const Waterbody& water) {
  return evenly_spaced(test::demo_luminaire(), 4, water.length, water.width, 12_in);
}

}  // namespace

TEST_CASE("map: cell centres, row-major along the length") {
  const Waterbody water{.length = 2_m, .width = 1_m, .refractive_index = 1.339, .attenuation = 0.15_per_m};
  const std::vector<PlacedLuminaire> one{point_source(30_cm, 20_cm, 50_cm)};
  const PpfdMap lit = map(one, water, 30_cm, 4, 2);
  CHECK(lit.values.size() == 8);
  CHECK(near(lit.x(0), 25_cm, 1e-14));
  CHECK(near(lit.x(3), 175_cm, 1e-14));
  CHECK(near(lit.y(1), 75_cm, 1e-14));
  CHECK(lit.at(2, 1) == from_si<PhotonFluxDensity>(lit.values[6]));
  CHECK(near(lit.at(2, 1), ppfd_at(one, water, 30_cm, 125_cm, 75_cm), 1e-14));
  CHECK(near(lit.at(2, 1),
             irradiance_from_point(lobe, 50_cm, 30_cm, from_si<Length>(std::hypot(0.95, 0.55)), 1.339, 0.15_per_m),
             1e-13));
  CHECK(lit.brightest().x == lit.x(0));
  CHECK(lit.brightest().y == lit.y(0));
  CHECK(lit.darkest().x == lit.x(3));
  CHECK(lit.darkest().y == lit.y(1));
  CHECK(lit.max() == lit.at(0, 0));
  CHECK(lit.min() == lit.at(3, 1));
}

TEST_CASE("map: without water index and absorption a point source follows cos^3 / H^2 [inverse-square law]") {
  const Waterbody air{.length = 2_m, .width = 1_m, .refractive_index = 1.0, .attenuation = Attenuation()};
  const PlacedLuminaire source{
      .luminaire = {.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 0.0}, .power = 20_W},
      .x = 1_m,
      .y = 0.5_m,
      .mounting_height = 60_cm};
  const PpfdMap lit = map(std::vector{source}, air, 40_cm, 7, 5);
  for (int j = 0; j < 5; ++j)
    for (int i = 0; i < 7; ++i) {
      const double r = std::hypot(si(lit.x(i)) - 1.0, si(lit.y(j)) - 0.5);
      CHECK(near(si(lit.at(i, j)), 50e-6 / std::pow(1.0 + r * r, 1.5), 1e-13));
    }
}

TEST_CASE("map: a symmetric row gives a symmetric field") {
  for (const Walls walls : {Walls::ignored, Walls::mirror}) {
    Waterbody water = test::demo_water();
    water.walls = walls;
    water.wall_reflectance = 0.9;
    const PpfdMap lit = map(demo_row(water), water, 8_in, 24, 8);
    for (int j = 0; j < 8; ++j)
      for (int i = 0; i < 24; ++i) {
        CHECK(near(lit.at(i, j), lit.at(23 - i, j), 1e-11));
        CHECK(near(lit.at(i, j), lit.at(i, 7 - j), 1e-11));
      }
  }
}

TEST_CASE("map: turning a luminaire a quarter exchanges its sides") {
  const Waterbody water{.length = 1_m, .width = 1_m, .refractive_index = 1.339, .attenuation = 0.15_per_m};
  PlacedLuminaire along{
      .luminaire = test::demo_luminaire(), .x = 0.5_m, .y = 0.5_m, .mounting_height = 20_cm, .heading = {}};
  PlacedLuminaire across = along;
  across.heading = 90_deg;
  const PpfdMap a = map(std::vector{along}, water, 10_cm, 9, 9), b = map(std::vector{across}, water, 10_cm, 9, 9);
  for (int j = 0; j < 9; ++j)
    for (int i = 0; i < 9; ++i) CHECK(near(a.at(i, j), b.at(j, i), 1e-12));
  CHECK(a.at(0, 4) > 1.2 * a.at(4, 0));  // the aperture reaches farther along x
}

TEST_CASE("map: an aperture of 2 x 2 points turned by 30 deg is four point sources, placed by hand") {
  const Waterbody water{.length = 1_m, .width = 1_m, .refractive_index = 1.339, .attenuation = 0.15_per_m};
  const PlacedLuminaire turned{.luminaire = {.intensity = lobe,
                                             .aperture_length = 400_mm,
                                             .aperture_width = 200_mm,
                                             .points_along = 2,
                                             .points_across = 2,
                                             .power = 20_W},
                               .x = 0.5_m,
                               .y = 0.5_m,
                               .mounting_height = 15_cm,
                               .heading = 30_deg};
  // (+-0.1 along, +-0.05 across) turned counter-clockwise, cos = sqrt(3)/2, sin = 1/2
  const double c = std::sqrt(3.0) / 2.0, s = 0.5;
  const double x = 0.15, y = 0.4;
  double sum = 0.0;
  for (const double along : {-0.1, 0.1})
    for (const double across : {-0.05, 0.05}) {
      const double r = std::hypot(0.5 + c * along - s * across - x, 0.5 + s * along + c * across - y);
      sum += 0.25 * si(irradiance_from_point(lobe, 15_cm, 10_cm, from_si<Length>(r), 1.339, 0.15_per_m));
    }
  CHECK(near(si(ppfd_at(std::vector{turned}, water, 10_cm, from_si<Length>(x), from_si<Length>(y))), sum, 1e-13));
}

TEST_CASE("map: a luminaire dimmed to 0.3 gives 0.3 of the light [proportional]") {
  const Waterbody water = test::demo_water();
  auto row = demo_row(water);
  const PpfdMap full = map(row, water, 20_cm, 6, 4);
  for (auto& placed : row) placed.dimming = 0.3;
  const PpfdMap dimmed = map(row, water, 20_cm, 6, 4);
  for (std::size_t i = 0; i < full.values.size(); ++i) CHECK(near(dimmed.values[i], 0.3 * full.values[i], 1e-14));
}

TEST_CASE("map: a tilted lobe in air is I0 cos^m of the angle from its axis, cos of the incidence over d^2 [by hand]") {
  const Waterbody air{.length = 2_m, .width = 1_m, .refractive_index = 1.0, .attenuation = Attenuation()};
  PlacedLuminaire source = point_source(60_cm, 30_cm, 50_cm);
  source.tilt = 40_deg;
  source.tilt_azimuth = 25_deg;
  source.heading = 70_deg;  // plays no part for a point that is symmetric about its axis
  const double tilt = si(source.tilt), azimuth = si(source.tilt_azimuth);
  const double axis[3] = {std::sin(tilt) * std::cos(azimuth), std::sin(tilt) * std::sin(azimuth), std::cos(tilt)};
  const PpfdMap lit = map(std::vector{source}, air, 20_cm, 5, 4);
  for (int j = 0; j < 4; ++j)
    for (int i = 0; i < 5; ++i) {
      const double dx = si(lit.x(i)) - 0.6, dy = si(lit.y(j)) - 0.3, dz = 0.7, d = std::hypot(dx, dy, dz);
      const double from_axis = (dx * axis[0] + dy * axis[1] + dz * axis[2]) / d;
      const double by_hand = from_axis > 0.0 ? 50e-6 * std::pow(from_axis, 1.3) * dz / (d * d * d) : 0.0;
      CHECK(near(si(lit.at(i, j)), by_hand, 1e-12));
    }
}

TEST_CASE("map: a long aperture tilted about its width rises on the side of the tilt azimuth") {
  // Two points 400 mm apart along x, tilted by 30 deg toward x: at +-173.2 mm, 100 mm above and below the centre.
  const Waterbody air{.length = 2_m, .width = 1_m, .refractive_index = 1.0, .attenuation = Attenuation()};
  const Luminaire lamp{.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 0.0},
                       .aperture_length = 800_mm,
                       .points_along = 2,
                       .power = 20_W};
  const PlacedLuminaire tilted{.luminaire = lamp, .x = 1_m, .y = 0.5_m, .mounting_height = 60_cm, .tilt = 30_deg};
  const double s = 0.2 * std::sqrt(3.0) / 2.0;
  const auto from = [](double dx, double dz) { return 0.5 * 50e-6 * dz / std::pow(std::hypot(dx, dz), 3); };
  CHECK(near(si(ppfd_at(std::vector{tilted}, air, 0_m, 1.3_m, 0.5_m)), from(0.3 - s, 0.7) + from(0.3 + s, 0.5), 1e-12));
}

TEST_CASE("map: luminaires add up") {
  const Waterbody water = test::demo_water();
  const auto a = point_source(50_cm, 20_cm, 40_cm), b = point_source(150_cm, 50_cm, 70_cm);
  const auto both = map(std::vector{a, b}, water, 20_cm, 6, 4);
  const auto only_a = map(std::vector{a}, water, 20_cm, 6, 4), only_b = map(std::vector{b}, water, 20_cm, 6, 4);
  for (int j = 0; j < 4; ++j)
    for (int i = 0; i < 6; ++i) CHECK(near(both.at(i, j), only_a.at(i, j) + only_b.at(i, j), 1e-13));
}

TEST_CASE("map: twice the size in clear water gives a quarter of the light [similarity]") {
  Waterbody water{.length = 1_m,
                  .width = 0.5_m,
                  .refractive_index = 1.339,
                  .attenuation = Attenuation(),
                  .walls = Walls::mirror,
                  .wall_reflectance = 0.8};
  const auto small = map(std::vector{point_source(30_cm, 20_cm, 40_cm)}, water, 30_cm, 5, 3);
  water.length = 2_m;
  water.width = 1_m;
  const auto large = map(std::vector{point_source(60_cm, 40_cm, 80_cm)}, water, 60_cm, 5, 3);
  for (int j = 0; j < 3; ++j)
    for (int i = 0; i < 5; ++i) CHECK(near(large.at(i, j), 0.25 * small.at(i, j), 1e-12));
}

TEST_CASE("mirror walls: one image beside the wall, by hand") {
  // A receiver 5 cm from the wall x = 0 and 20 cm deep; other walls are out of reach of any path.
  const Waterbody water{.length = 10_m,
                        .width = 10_m,
                        .refractive_index = 1.339,
                        .attenuation = 0.15_per_m,
                        .walls = Walls::mirror,
                        .wall_reflectance = 0.5};
  const auto from = [](Length r) { return irradiance_from_point(lobe, 50_cm, 20_cm, r, 1.339, 0.15_per_m); };
  const std::vector<PlacedLuminaire> one{point_source(80_cm, 5_m, 50_cm)};
  // The image stands at x = -5 cm, 85 cm off: its path enters at about 73 cm, inside the tank.
  REQUIRE(refracted_path(50_cm, 20_cm, 85_cm, 1.339).entry_distance < 80_cm);
  CHECK(near(ppfd_at(one, water, 20_cm, 5_cm, 5_m), from(75_cm) + 0.5 * from(85_cm), 1e-12));
  // A receiver 20 cm from the wall: the image 1 m off would need an entry outside the tank and does not count.
  REQUIRE(refracted_path(50_cm, 20_cm, 1_m, 1.339).entry_distance > 80_cm);
  CHECK(near(ppfd_at(one, water, 20_cm, 20_cm, 5_m), from(60_cm), 1e-12));
}

TEST_CASE("mirror walls: with perfect walls and clear water no photon is lost on the way down [energy conservation]") {
  Waterbody water{.length = 60_cm,
                  .width = 40_cm,
                  .refractive_index = 1.339,
                  .attenuation = Attenuation(),
                  .walls = Walls::mirror,
                  .wall_reflectance = 1.0};
  const std::vector<PlacedLuminaire> one{point_source(22_cm, 17_cm, 25_cm)};
  const auto at_surface = map(one, water, Length(), 240, 160).mean();
  // The field has edges where the image of the surface's outline ends: the cell-centre sum is off by a part of a cell
  // width along them, 1/160 of the width times the step there; 1e-3 leaves that room.
  for (const Length& depth : {10_cm, 45_cm, 150_cm})
    CHECK(near(map(one, water, depth, 240, 160).mean(), at_surface, 1e-3));
  water.wall_reflectance = 0.9;
  CHECK(map(one, water, 45_cm, 240, 160).mean() < 0.99 * at_surface);
}

TEST_CASE("walls: ignored and black walls agree while every path enters through the tank's surface") {
  Waterbody water = test::demo_water();
  const auto open = map(demo_row(water), water, 8_in, 12, 4);
  water.walls = Walls::mirror;
  const auto black = map(demo_row(water), water, 8_in, 12, 4);
  for (std::size_t i = 0; i < open.values.size(); ++i) CHECK(near(black.values[i], open.values[i], 1e-13));
  // From outside the outline the path to the near edge crosses the surface outside.
  const std::vector<PlacedLuminaire> outside{point_source(-50_cm, 20_cm, 20_cm)};
  CHECK(si(ppfd_at(outside, water, 8_in, 1_cm, 20_cm)) == 0.0);
  water.walls = Walls::ignored;
  CHECK(si(ppfd_at(outside, water, 8_in, 1_cm, 20_cm)) > 0.0);
}

TEST_CASE("map statistics: mean, lowest, highest and uniformity by hand") {
  const PpfdMap lit{
      .nx = 2, .ny = 2, .length = 1_m, .width = 1_m, .plane_depth = 10_cm, .values = {100e-6, 200e-6, 300e-6, 400e-6}};
  CHECK(near(lit.mean(), 250_umol_m2_s, 1e-14));
  CHECK(near(lit.min_over_mean(), 0.4, 1e-14));
  const PpfdMap old = aged(lit, 0.85);
  CHECK(near(old.mean(), 212.5_umol_m2_s, 1e-14));
  CHECK(near(old.min_over_mean(), 0.4, 1e-14));
  const PpfdMap dark{.nx = 1, .ny = 1, .length = 1_m, .width = 1_m, .plane_depth = 1_cm, .values = {0.0}};
  CHECK(dark.min_over_mean() == 0.0);
}

TEST_CASE("light field: bad input is refused by name") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto refused = [](auto change) {
    Waterbody water = test::demo_water();
    change(water);
    const auto row = demo_row(test::demo_water());
    return message_of<InvalidInput>([&] { map(row, water, 8_in, 4, 2); });
  };
  CHECK(contains(refused([](auto& w) { w.length = Length(); }), "water length"));
  CHECK(contains(refused([&](auto& w) { w.width = from_si<Length>(nan); }), "water width"));
  CHECK(contains(refused([](auto& w) { w.refractive_index = 2.5; }), "refractive index"));
  CHECK(contains(refused([](auto& w) { w.attenuation = -1.0 * 1_per_m; }), "attenuation"));
  CHECK(contains(refused([](auto& w) { w.wall_reflectance = 1.01; }), "wall reflectance"));
  const Waterbody water = test::demo_water();
  const auto row = demo_row(water);
  CHECK(contains(message_of<InvalidInput>([&] { map(row, water, -1.0 * 1_in, 4, 2); }), "plane depth"));
  CHECK(contains(message_of<InvalidInput>([&] { map(row, water, 8_in, 0, 2); }), "nx"));
  CHECK(contains(message_of<InvalidInput>([&] { map(row, water, 8_in, 4, -2); }), "ny"));
  CHECK(contains(message_of<InvalidInput>([&] { map({}, water, 8_in, 4, 2); }), "number of luminaires"));
  CHECK(contains(message_of<InvalidInput>([&] { ppfd_at(row, water, 8_in, 97_in, 2_in); }), "x"));
  CHECK(contains(message_of<InvalidInput>([&] { ppfd_at(row, water, 8_in, 9_in, -1.0 * 2_in); }), "y"));
  auto broken = row;
  broken[1].mounting_height = Length();
  CHECK(contains(message_of<InvalidInput>([&] { map(broken, water, 8_in, 4, 2); }), "mounting height"));
  const Waterbody shaft{.length = 1_mm,
                        .width = 1_mm,
                        .refractive_index = 1.339,
                        .attenuation = Attenuation(),
                        .walls = Walls::mirror,
                        .wall_reflectance = 0.9};
  const std::vector<PlacedLuminaire> close{point_source(0.5_mm, 0.5_mm, 1_um)};
  CHECK(contains(message_of<InvalidInput>([&] { map(close, shaft, 1000_m, 1, 1); }), "plane depth"));

  const PpfdMap lit = map(row, water, 8_in, 4, 2);
  CHECK(contains(message_of<InvalidInput>([&] { lit.at(4, 0); }), "i"));
  CHECK(contains(message_of<InvalidInput>([&] { lit.at(0, -1); }), "j"));
  CHECK(contains(message_of<InvalidInput>([&] { lit.x(-1); }), "i"));
  CHECK(contains(message_of<InvalidInput>([&] { lit.y(2); }), "j"));
  CHECK(contains(message_of<InvalidInput>([] { PpfdMap().mean(); }), "number of values"));
  CHECK(contains(message_of<InvalidInput>([&] { aged(lit, 1.2); }), "ageing factor"));
  CHECK(contains(message_of<InvalidInput>([&] { daily_light_integral(-1.0 * 1_umol_m2_s, 10_h); }), "ppfd"));
  CHECK(contains(message_of<InvalidInput>([&] { daily_light_integral(1_umol_m2_s, 25_h); }), "photoperiod"));
}

TEST_CASE(
    "clear panes: thin ones under a high lamp are perfect mirrors, since all light is totally reflected [optics]") {
  Waterbody water{.length = 500_mm, .width = 300_mm, .refractive_index = 1.339, .attenuation = 0.4_per_m};
  const Luminaire lamp{.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 1.0}, .power = 30_W};
  const std::vector<PlacedLuminaire> one{{.luminaire = lamp, .x = 100_mm, .y = 200_mm, .mounting_height = 400_mm}};
  water.walls = Walls::mirror;
  water.wall_reflectance = 1.0;
  const PpfdMap mirrored = map(one, water, 300_mm, 10, 6);
  water.walls = Walls::pane;
  water.pane = {.thickness = 0_mm, .refractive_index = 1.52, .attenuation = 0_per_m};
  const PpfdMap thin = map(one, water, 300_mm, 10, 6);
  for (std::size_t i = 0; i < thin.values.size(); ++i) CHECK(near(thin.values[i], mirrored.values[i], 1e-11));
  // A thick one returns the light farther from itself, so that places beside it get less.
  water.pane.thickness = 19_mm;
  CHECK(map(one, water, 300_mm, 10, 6).min() < 0.98 * thin.min());
}

TEST_CASE("clear panes: impossible ones are refused by name") {
  Waterbody water = test::demo_water();
  water.walls = Walls::pane;
  CHECK_NOTHROW(require_valid(water));
  const auto refused = [&](const ClearPane& pane) {
    water.pane = pane;
    CHECK_THROWS_AS(require_valid(water), InvalidInput);
  };
  refused({.thickness = -1_mm, .refractive_index = 1.5, .attenuation = 0_per_m});
  refused({.thickness = 1_mm, .refractive_index = 1.3, .attenuation = 0_per_m});
  refused({.thickness = 1_mm, .refractive_index = 2.1, .attenuation = 0_per_m});
  refused({.thickness = 1_mm, .refractive_index = 1.5, .attenuation = -1_per_m});
}

TEST_CASE("receivers: flat ones of any tilt and a sphere under one lamp, no refraction [inverse square, cosine]") {
  const Waterbody water{.length = 2_m, .width = 2_m, .refractive_index = 1.0, .attenuation = 0_per_m};
  const std::vector<PlacedLuminaire> one{
      {.luminaire = {.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 0.0}, .power = 30_W},
       .x = 0.3_m,
       .y = 0.4_m,
       .mounting_height = 0.5_m}};
  // From (0.3, 0.4, 0.5 above) to (1.3, 1.9, 0.7 below): (1, 1.5, -1.2), r2 = 4.69; toward the lamp (-1, -1.5, 1.2).
  const double beam = 50e-6 / 4.69, r = std::sqrt(4.69);
  const auto at = [&](const Receiver& receiver) { return si(ppfd_at(one, water, 0.7_m, 1.3_m, 1.9_m, receiver)); };
  CHECK(near(at({.spherical = true}), beam, 1e-12));
  CHECK(near(at({}), beam * 1.2 / r, 1e-12));
  CHECK(near(at({.tilt = 90_deg, .azimuth = 180_deg}), beam * 1.0 / r, 1e-12));
  CHECK(near(at({.tilt = 90_deg, .azimuth = 270_deg}), beam * 1.5 / r, 1e-12));
  CHECK(at({.tilt = 90_deg, .azimuth = 0_deg}) == 0.0);
  CHECK(at({.tilt = 180_deg}) == 0.0);
  CHECK(near(at({.tilt = 90_deg, .azimuth = -90.0 * 1_deg}), beam * 1.5 / r, 1e-12));
  CHECK(near(at({.tilt = 45_deg, .azimuth = 180_deg}), beam * std::sqrt(0.5) * (1.0 + 1.2) / r, 1e-12));
  CHECK_THROWS_AS(at({.tilt = 181_deg}), InvalidInput);
  CHECK_THROWS_AS(at({.azimuth = from_si<Angle>(INFINITY)}), InvalidInput);
}

TEST_CASE("receivers: opposite walls of a tank lit from its middle see the same [symmetry]") {
  for (const Walls walls : {Walls::mirror, Walls::pane}) {
    Waterbody water{.length = 0.5_m, .width = 0.4_m, .refractive_index = 1.34, .attenuation = 0.2_per_m};
    water.walls = walls;
    water.wall_reflectance = 0.9;
    const std::vector<PlacedLuminaire> one{
        {.luminaire = {.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 1.0}, .power = 30_W},
         .x = 0.25_m,
         .y = 0.2_m,
         .mounting_height = 0.3_m}};
    const Receiver right{.tilt = 90_deg, .azimuth = 0_deg}, left{.tilt = 90_deg, .azimuth = 180_deg};
    const auto a = ppfd_at(one, water, 0.4_m, 0.1_m, 0.15_m, right);
    CHECK(near(a, ppfd_at(one, water, 0.4_m, 0.4_m, 0.25_m, left), 1e-12));
    // At the wall itself, each photon that comes back has just gone in: what a perfect mirror returns equals what it
    // gets.
    if (walls == Walls::mirror) {
      water.wall_reflectance = 1.0;
      CHECK(near(ppfd_at(one, water, 0.4_m, 0_m, 0.15_m, right), ppfd_at(one, water, 0.4_m, 0_m, 0.15_m, left), 1e-12));
      water.wall_reflectance = 0.0;  // then nothing comes from the side of the near wall
      CHECK(si(ppfd_at(one, water, 0.4_m, 0.1_m, 0.2_m, left)) == 0.0);
    }
  }
}

TEST_CASE("map: a large one, whose paths are taken between tabulated ones, is the field at its points within 1e-5") {
  for (const Walls walls : {Walls::ignored, Walls::mirror, Walls::pane}) {
    Waterbody water = test::demo_water();
    water.walls = walls;
    water.wall_reflectance = 0.7;
    auto row = demo_row(water);
    row[1].tilt = 20_deg;
    const PpfdMap lit = map(row, water, 20_cm, 96, 64, {.tilt = 30_deg, .azimuth = 100_deg});
    for (int j = 0; j < 64; j += 9)
      for (int i = 0; i < 96; i += 13)
        CHECK(near(lit.at(i, j), ppfd_at(row, water, 20_cm, lit.x(i), lit.y(j), {.tilt = 30_deg, .azimuth = 100_deg}),
                   1e-5));
  }
}
