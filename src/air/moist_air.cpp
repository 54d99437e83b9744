// Perfect-gas mixture of dry air and water vapour.
#include "theca/air/moist_air.hpp"

namespace theca::air {
namespace {

/// Vapour pressure in Pa of air that has been checked.
double checked_vapour_pressure(const MoistAir& air) {
  require::within("air temperature", air.temperature, lowest_temperature, highest_temperature);
  require::within("relative humidity", air.humidity, RelativeHumidity(0.0), RelativeHumidity(1.0));
  require::positive("air pressure", above_vacuum(air.pressure));
  const double vapour = air.humidity.ratio * si(saturation_vapour_pressure(air.temperature));
  require::that(vapour < si(air.pressure), "air pressure", above_vacuum(air.pressure),
                "more than the vapour pressure, " + text(vapour, "Pa"));
  return vapour;
}

double checked_humidity_ratio(const MoistAir& air) {
  const double vapour = checked_vapour_pressure(air);
  return molar_mass_ratio * vapour / (si(air.pressure) - vapour);
}

}  // namespace

AbsolutePressure vapour_pressure(const MoistAir& air) {
  return from_si<AbsolutePressure>(checked_vapour_pressure(air));
}

double humidity_ratio(const MoistAir& air) { return checked_humidity_ratio(air); }

RelativeHumidity relative_humidity(const Temperature& temperature, double humidity_ratio,
                                   const AbsolutePressure& pressure) {
  require::within("air temperature", temperature, lowest_temperature, highest_temperature);
  require::positive("air pressure", above_vacuum(pressure));
  require::not_negative("humidity ratio", humidity_ratio);
  const double vapour = si(pressure) * humidity_ratio / (molar_mass_ratio + humidity_ratio);
  const double ratio = vapour / si(saturation_vapour_pressure(temperature));
  // Saturated air turned into a humidity ratio and back may exceed 1 by the last digit.
  constexpr double rounding = 1e-12;
  require::that(ratio <= 1.0 + rounding, "humidity ratio", humidity_ratio,
                "no more than saturation holds at " + text(temperature));
  return RelativeHumidity(ratio > 1.0 ? 1.0 : ratio);
}

SpecificEnergy enthalpy(const MoistAir& air) {
  const double w = checked_humidity_ratio(air);
  const double t = in_celsius(air.temperature);
  return from_si<SpecificEnergy>(1006.0 * t + w * (2501e3 + 1860.0 * t));
}

Temperature dew_point(const MoistAir& air) {
  const double vapour = checked_vapour_pressure(air);
  const double lowest = si(saturation_vapour_pressure(lowest_saturation_temperature));
  if (vapour < lowest)
    throw OutOfValidity("saturation pressure over ice, Hyland & Wexler 1983",
                        "vapour pressure " + text(vapour, "Pa") + ", fitted from " + text(lowest, "Pa") + " (" +
                            text(lowest_saturation_temperature) + ")");
  return saturation_temperature(from_si<AbsolutePressure>(vapour));
}

Density density(const MoistAir& air) { return dry_air_density(air) + vapour_density(air); }

Density dry_air_density(const MoistAir& air) {
  const double vapour = checked_vapour_pressure(air);
  return from_si<Density>((si(air.pressure) - vapour) / (si(gas_constant_dry_air) * si(air.temperature)));
}

Density vapour_density(const MoistAir& air) {
  return from_si<Density>(checked_vapour_pressure(air) / (si(gas_constant_water_vapour) * si(air.temperature)));
}

}  // namespace theca::air
