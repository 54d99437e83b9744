// A farm over a year in raw numbers: SI, equivalents and moles, fresh water by mass.
#pragma once

#include <array>
#include <cstddef>
#include <limits>
#include <vector>

#include "../thermal/batch_runner.hpp"
#include "theca/farm/year_state.hpp"

namespace theca::farm::detail {

inline constexpr double day_s = 86400.0;
inline constexpr std::size_t failure_kinds = 9, alarm_kinds = 8;
inline constexpr std::size_t index_of(YearFailure kind) { return static_cast<std::size_t>(kind); }
inline constexpr unsigned bit_of(YearFailure kind) { return 1U << index_of(kind); }

struct PlannedTank {
  long slots = 0, filled = 0;  ///< of them when freshly cut
  std::size_t cohorts = 1;
  double saturation = 0.0;   ///< of photosynthesis while lit
  double reset_share = 0.0;  ///< of the system's water
  double light = 0.0;        ///< W
};

struct PlannedUpkeep {
  double fresh_per_volume = 0.0;                   ///< fresh water in salt water at target, kg/m3
  double full = 0.0, highest = 0.0, lowest = 0.0;  ///< fresh water at the running level, at the overflow, when dry; kg
  double salt_per_fresh = 0.0;                     ///< kg/kg, at target
  double alkalinity = 0.0, threshold = 0.0, calcium = 0.0;  ///< mol/m3
  double full_dose = 0.0, correction = 0.0, make_up = 0.0;
  double changed = 0.0;  ///< share of the water
  int days_between_changes = 1, days_between_moves = 1;
  std::size_t fallow = 0;
  std::vector<PlannedTank> tanks;
  std::vector<std::size_t> tank_of_body;  ///< bodies of the system in the order of the batch's plan, the sump left out
};

struct PlannedFailure {
  double rate = 0.0, repair = 1.0;
};

struct YearPlan {
  std::shared_ptr<const thermal::detail::BatchPlan> heat;
  double heater_cutout = std::numeric_limits<double>::infinity();
  std::vector<PlannedUpkeep> systems;
  std::array<PlannedFailure, failure_kinds> failures{};
  YearCoral coral{};
  double measured_saturation = 1.0;  ///< over the day
  YearPest pest{};
  YearAlarms alarms{};
  double cycle = 0.0;  ///< s
};

/// One at sale size or after the cut, for `place` of `count` cohorts that stand at even times over a cycle.
YearCohort cohort_at(const YearPlan& plan, const PlannedTank& tank, std::size_t place);
/// Fragments of a cohort when freshly cut.
long cut_size(const PlannedTank& tank, std::size_t place);

}  // namespace theca::farm::detail
