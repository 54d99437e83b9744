// The refracted path from a point in air to a place under water, seen as a function of the distance sideways: solved
// for one distance, or tabulated for the many of a map.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "sampler.hpp"

namespace theca::light {

struct FlatRay {
  double angle;       ///< in air, from the vertical, rad
  double cos_air;     ///< of that angle
  double sine_per_m;  ///< its sine over the distance sideways
  double gain;        ///< photon flux density on a horizontal plane over the intensity sent, 1/m2
};

/// @throws NotConverged
FlatRay flat_ray(const WaterOptics& water, double height_m, double depth_m, double distance_m);

/// Cubics through the paths to evenly spaced distances.
class FlatRayTable {
 public:
  /// Nothing where more than `most_nodes` were needed to stay within 1e-7 of each value.
  static std::optional<FlatRayTable> make(const WaterOptics& water, double height_m, double depth_m, double farthest_m,
                                          std::size_t most_nodes);

  /// @param distance_m  0 to the farthest
  FlatRay at(double distance_m) const {
    const double place = distance_m * per_m_;
    std::size_t i = static_cast<std::size_t>(place);
    if (i >= cubics_.size()) i = cubics_.size() - 1;
    const double u = place - static_cast<double>(i);
    const auto& c = cubics_[i];
    const auto value = [&](std::size_t f) { return c[f][0] + u * (c[f][1] + u * (c[f][2] + u * c[f][3])); };
    return {value(0), value(1), value(2), value(3)};
  }

 private:
  FlatRayTable(const WaterOptics& water, double height_m, double depth_m, double per_m, std::size_t intervals);

  double per_m_;
  std::vector<std::array<std::array<double, 4>, 4>> cubics_;  // interval, value of FlatRay, power of the place in it
};

}  // namespace theca::light
