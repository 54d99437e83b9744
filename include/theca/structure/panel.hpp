// A rectangular wall panel, how its four edges are held, and the water pressure on it.
#pragma once

#include <limits>
#include <string_view>

#include "theca/materials/material.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// A beam along an edge, fixed to it all along: it bends and twists with the edge and carries what it takes to the two
/// corners, with which its ends move. Thin against the panel's height (no shear of its own, no eccentricity).
struct EdgeBeam {
  BeamStiffness bending;  ///< E I against deflection out of the panel's plane, >= 0 and finite
  BeamStiffness torsion;  ///< G J, >= 0 and finite
  bool operator==(const EdgeBeam&) const = default;
};

/// How one edge of a panel is held: a spring against displacement and one against rotation about the edge, each per
/// length of edge and each from zero to infinity. Infinity is rigid and exact, not a large number.
struct Edge {
  EdgeStiffness translation;     ///< force per length and deflection, >= 0, infinite when held
  RotationalStiffness rotation;  ///< moment per length and radian, >= 0, infinite when clamped
  EdgeBeam beam{};               ///< none
  bool operator==(const Edge&) const = default;
};

/// Moves and turns without resistance.
constexpr Edge free_edge() { return {from_si<EdgeStiffness>(0.0), from_si<RotationalStiffness>(0.0), {}}; }
/// Held in place, turns without resistance: a simple support.
constexpr Edge hinged() {
  return {from_si<EdgeStiffness>(std::numeric_limits<double>::infinity()), from_si<RotationalStiffness>(0.0), {}};
}
/// Held in place and against rotation.
constexpr Edge clamped() {
  return {from_si<EdgeStiffness>(std::numeric_limits<double>::infinity()),
          from_si<RotationalStiffness>(std::numeric_limits<double>::infinity()),
          {}};
}
/// Two springs, each >= 0 and possibly infinite; refused by `bend` otherwise.
constexpr Edge elastic(const EdgeStiffness& translation,
                       const RotationalStiffness& rotation = from_si<RotationalStiffness>(0.0)) {
  return {translation, rotation, {}};
}
/// An edge stiffened by a beam, otherwise free.
constexpr Edge beam_edge(const BeamStiffness& bending, const BeamStiffness& torsion = from_si<BeamStiffness>(0.0)) {
  return {from_si<EdgeStiffness>(0.0), from_si<RotationalStiffness>(0.0), {bending, torsion}};
}

enum class Side { bottom, left, right, top };
/// "bottom", "left", "right", "top"
std::string_view name(Side side);

/// A rectangular panel of one thickness. Origin at its bottom left corner, x along the width, y upward.
///
/// `thickness` is the thickness to calculate with: for bought sheet the minimum, not the nominal one.
/// `height` of a tank wall is its height over the base on which it stands.
struct Panel {
  Length width;
  Length height;
  Length thickness;
  materials::Material material;
  Edge bottom = hinged();
  Edge left = hinged();
  Edge right = hinged();
  Edge top = free_edge();
};

/// Pressure on one face of a panel, the loaded (wet) face: at_bottom x (1 - y / water_depth) below the water line,
/// nothing above it; an infinite water depth makes it uniform. Make it with `hydrostatic` or `uniform`.
struct PressureLoad {
  Pressure at_bottom;
  Length water_depth;
  /// Pressure at a height over the bottom edge.
  Pressure at(const Length& y) const;
};

/// Water standing to `water_depth` over the bottom edge of the panel.
///
/// @throws InvalidInput  water depth, density or gravity not > 0 and finite. A depth over the height of the panel is
///                       refused by `bend`: water would run over.
PressureLoad hydrostatic(const Length& water_depth, const Density& water,
                         const Acceleration& gravity = standard_gravity);

/// The same pressure everywhere; negative pulls on the loaded face.
/// @throws InvalidInput  pressure not finite
PressureLoad uniform(const Pressure& pressure);

}  // namespace theca::structure
