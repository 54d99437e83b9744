// Vapour pressure over seawater.
#pragma once

#include <cmath>

#include "theca/air/saturation.hpp"
#include "theca/seawater/range.hpp"

namespace theca::seawater {

namespace kernel {
/// Vapour pressure in Pa from temperature in K and salt mass fraction in kg/kg; unchecked.
template <class T>
T vapour_pressure(T temperature_K, T salinity_kg_per_kg) {
  using std::exp;
  const T s = T(1000.0) * salinity_kg_per_kg;
  return air::kernel::saturation_pressure_over_water(temperature_K) * exp(-s * (T(4.5818e-4) + T(2.0443e-6) * s));
}
}  // namespace kernel

/// Vapour pressure of water over seawater; at 35 g/kg 1.8 % under that of pure water.
///
/// The pure water part is the one `theca::air` uses, so that the difference between a water surface and the air over it
/// carries no error from two different fits.
/// @param temperature  0 to 40 degC (ITS-90)
/// @param salinity     0 to 42 g/kg
/// @throws InvalidInput  outside these ranges or not a number
/// @source salt: Nayar, Sharqawy, Banchik & Lienhard 2016 (Desalination 390, 1-24), 0 to 180 degC, 0 to 160 g/kg,
///         within 0.06 % of the lowering by TEOS-10 in this range; water: Hyland & Wexler 1983
inline AbsolutePressure vapour_pressure(const Temperature& temperature, AbsoluteSalinity salinity) {
  require_range(temperature, salinity);
  return from_si<AbsolutePressure>(kernel::vapour_pressure(si(temperature), salinity.mass_fraction()));
}

}  // namespace theca::seawater
