// The bent panel as one polynomial, or as one on each rectangle between its lines; internal to src/structure.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "plate_panel.hpp"

namespace theca::structure::detail {

struct Bending {
  double deflection, moment_x, moment_y, moment_xy;

  /// The largest principal moment, of whichever sign: six times it over the squared thickness is the tension on the
  /// face that it opens.
  double opening_moment() const {
    const double half = 0.5 * (moment_x - moment_y);
    return 0.5 * std::abs(moment_x + moment_y) + std::sqrt(half * half + moment_xy * moment_xy);
  }
};

/// A rectangle of a bent panel, mapped on the square -1..1.
struct Field {
  int degree;
  const double* shape;
  double x, y;  ///< its lower left corner
  double width, height, poisson_ratio;
  double deflection_scale;  ///< p0 (a b)^2 / (16 D)
  double moment_scale;      ///< p0 / 4

  /// w[p][q]: derived p times by xi and q times by eta, up to four times in all
  using Jet = std::array<std::array<double, 5>, 5>;

  Bending from(double w, double w_xx, double w_yy, double w_xy) const {
    const double along_x = height * height * w_xx;
    const double along_y = width * width * w_yy;
    return {deflection_scale * w, -moment_scale * (along_x + poisson_ratio * along_y),
            -moment_scale * (along_y + poisson_ratio * along_x),
            -moment_scale * (1.0 - poisson_ratio) * width * height * w_xy};
  }

  Bending from(const Jet& w) const { return from(w[0][0], w[2][0], w[0][2], w[1][1]); }

  Jet jet(double xi, double eta) const {
    Derivatives dx, dy;
    evaluate(degree, xi, dx);
    evaluate(degree, eta, dy);
    const auto n = static_cast<std::size_t>(degree) + 1;
    Jet w{};
    for (std::size_t j = 0; j < n; ++j) {
      std::array<double, 5> c{};
      for (std::size_t i = 0; i < n; ++i) {
        const double s = shape[j * n + i];
        for (std::size_t p = 0; p < 5; ++p) c[p] += s * dx[p][i];
      }
      for (std::size_t p = 0; p < 5; ++p)
        for (std::size_t q = 0; p + q < 5; ++q) w[p][q] += c[p] * dy[q][j];
    }
    return w;
  }

  double xi(double place) const { return std::clamp(2.0 * (place - x) / width - 1.0, -1.0, 1.0); }
  double eta(double place) const { return std::clamp(2.0 * (place - y) / height - 1.0, -1.0, 1.0); }
  PanelPlace place(double xi, double eta) const {
    return {from_si<Length>(x + 0.5 * (xi + 1.0) * width), from_si<Length>(y + 0.5 * (eta + 1.0) * height)};
  }
};

/// Number of the rectangle, among those between lines, that holds a place.
inline std::size_t between(const std::vector<Length>& lines, const Length& place) {
  const auto above = std::upper_bound(lines.begin() + 1, lines.end() - 1, place);
  return static_cast<std::size_t>(above - lines.begin()) - 1;
}

/// The rectangle number i along x and j along y.
inline Field field_of(const BentPanel& bent, std::size_t i, std::size_t j) {
  const double width = si(bent.lines_x[i + 1] - bent.lines_x[i]), height = si(bent.lines_y[j + 1] - bent.lines_y[j]);
  const double p0 = si(bent.reference_pressure), area = width * height;
  const std::size_t n = static_cast<std::size_t>(bent.degree) + 1;
  return {bent.degree,
          bent.shape.data() + (j * (bent.lines_x.size() - 1) + i) * n * n,
          si(bent.lines_x[i]),
          si(bent.lines_y[j]),
          width,
          height,
          bent.panel.material.poisson_ratio,
          p0 * area * area / (16.0 * si(flexural_rigidity(bent.panel))),
          p0 / 4.0};
}

}  // namespace theca::structure::detail
