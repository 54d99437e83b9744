// Random numbers that are found by their place: number n of a stream of a seed, whatever was drawn before.
#pragma once

#include <cmath>
#include <cstdint>

namespace theca::farm::detail {

inline constexpr std::uint64_t golden_gamma = 0x9e3779b97f4a7c15;

/// Number `n` of the generator SplitMix64 that starts at `state`.
/// @source Steele, Lea & Flood 2014, OOPSLA: fast splittable pseudorandom number generators
inline std::uint64_t split_mix(std::uint64_t state, std::uint64_t n) {
  std::uint64_t z = state + (n + 1) * golden_gamma;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
  z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
  return z ^ (z >> 31);
}

/// One number of a stream, in the middle of one of 2^53 equal slices of the unit interval: never 0, never 1.
inline double unit_number(int seed, std::uint64_t stream, long n) {
  const std::uint64_t start = split_mix(split_mix(static_cast<std::uint64_t>(seed), 0), stream);
  return (static_cast<double>(split_mix(start, static_cast<std::uint64_t>(n)) >> 11) + 0.5) * 0x1p-53;
}

/// Exponential, of mean 1.
inline double waiting(int seed, std::uint64_t stream, long n) { return -std::log(unit_number(seed, stream, n)); }

}  // namespace theca::farm::detail
