// Moist air: humidity ratio, enthalpy, dew point and density of a mixture of dry air and water vapour.
#pragma once

#include "theca/air/saturation.hpp"

namespace theca::air {

/// Air with its humidity. Accepted: -40 to 100 degC, 0 to 100 % RH, and a vapour pressure under the total pressure.
struct MoistAir {
  Temperature temperature;
  RelativeHumidity humidity;
  AbsolutePressure pressure = standard_atmosphere;
};

inline constexpr Temperature lowest_temperature = celsius(-40.0);
inline constexpr Temperature highest_temperature = celsius(100.0);

/// Gas constants of dry air and water vapour, and their ratio.
/// @source ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 1-2 and the ratio of molar masses 18.015268/28.966
inline constexpr SpecificHeatCapacity gas_constant_dry_air = from_si<SpecificHeatCapacity>(287.042);
inline constexpr SpecificHeatCapacity gas_constant_water_vapour = from_si<SpecificHeatCapacity>(461.524);
inline constexpr double molar_mass_ratio = 0.621945;

/// Partial pressure of water vapour: relative humidity x saturation pressure. Humidity below 0 degC is counted
/// against ice.
///
/// The functions of this header throw InvalidInput when the temperature is outside -40 to 100 degC, the humidity
/// outside 0 to 100 %, the pressure not > 0, or the vapour pressure not below the total pressure. They treat the
/// mixture as perfect gases; against real moist air at sea level pressure that costs up to 0.6 % in humidity ratio and
/// 0.1 % in density (0 to 50 degC).
AbsolutePressure vapour_pressure(const MoistAir& air);

/// kg of water vapour per kg of dry air.  @source ASHRAE Fundamentals 2017, chapter 1, eq. 20
double humidity_ratio(const MoistAir& air);

/// Relative humidity of a humidity ratio; above 100 % is refused, since the excess would be fog.
/// @param humidity_ratio  kg/kg dry air, >= 0
/// @throws InvalidInput  bad argument, or more vapour than saturation holds
RelativeHumidity relative_humidity(const Temperature& temperature, double humidity_ratio,
                                   const AbsolutePressure& pressure = standard_atmosphere);

/// Enthalpy per kg of dry air; zero for dry air and liquid water at 0 degC.
/// @source ASHRAE Fundamentals 2017, chapter 1, eq. 30: h = 1.006 t + W (2501 + 1.86 t) kJ/kg
SpecificEnergy enthalpy(const MoistAir& air);

/// Dew point (frost point below 0.01 degC): the exact inverse of `saturation_vapour_pressure`.
/// @throws InvalidInput   as above
/// @throws OutOfValidity  air so dry that its frost point lies under -100 degC, and bone dry air
Temperature dew_point(const MoistAir& air);

/// Mass of moist air per volume.
Density density(const MoistAir& air);

/// Mass of the dry air per volume of moist air.
Density dry_air_density(const MoistAir& air);

/// Mass of water vapour per volume of moist air (absolute humidity).
Density vapour_density(const MoistAir& air);

}  // namespace theca::air
