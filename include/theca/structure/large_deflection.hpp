// Large deflection of one rectangular panel: bending together with the membrane forces that stretching brings.
#pragma once

#include <vector>

#include "theca/structure/bend.hpp"
#include "theca/structure/panel.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// What an edge may do in the plane of the panel. How much a panel gains from stretching depends on this more than on
/// anything else, and real edges lie between `slides` and `held`.
enum class InPlane {
  slides,       ///< free to pull in and to shift along itself: no force in the plane
  straight,     ///< free to move in as a whole but stays straight; free to shift along itself
  held_across,  ///< cannot pull in; free to shift along itself
  held          ///< cannot move in the plane at all
};

/// The in-plane condition of the four edges.
struct InPlaneEdges {
  InPlane bottom = InPlane::slides;
  InPlane left = InPlane::slides;
  InPlane right = InPlane::slides;
  InPlane top = InPlane::slides;
  bool operator==(const InPlaneEdges&) const = default;
};

/// Stress at one face, membrane and bending together; tension is positive.
struct StretchedState {
  Length deflection;          ///< positive in the direction in which the load pushes
  MomentPerLength moment_x;   ///< as in PanelState
  MomentPerLength moment_y;   ///< as in PanelState
  MomentPerLength moment_xy;  ///< as in PanelState
  LineLoad membrane_x;        ///< force per length in the middle surface along x, tension positive
  LineLoad membrane_y;        ///< along y
  LineLoad membrane_xy;       ///< shear
  FaceStress loaded_face;     ///< wet face, membrane and bending together
  FaceStress far_face;        ///< dry face, membrane and bending together
};

/// Slope of the bent panel up to which von Karman's strains are used; a choice, no source. At 0.3 the strain s^2/2 is 2
/// % and the curvature w'' up to 14 % over the exact one where the panel is steepest.
inline constexpr double steepest_slope = 0.3;
/// Deflection over thickness up to which the solution is given, a choice; tested to about 30 against the membrane.
inline constexpr double largest_deflection_over_thickness = 50.0;

/// A panel bent and stretched. The solution is kept, so that any place can be asked.
struct StretchedPanel {
  Panel panel;
  PressureLoad load;
  InPlaneEdges in_plane;

  Length max_deflection;  ///< largest absolute deflection
  PanelPlace max_deflection_at;
  Pressure max_tension;  ///< largest principal tensile stress on either face, membrane and bending together
  PanelPlace max_tension_at;
  bool max_tension_on_far_face = true;
  double deflection_over_thickness = 0.0;
  double max_slope = 0.0;  ///< largest slope at the points of the search grid

  Length linear_deflection;       ///< what `bend` says, without stretching
  Pressure linear_tension;        ///< what `bend` says, without stretching
  double deflection_ratio = 1.0;  ///< max_deflection / linear_deflection; 1 for no load
  double tension_ratio = 1.0;     ///< max_tension / linear_tension; 1 for no load

  Force total_load;
  EdgeReactions reactions;            ///< across the panel, membrane forces' share included
  double equilibrium_residual = 0.0;  ///< |reactions - load| / load; 0 for no load

  double residual = 0.0;      ///< of Newton's method: energy of the last step over the work of the load, square root
  int iterations = 0;         ///< steps of Newton's method at the final degree
  int coarse_iterations = 0;  ///< steps at the lower degree from which it started

  /// @throws InvalidInput  place outside the panel
  StretchedState at(const Length& x, const Length& y) const;
  StretchedState at(const PanelPlace& place) const { return at(place.x, place.y); }

  int degree = 0;
  std::vector<double> shape_w;  ///< coefficients of deflection / thickness, column by column in y
  std::vector<double> shape_u;  ///< of the displacement along x, times width / (2 thickness^2)
  std::vector<double> shape_v;  ///< of the displacement along y, times height / (2 thickness^2)
};

/// Bends and stretches a panel: von Karman's theory of thin plates with large deflections.
///
/// Displacements along x, y and across are polynomials of `degree` in x and in y; the two in the plane are eliminated,
/// and the energy that is left is minimised by Newton's method with an exact search along each step, which finds the
/// stable state at any load without stepping it. It starts from the answer at a lower degree. Loads keep their
/// direction. A vanishing load gives the answer of `bend`.
///
/// @param in_plane  in-plane condition of each edge; an edge without any support across the panel must slide
/// @param degree    4 to 16
/// @throws InvalidInput   as `bend`; an edge beam; an unsupported edge that is not to slide; degree outside its range
/// @throws OutOfValidity  as `bend`; slope over 0.3 or deflection over 50 thicknesses
/// @throws NotConverged   residual over 1e-8 after 60 steps
/// @source Th. von Karman 1910; S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959,
///         chapter 13 (strains and energy), from memory
StretchedPanel bend_large(const Panel& panel, const PressureLoad& load, const InPlaneEdges& in_plane, int degree = 10);

/// Every edge that is supported across the panel in the given in-plane condition, every other one sliding.
InPlaneEdges supported_edges(const Panel& panel, InPlane condition);

/// Both limits of what edges can do in the plane.
struct StretchedLimits {
  StretchedPanel slides;  ///< no edge holds anything in the plane
  StretchedPanel held;    ///< every supported edge is held in the plane
};

/// Both limits side by side; a real panel lies between them. Errors as `bend_large`.
StretchedLimits bend_large_limits(const Panel& panel, const PressureLoad& load, int degree = 10);

}  // namespace theca::structure
