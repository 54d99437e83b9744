// Moisture in the room: what evaporates, what ventilation takes out, what must be dried, and when a pane sweats.
#pragma once

#include <functional>

#include "theca/air.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// A ventilated room.
struct VentilatedRoom {
  Volume volume;          ///< > 0
  Frequency air_changes;  ///< outside air per room volume, >= 0
};

/// Moisture carried out by ventilation: air changes x volume x dry-air density of the room x (W_room - W_outside).
/// Negative where the outside is the moister.
/// @throws InvalidInput  bad room; air states outside theca/air.hpp
MassFlow ventilation_removal(const VentilatedRoom& room, const air::MoistAir& inside, const air::MoistAir& outside);

/// Moisture that a dehumidifier must take out to hold the room at `at_limit`; negative: ventilation does more than is
/// needed.
/// @param evaporation  from all water surfaces at that room air, any sign
MassFlow required_dehumidification(const MassFlow& evaporation, const VentilatedRoom& room,
                                   const air::MoistAir& at_limit, const air::MoistAir& outside);

/// Humidity at which evaporation, ventilation and dehumidifiers are in balance at a fixed room temperature.
/// @param evaporation   as a function of the room's humidity, falling or constant with it
/// @param dehumidifiers removal while they run, >= 0
/// @throws InvalidInput, also where `evaporation` returns what is not finite; OutOfValidity where the room would pass
/// saturation (fog and wet walls), or where the
///         dehumidifiers would take more than is supplied even to perfectly dry air; NotConverged
RelativeHumidity steady_humidity(const VentilatedRoom& room, const Temperature& inside, const air::MoistAir& outside,
                                 const std::function<MassFlow(const air::MoistAir&)>& evaporation,
                                 const MassFlow& dehumidifiers);

/// A volume flow of condensed or made-up fresh water as mass flow, at 1000 kg/m3 (within 0.5 % from 0 to 31 degC).
MassFlow fresh_water(const VolumeFlow& flow);

/// A window or other light pane towards the outside.
struct Pane {
  ThermalTransmittance U;         ///< > 0, air to air
  ThermalResistance inside_film;  ///< > 0, and U x inside_film < 1
};

/// T_in - U R_film (T_in - T_out): temperature of the pane's inner face.
/// @source resistances in series
/// @throws InvalidInput  U or film not positive, their product not below 1, a temperature not finite
Temperature inside_surface(const Pane& pane, const Temperature& inside, const Temperature& outside);

struct Condensation {
  Temperature surface;               ///< inner face of the pane, or of what else looks at the room
  Temperature dew_point;             ///< of the room's air
  TemperatureDifference margin;      ///< surface - dew point; negative, the pane is wet
  RelativeHumidity at_surface;       ///< vapour pressure of the room over saturation at the face; above 1 it is wet
  RelativeHumidity highest_in_room;  ///< room humidity at which the face just stays dry
};
/// At a surface whose temperature is known: tank glass, a cold pipe.
/// @throws InvalidInput  as theca/air.hpp
Condensation condensation(const Temperature& surface, const air::MoistAir& inside);

/// @throws InvalidInput  as inside_surface and theca/air.hpp
Condensation condensation(const Pane& pane, const air::MoistAir& inside, const Temperature& outside);

}  // namespace theca::thermal
