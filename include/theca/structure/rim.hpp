// The top of a wall that is held as a strip: what it pushes with, and the strip of a rim brace that takes it.
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

}  // namespace theca::structure
