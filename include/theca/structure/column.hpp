// Columns of a stand: Euler, Johnson, secant formula, and the buckling factors of EN 1993, EN 1995 and NDS.
#pragma once

#include "theca/structure/stand_beam.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// A column. The effective length is the buckling length: the height for hinged ends, twice the height for a leg free
/// to sway on a stiff joint at one end.
struct Column {
  Length effective_length;
  Pressure youngs_modulus;  ///< lower 5 % value in EN 1995, E_min' in NDS
  Pressure strength;        ///< yield, or compression along the grain
  BeamSection section;      ///< about the weaker axis
};

/// pi^2 E I / L^2.  @throws InvalidInput  a value not > 0 and finite  @source L. Euler 1744
Force euler_load(const Column& column);

/// Euler beyond the slenderness where it gives half of the strength, Johnson's parabola below.
/// @throws InvalidInput  as above
/// @source J. B. Johnson 1893, in J. E. Shigley, Mechanical Engineering Design (from memory)
Force johnson_load(const Column& column);

/// Load at which the outer fibre of an eccentrically loaded hinged column reaches the strength, by the secant formula.
/// @param eccentricity  of the load, >= 0
/// @throws InvalidInput  as above; NotConverged  bisection fails
/// @source S. P. Timoshenko, J. M. Gere, Theory of Elastic Stability, secant formula (from memory)
Force secant_load(const Column& column, const Length& eccentricity);

/// Buckling curves of EN 1993-1-1, table 6.1: imperfection factor 0.13, 0.21, 0.34, 0.49, 0.76. Hot-finished hollow
/// sections a, cold-formed c (table 6.2).
enum class BucklingCurve { a0, a, b, c, d };

/// Strength x area x factor; the caller divides by the partial factor.
/// @source EN 1993-1-1:2005, 6.3.1.2, eq. (6.49)
Force steel_buckling_load(const Column& column, BucklingCurve curve);

/// @param straightness  beta_c: 0.2 solid timber, 0.1 glued laminated
/// @throws InvalidInput  as above, straightness outside 0 to 0.5
/// @source EN 1995-1-1:2004, 6.3.2, eq. (6.21) to (6.29)
Force timber_buckling_load(const Column& column, double straightness = 0.2);

/// @param c  0.8 sawn, 0.85 round, 0.9 glued laminated
/// @throws InvalidInput  as above, c outside 0.5 to 1
/// @throws OutOfValidity  effective length over depth beyond 50
/// @source AWC, National Design Specification 2018, 3.7.1, column stability factor; for sections that are no rectangle
///         the depth is sqrt(12) radii of gyration
Force nds_column_load(const Column& column, double c = 0.8);

}  // namespace theca::structure
