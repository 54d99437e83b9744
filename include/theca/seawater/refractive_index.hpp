// Refractive index of seawater for visible light at one atmosphere.
#pragma once

#include "theca/seawater/range.hpp"

namespace theca::seawater {

namespace kernel {
/// Refractive index relative to air from wavelength in m, temperature in K and salt mass fraction; unchecked.
template <class T>
T refractive_index(T wavelength_m, T temperature_K, T salinity_kg_per_kg) {
  const T inverse_nm = T(1e-9) / wavelength_m;
  const T t = temperature_K - T(273.15);
  const T s = T(1000.0) * salinity_kg_per_kg;
  return T(1.31405) + s * (T(1.779e-4) + t * (T(-1.05e-6) + t * T(1.6e-8))) - T(2.02e-6) * t * t +
         inverse_nm *
             (T(15.868) + T(0.01155) * s - T(0.00423) * t + inverse_nm * (T(-4382.0) + inverse_nm * T(1.1455e6)));
}
}  // namespace kernel

/// Refractive index of seawater, relative to air, as a ray through a tank's surface needs it.
///
/// @param wavelength   400 to 700 nm, in air
/// @param temperature  0 to 30 degC
/// @param salinity     0 to 40 g/kg
/// @throws InvalidInput   temperature or salinity outside the range of this namespace, wavelength not > 0
/// @throws OutOfValidity  wavelength, temperature or salinity outside the range given here
/// @source Quan & Fry 1995 (Applied Optics 34, 3477-3480), eq. 3: fit to the tables of Austin & Halikas 1976, 400 to
///         700 nm, 0 to 30 degC, salinity 0 to 35 per mille. Taken on to 40 g/kg here, because the salt term is linear
///         and keeps its distance to Matthaeus 1974, which was fitted up to 40 per mille (see the tests).
inline double refractive_index(const Length& wavelength, const Temperature& temperature, AbsoluteSalinity salinity) {
  require_range(temperature, salinity);
  require::positive("wavelength", wavelength);
  constexpr std::string_view fit = "refractive index of seawater, Quan & Fry 1995";
  require::valid(fit, "wavelength", wavelength, 400.0 * units::nanometre, 700.0 * units::nanometre);
  if (in_celsius(temperature) > 30.0)
    throw OutOfValidity(fit, "temperature " + text(temperature) + ", fitted up to 30 degC");
  if (salinity.grams_per_kg > 40.0) throw OutOfValidity(fit, "salinity " + text(salinity) + ", taken up to 40 g/kg");
  return kernel::refractive_index(si(wavelength), si(temperature), salinity.mass_fraction());
}

}  // namespace theca::seawater
