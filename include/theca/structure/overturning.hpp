// Whether a tank slides or tips on its stand, or tank and stand on the floor, under a horizontal push: static
// equivalent.
#pragma once

#include "theca/units.hpp"

namespace theca::structure {

/// What stands on a plane and holds by weight and friction alone, unanchored.
struct Standing {
  Force weight;           ///< > 0
  Length base;            ///< width of the standing area in the direction of the push, > 0
  Length off_centre;      ///< of the weight from the middle of it, toward the side of tipping, >= 0, under base / 2
  double friction = 0.0;  ///< coefficient of the plane, > 0, up to 1.5; an input
  double uplift = 0.0;    ///< vertical shaking upward, fraction of the weight taken away, 0 to under 1
};

struct Stability {
  double sliding_factor;  ///< friction over push; the largest double where nothing pushes
  double tipping_factor;  ///< moment of the weight over that of the push; likewise
  Force friction_force;
  Moment righting_moment;
};

/// Rigid body on a rigid plane. A factor of 1 is the verge; a quick shake past it rocks or shifts before it topples.
/// @throws InvalidInput  values outside the ranges above, shear or moment negative or not finite
/// @source statics
Stability stability(const Standing& standing, const Force& shear, const Moment& overturning);

/// How a stand takes a horizontal push in its plane: legs clamped or hinged below, or one diagonal in tension.
struct StandFrame {
  int legs = 4;                      ///< >= 1
  Length height;                     ///< of the legs
  Pressure youngs_modulus;           ///< of the legs
  SecondMomentOfArea second_moment;  ///< of one leg, in the direction of the push
  bool diagonals = false;            ///< else stiff joints at the top of the legs
  int diagonal_count = 2;            ///< that pull at one time, if diagonals
  Length bay;                        ///< horizontal length of a diagonal, if diagonals
  Area diagonal_area;                ///< of one, if diagonals; same modulus as the legs
};

struct Racking {
  Length sway;           ///< at the top, with the load leaning on it
  Moment leg_moment;     ///< at the top of a leg; zero with diagonals
  Force diagonal_force;  ///< in one diagonal; zero without
  double amplification;  ///< of the first sway by the weight on top, 1 / (1 - W / (K h))
};

/// Sway of a stand under a push at its top: legs clamped to a stiff top and hinged at the floor (K = 3 E I / h^3 a
/// leg), or hinged legs with diagonals in tension (K = E A cos^2 / length each).
/// @throws InvalidInput  dimensions not > 0 and finite, legs < 1, weight or push negative
/// @throws OutOfValidity  the weight reaches K h: the stand folds by itself
/// @source statics of frames; amplification as S. P. Timoshenko, J. M. Gere, Theory of Elastic Stability (from memory)
Racking racking(const StandFrame& frame, const Force& weight, const Force& push);

}  // namespace theca::structure
