// Checks of what may break: glass by probability and by several criteria, thermal stress, holes, crazing, peel.
#pragma once

#include <string>
#include <vector>

#include "theca/check.hpp"
#include "theca/materials/acrylic.hpp"
#include "theca/structure/glass_criteria.hpp"
#include "theca/structure/glass_failure.hpp"
#include "theca/structure/hole.hpp"
#include "theca/units.hpp"

namespace theca::structure {

// `subject` names the part, `where` the governing place. All throw InvalidInput on criteria that are not > 0 and
// finite.

/// Equivalent stress of the surface against the one that breaks with `probability`: the utilisation goes with the load.
Check glass_breakage_check(const std::string& subject, const GlassFailure& failure, const std::string& where,
                           double probability = 0.008, const SurfaceFlaws& flaws = weathered_glass_flaws());

/// Tension under the unfactored water against each criterion's allowable.
std::vector<Check> glass_criteria_checks(const std::string& subject, const Pressure& tension, const std::string& where,
                                         const std::vector<GlassCriterion>& criteria);

/// Thermal stress and the tension that water puts on the same place together, against an edge's design strength.
Check thermal_stress_check(const std::string& subject, const Pressure& thermal, const Pressure& from_water,
                           const materials::DesignStrength& strength, const std::string& where);

/// Tension of acrylic that stays, against its crazing limit.
Check crazing_check(const std::string& subject, const Pressure& tension, const materials::DesignStrength& limit,
                    const std::string& where);

/// Nominal peak tension of a bead against an allowable.
Check peel_check(const std::string& subject, const Pressure& peak, const materials::DesignStrength& allowable,
                 const std::string& where);

/// Stress at the rim of a hole against an edge's design strength, raised by `hole_near_edge_factor()` for the nearest
/// edge of the panel, never lowered.
/// @param rim_stress  of the hole far from edges, as `hole_edge_stress()` gives it
/// @throws InvalidInput   hole not inside the panel
/// @throws OutOfValidity  edge nearer to the hole's centre than one diameter
Check hole_stress_check(const std::string& subject, const Pressure& rim_stress, const Panel& panel, const Hole& hole,
                        const materials::DesignStrength& strength, const std::string& where);

/// The glass around a hole: diameter, width, edge, corner, joint and next holes, one check each. The joint is met where
/// the rim stays `least_to_edge` thicknesses clear of the bite.
/// @param others  the panel's other holes
/// @param bite    of the joint along the nearest edge; 0 for none
std::vector<Check> hole_place_checks(const std::string& subject, const Panel& panel, const Hole& hole,
                                     const std::vector<Hole>& others, const Length& bite,
                                     const HoleRule& rule = drilled_glass_rule());

}  // namespace theca::structure
