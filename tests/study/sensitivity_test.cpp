#include "theca/study/sensitivity.hpp"

#include <cmath>
#include <numbers>
#include <set>

#include "support/near.hpp"
#include "theca/study/sampling.hpp"

using namespace theca;
using namespace theca::study;
using test::near;
using test::within;

namespace {
template <class Function>
SobolIndices indices_of(const Function& function, const Sampling& sampling, std::size_t inputs) {
  const std::vector<double> rows = sobol_index_points(sampling, inputs);
  std::vector<double> values;
  for (std::size_t row = 0; row < rows.size(); row += inputs) values.push_back(function(&rows[row]));
  return sobol_indices(values, inputs);
}
}  // namespace

TEST_CASE("sampling: the same seed gives the same points, another seed others, all inside the cube") {
  for (const SamplingKind kind : {SamplingKind::random, SamplingKind::latin_hypercube, SamplingKind::sobol}) {
    const auto one = unit_samples({kind, 500, 7}, 13), again = unit_samples({kind, 500, 7}, 13);
    CHECK(one == again);
    CHECK(one != unit_samples({kind, 500, 8}, 13));
    for (const double x : one) {
      CHECK(x > 0.0);
      CHECK(x < 1.0);
    }
  }
}

TEST_CASE("sampling: random numbers are those of the C++ standard [10000th of mt19937_64: 9981545732273789042]") {
  // seed 5489, the default that the standard's own check value is for
  const auto samples = unit_samples({SamplingKind::random, 10000, 5489}, 1);
  CHECK(within(samples.back(), 9981545732273789042.0 * 0x1p-64, 1e-15));
}

TEST_CASE("sampling: a Latin hypercube has one point in every slice of every input") {
  const auto samples = unit_samples({SamplingKind::latin_hypercube, 100, 3}, 6);
  for (std::size_t d = 0; d < 6; ++d) {
    std::set<int> slices;
    for (std::size_t p = 0; p < 100; ++p) slices.insert(static_cast<int>(samples[p * 6 + d] * 100.0));
    CHECK(slices.size() == 100);
  }
}

TEST_CASE(
    "sampling: 2^k Sobol points put one into every slice of every input, the digital shift included [net property]") {
  const auto samples = unit_samples({SamplingKind::sobol, 256, 3}, 20);
  for (std::size_t d = 0; d < 20; ++d) {
    std::set<int> slices;
    for (std::size_t p = 0; p < 256; ++p) slices.insert(static_cast<int>(samples[p * 20 + d] * 256.0));
    CHECK(slices.size() == 256);
  }
}

TEST_CASE("sampling: Sobol points integrate a smooth function better than random ones") {
  // the mean of a product of 2 x_i is 1
  const auto error = [](SamplingKind kind) {
    const auto x = unit_samples({kind, 4096, 11}, 5);
    double sum = 0.0;
    for (std::size_t p = 0; p < 4096; ++p) {
      double product = 1.0;
      for (std::size_t d = 0; d < 5; ++d) product *= 2.0 * x[p * 5 + d];
      sum += product;
    }
    return std::abs(sum / 4096.0 - 1.0);
  };
  CHECK(error(SamplingKind::sobol) < 0.2 * error(SamplingKind::random));
  CHECK(error(SamplingKind::sobol) < 2e-3);
}

TEST_CASE("Sobol indices: Ishigami function [Saltelli et al. 2008: S1 0.314, 0.442, 0; total 0.558, 0.442, 0.244]") {
  // closed forms for a = 7, b = 0.1; the tolerance is four standard errors of the estimates
  constexpr double pi = std::numbers::pi, a = 7.0, b = 0.1, pi4 = pi * pi * pi * pi;
  const double variance = a * a / 8.0 + b * pi4 / 5.0 + b * b * pi4 * pi4 / 18.0 + 0.5;
  const double first[] = {0.5 * std::pow(1.0 + b * pi4 / 5.0, 2) / variance, a * a / 8.0 / variance, 0.0};
  const double third = b * b * pi4 * pi4 * (1.0 / 18.0 - 1.0 / 50.0) / variance;
  const double total[] = {first[0] + third, first[1], third};
  CHECK(within(first[0], 0.314, 5e-4));
  CHECK(within(total[2], 0.244, 5e-4));
  const auto s = indices_of(
      [&](const double* u) {
        const double x = pi * (2.0 * u[0] - 1.0), y = pi * (2.0 * u[1] - 1.0), z = pi * (2.0 * u[2] - 1.0);
        return std::sin(x) + a * std::pow(std::sin(y), 2) + b * std::pow(z, 4) * std::sin(x);
      },
      {SamplingKind::sobol, 4096, 5}, 3);
  CHECK(near(s.mean, a / 2.0, 0.01));
  CHECK(near(s.variance, variance, 0.02));
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(within(s.first_order[i], first[i], 4.0 * s.first_error[i] + 1e-12));
    CHECK(within(s.total[i], total[i], 4.0 * s.total_error[i] + 1e-12));
    CHECK(s.first_error[i] < 0.04);
    CHECK(s.total_error[i] < 0.03);
  }
}

TEST_CASE("Sobol indices: a sum of inputs is shared out by their variances, an idle input gets nothing") {
  const auto s =
      indices_of([](const double* u) { return 1e6 + 3.0 * u[0] + 4.0 * u[1]; }, {SamplingKind::sobol, 8192, 1}, 3);
  CHECK(within(s.first_order[0], 9.0 / 25.0, 0.01));
  CHECK(within(s.first_order[1], 16.0 / 25.0, 0.01));
  CHECK(s.first_order[2] == 0.0);
  CHECK(s.total[2] == 0.0);
  CHECK(within(s.total[0], 9.0 / 25.0, 0.01));
}

TEST_CASE("Sobol indices: an output that does not vary has none") {
  const auto s = indices_of([](const double*) { return 5.0; }, {SamplingKind::random, 16, 1}, 2);
  CHECK(s.variance == 0.0);
  for (const double x : s.total) CHECK(x == 0.0);
}

TEST_CASE("sampling and indices: counts and values out of range are refused") {
  CHECK_THROWS_AS(unit_samples({SamplingKind::sobol, 0, 1}, 2), InvalidInput);
  CHECK_THROWS_AS(unit_samples({SamplingKind::sobol, 8, 1}, 0), InvalidInput);
  CHECK_THROWS_AS(unit_samples({SamplingKind::sobol, 8, 1}, 1001), InvalidInput);
  CHECK_THROWS_AS(sobol_index_points({SamplingKind::sobol, 8, 1}, 0), InvalidInput);
  const std::vector<double> values{1.0, 2.0, 3.0, 4.0, std::nan(""), 6.0};
  CHECK_THROWS_AS(sobol_indices(values, 1), InvalidInput);
  CHECK_THROWS_AS(sobol_indices(std::span(values).first(4), 1), InvalidInput);
}
