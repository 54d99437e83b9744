// Cohorts: fragments cut on one day, how many of them live, and the slots that they take until they are sold.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "theca/farm/growth.hpp"
#include "theca/units.hpp"

namespace theca::farm {

/// A coral as a cutting plan sees it.
struct Crop {
  std::string species;
  Growth growth;          ///< from cut to sale size
  double survival = 1.0;  ///< share of the cut fragments that lives to sale size, > 0 to 1; losses fall evenly in time
};

/// The same crop when it grows `factor` times as fast. Healing and the losses per day stay, so that slow fragments,
/// which are longer at risk, lose more.
/// @param factor  > 0; growth varies by a factor of two between colonies, so plan for 0.5 to 2
/// @throws InvalidInput  factor not positive, a crop that is not one (survival outside (0, 1], growth as cycle_time)
Crop grown_at(const Crop& crop, double factor);

/// Share of fragments alive at an age: survival^(age / cycle time), the law of an even risk.
/// @throws InvalidInput  as above; age negative
double alive_at(const Crop& crop, const Time& age);

/// Area of a living fragment at an age: that of the cut while it heals, then exponential growth.
/// @throws InvalidInput  as above
Area area_at(const Crop& crop, const Time& age);

/// Age at which a fragment reaches a size: healing and growth. @throws InvalidInput  size below the cut's
Time age_at(const Crop& crop, const Area& size);

/// Fragments that were cut together. Times count from the start of the plan; before it they are negative.
struct Cohort {
  std::string species;
  long fragments = 0;     ///< cut
  Time cut;               ///< when
  Time stay;              ///< on the rack, from the cut until the living ones are sold
  double survival = 1.0;  ///< share alive at the end of the stay
};
/// A cohort that stays until sale size. @throws InvalidInput  fragments negative, time not finite, crop as above
Cohort cohort_of(const Crop& crop, long fragments, const Time& cut);

enum class LostFragment {
  keeps_slot,  ///< the slot stays empty until the cohort leaves, as yield() counts it
  frees_slot   ///< the slot is filled with something else at once: the low side
};

/// What became of all fragments cut so far: cut = alive + lost + sold.
struct StockBalance {
  double cut = 0.0, alive = 0.0, lost = 0.0, sold = 0.0;
};
/// @throws InvalidInput  a cohort with negative fragments, a stay that is not positive, survival outside (0, 1]
StockBalance stock_balance(std::span<const Cohort> cohorts, const Time& at);

/// Slots taken at a time. A cohort takes them from its cut until just before it is sold. @throws InvalidInput as above
double slots_taken(std::span<const Cohort> cohorts, const Time& at, LostFragment lost = LostFragment::keeps_slot);

/// Mean of the slots taken between two times, integrated exactly.
/// @throws InvalidInput  as above; `to` not after `from`
double mean_slots_taken(std::span<const Cohort> cohorts, const Time& from, const Time& to,
                        LostFragment lost = LostFragment::keeps_slot);

struct SlotPeak {
  Time at;
  double slots = 0.0;
};
/// The most slots that are ever taken at once; of equal peaks the first. Between two cuts the number never rises, so
/// only the times of cuts are looked at. @throws InvalidInput  as above; no cohorts
SlotPeak peak_slots_taken(std::span<const Cohort> cohorts, LostFragment lost = LostFragment::keeps_slot);

/// The slots that the racks have while tanks rest in turn.
struct RotatingRacks {
  std::vector<long> slots;  ///< of each tank, in the order in which they rest
  int fallow = 0;           ///< tanks that rest at any time; 0: none, and `interval` is not used
  Time interval{};          ///< between moves; the first tanks of the list rest at the start of the plan
};
/// Slots of the tanks that are stocked at a time. @throws InvalidInput  no tanks, as play_rotation, interval not > 0
long slots_available(const RotatingRacks& racks, const Time& at);

struct SlotUse {
  Time at;
  double taken = 0.0;
  long available = 0;
};
/// The tightest moment between two times: the greatest surplus of slots taken over slots available, which is negative
/// where all fit. Cuts and moves are the only times at which it can begin.
/// @throws InvalidInput  as above; more than 100,000 moves between the times
SlotUse tightest_slots(std::span<const Cohort> cohorts, const RotatingRacks& racks, const Time& from, const Time& to,
                       LostFragment lost = LostFragment::keeps_slot);

}  // namespace theca::farm
