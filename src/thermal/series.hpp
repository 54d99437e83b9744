// Steady heat through surfaces in series: every surface temperature by Newton's method.
#pragma once

#include <algorithm>
#include <cmath>
#include <functional>
#include <string_view>
#include <vector>

#include "theca/error.hpp"

namespace theca::thermal::detail {

/// Heat flux in W/m2 from the temperature before a link to the one behind it, in K: rising with the first, falling with
/// the second.
using Link = std::function<double(double, double)>;

struct SeriesHeat {
  std::vector<double> surfaces;  ///< between the links, K
  double flux = 0.0;             ///< through the last link, W/m2
  double residual = 0.0;         ///< largest difference of flux in and flux out at a surface, W/m2
  int iterations = 0;
};

/// Surfaces between `links`, the first of which starts at `first_K`, the last of which ends at `last_K`. What the last
/// link ends in may have further temperatures (air, room surfaces) that the link knows itself.
///
/// The fluxes into a surface fall with its temperature and rise with its neighbours', so that there is one solution,
/// and no surface lies outside [low_K, high_K], the span of all temperatures that act from outside: Newton's steps are
/// kept within and halved while they do not bring the imbalance down.
/// @throws NotConverged
inline SeriesHeat solve_series(std::string_view what, const std::vector<Link>& links, double first_K, double last_K,
                               double low_K, double high_K) {
  const std::size_t n = links.size() - 1;
  constexpr int limit = 60;
  constexpr double probe = 1e-4, exact = 1e-10;  // K
  SeriesHeat heat;
  std::vector<double>& t = heat.surfaces;
  for (std::size_t i = 0; i < n; ++i) t.push_back(first_K + (last_K - first_K) * double(i + 1) / double(n + 1));

  const auto before = [&](const std::vector<double>& x, std::size_t link) { return link == 0 ? first_K : x[link - 1]; };
  const auto behind = [&](const std::vector<double>& x, std::size_t link) { return link == n ? last_K : x[link]; };
  const auto fluxes = [&](const std::vector<double>& x) {
    std::vector<double> q(n + 1);
    for (std::size_t i = 0; i <= n; ++i) q[i] = links[i](before(x, i), behind(x, i));
    return q;
  };
  const auto imbalance = [n](const std::vector<double>& q) {
    double worst = 0.0;
    for (std::size_t i = 0; i < n; ++i) worst = std::max(worst, std::abs(q[i] - q[i + 1]));
    return worst;
  };

  std::vector<double> q = fluxes(t);
  heat.residual = imbalance(q);
  double step = high_K - low_K;
  while (step > exact && heat.residual > 0.0) {
    if (++heat.iterations > limit) throw NotConverged(what, heat.residual, limit);
    // Tridiagonal system for the steps d: slopes of the fluxes, eliminated downwards, then solved upwards.
    std::vector<double> upper(n), d(n);
    double coupling = 0.0;  // d flux / d surface behind it, of the link above
    for (std::size_t i = 0; i < n; ++i) {
      const double a = before(t, i), b = behind(t, i);
      if (i == 0) coupling = (links[0](a, b + probe) - q[0]) / probe;
      const double next = i + 1 == n ? last_K : t[i + 1];
      const double out_before = (links[i + 1](b + probe, next) - q[i + 1]) / probe;
      const double out_behind = i + 1 == n ? 0.0 : (links[i + 1](b, next + probe) - q[i + 1]) / probe;
      double diagonal = coupling - out_before, right = q[i + 1] - q[i];
      if (i > 0) {
        const double lower = (links[i](a + probe, b) - q[i]) / probe;
        diagonal -= lower * upper[i - 1];
        right -= lower * d[i - 1];
      }
      upper[i] = -out_behind / diagonal;
      d[i] = right / diagonal;
      coupling = out_behind;
    }
    for (std::size_t i = n - 1; i-- > 0;) d[i] -= upper[i] * d[i + 1];

    double newton = 0.0;
    for (const double x : d) newton = std::max(newton, std::abs(x));
    double damping = 1.0;
    for (int halved = 0;; ++halved, damping *= 0.5) {
      std::vector<double> trial(n);
      for (std::size_t i = 0; i < n; ++i) trial[i] = std::clamp(t[i] + damping * d[i], low_K, high_K);
      std::vector<double> trial_fluxes = fluxes(trial);
      const double left = imbalance(trial_fluxes);
      if (left >= heat.residual && halved < 8 && damping * newton > exact) continue;
      step = 0.0;
      for (std::size_t i = 0; i < n; ++i) step = std::max(step, std::abs(trial[i] - t[i]));
      t = std::move(trial);
      q = std::move(trial_fluxes);
      heat.residual = left;
      break;
    }
  }
  heat.flux = q.back();
  return heat;
}

}  // namespace theca::thermal::detail
