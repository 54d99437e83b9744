// Density of seawater at one atmosphere.
#pragma once

#include <cmath>

#include "theca/seawater/range.hpp"

namespace theca::seawater {

namespace kernel {
/// Density in kg/m3 from ITS-90 temperature in K and salt mass fraction in kg/kg; unchecked.
template <class T>
T density(T temperature_K, T salinity_kg_per_kg) {
  using std::pow;
  const T t = ipts68_celsius(temperature_K);
  const T s = practical_salinity(salinity_kg_per_kg);
  const T pure =
      T(999.842594) +
      t * (T(6.793952e-2) + t * (T(-9.095290e-3) + t * (T(1.001685e-4) + t * (T(-1.120083e-6) + t * T(6.536332e-9)))));
  const T a = T(8.24493e-1) + t * (T(-4.0899e-3) + t * (T(7.6438e-5) + t * (T(-8.2467e-7) + t * T(5.3875e-9))));
  const T b = T(-5.72466e-3) + t * (T(1.0227e-4) - t * T(1.6546e-6));
  return pure + s * (a + s * T(4.8314e-4)) + b * T(pow(s, 1.5));
}
}  // namespace kernel

/// Density of seawater at one atmosphere of absolute pressure (sea pressure zero).
///
/// @param temperature  0 to 40 degC (ITS-90)
/// @param salinity     0 to 42 g/kg
/// @throws InvalidInput  outside these ranges or not a number
/// @source EOS-80: Millero & Poisson 1981, as printed in Fofonoff & Millard 1983 (UNESCO technical papers in marine
///         science 44), eq. 13-14; fitted for -2 to 40 degC (IPTS-68), practical salinity 0 to 42. Within 0.0085 kg/m3
///         of TEOS-10 over this whole range. The fit is for one atmosphere as it stands: putting 101.325 kPa into the
///         sea pressure of a TEOS-10 routine counts the atmosphere twice and gives 0.04 kg/m3 too much.
inline Density density(const Temperature& temperature, AbsoluteSalinity salinity) {
  require_range(temperature, salinity);
  return from_si<Density>(kernel::density(si(temperature), salinity.mass_fraction()));
}

}  // namespace theca::seawater
