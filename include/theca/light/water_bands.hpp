// A spectrum in water, band by band: each with the water's refractive index and attenuation at its wavelength.
#pragma once

#include <span>
#include <vector>

#include "theca/light/field.hpp"
#include "theca/light/spectrum.hpp"
#include "theca/units.hpp"

namespace theca::light {

/// What tank water holds besides water and salt.
struct WaterQuality {
  Attenuation dissolved_at_440nm{};  ///< absorption by yellow dissolved matter, 0 to 100/m; carbon filtering lowers it
  Attenuation particles_at_550nm{};  ///< attenuation by particles, 0 to 100/m; all that they scatter counts as lost
};

struct BandOptics {
  double photon_share;      ///< of the luminaires' photons, 0 to 1
  double refractive_index;  ///< of the water
  Attenuation attenuation;
};

/// The bands of a spectrum in sea water. Attenuation: absorption of pure water, plus dissolved matter as
/// exp(-0.014 (wavelength - 440 nm)/nm), plus particles as 550 nm / wavelength.
/// @param bands  wavelengths of 400 to 700 nm
/// @throws InvalidInput   a share outside 0 to 1, impossible water quality
/// @throws OutOfValidity  wavelength, temperature or salinity outside the range of seawater::refractive_index()
/// @source seawater::absorption(); dissolved matter: Bricaud, Morel & Prieur 1981, Limnol. Oceanogr. 26:43-53 (slope
///         0.014/nm, its spread 0.010 to 0.020); particles: inverse wavelength, as large ones scatter; both from memory
std::vector<BandOptics> band_optics(std::span<const SpectralBand> bands, const Temperature& temperature,
                                    AbsoluteSalinity salinity, const WaterQuality& quality = {});

/// Photon flux density of all bands together, as new: each with its share of the luminaires' photons and its own
/// attenuation in place of that of `water`. All take the path of one refractive index, the mean of the photons left at
/// the plane: to first order what one band misses the others make up, and only the edges that walls cast are not
/// coloured. Against the sum of map() over single bands of 400 to 700 nm: within 2e-4 away from such edges.
/// @throws InvalidInput  as map(); no band, shares that add up to more than 1
PpfdMap map(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, std::span<const BandOptics> bands,
            const Length& plane_depth, int nx, int ny, const Receiver& receiver = {});

}  // namespace theca::light
