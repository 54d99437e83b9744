// Points measured at rising flows, as pump curves of every kind are given.
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "theca/require.hpp"

namespace theca::hydraulics::detail {

/// Two points or more, flows >= 0 and strictly rising.
/// @param kind  of points, "pump curve"
/// @throws InvalidInput  naming the point that breaks the order
template <class Point>
void require_rising_flows(const std::vector<Point>& points, const char* kind) {
  if (points.size() < 2)
    require::that(false, std::string(kind) + " points", static_cast<double>(points.size()), "2 or more");
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool rises = i == 0 || points[i].flow > points[i - 1].flow;
    // A network validates its curves at each solution: no text is put together before it is needed.
    if (rises && si(points[i].flow) >= 0.0 && std::isfinite(si(points[i].flow))) continue;
    const std::string flow = "flow of " + (kind + (" point " + std::to_string(i + 1)));
    require::not_negative(flow, points[i].flow);
    require::that(rises, flow, points[i].flow, "more than the point before, " + text(points[i - 1].flow));
  }
}

}  // namespace theca::hydraulics::detail
