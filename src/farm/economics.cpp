#include "theca/farm/economics.hpp"

#include "theca/require.hpp"

namespace theca::farm {

namespace {
constexpr double year_s = units::year.size.value();
double yearly(const MoneyRate& rate) { return si(rate) * year_s; }
void require_rate_and_years(double rate, double years) {
  require::within("discount rate", rate, 0.0, 1.0);
  require::positive("years", years);
}
}  // namespace

double capital_recovery_factor(double rate, double years) {
  require_rate_and_years(rate, years);
  return capital_recovery(rate, years);
}

Money net_present_value(std::span<const Money> yearly_amounts, double rate) {
  require::within("discount rate", rate, 0.0, 1.0);
  require::that(!yearly_amounts.empty(), "number of yearly amounts", 0.0, "at least 1");
  double sum = 0.0, discount = 1.0;
  for (const Money& amount : yearly_amounts) {
    require::finite("yearly amount", amount);
    sum += si(amount) * discount;
    discount /= 1.0 + rate;
  }
  return from_si<Money>(sum);
}

Money net_present_value(const Money& capital, const MoneyRate& surplus, double rate, double years) {
  require::not_negative("capital", capital);
  require::finite("surplus", surplus);
  require_rate_and_years(rate, years);
  return from_si<Money>(yearly(surplus) / capital_recovery(rate, years) - si(capital));
}

double internal_rate_of_return(const Money& capital, const MoneyRate& surplus, double years) {
  require::positive("capital", capital);
  require::finite("surplus", surplus);
  require::positive("years", years);
  // The yearly surplus equals the capital recovery at the rate sought, and that factor rises with the rate.
  const double wanted = yearly(surplus) / si(capital);
  double low = 0.0, high = 10.0;
  if (capital_recovery(low, years) > wanted)
    throw OutOfValidity("internal rate of return", "the surplus never pays the capital back within its life");
  if (capital_recovery(high, years) < wanted)
    throw OutOfValidity("internal rate of return", "it would be above 1000 % per year");
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (capital_recovery(middle, years) < wanted ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

Money capital_sum(std::span<const CostItem> items, double contingency) {
  require::not_negative("contingency", contingency);
  Money sum = from_si<Money>(0.0);
  for (const CostItem& item : items) {
    require::not_negative("cost of '" + item.name + "'", item.cost);
    sum += item.cost;
  }
  return (1.0 + contingency) * sum;
}

Economics economics(const Money& capital, double rate, double life_years, std::span<const RunningCost> running,
                    const Frequency& sold, const Money& price) {
  require::not_negative("capital", capital);
  require_rate_and_years(rate, life_years);
  require::positive("fragments sold", sold);
  require::not_negative("price", price);
  Economics e{};
  e.capital_cost = from_si<MoneyRate>(si(capital) * capital_recovery(rate, life_years) / year_s);
  e.running_cost = from_si<MoneyRate>(0.0);
  for (const RunningCost& item : running) {
    require::not_negative("running cost of '" + item.name + "'", item.cost);
    e.running_cost += item.cost;
  }
  e.total_cost = e.capital_cost + e.running_cost;
  e.revenue = sold * price;
  e.profit = e.revenue - e.total_cost;
  e.cost_per_sold = e.total_cost / sold;
  e.net_present_value = net_present_value(capital, e.revenue - e.running_cost, rate, life_years);
  return e;
}

MoneyRate energy_cost(const Power& load, double duty, const EnergyPrice& price) {
  require::not_negative("load", load);
  require::within("duty", duty, 0.0, 1.0);
  require::not_negative("energy price", price);
  return duty * (load * price);
}

}  // namespace theca::farm
