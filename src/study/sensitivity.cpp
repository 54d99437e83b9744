#include "theca/study/sensitivity.hpp"

#include <cmath>

#include "theca/require.hpp"

namespace theca::study {
namespace {

/// Mean and its standard error of summands that come one by one [Welford 1962].
class Mean {
 public:
  void add(double x) {
    ++count_;
    const double off = x - mean_;
    mean_ += off / static_cast<double>(count_);
    squares_ += off * (x - mean_);
  }
  double value() const { return mean_; }
  double variance() const { return squares_ / static_cast<double>(count_ - 1); }
  double standard_error() const { return std::sqrt(variance() / static_cast<double>(count_)); }

 private:
  std::size_t count_ = 0;
  double mean_ = 0.0, squares_ = 0.0;
};

void require_inputs(std::size_t inputs) {
  require::that(inputs >= 1 && inputs <= 500, "inputs", static_cast<double>(inputs), "1 to 500");
}

}  // namespace

std::vector<double> sobol_index_points(const Sampling& sampling, std::size_t inputs) {
  require_inputs(inputs);
  const std::vector<double> both = unit_samples(sampling, 2 * inputs);
  const std::size_t points = sampling.points;
  std::vector<double> rows;
  rows.reserve((inputs + 2) * points * inputs);
  for (std::size_t block = 0; block < inputs + 2; ++block)
    for (std::size_t p = 0; p < points; ++p)
      for (std::size_t i = 0; i < inputs; ++i) {
        const bool from_second = block == 1 || block == i + 2;
        rows.push_back(both[p * 2 * inputs + (from_second ? inputs : 0) + i]);
      }
  return rows;
}

SobolIndices sobol_indices(std::span<const double> values, std::size_t inputs) {
  require_inputs(inputs);
  const std::size_t points = values.size() / (inputs + 2);
  require::that(values.size() == points * (inputs + 2) && points >= 2, "number of values",
                static_cast<double>(values.size()), "inputs + 2 times the points, of which at least 2");
  for (const double y : values) require::finite("value of the output", y);
  const auto a = values.first(points), b = values.subspan(points, points);
  Mean all;
  for (const double y : values.first(2 * points)) all.add(y);
  SobolIndices s{all.value(), all.variance(), {}, {}, {}, {}};
  const bool varies = s.variance > 0.0;
  for (std::size_t i = 0; i < inputs; ++i) {
    const auto mixed = values.subspan((i + 2) * points, points);
    Mean first, total;
    for (std::size_t p = 0; p < points; ++p) {
      // the mean taken off first: it drops out in theory and spoils the sum's precision in practice
      first.add((b[p] - s.mean) * (mixed[p] - a[p]));
      total.add(0.5 * (a[p] - mixed[p]) * (a[p] - mixed[p]));
    }
    s.first_order.push_back(varies ? first.value() / s.variance : 0.0);
    s.first_error.push_back(varies ? first.standard_error() / s.variance : 0.0);
    s.total.push_back(varies ? total.value() / s.variance : 0.0);
    s.total_error.push_back(varies ? total.standard_error() / s.variance : 0.0);
  }
  return s;
}

}  // namespace theca::study
