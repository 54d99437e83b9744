// Thermal stress in one pane from a temperature difference: a heater, sun on part of it, or a cold edge.
#pragma once

#include "theca/materials/material.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// How the cold part holds back the warm one.
enum class ThermalRestraint {
  cold_edge,         ///< narrow cold edge around a warm pane: its tension along the edge is E alpha dT
  warm_spot,         ///< small round warm spot in a wide cold pane: half of E alpha dT, round the rim of the spot
  both_ways,         ///< a thin cold layer or film held in all directions of the plane: E alpha dT / (1 - nu)
  through_thickness  ///< warm and cold face of a pane kept flat, linear between: E alpha dT / (2 (1 - nu))
};

/// Share of E alpha dT: 1, 1/2, 1 / (1 - nu), 1 / (2 (1 - nu)).
/// @source Timoshenko & Goodier, Theory of Elasticity, thermal stress (from memory); the first and the last but one are
///         the full restraint of one and two directions. A pane free to expand as a whole has less
double thermal_factor(ThermalRestraint restraint, double poisson_ratio);

/// Largest tension, of the colder part: factor x E alpha dT; 0.63 MPa/K in soda-lime glass at a cold edge.
/// @param difference  warm less cold, >= 0
/// @throws InvalidInput  difference negative or not finite; material that no solid can be; Poisson's ratio as there
Pressure thermal_stress(const materials::Material& material, const TemperatureDifference& difference,
                        ThermalRestraint restraint = ThermalRestraint::cold_edge);

/// The temperature difference whose stress reaches `allowable`, e.g. an edge's design strength less its water stress.
/// @throws InvalidInput  allowable not > 0 and finite; expansion zero
TemperatureDifference allowable_temperature_difference(const materials::Material& material, const Pressure& allowable,
                                                       ThermalRestraint restraint = ThermalRestraint::cold_edge);

/// Temperature difference that clean-cut float glass is said to bear across a pane, 40 K; 200 K for toughened glass.
/// @source EN 572-1 / glass makers' handbooks (40 K), EN 12150-1 (200 K, from memory)
TemperatureDifference float_glass_shock_limit();
TemperatureDifference toughened_glass_shock_limit();

}  // namespace theca::structure
