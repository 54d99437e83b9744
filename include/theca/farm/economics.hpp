// Money: annual cost of capital, present value, cost per fragment sold.
#pragma once

#include <cmath>
#include <span>
#include <string>
#include <vector>

#include "theca/units.hpp"

namespace theca::farm {

/// Capital recovery factor i (1+i)^n / ((1+i)^n - 1): yearly payment per unit of capital, at year ends.
/// Unchecked; tends to 1/n as the rate vanishes. @source engineering economics, textbook
template <class T>
T capital_recovery(T rate, T years) {
  using std::expm1;
  using std::log1p;
  if (rate == T(0)) return T(1) / years;
  return rate / T(-expm1(-years * log1p(rate)));
}

/// The same, checked. @param rate  per year, 0 to 1  @param years  > 0  @throws InvalidInput
double capital_recovery_factor(double rate, double years);

/// Present value of yearly amounts, the first now (year 0), the others at year ends.
/// @throws InvalidInput  rate outside 0 to 1, an amount not finite, no amounts
Money net_present_value(std::span<const Money> yearly, double rate);

/// Present value of a capital outlay now followed by an equal yearly surplus.
Money net_present_value(const Money& capital, const MoneyRate& surplus, double rate, double years);

/// Rate that makes the present value of `capital` and `surplus` zero; bisection on [0, 10].
/// @throws InvalidInput  capital not positive; OutOfValidity when the surplus never pays it back or pays within weeks
double internal_rate_of_return(const Money& capital, const MoneyRate& surplus, double years);

struct CostItem {
  std::string name;
  Money cost;
};
/// Sum of items plus a share for contingency. @throws InvalidInput  a negative cost or contingency
Money capital_sum(std::span<const CostItem> items, double contingency);

struct RunningCost {
  std::string name;
  MoneyRate cost;
};

struct Economics {
  MoneyRate capital_cost;  ///< capital spread over its life at the discount rate
  MoneyRate running_cost;
  MoneyRate total_cost;
  MoneyRate revenue;
  MoneyRate profit;         ///< revenue less total cost
  Money cost_per_sold;      ///< total cost over fragments sold
  Money net_present_value;  ///< over the life, of capital and yearly revenue less running cost
};
/// @param sold   fragments sold per time, > 0
/// @param price  per fragment
/// @throws InvalidInput
Economics economics(const Money& capital, double rate, double life_years, std::span<const RunningCost> running,
                    const Frequency& sold, const Money& price);

/// Cost of an electrical load: power x price per energy x share of the time that it runs.
/// @throws InvalidInput  negative, duty outside 0 to 1
MoneyRate energy_cost(const Power& load, double duty, const EnergyPrice& price);

}  // namespace theca::farm
