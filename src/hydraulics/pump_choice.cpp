#include "theca/hydraulics/pump_choice.hpp"

#include <algorithm>
#include <limits>
#include <string>

#include "../root.hpp"
#include "naming.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
void validate(const std::vector<CandidatePump>& pumps, const std::vector<CandidateBore>& bores, const FlowNeed& need) {
  require::that(!pumps.empty(), "number of pumps", 0.0, "1 or more");
  require::that(!bores.empty(), "number of bores", 0.0, "1 or more");
  for (std::size_t i = 0; i < pumps.size(); ++i)
    detail::located_in("pump", pumps, i, [&] {
      validate(pumps[i].curve);
      if (!pumps[i].efficiency.empty()) best_efficiency_point(pumps[i].efficiency);  // refuses impossible points
      if (pumps[i].cost) require::not_negative("cost", *pumps[i].cost);
    });
  for (std::size_t i = 0; i < bores.size(); ++i)
    detail::located_in("main", bores, i, [&] {
      require::positive("bore", bores[i].bore);
      if (bores[i].cost) require::not_negative("cost", *bores[i].cost);
    });
  require::not_negative("least flow", need.least_flow);
  require::not_negative("least branch flow", need.least_branch_flow);
  require::that(si(need.least_flow) > 0.0 || si(need.least_branch_flow) > 0.0, "least flow", need.least_flow,
                "> 0, or a least branch flow > 0");
  require::positive("largest velocity", need.largest_velocity);
  require::positive("density", need.density);
}

// Where a pair runs: the part of a PumpChoice that the pipes decide.
struct Run {
  VolumeFlow flow;
  Length head;
  VolumeFlow least_branch_flow;
  Velocity fastest;
};

std::optional<Power> drawn(const CandidatePump& pump, const Run& run, const Power& in_water) {
  const auto& e = pump.efficiency;
  if (e.empty() || run.flow < e.front().flow || run.flow > e.back().flow) return std::nullopt;
  const double share = efficiency(e, run.flow);
  return share > 0.0 ? std::optional(in_water / share) : std::nullopt;
}

PumpChoice choice(const CandidatePump& pump, const CandidateBore& bore, const Run& run, const Length& surplus_head,
                  const Density& density) {
  PumpChoice c{.pump = pump.name,
               .bore = bore.name,
               .flow = run.flow,
               .head = run.head,
               .least_branch_flow = run.least_branch_flow,
               .fastest = run.fastest,
               .surplus_head = surplus_head,
               .hydraulic_power = hydraulic_power(run.flow, run.head, density)};
  c.power_drawn = drawn(pump, run, c.hydraulic_power);
  if (pump.cost && bore.cost) c.cost = *pump.cost + *bore.cost;
  return c;
}

double rank(const PumpChoice& c, PumpRanking ranking) {
  constexpr double unknown = std::numeric_limits<double>::infinity();
  if (ranking == PumpRanking::cost) return c.cost.value_or(unknown);
  if (ranking == PumpRanking::power_drawn) return c.power_drawn ? si(*c.power_drawn) : unknown;
  return si(c.hydraulic_power);
}

double share(double has, double needs) { return needs > 0.0 ? has / needs : std::numeric_limits<double>::infinity(); }

// The share of the need that the flows meet.
double flow_met(const Run& run, const FlowNeed& need) {
  return std::min(share(si(run.flow), si(need.least_flow)),
                  share(si(run.least_branch_flow), si(need.least_branch_flow)));
}

// By the flows or by the velocity, whichever is least.
double met(const Run& run, const FlowNeed& need) {
  return std::min(flow_met(run, need), share(si(need.largest_velocity), si(run.fastest)));
}

// Head that a valve in the main takes up when it brings the flows down to what is asked for: the root of their surplus,
// the valve's K sought. `run_with` finds the Run for a K, or throws OutOfValidity where a branch gets nothing.
template <class F>
Length surplus_head(const F& run_with, const Run& open, const Length& bore, const FlowNeed& need) {
  const auto excess = [&](double K) {
    try {
      return flow_met(run_with(K), need) - 1.0;
    } catch (const OutOfValidity&) {
      return -1.0;
    }
  };
  const auto head_at = [&](double K, const VolumeFlow& flow) {
    return K * kernel::velocity_head(si(flow), kernel::bore_area(si(bore)));
  };
  const double at_open = flow_met(open, need) - 1.0;
  if (!(at_open > 0.0)) return Length();
  double low = 0.0, high = si(open.head) / head_at(1.0, open.flow), at_low = at_open, at_high = excess(high);
  for (; at_high > 0.0; at_high = excess(high)) low = high, at_low = at_high, high *= 2.0;
  const double K = theca::detail::root_between("surplus head of a pump", excess, low, high, at_low, at_high).low;
  return from_si<Length>(head_at(K, run_with(K).flow));
}

// Two flows, as far as they are asked for.
std::string flows(const FlowNeed& need, const VolumeFlow& in_all, const VolumeFlow& per_branch) {
  std::string words;
  if (si(need.least_flow) > 0.0) words = text(in_all);
  if (si(need.least_branch_flow) > 0.0)
    words += (words.empty() ? "" : " in all and ") + text(per_branch) + " in every branch";
  return words;
}

// `run` finds where a pump runs in a bore of main with a valve's K in it, or throws OutOfValidity where it cannot.
template <class F>
std::vector<PumpChoice> choose(const std::vector<CandidatePump>& pumps, const std::vector<CandidateBore>& bores,
                               const FlowNeed& need, const F& run) {
  std::vector<PumpChoice> choices;
  double nearest = -1.0;
  std::string nearest_text, reason;
  for (const CandidatePump& pump : pumps) {
    for (const CandidateBore& bore : bores) {
      const std::string pair = pump.name + " with main " + bore.name;
      try {
        const auto with_valve = [&](double K) { return run(pump.curve, bore.bore, K); };
        const Run r = with_valve(0.0);
        const double share = met(r, need);
        if (share >= 1.0)
          choices.push_back(choice(pump, bore, r, surplus_head(with_valve, r, bore.bore, need), need.density));
        if (share > nearest) {
          nearest = share;
          nearest_text = pair + " gives " + flows(need, r.flow, r.least_branch_flow) + " at up to " + text(r.fastest) +
                         ", " + number(100.0 * share, 3) + " % of the way";
        }
      } catch (const OutOfValidity& e) {
        if (reason.empty()) reason = pair + ": " + e.what();
      }
    }
  }
  if (choices.empty())
    throw OutOfValidity(
        "choice of pump",
        "no pair of pump and main gives " + flows(need, need.least_flow, need.least_branch_flow) + " at no more than " +
            text(need.largest_velocity) + "; " +
            (nearest >= 0.0 ? "the nearest, " + nearest_text : "none runs inside its curve, " + reason));
  std::sort(choices.begin(), choices.end(), [&](const PumpChoice& a, const PumpChoice& b) {
    const double first = rank(a, need.ranking), second = rank(b, need.ranking);
    return first != second ? first < second : a.hydraulic_power < b.hydraulic_power;
  });
  return choices;
}
}  // namespace

std::vector<PumpChoice> choose_pump(const PipeLine& line, int main, const std::vector<CandidatePump>& pumps,
                                    const std::vector<CandidateBore>& bores, const FlowNeed& need,
                                    const KinematicViscosity& viscosity) {
  validate(pumps, bores, need);
  require::that(main >= 0 && static_cast<std::size_t>(main) < line.pipes.size(), "main", static_cast<double>(main),
                "0 or more and below the number of pipes, " + std::to_string(line.pipes.size()));
  return choose(pumps, bores, need, [&](const PumpCurve& curve, const Length& bore, double valve_K) {
    PipeLine tried = line;
    Pipe& valved = tried.pipes[static_cast<std::size_t>(main)];
    valved.bore = bore;
    valved.minor_loss_K += valve_K;
    const DutyPoint d = duty_point(tried, curve, viscosity);
    return Run{d.flow, d.head, d.flow, *std::max_element(d.velocities.begin(), d.velocities.end())};
  });
}

std::vector<PumpChoice> choose_pump(const Manifold& manifold, const std::vector<CandidatePump>& pumps,
                                    const std::vector<CandidateBore>& bores, const FlowNeed& need,
                                    const KinematicViscosity& viscosity) {
  validate(pumps, bores, need);
  return choose(pumps, bores, need, [&](const PumpCurve& curve, const Length& bore, double valve_K) {
    Manifold tried = manifold;
    tried.main.bore = bore;
    tried.main.minor_loss_K += valve_K;
    const ManifoldFlow m = solve(tried, curve, viscosity);
    Run r{m.flow, m.pump_head, m.flow, m.main_velocity};
    for (const HeaderFlow& header : m.headers) {
      for (const VolumeFlow& q : header.branch_flows) r.least_branch_flow = std::min(r.least_branch_flow, q);
      for (const Velocity& v : header.branch_velocities) r.fastest = std::max(r.fastest, v);
      for (const Velocity& v : header.header_velocities) r.fastest = std::max(r.fastest, v);
    }
    return r;
  });
}

}  // namespace theca::hydraulics
