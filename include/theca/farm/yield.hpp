// Fragments per year from slots, occupancy, survival and cycle time.
#pragma once

#include "theca/units.hpp"

namespace theca::farm {

struct Production {
  double slots;         ///< that carry stock, after what rests fallow
  double occupancy;     ///< share of those slots that is filled, 0 to 1
  double survival;      ///< share of cut fragments that reaches sale size, 0 to 1, not zero
  Time cycle_time;      ///< cut to sale
  double unsold = 0.0;  ///< share of the yield that finds no buyer, 0 to 1
};

struct Yield {
  Frequency cut;       ///< fragments cut per time
  Frequency produced;  ///< fragments that reach sale size
  Frequency sold;
};

/// Yield = slots x occupancy x survival / cycle time; a lost fragment keeps its slot until the end of the cycle.
/// @throws InvalidInput  slots negative, a share outside its range, cycle time not positive
/// @source balance in the steady state; factor 1.5 through growth and survival
Yield yield(const Production& production);

/// Slots needed to sell so many fragments per time: the inverse.
double slots_for(const Frequency& sold, const Production& production);

}  // namespace theca::farm
