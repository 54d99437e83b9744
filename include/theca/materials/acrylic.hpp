// Cast acrylic (PMMA) for panels: properties, creep modulus and long-term design stress.
#pragma once

#include "theca/materials/material.hpp"

namespace theca::materials {

/// Cast PMMA sheet, short-term stiffness. For a load that stays use `acrylic_creep_modulus()`.
Material acrylic();

/// Apparent modulus of cast PMMA under a permanent tensile load of a few MPa at room temperature, years after loading.
/// @source from memory, creep curves of cast sheet at 23 degC; a supplier's own curve rules
Pressure acrylic_creep_modulus();

/// Stress that cast PMMA is taken to bear for years without crazing, at room temperature and in water. A panel
/// that holds water over people's feet or wiring needs the judgement of an engineer beside this number.
/// @source common practice, no source; its `basis` says how it was set
DesignStrength acrylic_long_term_strength();

}  // namespace theca::materials
