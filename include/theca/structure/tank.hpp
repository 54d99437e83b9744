// A whole glued tank under its water: four walls, base, rim brace and cross braces solved together through their
// joints.
#pragma once

#include <memory>
#include <optional>
#include <string_view>
#include <vector>

#include "theca/materials/material.hpp"
#include "theca/structure/bend.hpp"
#include "theca/structure/joint_stiffness.hpp"
#include "theca/structure/panel.hpp"
#include "theca/units.hpp"

namespace theca::structure {

namespace detail {
class FoldedStructure;
}

/// How the strips of a rim brace meet at the corners of the tank.
enum class RingCorner {
  one_piece,  ///< cut from one sheet, or welded: as stiff as the sheet
  mitred,     ///< bonded along a cut at 45 degrees
  butted,     ///< the end strip's end bonded to the inner edge of the long strip
  open        ///< not joined
};

/// A strip lying flat all round along the inside of the wall tops, its top flush with theirs.
struct TankRimBrace {
  Length width;      ///< from the wall's inside face to the inner edge
  Length thickness;  ///< minimum thickness of the sheet; also the height of the bond to the wall
  materials::Material material;
  RingCorner corner = RingCorner::mitred;
  std::optional<AdhesiveBead> bond;  ///< to the walls and at the corners; without one it is as stiff as the sheet
};

/// A strip lying flat across the tank between the long walls: between the rim strips where there are any.
struct TankCrossBrace {
  Length at;         ///< of its middle, from the inside of the left end wall
  Length width;      ///< along the tank
  Length thickness;  ///< minimum thickness of the sheet
  materials::Material material;
  std::optional<AdhesiveBead> bond;  ///< at its two ends; without one it is as stiff as the sheet
};

enum class TankSupport {
  plane,      ///< a flat rigid plane under the whole base, which then cannot bend
  foam,       ///< foam under the whole base, its stiffness the `foundation` of the tank
  perimeter,  ///< the four edges of the base only, on the line stiffness `edge_stiffness`; infinite: rigid
};

/// What the joints between the sheets are taken for.
enum class JointModel {
  as_bonded,  ///< the springs of the adhesive bead
  hinged,     ///< no opening or sliding, free to turn: the usual assumption on the heavy side for the walls
  monolithic  ///< one piece: on the heavy side for the joints
};
std::string_view name(JointModel model);

/// A rectangular tank. Its length is along x (left to right), its width along y (front to back).
struct Tank {
  Length inside_length, inside_width;
  Length wall_height;     ///< over the base, on which the walls stand
  Length wall_thickness;  ///< minimum, as everywhere
  Length base_thickness;
  materials::Material material;
  std::optional<AdhesiveBead> joint;  ///< of all joints between walls and base; needed for `as_bonded`
  std::optional<TankRimBrace> rim;
  std::vector<TankCrossBrace> cross_braces;
  TankSupport support = TankSupport::plane;
  FoundationModulus foundation;  ///< of the foam: pressure per compression
  EdgeStiffness edge_stiffness;  ///< of what carries the perimeter
};

enum class TankPart {
  front_wall,
  back_wall,
  left_wall,
  right_wall,
  base,
  front_rim,
  back_rim,
  left_rim,
  right_rim,
  cross_brace
};
std::string_view name(TankPart part);

/// Something set down on the top of a wall, or on its rim strip: a tool box, a hand that leans on it.
struct RimLoad {
  TankPart on = TankPart::front_wall;  ///< one of the four walls
  Length along;                        ///< of its middle, from the inside of the wall's left or front end
  Length length;                       ///< along the rim, > 0
  Force down, outward;
};

struct TankLoad {
  Length water_depth;  ///< over the inside base, in the middle of the tank
  Density water;
  Acceleration gravity = standard_gravity;
  double rise_along =
      0.0;  ///< out of level: rise over run of the tank to the right, the water being deeper to the left
  double rise_across = 0.0;  ///< the same towards the back
  bool own_weight = true;
  std::vector<RimLoad> rim_loads;
};

/// The governing figures of a part. x and y run over the part's own plane from its low end: along x or y of the tank,
/// and up for walls.
struct BentPart {
  TankPart part = TankPart::base;
  int number = 0;  ///< of a cross brace
  Length width, height, thickness;
  Length max_deflection;  ///< out of its plane
  PanelPlace max_deflection_at;
  double deflection_over_thickness = 0.0;
  /// Walls and base: largest principal tension on either face, membrane and bending together, at least
  /// `distance_from_joint` from joined edges, where the middle surfaces run inside the other sheet and thin plate
  /// theory is singular at monolithic corners. Strips: the nominal stress of the section, see `BentStripSections`.
  Pressure max_tension;
  PanelPlace max_tension_at;           ///< not given for strips
  bool max_tension_on_outside = true;  ///< dry face of walls, underside of the base; not given for strips
  Length distance_from_joint;
  /// Walls and base: largest of the concentrated forces across its plane, 2 |M_xy|, that thin plates set on the
  /// supports at their corners (at a wall's foot it holds the wall back against turning), read a thickness off both
  /// edges. Stiff joints take it within about a thickness; a soft bead spreads it over its length and it is part of the
  /// line loads.
  Force corner_force{};
  PanelPlace corner_force_at{};
};

/// Section forces of a strip at one place: of the strip's own section, the wall being its flange beside it.
struct StripSection {
  Length at;            ///< from the strip's low end
  Force tension;        ///< along the strip
  Moment moment;        ///< in the strip's plane, positive where its inner edge is in tension
  Pressure inner_edge;  ///< nominal stress N / A + 6 M / (t b^2)
  Pressure outer_edge;  ///< at the bond to the wall
};

struct BentStripSections {
  TankPart part = TankPart::front_rim;
  int number = 0;
  StripSection mid_span;
  /// At the strip's low end: of a rim strip the ring's inner corner there, where the elastic peak is singular and the
  /// nominal section stress stands for it. The other end is in `max_stress`.
  StripSection inner_corner;
  Pressure max_stress;  ///< largest nominal tension; rim strips are reckoned between the inner corners of the ring
  LineLoad bond_shear;  ///< largest along and down together, to the wall (cross brace: at its end)
  LineLoad bond_peel;   ///< largest pull across the bond
};

/// The load of a joint, per length and in sum.
struct BentJoint {
  TankPart first = TankPart::front_wall, second = TankPart::base;
  Force opening, along, across;  ///< resultants over the length; opening positive
  LineLoad max_line_load;        ///< largest resultant across the joint (opening and across), away from the ends
  Length max_line_load_at;
  LineLoad max_opening;
  MomentPerLength max_moment;  ///< largest, about the line of the joint
};

/// How hard the tank stands on what is under it. Foam and stand cannot pull: where the least figure is negative the
/// tank would lift off there, and the solution, which holds it down, is on the light side for the base and joints
/// beside it.
struct BentSupport {
  Pressure largest_pressure{}, least_pressure{};  ///< on foam, of 17 x 17 places of the base; otherwise 0
  /// Under the feet of the walls; 0 on foam. On a plane a foot may pull: the base, which its water presses down, holds
  /// it.
  LineLoad largest_line_load{}, least_line_load{};
  bool pulls = false;  ///< foam or perimeter would have to pull
};

struct BentTank {
  Tank tank;
  TankLoad load;
  JointModel joints = JointModel::as_bonded;
  std::vector<BentPart> parts;
  std::vector<BentStripSections> strips;
  std::vector<BentJoint> joint_loads;
  BentSupport support;
  double equilibrium_residual = 0.0;  ///< |joint forces - load| / load, across each wall
  std::size_t unknowns = 0;
  std::shared_ptr<const detail::FoldedStructure> solution;
};

struct TankState {
  Length displacement_x, displacement_y, displacement_z;  ///< along the tank's axes
  Pressure max_tension;                                   ///< larger of the two faces
};

/// Bends a tank: every sheet a plate that stretches and bends (a folded plate), joined through line springs, in
/// polynomials of high degree; where the tank and its load are mirror images, half or a quarter is solved.
///
/// Thin plates (no transverse shear but that of the twist, which falls off beside free edges and joints that hold no
/// twisting moment: Saint-Venant's torsion), small deflections, joints at the middle surfaces; the bond of a rim strip
/// at the wall's inside face. The base cannot lift off its support: `support` says where it would. Against CalculiX's
/// solids: largest deflection within 1 % (2 % under a ring on hinged walls), wall stress two thicknesses off the joints
/// within 2 %; against its thin plates, forces and moments of strips at mid-span within 3.5 %, at the inner corners of
/// a ring within 5 %. Under a hand that pushes on a rimless wall the stress follows that of the wall alone
/// (`bend_under`), for 10 to 50 ms; on a wall with a rim strip, which spreads it, it is as smooth as the polynomials.
///
/// @throws InvalidInput   dimensions not > 0 and finite, water over the wall top, strips that leave no opening or that
///                        overlap, missing bead for `as_bonded`, foam or edge stiffness not > 0, loads off the rim
/// @throws OutOfValidity  wall thickness over 1/10 or under 1/2000 of its height, or over 1/10 of the shorter inside
///                        length; base thicker than 1/4 of that; length or width outside 1/10 to 20 heights; strips
///                        thicker than half their width; a bead that `joint_stiffness` refuses; out of level by more
///                        than 1 in 10
/// @throws NotConverged   the structure cannot be factorised
/// @source folded plate theory on Timoshenko & Woinowsky-Krieger 1959 and plane stress; Ritz's method; twist beside
/// edges:
///         Timoshenko & Goodier, Theory of Elasticity, 3rd ed. 1970, article 109
BentTank bend(const Tank& tank, const TankLoad& load, JointModel joints = JointModel::as_bonded);

/// The same tank with its joints at both limits and, where the tank has a bead, as bonded: how much the answer hangs on
/// the joints.
struct TankBetweenLimits {
  BentTank hinged, monolithic;
  std::optional<BentTank> as_bonded;
};
TankBetweenLimits bend_between_limits(const Tank& tank, const TankLoad& load);

/// A part of a bent tank. In a mirrored solution back and right parts are found from their images.
/// @throws InvalidInput  the tank has no such part
BentPart part(const BentTank& bent, TankPart which, int number = 0);

/// State of a part at a place of its plane.
/// @throws InvalidInput  no such part, place outside it
TankState state_at(const BentTank& bent, TankPart which, const Length& x, const Length& y, int number = 0);

}  // namespace theca::structure
