// Loads on a panel beside water: patches, lines and points (a tool box on the rim, a hand that leans on it).
#pragma once

#include <limits>
#include <vector>

#include "theca/structure/panel.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// A force spread evenly over a rectangle whose sides follow the panel's. Of no height or no width it is a line load,
/// of neither a point load: its deflection is right, and its stress right under it has no limit in plate theory (see
/// `PointLoad`).
struct PatchLoad {
  Length x, y;           ///< centre
  Length width, height;  ///< along x and along y, >= 0
  Force force;           ///< positive in the direction in which the water pushes
};

/// A force set down on a small round contact, as a hand or the foot of a tool.
///
/// Plate theory makes the stress under a force grow without limit as the contact shrinks; the true plate has a
/// thickness, and the stress on its far face ends at that of a contact of Westergaard's equivalent radius.
struct PointLoad {
  Length x, y;
  Force force;
  Length contact_radius;  ///< >= 0; 0 is an ideal point
};

/// Everything that pushes on a panel, superposed.
struct PanelLoad {
  /// none
  PressureLoad pressure = {from_si<Pressure>(0.0), from_si<Length>(std::numeric_limits<double>::infinity())};
  std::vector<PatchLoad> patches;
  std::vector<PointLoad> points;
};

/// Radius of the contact that gives in thin plate theory the stress which the thick plate has on its far face:
/// sqrt(1.6 r^2 + t^2) - 0.675 t for r under half the thickness, r itself over it.
///
/// @param contact_radius  >= 0
/// @param thickness       > 0
/// @throws InvalidInput  outside these
/// @source H. M. Westergaard 1926; Roark's Formulas for Stress and Strain, 7th ed., notation of Table 11.4
Length equivalent_contact_radius(const Length& contact_radius, const Length& thickness);

/// The square patch that stands for a point load: its side is sqrt(2) e^(1 - pi/4) = 1.753 equivalent contact radii,
/// which gives at its centre the same moment as the round contact. Less wide where an edge is nearer than half of that,
/// so that the force stays where it is: at the rim it is a line along it.
///
/// @throws InvalidInput  thickness not > 0, place outside the panel, contact radius negative, force not finite
/// @source side: equal mean of ln r over square and disc; Timoshenko & Woinowsky-Krieger 1959, article 37
PatchLoad contact_patch(const PointLoad& point, const Panel& panel);

}  // namespace theca::structure
