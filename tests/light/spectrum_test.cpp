// Photons, watts and lumens of a spectrum against definitions and the horticultural conversion table.
#include "theca/light/spectrum.hpp"

#include <cmath>

#include "support/near.hpp"
#include "theca/error.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using test::near;

namespace {
/// All its power within a hundredth of a nanometre.
Spectrum line(double wavelength_nm) {
  return {{(wavelength_nm - 0.005) * units::nanometre, (wavelength_nm + 0.005) * units::nanometre}, {1.0, 1.0}};
}
double per_joule(const Spectrum& s) { return in(photons_per_energy(s), units::umol_per_joule); }
}  // namespace

TEST_CASE("photons_per_energy: a line at 555 nm has 4.6394 umol/J [555 nm / (N_A h c)]") {
  // 0.119626566 J m/mol: 555e-9 / 0.119626566 = 4.639438e-6
  CHECK(near(per_joule(line(555.0)), 4.639438, 1e-6));
  CHECK(near(per_joule(line(450.0)) / per_joule(line(600.0)), 450.0 / 600.0, 1e-9));
  CHECK(per_joule(line(800.0)) == 0.0);
  CHECK(in(photons_per_energy(line(800.0), 700_nm, 900_nm), units::umol_per_joule) > 6.0);
}

TEST_CASE("luminous_efficacy: 683 lm/W times V at a line [CIE 1924]") {
  CHECK(near(si(luminous_efficacy(line(550.0))), 683.0 * 0.995, 1e-4));
  CHECK(near(si(luminous_efficacy(line(450.0))), 683.0 * 0.038, 2e-4));  // V bends at 450 nm
  CHECK(si(luminous_efficacy(line(900.0))) == 0.0);
  CHECK_THROWS_AS(photons_per_light(line(900.0)), InvalidInput);
}

TEST_CASE("daylight and incandescent light: umol per joule of 400-700 nm and lux per umol [Thimijan & Heins 1983]") {
  // Table 3, from memory: sun and sky 4.57 umol/J and 54 lx per umol/m2/s; incandescent 5.00 and 50. Their lamps are
  // not quite the CIE's: 3 %.
  const auto band_only = [](const Spectrum& all) {
    Spectrum band;
    for (std::size_t i = 0; i < all.power.size(); ++i)
      if (all.wavelengths[i] > 399.9_nm && all.wavelengths[i] < 700.1_nm) {
        band.wavelengths.push_back(all.wavelengths[i]);
        band.power.push_back(all.power[i]);
      }
    return band;
  };
  CHECK(near(per_joule(band_only(illuminant_d65())), 4.57, 0.03));
  CHECK(near(per_joule(band_only(illuminant_a())), 5.00, 0.03));
  CHECK(near(1.0 / in(photons_per_light(illuminant_d65()), units::umol_per_second_lumen), 54.0, 0.03));
  CHECK(near(1.0 / in(photons_per_light(illuminant_a()), units::umol_per_second_lumen), 50.0, 0.03));
}

TEST_CASE("black_body: illuminant A is one of 2855.5 K [ISO/CIE 11664-2]") {
  const Spectrum a = illuminant_a(), body = black_body(from_si<Temperature>(2855.5));
  for (std::size_t i = 0; i < a.power.size(); ++i) CHECK(near(body.power[i], a.power[i], 2e-4));
  // Printed relative powers at 400 and 700 nm against 100 at 560: 14.71 and 198.26; from memory.
  CHECK(near(a.power[20], 0.1471, 4e-4));
  CHECK(near(a.power[80], 1.9826, 1e-4));
}

TEST_CASE("photon_bands: shares add up to one, their mean wavelength is the spectrum's, empty ones are left out") {
  const auto one = photon_bands(illuminant_d65(), 1), many = photon_bands(illuminant_d65(), 30);
  CHECK(many.size() == 30);
  double sum = 0.0, mean = 0.0;
  for (const SpectralBand& band : many) {
    sum += band.photon_share;
    mean += band.photon_share * si(band.wavelength);
  }
  CHECK(near(sum, 1.0, 1e-13));
  CHECK(near(mean, si(one[0].wavelength), 1e-6));  // second moments are cubic in places: Simpson's rule is exact
  const auto blue = photon_bands(line(455.0), 30);
  REQUIRE(blue.size() == 1);
  CHECK(near(si(blue[0].wavelength), 455e-9, 1e-6));
}

TEST_CASE("spectrum: what breaks its rules is refused by name") {
  const auto refused = [](const Spectrum& s) { CHECK_THROWS_AS(photons_per_energy(s), InvalidInput); };
  refused({{400_nm}, {1.0}});
  refused({{400_nm, 500_nm}, {1.0}});
  refused({{500_nm, 400_nm}, {1.0, 1.0}});
  refused({{400_nm, 500_nm}, {1.0, -1.0}});
  refused({{400_nm, 500_nm}, {1.0, NAN}});
  refused({{400_nm, 500_nm}, {0.0, 0.0}});
  refused({{100_nm, 500_nm}, {1.0, 1.0}});
  CHECK_THROWS_AS(photons_per_energy(illuminant_a(), 700_nm, 400_nm), InvalidInput);
  CHECK_THROWS_AS(photon_bands(illuminant_a(), 0), InvalidInput);
  CHECK_THROWS_AS(photon_bands(line(800.0), 3), InvalidInput);
  CHECK_THROWS_AS(black_body(from_si<Temperature>(500.0)), InvalidInput);
}
