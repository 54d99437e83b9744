// Rotating stock through fallow tanks: what it costs in capacity, when each tank rests, what loss it must avoid.
// That rotation does any good is not established by data; nothing here claims so.
#pragma once

#include <span>
#include <vector>

#include "theca/units.hpp"

namespace theca::farm {

struct Rotation {
  int tanks;      ///< N places, at least 2
  int fallow;     ///< k of them empty at any time, 1 to N - 1
  Time interval;  ///< between moves; one stock group moves into the place that rested longest
};

/// Share of the capacity that rests: k/N, on average over a full rotation also when tanks differ in size.
/// @throws InvalidInput  tanks < 2, fallow outside 0 to tanks - 1
double capacity_lost(int tanks, int fallow);

struct RotationTimes {
  Time place_period;  ///< from one rest of a place to its next: N moves
  Time rest;          ///< length of each rest: k moves
  Time group_period;  ///< from one move of a stock group to its next: N - k moves
  Frequency moves;    ///< all moves of the farm
};
/// @throws InvalidInput  as above, interval not positive
/// @source counting; tests play the moves one by one
RotationTimes rotation_times(const Rotation& rotation);

struct RotationStep {
  int move;                 ///< 0 is the start
  std::vector<int> fallow;  ///< places that rest after this move, longest rest first
  int moved_from = -1;      ///< the place emptied by this move; -1 at the start
  int moved_to = -1;
  long stocked_slots;  ///< slots of the places that are not fallow
};
/// One full rotation, N moves, for tanks of any sizes; places rest in the order of the list.
/// @throws InvalidInput  fewer than 2 tanks, slots negative, fallow outside 1 to tanks - 1
std::vector<RotationStep> play_rotation(std::span<const long> slots, int fallow);

/// The move that fits worst in one rotation.
struct RotationFit {
  double stock;  ///< fragments to move
  double room;   ///< slots of the place that waits for them
  int from = -1, to = -1;
};
/// Worst move, each tank filled to `occupancy` of its slots; stock over room > 1 means that it does not fit and that
/// the surplus must go elsewhere.
/// @throws InvalidInput  as play_rotation, occupancy outside 0 to 1
RotationFit worst_move(std::span<const long> slots, int fallow, double occupancy);

/// Pest loss without rotation at which rotation breaks even in fragments:
/// (1 - lost)(1 - loss_with) = 1 - loss_without.
/// @param lost       share of capacity that rests, 0 to 1
/// @param loss_with  assumed share of the stock lost to pests with rotation, 0 to 1
/// @return the loss without rotation, 0 to 1; below it rotation costs more than it brings, whatever the assumption
/// @throws InvalidInput
double break_even_loss(double lost, double loss_with);

/// Output with rotation over output without it, for assumed losses: a what-if, not a forecast.
double relative_output(double lost, double loss_with, double loss_without);

}  // namespace theca::farm
