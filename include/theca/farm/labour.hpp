// Hours of work: the sum of the tasks against the hours hired.
#pragma once

#include <span>
#include <string>

#include "theca/units.hpp"

namespace theca::farm {

/// A task done again and again.
struct Task {
  std::string name;
  Time each;       ///< work for one occurrence
  Frequency rate;  ///< occurrences per time
};

/// Share of all time that the tasks take: a sum of time x rate. 40 h per week is 40/168.
/// @throws InvalidInput  negative or not finite
double workload(std::span<const Task> tasks);

/// Work per week. @throws InvalidInput as above
Time weekly_work(std::span<const Task> tasks);

/// Weekly work over the hours hired per week. @throws InvalidInput  hired not positive
double labour_utilisation(std::span<const Task> tasks, const Time& hired_per_week);

/// Hours to hire per week so that utilisation is `limit`: the inverse. @throws InvalidInput  limit outside (0, 1]
Time hours_to_hire(std::span<const Task> tasks, double limit);

/// Wages of hired hours. @throws InvalidInput  negative
MoneyRate wages(const Time& hired_per_week, const MoneyRate& wage);

}  // namespace theca::farm
