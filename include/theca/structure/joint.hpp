// Stress in the adhesive joints of a tank, by statics.
#pragma once

#include "theca/units.hpp"

namespace theca::structure {

namespace kernel {
/// p0 h / 2 - p0 h^2 / (6 H), N/m, with p0 = rho g h; coherent SI, unchecked.
template <class T>
T bottom_joint_line_load(T water_depth_m, T wall_height_m, T density_kg_m3, T gravity_m_s2) {
  return density_kg_m3 * gravity_m_s2 * water_depth_m * water_depth_m *
         (T(0.5) - water_depth_m / (T(6.0) * wall_height_m));
}
}  // namespace kernel

/// Line load across the bottom joint of a wall whose top edge is held, as a strip from bottom to top:
/// p0 h / 2 - p0 h^2 / (6 H). Where the top gives, more of the load comes to the bottom, at most p0 h / 2 for a wall
/// leaning on nothing else; the reactions of `bend` tell.
///
/// @param water_depth  h, over the bottom edge of the wall, > 0 and at most the wall height
/// @param wall_height  H, over the base
/// @throws InvalidInput  a dimension, density or gravity not > 0 and finite; water over the wall
/// @source statics
LineLoad bottom_joint_line_load(const Length& water_depth, const Length& wall_height, const Density& water,
                                const Acceleration& gravity = standard_gravity);

/// Mean stress of a joint: line load over the bite, the width of adhesive that carries it. Peaks at the ends of the
/// bite are not in it; nor are the allowables it is compared with, which are for mean stress (ASTM C1401, ETAG 002).
/// @throws InvalidInput  line load negative or not finite, bite not > 0 and finite
Pressure joint_stress(const LineLoad& line_load, const Length& bite);

/// The bite that brings the stress of a joint down to `allowable`.
/// @throws InvalidInput  line load negative or not finite, allowable not > 0 and finite
Length needed_bite(const LineLoad& line_load, const Pressure& allowable);

}  // namespace theca::structure
