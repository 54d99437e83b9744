// Random networks that have a solution: one tree of open pipes over all nodes, loops, valves, pumps and check valves.
#pragma once

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "hydraulics/parts.hpp"
#include "theca/hydraulics/network.hpp"

namespace theca::hydraulics::test {

class RandomNetwork {
 public:
  explicit RandomNetwork(unsigned seed) : random_(seed) {}

  Network make() {
    Network net;
    const std::size_t nodes = whole(2, 30);
    for (std::size_t v = 0; v < nodes; ++v) {
      NetworkNode node;
      node.name = "n" + std::to_string(v);
      if (v == 0 || chance(0.2)) {
        node.kind = NodeKind::free_surface;
        node.level = between(-2.0, 3.0) * units::metre;
      } else if (chance(0.5)) {
        node.demand = between(-2e-4, 6e-4) * units::cubic_metre_per_second;
      }
      net.nodes.push_back(node);
    }
    for (std::size_t v = 1; v < nodes; ++v) net.pipes.push_back(pipe(whole(0, v - 1), v, Passage::both_ways));
    for (std::size_t k = whole(0, 2 * nodes); k > 0; --k) add_link(net, nodes);
    return net;
  }

 private:
  bool chance(double p) { return between(0.0, 1.0) < p; }
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(random_() - std::mt19937::min()) /
                     static_cast<double>(std::mt19937::max() - std::mt19937::min());
  }
  std::size_t whole(std::size_t low, std::size_t high) { return low + random_() % (high - low + 1); }

  NetworkPipe pipe(std::size_t from, std::size_t to, Passage passage) {
    NetworkPipe p;
    p.name = "p";
    p.from = from;
    p.to = to;
    p.passage = passage;
    p.pipe.bore = between(0.010, 0.110) * units::metre;
    p.pipe.length = (chance(0.1) ? 0.05 : between(0.2, 40.0)) * units::metre;
    p.pipe.roughness = (chance(0.2) ? 1e-4 : 1.5e-6) * units::metre;
    p.pipe.minor_loss_K = chance(0.5) ? between(0.0, 30.0) : 0.0;
    return p;
  }

  void add_link(Network& net, std::size_t nodes) {
    const std::size_t a = whole(0, nodes - 1), b = whole(0, nodes - 1);
    if (a == b) return;
    const double kind = between(0.0, 1.0);
    if (kind < 0.4) {
      net.pipes.push_back(pipe(a, b, Passage::both_ways));
    } else if (kind < 0.65) {
      net.pipes.push_back(pipe(a, b, Passage::forward_only));
    } else if (kind < 0.7) {
      net.pipes.push_back(pipe(a, b, Passage::shut));
    } else if (kind < 0.85) {
      NetworkValve v;
      v.name = "v";
      v.from = a;
      v.to = b;
      v.bore = between(0.01, 0.06) * units::metre;
      v.K = std::pow(10.0, between(-1.0, 5.0));
      v.passage = chance(0.3) ? Passage::forward_only : Passage::both_ways;
      net.valves.push_back(v);
    } else {  // a pump, its check valve behind it, and pipe enough that its curve does not end
      net.nodes.push_back({.name = "behind pump"});
      NetworkPump p;
      p.name = "pump";
      p.from = a;
      p.to = net.nodes.size() - 1;
      const double shut_off = between(1.0, 8.0), most = between(1e-3, 6e-3);
      p.curve.points = {{0.0 * units::cubic_metre_per_second, shut_off * units::metre},
                        {0.5 * most * units::cubic_metre_per_second, 0.8 * shut_off * units::metre},
                        {most * units::cubic_metre_per_second, 0.3 * shut_off * units::metre},
                        {8.0 * most * units::cubic_metre_per_second, 0.0 * units::metre}};
      p.relative_speed = between(0.625, 1.2);
      net.pumps.push_back(p);
      NetworkPipe check = pipe(p.to, b, Passage::forward_only);
      check.pipe.bore = 0.03 * units::metre;
      check.pipe.minor_loss_K += 3.0;
      net.pipes.push_back(check);
    }
  }

  std::mt19937 random_;
};

/// A tee at each junction where three pipes and nothing else meet: the widest two are its run. A demand there is
/// dropped, a branch too narrow for the laws is taken as just wide enough.
inline Network with_tees(Network net) {
  for (std::size_t v = 0; v < net.nodes.size(); ++v) {
    if (net.nodes[v].kind != NodeKind::junction) continue;
    const auto touches = [v](const auto& link) { return link.from == v || link.to == v; };
    std::vector<std::size_t> at;
    for (std::size_t i = 0; i < net.pipes.size(); ++i)
      if (touches(net.pipes[i])) at.push_back(i);
    if (at.size() != 3 || std::any_of(net.pumps.begin(), net.pumps.end(), touches) ||
        std::any_of(net.valves.begin(), net.valves.end(), touches))
      continue;
    std::sort(at.begin(), at.end(), [&](auto a, auto b) { return net.pipes[a].pipe.bore > net.pipes[b].pipe.bore; });
    const Length run = net.pipes[at[0]].pipe.bore;
    net.nodes[v].demand = VolumeFlow();
    net.tees.push_back({.name = "tee",
                        .node = v,
                        .run = at[0],
                        .onward = at[1],
                        .branch = at[2],
                        .tee = {.run_bore = run, .branch_bore = std::max(0.1 * run, net.pipes[at[2]].pipe.bore)}});
  }
  return net;
}

/// The largest error of mass balance, over the largest flow, and of energy balance between the legs' own heads, over
/// the largest head difference; worked out from the answer with the public laws alone. A check valve counts in full
/// when it errs in direction.
struct Errors {
  double mass = 0.0, energy = 0.0;
};

inline Errors errors(const Network& net, const NetworkFlow& flow, const KinematicViscosity& nu) {
  Errors e;
  double scale = 1e-6, range = 1e-3;  // floors for a network at rest: a millilitre a second, a millimetre
  std::vector<double> mass(net.nodes.size());
  for (std::size_t v = 0; v < net.nodes.size(); ++v) mass[v] = -si(net.nodes[v].demand);
  std::vector<double> in_tees(net.pipes.size());  // head that a pipe loses at its ends
  for (std::size_t t = 0; t < net.tees.size(); ++t) {
    const NetworkTee& tee = net.tees[t];
    const auto leg = [&](std::size_t pipe, const Length& over) {
      in_tees[pipe] += net.pipes[pipe].to == tee.node ? si(over) : -si(over);
    };
    leg(tee.run, flow.tee_flows[t].run_head);
    leg(tee.onward, flow.tee_flows[t].onward_head);
    leg(tee.branch, flow.tee_flows[t].branch_head);
  }
  const auto link = [&](std::size_t from, std::size_t to, Passage passage, double q, double lost, double tees = 0.0) {
    mass[from] -= q;
    mass[to] += q;
    scale = std::max(scale, std::abs(q));
    const double drop = si(flow.heads[from]) - si(flow.heads[to]) - tees;
    range = std::max(range, std::abs(drop));
    if (passage == Passage::shut || (passage == Passage::forward_only && q == 0.0)) {
      if (passage == Passage::forward_only) e.energy = std::max(e.energy, drop);
      if (q != 0.0) e.mass = 1.0;
      return;
    }
    if (passage == Passage::forward_only && q < 0.0) e.mass = 1.0;
    e.energy = std::max(e.energy, std::abs(drop - lost));
  };
  for (std::size_t i = 0; i < net.pipes.size(); ++i) {
    const NetworkPipe& p = net.pipes[i];
    link(p.from, p.to, p.passage, si(flow.pipe_flows[i]), si(head_loss(p.pipe, flow.pipe_flows[i], nu)), in_tees[i]);
  }
  for (std::size_t i = 0; i < net.pumps.size(); ++i) {
    const NetworkPump& p = net.pumps[i];
    const double n = p.relative_speed, q = std::max(0.0, si(flow.pump_flows[i]));
    link(p.from, p.to, Passage::both_ways, q, -n * n * si(head(p.curve, from_si<VolumeFlow>(q / n))));
  }
  for (std::size_t i = 0; i < net.valves.size(); ++i) {
    const NetworkValve& v = net.valves[i];
    const double q = si(flow.valve_flows[i]), speed = q / si(bore_area(v.bore));
    link(v.from, v.to, v.passage, q, v.K * speed * std::abs(speed) / (2.0 * 9.80665));
  }
  for (std::size_t v = 0; v < net.nodes.size(); ++v)
    if (net.nodes[v].kind == NodeKind::junction) e.mass = std::max(e.mass, std::abs(mass[v]) / scale);
  e.energy /= range;
  return e;
}

}  // namespace theca::hydraulics::test
