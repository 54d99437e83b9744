// Points measured at rising flows, as pump curves of every kind are given.
#pragma once

#include <string>
#include <vector>

#include "theca/require.hpp"

namespace theca::hydraulics::detail {

/// Two points or more, flows >= 0 and strictly rising.
/// @param kind  of the points, "pump curve"
/// @throws InvalidInput  naming the point that breaks the order
template <class Point>
void require_rising_flows(const std::vector<Point>& points, const std::string& kind) {
  require::that(points.size() >= 2, kind + " points", static_cast<double>(points.size()), "2 or more");
  for (std::size_t i = 0; i < points.size(); ++i) {
    const std::string flow = "flow of " + kind + " point " + std::to_string(i + 1);
    require::not_negative(flow, points[i].flow);
    if (i > 0)
      require::that(points[i].flow > points[i - 1].flow, flow, points[i].flow,
                    "more than the point before, " + text(points[i - 1].flow));
  }
}

}  // namespace theca::hydraulics::detail
