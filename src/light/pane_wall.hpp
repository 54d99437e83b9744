// A clear pane as light in the water meets it: what comes back from its two faces, and how far it travels in between.
#pragma once

#include <cmath>

#include "theca/light/fresnel.hpp"

namespace theca::light {

struct PaneOptics {
  double thickness_m, index, attenuation_per_m;
};

/// A pane with water before it and air behind, for one ray. `normal` is the water's index times the cosine of
/// incidence: by Snell's law all components along the pane keep that product in every medium.
class PaneMeeting {
 public:
  PaneMeeting(const PaneOptics& pane, double water_index, double normal)
      : in_glass_(std::sqrt(pane.index * pane.index - water_index * water_index + normal * normal)) {
    inner_ = kernel::reflectance(normal / water_index, pane.index / water_index).unpolarised;
    outer_ = kernel::reflectance(in_glass_ / pane.index, 1.0 / pane.index).unpolarised *
             std::exp(-2.0 * pane.attenuation_per_m * pane.thickness_m * pane.index / in_glass_);
  }

  /// Index of the pane times the cosine inside it.
  double in_glass() const { return in_glass_; }

  /// Share that comes back after `meetings` meetings with `passes` passes out and back through the pane in all: the
  /// coefficient of x^passes in (R + (1-R)^2 G x / (1 - R G x))^meetings, R of the inner face, G of the outer one.
  double share(int meetings, int passes) const {
    if (passes == 0) return std::pow(inner_, meetings);
    const double entered = (1.0 - inner_) * (1.0 - inner_);
    double sum = 0.0, ways = 1.0, orders = 1.0;  // binomials (meetings over j), (passes - 1 over j - 1)
    for (int j = 1; j <= meetings && j <= passes; ++j) {
      ways *= static_cast<double>(meetings - j + 1) / j;
      if (j > 1) orders *= static_cast<double>(passes - j + 1) / (j - 1);
      sum += ways * orders * std::pow(entered, j) * std::pow(inner_, meetings - j + passes - j);
    }
    return sum * std::pow(outer_, passes);
  }

  /// Share that comes back after `meetings` meetings with at least `passes` passes.
  double share_from(int meetings, int passes) const {
    const double each = inner_ + (1.0 - inner_) * (1.0 - inner_) * outer_ / (1.0 - inner_ * outer_);
    double rest = std::pow(each, meetings);
    for (int m = 0; m < passes; ++m) rest -= share(meetings, m);
    return rest > 0.0 ? rest : 0.0;  // rounding
  }

 private:
  double in_glass_, inner_ = 0.0, outer_ = 0.0;
};

}  // namespace theca::light
