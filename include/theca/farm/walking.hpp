// How far a round past all tanks is: up one aisle and down the next.
#pragma once

#include <span>

#include "theca/units.hpp"

namespace theca::farm {

struct WalkingRound {
  Length distance;
  Time time;  ///< walking alone
};

/// A serpentine round: along every aisle once, from one to the next at the end where it comes out, and, if wanted, back
/// to where it began. With an even number of aisles the way back runs across their ends, with an odd number also along
/// the last aisle again.
/// @param aisles   lengths in the order of the walk, one or more, each > 0
/// @param between  from each aisle to the next, one fewer than aisles, each >= 0
/// @param back     whether the round ends where it began
/// @param pace     > 0; 1.2 m/s is an easy walk (from memory: the pace that crossings for walkers are designed for)
/// @throws InvalidInput
/// @source geometry
WalkingRound walking_round(std::span<const Length> aisles, std::span<const Length> between, bool back = true,
                           const Velocity& pace = 1.2 * units::metre_per_second);

}  // namespace theca::farm
