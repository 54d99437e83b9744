// A clear pane as light in the water meets it: what comes back from its two faces, and how far it travels in between.
#pragma once

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "theca/light/fresnel.hpp"

namespace theca::light {

struct PaneOptics {
  double thickness_m, index, attenuation_per_m;
};

/// By multiplication, for the small whole numbers of walls met.
inline double whole_power(double x, int n) {
  double product = 1.0;
  for (; n > 0; --n) product *= x;
  return product;
}

/// What a ray finds at a pane: each meeting turns a share R at the inner face; the rest goes through the pane and back,
/// a share G of it each time, until it gets out of the inner face again.
struct PaneMeeting {
  double inner;  ///< R
  double outer;  ///< G: reflected by the outer face and not absorbed on the way there and back

  /// Share that comes back after `meetings` meetings with `passes` passes out and back through the pane in all: the
  /// coefficient of x^passes in (R + (1-R)^2 G x / (1 - R G x))^meetings.
  double share(int meetings, int passes) const {
    if (passes == 0) return whole_power(inner, meetings);
    const double entered = (1.0 - inner) * (1.0 - inner);
    double sum = 0.0, ways = 1.0, orders = 1.0;  // binomials (meetings over j), (passes - 1 over j - 1)
    for (int j = 1; j <= meetings && j <= passes; ++j) {
      ways *= static_cast<double>(meetings - j + 1) / j;
      if (j > 1) orders *= static_cast<double>(passes - j + 1) / (j - 1);
      sum += ways * orders * whole_power(entered, j) * whole_power(inner, meetings - j + passes - j);
    }
    return sum * whole_power(outer, passes);
  }

  struct Rest {
    double share, mean_passes;
  };
  /// All that comes back after more than `most` passes.
  Rest rest(int meetings, int most) const {
    const double through = (1.0 - inner) * (1.0 - inner) * outer, ends = 1.0 / (1.0 - inner * outer);
    const double each = inner + through * ends;
    double left = whole_power(each, meetings);
    double passes = meetings * whole_power(each, meetings - 1) * through * ends * ends;
    for (int m = 0; m <= most; ++m) {
      const double with_m = share(meetings, m);
      left -= with_m;
      passes -= m * with_m;
    }
    constexpr double rounding = 1e-12;
    return left > rounding ? Rest{left, passes / left} : Rest{0.0, most + 1.0};
  }
};

/// A pane with water before it and air behind. `normal` is the water's index times the cosine of incidence: by Snell's
/// law what lies along the pane keeps that product in every medium.
class PaneWall {
 public:
  PaneWall(const PaneOptics& pane, double water_index) : pane_(pane), water_index_(water_index) {}

  /// Index of the pane times the cosine inside it, squared.
  double in_pane2(double normal) const { return step2() + normal * normal; }
  /// What that would be for a ray along the pane.
  double step2() const { return pane_.index * pane_.index - water_index_ * water_index_; }
  /// Out and back.
  double there_and_back_m() const { return 2.0 * pane_.thickness_m; }

  /// @param normal  0 to 1: what came in through the surface is not steeper to a wall
  PaneMeeting at(double normal) const {
    if (nodes_.empty()) return solved(normal);
    const double place = normal * static_cast<double>(nodes_.size() - 1);
    std::size_t i = static_cast<std::size_t>(place);
    if (i > nodes_.size() - 2) i = nodes_.size() - 2;
    const double u = place - static_cast<double>(i);
    const PaneMeeting &a = nodes_[i], &b = nodes_[i + 1];
    return {a.inner + u * (b.inner - a.inner), a.outer + u * (b.outer - a.outer)};
  }

  /// For many meetings.
  void tabulate() {
    constexpr std::size_t nodes = 2049;
    std::vector<PaneMeeting> all;
    for (std::size_t i = 0; i < nodes; ++i)
      all.push_back(solved(static_cast<double>(i) / static_cast<double>(nodes - 1)));
    nodes_ = std::move(all);
  }

 private:
  PaneMeeting solved(double normal) const {
    constexpr double grazing = 1e-9;  // where R is 1
    if (!(normal > grazing)) normal = grazing;
    const double in_pane = std::sqrt(in_pane2(normal));
    return {kernel::reflectance(normal / water_index_, pane_.index / water_index_).unpolarised,
            kernel::reflectance(in_pane / pane_.index, 1.0 / pane_.index).unpolarised *
                std::exp(-there_and_back_m() * pane_.attenuation_per_m * pane_.index / in_pane)};
  }

  PaneOptics pane_;
  double water_index_;
  std::vector<PaneMeeting> nodes_;  // at equal steps of the normal from 0 to 1
};

}  // namespace theca::light
