// Checks on heat and moisture: heater, chiller, dehumidifier, window, make-up water, power cut.
#pragma once

#include <optional>
#include <string>

#include "theca/check.hpp"
#include "theca/thermal/balance.hpp"
#include "theca/thermal/humidity.hpp"
#include "theca/thermal/room.hpp"
#include "theca/thermal/sizing.hpp"

namespace theca::thermal {

/// Does the installed heater cover the loss of the coldest design case?
/// @param balance    of that case, lights off as a rule
/// @param installed  heater power into the water, >= 0
/// Uncertainty of this and the next check: 20 % of all heat flows by magnitude, gains included, or the spread of the
/// balance's paths where that is wider; over the power asked for, which is a difference of those flows.
Check heater_check(const HeatBalance& balance, const Power& installed, std::string where = "winter");

/// Does the chiller cover the gain of the hottest design case?
/// @param installed  heat taken from the water at the design room temperature, >= 0
Check chiller_check(const HeatBalance& balance, const Power& installed, std::string where = "summer");

/// Does the stock bear one unit stuck on? Demand: how far the water settles from its set point; capacity: how far it
/// may. Where it would settle outside 0 to 40 degC the demand is one kelvin past that end. Uncertainty 20 %, of the
/// heat flows behind it.
/// @param split  from heater_splits or chiller_splits with these criteria
/// @throws InvalidInput  limit not on its side of the set point
Check stuck_unit_check(const UnitSplit& split, const UnitCriteria& criteria, std::string where = "whole system");

/// Does the stock bear one unit dead? As above, on the other side of the set point.
Check dead_unit_check(const UnitSplit& split, const UnitCriteria& criteria, std::string where = "whole system");

/// Do the dehumidifiers hold the room at the stated humidity?
/// @param required       from required_dehumidification; negative counts as nothing needed
/// @param required_high  the same from the high end of evaporation, >= required; it sets the uncertainty of the check,
///                       25 % at least. Where nothing is needed but at the high end more than there is, the check is
///                       marginal
/// @throws InvalidInput  required not finite, capacity negative, required_high below required
Check dehumidifier_check(const MassFlow& required, const MassFlow& capacity, std::string where = "hall",
                         const std::optional<MassFlow>& required_high = std::nullopt);

/// Does the room settle at or below the stated humidity?
Check room_humidity_check(RelativeHumidity settled, RelativeHumidity limit, std::string where = "hall");

/// Does the window stay dry? Demand: humidity at its inner face; capacity: saturation.
Check window_condensation_check(const Condensation& condensation, std::string where = "window");

/// Does a surface in the hall stay dry? Demand: humidity at its face; capacity: saturation.
Check surface_condensation_check(const SurfaceMoisture& surface, std::string where = "hall");

/// Is a surface in the hall dry enough to keep mould away? Demand: humidity at its face, of the mean of a month;
/// capacity: 80 %. Panes and frames are judged by their condensation instead.
/// @source ISO 13788:2012, 5.3 (from memory)
Check mould_check(const SurfaceMoisture& surface, std::string where = "hall");

/// Is the hall's CO2 within its limit? Demand: share over that outside; capacity: the same of the limit.
/// @param level, limit, outside  shares by volume, 0.001 is 1000 ppm; level not below outside
/// @throws InvalidInput
Check co2_check(double level, double limit, double outside = 420e-6, std::string where = "hall");

/// Does the make-up water supply cover evaporation?
/// @param evaporation  negative (the room condenses on the water) counts as nothing to make up
/// @param high         the high end of evaporation, >= evaporation; it sets the uncertainty of the check, 25 % at
/// least.
///                     Where nothing is to make up but at the high end more than the supply, the check is marginal
/// @throws InvalidInput  evaporation not finite, high below it, supply negative
Check make_up_water_check(const MassFlow& evaporation, const MassFlow& high, const VolumeFlow& supply,
                          std::string where = "whole system");

/// Does the water stay within its limit through a power cut? Demand: change of temperature in the cut; capacity: change
/// from the start to the limit.
/// @param after  temperature at the end of the cut, from temperature_after
/// @param limit  lowest (below start) or highest (above start) temperature accepted
/// @throws InvalidInput  limit equal to start; `after` on the other side of the start than the limit, where the water
///                       moves away from it and a limit on its own side is the one to ask about; cut not positive
Check power_cut_check(const Time& cut, const Temperature& start, const Temperature& after, const Temperature& limit,
                      std::string where = "whole system");

}  // namespace theca::thermal
