// Measures of a map by hand, and the photons that a wide map must catch.
#include "theca/light/map_measures.hpp"

#include <cmath>

#include "demo_luminaire.hpp"
#include "support/near.hpp"
#include "theca/error.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using test::near;

namespace {
PpfdMap four_cells() {
  PpfdMap map;
  map.nx = map.ny = 2;
  map.length = 2_m;
  map.width = 0.5_m;
  map.values = {400e-6, 100e-6, 300e-6, 200e-6};
  return map;
}
}  // namespace

TEST_CASE("measures of four cells of 100, 200, 300 and 400 umol/m2/s [by hand]") {
  const PpfdMap map = four_cells();
  CHECK(near(percentile(map, 0.0), 100_umol_m2_s, 1e-12));
  CHECK(near(percentile(map, 0.5), 250_umol_m2_s, 1e-12));
  CHECK(near(percentile(map, 0.1), 130_umol_m2_s, 1e-12));  // type 7: 0.3 of the way from the first to the second
  CHECK(near(percentile(map, 1.0), 400_umol_m2_s, 1e-12));
  CHECK(near(coefficient_of_variation(map), std::sqrt(12500.0) / 250.0, 1e-12));
  CHECK(share_within(map, 200_umol_m2_s, 300_umol_m2_s) == 0.5);
  CHECK(share_within(map, 0_umol_m2_s, 99_umol_m2_s) == 0.0);
  CHECK(near(photons_on_plane(map), 250_umol_s, 1e-12));  // on 1 m2
}

TEST_CASE("photons of a lamp over a wide dry plane all arrive: utilance 1, delivered efficacy the lamp's own") {
  // Index 1 is no surface at all. A lobe of exponent 3 at 10 cm over 3 m x 3 m: beyond lies cos^4 of 86 deg, 2e-5.
  const Waterbody water{.length = 3_m, .width = 3_m, .refractive_index = 1.0, .attenuation = 0_per_m};
  const Luminaire lamp{.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 3.0}, .power = 30_W};
  const std::vector<PlacedLuminaire> one{{.luminaire = lamp, .x = 1.5_m, .y = 1.5_m, .mounting_height = 0.1_m}};
  const PpfdMap map = light::map(one, water, 0_m, 301, 301);
  CHECK(near(utilance(map, one), 1.0, 5e-3));  // midpoints of cells of 1 cm
  CHECK(near(delivered_efficacy(map, one), photon_efficacy(lamp), 5e-3));
}

TEST_CASE("daily light integral with ramps: 10 h at 200 umol/m2/s with two hours of dawn and one of dusk [by hand]") {
  CHECK(near(daily_light_integral(200_umol_m2_s, 10_h, 2_h, 1_h), 200_umol_m2_s * (7_h + 1_h + 0.5_h), 1e-12));
  CHECK(near(daily_light_integral(200_umol_m2_s, 10_h, 0_h, 0_h), daily_light_integral(200_umol_m2_s, 10_h), 1e-15));
  CHECK_THROWS_AS(daily_light_integral(200_umol_m2_s, 10_h, 6_h, 5_h), InvalidInput);
  CHECK_THROWS_AS(daily_light_integral(200_umol_m2_s, 10_h, -1.0 * 1_h, 5_h), InvalidInput);
}

TEST_CASE(
    "light heat: a narrow beam straight down loses 2.1 % at the surface, the rest of its energy heats the water") {
  // Half the electricity as light of 4.6 umol/J; the beam of 2 deg stays in the tank and falls in nearly straight:
  // reflectance ((n-1)/(n+1))^2.
  const Waterbody water{.length = 1_m, .width = 1_m, .refractive_index = 1.34, .attenuation = 0.2_per_m};
  const Luminaire lamp{.intensity = cosine_lobe(0.5 * 4.6 * 100.0 * units::umol_per_second, 2_deg), .power = 100_W};
  const std::vector<PlacedLuminaire> one{{.luminaire = lamp, .x = 0.5_m, .y = 0.5_m, .mounting_height = 1_m}};
  const LightHeat heat = light_heat(one, water, 4.6 * units::umol_per_joule, 400, 400);
  CHECK(near(heat.to_water, (1.0 - std::pow(0.34 / 2.34, 2)) * 50_W, 1e-3));  // midpoints of cells of 2.5 mm
  CHECK(near(heat.to_room + heat.to_water, 100_W, 1e-14));
  CHECK(near(in(heat.entering, units::umol_per_second), 4.6 * in(heat.to_water, units::watt), 1e-12));
  auto dimmed = one;
  dimmed[0].dimming = 0.25;
  CHECK(near(light_heat(dimmed, water, 4.6 * units::umol_per_joule, 400, 400).to_water, 0.25 * heat.to_water, 1e-12));
  CHECK_THROWS_AS(light_heat(one, water, 1.0 * units::umol_per_joule), InvalidInput);
  CHECK_THROWS_AS(light_heat(one, water, PhotonEfficacy()), InvalidInput);
}

TEST_CASE("measures: impossible input is refused") {
  const PpfdMap map = four_cells();
  CHECK_THROWS_AS(percentile(map, 1.1), InvalidInput);
  CHECK_THROWS_AS(percentile(PpfdMap{}, 0.5), InvalidInput);
  CHECK_THROWS_AS(coefficient_of_variation(PpfdMap{}), InvalidInput);
  CHECK_THROWS_AS(share_within(map, 300_umol_m2_s, 200_umol_m2_s), InvalidInput);
  CHECK_THROWS_AS(utilance(map, {}), InvalidInput);
  CHECK_THROWS_AS(delivered_efficacy(map, {}), InvalidInput);
}
