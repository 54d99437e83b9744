// The cutting plan: what to cut when, for a steady output or for a list of orders, and how slow or fast growth moves
// it.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "theca/farm/cohort.hpp"
#include "theca/units.hpp"

namespace theca::farm {

/// What a steady output asks for.
struct SteadyPlan {
  Time cycle;          ///< from cut to sale
  Frequency cuts;      ///< fragments cut per time
  Frequency losses;    ///< fragments that die per time
  double slots = 0.0;  ///< taken on average
};
/// Steady plan for fragments of sale size: slots = cuts x mean stay.
/// @param sold  fragments sold per time, >= 0; what finds no buyer must be grown too and belongs in it
/// @param lost  a lost fragment keeps its slot for the cycle, or frees it: (1 - s) / -ln(s) of the cycle on average
/// @throws InvalidInput  sold negative, crop as grown_at
/// @source Little 1961, Operations Research 9:383
SteadyPlan steady_plan(const Crop& crop, const Frequency& sold, LostFragment lost = LostFragment::keeps_slot);

/// The same for slow, stated and fast growth.
struct SteadyPlanRange {
  SteadyPlan slow, central, fast;
};
/// @param growth_factor  the slowest colonies grow 1/factor times as fast as stated, the fastest factor times; 1 or
/// more
/// @throws InvalidInput  as above, growth factor below 1
SteadyPlanRange steady_plan_range(const Crop& crop, const Frequency& sold, double growth_factor = 2.0,
                                  LostFragment lost = LostFragment::keeps_slot);

/// Cuts for a steady output, one every interval, in whole fragments whose running sum stays within half a fragment of
/// the rate. The first cut is at `from`, the last before `to`; output begins one cycle after the first.
/// @throws InvalidInput  as above, interval not positive, `to` not after `from`, more than 100,000 cuts
std::vector<Cohort> steady_cuts(const Crop& crop, const Frequency& sold, const Time& interval, const Time& from,
                                const Time& to);

/// Fragments of one species asked for at a date.
struct Order {
  std::string species;
  long fragments = 0;  ///< living, at least 1
  Area size;           ///< each, at least
  Time due;            ///< from the start of the plan
};

/// What must be cut for one order at the latest.
struct OrderCut {
  std::size_t order = 0;  ///< its place in the list of orders
  Cohort cohort;          ///< cut at the latest date, sold when due
  bool too_late = false;  ///< that date is before the start of the plan: no cut can fill the order in time
};
/// Schedules orders backwards from their due dates: latest cut = due - healing - growth to size, moved back to the
/// cutting day before; fragments to cut = ordered / survival over the stay, rounded up.
/// @param cutting_interval  cuts are made on every multiple of it; 0: on any date
/// @return in the order of the cut dates
/// @throws InvalidInput  an order for a species that is no crop, a species that is two crops, fragments < 1, a size
///                       below the cut's, due not finite, cutting interval negative, crop as grown_at
/// @source backward scheduling, production planning, textbook
std::vector<OrderCut> order_cuts(std::span<const Order> orders, std::span<const Crop> crops,
                                 const Time& cutting_interval = from_si<Time>(0));

/// The cohorts of a schedule, for the slots and mothers that it takes; without those that are too late.
std::vector<Cohort> cohorts_in_time(std::span<const OrderCut> cuts);

/// How growth moves the latest cut of an order, and what a cut at the central date brings.
struct OrderRange {
  std::size_t order = 0;
  Time slow, central, fast;         ///< latest cut, on any date
  long slow_cut = 0, fast_cut = 0;  ///< fragments to cut
  Area size_if_slow, size_if_fast;  ///< on the due date, if cut at the central date
};
/// @param growth_factor  as steady_plan_range
/// @return in the order of `orders`
/// @throws InvalidInput  as order_cuts, growth factor below 1
std::vector<OrderRange> order_ranges(std::span<const Order> orders, std::span<const Crop> crops,
                                     double growth_factor = 2.0);

}  // namespace theca::farm
