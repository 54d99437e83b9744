// Latent heat of vaporisation of water out of seawater.
#pragma once

#include "theca/seawater/range.hpp"

namespace theca::seawater {

namespace kernel {
/// Latent heat in J per kg of water evaporated from temperature in K; unchecked.
template <class T>
T latent_heat_of_vaporisation(T temperature_K) {
  const T t = temperature_K - T(273.15);
  return T(2.501e6) + t * (T(-2.369e3) + t * (T(2.678e-1) + t * (T(-8.103e-3) + t * T(-2.079e-5))));
}
}  // namespace kernel

/// Heat to evaporate water from seawater, per kilogram of water evaporated.
///
/// Only water leaves, so the heat per kilogram evaporated is that of pure water: it is not lowered by (1 - S), which
/// would be the heat to evaporate all the water of a kilogram of seawater. Salinity is checked and otherwise unused;
/// its true effect (heat of dilution) is below 0.1 % in this range by TEOS-10.
///
/// @param temperature  0 to 40 degC (ITS-90)
/// @param salinity     0 to 42 g/kg
/// @throws InvalidInput  outside these ranges or not a number
/// @source Sharqawy, Lienhard & Zubair 2010, eq. 37 (number from memory), pure water fit to IAPWS, 0 to 200 degC
inline SpecificEnergy latent_heat_of_vaporisation(const Temperature& temperature, AbsoluteSalinity salinity) {
  require_range(temperature, salinity);
  return from_si<SpecificEnergy>(kernel::latent_heat_of_vaporisation(si(temperature)));
}

}  // namespace theca::seawater
