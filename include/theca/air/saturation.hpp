// Saturation pressure of water vapour over water and over ice.
#pragma once

#include <cmath>

#include "theca/require.hpp"

namespace theca::air {

/// Triple point of water, where the saturation pressures over ice and over water meet.
inline constexpr Temperature triple_point = celsius(0.01);
inline constexpr Temperature lowest_saturation_temperature = celsius(-100.0);
inline constexpr Temperature highest_saturation_temperature = celsius(100.0);

namespace kernel {
/// Saturation pressure over liquid water in Pa, temperature in K; 273.15 to 473.15 K; unchecked.
/// @source Hyland & Wexler 1983 (ASHRAE Transactions 89(2A)), as printed in ASHRAE Handbook Fundamentals 2017,
///         chapter 1, eq. 6
template <class T>
T saturation_pressure_over_water(T temperature_K) {
  using std::exp;
  using std::log;
  const T t = temperature_K;
  return exp(T(-5.8002206e3) / t + T(1.3914993) + t * (T(-4.8640239e-2) + t * (T(4.1764768e-5) - t * T(1.4452093e-8))) +
             T(6.5459673) * log(t));
}
/// Saturation pressure over ice in Pa, temperature in K; 173.15 to 273.16 K; unchecked.
/// @source Hyland & Wexler 1983, as printed in ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 5
template <class T>
T saturation_pressure_over_ice(T temperature_K) {
  using std::exp;
  using std::log;
  const T t = temperature_K;
  return exp(T(-5.6745359e3) / t + T(6.3925247) +
             t * (T(-9.6778430e-3) + t * (T(6.2215701e-7) + t * (T(2.0747825e-9) - t * T(9.4840240e-13)))) +
             T(4.1635019) * log(t));
}
/// Over water above the triple point, over ice below.
template <class T>
T saturation_vapour_pressure(T temperature_K) {
  return temperature_K < T(273.16) ? saturation_pressure_over_ice(temperature_K)
                                   : saturation_pressure_over_water(temperature_K);
}
}  // namespace kernel

/// Saturation pressure of pure water vapour: over water from 0.01 degC, over ice below. The change is at the triple
/// point, where the two agree, so that the curve has no step and a dew point is unique.
///
/// @param temperature  -100 to 100 degC (ITS-90)
/// @throws InvalidInput  outside this range or not a number
/// @source Hyland & Wexler 1983, see the kernels
inline AbsolutePressure saturation_vapour_pressure(const Temperature& temperature) {
  require::within("temperature", temperature, lowest_saturation_temperature, highest_saturation_temperature);
  return from_si<AbsolutePressure>(kernel::saturation_vapour_pressure(si(temperature)));
}

/// The temperature at which water vapour of this pressure is saturated (dew point, frost point under 0.01 degC): the
/// inverse of `saturation_vapour_pressure`, by Newton's method on the logarithm of the pressure.
///
/// @param vapour_pressure  the saturation pressures of -100 to 100 degC (0.0014 Pa to 101.4 kPa)
/// @throws InvalidInput  outside this range or not a number
/// @throws NotConverged  never seen; a guard
Temperature saturation_temperature(const AbsolutePressure& vapour_pressure);

}  // namespace theca::air
