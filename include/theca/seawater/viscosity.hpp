// Dynamic and kinematic viscosity of seawater at one atmosphere.
#pragma once

#include "theca/seawater/density.hpp"

namespace theca::seawater {

namespace kernel {
/// Dynamic viscosity in Pa s from temperature in K and salt mass fraction in kg/kg; unchecked.
template <class T>
T dynamic_viscosity(T temperature_K, T salinity_kg_per_kg) {
  const T t = temperature_K - T(273.15);
  const T s = salinity_kg_per_kg;
  const T shifted = t + T(64.993);
  const T pure = T(4.2844e-5) + T(1.0) / (T(0.157) * shifted * shifted - T(91.296));
  const T a = T(1.541) + t * (T(1.998e-2) - t * T(9.52e-5));
  const T b = T(7.974) + t * (T(-7.561e-2) + t * T(4.724e-4));
  return pure * (T(1.0) + s * (a + s * b));
}
template <class T>
T kinematic_viscosity(T temperature_K, T salinity_kg_per_kg) {
  return dynamic_viscosity(temperature_K, salinity_kg_per_kg) / density(temperature_K, salinity_kg_per_kg);
}
}  // namespace kernel

/// Dynamic viscosity of seawater at one atmosphere.
///
/// @param temperature  0 to 40 degC (ITS-90)
/// @param salinity     0 to 42 g/kg
/// @throws InvalidInput  outside these ranges or not a number
/// @source Sharqawy, Lienhard & Zubair 2010 (Desalination and Water Treatment 16, 354-380), eq. 22-23: fit to Isdale,
///         Spence & Tudhope 1972, Fabuss 1969 and the IAPWS 2008 pure water release; 0 to 180 degC, 0 to 150 g/kg,
///         stated accuracy 1.5 %. Pure water is within 0.03 % of IAPWS; with salt it lies up to 1.2 % above Millero
///         1974 in that formula's range (5 to 25 degC, salinity up to 40), most where it is cold and salty.
inline DynamicViscosity dynamic_viscosity(const Temperature& temperature, AbsoluteSalinity salinity) {
  require_range(temperature, salinity);
  return from_si<DynamicViscosity>(kernel::dynamic_viscosity(si(temperature), salinity.mass_fraction()));
}

/// Kinematic viscosity: `dynamic_viscosity` over `density`, same range, errors and sources.
inline KinematicViscosity kinematic_viscosity(const Temperature& temperature, AbsoluteSalinity salinity) {
  require_range(temperature, salinity);
  return from_si<KinematicViscosity>(kernel::kinematic_viscosity(si(temperature), salinity.mass_fraction()));
}

}  // namespace theca::seawater
