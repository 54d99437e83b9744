#include "theca/hydraulics/pump_set.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
constexpr double pi = std::numbers::pi;
// Of each interval between points, closest at its ends, where a curve may be flat: flows of worn twins then come within
// 1e-4 of the largest.
constexpr int parts = 128;

void require_pumps(const std::vector<PumpCurve>& pumps) {
  require::that(!pumps.empty(), "number of pumps", 0.0, "1 or more");
  for (const PumpCurve& p : pumps) validate(p);
}

bool equal(const PumpCurve& a, const PumpCurve& b) {
  return a.interpolation == b.interpolation &&
         std::equal(a.points.begin(), a.points.end(), b.points.begin(), b.points.end(),
                    [](const CurvePoint& p, const CurvePoint& q) { return p.flow == q.flow && p.head == q.head; });
}

bool all_equal(const std::vector<PumpCurve>& pumps) {
  return std::all_of(pumps.begin(), pumps.end(), [&](const PumpCurve& p) { return equal(p, pumps.front()); });
}

// The knots inside an interval with its ends, and points between them, rising.
std::vector<double> refined(std::vector<double> knots, double low, double high) {
  knots.push_back(low);
  knots.push_back(high);
  std::sort(knots.begin(), knots.end());
  std::vector<double> inside;
  const double nearest = 1e-9 * (high - low);  // knots that differ by rounding are one
  for (const double k : knots)
    if (k >= low && k <= high && (inside.empty() || k - inside.back() > nearest)) inside.push_back(k);
  inside.back() = high;
  std::vector<double> fine;
  for (std::size_t i = 0; i + 1 < inside.size(); ++i)
    for (int j = 0; j < parts; ++j)
      fine.push_back(inside[i] + (inside[i + 1] - inside[i]) * (0.5 - 0.5 * std::cos(pi * j / parts)));
  fine.push_back(high);
  return fine;
}

struct HeadRange {
  double low, high;
};

// Heads at which every pump of a parallel set is inside its curve or, from rest on, behind its shut check valve.
HeadRange parallel_range(const std::vector<PumpCurve>& pumps) {
  HeadRange r{0.0, 0.0};
  for (const PumpCurve& p : pumps) {
    r.low = std::max(r.low, si(p.points.back().head));
    r.high = std::max(r.high, si(p.points.front().head));
  }
  for (const PumpCurve& p : pumps)
    if (si(p.points.front().flow) > 0.0) r.high = std::min(r.high, si(p.points.front().head));
  return r;
}

VolumeFlow flow_or_none(const PumpCurve& pump, const Length& head) {
  return head >= pump.points.front().head ? pump.points.front().flow : flow_at_head(pump, head);
}
}  // namespace

std::vector<VolumeFlow> parallel_flows(const std::vector<PumpCurve>& pumps, const Length& head) {
  require_pumps(pumps);
  require::finite("head", head);
  const HeadRange range = parallel_range(pumps);
  require::valid("pumps in parallel", "head", head, from_si<Length>(range.low), from_si<Length>(range.high));
  std::vector<VolumeFlow> flows;
  flows.reserve(pumps.size());
  for (const PumpCurve& p : pumps) flows.push_back(flow_or_none(p, head));
  return flows;
}

PumpCurve parallel(const std::vector<PumpCurve>& pumps) {
  require_pumps(pumps);
  if (all_equal(pumps)) {
    PumpCurve joint = pumps.front();
    for (CurvePoint& p : joint.points) p.flow = static_cast<double>(pumps.size()) * p.flow;
    return joint;
  }
  const HeadRange range = parallel_range(pumps);
  if (!(range.low < range.high))
    throw OutOfValidity("pumps in parallel", "one pump's curve ends at " + text(from_si<Length>(range.low)) +
                                                 ", above the first head of another, " +
                                                 text(from_si<Length>(range.high)));
  std::vector<double> heads;
  for (const PumpCurve& p : pumps)
    for (const CurvePoint& c : p.points) heads.push_back(si(c.head));
  heads = refined(heads, range.low, range.high);
  PumpCurve joint{.points = {}, .interpolation = Interpolation::linear};
  for (auto h = heads.rbegin(); h != heads.rend(); ++h) {
    VolumeFlow sum = from_si<VolumeFlow>(0.0);
    for (const VolumeFlow& q : parallel_flows(pumps, from_si<Length>(*h))) sum += q;
    joint.points.push_back({sum, from_si<Length>(*h)});
  }
  return joint;
}

PumpCurve series(const std::vector<PumpCurve>& pumps) {
  require_pumps(pumps);
  if (all_equal(pumps)) {
    PumpCurve joint = pumps.front();
    for (CurvePoint& p : joint.points) p.head = static_cast<double>(pumps.size()) * p.head;
    return joint;
  }
  VolumeFlow first = pumps.front().points.front().flow, last = pumps.front().points.back().flow;
  std::vector<double> flows;
  for (const PumpCurve& p : pumps) {
    first = std::max(first, p.points.front().flow);
    last = std::min(last, p.points.back().flow);
    for (const CurvePoint& c : p.points) flows.push_back(si(c.flow));
  }
  if (!(first < last))
    throw OutOfValidity("pumps in series",
                        "one pump's curve ends at " + text(last) + ", below the first flow of another, " + text(first));
  PumpCurve joint{.points = {}, .interpolation = Interpolation::linear};
  for (const double q : refined(flows, si(first), si(last))) {
    Length sum = from_si<Length>(0.0);
    for (const PumpCurve& p : pumps) sum += head(p, from_si<VolumeFlow>(q));
    joint.points.push_back({from_si<VolumeFlow>(q), sum});
  }
  return joint;
}

}  // namespace theca::hydraulics
