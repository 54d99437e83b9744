// The changes that a grower can make for a check that fails.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "theca/check.hpp"
#include "theca/study/design.hpp"

namespace theca::study {

/// One thing to change, in steps.
struct Lever {
  std::string what;                                   ///< "tank B, glass"
  int most = 0;                                       ///< the last sensible step
  std::function<void(Design&, int)> pull;             ///< changes a design by so many steps
  std::function<std::string(const Design&)> reading;  ///< the thing's value as a grower writes it
};

/// Levers that act on a check, by its name; empty where the list knows none.
std::vector<Lever> levers(const Design& design, const Check& check);

}  // namespace theca::study
