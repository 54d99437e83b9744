// Levy's series for a plate hinged on both sides, with any bottom and top edge, under water to any depth or a patch
// anywhere: the independent method that the plate solver is checked against. Exact but for the number of terms; no
// polynomial in it.
#pragma once

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
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
  struct Patch {
    double x, y, width, height, force;  ///< centre and sides
  };
  std::optional<Patch> patch{};  ///< instead of the water

  struct State {
    double deflection, moment_x, moment_y, moment_xy;
    double shear_bottom;  ///< effective shear on a line y = const, as the force of the part below it on what holds it
    double shear_left;    ///< the same for x = const
  };

  State at(double x, double y) const {
    State s{0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    for (int m = 1; m <= terms; m += patch ? 1 : 2) {
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

  /// A strip across the plate between two heights, on which the pressure changes linearly.
  struct Zone {
    double y0, y1, pressure0, pressure1;
  };
  std::vector<Zone> zones() const {
    std::vector<Zone> all;
    const auto add = [&all](const Zone& z) {
      if (z.y1 > z.y0) all.push_back(z);
    };
    if (patch) {
      const double low = patch->y - 0.5 * patch->height, high = patch->y + 0.5 * patch->height;
      const double pressure = patch->force / (patch->width * patch->height);
      add({0.0, low, 0.0, 0.0});
      add({low, high, pressure, pressure});
      add({high, height, 0.0, 0.0});
    } else {
      const double line = std::min(depth, height);
      add({0.0, line, pressure_at_bottom, pressure_at_bottom * (1.0 - line / depth)});
      add({line, height, 0.0, 0.0});
    }
    return all;
  }
  /// Fourier coefficient of a unit pressure along x.
  double share(int m) const {
    const double whole = 4.0 / (m * pi);
    if (!patch) return m % 2 == 1 ? whole : 0.0;
    return whole * std::sin(m * pi * patch->x / width) * std::sin(0.5 * m * pi * patch->width / width);
  }

  /// Deflection of mode m and its derivatives at y.
  std::array<double, 4> mode(int m, double y) const {
    const double alpha = m * pi / width;
    const double unit = share(m) / (rigidity * std::pow(alpha, 4));
    const std::vector<Zone> all = zones();
    const auto particular = [&](const Zone& z, double at) -> std::array<double, 4> {
      const double slope = (z.pressure1 - z.pressure0) / (z.y1 - z.y0);
      return {unit * (z.pressure0 + slope * (at - z.y0)), unit * slope / alpha, 0.0, 0.0};
    };
    const auto n = static_cast<int>(4 * all.size());
    Eigen::MatrixXd a = Eigen::MatrixXd::Zero(n, n);
    Eigen::VectorXd b = Eigen::VectorXd::Zero(n);
    const Zone &first = all.front(), &last = all.back();
    end_rows(a, b, 0, 0, homogeneous(alpha, first.y0, first.y1, 0.0), particular(first, 0.0), bottom, alpha, -1.0);
    for (std::size_t z = 0; z + 1 < all.size(); ++z) {
      const Zone &under = all[z], &over = all[z + 1];
      const auto below = homogeneous(alpha, under.y0, under.y1, under.y1);
      const auto above = homogeneous(alpha, over.y0, over.y1, over.y0);
      const auto below_load = particular(under, under.y1), above_load = particular(over, over.y0);
      const auto column = static_cast<int>(4 * z);
      for (int k = 0; k < 4; ++k) {
        const auto i = static_cast<std::size_t>(k);
        for (int j = 0; j < 4; ++j) {
          a(2 + column + k, column + j) = below[static_cast<std::size_t>(j)][i];
          a(2 + column + k, column + 4 + j) = -above[static_cast<std::size_t>(j)][i];
        }
        b(2 + column + k) = above_load[i] - below_load[i];
      }
    }
    end_rows(a, b, n - 2, n - 4, homogeneous(alpha, last.y0, last.y1, height), particular(last, height), top, alpha,
             1.0);
    const Eigen::VectorXd c = a.fullPivLu().solve(b);
    std::size_t here = 0;
    while (here + 1 < all.size() && y > all[here].y1) ++here;
    const auto f = homogeneous(alpha, all[here].y0, all[here].y1, y);
    std::array<double, 4> d = particular(all[here], y);
    double scale = 1.0;
    for (std::size_t k = 0; k < 4; ++k) {
      for (std::size_t j = 0; j < 4; ++j) d[k] += c(static_cast<Eigen::Index>(4 * here + j)) * f[j][k];
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
