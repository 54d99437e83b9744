// Bending of one rectangular panel under water pressure: deflection, moments, stresses and edge reactions (linear).
#pragma once

#include <vector>

#include "theca/structure/panel.hpp"
#include "theca/structure/panel_load.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// A place on a panel, from its bottom left corner.
struct PanelPlace {
  Length x, y;
};

/// Membrane-free bending stress at one face; tension is positive.
struct FaceStress {
  Pressure x, y;           ///< normal stresses along x and y
  Pressure xy;             ///< shear stress
  Pressure principal_max;  ///< algebraically largest normal stress in any direction
  Pressure principal_min;
};

/// State of a panel at one place. Deflection is positive in the direction in which the load pushes; moments are
/// positive where they put the far face in tension.
struct PanelState {
  Length deflection;
  MomentPerLength moment_x;   ///< bends the panel along x: -D (w_xx + nu w_yy)
  MomentPerLength moment_y;   ///< -D (w_yy + nu w_xx)
  MomentPerLength moment_xy;  ///< twisting: -D (1 - nu) w_xy
  LineLoad shear_x;           ///< transverse shear per length of section: -D (w_xx + w_yy)_x; see `bend` for digits
  LineLoad shear_y;           ///< -D (w_xx + w_yy)_y
  FaceStress loaded_face;     ///< wet face
  FaceStress far_face;        ///< dry face
};

/// Forces with which the panel presses on what holds its edges, positive in the direction of the load. With the
/// concentrated corner forces (negative where a corner wants to come back towards the water) they add up to the load.
struct EdgeReactions {
  Force bottom, left, right, top;  ///< distributed part, whole edge
  Force bottom_left, bottom_right, top_left, top_right;
};

/// Deflection over thickness up to which the linear theory is used. From about 1/3 on membrane action makes the true
/// deflection and stress smaller where the edges hold the panel, and moves the peaks.
/// @source common practice; Timoshenko & Woinowsky-Krieger 1959, section 1: deflections small against the thickness
inline constexpr double linear_deflection_limit = 0.5;
/// Thickness over shorter side up to which a plate is thin enough that transverse shear can be left out.
/// @source common practice, no source
inline constexpr double thickest_over_side = 0.1;
/// Thickness over shorter side from which a plate is bent at all: thinner is a foil.
inline constexpr double thinnest_over_side = 1e-5;

/// A bent panel. The solution is kept, so that any place can be asked.
struct BentPanel {
  Panel panel;
  PressureLoad load;
  std::vector<PatchLoad> patches;  ///< point loads stand here as the patches of `contact_patch`

  Length max_deflection;  ///< largest absolute deflection
  PanelPlace max_deflection_at;
  Pressure max_tension;  ///< largest principal tensile stress on either face
  PanelPlace max_tension_at;
  bool max_tension_on_far_face = true;
  /// Over `linear_deflection_limit` the linear theory no longer holds.
  double deflection_over_thickness = 0.0;

  Force total_load;
  EdgeReactions reactions;
  double equilibrium_residual = 0.0;  ///< |reactions - load| / load; 0 for no load

  /// @throws InvalidInput  place outside the panel, a panel that `bend` has not made
  PanelState at(const Length& x, const Length& y) const;
  PanelState at(const PanelPlace& place) const { return at(place.x, place.y); }

  /// Force per length on the support of an edge (Kirchhoff's effective shear), positive in the direction of the load.
  /// Three digits along the edge; coarse within a twentieth of its length from a corner of two held edges.
  /// @param along  distance along the edge, from the left end or the bottom end
  /// @throws InvalidInput  `along` outside the edge, a panel that `bend` has not made
  LineLoad reaction_at(Side side, const Length& along) const;

  /// Lines, the panel's sides among them, between which the deflection is one polynomial: none within the panel but
  /// around patch loads.
  std::vector<Length> lines_x, lines_y;
  int degree = 0;               ///< of every polynomial in x and in y
  Pressure reference_pressure;  ///< by which the coefficients below are made dimensionless
  std::vector<double> shape;    ///< of the dimensionless deflection, column by column in y, rectangle by rectangle
  std::vector<double> edge_reactions;  ///< of the dimensionless reactions, side by side, part by part
};

/// Bends a panel: thin plate theory of Kirchhoff (linear, no transverse shear), solved by Ritz's method.
///
/// The deflection is a polynomial of `degree` in x and in y: four Hermite cubics and twice integrated Legendre
/// polynomials, so that held values and slopes leave the unknowns exactly and elastic edges add their energy. The
/// water line is met exactly by integrating up to it. At the default degree, found by comparing with degree 24: four
/// digits of stress and deflection for hinged walls up to 6 times as long as high (1e-3 of stress where edges are
/// clamped), 1 % up to 12 times, 2 % at 20 times; totals of edge reactions and corner forces within 1 % of the load.
/// Transverse shears carry two digits less than the moments. The largest tension and deflection are found by Newton's
/// method from every high point of a grid, edges and corners included.
///
/// @param degree  4 to 24; even degrees suit symmetric panels
/// @throws InvalidInput   width or height outside 1 mm to 1 km, thickness not > 0, modulus outside 1 Pa to 1e15 Pa,
///                        Poisson's ratio outside 0 to 0.5, pressure over 1 GPa, stiffness negative or NaN, water above
///                        the top of the panel, degree outside its range, edges that leave the panel loose (it could
///                        shift or tilt as a rigid body)
/// @throws OutOfValidity  thickness over 1/10 of the shorter side, where transverse shear counts, or under 1e-5 of it;
///                        width over height outside 1/20 to 20
/// @source S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959, chapters 4 to 6 (theory);
///         W. Ritz 1909 (method)
BentPanel bend(const Panel& panel, const PressureLoad& load, int degree = 14);

/// Bends a panel under pressure and any number of patch, line and point loads, each integrated exactly.
///
/// A patch that covers less than the panel cuts it into rectangles along lines that crowd around it, with a polynomial
/// of degree 7 to 10 on each, values and slopes joined (finite elements of high degree): 10 to 70 ms in place of 50 us,
/// and `degree` is that of panels without such patches. Down to contacts as small as the plate is thick, within the
/// panel, beside edges of any kind and on a free rim itself, this leaves of the largest moment, against Levy's series,
/// 1.5e-3 and of the largest deflection 3e-5; the reaction beside a contact is known within 0.5 %. A side narrower than
/// the square that stands for an ideal point (`contact_patch`) counts as that wide where there is room. The force may
/// stand on an edge; on a held edge or corner it goes straight into the support.
///
/// @throws InvalidInput   as `bend`; a patch that reaches beyond the panel, negative or NaN sides, force not finite or
///                        over 1 GN; as `contact_patch`
/// @throws OutOfValidity  as `bend`
/// @source F. K. Bogner, R. L. Fox, L. A. Schmit 1965 (elements joined with their slopes); B. Szabo, I. Babuska, Finite
///         Element Analysis 1991 (high degree, graded towards singular places)
BentPanel bend_under(const Panel& panel, const PanelLoad& load, int degree = 14);

/// Flexural rigidity E t^3 / (12 (1 - nu^2)).
/// @source Timoshenko & Woinowsky-Krieger 1959, eq. (3)
/// @throws InvalidInput  thickness or modulus not > 0 and finite, Poisson's ratio outside 0 to 0.5
FlexuralRigidity flexural_rigidity(const Panel& panel);

}  // namespace theca::structure
