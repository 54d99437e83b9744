// The light field against a tracer of single photons, cell averages within three standard errors.
#include <cmath>

#include "demo_luminaire.hpp"
#include "photon_tracer.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;

namespace {

/// Means of a fine map over blocks, comparable with the tracer's cells.
double block_mean(const PpfdMap& fine, int i, int j, int nx, int ny) {
  const int wide = fine.nx / nx, high = fine.ny / ny;
  double sum = 0.0;
  for (int b = 0; b < high; ++b)
    for (int a = 0; a < wide; ++a) sum += si(fine.at(i * wide + a, j * high + b));
  return sum / (wide * high);
}

/// The traced cells must lie within three standard errors of the computed ones, and their mean within three of its own.
/// @param least_hit  photons that the darkest cell must have got, so that its standard error is one
/// @param widest     largest relative standard error of the mean that the case is meant to have
/// @param fine_cells computed for each traced cell and direction
void compare(const std::vector<PlacedLuminaire>& luminaires, const Waterbody& water, Length depth, int photons, int nx,
             int ny, double least_hit, double widest, int fine_cells = 30) {
  const auto fine = map(luminaires, water, depth, fine_cells * nx, fine_cells * ny);
  const auto traced = test::PhotonTracer(water, depth, 20240601u).trace(luminaires, photons, nx, ny);
  double mean = 0.0, variance = 0.0;
  for (int j = 0; j < ny; ++j)
    for (int i = 0; i < nx; ++i) {
      const auto c = static_cast<std::size_t>(j * nx + i);
      CAPTURE(i);
      CAPTURE(j);
      const double expected = block_mean(fine, i, j, nx, ny);
      CHECK(std::pow(traced.ppfd[c] / traced.standard_error[c], 2) >= least_hit);
      CHECK(test::within(traced.ppfd[c], expected, 3.0 * traced.standard_error[c]));
      mean += traced.ppfd[c] / (nx * ny);
      variance += std::pow(traced.standard_error[c] / (nx * ny), 2);
    }
  CHECK(std::sqrt(variance) <= widest * mean);
  CHECK(test::within(mean, si(fine.mean()), 3.0 * std::sqrt(variance)));
}

}  // namespace

TEST_CASE("light field: seven luminaires at 30 in over the demo tank, walls ignored [photon tracer]") {
  const Waterbody water = test::demo_water();
  const auto row = evenly_spaced(test::demo_luminaire(), 7, water.length, water.width, 30_in, 90_deg);
  compare(row, water, 8_in, 150000, 6, 2, 1000.0, 2e-3);
}

TEST_CASE("light field: the same with mirror walls of reflectance 0.9 [photon tracer]") {
  Waterbody water = test::demo_water();
  water.walls = Walls::mirror;
  water.wall_reflectance = 0.9;
  const auto row = evenly_spaced(test::demo_luminaire(), 7, water.length, water.width, 30_in, 90_deg);
  compare(row, water, 8_in, 150000, 6, 2, 1000.0, 2e-3);
}

TEST_CASE("light field: a deep narrow tank with many wall meetings, off-centre turned source [photon tracer]") {
  const Waterbody water{.length = 300_mm,
                        .width = 200_mm,
                        .refractive_index = 1.339,
                        .attenuation = 0.5_per_m,
                        .walls = Walls::mirror,
                        .wall_reflectance = 0.7};
  const Luminaire lamp{.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 1.5},
                       .aperture_length = 80_mm,
                       .aperture_width = 20_mm,
                       .points_along = 4,
                       .points_across = 1,
                       .power = 30_W};
  const std::vector<PlacedLuminaire> one{
      {.luminaire = lamp, .x = 90_mm, .y = 120_mm, .mounting_height = 150_mm, .heading = 30_deg}};
  compare(one, water, 600_mm, 1000000, 3, 2, 1000.0, 3e-3);
}

TEST_CASE("light field: black walls and a source outside the tank's outline [photon tracer]") {
  const Waterbody water{.length = 500_mm,
                        .width = 400_mm,
                        .refractive_index = 1.339,
                        .attenuation = 0.2_per_m,
                        .walls = Walls::mirror,
                        .wall_reflectance = 0.0};
  const Luminaire lamp{.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 1.0}, .power = 30_W};
  const std::vector<PlacedLuminaire> one{{.luminaire = lamp, .x = -100_mm, .y = 150_mm, .mounting_height = 300_mm}};
  compare(one, water, 250_mm, 1000000, 3, 2, 500.0, 4e-3);
}

TEST_CASE("light field: glass walls 19 mm thick, seven luminaires at 30 in over the demo tank [photon tracer]") {
  Waterbody water = test::demo_water();
  water.walls = Walls::pane;
  water.pane = {.thickness = 19_mm, .refractive_index = 1.52, .attenuation = 10_per_m};
  const auto row = evenly_spaced(test::demo_luminaire(), 7, water.length, water.width, 30_in, 90_deg);
  compare(row, water, 8_in, 150000, 6, 2, 1000.0, 2e-3);
}

TEST_CASE("light field: a low lamp between thick panes, rays that they let out and move aside [photon tracer]") {
  // Wide across, so that hardly any ray meets a corner, where the tracer has to guess.
  const Waterbody water{.length = 300_mm,
                        .width = 2000_mm,
                        .refractive_index = 1.339,
                        .attenuation = 0.3_per_m,
                        .walls = Walls::pane,
                        .pane = {.thickness = 40_mm, .refractive_index = 1.49, .attenuation = 0.5_per_m}};
  const Luminaire lamp{.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 1.0}, .power = 30_W};
  const std::vector<PlacedLuminaire> one{{.luminaire = lamp, .x = 60_mm, .y = 1000_mm, .mounting_height = 60_mm}};
  compare(one, water, 450_mm, 1000000, 3, 1, 1000.0, 3e-3);
}

TEST_CASE("light field: a web that shines mostly to one side, turned, between panes [photon tracer]") {
  PhotometricWeb web;
  for (int c = 0; c <= 360; c += 30) web.horizontal.push_back(c * units::degree);
  for (int g = 0; g <= 90; g += 15) web.vertical.push_back(g * units::degree);
  for (std::size_t c = 0; c < web.horizontal.size(); ++c)
    for (const Angle& gamma : web.vertical) {
      // 1 on the axis, at most 2.3; plane 360 as plane 0.
      const double side = std::cos(c + 1 == web.horizontal.size() ? 0.0 : si(web.horizontal[c]));
      const double s = std::sin(si(gamma));
      web.intensities.push_back(100.0 * std::cos(si(gamma)) * (1.0 + 3.0 * s * (1.0 + side)) * units::candela);
    }
  const Waterbody water{.length = 500_mm,
                        .width = 400_mm,
                        .refractive_index = 1.339,
                        .attenuation = 0.3_per_m,
                        .walls = Walls::pane,
                        .pane = {.thickness = 6_mm, .refractive_index = 1.52, .attenuation = 10_per_m}};
  const Luminaire lamp{
      .intensity = WebIntensity{web, 150_umol_s}, .aperture_length = 60_mm, .points_along = 3, .power = 60_W};
  const std::vector<PlacedLuminaire> one{
      {.luminaire = lamp, .x = 200_mm, .y = 150_mm, .mounting_height = 200_mm, .heading = 50_deg}};
  compare(one, water, 250_mm, 150000, 3, 2, 500.0, 5e-3);
}

TEST_CASE("light field: a long lamp turned, tilted by 35 deg and dimmed, between panes [photon tracer]") {
  const Waterbody water{.length = 500_mm,
                        .width = 400_mm,
                        .refractive_index = 1.339,
                        .attenuation = 0.3_per_m,
                        .walls = Walls::pane,
                        .pane = {.thickness = 6_mm, .refractive_index = 1.52, .attenuation = 10_per_m}};
  const Luminaire lamp{.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 2.0},
                       .aperture_length = 200_mm,
                       .aperture_width = 60_mm,
                       .points_along = 4,
                       .points_across = 2,
                       .power = 60_W};
  const std::vector<PlacedLuminaire> one{{.luminaire = lamp,
                                          .x = 150_mm,
                                          .y = 150_mm,
                                          .mounting_height = 250_mm,
                                          .heading = 30_deg,
                                          .tilt = 35_deg,
                                          .tilt_azimuth = 50_deg,
                                          .dimming = 0.6}};
  compare(one, water, 250_mm, 150000, 3, 2, 500.0, 5e-3);
}

TEST_CASE("light field: a wide diffuser of few parts between panes, against photons from all over it [photon tracer]") {
  Waterbody water = test::demo_water();
  water.length = 90_cm;
  water.walls = Walls::pane;
  water.pane.thickness = 15_mm;
  Luminaire lamp = test::demo_luminaire();
  lamp.shines_all_over = true;
  const std::vector<PlacedLuminaire> two{
      {.luminaire = lamp, .x = 25_cm, .y = 30_cm, .mounting_height = 60_cm, .heading = 90_deg},
      {.luminaire = lamp, .x = 65_cm, .y = 45_cm, .mounting_height = 60_cm, .heading = 20_deg}};
  compare(two, water, 25_cm, 400000, 5, 4, 1000.0, 2e-3);
}

namespace {

SideWall glass(Length thickness) {
  return {.kind = WallKind::pane, .pane = {.thickness = thickness, .refractive_index = 1.52, .attenuation = 10_per_m}};
}

Waterbody fitted() {
  return {.length = 600_mm,
          .width = 400_mm,
          .refractive_index = 1.339,
          .attenuation = 0.3_per_m,
          .walls = Walls::each,
          .sides = {.left = glass(19_mm),
                    .right = glass(6_mm),
                    .front = {.kind = WallKind::coated},
                    .back = {.kind = WallKind::coated, .mirror_share = 0.6}}};
}

PlacedLuminaire wide(Length x, Length y, Length height) {
  return {.luminaire = {.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 1.0},
                        .aperture_length = 200_mm,
                        .aperture_width = 60_mm,
                        .points_along = 4,
                        .points_across = 2,
                        .power = 60_W},
          .x = x,
          .y = y,
          .mounting_height = height};
}

}  // namespace

TEST_CASE("light field: two unlike panes, a black and a coated wall, freeboard 60 mm [photon tracer]") {
  Waterbody water = fitted();
  water.freeboard = 60_mm;
  compare({wide(200_mm, 150_mm, 150_mm)}, water, 250_mm, 500000, 3, 2, 1000.0, 3e-3);
}

TEST_CASE("light field: glass walls with 80 mm of freeboard, a lamp outside the outline [photon tracer]") {
  Waterbody water = fitted();
  water.sides.front = water.sides.back = glass(12_mm);
  water.freeboard = 80_mm;
  compare({wide(200_mm, -60.0 * 1_mm, 150_mm)}, water, 250_mm, 900000, 3, 2, 1000.0, 3e-3);
}

TEST_CASE("light field: clear rim and cross brace of 12 mm glass, light met by their upright sides [photon tracer]") {
  Waterbody water = fitted();
  water.sides = {.left = glass(12_mm), .right = glass(12_mm), .front = glass(12_mm), .back = glass(12_mm)};
  water.freeboard = 50_mm;
  water.braces = {.rim_width = 60_mm,
                  .cross_width = 80_mm,
                  .cross_at = {300_mm},
                  .pane = {.thickness = 12_mm, .refractive_index = 1.52, .attenuation = 10_per_m}};
  compare({wide(200_mm, 150_mm, 250_mm)}, water, 250_mm, 600000, 3, 2, 1000.0, 3e-3, 20);
}

TEST_CASE("light field: opaque rim and cross brace [photon tracer]") {
  Waterbody water = fitted();
  water.freeboard = 50_mm;
  water.braces = {
      .rim_width = 60_mm, .cross_width = 80_mm, .cross_at = {300_mm}, .opaque = true, .pane = {.thickness = 12_mm}};
  compare({wide(200_mm, 150_mm, 250_mm)}, water, 250_mm, 600000, 3, 2, 500.0, 3e-3);
}

TEST_CASE("light field: an acrylic cover 8 mm thick over glass walls [photon tracer]") {
  Waterbody water = fitted();
  water.sides.front = water.sides.back = glass(12_mm);
  water.freeboard = 40_mm;
  water.cover = Cover{.height = 60_mm, .pane = {.thickness = 8_mm, .refractive_index = 1.49, .attenuation = 5_per_m}};
  compare({wide(200_mm, 150_mm, 200_mm)}, water, 250_mm, 600000, 3, 2, 1000.0, 3e-3);
}

TEST_CASE("light field: ruffled water, mean square slope 0.02, between mirror walls [photon tracer]") {
  Waterbody water = fitted();
  water.walls = Walls::mirror;
  water.wall_reflectance = 0.8;
  water.slope_variance = 0.02;
  compare({wide(200_mm, 150_mm, 200_mm)}, water, 300_mm, 600000, 3, 2, 1000.0, 3e-3, 10);
}

TEST_CASE("light field: scalar irradiance between unlike walls, freeboard 60 mm [photon tracer]") {
  Waterbody water = fitted();
  water.freeboard = 60_mm;
  const std::vector<PlacedLuminaire> one{wide(200_mm, 150_mm, 150_mm)};
  const auto computed = map(one, water, 250_mm, 90, 60, {.spherical = true});
  const auto traced = test::PhotonTracer(water, 250_mm, 7u).trace(one, 500000, 1, 1);
  CHECK(traced.scalar_error[0] <= 3e-3 * traced.scalar[0]);
  CHECK(test::within(traced.scalar[0], si(computed.mean()), 3.0 * traced.scalar_error[0]));
}
