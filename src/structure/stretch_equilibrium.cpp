#include "stretch_equilibrium.hpp"

#include <cmath>
#include <utility>

#include "theca/error.hpp"

namespace theca::structure::detail {
namespace {

constexpr int most_steps = 60;
constexpr double tolerance = 1e-8;

/// Where a polynomial of fourth degree, which falls at zero and rises in the end, has its first minimum.
/// Its derivative is d0 + d1 s + d2 s^2 + d3 s^3.
double first_minimum(double d0, double d1, double d2, double d3) {
  const auto derivative = [&](double s) { return d0 + s * (d1 + s * (d2 + s * d3)); };
  double low = 0.0, high = 1.0;
  while (derivative(high) < 0.0 && high < 1e9) {
    low = high;
    high *= 2.0;
  }
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (derivative(middle) < 0.0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

}  // namespace

StretchEquilibrium minimise(const StretchEnergy& energy, double load_factor, Eigen::VectorXd start) {
  StretchEquilibrium s;
  s.c = std::move(start);
  const auto update = [&] {
    s.slope = energy.slopes(s.c);
    s.strain = energy.strain(s.slope, s.slope);
  };
  update();
  Eigen::LLT<Eigen::MatrixXd> factor;
  bool fresh_needed = true;
  double before = 0.0;
  for (s.steps = 1; s.steps <= most_steps; ++s.steps) {
    const Eigen::VectorXd out = energy.imbalance(s.c, s.slope, s.strain);
    if (fresh_needed) {
      Eigen::MatrixXd t = energy.tangent(s.slope, s.strain);
      factor.compute(t);
      // Compression can make the tangent indefinite on the way; stiffened by bending, it still points downhill.
      for (double extra = 1.0; factor.info() != Eigen::Success && extra < 1e12; extra *= 4.0) {
        t.triangularView<Eigen::Lower>() += extra * energy.stiffness();
        factor.compute(t);
      }
    }
    const Eigen::VectorXd step = factor.solve(out);
    const double gain = step.dot(out);
    const double work = std::abs(load_factor * energy.load().dot(s.c));
    if (!std::isfinite(gain)) throw NotConverged("large deflection of a panel", gain, s.steps);
    const Slopes slope = energy.slopes(step);
    const Strain first = energy.strain(s.slope, slope);
    const Strain second = energy.strain(slope, slope);
    const Eigen::VectorXd kd = energy.stiffness().selfadjointView<Eigen::Lower>() * step;
    // Strains along the step are e + 2 s first + s^2 second.
    const double length = first_minimum(
        -gain, step.dot(kd) + 12.0 * (4.0 * energy.product(first, first) + 2.0 * energy.product(s.strain, second)),
        12.0 * 6.0 * energy.product(first, second), 12.0 * 2.0 * energy.product(second, second));
    s.c += length * step;
    update();
    s.residual = work > 0.0 ? std::sqrt(std::abs(gain) / work) : 1.0;
    if (s.residual < tolerance) return s;
    fresh_needed = fresh_needed ? s.residual > 0.1 : s.residual > 0.2 * before;
    before = s.residual;
  }
  throw NotConverged("large deflection of a panel (von Karman)", s.residual, most_steps);
}

}  // namespace theca::structure::detail
