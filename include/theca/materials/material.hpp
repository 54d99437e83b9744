// A material with the properties that structure, heat and light ask for, and a design strength with its grounds.
#pragma once

#include <string>

#include "theca/units.hpp"

namespace theca::materials {

/// Properties near 20 degC. A value that a design hinges on is better taken from the supplier's own statement.
struct Material {
  std::string name;
  Pressure youngs_modulus;
  double poisson_ratio = 0.0;
  Density density;
  ThermalConductivity thermal_conductivity;
  SpecificHeatCapacity specific_heat_capacity;
  ThermalExpansion thermal_expansion;
  double refractive_index = 0.0;  ///< for visible light, against air
  double emissivity = 0.0;        ///< long-wave, hemispherical
  std::string source;
};

/// A stress to design against: what it holds for, and where it comes from.
struct DesignStrength {
  Pressure value;
  std::string basis;
  std::string source;
};

/// Refuses a material that no solid can be.
/// @throws InvalidInput  modulus, density, conductivity, heat capacity not > 0; expansion < 0; Poisson's ratio outside
///                       0 to 0.5; refractive index under 1; emissivity outside 0 to 1
void require_possible(const Material& material);

}  // namespace theca::materials
