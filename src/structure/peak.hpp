// The largest value of a function over a rectangle, from its values on a grid and a climb from the best of them;
// internal.
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <limits>
#include <utility>

namespace theca::structure::detail {

struct Peak {
  double value, x, y;
};

struct Rectangle {
  double x0 = -1.0, x1 = 1.0, y0 = -1.0, y1 = 1.0;
};

/// Climbs by a compass search that halves its steps, so many times, when none of the four leads upwards. It asks for no
/// derivatives: the largest principal stress has ridges and cusps.
template <class F>
Peak climb(const F& f, Peak peak, double step_x, double step_y, int most_halvings, const Rectangle& within = {}) {
  for (int halvings = 0, climbs = 0; halvings < most_halvings && climbs < 400; ++climbs) {
    bool climbed = false;
    for (const auto& [dx, dy] : {std::pair{step_x, 0.0}, {-step_x, 0.0}, {0.0, step_y}, {0.0, -step_y}}) {
      const double x = std::clamp(peak.x + dx, within.x0, within.x1);
      const double y = std::clamp(peak.y + dy, within.y0, within.y1);
      if (x == peak.x && y == peak.y) continue;
      const double value = f(x, y);
      if (value > peak.value) {
        peak = {value, x, y};
        climbed = true;
      }
    }
    if (climbed) continue;
    step_x *= 0.5;
    step_y *= 0.5;
    ++halvings;
  }
  return peak;
}

/// The best of what `ascend(peak, step_x, step_y)` makes of every grid point that tops its neighbours and comes within
/// a tenth of the highest; the steps are half a mesh. The grid's values may cover the first of the points x and y only.
template <class Ascend>
Peak highest_from_grid(const Eigen::MatrixXd& on_grid, const Eigen::VectorXd& x, const Eigen::VectorXd& y,
                       const Ascend& ascend) {
  using Eigen::Index;
  const Index rows = on_grid.rows(), columns = on_grid.cols();
  const double highest = on_grid.maxCoeff();
  if (highest == 0.0) return {0.0, x[0], y[0]};
  Peak best{std::numeric_limits<double>::lowest(), x[0], y[0]};
  for (Index j = 0; j < columns; ++j)
    for (Index i = 0; i < rows; ++i) {
      const double here = on_grid(i, j);
      if (here < 0.9 * highest) continue;
      const Index i0 = std::max<Index>(i - 1, 0), i1 = std::min(i + 1, rows - 1);
      const Index j0 = std::max<Index>(j - 1, 0), j1 = std::min(j + 1, columns - 1);
      if (on_grid.block(i0, j0, i1 - i0 + 1, j1 - j0 + 1).maxCoeff() > here) continue;
      const Peak peak = ascend(Peak{here, x[i], y[j]}, 0.5 * (x[i1] - x[i0]), 0.5 * (y[j1] - y[j0]));
      if (peak.value > best.value) best = peak;
    }
  return best;
}

}  // namespace theca::structure::detail
