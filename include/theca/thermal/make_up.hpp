// Make-up water that fails: level and salinity while nothing is made up, and while the valve sticks open.
#pragma once

#include <optional>

#include "theca/thermal/balance.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// A system of tanks and sump at its running level when the make-up fails.
struct RunningSystem {
  Volume water{};          ///< of the whole system, > 0
  Volume above{};          ///< room left over the running level until it overflows, >= 0
  Volume below{};          ///< water under the running level until the pump draws air, 0 to `water`
  Water state;             ///< temperature and salinity, both taken as fresh make-up leaves them, S > 0
  MassFlow evaporation{};  ///< held throughout, >= 0; salinity lowers it by under 1 % over the drifts of use here
};

/// State some time after the failure.
struct WaterDrift {
  Volume water{};  ///< never above running level + `above`
  AbsoluteSalinity salinity = AbsoluteSalinity(0.0);
  Volume overflowed{};  ///< run to waste, or to the floor, so far
};

/// Nothing is made up: water leaves, salt stays, S = S0 M0 / (M0 - E t).
/// @throws InvalidInput   bad field, time negative; OutOfValidity  salinity past 42 g/kg, where theca/seawater.hpp ends
/// @source conservation of water and of salt
WaterDrift make_up_stopped(const RunningSystem& system, const Time& time);

/// Until the pump draws air; nothing where nothing evaporates.
/// @throws as make_up_stopped: the water may be past 42 g/kg before
std::optional<Time> time_to_dry_pump(const RunningSystem& system);

/// Fresh water runs in and does not stop: the level rises with S = S0 M0 / M to the overflow; from there on well mixed
/// water leaves and takes its salt with it, dS/dt = -S (q - E) / M.
/// @param make_up  of fresh water as its mass flow, >= 0; what evaporates at the same time counts against it. Where it
///                 does not cover evaporation the level falls as above
/// @throws as make_up_stopped
/// @source conservation of water and of salt; stirred tank of constant volume (Levenspiel, Chemical Reaction
///         Engineering, from memory), with the density of the water as it thins
WaterDrift make_up_stuck(const RunningSystem& system, const MassFlow& make_up, const Time& time);

/// Until it overflows; nothing where make-up does not exceed evaporation.
std::optional<Time> time_to_overflow(const RunningSystem& system, const MassFlow& make_up);

/// Until the salinity, rising or falling with this make-up (0: it stopped), passes `limit`; nothing where it drifts the
/// other way or stays.
/// @param limit  above 0 and to 42 g/kg
/// @throws InvalidInput
std::optional<Time> time_to_salinity(const RunningSystem& system, const MassFlow& make_up, AbsoluteSalinity limit);

}  // namespace theca::thermal
