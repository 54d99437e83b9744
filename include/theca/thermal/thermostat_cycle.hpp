// How often a thermostat switches: its hysteresis against the heat that the water holds.
#pragma once

#include "theca/units.hpp"

namespace theca::thermal {

/// One round of a two-point thermostat, loss and power steady.
struct ThermostatCycle {
  Time on;
  Time off;
  Frequency cycles;   ///< starts of the unit per time
  double duty = 0.0;  ///< share of time that it runs
};

/// @param capacity    heat that the water takes per temperature, > 0
/// @param hysteresis  between switching on and off, > 0
/// @param loss        that the unit makes up for, > 0 (of a chiller: the gain that it takes away)
/// @param power       of the unit, > loss
/// @throws InvalidInput   impossible values
/// @throws OutOfValidity  power not above the loss: the unit never switches off
/// @source balance of heat, loss taken as steady within the hysteresis: C h/(P - L) on, C h/L off
ThermostatCycle thermostat_cycle(const HeatCapacity& capacity, const TemperatureDifference& hysteresis,
                                 const Power& loss, const Power& power);

/// Least hysteresis with which a unit starts no more often than this, whatever the loss: C h = P/(4 f), the worst case
/// being a loss of half its power.
/// @throws InvalidInput  a value not > 0
TemperatureDifference hysteresis_for_cycles(const HeatCapacity& capacity, const Power& power,
                                            const Frequency& most_cycles);

}  // namespace theca::thermal
