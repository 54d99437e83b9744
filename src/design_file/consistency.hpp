// Contradictions between parts of a design that each are in order by themselves.
#pragma once

#include <string>
#include <vector>

#include "theca/study/design.hpp"

namespace theca::study {

struct Contradiction {
  std::vector<std::string> keys;  ///< the place in the file, table by table; places in lists as digits
  std::string text;
};

std::vector<Contradiction> contradictions(const Design& design);

}  // namespace theca::study
