#include "theca/hydraulics/pump.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <string>

#include "pump_curve.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
// Slopes of the monotone cubic at the points, in m per m3/s.
double secant(const std::vector<CurvePoint>& p, std::size_t i) {
  return (si(p[i + 1].head) - si(p[i].head)) / (si(p[i + 1].flow) - si(p[i].flow));
}

// Three-point end slope, kept to the sign of the first secant and to three times its size, so that the end interval
// stays monotone.
double end_slope(double h0, double h1, double d0, double d1) {
  const double m = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
  if (m * d0 <= 0.0) return 0.0;
  return std::abs(m) > 3.0 * std::abs(d0) ? 3.0 * d0 : m;
}

double point_slope(const std::vector<CurvePoint>& p, std::size_t i) {
  const std::size_t n = p.size();
  if (n == 2) return secant(p, 0);
  const auto width = [&p](std::size_t k) { return si(p[k + 1].flow) - si(p[k].flow); };
  if (i == 0) return end_slope(width(0), width(1), secant(p, 0), secant(p, 1));
  if (i == n - 1) return end_slope(width(n - 2), width(n - 3), secant(p, n - 2), secant(p, n - 3));
  const double h0 = width(i - 1), h1 = width(i), d0 = secant(p, i - 1), d1 = secant(p, i);
  const double w0 = 2.0 * h1 + h0, w1 = h1 + 2.0 * h0;
  return (w0 + w1) / (w0 / d0 + w1 / d1);  // heads fall strictly, so that both secants are < 0
}

}  // namespace

namespace detail {
CurveValue evaluate(const PumpCurve& curve, double flow) {
  const auto& p = curve.points;
  const bool linear = curve.interpolation == Interpolation::linear;
  const std::size_t n = p.size();
  if (flow < si(p.front().flow)) {
    const double m = linear ? secant(p, 0) : point_slope(p, 0);
    return {si(p.front().head) + m * (flow - si(p.front().flow)), m};
  }
  if (flow > si(p.back().flow)) {
    const double m = linear ? secant(p, n - 2) : point_slope(p, n - 1);
    return {si(p.back().head) + m * (flow - si(p.back().flow)), m};
  }
  const auto above =
      std::upper_bound(p.begin() + 1, p.end() - 1, flow, [](double q, const CurvePoint& c) { return q < si(c.flow); });
  const auto i = static_cast<std::size_t>(above - p.begin()) - 1;
  const double width = si(p[i + 1].flow) - si(p[i].flow);
  const double d = secant(p, i);
  const double s = (flow - si(p[i].flow)) / width;
  if (linear) return {si(p[i].head) + d * (flow - si(p[i].flow)), d};
  const double m0 = point_slope(p, i), m1 = point_slope(p, i + 1);
  const double c2 = 3.0 * d - 2.0 * m0 - m1, c3 = m0 + m1 - 2.0 * d;
  return {si(p[i].head) + width * s * (m0 + s * (c2 + s * c3)), m0 + s * (2.0 * c2 + 3.0 * s * c3)};
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
