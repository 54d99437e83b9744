// How far into a tank a standing person reaches over its rim, upright or with the trunk bent.
#pragma once

#include <optional>
#include <vector>

#include "theca/farm/body.hpp"

namespace theca::farm {

/// Cross-section of a tank across its width, heights above the floor the person stands on.
struct RackSection {
  Length outside_width;
  Length wall_thickness;
  Length rim_height;       ///< top of the wall and of the rim brace
  Length rim_brace_width;  ///< from the inner wall face inward, both long sides; zero when there is none
  Length plane_height;     ///< the plane where the hand works, below the rim
};

enum class OpenSides { one, both };  ///< long sides that a person can stand at

/// How the person stands.
struct Stance {
  Length shoulder_stand_off;  ///< shoulder point to tank face when upright, > 0; also half the depth of the trunk
  Length step = from_si<Length>(0.0);  ///< height of a step or platform under the feet
  /// The trunk does not pass through the tank: when it would, the person stands farther back, so that the trunk's
  /// centre line keeps the stand-off from the rim. False lets the trunk pass and the hip stay, an upper bound on reach.
  bool trunk_clears_rim = true;
};

/// What can be reached across the width, measured from the outer tank face on the person's side.
struct Reach {
  Length nearest;   ///< nearest point of the rack that is reached
  Length farthest;  ///< farthest point reached; equal to `nearest` when nothing is reached
  double share;     ///< of the inside width, from all open sides together, 0 to 1
};

/// Reach at one trunk bend, in the cross-section through the shoulder.
///
/// The straight arm is a string of the shoulder-grip length drawn tight from the shoulder over rim and rim brace to the
/// point: an arm that would cut through the rim bends over it. The shoulder turns about the hip with the trunk. The
/// far rim brace is an obstacle too. Kneeling, twisting and reaching sideways are left out; sideways reach is shorter.
///
/// @param bend  of the trunk from upright, 0 to 90 deg
/// @throws InvalidInput  impossible body or section (plane not below the rim, braces that meet), bend outside
///         0 to 90 deg
/// @source geometry; arm sphere and shoulder point as in Pheasant & Haslegrave 2006 (idea, from memory)
Reach reach(const Body& body, const RackSection& section, OpenSides sides, const Stance& stance, const Angle& bend);

/// The worst point of the rack and the arm that it asks for.
struct ArmNeeded {
  Length arm;    ///< shoulder to grip that would reach the whole rack
  Length worst;  ///< the point that asks for it, measured from the tank face on the person's side
};
/// Arm needed to reach every point of the inside width from an open side, each with the best bend from upright to
/// `limit`. Comparing it with the shoulder-grip length says how much is missing or left over.
/// @throws InvalidInput  as reach
ArmNeeded arm_needed(const Body& body, const RackSection& section, OpenSides sides, const Stance& stance,
                     const Angle& limit);

/// Everything that is reached with any bend from upright to `limit` (each point with the bend that suits it).
Reach reach_up_to(const Body& body, const RackSection& section, OpenSides sides, const Stance& stance,
                  const Angle& limit);

/// Smallest bend such that the whole inside width is reached with bends up to it; nothing when even `limit` is too
/// little. Resolved to 0.01 deg.
std::optional<Angle> smallest_bend(const Body& body, const RackSection& section, OpenSides sides, const Stance& stance,
                                   const Angle& limit);

/// A place of the cross-section inside the tank.
struct ReachPoint {
  Length across;  ///< from the outer tank face on the person's side
  Length height;  ///< above the floor
  bool reached;   ///< with a bend up to the limit
  Angle bend;     ///< the smallest that reaches it, to 0.25 deg; the limit where it is not reached
};
/// Map of the cross-section: which bend reaches which place, and where the dead zone is.
/// @param section  its plane height is the lowest row of the map, just under the rim the highest
/// @param columns, rows  of the map, 2 to 1000; places are the centres of equal cells
/// @return row after row from the lowest, columns x rows places
/// @throws InvalidInput  as reach, columns or rows out of range
std::vector<ReachPoint> reach_map(const Body& body, const RackSection& section, OpenSides sides, const Stance& stance,
                                  const Angle& limit, int columns, int rows);

/// Trunk bend without support: up to the first without limit on time, beyond the second not at all.
/// @source ISO 11226:2000, table on trunk inclination, from memory: 20 deg and 60 deg
inline constexpr Angle trunk_bend_unlimited = 20.0 * units::degree;
inline constexpr Angle trunk_bend_most = 60.0 * units::degree;

}  // namespace theca::farm
