// Transport properties of dry air, and diffusion of water vapour in it.
#pragma once

#include <cmath>

#include "theca/require.hpp"

namespace theca::air {

namespace kernel {
/// Dynamic viscosity in Pa s, temperature in K; unchecked.
template <class T>
T dynamic_viscosity(T temperature_K) {
  using std::sqrt;
  return T(1.458e-6) * temperature_K * sqrt(temperature_K) / (temperature_K + T(110.4));
}
/// Thermal conductivity in W/m/K, temperature in K; unchecked.
template <class T>
T thermal_conductivity(T temperature_K) {
  using std::exp;
  using std::sqrt;
  constexpr double ln10 = 2.302585092994046;
  return T(2.64638e-3) * temperature_K * sqrt(temperature_K) /
         (temperature_K + T(245.4) * exp(T(-12.0 * ln10) / temperature_K));
}
/// Specific heat capacity at constant pressure in J/kg/K, temperature in K; unchecked.
template <class T>
T specific_heat_capacity(T temperature_K) {
  const T t = temperature_K;
  return T(1034.09) + t * (T(-0.284887) + t * (T(0.7816818e-3) + t * (T(-0.4970786e-6) + t * T(0.1077024e-9))));
}
/// Density of dry air in kg/m3, pressure in Pa, temperature in K; unchecked.
template <class T>
T dry_density(T temperature_K, T pressure_Pa) {
  return pressure_Pa / (T(287.042) * temperature_K);
}
/// Diffusivity of water vapour in air in m2/s, temperature in K, pressure in Pa; unchecked.
template <class T>
T vapour_diffusivity(T temperature_K, T pressure_Pa) {
  using std::pow;
  return T(0.2178e-4) * (T(101325.0) / pressure_Pa) * T(pow(temperature_K / T(273.15), 1.81));
}
}  // namespace kernel

/// Dynamic viscosity of dry air.
/// All functions here: temperature -40 to 100 degC, pressure 50 to 200 kPa; InvalidInput outside or not a number.
/// @source U.S. Standard Atmosphere 1976, eq. 51 (Sutherland)
DynamicViscosity dynamic_viscosity(const Temperature& temperature);

/// Thermal conductivity of dry air.
/// @source U.S. Standard Atmosphere 1976, eq. 53
ThermalConductivity thermal_conductivity(const Temperature& temperature);

/// Specific heat capacity of dry air at constant pressure.
/// The polynomial was fitted from 250 K; from -23 down to -40 degC it is extrapolated, to 1004 J/(kg K) at -40 degC.
/// @source Irvine & Liley 1984, Steam and gas tables, as quoted in Tsilingiris 2008 (Energy Conversion and Management
///         49, 1098-1110), 250 to 1050 K; from memory
SpecificHeatCapacity specific_heat_capacity(const Temperature& temperature);

/// Momentum diffusivity: dynamic viscosity over dry air density.
KinematicViscosity kinematic_viscosity(const Temperature& temperature,
                                       const AbsolutePressure& pressure = standard_atmosphere);

/// Thermal diffusivity k / (rho cp) of dry air.
KinematicViscosity thermal_diffusivity(const Temperature& temperature,
                                       const AbsolutePressure& pressure = standard_atmosphere);

/// Prandtl number of dry air, cp mu / k.
double prandtl(const Temperature& temperature);

/// Diffusivity of water vapour in air.
/// @source Massman 1998 (Atmospheric Environment 32, 1111-1127): 0.2178 cm2/s (T/T0)^1.81 p0/p; from memory
KinematicViscosity vapour_diffusivity(const Temperature& temperature,
                                      const AbsolutePressure& pressure = standard_atmosphere);

}  // namespace theca::air
