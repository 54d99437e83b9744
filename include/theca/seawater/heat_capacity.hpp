// Specific heat capacity of seawater at one atmosphere.
#pragma once

#include <cmath>

#include "theca/seawater/range.hpp"

namespace theca::seawater {

namespace kernel {
/// Specific heat capacity in J/kg/K from temperature in K and salt mass fraction in kg/kg; unchecked.
///
/// cp = -T d2g/dT2 of the TEOS-10 Gibbs function at zero sea pressure, y = t/(40 degC), x2 = S_A/(40 x 35.16504/35).
/// The salt terms hold x = sqrt(x2), so an automatic derivative with respect to salinity is not defined at zero.
template <class T>
T specific_heat_capacity(T temperature_K, T salinity_kg_per_kg) {
  using std::sqrt;
  const T y = (temperature_K - T(273.15)) * T(0.025);
  const T x2 = practical_salinity(salinity_kg_per_kg) * T(0.025);
  const T x = sqrt(x2);
  const T water = T(-24715.571866078) +
                  y * (T(4420.4472249096725) +
                       y * (T(-1778.231237203896) +
                            y * (T(1160.5182516851419) + y * (T(-569.531539542516) + y * T(128.13429152494615)))));
  const T order2 = T(1760.062705994408) +
                   y * (T(-1351.605895580406) +
                        y * (T(1097.1125373015109) + y * (T(-433.20648175062206) + y * T(63.905091254154904))));
  const T order3 = T(-86.1329351956084) + y * (T(-60.136422517125) + y * T(10.50720794170734));
  const T order4 =
      T(-137.1145018408982) + y * (T(296.20061691375236) + y * (T(-205.67709290374563) + y * T(49.9394019139016)));
  const T second_derivative = (water + x2 * (order2 + x * (order3 + x * order4))) * T(0.025 * 0.025);
  return -temperature_K * second_derivative;
}
}  // namespace kernel

/// Specific heat capacity of seawater at constant pressure, one atmosphere.
///
/// @param temperature  0 to 40 degC (ITS-90; no conversion to an older scale is wanted)
/// @param salinity     0 to 42 g/kg
/// @throws InvalidInput  outside these ranges or not a number
/// @source Feistel 2003, 2008; IAPWS R13-08 (salt) and IAPWS SR7-09 (water), the Gibbs function of TEOS-10;
///         coefficients as in the appendices G and H of the TEOS-10 manual (IOC, SCOR & IAPSO 2010). The polynomials
///         of Millero et al. 1973 and of Jamieson et al. 1969 (which takes kelvin, not Celsius) differ from it by up to
///         0.12 % and 0.3 % in this range, which is why neither is used.
inline SpecificHeatCapacity specific_heat_capacity(const Temperature& temperature, AbsoluteSalinity salinity) {
  require_range(temperature, salinity);
  return from_si<SpecificHeatCapacity>(kernel::specific_heat_capacity(si(temperature), salinity.mass_fraction()));
}

}  // namespace theca::seawater
