// The numbers of a design by their keys: "tanks.A.water_depth", "pump.curve[2].head". What-ifs and uncertain inputs
// name them so.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "theca/check.hpp"
#include "theca/study/design.hpp"

namespace theca::study {

/// One number of a design.
struct DesignInput {
  std::string key;       ///< as messages about design files write it
  Measure value;         ///< in coherent SI, twice; a temperature in K, a share or count without unit
  std::string accepted;  ///< the range of its own; a design has rules between inputs too. Empty: any finite number
};

/// Every number of a design, in the order of the design file. Texts and choices are left out.
std::vector<DesignInput> design_inputs(const Design& design);

/// A copy of a design with one number changed.
/// @param key    as design_inputs gives it
/// @param value  read are si_value and si_unit, which must be the input's; a count must be whole
/// @throws InvalidInput  no such key (the nearest is named), another unit, outside the accepted range, not finite
Design with_input(const Design& design, std::string_view key, const Measure& value);

}  // namespace theca::study
