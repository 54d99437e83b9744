// Refusing a design that cannot be meant: values outside their limits, and parts that contradict one another.
#pragma once

#include <string>
#include <vector>

#include "theca/study/design.hpp"

namespace theca::study {

/// Two parts of a design that cannot both be meant, although each is in order by itself.
struct Contradiction {
  std::string key;       ///< dotted, e.g. "tanks.A.water_depth" or "pump.curve[2]"
  std::string value;     ///< with unit
  std::string accepted;  ///< what would have been right, with unit
};

/// All contradictions of a design whose values are within their limits.
std::vector<Contradiction> contradictions(const Design& design);

/// Applies the limits of theca/study/schema.hpp to every value, then looks for contradictions. The reader of design
/// files refuses the same designs.
/// @throws InvalidInput  naming the dotted key of the first thing wrong, its value with unit and what is accepted
void validate(const Design& design);

}  // namespace theca::study
