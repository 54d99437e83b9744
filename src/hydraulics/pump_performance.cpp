#include "theca/hydraulics/pump_performance.hpp"

#include <algorithm>
#include <string>

#include "monotone_cubic.hpp"
#include "rising_flows.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
void validate(const std::vector<EfficiencyPoint>& p) {
  detail::require_rising_flows(p, "efficiency");
  for (std::size_t i = 0; i < p.size(); ++i)
    require::within("efficiency of point " + std::to_string(i + 1), p[i].efficiency, 0.0, 1.0);
}
}  // namespace

Power hydraulic_power(const VolumeFlow& flow, const Length& head, const Density& density) {
  require::not_negative("flow", flow);
  require::not_negative("head", head);
  require::positive("density", density);
  return from_si<Power>(si(density) * units::detail::standard_gravity * si(flow) * si(head));
}

double efficiency(const std::vector<EfficiencyPoint>& points, const VolumeFlow& flow) {
  validate(points);
  require::finite("flow", flow);
  require::valid("efficiency curve", "flow", flow, points.front().flow, points.back().flow);
  const detail::MonotoneCubic curve(
      points.size(), [&points](std::size_t i) { return si(points[i].flow); },
      [&points](std::size_t i) { return points[i].efficiency; });
  return curve(si(flow)).value;
}

Power power_drawn(const PumpCurve& curve, const std::vector<EfficiencyPoint>& points, const VolumeFlow& flow,
                  const Density& density) {
  const double e = efficiency(points, flow);
  if (!(e > 0.0))
    throw OutOfValidity("power from efficiency",
                        "the efficiency at " + text(flow) + " is 0, which leaves the power open; measure it there");
  return from_si<Power>(si(hydraulic_power(flow, head(curve, flow), density)) / e);
}

EfficiencyPoint best_efficiency_point(const std::vector<EfficiencyPoint>& points) {
  validate(points);
  return *std::max_element(points.begin(), points.end(), [](const EfficiencyPoint& a, const EfficiencyPoint& b) {
    return a.efficiency < b.efficiency;
  });
}

Operation operation(const OperatingRegion& region, const VolumeFlow& flow, const VolumeFlow& best_flow) {
  require::not_negative("flow", flow);
  require::positive("best flow", best_flow);
  require::positive("allowable low", region.allowable_low);
  require::finite("allowable high", region.allowable_high);
  require::that(region.preferred_low >= region.allowable_low, "preferred low", region.preferred_low,
                "at least the allowable low");
  require::that(region.preferred_high > region.preferred_low, "preferred high", region.preferred_high,
                "more than the preferred low");
  require::that(region.allowable_high >= region.preferred_high, "allowable high", region.allowable_high,
                "at least the preferred high");
  const double share = si(flow) / si(best_flow);
  if (share >= region.preferred_low && share <= region.preferred_high) return Operation::preferred;
  return share >= region.allowable_low && share <= region.allowable_high ? Operation::allowable : Operation::outside;
}

}  // namespace theca::hydraulics
