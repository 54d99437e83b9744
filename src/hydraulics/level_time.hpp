// Time in which the level of a tank with a steady inflow changes against an outflow c sqrt(h).
#pragma once

#include <cmath>
#include <limits>

namespace theca::hydraulics::detail {

/// Exact integral of A dh/(Q - c sqrt h), all in SI numbers; infinite if the level does not come to `to`.
/// @param c  outflow at a head of 1 m
inline double level_time(double area, double inflow, double c, double from, double to) {
  const double s1 = std::sqrt(from), s2 = std::sqrt(to), root = inflow / c;
  if (s1 == s2) return 0.0;
  // The level nears the settling head from one side and never gets there. By roots, as below: heads may still differ
  // where their roots do not.
  if (s2 > s1 ? !(s2 < root) : !(s2 > root)) return std::numeric_limits<double>::infinity();
  const double change = (s1 - s2) / (root - s1);
  // For small changes the first form keeps the digits, close to where the level settles the second.
  const double logarithm = change > -0.5 ? std::log1p(change) : std::log((root - s2) / (root - s1));
  return -2.0 * area / c * ((s2 - s1) + root * logarithm);
}

}  // namespace theca::hydraulics::detail
