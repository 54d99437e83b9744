// Surface tension of seawater against air at one atmosphere.
#pragma once

#include <cmath>

#include "theca/seawater/range.hpp"

namespace theca::seawater {

namespace kernel {
/// Surface tension in N/m from temperature in K and salt mass fraction in kg/kg; unchecked.
template <class T>
T surface_tension(T temperature_K, T salinity_kg_per_kg) {
  using std::pow;
  const T tau = T(1.0) - temperature_K / T(647.096);
  const T pure = T(235.8e-3) * T(pow(tau, 1.256)) * (T(1.0) - T(0.625) * tau);
  const T celsius = temperature_K - T(273.15);
  return pure * (T(1.0) + salinity_kg_per_kg * (T(3.766e-1) + T(2.347e-3) * celsius));
}
}  // namespace kernel

/// Surface tension of clean seawater. Organic films, as on any stocked tank, lower it by an amount not given here.
///
/// @param temperature  1 to 40 degC (ITS-90)
/// @param salinity     0 to 42 g/kg
/// @throws InvalidInput   outside the range of this namespace or not a number
/// @throws OutOfValidity  0 to 1 degC, which the measurements did not cover
/// @source Nayar, Panchanathan, McKinley & Lienhard 2014 (J. Phys. Chem. Ref. Data 43, 043103), adopted by IAPWS
///         G14-19 (2019), 1 to 92 degC, 0 to 131 g/kg; pure water IAPWS R1-76 (2014)
inline SurfaceTension surface_tension(const Temperature& temperature, AbsoluteSalinity salinity) {
  require_range(temperature, salinity);
  if (in_celsius(temperature) < 1.0)
    throw OutOfValidity("surface tension of seawater, Nayar et al. 2014",
                        "temperature " + text(temperature) + ", fitted from 1 degC");
  return from_si<SurfaceTension>(kernel::surface_tension(si(temperature), salinity.mass_fraction()));
}

}  // namespace theca::seawater
