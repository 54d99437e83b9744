#include "theca/light/shadow.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
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

TEST_CASE("shadow: a row of pipes under an even sky lets through what the view factor of a row of tubes leaves") {
  // Textbook tables of view factors, infinite plane to a row of tubes of diameter D on centres s (from memory; crossed
  // strings over one pitch give the same): F = 1 - sqrt(1 - (D/s)^2) + D/s atan(sqrt((s/D)^2 - 1)). What is left of pi
  // times the sky's radiance reaches the plane, on the mean over a pitch. No light passes between tubes further than
  // acos(D/s) from upright, so that a sky 4 m wide and 20 m long, 1 m up, is as good as endless: what it lacks beyond
  // 10 m along the tubes is under 1e-3. Its points are 2 mm apart, gaps in the row's shadow 150 mm and more: 1.5e-3.
  constexpr double strips = 20.0;
  const Luminaire strip{.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 1.0},
                        .aperture_length = 4.0_m / strips,
                        .aperture_width = 20_m,
                        .points_along = 100,
                        .points_across = 50,
                        .power = 30_W};
  std::vector<PlacedLuminaire> sky;
  for (int k = 0; k < 20; ++k)
    sky.push_back(at(0.5_m + (k + 0.5 - 0.5 * strips) * strip.aperture_length, 0.5_m, 0.8_m, strip));
  Waterbody water = square_metre(1.0);
  water.attenuation = Attenuation();
  const double radiance = strips * 50e-6 / (4.0 * 20.0), pitch = 0.05;
  for (const double share : {0.5, 0.7}) {
    ShadingBodies row;
    for (int k = -20; k <= 20; ++k) {
      const Length x = (0.5 + k * pitch) * units::metre;
      row.pipes.push_back({x, -20_m, -0.1_m, x, 20_m, -0.1_m, 0.5 * share * pitch * units::metre});
    }
    double through = 0.0;
    constexpr int places = 23;  // no multiple of the points, lest the two beat
    for (int i = 0; i < places; ++i) {
      const Length x = (0.5 + (i + 0.5) / places * pitch) * units::metre;
      through += si(shaded_ppfd_at(sky, water, row, 0.2_m, x, 0.5_m).shaded) / places;
    }
    const double caught =
        1.0 - std::sqrt(1.0 - share * share) + share * std::atan(std::sqrt(1.0 / share / share - 1.0));
    CHECK(near(through, pi * radiance * (1.0 - caught), 1.5e-3));
  }
}

TEST_CASE("shadow: the edge of a shelf hides as much of a long lamp as lies behind it, from umbra to full light") {
  // Line of Lambert emitters, 0.4 m long and 0.8 m over the place: of each piece du comes h^2/(h^2 + u^2)^2 du, whose
  // integral is (u/(h^2 + u^2) + atan(u/h)/h)/2. The shelf, half-way, hides what lies beyond twice its edge's offset.
  // The lamp is 100 points, each seen or hidden as a whole: 1 % of the middle's share.
  const double h = 0.8, half = 0.2;
  const auto up_to = [&](double u) { return 0.5 * (u / (h * h + u * u) + std::atan(u / h) / h); };
  Luminaire line = small_lamp();
  line.aperture_length = 2.0 * half * units::metre;
  line.points_along = 100;
  Waterbody water = square_metre(1.0);
  water.attenuation = Attenuation();
  for (const double offset : {-0.12, -0.0901, -0.05, 0.0, 0.0301, 0.08, 0.12}) {
    const ShadingBodies shelf{
        .plates = {{(0.5 + offset) * units::metre, -5_m, 5_m, 10_m, 0_m}}};  // at the surface, 0.4 m over the place
    const double hidden =
        shaded_share(shaded_ppfd_at(std::vector{at(0.5_m, 0.5_m, 0.4_m, line)}, water, shelf, 0.4_m, 0.5_m, 0.5_m));
    const double edge = std::clamp(2.0 * offset, -half, half);
    const double expected = (up_to(half) - up_to(edge)) / (up_to(half) - up_to(-half));
    CHECK(within(hidden, expected, 0.5 * 0.012));
    if (std::abs(2.0 * offset) > half) CHECK(hidden == (offset < 0.0 ? 1.0 : 0.0));
  }
}

TEST_CASE("shadow: a sheet that floats on the water, flush with it, shades as one just above or below") {
  for (const Walls walls : {Walls::ignored, Walls::mirror}) {
    Waterbody water = square_metre();
    water.walls = walls;
    const std::vector<PlacedLuminaire> lamp{at(0.2_m, 0.5_m, 0.5_m)};
    const auto shaded = [&](const Length& height) {
      const ShadingBodies sheet{.plates = {{0_m, 0_m, 0.5_m, 1_m, height}}};
      return shaded_share(shaded_ppfd_at(lamp, water, sheet, 0.4_m, 0.3_m, 0.5_m));
    };
    CHECK(shaded(0_m) > 0.5);
    CHECK(shaded(0_m) == shaded(1_um));
    CHECK(shaded(0_m) == shaded(-1_um));
    const ShadingBodies pad{.discs = {{0.25_m, 0.5_m, 0_m, 0.2_m}}};
    CHECK(shaded_share(shaded_ppfd_at(lamp, water, pad, 0.4_m, 0.3_m, 0.5_m)) > 0.5);
  }
}

TEST_CASE("shadow: a Lambert lamp and a level sensor may change places, among pipes turned over with them") {
  // Reciprocity: the level middle between lamp and sensor is the mirror, no refraction.
  const Length height = 0.4_m, depth = 0.4_m;
  std::mt19937 random(5);
  const auto draw = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
  int hidden = 0;
  for (int trial = 0; trial < 200; ++trial) {
    ShadingBodies bodies, turned_over;
    for (int k = 0; k < 4; ++k) {
      const ShadingPipe pipe{draw(0.0, 1.0) * units::metre,    draw(0.0, 1.0) * units::metre,
                             draw(-0.35, 0.35) * units::metre, draw(0.0, 1.0) * units::metre,
                             draw(0.0, 1.0) * units::metre,    draw(-0.35, 0.35) * units::metre,
                             draw(0.01, 0.06) * units::metre};
      bodies.pipes.push_back(pipe);
      turned_over.pipes.push_back(
          {pipe.from_x, pipe.from_y, -pipe.from_height, pipe.to_x, pipe.to_y, -pipe.to_height, pipe.radius});
    }
    const Length ax = draw(0.0, 1.0) * units::metre, ay = draw(0.0, 1.0) * units::metre;
    const Length bx = draw(0.0, 1.0) * units::metre, by = draw(0.0, 1.0) * units::metre;
    Waterbody water = square_metre(1.0);
    water.attenuation = Attenuation();
    const ShadedLight there = shaded_ppfd_at(std::vector{at(ax, ay, height)}, water, bodies, depth, bx, by);
    const ShadedLight back = shaded_ppfd_at(std::vector{at(bx, by, height)}, water, turned_over, depth, ax, ay);
    CHECK(near(there.unshaded, back.unshaded, 1e-12));
    CHECK(shaded_share(there) == shaded_share(back));
    hidden += shaded_share(there) == 1.0;
  }
  CHECK(hidden > 20);
  CHECK(hidden < 180);
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
    const auto traced = theca::test::PhotonTracer(water, 200_mm, 7u, bodies).trace(row, 4800000 / count, 4, 3);
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

    // All nine together: photons on their flanks and tops, with every other column in the way.
    double on_flanks = 0.0, on_tops = 0.0, flank_shade = 0.0, top_shade = 0.0;
    for (std::size_t c = 0; c < bodies.cylinders.size(); ++c) {
      ShadingBodies others = bodies;
      others.cylinders.erase(others.cylinders.begin() + static_cast<std::ptrdiff_t>(c));
      const ColonyLight light = colony_light(row, water, bodies.cylinders[c], others, 64);
      on_flanks += si(light.flank.shaded) * 2.0 * pi * 0.03 * 0.11;
      on_tops += si(light.top.shaded) * pi * 0.03 * 0.03;
      flank_shade += shaded_share(light.flank) / 9.0;
      top_shade += shaded_share(light.top) / 9.0;
    }
    const double flanks_error = traced.on_flanks_error, tops_error = traced.on_tops_error;
    CHECK(flanks_error < 3e-3 * on_flanks);
    CHECK(tops_error < 3e-3 * on_tops);
    CHECK(within(traced.on_flanks, on_flanks, 3.0 * flanks_error));
    CHECK(within(traced.on_tops, on_tops, 3.0 * tops_error));
    CHECK(flank_shade > 0.05);
    CHECK(top_shade == 0.0);  // none stands higher
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

TEST_CASE("shadow: a column hides its far side also from what a mirroring wall behind it would return") {
  // Lamp, column and its far side in one plane upright on the wall; the column reaches the surface. By the wall the
  // lamp, 0.95 m away, sees over it what lies within 0.1 x 0.05/0.85 m = 6 mm of its top, above the uppermost ring.
  // What is left comes by the far walls, 10 m away.
  const Waterbody water{.length = 1_m,
                        .width = 20_m,
                        .refractive_index = 1.0,
                        .attenuation = 0.2_per_m,
                        .walls = Walls::mirror,
                        .wall_reflectance = 1.0};
  const ShadingCylinder colony{.x = 10_cm, .y = 10_m, .base_depth = 40_cm, .height = 40_cm, .radius = 5_cm};
  const ColonyLight light = colony_light(std::vector{at(0.9_m, 10_m, 0.05_m)}, water, colony, {}, 16);
  CHECK(light.sectors[8].unshaded < 0.01 * light.sectors[0].unshaded);
  CHECK(light.flank.shaded == light.flank.unshaded);
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

TEST_CASE("light directions: few luminaires, many and a diffuser of the same photons over the same rack") {
  const Waterbody water{.length = 1.2_m, .width = 0.6_m, .refractive_index = 1.339, .attenuation = 0.15_per_m};
  const ShadingCylinder colony{.x = 0.6_m, .y = 0.3_m, .base_depth = 0.3_m, .height = 10_cm, .radius = 2.5_cm};
  const ShadingBodies others = without_first(rack(colony, water));
  Luminaire diffuser = small_lamp();
  diffuser.aperture_length = 1.2_m;
  diffuser.aperture_width = 0.6_m;
  diffuser.points_along = 24;
  diffuser.points_across = 12;
  struct Seen {
    int directions;
    double strongest, deepest, flank;
  };
  const auto seen = [&](const std::vector<PlacedLuminaire>& lamps) {
    const auto directions = light_directions(lamps, water, 0.3_m, 0.6_m, 0.3_m, 8_deg);
    const ShadowMap map = shadow_map(lamps, water, rack(colony, water), 0.3_m, 60, 30);
    double deepest = 0.0;
    for (int j = 0; j < 30; ++j)
      for (int i = 0; i < 60; ++i) {
        const double out = std::hypot(si(map.shaded.x(i)) - 0.6, si(map.shaded.y(j)) - 0.3);
        if (out > 0.025 && out < 0.05)
          deepest = std::max(deepest, shaded_share({map.unshaded.at(i, j), map.shaded.at(i, j)}));
      }
    const ColonyLight light = colony_light(lamps, water, colony, others, 32);
    return Seen{distinct_directions(directions, 0.01), directions.front().share, deepest, shaded_share(light.flank)};
  };
  const Seen few = seen(evenly_spaced(small_lamp(), 3, water.length, water.width, 0.4_m));
  const Seen many = seen(evenly_spaced(small_lamp(), 6, water.length, water.width, 0.4_m));
  const Seen wide = seen({at(0.6_m, 0.3_m, 0.4_m, diffuser)});
  CHECK(few.directions == 3);
  CHECK(many.directions == 6);
  CHECK(wide.directions > 2 * many.directions);
  CHECK(few.strongest > many.strongest);
  CHECK(many.strongest > wide.strongest);
  // Of what flanks would get, neighbours take less the more sides it comes from.
  CHECK(few.flank > many.flank);
  CHECK(many.flank > wide.flank);
  // The darkest place beside a column need not gain: with six in one row more shadows fall one on another.
  CHECK(many.deepest > few.deepest);
  CHECK(wide.deepest < many.deepest);
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
