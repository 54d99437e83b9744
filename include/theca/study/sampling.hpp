// Points that fill a unit cube, for inputs that vary together: by chance, by Latin hypercube, by Sobol sequence.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace theca::study {

/// random           independent points
/// latin_hypercube  every input cut into as many equal slices as there are points, one point in each
/// sobol            quasi-random, shifted by a random digital shift; for an even cover take a power of two of points
enum class SamplingKind { random, latin_hypercube, sobol };

struct Sampling {
  SamplingKind kind = SamplingKind::sobol;
  std::size_t points = 1024;  ///< 1 to 10 million
  std::uint64_t seed = 1;     ///< the same seed gives the same points on every machine
};

/// Coordinates in (0, 1), point after point.
/// @param dimensions  1 to 1000
/// @return points x dimensions numbers
/// @throws InvalidInput  points or dimensions out of range
/// @source random numbers: Matsumoto & Nishimura 1998 (the mt19937_64 of the C++ standard, which fixes its output);
///         Latin hypercube: McKay, Beckman & Conover 1979, Technometrics 21:239; Sobol sequence: Boost.Random with the
///         direction numbers of Joe & Kuo 2008; digital shift: L'Ecuyer & Lemieux 2002
std::vector<double> unit_samples(const Sampling& sampling, std::size_t dimensions);

}  // namespace theca::study
