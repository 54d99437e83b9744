// Walls of different kinds, freeboard, braces, cover and ruffled water: closed forms and limits.
#include <cmath>
#include <vector>

#include "demo_luminaire.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using test::near;

namespace {

const CosineLobe lobe{.on_axis = 50_umol_s_sr, .exponent = 1.0};

PlacedLuminaire point(Length x, Length y, Length height) {
  return {.luminaire = {.intensity = lobe, .power = 30_W}, .x = x, .y = y, .mounting_height = height};
}

Waterbody tank_of(const SideWall& wall) {
  return {.length = 500_mm,
          .width = 400_mm,
          .refractive_index = 1.339,
          .attenuation = 0.3_per_m,
          .walls = Walls::each,
          .sides = {.left = wall, .right = wall, .front = wall, .back = wall}};
}

SideWall coated(double mirror_share) { return {.kind = WallKind::coated, .mirror_share = mirror_share}; }

void same(const PpfdMap& a, const PpfdMap& b, double tolerance) {
  REQUIRE(a.values.size() == b.values.size());
  for (std::size_t i = 0; i < a.values.size(); ++i) CHECK(near(a.values[i], b.values[i], tolerance));
}

}  // namespace

TEST_CASE("each wall: four alike are the tank of that one kind") {
  const std::vector<PlacedLuminaire> two{point(120_mm, 90_mm, 200_mm), point(-50.0 * 1_mm, 350_mm, 150_mm)};
  const Receiver side{.tilt = 70_deg, .azimuth = 200_deg};
  for (const Receiver& receiver : {Receiver{}, side, Receiver{.spherical = true}}) {
    Waterbody each = tank_of(coated(0.8)), all = each;
    all.walls = Walls::mirror;
    all.wall_reflectance = 0.8;
    same(map(two, each, 300_mm, 5, 4, receiver), map(two, all, 300_mm, 5, 4, receiver), 1e-9);
    all.wall_reflectance = 0.0;
    each = tank_of(coated(0.0));
    same(map(two, each, 300_mm, 5, 4, receiver), map(two, all, 300_mm, 5, 4, receiver), 1e-9);
    all.walls = Walls::ignored;
    each = tank_of({.kind = WallKind::ignored});
    same(map(two, each, 300_mm, 5, 4, receiver), map(two, all, 300_mm, 5, 4, receiver), 1e-9);
  }
}

TEST_CASE("each wall: black ones equal none exactly while the lamps hang inside the footprint") {
  const std::vector<PlacedLuminaire> two{point(120_mm, 90_mm, 200_mm), point(400_mm, 300_mm, 300_mm)};
  const PpfdMap black = map(two, tank_of(coated(0.0)), 250_mm, 6, 5);
  const PpfdMap none = map(two, tank_of({.kind = WallKind::ignored}), 250_mm, 6, 5);
  CHECK(black.values == none.values);
}

TEST_CASE("each wall: one mirror among black ones adds the one image behind it, by hand") {
  Waterbody water = tank_of(coated(0.0));
  water.sides.right = coated(0.6);
  const auto from = [&](Length r) { return irradiance_from_point(lobe, 300_mm, 200_mm, r, 1.339, 0.3_per_m); };
  const std::vector<PlacedLuminaire> one{point(400_mm, 100_mm, 300_mm)};
  // The receiver at x = 470 mm has its image at 530 mm, 130 mm from the lamp; its ray enters at 488 mm.
  CHECK(near(ppfd_at(one, water, 200_mm, 470_mm, 100_mm), from(70_mm) + 0.6 * from(130_mm), 1e-9));
  // Beside the black left wall there is no image.
  CHECK(near(ppfd_at(std::vector{point(100_mm, 100_mm, 300_mm)}, water, 200_mm, 50_mm, 100_mm), from(50_mm), 1e-9));
}

TEST_CASE("freeboard: a mirror strip above the water throws down what a lamp sends at it [image of the lamp]") {
  Waterbody water = tank_of(coated(0.0));
  water.sides.right = coated(0.7);
  water.freeboard = 150_mm;
  const std::vector<PlacedLuminaire> one{point(400_mm, 100_mm, 300_mm)};
  const auto from = [&](Length r) { return irradiance_from_point(lobe, 300_mm, 0_mm, r, 1.339, 0.3_per_m); };
  // Just below the surface at x = 480: the ray to the image at 520, 120 mm off, crosses the wall after 100 mm, at
  // 300 (1 - 100 / 120) = 50 mm above the water.
  CHECK(near(ppfd_at(one, water, 0_mm, 480_mm, 100_mm), from(80_mm) + 0.7 * from(120_mm), 1e-9));
  // To the image of x = 250, at 750, it would cross at 300 (1 - 100 / 350) = 214 mm, over the wall.
  CHECK(near(ppfd_at(one, water, 0_mm, 250_mm, 100_mm), from(150_mm), 1e-9));
  // A lamp outside, 100 mm from the wall: black strips stop what crosses lower than 150 mm, up to 100 mm inside.
  const std::vector<PlacedLuminaire> outside{point(-100.0 * 1_mm, 200_mm, 300_mm)};
  water.sides.right = coated(0.0);
  CHECK(si(ppfd_at(outside, water, 0_mm, 99_mm, 200_mm)) == 0.0);
  CHECK(near(ppfd_at(outside, water, 0_mm, 101_mm, 200_mm), from(201_mm), 1e-9));
}

TEST_CASE("freeboard: a clear strip passes what comes from outside [two faces, all reflections between them]") {
  Waterbody water = tank_of(coated(0.0));
  water.sides.left = {.kind = WallKind::pane,
                      .pane = {.thickness = 0_mm, .refractive_index = 1.5, .attenuation = 0_per_m}};
  water.freeboard = 150_mm;
  const std::vector<PlacedLuminaire> outside{point(-100.0 * 1_mm, 200_mm, 300_mm)};
  // A thin pane passes (1 - R) / (1 + R), with the R of one face: the mean over both polarisations.
  Waterbody level = water;
  level.freeboard = 0_mm;
  const auto at = [&](const Waterbody& w) { return si(ppfd_at(outside, w, 0_mm, 50_mm, 200_mm)); };
  const double incidence = std::atan2(0.3, 0.15);  // to the wall's normal
  const double r = surface_reflectance(from_si<Angle>(incidence), 1.0, 1.5).unpolarised;
  CHECK(near(at(water), at(level) * (1.0 - r) / (1.0 + r), 1e-9));
}

TEST_CASE("brace: a clear strip moves rays aside, an opaque one darkens [plane-parallel plate]") {
  Waterbody water = tank_of({.kind = WallKind::ignored});
  water.refractive_index = 1.0;
  water.attenuation = 0_per_m;
  water.freeboard = 100_mm;
  water.braces = {.cross_width = 100_mm,
                  .cross_at = {250_mm},
                  .pane = {.thickness = 20_mm, .refractive_index = 1.5, .attenuation = 8_per_m}};
  // Straight below a lamp over the strip: the plate shortens the optical height by t (1 - 1/n), so that the light is
  // (h / (h - t + t/n))^2 stronger, less two faces of R = 0.04 with all reflections between them, and absorption.
  const std::vector<PlacedLuminaire> one{point(250_mm, 200_mm, 300_mm)};
  const double once = std::exp(-8.0 * 0.02), passed = 0.96 * 0.96 * once / (1.0 - 0.04 * 0.04 * once * once);
  const double height = 0.3 - 0.02 + 0.02 / 1.5;
  CHECK(near(si(ppfd_at(one, water, 0_mm, 250_mm, 200_mm)), 50e-6 / (height * height) * passed, 1e-9));
  // Past the strip nothing changes: to x = 400 the ray is at 350 where it crosses the strip's level.
  CHECK(near(ppfd_at(one, water, 0_mm, 400_mm, 200_mm), irradiance_from_point(lobe, 300_mm, 0_mm, 150_mm, 1.0, 0_per_m),
             1e-9));
  water.braces.opaque = true;
  CHECK(si(ppfd_at(one, water, 0_mm, 250_mm, 200_mm)) == 0.0);
  CHECK(si(ppfd_at(one, water, 0_mm, 400_mm, 200_mm)) > 0.0);
}

TEST_CASE("cover: straight below a lamp, with the light thrown to and fro between cover and water [closed form]") {
  Waterbody water = tank_of(coated(0.0));
  water.attenuation = 0_per_m;
  water.cover = Cover{.height = 50_mm, .pane = {.thickness = 5_mm, .refractive_index = 1.49, .attenuation = 6_per_m}};
  const std::vector<PlacedLuminaire> one{point(250_mm, 200_mm, 300_mm)};
  const double r = std::pow(0.49 / 2.49, 2), once = std::exp(-6.0 * 0.005);
  const double passed = std::pow(1.0 - r, 2) * once / (1.0 - r * r * once * once);
  const double back = r + r * once * passed, surface = std::pow(0.339 / 2.339, 2);
  double sum = 0.0;
  for (int i = 0; i < 3; ++i) {
    const double height = 0.3 - 0.005 + 0.005 / 1.49 + 0.1 * i + 0.2 / 1.339;
    sum += std::pow(back * surface, i) / (height * height);
  }
  CHECK(near(si(ppfd_at(one, water, 200_mm, 250_mm, 200_mm)), 50e-6 * passed * (1.0 - surface) * sum, 1e-9));
}

TEST_CASE("ruffled water: the mean stays, a narrow beam spreads by (n - 1) / n of the slope [small slopes]") {
  // A lobe so narrow that the spot of flat water is small against that of ruffled water.
  Waterbody water{.length = 1_m, .width = 1_m, .refractive_index = 1.339, .attenuation = 0_per_m};
  const std::vector<PlacedLuminaire> one{
      {.luminaire = {.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 2000.0}, .power = 30_W},
       .x = 0.5_m,
       .y = 0.5_m,
       .mounting_height = 1_m}};
  const auto moments = [&](double& mean) {
    const PpfdMap lit = map(one, water, 0.8_m, 100, 100);
    double sum = 0.0, second = 0.0;
    for (int j = 0; j < lit.ny; ++j)
      for (int i = 0; i < lit.nx; ++i) {
        sum += si(lit.at(i, j));
        second += si(lit.at(i, j)) * std::pow(si(lit.x(i)) - 0.5, 2);
      }
    mean = si(lit.mean());
    return second / sum;
  };
  double flat_mean = 0.0, mean = 0.0;
  const double flat = moments(flat_mean);
  water.slope_variance = 0.02;
  const double spread = moments(mean) - flat;
  CHECK(near(mean, flat_mean, 2e-3));
  // Depth times slope times (n - 1) / n to first order; the next order is the slope variance itself, 1 %, times a few.
  CHECK(near(spread, std::pow(0.8 * 0.339 / 1.339, 2) * 0.01, 0.04));
}

TEST_CASE("tank parts: impossible ones are refused by name") {
  const std::vector<PlacedLuminaire> one{point(250_mm, 200_mm, 300_mm)};
  const auto refused = [&](auto change) {
    Waterbody water = tank_of({});
    change(water);
    return test::message_of<InvalidInput>([&] { map(one, water, 200_mm, 2, 2); });
  };
  using test::contains;
  CHECK(
      contains(refused([](auto& w) { w.sides.back.pane.refractive_index = 1.2; }), "back wall pane refractive index"));
  CHECK(contains(refused([](auto& w) { w.sides.right = coated(1.1); }), "right wall mirror share"));
  CHECK(contains(refused([](auto& w) { w.freeboard = -1.0 * 1_mm; }), "freeboard"));
  CHECK(contains(refused([](auto& w) { w.freeboard = 300_mm; }), "mounting height"));
  CHECK(contains(refused([](auto& w) { w.braces.rim_width = 50_mm; }), "brace thickness"));
  CHECK(contains(refused([](auto& w) {
                   w.freeboard = 50_mm;
                   w.braces.rim_width = 50_mm;
                   w.braces.pane.refractive_index = 1.4;
                 }),
                 "refractive index of the brace"));
  CHECK(contains(refused([](auto& w) { w.cover = Cover{}; }), "cover height"));
  CHECK(contains(refused([](auto& w) { w.cover = Cover{.height = 295_mm}; }), "mounting height"));
  CHECK(contains(refused([](auto& w) { w.slope_variance = 0.06; }), "slope variance"));
}
