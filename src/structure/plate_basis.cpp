#include "plate_basis.hpp"

#include <array>
#include <cmath>
#include <numbers>

namespace theca::structure::detail {
namespace {

constexpr int most_functions = max_plate_degree + 1;

/// Legendre polynomials P_0..P_degree.
void legendre(int degree, double x, double* p) {
  p[0] = 1.0;
  if (degree > 0) p[1] = x;
  for (int k = 1; k < degree; ++k) p[k + 1] = ((2 * k + 1) * x * p[k] - k * p[k - 1]) / (k + 1);
}

PlateBasis make_basis(int degree) {
  PlateBasis b;
  b.degree = degree;
  b.size = degree + 1;
  const auto n = b.size;
  b.curvature = b.slope = b.curvature_value = b.value = Eigen::MatrixXd::Zero(n, n);
  const GaussRule rule = gauss_rule(degree + 1);
  Eigen::VectorXd f(n), f1(n), f2(n);
  for (Eigen::Index q = 0; q < rule.point.size(); ++q) {
    evaluate(degree, rule.point[q], f.data(), f1.data(), f2.data());
    const double w = rule.weight[q];
    b.curvature += w * f2 * f2.transpose();
    b.slope += w * f1 * f1.transpose();
    b.curvature_value += w * f2 * f.transpose();
    b.value += w * f * f.transpose();
  }
  const Eigen::Index points = 2 * degree - 3;  // odd, so that the middle is a point
  b.grid.resize(points);
  b.grid_value.resize(points, n);
  b.grid_slope.resize(points, n);
  b.grid_curvature.resize(points, n);
  for (Eigen::Index i = 0; i < points; ++i) {
    b.grid[i] =
        std::sin(std::numbers::pi * static_cast<double>(2 * i - points + 1) / static_cast<double>(2 * (points - 1)));
    evaluate(degree, b.grid[i], f.data(), f1.data(), f2.data());
    b.grid_value.row(i) = f;
    b.grid_slope.row(i) = f1;
    b.grid_curvature.row(i) = f2;
  }
  return b;
}

}  // namespace

const PlateBasis& plate_basis(int degree) {
  static const auto tables = [] {
    std::array<PlateBasis, max_plate_degree - min_plate_degree + 1> t;
    for (int d = min_plate_degree; d <= max_plate_degree; ++d)
      t[static_cast<std::size_t>(d - min_plate_degree)] = make_basis(d);
    return t;
  }();
  return tables[static_cast<std::size_t>(degree - min_plate_degree)];
}

void evaluate(int degree, double x, double* value, double* slope, double* curvature) {
  const double up = 1.0 + x;
  const double down = 1.0 - x;
  value[value_low] = 0.25 * down * down * (2.0 + x);
  value[slope_low] = 0.25 * down * down * up;
  value[value_high] = 0.25 * up * up * (2.0 - x);
  value[slope_high] = -0.25 * up * up * down;
  slope[value_low] = -0.75 * up * down;
  slope[slope_low] = 0.25 * down * (-1.0 - 3.0 * x);
  slope[value_high] = 0.75 * up * down;
  slope[slope_high] = 0.25 * up * (-1.0 + 3.0 * x);
  curvature[value_low] = 1.5 * x;
  curvature[slope_low] = 0.5 * (3.0 * x - 1.0);
  curvature[value_high] = -1.5 * x;
  curvature[slope_high] = 0.5 * (3.0 * x + 1.0);
  double p[most_functions];
  legendre(degree, x, p);
  for (int k = 2; k <= degree - 2; ++k) {
    const double norm = std::sqrt(k + 0.5);
    const double above = (p[k + 2] - p[k]) / (2 * k + 3);
    const double below = (p[k] - p[k - 2]) / (2 * k - 1);
    value[k + 2] = norm * (above - below) / (2 * k + 1);
    slope[k + 2] = norm * (p[k + 1] - p[k - 1]) / (2 * k + 1);
    curvature[k + 2] = norm * p[k];
  }
}

void evaluate(int degree, double x, Derivatives& d) {
  static const auto factor = [] {  // value and slope of b_k as combinations of Legendre polynomials, without divisions
    struct Factor {
      double norm, slope, above, below;
    };
    std::array<Factor, most_functions> f{};
    for (int k = 0; k < most_functions; ++k) {
      const double norm = std::sqrt(k + 0.5);
      f[static_cast<std::size_t>(k)] = {norm, norm / (2 * k + 1), norm / ((2 * k + 1) * (2 * k + 3)),
                                        norm / ((2 * k + 1) * (2 * k - 1))};
    }
    return f;
  }();
  static const auto inverse = [] {
    std::array<double, most_functions + 1> r{};
    for (int k = 1; k <= most_functions; ++k) r[static_cast<std::size_t>(k)] = 1.0 / k;
    return r;
  }();
  evaluate(2, x, d[0].data(), d[1].data(), d[2].data());  // the cubics only
  d[3] = {1.5, 1.5, -1.5, 1.5};
  d[4] = {};
  double p[most_functions] = {1.0, x};
  double p1[most_functions] = {0.0, 1.0};
  double p2[most_functions] = {0.0, 0.0};
  for (int k = 1; k < degree; ++k) {
    p[k + 1] = ((2 * k + 1) * x * p[k] - k * p[k - 1]) * inverse[static_cast<std::size_t>(k + 1)];
    p1[k + 1] = p1[k - 1] + (2 * k + 1) * p[k];
    p2[k + 1] = p2[k - 1] + (2 * k + 1) * p1[k];
  }
  for (int k = 2; k <= degree - 2; ++k) {
    const auto& f = factor[static_cast<std::size_t>(k)];
    const auto i = static_cast<std::size_t>(k) + 2;
    d[0][i] = f.above * (p[k + 2] - p[k]) - f.below * (p[k] - p[k - 2]);
    d[1][i] = f.slope * (p[k + 1] - p[k - 1]);
    d[2][i] = f.norm * p[k];
    d[3][i] = f.norm * p1[k];
    d[4][i] = f.norm * p2[k];
  }
}

void evaluate_fourth_derivative(int degree, double x, double* fourth) {
  for (int i = 0; i < first_bubble; ++i) fourth[i] = 0.0;
  // Second derivatives of the Legendre polynomials: P''_{k+1} = P''_{k-1} + (2k+1) P'_k, and the same for P'.
  double p[most_functions];
  double p1[most_functions] = {0.0, 1.0};
  double p2[most_functions] = {0.0, 0.0};
  legendre(degree, x, p);
  for (int k = 1; k < degree; ++k) {
    p1[k + 1] = p1[k - 1] + (2 * k + 1) * p[k];
    p2[k + 1] = p2[k - 1] + (2 * k + 1) * p1[k];
  }
  for (int k = 2; k <= degree - 2; ++k) fourth[k + 2] = std::sqrt(k + 0.5) * p2[k];
}

GaussRule gauss_rule(int n) {
  GaussRule rule{Eigen::VectorXd(n), Eigen::VectorXd(n)};
  for (int i = 0; i < n; ++i) {
    double x = -std::cos(std::numbers::pi * (i + 0.75) / (n + 0.5));  // close enough for Newton, Tricomi's first term
    double derivative = 0.0;
    for (int step = 0; step < 8; ++step) {
      double before = 1.0;
      double p = x;
      for (int k = 1; k < n; ++k) {
        const double next = ((2 * k + 1) * x * p - k * before) / (k + 1);
        before = p;
        p = next;
      }
      derivative = n * (x * p - before) / (x * x - 1.0);
      x -= p / derivative;
    }
    rule.point[i] = x;
    rule.weight[i] = 2.0 / ((1.0 - x * x) * derivative * derivative);
  }
  return rule;
}

Eigen::VectorXd load_integrals(int degree, double share, double at_low, double at_high) {
  static const auto rules = [] {
    std::array<GaussRule, max_plate_degree + 1> r;
    for (int d = min_plate_degree; d <= max_plate_degree; ++d) r[static_cast<std::size_t>(d)] = gauss_rule(d / 2 + 2);
    return r;
  }();
  const GaussRule& rule = rules[static_cast<std::size_t>(degree)];
  double f[most_functions], unused_slope[most_functions], unused_curvature[most_functions];
  Eigen::VectorXd integral = Eigen::VectorXd::Zero(degree + 1);
  for (Eigen::Index q = 0; q < rule.point.size(); ++q) {
    const double along = 0.5 * (rule.point[q] + 1.0);
    evaluate(degree, 2.0 * share * along - 1.0, f, unused_slope, unused_curvature);
    const double load = at_low + (at_high - at_low) * along;
    integral += rule.weight[q] * share * load * Eigen::Map<Eigen::VectorXd>(f, degree + 1);
  }
  return integral;
}

Eigen::VectorXd mean_values(int degree, double low, double high) {
  const GaussRule rule = gauss_rule(high > low ? degree / 2 + 1 : 1);
  double f[most_functions], unused_slope[most_functions], unused_curvature[most_functions];
  Eigen::VectorXd mean = Eigen::VectorXd::Zero(degree + 1);
  for (Eigen::Index q = 0; q < rule.point.size(); ++q) {
    evaluate(degree, 0.5 * (low + high) + 0.5 * (high - low) * rule.point[q], f, unused_slope, unused_curvature);
    mean += 0.5 * rule.weight[q] * Eigen::Map<Eigen::VectorXd>(f, degree + 1);
  }
  return mean;
}

}  // namespace theca::structure::detail
