// Forces on the legs of a stiff stand under a load off its middle, with legs that may be short or lift off.
#pragma once

#include <vector>

#include "theca/units.hpp"

namespace theca::structure {

struct Leg {
  Length x, y;  ///< place in plan
  Length gap;   ///< between foot and floor before loading (short leg or hollow in the floor), >= 0
};

struct LegForces {
  std::vector<Force> force;  ///< of each leg, zero where it hangs free
  Force largest;
  int standing;  ///< number of legs that carry
  Angle tilt;    ///< of the loaded stand, from leg compression and gaps
};

/// Forces on legs of one stiffness under a rigid stand: the plane of least energy, no leg pulls.
/// @param stiffness  of one leg with its foot and the floor under it, force per compression, > 0
/// @param x, y       place of the total weight in plan
/// @throws InvalidInput   fewer than 3 legs or more than 100, legs in one line, values not finite, gap < 0, weight not
/// > 0
/// @throws InvalidInput   the weight stands outside the legs: the stand tips over
/// @throws NotConverged   no set of standing legs was found
/// @source statics; rigid plate on springs that push only
LegForces leg_forces(const std::vector<Leg>& legs, const Force& weight, const Length& x, const Length& y,
                     const LineLoad& stiffness);

/// Legs in rows of a rectangle `length` by `width`: 2 rows of count / 2, the corners among them, origin in the middle.
/// @param count  4, 6 or 8
/// @throws InvalidInput  length or width not > 0, another count
std::vector<Leg> rectangle_of_legs(const Length& length, const Length& width, int count);

struct PlacedMass {
  Mass mass;
  Length x, y, z;  ///< of its centre
};
/// Total mass and common centre of tank, water, stand and loads.
/// @throws InvalidInput  no masses, a mass negative or not finite, all zero, a place not finite
PlacedMass centre_of_mass(const std::vector<PlacedMass>& masses);

}  // namespace theca::structure
