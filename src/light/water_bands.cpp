#include "theca/light/water_bands.hpp"

#include <cmath>

#include "limits.hpp"
#include "scene.hpp"
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
    require::not_negative("attenuation of a band", band.attenuation);
    limits::refractive_index("refractive index of a band", band.refractive_index);
    shares += band.photon_share;
  }
  require::that(shares <= 1.0 + rounding, "sum of the photon shares", shares, "at most 1");
  // The bands take the path of their mean index, weighted by the photons left at the plane: what each misses to one
  // side the others miss to the other. Of the absorption each has its own.
  double left = 0.0, index = 0.0;
  for (const BandOptics& band : bands) {
    const double weight = band.photon_share * std::exp(-si(band.attenuation * plane_depth));
    left += weight;
    index += weight * band.refractive_index;
  }
  Waterbody at_mean = water;
  at_mean.refractive_index = left > 0.0 ? index / left : bands.front().refractive_index;
  Scene scene = make_scene(luminaires, at_mean, plane_depth, receiver);
  scene.optics.bands.clear();
  for (const BandOptics& band : bands) scene.optics.bands.push_back({band.photon_share, si(band.attenuation)});
  return map(scene, water, nx, ny);
}

}  // namespace theca::light
