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

/// A value between stated bounds.
struct CreepModulus {
  Pressure value;
  double spread = 0.0;  ///< relative, each way, between suppliers, temperature 20 to 25 degC and dry or wet sheet
  std::string source;
};

/// Apparent modulus of cast PMMA under a tensile stress of at most 10 MPa near 23 degC, so long after loading:
/// interpolated in log time between 3.3 GPa at 1 min, 2.9 at 1 h, 2.2 at 1000 h and 1.5 at ten years.
/// @param after  1 min to 10 years
/// @throws OutOfValidity  outside that
/// @source from memory, creep curves of cast sheet (ISO 899-1 tests); the long-term figure is an extrapolation
CreepModulus acrylic_creep_modulus(const Time& after);

enum class AcrylicSheet { cast, extruded };
enum class CrazingSurroundings { air, water, bonded_joint_in_water };

/// Tension that stays which PMMA bears without crazing: 1500 psi cast, 750 psi extruded in air; half in water, half
/// again at a bonded joint. Stresses that last a short time may be higher; no allowance for it is made here.
/// @source sheet maker's published design stresses (air); the two halves are common practice, no source
DesignStrength acrylic_crazing_limit(AcrylicSheet sheet, CrazingSurroundings surroundings);

}  // namespace theca::materials
