// A smooth curve through points that rises and falls only where the points do.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace theca::hydraulics::detail {

/// Cubic Hermite interpolation, slopes by Fritsch & Butland 1984 (weighted harmonic mean), end slopes by the
/// three-point rule kept shape preserving. It looks at the points where they are.
/// @tparam X, Y  give abscissa and ordinate of point i; two points or more, abscissas strictly rising
template <class X, class Y>
class MonotoneCubic {
 public:
  MonotoneCubic(std::size_t points, X x, Y y) : n_(points), x_(x), y_(y) {}

  struct Value {
    double value, slope;
  };

  /// In the interval that encloses `at`, or the first or last one.
  Value operator()(double at) const {
    const std::size_t i = interval(at);
    const double h = width(i), s = (at - x_(i)) / h, d = secant(i), m0 = slope(i), m1 = slope(i + 1);
    const double c2 = 3.0 * d - 2.0 * m0 - m1, c3 = m0 + m1 - 2.0 * d;
    // Rounding may step over the end of an interval, and a curve that ends at zero would go below it.
    const double low = std::min(y_(i), y_(i + 1)), high = std::max(y_(i), y_(i + 1));
    return {std::clamp(y_(i) + h * s * (m0 + s * (c2 + s * c3)), low, high), m0 + s * (2.0 * c2 + 3.0 * s * c3)};
  }

  std::size_t interval(double at) const {
    std::size_t low = 0, high = n_ - 1;
    while (high - low > 1) {
      const std::size_t middle = (low + high) / 2;
      (at < x_(middle) ? high : low) = middle;
    }
    return low;
  }

  double secant(std::size_t i) const { return (y_(i + 1) - y_(i)) / width(i); }

  /// At point i.
  double slope(std::size_t i) const {
    if (n_ == 2) return secant(0);
    if (i == 0) return end_slope(width(0), width(1), secant(0), secant(1));
    if (i == n_ - 1) return end_slope(width(n_ - 2), width(n_ - 3), secant(n_ - 2), secant(n_ - 3));
    const double h0 = width(i - 1), h1 = width(i), d0 = secant(i - 1), d1 = secant(i);
    if (d0 * d1 <= 0.0) return 0.0;
    const double w0 = 2.0 * h1 + h0, w1 = h1 + 2.0 * h0;
    return (w0 + w1) / (w0 / d0 + w1 / d1);
  }

 private:
  double width(std::size_t i) const { return x_(i + 1) - x_(i); }
  static double end_slope(double h0, double h1, double d0, double d1) {
    const double m = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
    if (m * d0 <= 0.0) return 0.0;
    return d0 * d1 <= 0.0 && std::abs(m) > 3.0 * std::abs(d0) ? 3.0 * d0 : m;
  }

  std::size_t n_;
  X x_;
  Y y_;
};

}  // namespace theca::hydraulics::detail
