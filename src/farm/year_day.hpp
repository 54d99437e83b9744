// What a day does to a system: devices that fail, moves and water changes at midnight, water and minerals, stock.
#pragma once

#include <cstddef>
#include <vector>

#include "year_chance.hpp"
#include "year_plan.hpp"

namespace theca::farm::detail {

/// Devices that are out of order from a step of the day on: bits of YearFailure.
struct OutOfOrder {
  long step = 0;
  unsigned failed = 0;
};

/// Takes a clock over a day; calls at(time, failed) for every failure and repair.
template <class At>
void run_clock(FailureClock& clock, const PlannedFailure& rates, int seed, std::uint64_t stream, double day_end,
               const At& at) {
  while (si(clock.next) < day_end) {
    const double now = si(clock.next);
    clock.failed = !clock.failed;
    if (clock.failed)
      ++clock.failures;
    else
      clock.down += from_si<Time>(now - si(clock.since));
    clock.since = clock.next;
    const double wait = waiting(seed, stream, clock.drawn++);
    clock.next = from_si<Time>(now + (clock.failed ? wait * rates.repair : wait / rates.rate));
    at(now, clock.failed);
  }
}
FailureClock wound_clock(double rate, int seed, std::uint64_t stream);

inline std::uint64_t stream_of(std::size_t system, std::size_t purpose) { return 16 * system + purpose; }
inline constexpr std::size_t arrivals_purpose = 9, growth_purpose = 10;
inline constexpr std::uint64_t power_stream = ~std::uint64_t{0};

/// What heat did to a system over the day.
struct SystemHeat {
  double vapour = 0.0;                                    ///< kg
  double light_time = 0.0;                                ///< s
  std::vector<double> lowest, highest, area, cold, warm;  ///< of tanks
};

/// Moves of stock and water changes that are due as a day begins.
void at_midnight(const YearPlan& plan, const PlannedUpkeep& upkeep, int day, YearSystem& system);

/// Water, minerals, alarms and stock of a day.
/// @param out_of_order  from step 0 on
void through_day(const YearPlan& plan, const PlannedUpkeep& upkeep, std::size_t index, int seed, int day,
                 const std::vector<OutOfOrder>& out_of_order, const SystemHeat& heat, YearSystem& system);

}  // namespace theca::farm::detail
