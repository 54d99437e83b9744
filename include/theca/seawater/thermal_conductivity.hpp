// Thermal conductivity of seawater at one atmosphere.
#pragma once

#include <cmath>

#include "theca/seawater/range.hpp"

namespace theca::seawater {

namespace kernel {
/// Thermal conductivity in W/m/K from temperature in K and salt mass fraction in kg/kg; unchecked.
template <class T>
T thermal_conductivity(T temperature_K, T salinity_kg_per_kg) {
  using std::pow;
  const T x = temperature_K / T(300.0);
  const T pure = T(0.797015) * T(pow(x, -0.194)) - T(0.251242) * T(pow(x, -4.717)) + T(0.096437) * T(pow(x, -6.385)) -
                 T(0.032696) * T(pow(x, -2.134));
  return pure / (T(1.0) + T(0.22) * salinity_kg_per_kg);
}
}  // namespace kernel

/// Thermal conductivity of seawater at one atmosphere.
///
/// @param temperature  0 to 40 degC (ITS-90)
/// @param salinity     0 to 42 g/kg
/// @throws InvalidInput  outside these ranges or not a number
/// @source Sharqawy 2013 (Desalination 313, 97-104): pure water term fitted to IAPWS, 0 to 90 degC, 0 to 120 g/kg. Used
///         instead of Jamieson & Tudhope 1970, whose pure water is 2.8 % high at 0 degC.
inline ThermalConductivity thermal_conductivity(const Temperature& temperature, AbsoluteSalinity salinity) {
  require_range(temperature, salinity);
  return from_si<ThermalConductivity>(kernel::thermal_conductivity(si(temperature), salinity.mass_fraction()));
}

}  // namespace theca::seawater
