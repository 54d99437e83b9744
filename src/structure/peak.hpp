// The largest value of a function over a rectangle: a grid first, then a climb from its best points; internal.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

namespace theca::structure::detail {

struct RefinedPeak {
  double value, x, y;
};

/// Climbs by a compass search that halves its step: the largest principal stress has ridges and cusps, where a method
/// that asks for derivatives fails. The grid crowds towards the edges like the polynomials of these degrees do.
template <class F>
RefinedPeak refined_peak(const F& f, double x0, double x1, double y0, double y1, int degree_x, int degree_y) {
  const int nx = degree_x + 3, ny = degree_y + 3;
  const auto point = [](double low, double high, int i, int n) {
    return low + (high - low) * 0.5 * (1.0 - std::cos(std::numbers::pi * double(i) / double(n - 1)));
  };
  std::vector<double> value(static_cast<std::size_t>(nx * ny));
  const auto on_grid = [&](int i, int j) -> double& { return value[static_cast<std::size_t>(i + nx * j)]; };
  double highest = 0.0;
  for (int j = 0; j < ny; ++j)
    for (int i = 0; i < nx; ++i) {
      on_grid(i, j) = f(point(x0, x1, i, nx), point(y0, y1, j, ny));
      highest = std::max(highest, on_grid(i, j));
    }
  RefinedPeak best{-1.0, x0, y0};
  for (int j = 0; j < ny; ++j)
    for (int i = 0; i < nx; ++i) {
      const double here = on_grid(i, j);
      if (here < 0.9 * highest) continue;
      bool tops = true;
      for (int l = std::max(j - 1, 0); l <= std::min(j + 1, ny - 1); ++l)
        for (int k = std::max(i - 1, 0); k <= std::min(i + 1, nx - 1); ++k) tops = tops && on_grid(k, l) <= here;
      if (!tops) continue;
      double x = point(x0, x1, i, nx), y = point(y0, y1, j, ny), value_here = here;
      double step_x = (x1 - x0) / nx, step_y = (y1 - y0) / ny;
      for (int halvings = 0; halvings < 8;) {
        bool climbed = false;
        for (const auto& [dx, dy] : {std::pair{step_x, 0.0}, {-step_x, 0.0}, {0.0, step_y}, {0.0, -step_y}}) {
          const double tx = std::clamp(x + dx, x0, x1), ty = std::clamp(y + dy, y0, y1);
          if (tx == x && ty == y) continue;
          const double tried = f(tx, ty);
          if (tried > value_here) {
            value_here = tried;
            x = tx;
            y = ty;
            climbed = true;
          }
        }
        if (climbed) continue;
        step_x *= 0.5;
        step_y *= 0.5;
        ++halvings;
      }
      if (value_here > best.value) best = {value_here, x, y};
      if (highest == 0.0) break;
    }
  return best;
}

}  // namespace theca::structure::detail
