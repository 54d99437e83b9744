// The largest value of a function over a rectangle, from its values on a grid and a climb from the best of them;
// internal.
#pragma once

#include <Eigen/Dense>
#include <algorithm>
#include <utility>

namespace theca::structure::detail {

struct RefinedPeak {
  double value, x, y;
};

/// Climbs by a compass search that halves its step, from every grid point that tops its neighbours and comes within a
/// tenth of the highest. It asks for no derivatives: the largest principal stress has ridges and cusps.
template <class F>
RefinedPeak refined_peak(const F& f, const Eigen::MatrixXd& on_grid, const Eigen::VectorXd& x,
                         const Eigen::VectorXd& y) {
  using Eigen::Index;
  const Index nx = x.size(), ny = y.size();
  const double highest = on_grid.maxCoeff();
  RefinedPeak best{highest, x[0], y[0]};
  if (highest == 0.0) return best;
  best.value = -1.0;
  for (Index j = 0; j < ny; ++j)
    for (Index i = 0; i < nx; ++i) {
      const double here = on_grid(i, j);
      if (here < 0.9 * highest) continue;
      const Index i0 = std::max<Index>(i - 1, 0), i1 = std::min(i + 1, nx - 1);
      const Index j0 = std::max<Index>(j - 1, 0), j1 = std::min(j + 1, ny - 1);
      if (on_grid.block(i0, j0, i1 - i0 + 1, j1 - j0 + 1).maxCoeff() > here) continue;
      RefinedPeak peak{here, x[i], y[j]};
      double step_x = 0.5 * (x[i1] - x[i0]), step_y = 0.5 * (y[j1] - y[j0]);
      for (int halvings = 0; halvings < 6;) {
        bool climbed = false;
        for (const auto& [dx, dy] : {std::pair{step_x, 0.0}, {-step_x, 0.0}, {0.0, step_y}, {0.0, -step_y}}) {
          const double tx = std::clamp(peak.x + dx, x[0], x[nx - 1]), ty = std::clamp(peak.y + dy, y[0], y[ny - 1]);
          if (tx == peak.x && ty == peak.y) continue;
          const double tried = f(tx, ty);
          if (tried > peak.value) {
            peak = {tried, tx, ty};
            climbed = true;
          }
        }
        if (climbed) continue;
        step_x *= 0.5;
        step_y *= 0.5;
        ++halvings;
      }
      if (peak.value > best.value) best = peak;
    }
  return best;
}

}  // namespace theca::structure::detail
