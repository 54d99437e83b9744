// A scalar that carries one derivative: the archetype that every templated kernel must accept.
#pragma once

#include <cmath>

namespace theca::test {

struct Dual {
  double v = 0.0, d = 0.0;
  constexpr Dual() = default;
  constexpr explicit Dual(double value, double derivative = 0.0) : v(value), d(derivative) {}
};
constexpr Dual operator+(Dual a, Dual b) { return Dual(a.v + b.v, a.d + b.d); }
constexpr Dual operator-(Dual a, Dual b) { return Dual(a.v - b.v, a.d - b.d); }
constexpr Dual operator*(Dual a, Dual b) { return Dual(a.v * b.v, a.d * b.v + a.v * b.d); }
constexpr Dual operator/(Dual a, Dual b) { return Dual(a.v / b.v, (a.d - a.v / b.v * b.d) / b.v); }
constexpr bool operator<(Dual a, Dual b) { return a.v < b.v; }
inline Dual log(Dual a) { return Dual(std::log(a.v), a.d / a.v); }
inline Dual sin(Dual a) { return Dual(std::sin(a.v), std::cos(a.v) * a.d); }
inline Dual sqrt(Dual a) { return Dual(std::sqrt(a.v), 0.5 * a.d / std::sqrt(a.v)); }
inline Dual pow(Dual a, double p) { return Dual(std::pow(a.v, p), p * std::pow(a.v, p - 1.0) * a.d); }

}  // namespace theca::test
