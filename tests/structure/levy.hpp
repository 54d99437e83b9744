// Levy's series for a plate hinged on both sides, with any bottom and top edge and water to any depth: the independent
// method that the plate solver is checked against. Exact but for the number of terms; no polynomial in it.
#pragma once

#include <Eigen/Dense>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

namespace theca::test {

/// M. Levy 1899; Timoshenko & Woinowsky-Krieger 1959, article 29. All in SI; y up from the bottom edge.
class Levy {
 public:
  struct End {
    double translation;  ///< N/m2, may be infinite
    double rotation;     ///< N/rad, may be infinite
  };
  double width, height, rigidity, poisson_ratio, pressure_at_bottom;
  double depth;  ///< infinite for a uniform pressure
  End bottom, top;
  int terms = 399;

  struct State {
    double deflection, moment_x, moment_y, moment_xy;
    double shear_bottom;  ///< effective shear on a line y = const, as the force of the part below it on what holds it
    double shear_left;    ///< the same for x = const
  };

  State at(double x, double y) const {
    State s{0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    for (int m = 1; m <= terms; m += 2) {
      const double alpha = m * pi / width;
      const auto d = mode(m, y);
      const double sine = std::sin(alpha * x);
      const double cosine = std::cos(alpha * x);
      const double a2 = alpha * alpha;
      const double nu = poisson_ratio;
      s.deflection += d[0] * sine;
      s.moment_x += -rigidity * (-a2 * d[0] + nu * d[2]) * sine;
      s.moment_y += -rigidity * (d[2] - nu * a2 * d[0]) * sine;
      s.moment_xy += -rigidity * (1.0 - nu) * alpha * d[1] * cosine;
      s.shear_bottom += -rigidity * (d[3] - (2.0 - nu) * a2 * d[1]) * sine;
      s.shear_left += -rigidity * (-a2 * alpha * d[0] + (2.0 - nu) * alpha * d[2]) * cosine;
    }
    return s;
  }

 private:
  static constexpr double pi = 3.14159265358979323846;

  /// Derivatives 0..3 over alpha^k of the four solutions of the homogeneous equation in a zone from y0 to y1.
  static std::array<std::array<double, 4>, 4> homogeneous(double alpha, double y0, double y1, double y) {
    std::array<std::array<double, 4>, 4> f;
    const double up = alpha * (y - y0);
    const double down = alpha * (y1 - y);
    for (int k = 0; k < 4; ++k) {
      const double sign = k % 2 == 0 ? 1.0 : -1.0;
      const auto i = static_cast<std::size_t>(k);
      f[0][i] = sign * std::exp(-up);
      f[1][i] = sign * (up - k) * std::exp(-up);
      f[2][i] = std::exp(-down);
      f[3][i] = (down - k) * std::exp(-down);
    }
    return f;
  }

  /// Deflection of mode m and its derivatives at y.
  std::array<double, 4> mode(int m, double y) const {
    const double alpha = m * pi / width;
    const bool split = depth < height;
    const double line = split ? depth : height;
    const double peak = 4.0 * pressure_at_bottom / (m * pi * rigidity * std::pow(alpha, 4));
    const std::array<double, 4> particular_bottom = {peak, -peak / (depth * alpha), 0.0, 0.0};
    const double left = 1.0 - line / depth;  // pressure left at the end of the first zone, of the one at the bottom
    const std::array<double, 4> particular_line = {peak * left, -peak / (depth * alpha), 0.0, 0.0};
    const int n = split ? 8 : 4;
    Eigen::MatrixXd a = Eigen::MatrixXd::Zero(n, n);
    Eigen::VectorXd b = Eigen::VectorXd::Zero(n);
    end_rows(a, b, 0, 0, homogeneous(alpha, 0.0, line, 0.0), particular_bottom, bottom, alpha, -1.0);
    if (split) {
      const auto below = homogeneous(alpha, 0.0, line, line);
      const auto above = homogeneous(alpha, line, height, line);
      for (int k = 0; k < 4; ++k) {
        const auto i = static_cast<std::size_t>(k);
        for (int j = 0; j < 4; ++j) {
          a(2 + k, j) = below[static_cast<std::size_t>(j)][i];
          a(2 + k, 4 + j) = -above[static_cast<std::size_t>(j)][i];
        }
        b(2 + k) = -particular_line[i];
      }
      end_rows(a, b, 6, 4, homogeneous(alpha, line, height, height), {0.0, 0.0, 0.0, 0.0}, top, alpha, 1.0);
    } else {
      end_rows(a, b, 2, 0, homogeneous(alpha, 0.0, line, line), particular_line, top, alpha, 1.0);
    }
    const Eigen::VectorXd c = a.fullPivLu().solve(b);
    const bool wet = !split || y <= line;
    const auto f = wet ? homogeneous(alpha, 0.0, line, y) : homogeneous(alpha, line, height, y);
    std::array<double, 4> d = {0.0, 0.0, 0.0, 0.0};
    if (wet) d = {peak * (1.0 - y / depth), -peak / (depth * alpha), 0.0, 0.0};
    double scale = 1.0;
    for (std::size_t k = 0; k < 4; ++k) {
      for (std::size_t j = 0; j < 4; ++j) d[k] += c(static_cast<Eigen::Index>(j) + (wet ? 0 : 4)) * f[j][k];
      d[k] *= scale;
      scale *= alpha;
    }
    return d;
  }

  /// Two conditions at an end, over powers of alpha; `outward` is -1 at the bottom, 1 at the top.
  void end_rows(Eigen::MatrixXd& a, Eigen::VectorXd& b, int row, int column,
                const std::array<std::array<double, 4>, 4>& f, const std::array<double, 4>& particular, const End& end,
                double alpha, double outward) const {
    const double nu = poisson_ratio;
    // Held value: w = 0; spring: D (w''' - (2 - nu) alpha^2 w') = +- k w. Held slope: w' = 0; spring: D (w'' - nu
    // alpha^2 w) = -+ c w'.
    const auto force = [&](const std::array<double, 4>& d) {
      if (std::isinf(end.translation)) return d[0];
      return d[3] - (2.0 - nu) * d[1] - outward * end.translation / (rigidity * std::pow(alpha, 3)) * d[0];
    };
    const auto moment = [&](const std::array<double, 4>& d) {
      if (std::isinf(end.rotation)) return d[1];
      return d[2] - nu * d[0] + outward * end.rotation / (rigidity * alpha) * d[1];
    };
    for (int j = 0; j < 4; ++j) {
      a(row, column + j) = force(f[static_cast<std::size_t>(j)]);
      a(row + 1, column + j) = moment(f[static_cast<std::size_t>(j)]);
    }
    b(row) = -force(particular);
    b(row + 1) = -moment(particular);
  }
};

}  // namespace theca::test
