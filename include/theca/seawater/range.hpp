// The range that every seawater property accepts: 0 to 40 degC, 0 to 42 g/kg, one atmosphere.
#pragma once

#include "theca/require.hpp"

namespace theca::seawater {

inline constexpr Temperature lowest_temperature = celsius(0.0);
inline constexpr Temperature highest_temperature = celsius(40.0);
inline constexpr AbsoluteSalinity lowest_salinity{0.0};
inline constexpr AbsoluteSalinity highest_salinity{42.0};

/// Whether the properties of this namespace are offered at this state. Surface tension and refractive index are
/// narrower still, see there.
constexpr bool in_range(const Temperature& temperature, AbsoluteSalinity salinity) {
  return temperature.value() >= lowest_temperature.value() && temperature.value() <= highest_temperature.value() &&
         salinity.grams_per_kg >= lowest_salinity.grams_per_kg &&
         salinity.grams_per_kg <= highest_salinity.grams_per_kg;
}

/// @throws InvalidInput  temperature or salinity outside the range above, or not a number
inline void require_range(const Temperature& temperature, AbsoluteSalinity salinity) {
  require::within("temperature", temperature, lowest_temperature, highest_temperature);
  require::within("salinity", salinity, lowest_salinity, highest_salinity);
}

namespace kernel {
/// The older IPTS-68 Celsius temperature of an ITS-90 temperature: t68 = 1.00024 t90.
/// @source Saunders 1990, WOCE Newsletter 10. Fits made before 1990 take t68.
template <class T>
T ipts68_celsius(T temperature_K) {
  return T(1.00024) * (temperature_K - T(273.15));
}
/// Practical salinity of a mass fraction of salt.
/// @source Millero, Feistel, Wright & McDougall 2008: S_R = (35.16504/35) g/kg x S_P
template <class T>
T practical_salinity(T salinity_kg_per_kg) {
  return T(1000.0 * 35.0 / 35.16504) * salinity_kg_per_kg;
}
}  // namespace kernel
}  // namespace theca::seawater
