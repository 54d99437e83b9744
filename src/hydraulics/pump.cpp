#include "theca/hydraulics/pump.hpp"

#include <cmath>
#include <string>

#include "../root.hpp"
#include "monotone_cubic.hpp"
#include "pump_curve.hpp"
#include "rising_flows.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace detail {
CurveValue evaluate(const PumpCurve& curve, double flow) {
  const auto& p = curve.points;
  const MonotoneCubic cubic(
      p.size(), [&p](std::size_t i) { return si(p[i].flow); }, [&p](std::size_t i) { return si(p[i].head); });
  const bool linear = curve.interpolation == Interpolation::linear;
  const std::size_t i = cubic.interval(flow);
  const bool before = flow<si(p.front().flow), beyond = flow> si(p.back().flow);
  if (!linear && !before && !beyond) {
    const auto inside = cubic(flow);
    return {inside.value, inside.slope};
  }
  const std::size_t end = beyond ? p.size() - 1 : i;
  const double m = linear ? cubic.secant(i) : cubic.slope(end);
  return {si(p[end].head) + m * (flow - si(p[end].flow)), m};
}
}  // namespace detail

void validate(const PumpCurve& curve) {
  const auto& p = curve.points;
  detail::require_rising_flows(p, "pump curve");
  for (std::size_t i = 0; i < p.size(); ++i) {
    const bool falls = i == 0 || p[i].head < p[i - 1].head;
    if (falls && si(p[i].head) >= 0.0 && std::isfinite(si(p[i].head))) continue;
    const std::string head = "head of pump curve point " + std::to_string(i + 1);
    require::not_negative(head, p[i].head);
    require::that(falls, head, p[i].head, "less than the point before, " + text(p[i - 1].head));
  }
}

Length head(const PumpCurve& curve, const VolumeFlow& flow) {
  validate(curve);
  require::finite("flow", flow);
  require::valid("pump curve", "flow", flow, curve.points.front().flow, curve.points.back().flow);
  return from_si<Length>(detail::evaluate(curve, si(flow)).head_m);
}

VolumeFlow flow_at_head(const PumpCurve& curve, const Length& head) {
  validate(curve);
  require::finite("head", head);
  const auto& p = curve.points;
  require::valid("pump curve", "head", head, p.back().head, p.front().head);
  std::size_t i = 0;  // the interval whose heads enclose it
  while (i + 2 < p.size() && head < p[i + 1].head) ++i;
  const auto excess = [&](double q) { return detail::evaluate(curve, q).head_m - si(head); };
  return from_si<VolumeFlow>(theca::detail::root_between("flow at a head of a pump curve", excess, si(p[i].flow),
                                                         si(p[i + 1].flow), si(p[i].head) - si(head),
                                                         si(p[i + 1].head) - si(head))
                                 .at());
}

}  // namespace theca::hydraulics
