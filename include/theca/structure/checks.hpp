// The checks of the structure module: each compares a result with a criterion of the caller's.
#pragma once

#include <string>

#include "theca/check.hpp"
#include "theca/materials/material.hpp"
#include "theca/structure/bend.hpp"
#include "theca/structure/floor.hpp"
#include "theca/structure/sloshing.hpp"
#include "theca/structure/tank.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// Strength criterion of a panel, an input: the design strength and the factor put on the load.
struct StrengthCriterion {
  materials::DesignStrength strength;  ///< e.g. materials::glass_design_strength()
  double load_factor = 1.0;            ///< >= 1; 1.35 for a permanent load in EN 1990
};

// `subject` names the part, e.g. "tank A long wall"; the check is then called "structure: tank A long wall stress".
// All throw InvalidInput on criteria that are not > 0 and finite.

/// Largest tension times the load factor against the allowable. No verdict where the deflection is over half of the
/// thickness (linear theory); a caution over a third.
Check panel_stress_check(const std::string& subject, const BentPanel& bent, const StrengthCriterion& criterion);

/// Largest deflection against a limit such as width / 200.
Check panel_deflection_check(const std::string& subject, const BentPanel& bent, const Length& limit,
                             const std::string& limit_source);

// A tank is judged by its joints at both limits and, where it has a bead, as bonded: the worst decides, and `where`
// names the figures of the others.

/// Largest tension of a wall or of the base times the load factor against the allowable. No verdict where the
/// deflection of the case that decides is over half of the thickness.
/// @throws InvalidInput  the tank has no such part
Check tank_stress_check(const std::string& subject, const TankBetweenLimits& bent, TankPart which,
                        const StrengthCriterion& criterion);

/// Largest deflection of a wall or of the base against a limit.
/// @throws InvalidInput  the tank has no such part
Check tank_deflection_check(const std::string& subject, const TankBetweenLimits& bent, TankPart which,
                            const Length& limit, const std::string& limit_source);

/// Largest nominal section stress of the strips of rim and cross braces, times the load factor, against the allowable.
/// The inner corners of the ring are in it by their nominal section stress.
/// @throws InvalidInput  the tank has no brace
Check tank_brace_stress_check(const std::string& subject, const TankBetweenLimits& bent,
                              const StrengthCriterion& criterion);

enum class LoadDuration { short_term, permanent };

/// Mean stress of an adhesive joint against the allowable for the duration of the load.
Check joint_stress_check(const std::string& subject, const Pressure& stress, LoadDuration duration,
                         const materials::DesignStrength& allowable, std::string where = "mean over the bite");

// Joints and bonds are judged as bonded where the tank has a bead: rigid ones take the load at the corners, where thin
// plate theory is singular. `where` names the figures of the limits all the same.

/// Largest load across the joints of walls and base, over the bite, against the allowable for the duration of the load.
Check tank_joint_check(const std::string& subject, const TankBetweenLimits& bent, const Length& bite,
                       LoadDuration duration, const materials::DesignStrength& allowable);

/// Shear and peel of the bonds of rim and cross braces together, over the bite, against the allowable.
/// @throws InvalidInput  the tank has no brace
Check tank_bond_check(const std::string& subject, const TankBetweenLimits& bent, const Length& bite,
                      LoadDuration duration, const materials::DesignStrength& allowable);

/// Mean pressure under the footprint, or over the tributary area where one is given, against a rated live load.
Check floor_pressure_check(const std::string& subject, const FloorLoad& load, const Pressure& rated_load,
                           const std::string& rating_source,
                           std::string where = "mean over the floor area that carries the stand");

/// Force of the most loaded leg against an allowable point load.
Check leg_load_check(const std::string& subject, const FloorLoad& load, const Force& allowable,
                     const std::string& allowable_source);

/// Freeboard against the earthquake wave of `slosh_wave_height`.
/// @param where  the wall at which the higher wave rises
Check freeboard_check(const std::string& subject, const Length& wave_height, const Length& freeboard,
                      std::string where = "end wall, first slosh mode");

/// Separation |f_strokes / f_n - 1| of the hand strokes from the first slosh mode against the least wanted one.
/// @param least_separation  default 0.2: common practice, no source
Check stroke_resonance_check(const std::string& subject, double frequency_ratio, double least_separation = 0.2);

}  // namespace theca::structure
