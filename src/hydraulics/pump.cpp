#include "theca/hydraulics/pump.hpp"

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <string>

#include "monotone_cubic.hpp"
#include "pump_curve.hpp"
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
  require::that(p.size() >= 2, "pump curve points", static_cast<double>(p.size()), "2 or more");
  for (std::size_t i = 0; i < p.size(); ++i) {
    const std::string at = " of pump curve point " + std::to_string(i + 1);
    require::not_negative("flow" + at, p[i].flow);
    require::not_negative("head" + at, p[i].head);
    if (i == 0) continue;
    require::that(p[i].flow > p[i - 1].flow, "flow" + at, p[i].flow,
                  "more than the point before, " + text(p[i - 1].flow));
    require::that(p[i].head < p[i - 1].head, "head" + at, p[i].head,
                  "less than the point before, " + text(p[i - 1].head));
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
  if (head == p[i].head) return p[i].flow;
  if (head == p[i + 1].head) return p[i + 1].flow;
  constexpr std::uintmax_t limit = 200;
  std::uintmax_t iterations = limit;
  const auto bracket = boost::math::tools::toms748_solve(
      [&](double q) { return detail::evaluate(curve, q).head_m - si(head); }, si(p[i].flow), si(p[i + 1].flow),
      si(p[i].head) - si(head), si(p[i + 1].head) - si(head), boost::math::tools::eps_tolerance<double>(50),
      iterations);
  if (iterations >= limit)
    throw NotConverged("flow at a head of a pump curve", bracket.second - bracket.first, static_cast<int>(limit));
  return from_si<VolumeFlow>(0.5 * (bracket.first + bracket.second));
}

}  // namespace theca::hydraulics
