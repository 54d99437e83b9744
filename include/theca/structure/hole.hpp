// A drilled hole in a bent panel: stress concentration, and the glass that must be left around it.
#pragma once

#include "theca/structure/panel.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// A round hole through a panel, its centre from the panel's bottom left corner.
struct Hole {
  Length x, y;
  Length diameter;
};

/// Largest edge stress of a hole over the bending stress of the unholed panel, bending one way only.
///
/// K = 1.79 + 0.25 / (0.39 + d/t) + 0.81 / (1 + (d/t)^2) - 0.26 / (1 + (d/t)^3): 2.98 for a needle hole, 1.79 for a
/// wide one. Hole far from edges, nu = 0.3.
/// @throws InvalidInput  diameter or thickness not > 0 and finite
/// @source Roark's Formulas for Stress and Strain, Table 17.1, out-of-plane bending, simple bending (published summary)
double hole_bending_factor(const Length& diameter, const Length& thickness);

/// Edge stress of a hole in a field of bending moments of both principal directions.
///
/// Superposed on the two principal stresses: for equal stresses both ways the factor is 2 whatever d / t is (Roark,
/// isotropic bending), so each direction counts at the foot of the other as (2 - K): s_edge = K s1 + (2 - K) s2, taken
/// for either order, tension positive; never less than the larger stress.
/// @param s1, s2  principal bending stresses at the hole's place without the hole
/// @throws InvalidInput  stress not finite; diameter or thickness as above
/// @source Roark, Table 17.1 (K and the factor 2); superposition is elasticity. A thick plate's other faces may differ
/// by
///         some 10 %
Pressure hole_edge_stress(const Pressure& s1, const Pressure& s2, const Length& diameter, const Length& thickness);

/// How much an edge near a hole raises its stress, over the hole far from edges, on the stress of the unholed panel.
///
/// (1 - 1.04 q + 1.22 q^2) / (1 - q) with q = diameter / strip width; the strip is as wide as twice the way from the
/// hole's centre to the edge, so that an edge on one side only counts as one on each: on the heavy side. A joint holds
/// the edge and would lower the stress; no allowance for it is made.
/// @param centre_to_edge  at least the diameter, so that q is 1/2 at most
/// @throws InvalidInput   diameter or way to the edge not > 0 and finite
/// @throws OutOfValidity  edge nearer than that
/// @source Roark, Table 17.1, hole in a strip under simple bending (from memory, given there to q = 0.3; the same
///         polynomial as for tension without its last term, -0.51 q^3, as checked in published code). Above Howland's
///         exact factor of tension by 2 % at q = 0.3 and 9 % at q = 0.5: on the heavy side
double hole_near_edge_factor(const Length& diameter, const Length& centre_to_edge);

/// `hole_edge_stress()` times `hole_near_edge_factor()`.
/// @throws InvalidInput, OutOfValidity  as these
Pressure hole_edge_stress_near_edge(const Pressure& s1, const Pressure& s2, const Length& diameter,
                                    const Length& thickness, const Length& centre_to_edge);

/// How near the nearest of edge, corner, next hole is; rims, not centres.
struct HoleClearance {
  Length to_edge;
  Length to_corner;
  Side nearest_side = Side::bottom;
};
/// @throws InvalidInput  hole not inside the panel, diameter not > 0 and finite
HoleClearance hole_clearance(const Panel& panel, const Hole& hole);

/// What must be left around a hole, on the thickness t of the glass.
struct HoleRule {
  double least_diameter = 1.0;          ///< x t
  double least_to_edge = 2.0;           ///< rim to edge of the glass, x t
  double least_between = 2.0;           ///< rim to rim, x t
  double least_to_corner = 6.0;         ///< rim to corner, x t
  double widest_over_side = 1.0 / 3.0;  ///< diameter over the shorter side
};
/// Rules that processors print for glass to be toughened: rim to edge 2 t, rim to rim 2 t, rim to corner 6 t (6.5 t in
/// North America), diameter at least t and at most a third of the narrower side. Annealed glass is drilled by the same
/// rules (common practice, no source).
/// @source EN 12150-1 and ASTM C1048, as processors summarise them (6 t; ASTM-based lists 6.5 t)
HoleRule drilled_glass_rule();

/// Rim-to-rim distance of two holes; negative where they overlap.
Length hole_spacing(const Hole& a, const Hole& b);

/// The glass between rim and edge that the joint does not need: rim to edge less the bite of the adhesive.
/// @throws InvalidInput  bite negative or not finite; else as hole_clearance
Length hole_to_joint(const Panel& panel, const Hole& hole, const Length& bite);

}  // namespace theca::structure
