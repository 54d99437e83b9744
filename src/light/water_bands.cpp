#include "theca/light/water_bands.hpp"

#include <cmath>

#include "theca/require.hpp"
#include "theca/seawater/light_loss.hpp"
#include "theca/seawater/refractive_index.hpp"

namespace theca::light {
namespace {
constexpr double dissolved_slope_per_nm = 0.014;
constexpr Attenuation most = 100.0 * units::per_metre;
constexpr double rounding = 1e-9;
}  // namespace

std::vector<BandOptics> band_optics(std::span<const SpectralBand> bands, const Temperature& temperature,
                                    AbsoluteSalinity salinity, const WaterQuality& quality) {
  require::within("dissolved at 440 nm", quality.dissolved_at_440nm, Attenuation(), most);
  require::within("particles at 550 nm", quality.particles_at_550nm, Attenuation(), most);
  std::vector<BandOptics> optics;
  for (const SpectralBand& band : bands) {
    require::within("photon share of a band", band.photon_share, 0.0, 1.0);
    const double nm = in(band.wavelength, units::nanometre);
    optics.push_back({.photon_share = band.photon_share,
                      .refractive_index = seawater::refractive_index(band.wavelength, temperature, salinity),
                      .attenuation = seawater::absorption(band.wavelength) +
                                     quality.dissolved_at_440nm * std::exp(-dissolved_slope_per_nm * (nm - 440.0)) +
                                     quality.particles_at_550nm * (550.0 / nm)});
  }
  return optics;
}

PpfdMap map(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, std::span<const BandOptics> bands,
            const Length& plane_depth, int nx, int ny, const Receiver& receiver) {
  require::that(!bands.empty(), "number of bands", 0.0, "at least 1");
  double shares = 0.0;
  for (const BandOptics& band : bands) {
    require::within("photon share of a band", band.photon_share, 0.0, 1.0);
    shares += band.photon_share;
  }
  require::that(shares <= 1.0 + rounding, "sum of the photon shares", shares, "at most 1");
  PpfdMap sum;
  for (const BandOptics& band : bands) {
    Waterbody in_band = water;
    in_band.refractive_index = band.refractive_index;
    in_band.attenuation = band.attenuation;
    PpfdMap one = map(luminaires, in_band, plane_depth, nx, ny, receiver);
    for (double& value : one.values) value *= band.photon_share;
    if (sum.values.empty()) {
      sum = std::move(one);
    } else {
      for (std::size_t i = 0; i < sum.values.size(); ++i) sum.values[i] += one.values[i];
    }
  }
  return sum;
}

}  // namespace theca::light
