// Which uncertain input moves the money most: each alone at its low and high value, sorted by what it does.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "theca/check.hpp"
#include "theca/study/design.hpp"
#include "theca/study/uncertain_assessment.hpp"

namespace theca::study {

enum class EconomicMeasure {
  net_present_value,  ///< of capital and yearly surplus over the life, USD
  cost_per_sold,      ///< total cost over fragments sold, USD
  profit              ///< revenue less total cost, USD per year
};

/// The measure of a design as it stands. @throws InvalidInput  as economics
Measure economic_measure(const Design& design, EconomicMeasure measure);

/// An input and how far it may be off.
struct TornadoInput {
  std::string key;        ///< as design_inputs gives it; counts too
  Measure low{}, high{};  ///< in coherent SI; the design's own value lies between them or on one of them
};
/// An input from a fraction to a multiple of what the design states.
/// @param low_factor, high_factor  low_factor <= 1 <= high_factor
/// @throws InvalidInput  no such key, factors out of order, a temperature (which has no fraction: state its ends)
TornadoInput scaled_input(const Design& design, std::string_view key, double low_factor, double high_factor);
/// An input between two quantiles of its distribution. @param tail  probability beyond each end, 0 to below 0.5
/// @throws InvalidInput  as quantile, tail out of range
TornadoInput quantile_input(const UncertainInput& input, double tail = 0.1);

struct TornadoBar {
  std::string key;
  Measure low{}, high{};        ///< of the input
  Measure at_low{}, at_high{};  ///< of the measure, all else as the design states
  double swing = 0.0;           ///< greatest less smallest of at_low, nominal and at_high, in SI; the length of the bar
};

struct Tornado {
  Measure nominal{};
  std::vector<TornadoBar> bars;  ///< longest first; equal ones in the order of the inputs
};

/// The tornado of a design. One input at a time: what two do together it does not show (sensitivity.hpp does), and
/// inputs that go together, such as growth and survival, are better varied together.
/// @throws InvalidInput  no inputs, one key twice, a range that leaves out the design's own value, as with_input and
///                       economics
/// @source one-at-a-time sensitivity, engineering economics; Eschenbach 1992, Interfaces 22:40 (from memory)
Tornado tornado(const Design& design, std::span<const TornadoInput> inputs,
                EconomicMeasure measure = EconomicMeasure::net_present_value);

}  // namespace theca::study
