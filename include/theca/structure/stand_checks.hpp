// Checks of what carries a tank: beams, columns, legs, level.
#pragma once

#include <string>

#include "theca/check.hpp"
#include "theca/structure/leg_load.hpp"
#include "theca/structure/level.hpp"
#include "theca/structure/stand_beam.hpp"

namespace theca::structure {

// All throw InvalidInput on criteria that are not > 0 and finite.

Check beam_stress_check(const std::string& subject, const BentBeam& beam, const Pressure& allowable,
                        const std::string& allowable_source);
/// Sag of a beam against the limit that keeps the tank supported, e.g. span / 500 (an input).
Check beam_deflection_check(const std::string& subject, const BentBeam& beam, const Length& limit,
                            const std::string& limit_source);
/// Load of a column times a factor against its buckling load.
Check column_check(const std::string& subject, const Force& load, const Force& buckling_load, double factor,
                   const std::string& buckling_source);
/// Most loaded leg against what its foot or the floor may take.
Check leg_force_check(const std::string& subject, const LegForces& legs, const Force& allowable,
                      const std::string& allowable_source);
/// Difference of the waterline against a wanted limit.
Check level_check(const std::string& subject, const OutOfLevel& level, const Length& limit,
                  const std::string& limit_source);

}  // namespace theca::structure
