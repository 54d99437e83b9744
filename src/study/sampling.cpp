#include "theca/study/sampling.hpp"

#include <boost/random/sobol.hpp>
#include <numeric>
#include <random>
#include <utility>

#include "theca/require.hpp"

namespace theca::study {
namespace {

using Random = std::mt19937_64;

/// The middle of one of 2^53 equal slices of the unit interval: never 0, never 1.
double to_unit(std::uint64_t bits) { return (static_cast<double>(bits >> 11) + 0.5) * 0x1p-53; }

/// One of `count` numbers from 0, each as likely; std::uniform_int_distribution differs between libraries.
std::size_t below(std::size_t count, Random& random) {
  const std::uint64_t n = count, unfair = (0 - n) % n;
  std::uint64_t bits = random();
  while (bits < unfair) bits = random();
  return static_cast<std::size_t>(bits % n);
}

void latin_hypercube(std::vector<double>& samples, std::size_t points, std::size_t dimensions, Random& random) {
  std::vector<std::size_t> slice(points);
  for (std::size_t d = 0; d < dimensions; ++d) {
    std::iota(slice.begin(), slice.end(), std::size_t{0});
    for (std::size_t i = points; i > 1; --i) std::swap(slice[i - 1], slice[below(i, random)]);
    for (std::size_t p = 0; p < points; ++p)
      samples[p * dimensions + d] = (static_cast<double>(slice[p]) + to_unit(random())) / static_cast<double>(points);
  }
}

void sobol(std::vector<double>& samples, std::size_t points, std::size_t dimensions, Random& random) {
  std::vector<std::uint64_t> shift(dimensions);
  for (std::uint64_t& s : shift) s = random();
  // Boost leaves out the origin, without which a power of two of points is not balanced.
  for (std::size_t d = 0; d < dimensions; ++d) samples[d] = to_unit(shift[d]);
  boost::random::sobol sequence(dimensions);
  for (std::size_t p = 1; p < points; ++p)
    for (std::size_t d = 0; d < dimensions; ++d) samples[p * dimensions + d] = to_unit(sequence() ^ shift[d]);
}

}  // namespace

std::vector<double> unit_samples(const Sampling& sampling, std::size_t dimensions) {
  require::that(sampling.points >= 1 && sampling.points <= 10'000'000, "points", static_cast<double>(sampling.points),
                "1 to 10 million");
  require::that(dimensions >= 1 && dimensions <= 1000, "dimensions", static_cast<double>(dimensions), "1 to 1000");
  std::vector<double> samples(sampling.points * dimensions);
  Random random(sampling.seed);
  switch (sampling.kind) {
    case SamplingKind::random:
      for (double& x : samples) x = to_unit(random());
      return samples;
    case SamplingKind::latin_hypercube:
      latin_hypercube(samples, sampling.points, dimensions, random);
      return samples;
    case SamplingKind::sobol:
      sobol(samples, sampling.points, dimensions, random);
      return samples;
  }
  throw InvalidInput("kind of sampling", std::to_string(static_cast<int>(sampling.kind)), "one of the enumeration");
}

}  // namespace theca::study
