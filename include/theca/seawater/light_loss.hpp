// What clear water takes from light on its way: absorption and scattering against wavelength.
#pragma once

#include "theca/units.hpp"

namespace theca::seawater {

/// Absorption coefficient of pure water, straight between wavelengths 10 nm apart. Salt changes it by less than its
/// uncertainty (a few per cent, 14 % at the minimum near 420 nm) in this range.
/// @param wavelength  in vacuum, 380 to 700 nm
/// @throws OutOfValidity  wavelength outside the table
/// @source Pope & Fry 1997, Appl. Opt. 36:8710-8723, table 3, from memory; all but 640 nm checked against a table of
/// the
///         same source in the open radiative transfer package planarradpy (there 0.318/m at 640 nm, here 0.3108)
Attenuation absorption(const Length& wavelength);

/// Scattering coefficient of pure sea water, salinity 35 to 39: 0.00193/m (wavelength / 550 nm)^-4.32. Half of it goes
/// back. Less than a tenth of what the clearest ocean water scatters.
/// @param wavelength  380 to 700 nm
/// @throws OutOfValidity  wavelength outside the range
/// @source Morel 1974, Optical properties of pure water and pure sea water, from memory; Smith & Baker 1981, Appl. Opt.
///         20:177-184, tabulates the same to 2 %
Attenuation scattering(const Length& wavelength);

}  // namespace theca::seawater
