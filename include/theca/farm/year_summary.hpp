// What a simulated year came to.
#pragma once

#include <vector>

#include "theca/farm/year_state.hpp"
#include "theca/units.hpp"

namespace theca::farm {

/// Fragments: start + cut = alive + dead + sold + no_room.
struct StockBook {
  long start = 0, cut = 0, alive = 0, dead = 0, sold = 0, no_room = 0;
  long slot_days = 0;  ///< slots of stocked tanks, summed over days
  Area live_area{};
};

struct FailureBook {
  YearFailure kind = YearFailure::power_cut;
  long failures = 0;
  Time in_order{};  ///< summed over systems: failures are about rate x this
  Time down{};
};

struct AlarmSum {
  YearAlarm kind = YearAlarm::cold;
  long raised = 0;     ///< times that it came on
  long days = 0;       ///< summed over systems
  int systems = 0;     ///< that had it
  int first_day = -1;  ///< 0 is the first; -1: never
};

struct YearSummary {
  int days = 0, systems = 0, tanks = 0;
  StockBook stock = {};
  MassBook water = {}, salt = {};
  AmountBook alkalinity = {}, calcium = {};
  Energy heated{}, chilled{}, lit{};
  Temperature lowest{}, highest{}, mean{};  ///< of tanks
  Time cold{}, warm{};                      ///< summed over tanks
  double pest_adults = 0.0;
  std::vector<FailureBook> failures = {};
  std::vector<AlarmSum> alarms = {};
};

/// Sums over systems `first` up to but not with `last` of the state (-1: all), in their order.
/// @throws InvalidInput
YearSummary summary(const YearState& state, int first = 0, int last = -1);

}  // namespace theca::farm
