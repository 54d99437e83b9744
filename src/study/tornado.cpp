#include "theca/study/tornado.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "text_forms.hpp"
#include "theca/require.hpp"
#include "theca/study/parts.hpp"

namespace theca::study {
namespace {

/// The design's own value of an input; with_input says what is wrong with a key that there is not.
Measure own_value(const Design& design, std::string_view key) {
  for (const DesignInput& input : design_inputs(design))
    if (input.key == key) return input.value;
  with_input(design, key, {});
  return {};
}

/// A range of one input that holds what the design states. Ends computed from it may differ in the last digits.
void require_around(const TornadoInput& input, const Measure& own) {
  for (const Measure* const end : {&input.low, &input.high})
    if (end->si_unit != own.si_unit || !std::isfinite(end->si_value))
      throw InvalidInput(input.key, text(end->si_value, end->si_unit),
                         own.si_unit.empty() ? "a number without unit" : "a value in " + own.si_unit);
  const double slack = 1e-9 * std::abs(own.si_value);
  if (input.low.si_value > own.si_value + slack || input.high.si_value < own.si_value - slack)
    throw InvalidInput(input.key,
                       text(input.low.si_value, own.si_unit) + " to " + text(input.high.si_value, own.si_unit),
                       "a range around what the design states, " + text(own.si_value, own.si_unit));
}

}  // namespace

Measure economic_measure(const Design& design, EconomicMeasure measure) {
  const farm::Economics money = economics(design);
  switch (measure) {
    case EconomicMeasure::net_present_value:
      return theca::measure(money.net_present_value, units::dollar);
    case EconomicMeasure::cost_per_sold:
      return theca::measure(money.cost_per_sold, units::dollar);
    case EconomicMeasure::profit:
      return theca::measure(money.profit, units::dollar_per_year);
  }
  throw InvalidInput("economic measure", text(static_cast<double>(measure), ""), "one of the enumeration");
}

TornadoInput scaled_input(const Design& design, std::string_view key, double low_factor, double high_factor) {
  require::that(low_factor <= 1.0 && std::isfinite(low_factor), "low factor", low_factor, "at most 1");
  require::that(high_factor >= 1.0 && std::isfinite(high_factor), "high factor", high_factor, "at least 1");
  const Measure own = own_value(design, key);
  if (own.si_unit == "K") throw InvalidInput(key, "a temperature", "an input that has fractions; state its two ends");
  const auto scaled = [&own](double factor) {
    return Measure{factor * own.si_value, own.si_unit, factor * own.shown_value, own.shown_unit};
  };
  TornadoInput input{std::string(key), scaled(low_factor), scaled(high_factor)};
  if (own.si_value < 0.0) std::swap(input.low, input.high);
  return input;
}

TornadoInput quantile_input(const UncertainInput& input, double tail) {
  require::that(tail >= 0.0 && tail < 0.5, "tail", tail, "0 to below 0.5");
  return {input.key, quantile(input.distribution, tail), quantile(input.distribution, 1.0 - tail)};
}

Tornado tornado(const Design& design, std::span<const TornadoInput> inputs, EconomicMeasure measure) {
  require::that(!inputs.empty(), "inputs of the tornado", 0, "at least one");
  Tornado result;
  result.nominal = economic_measure(design, measure);
  std::set<std::string_view> keys;
  for (const TornadoInput& input : inputs) {
    if (!keys.insert(input.key).second)
      throw InvalidInput("input of the tornado", text_forms::in_quotes(input.key), "each key once");
    require_around(input, own_value(design, input.key));
    TornadoBar bar{input.key, input.low, input.high};
    bar.at_low = economic_measure(with_input(design, input.key, input.low), measure);
    bar.at_high = economic_measure(with_input(design, input.key, input.high), measure);
    const auto [least, most] = std::minmax({bar.at_low.si_value, result.nominal.si_value, bar.at_high.si_value});
    bar.swing = most - least;
    result.bars.push_back(bar);
  }
  std::stable_sort(result.bars.begin(), result.bars.end(),
                   [](const TornadoBar& a, const TornadoBar& b) { return a.swing > b.swing; });
  return result;
}

}  // namespace theca::study
