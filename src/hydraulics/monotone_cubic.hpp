// A smooth curve through points that rises and falls only where the points do.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace theca::hydraulics::detail {

/// Cubic Hermite interpolation, slopes by Fritsch & Butland 1984 (weighted harmonic mean), end slopes by the
/// three-point rule kept shape preserving.
/// @param x  two or more, strictly rising, enclosing at
inline double monotone_cubic(const std::vector<double>& x, const std::vector<double>& y, double at) {
  const std::size_t n = x.size();
  const auto width = [&](std::size_t k) { return x[k + 1] - x[k]; };
  const auto secant = [&](std::size_t k) { return (y[k + 1] - y[k]) / width(k); };
  const auto end_slope = [](double h0, double h1, double d0, double d1) {
    const double m = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
    if (m * d0 <= 0.0) return 0.0;
    return d0 * d1 <= 0.0 && std::abs(m) > 3.0 * std::abs(d0) ? 3.0 * d0 : m;
  };
  const auto slope = [&](std::size_t i) {
    if (n == 2) return secant(0);
    if (i == 0) return end_slope(width(0), width(1), secant(0), secant(1));
    if (i == n - 1) return end_slope(width(n - 2), width(n - 3), secant(n - 2), secant(n - 3));
    const double d0 = secant(i - 1), d1 = secant(i);
    if (d0 * d1 <= 0.0) return 0.0;
    const double w0 = 2.0 * width(i) + width(i - 1), w1 = width(i) + 2.0 * width(i - 1);
    return (w0 + w1) / (w0 / d0 + w1 / d1);
  };
  const auto above = std::upper_bound(x.begin() + 1, x.end() - 1, at);
  const auto i = static_cast<std::size_t>(above - x.begin()) - 1;
  const double h = width(i), s = (at - x[i]) / h, d = secant(i), m0 = slope(i), m1 = slope(i + 1);
  return y[i] + h * s * (m0 + s * ((3.0 * d - 2.0 * m0 - m1) + s * (m0 + m1 - 2.0 * d)));
}

}  // namespace theca::hydraulics::detail
