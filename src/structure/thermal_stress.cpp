#include "theca/structure/thermal_stress.hpp"

#include "theca/require.hpp"

namespace theca::structure {
namespace {

using namespace theca::literals;

/// Stress per kelvin, Pa/K.
double per_kelvin(const materials::Material& material, ThermalRestraint restraint) {
  materials::require_possible(material);
  return thermal_factor(restraint, material.poisson_ratio) * si(material.youngs_modulus) *
         si(material.thermal_expansion);
}

}  // namespace

double thermal_factor(ThermalRestraint restraint, double poisson_ratio) {
  require::within("Poisson's ratio", poisson_ratio, 0.0, 0.5);
  switch (restraint) {
    case ThermalRestraint::warm_spot:
      return 0.5;
    case ThermalRestraint::both_ways:
      return 1.0 / (1.0 - poisson_ratio);
    case ThermalRestraint::through_thickness:
      return 0.5 / (1.0 - poisson_ratio);
    case ThermalRestraint::cold_edge:
      break;
  }
  return 1.0;
}

Pressure thermal_stress(const materials::Material& material, const TemperatureDifference& difference,
                        ThermalRestraint restraint) {
  require::not_negative("temperature difference", difference);
  return from_si<Pressure>(per_kelvin(material, restraint) * si(difference));
}

TemperatureDifference allowable_temperature_difference(const materials::Material& material, const Pressure& allowable,
                                                       ThermalRestraint restraint) {
  require::positive("allowable stress", allowable);
  require::positive("thermal expansion", material.thermal_expansion);
  return from_si<TemperatureDifference>(si(allowable) / per_kelvin(material, restraint));
}

TemperatureDifference float_glass_shock_limit() { return from_si<TemperatureDifference>(40.0); }
TemperatureDifference toughened_glass_shock_limit() { return from_si<TemperatureDifference>(200.0); }

}  // namespace theca::structure
