// Power of equipment as heat: what of it the water takes, and what the room.
#pragma once

#include <string>

#include "theca/units.hpp"

namespace theca::thermal {

/// Heat from equipment.
struct HeatGain {
  std::string name;
  Power power{};    ///< into the water, >= 0
  Power to_room{};  ///< into the air of the room, >= 0
};

/// Lights: the share of their electrical power that the water absorbs, the rest warms the room. Light that leaves the
/// water again, and what is stored as growth, count as heat where they are absorbed.
/// @param share_to_water  0 to 1; falls with mounting height
/// @throws InvalidInput  input negative, share outside 0 to 1
HeatGain light_gain(std::string name, const Power& input, double share_to_water);

/// Where a pump's motor gives off its losses.
enum class MotorCooling { by_water, by_air };

/// What becomes of a pump's electrical power.
struct PumpHeat {
  Power hydraulic{};     ///< density g flow head: friction and splashing turn it into heat of the water
  Power pump_losses{};   ///< shaft power less hydraulic power, into the water too
  Power motor_losses{};  ///< input less shaft power, to water or air
};

/// @param input             electrical power, > 0
/// @param motor_efficiency  shaft power over input, 0 to 1
/// @param flow, head        at the duty point, >= 0
/// @throws InvalidInput  a bad argument, or more hydraulic power than the shaft gives
/// @source energy balance
PumpHeat pump_heat(const Power& input, double motor_efficiency, const VolumeFlow& flow, const Length& head,
                   const Density& density);

/// The heat of a pump in a closed round: all of its shaft power ends in the water, whatever the head; the motor's
/// losses go where its cooling takes them.
/// @throws InvalidInput  input negative, efficiency outside 0 to 1
HeatGain pump_gain(std::string name, const Power& input, double motor_efficiency, MotorCooling cooling);

}  // namespace theca::thermal
