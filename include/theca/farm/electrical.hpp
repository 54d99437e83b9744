// Branch circuits: current of a load, and how much of a breaker a continuous load may take.
#pragma once

#include "theca/units.hpp"

namespace theca::farm {

/// Current of a single-phase load: P / (V pf).
/// @throws InvalidInput  power negative, voltage not positive, power factor outside (0, 1]
Current circuit_current(const Power& load, const Voltage& voltage, double power_factor = 1.0);

struct CircuitLoad {
  Power continuous;                 ///< on for 3 h or more
  Power other = from_si<Power>(0);  ///< the rest
};
/// Rating asked of the overcurrent device: 125 % of the continuous current plus 100 % of the rest.
/// @source NFPA 70 (National Electrical Code) 210.19(A)(1), 210.20(A)
Current required_rating(const CircuitLoad& load, const Voltage& voltage, double power_factor = 1.0,
                        double continuous_factor = 1.25);

/// Largest continuous power on a circuit: the inverse.
Power largest_continuous_load(const Current& breaker, const Voltage& voltage, double power_factor = 1.0,
                              double continuous_factor = 1.25);

/// Circuits needed for a number of equal units, each wholly on one circuit.
/// @throws InvalidInput  units negative, or one unit alone is too much for a circuit
int circuits_needed(int units_count, const Power& each, const Current& breaker, const Voltage& voltage,
                    double power_factor = 1.0, double continuous_factor = 1.25);

/// Most units on the fullest circuit when they are shared out evenly: ceil(units/circuits).
int units_on_fullest_circuit(int units_count, int circuits);

}  // namespace theca::farm
