#include "theca/thermal/gains.hpp"

#include <utility>

#include "theca/require.hpp"

namespace theca::thermal {

HeatGain light_gain(std::string name, const Power& input, double share_to_water) {
  require::not_negative("input", input);
  require::within("share to water", share_to_water, 0.0, 1.0);
  return {.name = std::move(name), .power = share_to_water * input, .to_room = (1.0 - share_to_water) * input};
}

PumpHeat pump_heat(const Power& input, double motor_efficiency, const VolumeFlow& flow, const Length& head,
                   const Density& density) {
  require::positive("input", input);
  require::within("motor efficiency", motor_efficiency, 0.0, 1.0);
  require::not_negative("flow", flow);
  require::not_negative("head", head);
  require::positive("density", density);
  const Power shaft = motor_efficiency * input;
  const Power hydraulic = density * standard_gravity * flow * head;
  require::that(hydraulic <= shaft, "hydraulic power", hydraulic,
                "no more than the shaft's power, " + text(si(shaft), "W"));
  return {.hydraulic = hydraulic, .pump_losses = shaft - hydraulic, .motor_losses = input - shaft};
}

HeatGain pump_gain(std::string name, const Power& input, double motor_efficiency, MotorCooling cooling) {
  require::not_negative("input", input);
  require::within("motor efficiency", motor_efficiency, 0.0, 1.0);
  const Power losses = (1.0 - motor_efficiency) * input;
  const bool in_water = cooling == MotorCooling::by_water;
  return {.name = std::move(name), .power = in_water ? input : input - losses, .to_room = in_water ? Power() : losses};
}

}  // namespace theca::thermal
