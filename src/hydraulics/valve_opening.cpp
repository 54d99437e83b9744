#include "theca/hydraulics/valve_opening.hpp"

#include <cmath>
#include <cstddef>
#include <span>

#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
struct Point {
  double opening, K;
};
constexpr Point gate[] = {{0.25, 24.0}, {0.5, 4.5}, {0.75, 0.9}, {1.0, 0.17}};
// At 60, 40, 20, 10 and 5 degrees from open.
constexpr Point plug_cock[] = {
    {30.0 / 90.0, 206.0}, {50.0 / 90.0, 17.3}, {70.0 / 90.0, 1.56}, {80.0 / 90.0, 0.29}, {85.0 / 90.0, 0.05}};

std::span<const Point> table_of(ThrottleValve valve) {
  if (valve == ThrottleValve::gate) return gate;
  return plug_cock;
}
}  // namespace

double valve_opening(ThrottleValve valve, double K) {
  const auto table = table_of(valve);
  require::positive("K", K);
  require::valid("opening of a valve", "K", K, table.back().K, table.front().K);
  std::size_t i = 1;
  while (K < table[i].K) ++i;
  const Point &a = table[i - 1], &b = table[i];
  return std::lerp(a.opening, b.opening, std::log(K / a.K) / std::log(b.K / a.K));
}

double valve_K(ThrottleValve valve, double opening) {
  const auto table = table_of(valve);
  require::finite("opening", opening);
  require::valid("K of a valve", "opening", opening, table.front().opening, table.back().opening);
  std::size_t i = 1;
  while (opening > table[i].opening) ++i;
  const Point &a = table[i - 1], &b = table[i];
  return a.K * std::pow(b.K / a.K, (opening - a.opening) / (b.opening - a.opening));
}

}  // namespace theca::hydraulics
