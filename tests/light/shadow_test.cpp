#include "theca/light/shadow.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "photon_tracer.hpp"
#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/light/light_directions.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {
constexpr double pi = std::numbers::pi;

Luminaire small_lamp(double exponent = 1.0) {
  return {.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = exponent}, .power = 30_W};
}

PlacedLuminaire at(Length x, Length y, Length height, const Luminaire& lamp = small_lamp()) {
  return {.luminaire = lamp, .x = x, .y = y, .mounting_height = height};
}

Waterbody square_metre(double index = 1.339) {
  return {.length = 1_m, .width = 1_m, .refractive_index = index, .attenuation = 0.15_per_m};
}

// Nine columns on a square pitch of 3 in, the middle one first.
ShadingBodies rack(const ShadingCylinder& colony, const Waterbody& water) {
  ShadingBodies bodies{.cylinders = {colony}};
  for (const auto& other : neighbours(colony, 3_in, 1, water.length, water.width)) bodies.cylinders.push_back(other);
  return bodies;
}

ShadingBodies without_first(ShadingBodies bodies) {
  bodies.cylinders.erase(bodies.cylinders.begin());
  return bodies;
}
}  // namespace

TEST_CASE("shadow: without bodies, and with bodies behind or beside the light, nothing is shaded") {
  const std::vector<PlacedLuminaire> lamps{at(0.3_m, 0.4_m, 0.5_m), at(0.9_m, 0.6_m, 0.7_m)};
  Waterbody water = square_metre();
  for (const Walls walls : {Walls::ignored, Walls::mirror, Walls::pane}) {
    water.walls = walls;
    water.wall_reflectance = 0.8;
    ShadingBodies aside{.discs = {{50_cm, 50_cm, 45_cm, 30_cm}},   // under the plane
                        .plates = {{0_m, 0_m, 1_m, 1_m, 0.8_m}}};  // over the lamps
    for (const ShadingBodies& bodies : {ShadingBodies{}, aside}) {
      const ShadowMap map = shadow_map(lamps, water, bodies, 0.4_m, 7, 5);
      for (std::size_t i = 0; i < map.shaded.values.size(); ++i) CHECK(map.shaded.values[i] == map.unshaded.values[i]);
      CHECK(near(map.unshaded.at(3, 2), ppfd_at(lamps, water, 0.4_m, map.shaded.x(3), map.shaded.y(2)), 1e-6));
    }
  }
}

TEST_CASE("shadow: of a disc under a small lamp it ends where the ray past its edge meets the plane [Snell]") {
  for (const double n : {1.0, 1.339}) {
    // Lamp 0.6 m over the surface, disc of 80 mm at 0.15 m, plane at 0.5 m. The angle in air by bisection.
    const auto out_at = [n](double angle, double depth) {
      return 0.6 * std::tan(angle) + depth * std::tan(std::asin(std::sin(angle) / n));
    };
    double low = 0.0, high = 1.0;
    for (int i = 0; i < 60; ++i) (out_at(0.5 * (low + high), 0.15) < 0.08 ? low : high) = 0.5 * (low + high);
    const double edge = out_at(low, 0.5);
    const ShadingBodies bodies{.discs = {{0.5_m, 0.5_m, 0.15_m, 0.08_m}}};
    const auto seen = [&](double out) {
      return shaded_share(shaded_ppfd_at(std::vector{at(0.5_m, 0.5_m, 0.6_m)}, square_metre(n), bodies, 0.5_m,
                                         0.5_m + 0.6 * out * units::metre, 0.5_m + 0.8 * out * units::metre));
    };
    CHECK(seen(edge * (1.0 - 1e-7)) == 1.0);
    CHECK(seen(edge * (1.0 + 1e-7)) == 0.0);
    CHECK(seen(0.0) == 1.0);
  }
}

TEST_CASE("shadow: of a level pipe it is as wide as the lines that touch it, in air and under water") {
  // A place D under the axis of a pipe of radius R sees it within asin(R/D) of straight up.
  for (const double height : {0.3, -0.1}) {
    const double R = 0.016, D = 0.4 + height, edge = std::tan(std::asin(R / D));
    const ShadingBodies bodies{.pipes = {{.from_x = 0.5_m,
                                          .from_y = -5_m,
                                          .from_height = height * units::metre,
                                          .to_x = 0.5_m,
                                          .to_y = 5_m,
                                          .to_height = height * units::metre,
                                          .radius = R * units::metre}}};
    const auto shaded = [&](double tangent, Length y) {
      const Length off = 1.0_m * tangent;  // 0.6 m over the surface, the place 0.4 m under it, no refraction
      return shaded_share(
          shaded_ppfd_at(std::vector{at(0.5_m + off, y, 0.6_m)}, square_metre(1.0), bodies, 0.4_m, 0.5_m, 0.5_m));
    };
    for (const Length& y : {0.5_m, 1.3_m, -0.7_m}) {  // straight across and along the pipe
      CHECK(shaded(edge * (1.0 - 1e-7), y) == 1.0);
      CHECK(shaded(edge * (1.0 + 1e-7), y) == 0.0);
      CHECK(shaded(-edge * (1.0 - 1e-7), y) == 1.0);
      CHECK(shaded(-edge * (1.0 + 1e-7), y) == 0.0);
    }
  }
}

TEST_CASE("shadow: of a dome and a column it reaches as far as the line over the far edge of their outlines") {
  // No refraction; lamp 1 m over the plane, 0.5 m to the left of a colony that stands on the plane.
  const std::vector<PlacedLuminaire> lamp{at(0_m, 0.5_m, 0.6_m)};
  const auto lit = [&](const ShadingBodies& bodies, double x) {
    return shaded_share(shaded_ppfd_at(lamp, square_metre(1.0), bodies, 0.4_m, x * units::metre, 0.5_m)) == 0.0;
  };
  // Column of radius r and height h: over its far top edge.
  const double r = 0.05, h = 0.12, end = (0.5 + r) / (1.0 - h);
  const ShadingBodies column{.cylinders = {{0.5_m, 0.5_m, 0.4_m, h * units::metre, r * units::metre}}};
  CHECK_FALSE(lit(column, end * (1.0 - 1e-7)));
  CHECK(lit(column, end * (1.0 + 1e-7)));
  CHECK(lit(column, 0.45 - 1e-7));
  CHECK_FALSE(lit(column, 0.45 + 1e-7));
  // Dome of radius r: the tangent from the lamp, whose distance from the centre is r.
  const double to_centre = std::hypot(0.5, 1.0), down = std::atan2(1.0, 0.5) - std::asin(r / to_centre);
  const double touch = 1.0 / std::tan(down);
  const ShadingBodies dome{.hemispheres = {{0.5_m, 0.5_m, 0.4_m, r * units::metre}}};
  CHECK_FALSE(lit(dome, touch * (1.0 - 1e-7)));
  CHECK(lit(dome, touch * (1.0 + 1e-7)));
}

TEST_CASE("shadow: a disc under an even sky takes what its view factor says") {
  // Catalogue of view factors, small level element to a parallel coaxial disc: r^2/(r^2 + d^2), of pi times the sky's
  // radiance. The sky obeys Lambert's law and is a lamp of 100 x 100 points, 6 cm apart at 1.5 m: some hundreds of them
  // behind each disc, whose edge cuts between them, hence 1.5 %.
  const Luminaire sky{.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 1.0},
                      .aperture_length = 6_m,
                      .aperture_width = 6_m,
                      .points_along = 100,
                      .points_across = 100,
                      .power = 30_W};
  Waterbody water = square_metre(1.0);
  water.attenuation = Attenuation();
  for (const double r : {0.1, 0.2, 0.35}) {
    const ShadingBodies bodies{.discs = {{0.5_m, 0.5_m, 0.1_m, r * units::metre}}};
    const ShadedLight light =
        shaded_ppfd_at(std::vector{at(0.5_m, 0.5_m, 1.2_m, sky)}, water, bodies, 0.3_m, 0.5_m, 0.5_m);
    CHECK(near(si(light.unshaded) - si(light.shaded), pi * 50e-6 / 36.0 * r * r / (r * r + 0.04), 0.015));
  }
}

TEST_CASE("shadow: a body on the way from a mirroring wall takes the light that comes from there, and no other") {
  Waterbody water{.length = 0.6_m,
                  .width = 0.5_m,
                  .refractive_index = 1.0,
                  .attenuation = 0.2_per_m,
                  .walls = Walls::mirror,
                  .wall_reflectance = 1.0};
  // Lamp 0.3 m over the place's own vertical, both 0.1 m from the wall: the path meets the wall 0.05 m under water.
  const std::vector<PlacedLuminaire> lamp{at(0.1_m, 0.25_m, 0.3_m)};
  const auto directions = [&](const ShadingBodies& bodies) {
    return light_directions(lamp, water, 0.4_m, 0.1_m, 0.25_m, 1_deg, bodies);
  };
  const auto from_wall = [](const std::vector<LightDirection>& list) {
    return std::count_if(list.begin(), list.end(), [](const LightDirection& d) {
      return std::abs(std::abs(si(d.azimuth)) - pi) < 1e-6 &&
             std::abs(std::tan(si(d.from_vertical)) - 0.2 / 0.7) < 1e-9;
    });
  };
  const auto all = directions({});
  CHECK(from_wall(all) == 1);
  const auto left = directions({.discs = {{0.05_m, 0.25_m, 0.225_m, 0.02_m}}});
  CHECK(from_wall(left) == 0);
  CHECK(left.size() == all.size() - 1);
  CHECK(directions({.discs = {{0.05_m, 0.25_m, 0.03_m, 0.02_m}}}).size() == all.size());  // beside the way to the wall
}

TEST_CASE("shadow: three and six luminaires over colonies between panes [photon tracer]") {
  const Waterbody water{.length = 400_mm,
                        .width = 300_mm,
                        .refractive_index = 1.339,
                        .attenuation = 0.2_per_m,
                        .walls = Walls::mirror,
                        .wall_reflectance = 0.9};
  const ShadingCylinder colony{.x = 200_mm, .y = 150_mm, .base_depth = 200_mm, .height = 110_mm, .radius = 30_mm};
  const ShadingBodies bodies = rack(colony, water);
  for (const int count : {3, 6}) {
    CAPTURE(count);
    Luminaire lamp = small_lamp();
    lamp.aperture_length = 60_mm;
    lamp.points_along = 3;
    const auto row = evenly_spaced(lamp, count, water.length, water.width, 250_mm, 90_deg);
    const ShadowMap fine = shadow_map(row, water, bodies, 200_mm, 240, 180);
    const auto traced = theca::test::PhotonTracer(water, 200_mm, 7u, bodies).trace(row, 3000000 / count, 4, 3);
    double mean = 0.0, variance = 0.0;
    for (int j = 0; j < 3; ++j)
      for (int i = 0; i < 4; ++i) {
        const auto c = static_cast<std::size_t>(j * 4 + i);
        double expected = 0.0;
        for (int b = 0; b < 60; ++b)
          for (int a = 0; a < 60; ++a) expected += si(fine.shaded.at(i * 60 + a, j * 60 + b)) / 3600.0;
        CHECK(within(traced.ppfd[c], expected, 3.0 * traced.standard_error[c]));
        mean += traced.ppfd[c] / 12.0;
        variance += std::pow(traced.standard_error[c] / 12.0, 2);
      }
    CHECK(std::sqrt(variance) < 3e-3 * mean);
    CHECK(within(mean, si(fine.shaded.mean()), 3.0 * std::sqrt(variance)));
    CHECK(mean < 0.8 * si(fine.unshaded.mean()));

    const ColonyLight light = colony_light(row, water, colony, without_first(bodies), 64);
    const double area = 2.0 * pi * 0.03 * 0.11;
    CHECK(traced.on_flank_error < 2e-2 * traced.on_flank);
    CHECK(within(traced.on_flank / area, si(light.flank.shaded), 3.0 * traced.on_flank_error / area));
    CHECK(shaded_share(light.flank) > 0.05);
  }
}

TEST_CASE("shadow: domes, plugs, a pipe and a tier over a tank with panes [photon tracer]") {
  const Waterbody water{.length = 400_mm,
                        .width = 300_mm,
                        .refractive_index = 1.339,
                        .attenuation = 0.2_per_m,
                        .walls = Walls::pane,
                        .pane = {.thickness = 3_mm, .refractive_index = 1.52, .attenuation = 10_per_m}};
  const ShadingBodies bodies{
      .discs = {{300_mm, 90_mm, 150_mm, 30_mm}, {330_mm, 200_mm, 150_mm, 30_mm}},
      .hemispheres = {{100_mm, 100_mm, 250_mm, 40_mm}, {200_mm, 200_mm, 250_mm, 50_mm}},
      .pipes = {{120_mm, -9_m, 60_mm, 120_mm, 9_m, 60_mm, 16_mm}, {250_mm, -9_m, -40_mm, 250_mm, 9_m, -40_mm, 12_mm}},
      .plates = {{0_mm, 200_mm, 120_mm, 100_mm, 150_mm}}};
  const std::vector<PlacedLuminaire> lamps{at(100_mm, 150_mm, 220_mm), at(300_mm, 130_mm, 260_mm)};
  const ShadowMap fine = shadow_map(lamps, water, bodies, 250_mm, 240, 180);
  const auto traced = theca::test::PhotonTracer(water, 250_mm, 11u, bodies).trace(lamps, 1500000, 4, 3);
  double mean = 0.0, variance = 0.0;
  for (int j = 0; j < 3; ++j)
    for (int i = 0; i < 4; ++i) {
      const auto c = static_cast<std::size_t>(j * 4 + i);
      double expected = 0.0;
      for (int b = 0; b < 60; ++b)
        for (int a = 0; a < 60; ++a) expected += si(fine.shaded.at(i * 60 + a, j * 60 + b)) / 3600.0;
      // Light mirrored by a pane comes back up to some mm aside of where the shadow's path is taken to turn.
      CHECK(within(traced.ppfd[c], expected, 3.0 * traced.standard_error[c]));
      mean += traced.ppfd[c] / 12.0;
      variance += std::pow(traced.standard_error[c] / 12.0, 2);
    }
  CHECK(std::sqrt(variance) < 3e-3 * mean);
  CHECK(within(mean, si(fine.shaded.mean()), 3.0 * std::sqrt(variance)));
  CHECK(mean < 0.8 * si(fine.unshaded.mean()));
}

TEST_CASE("shadow: a colony's flank and dome are lit as flat sensors that face as they do") {
  const Waterbody water = square_metre();
  const std::vector<PlacedLuminaire> lamps{at(0.3_m, 0.4_m, 0.5_m), at(0.9_m, 0.6_m, 0.7_m)};
  const ShadingCylinder column{.x = 0.5_m, .y = 0.5_m, .base_depth = 0.3_m, .height = 1_um, .radius = 1_um};
  const ColonyLight tiny = colony_light(lamps, water, column, {}, 8);
  for (std::size_t s = 0; s < 8; ++s) {
    const Angle azimuth = static_cast<double>(s) * 45.0 * units::degree;
    const auto side = ppfd_at(lamps, water, 0.3_m, 0.5_m, 0.5_m, {.tilt = 90_deg, .azimuth = azimuth});
    CHECK(within(si(tiny.sectors[s].unshaded), si(side), 1e-5 * si(tiny.top.unshaded)));
    CHECK(tiny.sectors[s].shaded == tiny.sectors[s].unshaded);
  }
  CHECK(near(tiny.top.unshaded, ppfd_at(lamps, water, 0.3_m, 0.5_m, 0.5_m), 1e-5));
  // One direction only, straight down: a dome's bands by their projection, top (1 - cos^2 45)/2 over (1 - cos 45),
  // flank cos^2 45/2 over cos 45; a column's flank stays dark.
  const std::vector<PlacedLuminaire> high{at(0.5_m, 0.5_m, 1000_m)};
  const ColonyLight dome = colony_light(high, water, ShadingHemisphere{0.5_m, 0.5_m, 0.3_m, 1_mm}, {}, 8);
  const double level = si(ppfd_at(high, water, 0.3_m, 0.5_m, 0.5_m)), c = std::sqrt(0.5);
  CHECK(near(si(dome.top.unshaded), level * 0.5 * (1.0 - c * c) / (1.0 - c), 1e-3));
  CHECK(near(si(dome.flank.unshaded), level * 0.5 * c, 1e-3));
  const ColonyLight dark = colony_light(high, water, ShadingCylinder{0.5_m, 0.5_m, 0.3_m, 5_cm, 2_cm}, {}, 8);
  CHECK(si(dark.flank.unshaded) < 1e-4 * level);
}

TEST_CASE("shadow: a lamp at one side leaves half a flank dark, a ring of lamps none, whatever the neighbours take") {
  const Waterbody water{.length = 2_m, .width = 2_m, .refractive_index = 1.339, .attenuation = 0.15_per_m};
  const ShadingCylinder colony{.x = 1_m, .y = 1_m, .base_depth = 0.3_m, .height = 10_cm, .radius = 2.5_cm};
  const ShadingBodies others = without_first(rack(colony, water));
  std::vector<PlacedLuminaire> ring;
  for (int k = 0; k < 8; ++k) {
    const double angle = (k + 0.5) * pi / 4.0;
    ring.push_back(at(1_m + 0.8_m * std::cos(angle), 1_m + 0.8_m * std::sin(angle), 0.4_m));
  }
  const ColonyLight all_round = colony_light(ring, water, colony, others, 16);
  CHECK(dark_flank_share(all_round, 0.5 * (1.0 - shaded_share(all_round.flank))) == 0.0);
  CHECK(shaded_share(all_round.flank) > 0.1);
  CHECK(shaded_share(all_round.top) == 0.0);  // nothing stands higher
  double sum = 0.0;
  for (const ShadedLight& s : all_round.sectors) sum += si(s.shaded) / 16.0;
  CHECK(near(sum, si(all_round.flank.shaded), 1e-12));
  // From one side: half of the sectors look away from it.
  const ColonyLight one_side = colony_light(std::vector{at(0.2_m, 1_m, 0.4_m)}, water, colony, {}, 16);
  CHECK(dark_flank_share(one_side, 1e-6) == 9.0 / 16.0);  // the two edge on are behind the curve
  const ColonyLight plug = colony_light(ring, water, ShadingDisc{1_m, 1_m, 0.3_m, 2_cm}, {});
  CHECK(plug.sectors.empty());
  CHECK(dark_flank_share(plug, 0.5) == 0.0);
}

TEST_CASE("light directions: as many as luminaires that stand apart, from where Snell's law bends them to") {
  const Waterbody water = square_metre();
  std::vector<PlacedLuminaire> lamps;
  for (const double a : {0.0, 90.0, 180.0, 270.0})
    lamps.push_back(at(0.5_m + 0.4 * std::cos(a * pi / 180.0) * units::metre,
                       0.5_m + 0.4 * std::sin(a * pi / 180.0) * units::metre, 0.5_m));
  auto directions = light_directions(lamps, water, 0.3_m, 0.5_m, 0.5_m);
  REQUIRE(directions.size() == 4);
  for (const LightDirection& d : directions) {
    CHECK(near(d.share, 0.25, 1e-9));
    const double sine = 1.339 * std::sin(si(d.from_vertical));
    CHECK(near(0.5 * std::tan(std::asin(sine)) + 0.3 * std::tan(si(d.from_vertical)), 0.4, 1e-9));
    CHECK(near(std::abs(std::cos(2.0 * si(d.azimuth))), 1.0, 1e-9));
  }
  CHECK(distinct_directions(directions) == 4);
  CHECK(distinct_directions(directions, 0.3) == 0);
  // A pipe over the place's right takes the lamp at azimuth 0.
  const ShadingBodies pipe{.pipes = {{0.57_m, 0_m, -0.1_m, 0.57_m, 1_m, -0.1_m, 0.02_m}}};
  directions = light_directions(lamps, water, 0.3_m, 0.5_m, 0.5_m, 10_deg, pipe);
  CHECK(directions.size() == 3);
  for (const LightDirection& d : directions) CHECK(std::abs(si(d.azimuth)) > 1.0);
  // Points of one aperture close together are one direction; of a wide diffuser, many.
  Luminaire wide = small_lamp();
  wide.aperture_length = wide.aperture_width = 5_cm;
  wide.points_along = wide.points_across = 5;
  CHECK(light_directions(std::vector{at(0.5_m, 0.5_m, 0.5_m, wide)}, water, 0.3_m, 0.5_m, 0.5_m).size() == 1);
  wide.aperture_length = wide.aperture_width = 2_m;
  CHECK(light_directions(std::vector{at(0.5_m, 0.5_m, 0.5_m, wide)}, water, 0.3_m, 0.5_m, 0.5_m).size() > 6);
  CHECK(light_directions(lamps, water, 0.3_m, 0.5_m, 0.5_m, 10_deg, {.plates = {{-5_m, -5_m, 10_m, 10_m, 0.1_m}}})
            .empty());
}

TEST_CASE("neighbours: the rings of a square pitch, those beyond the rack left out") {
  const ShadingDisc middle{0.5_m, 0.5_m, 0.3_m, 2_cm}, corner{1_cm, 1_cm, 0.3_m, 2_cm};
  CHECK(neighbours(middle, 5_cm, 1, 1_m, 1_m).size() == 8);
  CHECK(neighbours(middle, 5_cm, 2, 1_m, 1_m).size() == 24);
  CHECK(neighbours(corner, 5_cm, 1, 1_m, 1_m).size() == 3);
  CHECK(contains(message_of<InvalidInput>([&] { neighbours(middle, 4_cm, 1, 1_m, 1_m); }), "pitch"));
  CHECK(contains(message_of<InvalidInput>([&] { neighbours(middle, 5_cm, -1, 1_m, 1_m); }), "rings"));
}

TEST_CASE("shadow: impossible bodies are refused by kind, place in the list and member") {
  const std::vector<PlacedLuminaire> lamp{at(0.5_m, 0.5_m, 0.5_m)};
  const auto refused = [&](const ShadingBodies& bodies, const char* words) {
    CHECK(contains(
        message_of<InvalidInput>([&] { (void)shaded_ppfd_at(lamp, square_metre(), bodies, 0.3_m, 0.5_m, 0.5_m); }),
        words));
  };
  refused({.discs = {{0_m, 0_m, -1_m, 1_m}}}, "depth of shading disc 1");
  refused({.cylinders = {{0_m, 0_m, 0.3_m, 0.4_m, 1_m}}}, "height of shading cylinder 1");
  refused({.hemispheres = {{0_m, 0_m, 0.3_m, 0.2_m}, {0_m, 0_m, 0.3_m, 0.4_m}}}, "radius of shading hemisphere 2");
  refused({.pipes = {{0_m, 0_m, 0_m, 0_m, 0_m, 0_m, 1_cm}}}, "to x of shading pipe 1");
  refused({.plates = {{0_m, 0_m, 0_m, 1_m, 0_m}}}, "length of shading plate 1");
  refused({.plates = {{0_m, 0_m, 1_m, 1_m, std::nan("") * units::metre}}}, "height of shading plate 1");
  CHECK(contains(message_of<InvalidInput>([&] {
                   (void)colony_light(lamp, square_metre(), ShadingDisc{0_m, 0.5_m, 0.3_m, 2_cm}, {});
                 }),
                 "x of the colony"));
  CHECK(contains(message_of<InvalidInput>([&] { (void)distinct_directions({}, 0.0); }), "least share"));
}
