#include "theca/farm/electrical.hpp"

#include <cmath>

#include "theca/require.hpp"

namespace theca::farm {

namespace {
void require_supply(const Voltage& voltage, double power_factor, double continuous_factor) {
  require::positive("voltage", voltage);
  require::that(power_factor > 0.0 && power_factor <= 1.0, "power factor", power_factor, "> 0 to 1");
  require::that(continuous_factor >= 1.0 && std::isfinite(continuous_factor), "continuous factor", continuous_factor,
                ">= 1 and finite");
}
}  // namespace

Current circuit_current(const Power& load, const Voltage& voltage, double power_factor) {
  require::not_negative("load", load);
  require_supply(voltage, power_factor, 1.0);
  return load / (power_factor * voltage);
}

Current required_rating(const CircuitLoad& load, const Voltage& voltage, double power_factor,
                        double continuous_factor) {
  require::not_negative("continuous load", load.continuous);
  require::not_negative("other load", load.other);
  require_supply(voltage, power_factor, continuous_factor);
  return (continuous_factor * load.continuous + load.other) / (power_factor * voltage);
}

Power largest_continuous_load(const Current& breaker, const Voltage& voltage, double power_factor,
                              double continuous_factor) {
  require::positive("breaker rating", breaker);
  require_supply(voltage, power_factor, continuous_factor);
  return power_factor / continuous_factor * (breaker * voltage);
}

int circuits_needed(int units_count, const Power& each, const Current& breaker, const Voltage& voltage,
                    double power_factor, double continuous_factor) {
  require::that(units_count >= 0, "number of units", units_count, ">= 0");
  require::positive("power of each unit", each);
  const Power most = largest_continuous_load(breaker, voltage, power_factor, continuous_factor);
  const double per_circuit = std::floor(most / each * (1.0 + 1e-12));
  require::that(per_circuit >= 1.0, "power of each unit", each, "at most what one circuit carries, " + text(most));
  return static_cast<int>(std::ceil(units_count / per_circuit));
}

int units_on_fullest_circuit(int units_count, int circuits) {
  require::that(units_count >= 0, "number of units", units_count, ">= 0");
  require::that(circuits >= 1, "circuits", circuits, ">= 1");
  return units_count / circuits + (units_count % circuits == 0 ? 0 : 1);
}

}  // namespace theca::farm
