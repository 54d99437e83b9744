#include "theca/thermal/thermostat_cycle.hpp"

#include "theca/require.hpp"

namespace theca::thermal {

ThermostatCycle thermostat_cycle(const HeatCapacity& capacity, const TemperatureDifference& hysteresis,
                                 const Power& loss, const Power& power) {
  require::positive("heat capacity", capacity);
  require::positive("hysteresis", hysteresis);
  require::positive("loss", loss);
  require::positive("power", power);
  if (!(power > loss))
    throw OutOfValidity("thermostat cycle", "power " + text(power) + " is not above the loss, " + text(loss) +
                                                ": the unit never switches off");
  const Energy held = capacity * hysteresis;
  ThermostatCycle cycle{.on = held / (power - loss), .off = held / loss, .cycles = {}};
  cycle.cycles = 1.0 / (cycle.on + cycle.off);
  cycle.duty = si(loss) / si(power);
  return cycle;
}

TemperatureDifference hysteresis_for_cycles(const HeatCapacity& capacity, const Power& power,
                                            const Frequency& most_cycles) {
  require::positive("heat capacity", capacity);
  require::positive("power", power);
  require::positive("most cycles", most_cycles);
  return from_si<TemperatureDifference>(si(power) / (4.0 * si(capacity) * si(most_cycles)));
}

}  // namespace theca::thermal
