// Conductors of building wire: their tabulated resistances, and how these follow temperature.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "theca/units.hpp"

namespace theca::farm {

enum class ConductorMetal { copper, aluminium };

/// A stranded conductor out of a table.
struct Conductor {
  std::string name;  ///< "12 AWG", "2.5 mm2"
  ConductorMetal metal = ConductorMetal::copper;
  Area area;                                ///< nominal
  ResistancePerLength resistance;           ///< to direct current
  Temperature temperature = celsius(20.0);  ///< of the conductor, for that resistance
};

/// Conductors of the American wire gauge, 14 AWG (aluminium: 12 AWG) to 500 kcmil, at 75 degC.
/// @source NFPA 70 (National Electrical Code), chapter 9, table 8, uncoated copper and aluminium, stranded; from
/// memory,
///         compared with two copies of the table; tests compare it with resistivity, length and area
std::vector<Conductor> awg_conductors(ConductorMetal metal = ConductorMetal::copper);

/// Metric conductors, 1.5 (aluminium: 10) to 300 mm2, greatest resistance at 20 degC.
/// @source IEC 60228 table 2, class 2, plain copper or aluminium, as two makers of cable print it
std::vector<Conductor> metric_conductors(ConductorMetal metal = ConductorMetal::copper);

/// The conductor of this name in either list. @throws InvalidInput  no such conductor; the nearest is named
Conductor conductor(std::string_view name, ConductorMetal metal = ConductorMetal::copper);

/// Resistance at another temperature of the conductor, linear: zero at -234.5 degC for copper, -228 degC for aluminium.
/// @param temperature  -20 to 120 degC
/// @throws InvalidInput  resistance not positive  @throws OutOfValidity  temperature outside that
/// @source IEC 60228 annex A (from memory); the coefficients 0.00323 and 0.00330 per K at 75 degC of NFPA 70, chapter
/// 9,
///         table 8, note 2 are the same
ResistancePerLength resistance_at(const Conductor& conductor, const Temperature& temperature);

}  // namespace theca::farm
