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

/// Strength of PMMA at a temperature over that at 70 degF (21 degC): 1.2 at 32 degF, 1, 0.8 at 90 degF (32.2 degC),
/// straight lines between. Measured on short loads; taken for long ones for want of a published figure.
/// @throws OutOfValidity  not within 0 and 32.2 degC
/// @source "Effect of Temperature and Flange Support on Critical Pressure of Conical Acrylic Windows Under Short-Term
///         Pressure Loading" (over 400 windows, 32 to 90 degF), as its abstract sums it up: some 20 % either way
double acrylic_temperature_factor(const Temperature& temperature);

/// `acrylic_long_term_strength()` in water of this temperature: 0.91 of it at 26 degC, 0.84 at 30 degC.
/// @throws OutOfValidity  as acrylic_temperature_factor
DesignStrength acrylic_long_term_strength(const Temperature& water);

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

/// The same at a temperature: every strain of the curve times exp(-(H / R) (1 / T - 1 / 296.15 K)), H = 18 kJ/mol,
/// 1.18 at 30 degC. The whole strain is scaled, its quick elastic share too: on the heavy side in
/// warmth; colder than 23 degC it would be on the light side, and the curve stands as it is.
/// @param temperature  of the sheet, the warmer face counts; 10 to 40 degC
/// @throws OutOfValidity  time as above; temperature outside that
/// @source form (strains superpose by an Arrhenius factor, grow as time^0.24, 8 to 55 degC, up to 450 h, 5 to 25 MPa):
///         thesis "A constitutive equation for creep in glassy polymers and composites" (PMMA in four-point bending),
///         as its abstract gives it. H = 0.24 x 75 kJ/mol, activation
///         energy of the secondary relaxation, from memory: hence the spread grows by half of the change
CreepModulus acrylic_creep_modulus(const Time& after, const Temperature& temperature);

enum class AcrylicSheet { cast, extruded };
enum class CrazingSurroundings { air, water, bonded_joint_in_water };

/// Tension that stays which PMMA bears without crazing: 1500 psi cast, 750 psi extruded in air; half in water, half
/// again at a bonded joint. Stresses that last a short time may be higher; no allowance for it is made here.
/// @source sheet maker's published design stresses (air); the two halves are common practice, no source
DesignStrength acrylic_crazing_limit(AcrylicSheet sheet, CrazingSurroundings surroundings);

}  // namespace theca::materials
