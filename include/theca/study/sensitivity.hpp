// How much of an output's variance each uncertain input brings: first-order and total Sobol indices.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "theca/study/sampling.hpp"

namespace theca::study {

/// Shares of the variance of one output, per input.
struct SobolIndices {
  double mean, variance;                         ///< of the output
  std::vector<double> first_order;               ///< by this input alone; about 0 to 1
  std::vector<double> total;                     ///< by this input and all that it acts together with
  std::vector<double> first_error, total_error;  ///< standard errors, from the spread of the summands
};

/// The points at which a function must be known for its indices: a base sample A, a second B, and for each input A with
/// that input taken from B.
/// @param sampling    of 2 x inputs dimensions: `points` for A and B each
/// @return (inputs + 2) x points rows of `inputs` coordinates in (0, 1): A, B, then one block for each input
/// @throws InvalidInput  as unit_samples, inputs outside 1 to 500
std::vector<double> sobol_index_points(const Sampling& sampling, std::size_t inputs);

/// Indices from the values of a function at these points, in their order.
/// @param values  finite, (inputs + 2) x points of them, at least 2 points
/// @return all indices zero when the output does not vary
/// @throws InvalidInput  a value not finite, a count that is not a multiple of inputs + 2
/// @source Saltelli et al. 2010, Comput. Phys. Commun. 181:259, table 2: first order (b), total (f), after Jansen 1999
SobolIndices sobol_indices(std::span<const double> values, std::size_t inputs);

}  // namespace theca::study
