#include "flat_ray.hpp"

namespace theca::light {
namespace {
constexpr double within_share = 1e-7;
constexpr double nodes_per_span = 64.0;  // of height and reduced depth together, over which paths change

std::array<double, 4> listed(const FlatRay& ray) { return {ray.angle, ray.cos_air, ray.sine_per_m, ray.gain}; }
}  // namespace

FlatRay flat_ray(const WaterOptics& water, double height_m, double depth_m, double distance_m) {
  const auto ray = kernel::refracted_ray(distance_m, height_m, depth_m, water.index);
  const double cos_air = 1.0 / std::sqrt(1.0 + ray.tan_air * ray.tan_air);
  const double sine_per_m =
      distance_m > 0.0 ? ray.tan_air * cos_air / distance_m : 1.0 / (height_m + depth_m / water.index);
  return {std::atan(ray.tan_air), cos_air, sine_per_m, ray_irradiance(1.0, ray, height_m, depth_m, water)};
}

FlatRayTable::FlatRayTable(const WaterOptics& water, double height_m, double depth_m, double per_m,
                           std::size_t intervals)
    : per_m_(per_m) {
  std::vector<std::array<double, 4>> nodes;  // of -1, 0, 1, ... intervals
  for (std::size_t i = 0; i < intervals + 2; ++i)
    nodes.push_back(listed(flat_ray(water, height_m, depth_m, static_cast<double>(i) / per_m_)));
  nodes.insert(nodes.begin(), nodes[1]);  // all but the angle are even in the distance
  nodes.front()[0] = -nodes.front()[0];
  for (std::size_t i = 1; i <= intervals; ++i) {
    cubics_.emplace_back();
    for (std::size_t f = 0; f < 4; ++f) {
      const double before = nodes[i - 1][f], here = nodes[i][f], next = nodes[i + 1][f], after = nodes[i + 2][f];
      cubics_.back()[f] = {here, next - before / 3.0 - here / 2.0 - after / 6.0, (before + next) / 2.0 - here,
                           (after - before) / 6.0 + (here - next) / 2.0};
    }
  }
}

std::optional<FlatRayTable> FlatRayTable::make(const WaterOptics& water, double height_m, double depth_m,
                                               double farthest_m, std::size_t most_nodes) {
  // The nodes of one height and depth stand at the same places, however far the table goes.
  const double span = height_m + depth_m / water.index;
  for (double per_m = nodes_per_span / span;; per_m *= 2.0) {
    const double intervals = std::ceil(farthest_m * per_m) + 1.0;
    if (!(intervals <= static_cast<double>(most_nodes))) return std::nullopt;
    const auto n = static_cast<std::size_t>(intervals);
    FlatRayTable table(water, height_m, depth_m, per_m, n);
    // Looked at where cubics are worst, half way; every fourth interval, as the paths change evenly.
    bool good = true;
    for (std::size_t i = 0; i < n && good; i += 4) {
      const double distance = (static_cast<double>(i) + 0.5) / table.per_m_;
      const auto exact = listed(flat_ray(water, height_m, depth_m, distance)), found = listed(table.at(distance));
      for (std::size_t f = 0; f < 4; ++f) good = good && std::abs(found[f] - exact[f]) <= within_share * exact[f];
    }
    if (good) return table;
  }
}

}  // namespace theca::light
