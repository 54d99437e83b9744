// Beams of a stand: sections, and a beam over equal spans under a uniform load, with shear deflection.
#pragma once

#include "theca/units.hpp"

namespace theca::structure {

/// What a section of a beam or column resists with. The caller may fill it from a maker's table.
struct BeamSection {
  Area area;
  SecondMomentOfArea second_moment;  ///< about the axis of bending
  Volume section_modulus;
  double shear_coefficient = 1.0;  ///< kappa: shear area over area, > 0, at most 1
};

/// @throws InvalidInput  width or depth not > 0 and finite
/// @source b d^3 / 12, b d^2 / 6; kappa 5/6, S. P. Timoshenko, Strength of Materials (from memory)
BeamSection rectangle_section(const Length& width, const Length& depth);
/// Rectangular hollow section with sharp corners (rounded ones have a few per cent less).
/// @throws InvalidInput  dimensions not > 0, wall not under half of width and depth
/// @source difference of two rectangles; kappa: webs over area (common practice)
BeamSection hollow_section(const Length& width, const Length& depth, const Length& wall);

struct BeamMaterial {
  Pressure youngs_modulus, shear_modulus;  ///< timber: E / 16, EN 338 (from memory)
};

struct BentBeam {
  Moment largest_moment;  ///< in size
  Pressure stress;        ///< of that moment
  Force largest_shear;
  Force largest_reaction;
  Force end_reaction;
  Length deflection;  ///< largest in any span, with shear
};

/// Beam over `spans` equal spans on stiff supports, hinged at its ends, under a uniform line load on all of them.
/// @param load   >= 0
/// @param spans  1 to 20
/// @throws InvalidInput  values outside these ranges, material or section not > 0
/// @throws OutOfValidity  deflection over a twentieth of the span: small slopes no longer hold
/// @source three moments (B. P. Clapeyron 1857) with Timoshenko's shear terms; single span 5 w L^4 / 384 E I +
///         w L^2 / 8 kappa G A, J. M. Gere, S. P. Timoshenko, Mechanics of Materials (from memory)
BentBeam bend_beam(const Length& span, int spans, const LineLoad& load, const BeamMaterial& material,
                   const BeamSection& section);

}  // namespace theca::structure
