// The symbol of each coherent SI unit, found from the type: error messages, the Python unit table and printing use it.
#pragma once

#include <string_view>

#include "theca/units/quantity.hpp"
#include "theca/units/salinity.hpp"

namespace theca {

namespace detail {
template <class Unit>
struct SymbolOf;  // a unit that is missing here stops the compiler at the place that wants to print it
#define THECA_SYMBOL(unit_name, text)               \
  template <>                                       \
  struct SymbolOf<unit::unit_name> {                \
    static constexpr std::string_view value = text; \
  };
THECA_SYMBOL(none, "")
THECA_SYMBOL(length, "m")
THECA_SYMBOL(mass, "kg")
THECA_SYMBOL(time, "s")
THECA_SYMBOL(current, "A")
THECA_SYMBOL(temperature, "K")
THECA_SYMBOL(amount, "mol")
THECA_SYMBOL(luminous_intensity, "cd")
THECA_SYMBOL(angle, "rad")
THECA_SYMBOL(solid_angle, "sr")
THECA_SYMBOL(currency, "USD")
THECA_SYMBOL(area, "m2")
THECA_SYMBOL(volume, "m3")
THECA_SYMBOL(second_moment, "m4")
THECA_SYMBOL(velocity, "m/s")
THECA_SYMBOL(acceleration, "m/s2")
THECA_SYMBOL(frequency, "1/s")
THECA_SYMBOL(volume_flow, "m3/s")
THECA_SYMBOL(kinematic_viscosity, "m2/s")
THECA_SYMBOL(density, "kg/m3")
THECA_SYMBOL(mass_flow, "kg/s")
THECA_SYMBOL(mass_flux, "kg/m2/s")
THECA_SYMBOL(mass_per_length, "kg/m")
THECA_SYMBOL(area_density, "kg/m2")
THECA_SYMBOL(force, "N")
THECA_SYMBOL(pressure, "Pa")
THECA_SYMBOL(line_load, "N/m")
THECA_SYMBOL(rotational_stiffness, "N/rad")
THECA_SYMBOL(energy, "J")
THECA_SYMBOL(beam_stiffness, "N m2")
THECA_SYMBOL(foundation_modulus, "N/m3")
THECA_SYMBOL(power, "W")
THECA_SYMBOL(specific_energy, "J/kg")
THECA_SYMBOL(dynamic_viscosity, "Pa s")
THECA_SYMBOL(heat_flux, "W/m2")
THECA_SYMBOL(thermal_transmittance, "W/m2/K")
THECA_SYMBOL(thermal_conductivity, "W/m/K")
THECA_SYMBOL(thermal_conductance, "W/K")
THECA_SYMBOL(thermal_resistance, "m2 K/W")
THECA_SYMBOL(heat_capacity, "J/K")
THECA_SYMBOL(specific_heat_capacity, "J/kg/K")
THECA_SYMBOL(thermal_expansion, "1/K")
THECA_SYMBOL(attenuation, "1/m")
THECA_SYMBOL(voltage, "V")
THECA_SYMBOL(resistance, "ohm")
THECA_SYMBOL(resistance_per_length, "ohm/m")
THECA_SYMBOL(charge, "A s")
THECA_SYMBOL(luminous_flux, "lm")
THECA_SYMBOL(luminous_efficacy, "lm/W")
THECA_SYMBOL(photons_per_light, "mol/s/lm")
THECA_SYMBOL(photon_flux, "mol/s")
THECA_SYMBOL(photon_flux_density, "mol/m2/s")
THECA_SYMBOL(photon_intensity, "mol/s/sr")
THECA_SYMBOL(photon_dose, "mol/m2")
THECA_SYMBOL(photon_efficacy, "mol/J")
THECA_SYMBOL(concentration, "mol/m3")
THECA_SYMBOL(molar_mass, "kg/mol")
THECA_SYMBOL(molality, "mol/kg")
THECA_SYMBOL(per_area, "1/m2")
THECA_SYMBOL(currency_per_energy, "USD/J")
THECA_SYMBOL(currency_per_time, "USD/s")
THECA_SYMBOL(currency_per_area_time, "USD/m2/s")
THECA_SYMBOL(currency_per_volume, "USD/m3")
#undef THECA_SYMBOL
template <class Unit>
struct SymbolOf<bu::absolute<Unit>> : SymbolOf<Unit> {};
}  // namespace detail

/// Symbol of the coherent SI unit in which `si(q)` is counted, e.g. "N/m".
template <class Unit, class T>
constexpr std::string_view si_symbol(const bu::quantity<Unit, T>& /*q*/) {
  return detail::SymbolOf<Unit>::value;
}

}  // namespace theca
