// Light of several bands in the water: Bouguer's law by hand, additivity, what blue and red lose.
#include "theca/light/water_bands.hpp"

#include <cmath>

#include "demo_luminaire.hpp"
#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/seawater/light_loss.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using test::near;

namespace {
const Temperature warm = celsius(25.0);
const AbsoluteSalinity salt = AbsoluteSalinity(35.0);
}  // namespace

TEST_CASE("band_optics: pure water, yellow matter and particles add up at 450 and 600 nm [by hand]") {
  const std::vector<SpectralBand> bands{{450_nm, 0.6}, {600_nm, 0.4}};
  const auto clear = band_optics(bands, warm, salt);
  CHECK(near(si(clear[0].attenuation), 0.00922, 1e-9));
  CHECK(near(si(clear[1].attenuation), 0.2224, 1e-9));
  const auto yellow = band_optics(bands, warm, salt, {.dissolved_at_440nm = 1_per_m, .particles_at_550nm = 0.11_per_m});
  CHECK(near(si(yellow[0].attenuation), 0.00922 + std::exp(-0.14) + 0.11 * 55.0 / 45.0, 1e-9));
  CHECK(near(si(yellow[1].attenuation), 0.2224 + std::exp(-2.24) + 0.11 * 55.0 / 60.0, 1e-9));
  // Blue is bent more than red.
  CHECK(clear[0].refractive_index > clear[1].refractive_index + 0.003);
}

TEST_CASE("map of bands: one band is the map of its water, two halves of it the same [additivity]") {
  const Waterbody water = test::demo_water();
  const auto row = evenly_spaced(test::demo_luminaire(), 3, water.length, water.width, 30_in, 90_deg);
  const PpfdMap plain = map(row, water, 8_in, 6, 4);
  const std::vector<BandOptics> one{{1.0, water.refractive_index, water.attenuation}};
  const std::vector<BandOptics> two{{0.3, water.refractive_index, water.attenuation},
                                    {0.7, water.refractive_index, water.attenuation}};
  for (const auto& bands : {one, two}) {
    const PpfdMap banded = map(row, water, bands, 8_in, 6, 4);
    for (std::size_t i = 0; i < plain.values.size(); ++i) CHECK(near(banded.values[i], plain.values[i], 1e-13));
  }
}

TEST_CASE("map of bands: under a lamp red light loses a fifth in 1 m, blue next to nothing [Bouguer]") {
  const Waterbody water{.length = 1_m, .width = 1_m, .refractive_index = 1.34, .attenuation = 0_per_m};
  const std::vector<PlacedLuminaire> one{
      {.luminaire = {.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 1.0}, .power = 30_W},
       .x = 0.5_m,
       .y = 0.5_m,
       .mounting_height = 1_m}};
  const std::vector<SpectralBand> red{{600_nm, 1.0}}, blue{{450_nm, 1.0}};
  const auto loss = [&](const std::vector<SpectralBand>& bands) {
    std::vector<BandOptics> optics = band_optics(bands, warm, salt), lossless = optics;
    lossless[0].attenuation = 0_per_m;
    return map(one, water, optics, 1_m, 1, 1).values[0] / map(one, water, lossless, 1_m, 1, 1).values[0];
  };
  CHECK(near(loss(red), std::exp(-0.2224), 1e-9));
  CHECK(near(loss(blue), std::exp(-0.00922), 1e-9));
}

TEST_CASE("map of bands: paths of the mean index are those of the bands one by one, in 0.3 and 5 m of water [sum]") {
  // 2e-4: what is left is of second order in the spread of the index, 0.003, and the sorting of red from blue on the
  // way.
  const std::vector<BandOptics> bands =
      band_optics(photon_bands(illuminant_d65(), 6), warm, salt, {.dissolved_at_440nm = 0.1_per_m});
  for (const Length& depth : {30_cm, 5_m}) {
    const Waterbody water{.length = 2_m, .width = 1_m, .refractive_index = 1.34, .attenuation = 0_per_m};
    const auto row = evenly_spaced(test::demo_luminaire(), 2, water.length, water.width, 40_cm);
    const PpfdMap together = map(row, water, bands, depth, 8, 4);
    std::vector<double> sum(together.values.size(), 0.0);
    for (const BandOptics& band : bands) {
      const PpfdMap one = map(row, water, std::vector<BandOptics>{band}, depth, 8, 4);
      for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += one.values[i];
    }
    for (std::size_t i = 0; i < sum.size(); ++i) CHECK(near(together.values[i], sum[i], 2e-4));
  }
}

TEST_CASE("bands: impossible ones are refused") {
  const Waterbody water = test::demo_water();
  const auto row = evenly_spaced(test::demo_luminaire(), 1, water.length, water.width, 30_in);
  CHECK_THROWS_AS(map(row, water, std::vector<BandOptics>{}, 8_in, 2, 2), InvalidInput);
  CHECK_THROWS_AS(map(row, water, std::vector<BandOptics>{{0.6, 1.34, 0_per_m}, {0.6, 1.34, 0_per_m}}, 8_in, 2, 2),
                  InvalidInput);
  CHECK_THROWS_AS(band_optics(std::vector<SpectralBand>{{450_nm, 1.5}}, warm, salt), InvalidInput);
  CHECK_THROWS_AS(band_optics(std::vector<SpectralBand>{{750_nm, 0.5}}, warm, salt), OutOfValidity);
  CHECK_THROWS_AS(band_optics(std::vector<SpectralBand>{{450_nm, 0.5}}, warm, salt, {.dissolved_at_440nm = -1_per_m}),
                  InvalidInput);
}
