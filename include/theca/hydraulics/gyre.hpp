// How fast circulation pumps turn the water of a tank: the thrust of their jets against friction, turns and racks.
#pragma once

#include "theca/hydraulics/turnover.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

/// The loop that the water runs in: up one long side and down the other.
struct GyreTank {
  Length length;                        ///< inside, > 0
  Length width;                         ///< inside, > 0
  Length depth;                         ///< of water, > 0
  double friction_coefficient = 0.005;  ///< Fanning's, of glass and floor, 0.002 to 0.05; 0.005 at tank size (estimate)
  double turning_K = 4.0;  ///< both ends together in velocity heads, 0 to 20; 2 per sharp U-turn (estimate)
  Area drag_area;          ///< sum of drag coefficient times frontal area of racks, rock and pipes, >= 0
};

/// Relative error to expect of gyre_speed(): half to one and a half times (an estimate; common practice, no source).
inline constexpr double gyre_speed_error = 0.5;

/// Mean speed of the loop, by momentum: Q (u0 - U) = U^2/2 (Cf A_wet + K A_side + drag area) for all jets together.
///
/// Coarse: the speed is taken as even over half the width and the whole depth; see gyre_speed_error. The jets blow
/// along the loop and take their water from it. Dead corners are not seen.
/// @param jets   pumps that blow the same way round, >= 1, all alike
/// @throws InvalidInput  impossible tank or jet, jets < 1
/// @source balance of momentum over the loop; drag by dynamic pressure, textbook
Velocity gyre_speed(const GyreTank& tank, const Jet& jet, int jets);

/// Jets of this kind needed for a speed, rounded up: inverse of gyre_speed().
/// @throws InvalidInput   impossible tank or jet, speed not > 0
/// @throws OutOfValidity  the speed is not below the jet's own
int jets_for_gyre_speed(const GyreTank& tank, const Jet& jet, const Velocity& speed);

}  // namespace theca::hydraulics
