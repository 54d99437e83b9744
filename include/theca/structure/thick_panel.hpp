// Bending of a thick panel with transverse shear (Mindlin): stout acrylic walls and small thick panes.
#pragma once

#include <vector>

#include "theca/structure/bend.hpp"
#include "theca/structure/panel.hpp"
#include "theca/structure/panel_load.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// What a simple support does to a fibre normal to the panel, along the edge: `hard` keeps it from tilting along the
/// edge (a channel that grips the whole thickness), `soft` does not (a line of sealant). A thin panel does not know the
/// difference; clamped edges are hard always.
enum class SimpleSupport { hard, soft };

/// Thickness over shorter side up to which first-order shear theory is used.
/// @source common practice, no source; R. D. Mindlin 1951 for the theory
inline constexpr double thickest_mindlin_over_side = 1.0 / 3.0;
/// Thickness over shorter side from which on it is; below it, shear is nothing and the digits are lost.
inline constexpr double thinnest_mindlin_over_side = 1e-3;

/// A panel bent with transverse shear. The solution is kept, so that any place can be asked.
struct BentThickPanel {
  Panel panel;
  PressureLoad load;
  std::vector<PatchLoad> patches;  ///< point loads stand here as the patches of `contact_patch`
  SimpleSupport support = SimpleSupport::hard;

  Length max_deflection;  ///< largest absolute deflection
  PanelPlace max_deflection_at;
  Pressure max_tension;  ///< largest principal bending tension on either face
  PanelPlace max_tension_at;
  bool max_tension_on_far_face = true;
  double deflection_over_thickness = 0.0;

  Force total_load;
  EdgeReactions reactions;  ///< corner forces are what the layer along the edges hands over within a short way of it
  double equilibrium_residual = 0.0;

  /// Moments from the tilt of the normals, shears from tilt against slope; both coarse in the layer, about a thickness
  /// wide, along free and soft edges.
  /// @throws InvalidInput  place outside the panel
  PanelState at(const Length& x, const Length& y) const;
  PanelState at(const PanelPlace& place) const { return at(place.x, place.y); }

  int degree = 0;
  Pressure reference_pressure;         ///< by which the coefficients below are made dimensionless
  std::vector<double> shape;           ///< deflection, column by column in y
  std::vector<double> tilt_x, tilt_y;  ///< tilt of the normals along x and y, equal to the slopes in a thin panel
};

/// Bends a panel by first-order shear theory with the shear correction 5/6, solved by Ritz's method: deflection and
/// both tilts are polynomials of `degree` each way. Edges and loads as for `bend`; springs against rotation act on the
/// tilt. About a hundred times the work of `bend`. Small contacts get their moments in closed form as in `bend_under`,
/// with its limits; images stand behind hinged edges where the support is hard, soft ones count as edges not hinged.
///
/// @param degree  4 to 16
/// @throws InvalidInput   as `bend_under`, degree outside its range
/// @throws OutOfValidity  thickness over 1/3 or under 1/1000 of the shorter side; width over height outside 1/20 to 20
/// @source R. D. Mindlin, Influence of rotatory inertia and shear on flexural motions of isotropic, elastic plates,
///         J. Appl. Mech. 18 (1951); E. Reissner 1945 for 5/6
BentThickPanel bend_thick(const Panel& panel, const PanelLoad& load, SimpleSupport support = SimpleSupport::hard,
                          int degree = 12);

}  // namespace theca::structure
