// A heater for a stated probability of cold: how much power, and how often the water falls below its set point.
#pragma once

#include <vector>

#include "theca/thermal/balance.hpp"
#include "theca/thermal/sizing.hpp"

namespace theca::thermal {

/// Temperature that a normally distributed one falls short of with this probability, e.g. of hourly winter
/// temperatures: 0.4 % is ASHRAE's coldest design percentile (99.6 %), 1 % the next.
/// @param deviation    standard deviation, >= 0
/// @param probability  > 0, < 1
/// @throws InvalidInput  also a temperature that would not be above absolute zero
/// @source quantile of the normal distribution; percentiles: ASHRAE Fundamentals 2017, ch. 14 (from memory). Real
/// winters
///         have longer cold tails than a normal distribution: hours of a nearby station are better, heater_for_odds()
Temperature cold_design_temperature(const Temperature& mean, const TemperatureDifference& deviation,
                                    double probability);

struct HeaterForOdds {
  Power power{};            ///< heat into the water that leaves no more than the stated share of the days cold; >= 0
  double days_cold = 0.0;   ///< share of the days on which it lacks power, at most the probability
  Power worst{};            ///< need on the worst of the days
  std::vector<Power> need;  ///< on each day, in their order; 0 where the water would have to be cooled
};

/// Heating power with which the set point is missed on no more than a share of the given days, all of like weight.
///
/// Each day is taken as settled: water in tanks carries an hour or two of worse cold by its own heat
/// (temperature_course()).
/// @param days         one or more, e.g. each hour of a winter, or samples
/// @param probability  of cold, 0 (none of these days) to < 1
/// @throws InvalidInput  no days, probability out of range; and as system_balance
HeaterForOdds heater_for_odds(const std::vector<DesignDay>& days, const Water& set_point, double probability);

}  // namespace theca::thermal
