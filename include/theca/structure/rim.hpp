// Rim and cross braces: what the top of a wall pushes with, and a brace strip bending in its own plane as a lone beam.
#pragma once

#include "theca/materials/material.hpp"
#include "theca/units.hpp"

namespace theca::structure {

namespace kernel {
/// p0 h^2 / (6 H), N/m, with p0 = rho g h; coherent SI, unchecked.
template <class T>
T held_top_line_load(T water_depth_m, T wall_height_m, T density_kg_m3, T gravity_m_s2) {
  return density_kg_m3 * gravity_m_s2 * water_depth_m * water_depth_m * water_depth_m / (T(6.0) * wall_height_m);
}
/// Largest bending stress 6 q L^2 / (8 t d^2) of a hinged strip of depth d in its own plane, Pa; unchecked.
template <class T>
T strip_stress(T line_load_N_m, T span_m, T width_m, T thickness_m) {
  return T(0.75) * line_load_N_m * span_m * span_m / (thickness_m * width_m * width_m);
}
/// Mid-span deflection 5 q L^4 / (384 E I), I = t d^3 / 12, of a hinged strip in its own plane, m; unchecked.
template <class T>
T strip_deflection(T line_load_N_m, T span_m, T width_m, T thickness_m, T youngs_modulus_Pa) {
  const T length2 = span_m * span_m;
  return T(5.0 * 12.0 / 384.0) * line_load_N_m * length2 * length2 /
         (youngs_modulus_Pa * thickness_m * width_m * width_m * width_m);
}
/// Largest bending stress 6 q L^2 / (pi^2 t d^2) of the same strip under q sin(pi x/L), Pa; unchecked.
template <class T>
T half_sine_strip_stress(T mid_span_load_N_m, T span_m, T width_m, T thickness_m) {
  constexpr double pi = 3.14159265358979323846;
  return T(6.0 / (pi * pi)) * mid_span_load_N_m * span_m * span_m / (thickness_m * width_m * width_m);
}
/// Its mid-span deflection q L^4 / (pi^4 E I), m; unchecked.
template <class T>
T half_sine_strip_deflection(T mid_span_load_N_m, T span_m, T width_m, T thickness_m, T youngs_modulus_Pa) {
  constexpr double pi = 3.14159265358979323846;
  const T length2 = span_m * span_m;
  return T(12.0 / (pi * pi * pi * pi)) * mid_span_load_N_m * length2 * length2 /
         (youngs_modulus_Pa * thickness_m * width_m * width_m * width_m);
}
}  // namespace kernel

/// Line load p0 h^2 / (6 H) that a held top edge carries when the bottom edge is hinged and the wall is a strip from
/// bottom to top: moments about the bottom edge. Less near the side edges, which carry their share.
///
/// @param water_depth  h, over the bottom edge of the wall, > 0 and at most the wall height
/// @param wall_height  H, over the base
/// @throws InvalidInput  a dimension, density or gravity not > 0 and finite; water over the wall
/// @source statics
LineLoad held_top_line_load(const Length& water_depth, const Length& wall_height, const Density& water,
                            const Acceleration& gravity = standard_gravity);

/// A brace lying flat along the top of a wall: it bends in its own plane, its width being the depth of the beam.
struct BraceStrip {
  Length span;       ///< between its supports: the inside length of the tank, or the distance between cross braces
  Length width;      ///< horizontal, the depth of the beam
  Length thickness;  ///< minimum thickness of the sheet
  materials::Material material;
};

struct BentStrip {
  Pressure stress;    ///< at mid-span, edge of the strip
  Length deflection;  ///< at mid-span, bending only
};

/// The strip as a lone beam hinged at its ends carrying all of `line_load`. This bounds the brace from above: the panel
/// edge shares the load, and the true value lies between this and a top edge that does not move (`hinged()`).
///
/// @throws InvalidInput   a dimension or modulus not > 0 and finite, thickness over the width, line load negative
/// @throws OutOfValidity  span under 5 times the width, where shear counts
/// @source beam theory, from memory: M = q L^2 / 8, deflection 5 q L^4 / (384 E I)
BentStrip lone_brace(const BraceStrip& strip, const LineLoad& line_load);

/// The strip under a line load that bows like the edge it holds: q sin(pi x / L), with `at_mid_span` the largest value
/// q. That is what a wall hands to the brace it stands against (`edge_on_brace`): q is then the reaction at the middle
/// of its top edge, `BentPanel::reaction_at`.
///
/// The mean of the load is 2 q / pi. Spread evenly it bends the strip with q L^2 / (4 pi), a fifth less than the
/// q L^2 / pi^2 found here.
/// @param at_mid_span  q, >= 0
/// @throws InvalidInput, OutOfValidity  as `lone_brace`
/// @source beam theory: E I w'''' = q sin(pi x / L), hinged ends, gives M = q L^2 / pi^2 and w = q L^4 / (pi^4 E I)
BentStrip half_sine_brace(const BraceStrip& strip, const LineLoad& at_mid_span);

}  // namespace theca::structure
