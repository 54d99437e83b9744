// How many fragments stand on the racks.
#pragma once

#include <span>

#include "theca/units.hpp"

namespace theca::farm {

/// Slots of one tank: floor(usable share x inside area / pitch^2).
/// @param usable_share  of the inside area that the racks cover, 0 to 1
/// @throws InvalidInput  length, width or pitch not positive, share outside 0 to 1
/// @source square grid, definition
long slots(const Length& inside_length, const Length& inside_width, double usable_share, const Length& pitch);

struct TankGroup {
  int tanks;
  long slots_each;
};
/// Slots of the whole farm. @throws InvalidInput  a negative count
long farm_slots(std::span<const TankGroup> groups);

/// Pitch at which a tank holds `wanted` slots: the inverse, before rounding.
/// @throws InvalidInput  length or width not positive, share outside (0, 1], wanted < 1
Length pitch_for(long wanted, const Length& inside_length, const Length& inside_width, double usable_share);

}  // namespace theca::farm
