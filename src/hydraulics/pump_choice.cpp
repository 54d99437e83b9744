#include "theca/hydraulics/pump_choice.hpp"

#include <algorithm>
#include <limits>
#include <string>

#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
// Runs a check and says of whom it complains.
template <class F>
void named(const std::string& whom, const F& check) {
  try {
    check();
  } catch (const InvalidInput& e) {
    throw InvalidInput(whom + ", " + e.argument(), e.value(), e.accepted());
  }
}

void validate(const std::vector<CandidatePump>& pumps, const std::vector<CandidateBore>& bores, const FlowNeed& need) {
  require::that(!pumps.empty(), "number of pumps", 0.0, "1 or more");
  require::that(!bores.empty(), "number of bores", 0.0, "1 or more");
  for (const CandidatePump& p : pumps)
    named("pump " + p.name, [&] {
      validate(p.curve);
      if (!p.efficiency.empty()) best_efficiency_point(p.efficiency);  // refuses impossible points
      if (p.cost) require::not_negative("cost", *p.cost);
    });
  for (const CandidateBore& b : bores)
    named("main " + b.name, [&] {
      require::positive("bore", b.bore);
      if (b.cost) require::not_negative("cost", *b.cost);
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

std::optional<Power> drawn(const CandidatePump& pump, const VolumeFlow& flow, const Density& density) {
  const auto& e = pump.efficiency;
  if (e.empty() || flow < e.front().flow || flow > e.back().flow || !(efficiency(e, flow) > 0.0)) return std::nullopt;
  return power_drawn(pump.curve, e, flow, density);
}

PumpChoice choice(const CandidatePump& pump, const CandidateBore& bore, const Run& run, const Density& density) {
  PumpChoice c{.pump = pump.name,
               .bore = bore.name,
               .flow = run.flow,
               .head = run.head,
               .least_branch_flow = run.least_branch_flow,
               .fastest = run.fastest,
               .hydraulic_power = hydraulic_power(run.flow, run.head, density),
               .power_drawn = drawn(pump, run.flow, density)};
  if (pump.cost && bore.cost) c.cost = *pump.cost + *bore.cost;
  return c;
}

double rank(const PumpChoice& c, PumpRanking ranking) {
  constexpr double unknown = std::numeric_limits<double>::infinity();
  if (ranking == PumpRanking::cost) return c.cost.value_or(unknown);
  if (ranking == PumpRanking::power_drawn) return c.power_drawn ? si(*c.power_drawn) : unknown;
  return si(c.hydraulic_power);
}

// The share of the need that is met, by the flows or by the velocity, whichever is least.
double met(const Run& run, const FlowNeed& need) {
  const auto share = [](double has, double needs) {
    return needs > 0.0 ? has / needs : std::numeric_limits<double>::infinity();
  };
  return std::min({share(si(run.flow), si(need.least_flow)),
                   share(si(run.least_branch_flow), si(need.least_branch_flow)),
                   share(si(need.largest_velocity), si(run.fastest))});
}

// Two flows, as far as they are asked for.
std::string flows(const FlowNeed& need, const VolumeFlow& in_all, const VolumeFlow& per_branch) {
  std::string words;
  if (si(need.least_flow) > 0.0) words = text(in_all);
  if (si(need.least_branch_flow) > 0.0)
    words += (words.empty() ? "" : " in all and ") + text(per_branch) + " in every branch";
  return words;
}

// `run` finds where a pump runs in a bore of main, or throws OutOfValidity where it cannot.
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
        const Run r = run(pump.curve, bore.bore);
        const double share = met(r, need);
        if (share >= 1.0) choices.push_back(choice(pump, bore, r, need.density));
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
  return choose(pumps, bores, need, [&](const PumpCurve& curve, const Length& bore) {
    PipeLine tried = line;
    tried.pipes[static_cast<std::size_t>(main)].bore = bore;
    const DutyPoint d = duty_point(tried, curve, viscosity);
    return Run{d.flow, d.head, d.flow, *std::max_element(d.velocities.begin(), d.velocities.end())};
  });
}

std::vector<PumpChoice> choose_pump(const Manifold& manifold, const std::vector<CandidatePump>& pumps,
                                    const std::vector<CandidateBore>& bores, const FlowNeed& need,
                                    const KinematicViscosity& viscosity) {
  validate(pumps, bores, need);
  return choose(pumps, bores, need, [&](const PumpCurve& curve, const Length& bore) {
    Manifold tried = manifold;
    tried.main.bore = bore;
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
