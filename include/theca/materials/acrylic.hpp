// Cast acrylic (PMMA) for panels: properties, creep modulus and long-term design stress.
#pragma once

#include "theca/materials/material.hpp"

namespace theca::materials {

/// Cast PMMA sheet, short-term stiffness. For a load that stays use `acrylic_creep_modulus()`.
Material acrylic();

/// Apparent modulus of cast PMMA under a permanent tensile load of a few MPa at room temperature.
Pressure acrylic_creep_modulus();

/// Stress that cast PMMA is taken to bear for years without crazing, at room temperature and in water.
DesignStrength acrylic_long_term_strength();

}  // namespace theca::materials
