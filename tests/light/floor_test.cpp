#include "theca/light/floor.hpp"

#include <cmath>
#include <vector>

#include "photon_tracer.hpp"
#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/light/fresnel.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {
PlacedLuminaire lamp_at(Length x, Length y, Length height) {
  return {.luminaire = {.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 1.0}, .power = 30_W},
          .x = x,
          .y = y,
          .mounting_height = height};
}

// Share of diffuse light from below that a flat surface throws back, from that of light from above: radiance grows by
// n^2 on the way in (Kirchhoff; Preisendorfer 1976, from memory: 0.48 for water).
double thrown_back(double n) { return 1.0 - (1.0 - diffuse_surface_reflectance(n)) / (n * n); }
}  // namespace

TEST_CASE("floor: between an endless matt floor and the surface light adds up as 1/(1 - reflectance x 0.48)") {
  // A lamp so high that it lights a pond of 30 x 30 m, 0.3 m deep, evenly; seen at its middle.
  const Waterbody pond{.length = 30_m, .width = 30_m, .refractive_index = 1.339, .attenuation = Attenuation()};
  const std::vector<PlacedLuminaire> sun{lamp_at(15_m, 15_m, 1000_m)};
  CHECK(near(thrown_back(1.339), 0.48, 0.01));
  for (const double reflectance : {0.1, 0.5, 0.9}) {
    const FloorLight light = floor_light(sun, pond, {.depth = 0.3_m, .reflectance = reflectance}, 40, 40);
    const double direct = si(light.direct.at(20, 20)), total = si(light.total.at(20, 20));
    const double expected = 1.0 / (1.0 - reflectance * thrown_back(1.339));
    CHECK(near(total / direct, expected, 5e-3));  // light is followed to a thousandth, patches are cut in parts
    // At half depth: a flat sensor gets the floor's light from below, and what is thrown back from above.
    const auto seen = [&](const Receiver& receiver) {
      return si(ppfd_from_floor_at(light, pond, 0.15_m, 15_m, 15_m, receiver)) / direct;
    };
    CHECK(near(seen({.tilt = 180_deg}), reflectance * expected, 1e-2));
    CHECK(near(seen({}), reflectance * expected * thrown_back(1.339), 1e-2));
    // A sphere sees diffuse light twice as strong as a flat sensor does; light thrown back, still more of it sideways.
    CHECK(seen({.spherical = true}) > 2.0 * (seen({.tilt = 180_deg}) + seen({})));
  }
}

TEST_CASE("floor: without reflectance nothing comes from it, and more reflectance gives more everywhere") {
  const Waterbody water{.length = 0.4_m, .width = 0.3_m, .refractive_index = 1.339, .attenuation = 0.2_per_m};
  const std::vector<PlacedLuminaire> lamp{lamp_at(0.1_m, 0.15_m, 0.3_m)};
  const PpfdMap black = map_with_floor(lamp, water, {.depth = 0.3_m}, 0.2_m, 4, 3);
  CHECK(black.values == map(lamp, water, 0.2_m, 4, 3).values);
  const PpfdMap grey = map_with_floor(lamp, water, {.depth = 0.3_m, .reflectance = 0.3}, 0.2_m, 4, 3);
  const PpfdMap white = map_with_floor(lamp, water, {.depth = 0.3_m, .reflectance = 0.9}, 0.2_m, 4, 3);
  for (std::size_t i = 0; i < black.values.size(); ++i) {
    CHECK(grey.values[i] > black.values[i]);
    CHECK(white.values[i] > grey.values[i]);
  }
}

TEST_CASE("floor: a matt floor of reflectance 0.6 between walls of each kind [photon tracer]") {
  Waterbody water{.length = 400_mm, .width = 300_mm, .refractive_index = 1.339, .attenuation = 0.3_per_m};
  const DiffuseFloor floor{.depth = 250_mm, .reflectance = 0.6};
  const std::vector<PlacedLuminaire> lamps{lamp_at(130_mm, 150_mm, 220_mm)};
  water.wall_reflectance = 0.8;
  water.pane = {.thickness = 2_mm, .refractive_index = 1.52, .attenuation = 10_per_m};
  for (const Walls walls : {Walls::mirror, Walls::pane}) {
    CAPTURE(static_cast<int>(walls));
    water.walls = walls;
    const auto traced = theca::test::PhotonTracer(water, 150_mm, 5u, {}, floor).trace(lamps, 1000000, 4, 3);
    // The lamp's own light has edges, where rays begin to enter beside the tank: a fine map; the floor's is smooth.
    const auto block = [](const PpfdMap& fine, int i, int j) {
      double sum = 0.0;
      const int wide = fine.nx / 4, high = fine.ny / 3;
      for (int b = 0; b < high; ++b)
        for (int a = 0; a < wide; ++a) sum += si(fine.at(wide * i + a, high * j + b));
      return sum / (wide * high);
    };
    struct Seen {
      PpfdMap fine, bare, with_floor;
    };
    const auto seen = [&](const Receiver& receiver) {
      return Seen{map(lamps, water, 150_mm, 240, 180, receiver), map(lamps, water, 150_mm, 16, 12, receiver),
                  map_with_floor(lamps, water, floor, 150_mm, 16, 12, receiver)};
    };
    const Seen flat = seen({}), sphere = seen({.spherical = true});
    const auto total = [&](const Seen& of, int i, int j) {
      return block(of.fine, i, j) + block(of.with_floor, i, j) - block(of.bare, i, j);
    };
    double mean = 0.0, variance = 0.0, expected_mean = 0.0;
    for (int j = 0; j < 3; ++j)
      for (int i = 0; i < 4; ++i) {
        const auto c = static_cast<std::size_t>(j * 4 + i);
        // Patches of 17 x 37 mm and wall images to a thousandth: 0.2 %, of a sphere's from near 0.4 %.
        const double expected = total(flat, i, j), scalar = total(sphere, i, j);
        CHECK(within(traced.ppfd[c], expected, 3.0 * traced.standard_error[c] + 2e-3 * expected));
        CHECK(within(traced.scalar[c], scalar, 3.0 * traced.scalar_error[c] + 4e-3 * scalar));
        mean += traced.ppfd[c] / 12.0;
        expected_mean += expected / 12.0;
        variance += std::pow(traced.standard_error[c] / 12.0, 2);
      }
    CHECK(std::sqrt(variance) < 3e-3 * mean);
    CHECK(within(mean, expected_mean, 3.0 * std::sqrt(variance) + 1e-3 * mean));
    // Between panes, what the surface would throw back whole leaves by the panes.
    CHECK(expected_mean > (walls == Walls::mirror ? 1.1 : 1.03) * si(flat.fine.mean()));
  }
}

TEST_CASE("floor: impossible ones are refused by name") {
  const Waterbody water{.length = 0.4_m, .width = 0.3_m, .refractive_index = 1.339, .attenuation = 0.2_per_m};
  const std::vector<PlacedLuminaire> lamp{lamp_at(0.1_m, 0.15_m, 0.3_m)};
  const auto refused = [&](auto&& call, const char* words) { CHECK(contains(message_of<InvalidInput>(call), words)); };
  refused([&] { (void)floor_light(lamp, water, {.depth = Length(), .reflectance = 0.5}); }, "depth of the floor");
  refused([&] { (void)floor_light(lamp, water, {.depth = 0.3_m, .reflectance = 1.1}); }, "reflectance of the floor");
  refused([&] { (void)floor_light(lamp, water, {.depth = 0.3_m, .reflectance = 0.5}, 100, 100); }, "patches");
  refused([&] { (void)map_with_floor(lamp, water, {.depth = 0.3_m, .reflectance = 0.5}, 0.4_m, 2, 2); }, "plane depth");
  const FloorLight light = floor_light(lamp, water, {.depth = 0.3_m, .reflectance = 0.5}, 4, 3);
  refused([&] { (void)ppfd_from_floor_at(light, water, 0.4_m, 0.1_m, 0.1_m); }, "depth");
  refused([&] { (void)ppfd_from_floor_at(light, water, 0.2_m, 0.5_m, 0.1_m); }, "x");
  refused(
      [&] { (void)ppfd_from_floor_at({.floor = light.floor, .direct = {}, .total = {}}, water, 0.2_m, 0.1_m, 0.1_m); },
      "patches");
}
