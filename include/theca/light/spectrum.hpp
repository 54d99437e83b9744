// Spectra of light: from watts or lumens to photons, and the bands that water treats each in its own way.
#pragma once

#include <vector>

#include "theca/units.hpp"

namespace theca::light {

/// Spectral power of a source against wavelength, linear between; nothing outside. Only its shape counts.
struct Spectrum {
  std::vector<Length> wavelengths;  ///< rising, within 200 to 2000 nm, at least two
  std::vector<double> power;        ///< per wavelength, in any one unit; >= 0, not all zero
};

/// @throws InvalidInput  naming the member that breaks a rule above
void require_valid(const Spectrum& spectrum);

/// Black body between 300 and 830 nm in steps of 5 nm.
/// @param temperature  1000 to 20 000 K
/// @throws InvalidInput
/// @source Planck's law; constants of the SI
Spectrum black_body(const Temperature& temperature);

/// CIE standard illuminant A: incandescent light, 2856 K. In its formula c2 is 1.4350e-2 m K and T 2848 K.
/// @source ISO/CIE 11664-2
Spectrum illuminant_a();

/// CIE standard illuminant D65: daylight, 380 to 780 nm in steps of 10 nm.
/// @source ISO/CIE 11664-2; figures from memory
Spectrum illuminant_d65();

/// The waveband that photosynthesis uses, by convention.
inline constexpr Length par_low = 400.0 * units::nanometre;
inline constexpr Length par_high = 700.0 * units::nanometre;

/// Photons between two wavelengths per energy of all the spectrum's radiation: Int P l dl / (N_A h c Int P dl).
/// @param low, high  rising, within 200 to 2000 nm
/// @throws InvalidInput
/// @source energy of a photon, h c / wavelength; exact constants of the SI
PhotonEfficacy photons_per_energy(const Spectrum& spectrum, const Length& low = par_low, const Length& high = par_high);

/// Luminous efficacy of the radiation: 683 lm/W times Int P V dl / Int P dl.
/// @throws InvalidInput
/// @source V of CIE 1924 (ISO/CIE 23539), 380 to 780 nm in steps of 10 nm, from memory; linear between, which
///         understates V near 555 nm by 0.3 % at most
LuminousEfficacy luminous_efficacy(const Spectrum& spectrum);

/// Photons between two wavelengths per luminous flux: what turns a luminaire's lumens into its photon flux.
/// @throws InvalidInput  also where the spectrum holds no visible light
PhotonsPerLight photons_per_light(const Spectrum& spectrum, const Length& low = par_low, const Length& high = par_high);

/// A part of a spectrum that is taken as one wavelength.
struct SpectralBand {
  Length wavelength;    ///< mean of its photons
  double photon_share;  ///< of the photons between the outer wavelengths
};

/// Bands of equal width between two wavelengths; those without photons are left out.
/// @param count  1 to 1000
/// @throws InvalidInput  also where the spectrum has no photons between them
std::vector<SpectralBand> photon_bands(const Spectrum& spectrum, int count, const Length& low = par_low,
                                       const Length& high = par_high);

}  // namespace theca::light
