#include "theca/hydraulics/pump_speed.hpp"

#include <algorithm>
#include <cmath>

#include "../root.hpp"
#include "pump_curve.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
PumpCurve scaled(const PumpCurve& curve, double flow_factor, double head_factor) {
  PumpCurve result = curve;
  for (CurvePoint& p : result.points) p = {flow_factor * p.flow, head_factor * p.head};
  return result;
}

void require_ratio(double ratio) {
  require::finite("speed ratio", ratio);
  require::valid("affinity laws", "speed ratio", ratio, lowest_speed_ratio, highest_speed_ratio);
}
}  // namespace

PumpCurve at_speed(const PumpCurve& curve, double speed_ratio) {
  validate(curve);
  require_ratio(speed_ratio);
  return scaled(curve, speed_ratio, speed_ratio * speed_ratio);
}

double efficiency_at_speed(double efficiency, double speed_ratio) {
  require_ratio(speed_ratio);
  require::within("efficiency", efficiency, 0.0, 1.0);
  const double loss_factor = std::pow(speed_ratio, -0.1);
  require::that((1.0 - efficiency) * loss_factor <= 1.0, "efficiency", efficiency,
                "at least " + text(1.0 - 1.0 / loss_factor, "") + " at this speed");
  return 1.0 - (1.0 - efficiency) * loss_factor;
}

double speed_ratio_for(const PumpCurve& curve, const VolumeFlow& flow, const Length& head) {
  validate(curve);
  require::not_negative("flow", flow);
  require::positive("head", head);
  // At a slower speed the same flow stands further right on the curve: only these ratios keep it inside.
  const double first = si(curve.points.front().flow), last = si(curve.points.back().flow);
  const double low = std::max(lowest_speed_ratio, si(flow) / last);
  const double high = first > 0.0 ? std::min(highest_speed_ratio, si(flow) / first) : highest_speed_ratio;
  const auto refuse = [&](const std::string& why) {
    throw OutOfValidity("pump speed",
                        "no speed of 0.5 to 1.2 times the curve's gives " + text(head) + " at " + text(flow) + why);
  };
  if (!(low <= high)) refuse(" inside the curve");
  // Head at a flow rises with speed, since the curve falls: one root.
  const auto excess = [&](double r) { return r * r * detail::evaluate(curve, si(flow) / r).head_m - si(head); };
  const double at_low = excess(low), at_high = excess(high);
  const double rounding = 1e-13 * si(head);
  if (at_low > rounding) refuse(": the slowest gives " + text(from_si<Length>(si(head) + at_low)));
  if (at_high < -rounding) refuse(": the fastest gives " + text(from_si<Length>(si(head) + at_high)));
  if (at_low >= 0.0) return low;
  if (at_high <= 0.0) return high;
  return theca::detail::root_between("speed of a pump", excess, low, high, at_low, at_high).at();
}

PumpCurve worn(const PumpCurve& curve, double flow_factor, double head_factor) {
  validate(curve);
  require::positive("flow factor", flow_factor);
  require::within("flow factor", flow_factor, 0.0, 1.0);
  require::positive("head factor", head_factor);
  require::within("head factor", head_factor, 0.0, 1.0);
  return scaled(curve, flow_factor, head_factor);
}

}  // namespace theca::hydraulics
