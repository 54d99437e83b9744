// A design some of whose inputs are known only as distributions: how likely each check fails, and which input decides.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "theca/study/assessment.hpp"
#include "theca/study/design_input.hpp"
#include "theca/study/distribution.hpp"
#include "theca/study/sampling.hpp"
#include "theca/study/sensitivity.hpp"

namespace theca::study {

/// A number of the design that is not known well. Inputs vary independently of one another.
struct UncertainInput {
  std::string key;  ///< as design_inputs gives it; no count
  Distribution distribution;
};

/// One possible design: each uncertain input at the quantile that its coordinate names.
/// @param point  as many coordinates as inputs, each 0 to 1
/// @throws InvalidInput  counts that differ; as quantile and with_input
Design sampled_design(const Design& design, std::span<const UncertainInput> inputs, std::span<const double> point);

/// One check over all samples. What the distributions leave out, the error of the check's own model, is in its nominal
/// verdict (`marginal`) and not here.
struct CheckOdds {
  std::string name;
  Verdict nominal = Verdict::outside_validity;  ///< of the design as it stands
  double nominal_utilisation = 0.0;
  std::size_t judged = 0;      ///< samples in which the check came to a verdict
  double failing = 0.0;        ///< share of these whose demand exceeds the capacity
  double failing_error = 0.0;  ///< its standard error if the samples were random; smaller for the other samplings
  double lowest = 0.0, low = 0.0, median = 0.0, high = 0.0, highest = 0.0;  ///< utilisation: extremes, 5, 50, 95 %
};

/// A sample that is no design that can be assessed.
struct RefusedSample {
  std::size_t sample = 0;
  std::string reason;
};

struct UncertainAssessment {
  std::size_t samples = 0;
  std::vector<CheckOdds> checks;  ///< in the order of the nominal assessment
  std::vector<RefusedSample> refused;
};

/// Assesses a design over samples of its uncertain inputs.
/// @param threads  1 to 1024; the result is the same for any number
/// @throws InvalidInput  no inputs, one key twice, as assess for the design as it stands
UncertainAssessment uncertain_assessment(const Design& design, std::span<const UncertainInput> inputs,
                                         const Sampling& sampling, int threads = 1);

/// Which input decides how a check's utilisation varies.
struct CheckSensitivity {
  std::string name;
  SobolIndices indices;  ///< of the utilisation, inputs in their order
};
/// Sobol indices of every check that came to a verdict in all samples; (inputs + 2) x points assessments.
/// @throws InvalidInput  as uncertain_assessment; a sample that cannot be assessed: narrow the distributions
std::vector<CheckSensitivity> check_sensitivities(const Design& design, std::span<const UncertainInput> inputs,
                                                  const Sampling& sampling, int threads = 1);

}  // namespace theca::study
