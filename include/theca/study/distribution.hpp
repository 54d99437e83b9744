// What is known of an uncertain input: a distribution over one quantity.
#pragma once

#include "theca/check.hpp"

namespace theca::study {

/// uniform      between `first` and `last`
/// triangular   between `first` and `last`, most likely at `middle`
/// normal       of mean `middle`, standard deviation `spread`, cut at `first` and `last`
/// lognormal    of median `middle`, the logarithm's standard deviation `log_spread`, cut at `first` and `last`: a
/// factor
///              of two either way, nineteen times of twenty, is ln(2)/1.96 = 0.354
enum class DistributionKind { uniform, triangular, normal, lognormal };

/// All values in coherent SI. A cut distribution keeps its shape between the cuts and is scaled up there.
struct Distribution {
  DistributionKind kind = DistributionKind::uniform;
  Measure first{}, last{};  ///< smallest and largest possible value; what is outside is impossible
  Measure middle{};         ///< see the kind; uniform has none
  Measure spread{};         ///< normal only, in the same unit
  double log_spread = 0.0;  ///< lognormal only
};

/// The value under which the distribution lies with a probability.
/// @param probability  0 to 1
/// @return in coherent SI, shown so too
/// @throws InvalidInput  probability outside 0 to 1; units that differ; last not above first; middle not between them;
///                       spread not positive; a lognormal that reaches zero or below
/// @source inverse distribution functions by Boost.Math
Measure quantile(const Distribution& distribution, double probability);

}  // namespace theca::study
