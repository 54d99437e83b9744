#include "theca/hydraulics/network.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "naming.hpp"
#include "network_model.hpp"
#include "theca/error.hpp"
#include "theca/hydraulics/friction.hpp"
#include "theca/hydraulics/pump_speed.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
using detail::called;
using detail::LinkKind;
using detail::Model;
using detail::ModelLink;

std::string link_name(const Network& network, std::size_t i) {
  if (i < network.pipes.size()) return called("pipe", network.pipes, i);
  i -= network.pipes.size();
  if (i < network.pumps.size()) return called("pump", network.pumps, i);
  return called("valve", network.valves, i - network.pumps.size());
}

std::string node_name(const Network& network, std::size_t v) { return called("node", network.nodes, v); }

void validate_node(const Network& network, std::size_t v) {
  const NetworkNode& node = network.nodes[v];
  const auto require_member = [&](bool holds, const char* member, const auto& value, const char* accepted) {
    if (!holds) throw InvalidInput(member + (" of " + node_name(network, v)), text(value), accepted);
  };
  require_member(std::isfinite(si(node.demand)), "demand", node.demand, "a finite value");
  require_member(std::isfinite(si(node.level)), "level", node.level, "a finite value");
  const bool junction = node.kind == NodeKind::junction;
  require_member(junction || si(node.demand) == 0.0, "demand", node.demand, "0: only a junction has a demand");
  require_member(!junction || si(node.level) == 0.0, "level", node.level, "0: the head of a junction is sought");
  if (!node.lowest_opening) return;
  require_member(std::isfinite(si(*node.lowest_opening)), "lowest opening", *node.lowest_opening, "a finite value");
  require_member(node.kind == NodeKind::free_surface, "lowest opening", *node.lowest_opening,
                 "none: only a free surface has one");
}

template <class Link>
void validate_ends(const Network& network, std::string_view what, const std::vector<Link>& links, std::size_t i) {
  const Link& link = links[i];
  if (link.from != link.to && link.from < network.nodes.size() && link.to < network.nodes.size()) return;
  const std::string name = called(what, links, i);
  const auto count = static_cast<double>(network.nodes.size());
  const std::string known = "the place of a node, 0 to " + number(count - 1.0);
  if (link.from >= network.nodes.size())
    throw InvalidInput("from of " + name, number(static_cast<double>(link.from), 10), known);
  if (link.to >= network.nodes.size())
    throw InvalidInput("to of " + name, number(static_cast<double>(link.to), 10), known);
  if (link.from == link.to)
    throw InvalidInput("to of " + name, number(static_cast<double>(link.to), 10), "another node than it comes from");
}

// Links at each node.
std::vector<int> degrees(const Network& network) {
  std::vector<int> result(network.nodes.size());
  const auto count = [&](const auto& links) {
    for (const auto& link : links) ++result[link.from], ++result[link.to];
  };
  count(network.pipes);
  count(network.pumps);
  count(network.valves);
  return result;
}

void validate_tee(const Network& network, std::size_t t, const std::vector<int>& degree, std::vector<bool>& has_tee) {
  const NetworkTee& tee = network.tees[t];
  const std::string name = called("tee", network.tees, t);
  const auto place = [](std::size_t i) { return number(static_cast<double>(i), 10); };
  if (tee.node >= network.nodes.size() || network.nodes[tee.node].kind != NodeKind::junction ||
      si(network.nodes[tee.node].demand) != 0.0 || has_tee[tee.node])
    throw InvalidInput("node of " + name, place(tee.node), "the place of a junction without demand or other tee");
  has_tee[tee.node] = true;
  const auto require_leg = [&](const char* leg, std::size_t pipe, bool fresh) {
    const bool known = pipe < network.pipes.size();
    if (!known || !fresh || (network.pipes[pipe].from != tee.node && network.pipes[pipe].to != tee.node))
      throw InvalidInput(leg + (" of " + name), place(pipe), "the place of a pipe at its node that is no other leg");
  };
  require_leg("run", tee.run, true);
  require_leg("onward run", tee.onward, tee.onward != tee.run);
  require_leg("branch", tee.branch, tee.branch != tee.run && tee.branch != tee.onward);
  require::that(degree[tee.node] == 3, "links at " + name, degree[tee.node], "its three legs");
  detail::located_in("tee", network.tees, t, [&] { (void)detail::shape(tee.tee); });
}

void validate_members(const Network& network) {
  require::that(!network.nodes.empty(), "number of nodes", 0.0, "1 or more");
  for (std::size_t v = 0; v < network.nodes.size(); ++v) validate_node(network, v);
  for (std::size_t i = 0; i < network.pipes.size(); ++i) {
    const NetworkPipe& p = network.pipes[i];
    detail::located_in("pipe", network.pipes, i, [&] { validate(p.pipe); });
    validate_ends(network, "pipe", network.pipes, i);
    if (si(p.pipe.length) == 0.0 && p.pipe.minor_loss_K == 0.0)
      throw InvalidInput("length of " + called("pipe", network.pipes, i), "0 m with K = 0",
                         "a pipe that loses head; otherwise make its nodes one");
  }
  for (std::size_t i = 0; i < network.pumps.size(); ++i) {
    const double speed = network.pumps[i].relative_speed;
    validate_ends(network, "pump", network.pumps, i);
    detail::located_in("pump", network.pumps, i, [&] {
      validate(network.pumps[i].curve);
      require::finite("relative speed", speed);
    });
    const double slack = 1e-12;  // a speed at the end of the range may come as a product
    if (!(speed >= lowest_speed_ratio - slack && speed <= highest_speed_ratio + slack))
      require::valid("affinity laws of " + called("pump", network.pumps, i), "relative speed", speed,
                     lowest_speed_ratio, highest_speed_ratio);
  }
  for (std::size_t i = 0; i < network.valves.size(); ++i) {
    validate_ends(network, "valve", network.valves, i);
    detail::located_in("valve", network.valves, i, [&] {
      require::positive("bore", network.valves[i].bore);
      require::positive("K", network.valves[i].K);
    });
  }
  if (network.tees.empty()) return;
  const std::vector<int> degree = degrees(network);
  std::vector<bool> has_tee(network.nodes.size());
  for (std::size_t t = 0; t < network.tees.size(); ++t) validate_tee(network, t, degree, has_tee);
}

detail::ModelTee model_tee(const Network& network, const NetworkTee& tee) {
  detail::ModelTee result;
  result.link = {tee.run, tee.onward, tee.branch};
  for (std::size_t leg = 0; leg < 3; ++leg)
    result.into[leg] = network.pipes[result.link[leg]].to == tee.node ? 1.0 : -1.0;
  result.shape = detail::shape(tee.tee);
  result.run_area = si(bore_area(tee.tee.run_bore));
  result.branch_area = si(bore_area(tee.tee.branch_bore));
  return result;
}

// In place and only what is another than before: a solver that comes back with the same layout asks for no memory.
template <class Link>
void fill(ModelLink& link, const Link& from, LinkKind kind, const detail::PipeShape& shape) {
  link.from = from.from;
  link.to = from.to;
  link.kind = kind;
  link.passage = from.passage;
  if (shape == link.shape) return;
  link.changed = true;
  link.shape = shape;
  link.law = kernel::pipe_law(shape.bore, shape.length, shape.roughness, shape.K, shape.viscosity);
}

void fill(ModelLink& link, const NetworkPump& p) {
  link.from = p.from;
  link.to = p.to;
  link.kind = LinkKind::pump;
  link.changed = true;  // nobody knows whether a curve was changed where it stands
  link.curve = &p.curve;
  link.speed = p.relative_speed;
}

void fill(Model& model, const Network& network, double viscosity) {
  model.links.resize(network.pipes.size() + network.pumps.size() + network.valves.size());
  auto link = model.links.begin();
  for (const NetworkPipe& p : network.pipes)
    fill(*link++, p, LinkKind::pipe,
         {si(p.pipe.bore), si(p.pipe.length), si(p.pipe.roughness), p.pipe.minor_loss_K, viscosity});
  for (const NetworkPump& p : network.pumps) fill(*link++, p);
  for (const NetworkValve& v : network.valves)
    fill(*link++, v, LinkKind::valve, {si(v.bore), 0.0, 0.0, v.K, viscosity});
  const std::size_t nodes = network.nodes.size();
  model.kind.resize(nodes);
  model.fixed.resize(nodes);
  model.level.resize(nodes);
  model.demand.resize(nodes);
  for (std::size_t v = 0; v < nodes; ++v) {
    model.kind[v] = network.nodes[v].kind;
    model.fixed[v] = network.nodes[v].kind != NodeKind::junction;
    model.level[v] = si(network.nodes[v].level);
    model.demand[v] = si(network.nodes[v].demand);
  }
  model.tees.clear();
  for (const NetworkTee& tee : network.tees) model.tees.push_back(model_tee(network, tee));
}

Model model_of(const Network& network) {
  Model model;
  fill(model, network, 1.0);  // the layout asks for no water
  return model;
}

// Nodes that water from the sources can reach, following check valves forward, backward (against their direction), or
// either way, as if they were open pipes.
enum class Follow { forward, backward, either };
std::vector<bool> reach(const Model& model, const std::vector<std::vector<std::size_t>>& at_node,
                        std::vector<std::size_t> front, Follow follow) {
  std::vector<bool> seen(model.fixed.size(), false);
  for (const std::size_t v : front) seen[v] = true;
  while (!front.empty()) {
    const std::size_t v = front.back();
    front.pop_back();
    for (const std::size_t i : at_node[v]) {
      const ModelLink& link = model.links[i];
      if (link.passage == Passage::shut) continue;
      const bool one_way = link.passage == Passage::forward_only && follow != Follow::either;
      if (one_way && (link.from == v) != (follow == Follow::forward)) continue;
      const std::size_t other = link.from == v ? link.to : link.from;
      if (seen[other]) continue;
      seen[other] = true;
      front.push_back(other);
    }
  }
  return seen;
}

void require_supplied(const Network& network, const Model& model) {
  const std::size_t nodes = model.fixed.size();
  std::vector<std::vector<std::size_t>> at_node(nodes);
  for (std::size_t i = 0; i < model.links.size(); ++i) {
    at_node[model.links[i].from].push_back(i);
    at_node[model.links[i].to].push_back(i);
  }
  std::vector<std::size_t> ends, sources, sinks;
  for (std::size_t v = 0; v < nodes; ++v) {
    const NodeKind kind = network.nodes[v].kind;
    if (kind != NodeKind::junction) ends.push_back(v);
    if (kind == NodeKind::free_surface || model.demand[v] < 0.0) sources.push_back(v);
    if (kind != NodeKind::junction || model.demand[v] > 0.0) sinks.push_back(v);
  }
  const std::vector<bool> joined = reach(model, at_node, std::move(ends), Follow::either);
  for (std::size_t v = 0; v < nodes; ++v)
    if (!joined[v])
      throw InvalidInput(node_name(network, v), "closed off",
                         "a junction with an open way to a free surface or outlet, which sets its head");
  const std::vector<bool> fed = reach(model, at_node, std::move(sources), Follow::forward);
  const std::vector<bool> drained = reach(model, at_node, std::move(sinks), Follow::backward);
  for (std::size_t v = 0; v < nodes; ++v) {
    if (model.demand[v] > 0.0 && !fed[v])
      throw InvalidInput("demand of " + node_name(network, v), text(network.nodes[v].demand),
                         "0: no water can reach it in the direction of its check valves");
    if (model.demand[v] < 0.0 && !drained[v])
      throw InvalidInput("demand of " + node_name(network, v), text(network.nodes[v].demand),
                         "0: water fed in here cannot leave in the direction of its check valves");
  }
}

void refuse_impossible_pumps(const Network& network, const NetworkFlow& result, double small) {
  for (std::size_t i = 0; i < network.pumps.size(); ++i) {
    const NetworkPump& pump = network.pumps[i];
    const double q = si(result.pump_flows[i]);
    const double first = pump.relative_speed * si(pump.curve.points.front().flow);
    const double last = pump.relative_speed * si(pump.curve.points.back().flow);
    if (q >= first - small && q <= last + small) continue;
    const std::string name = called("pump", network.pumps, i);
    if (q < -small)
      throw OutOfValidity(name, "it would run backward at " + text(result.pump_flows[i]) +
                                    ": the network holds more head against it than it gives at no flow");
    throw OutOfValidity(name + " curve at its speed", "flow = " + text(result.pump_flows[i]) + ", valid from " +
                                                          text(from_si<VolumeFlow>(first)) + " to " +
                                                          text(from_si<VolumeFlow>(last)));
  }
}

void refuse_impossible_ends(const Network& network, const NetworkFlow& result, double small) {
  for (std::size_t v = 0; v < network.nodes.size(); ++v) {
    const NetworkNode& node = network.nodes[v];
    if (node.kind == NodeKind::junction || si(result.inflows[v]) >= -small) continue;
    if (node.kind == NodeKind::outlet)
      throw OutOfValidity(node_name(network, v), "it would draw air: the head behind it is below its level, " +
                                                     text(node.level) + ", by what " +
                                                     text(from_si<VolumeFlow>(-si(result.inflows[v]))) + " would need");
    if (node.lowest_opening && node.level <= *node.lowest_opening)
      throw OutOfValidity(node_name(network, v), "it is dry, water line " + text(node.level) + ", lowest opening " +
                                                     text(*node.lowest_opening) + ", and would have to give " +
                                                     text(from_si<VolumeFlow>(-si(result.inflows[v]))));
  }
}

// Where run and another leg carry the same but for rounding, the run will do: the third leg is at rest.
void refuse_unknown_wye(const Network& network, std::size_t t, const detail::ModelTee& tee,
                        const std::array<double, 3>& into_tee, double small) {
  const std::size_t combined = detail::use_of(into_tee).combined;
  if (tee.shape.cosine == 0.0 || std::abs(into_tee[combined]) - std::abs(into_tee[0]) <= small) return;
  const std::size_t pipe = tee.link[combined];
  throw OutOfValidity(called("tee", network.tees, t),
                      "a wye whose combined flow is in " + called("pipe", network.pipes, pipe) + ", " +
                          text(from_si<VolumeFlow>(tee.into[combined] * into_tee[combined])) +
                          ", known where it is in the run");
}

void add_tees(const Network& network, const Model& model, const std::vector<double>& flow, double small,
              NetworkFlow& result) {
  for (std::size_t t = 0; t < model.tees.size(); ++t) {
    const auto into_tee = detail::flows_into(model.tees[t], flow);
    refuse_unknown_wye(network, t, model.tees[t], into_tee, small);
    const detail::LegHeads over = detail::leg_heads(model.tees[t], into_tee);
    result.tee_flows.push_back({detail::use_of(into_tee).direction, from_si<Length>(over[0]), from_si<Length>(over[1]),
                                from_si<Length>(over[2])});
  }
}

NetworkFlow result_of(const Network& network, const Model& model, const detail::GradientSolver& solver,
                      const detail::GradientSolver::Outcome& outcome) {
  const double small = 1e-9 * solver.flow_scale();
  for (std::size_t i = 0; i < model.links.size(); ++i) {
    const ModelLink& link = model.links[i];
    if (link.passage == Passage::forward_only && solver.flow[i] < 0.0) {
      const std::size_t v = model.fixed[link.from] ? link.to : link.from;
      throw InvalidInput(
          node_name(network, v), "not to be supplied",
          "a balance of demands and feeds that needs no flow against the check valve in " + link_name(network, i));
    }
    if (link.kind == LinkKind::pump) continue;
    const double reynolds = std::abs(solver.flow[i]) * link.law.reynolds_per_flow_s_m3;
    if (reynolds > largest_reynolds_number)
      throw OutOfValidity("head loss of " + link_name(network, i),
                          "Reynolds number = " + number(reynolds) + ", valid up to 1e8");
  }
  NetworkFlow result;
  std::size_t i = 0;
  result.pipe_flows.reserve(network.pipes.size());
  result.pipe_velocities.reserve(network.pipes.size());
  for (; i < network.pipes.size(); ++i) {
    result.pipe_flows.push_back(from_si<VolumeFlow>(solver.flow[i]));
    const double area = kernel::bore_area(model.links[i].shape.bore);
    result.pipe_velocities.push_back(from_si<Velocity>(solver.flow[i] / area));
  }
  for (std::size_t k = 0; k < network.pumps.size(); ++k, ++i) {
    result.pump_flows.push_back(from_si<VolumeFlow>(solver.flow[i]));
    result.pump_heads.push_back(from_si<Length>(-detail::loss(model.links[i], solver.flow[i]).head));
  }
  for (; i < model.links.size(); ++i) result.valve_flows.push_back(from_si<VolumeFlow>(solver.flow[i]));
  const std::size_t nodes = model.fixed.size();
  result.inflows.resize(nodes);
  for (i = 0; i < model.links.size(); ++i) {
    const ModelLink& link = model.links[i];
    if (model.fixed[link.from]) result.inflows[link.from] -= from_si<VolumeFlow>(solver.flow[i]);
    if (model.fixed[link.to]) result.inflows[link.to] += from_si<VolumeFlow>(solver.flow[i]);
  }
  result.heads.reserve(nodes);
  for (std::size_t v = 0; v < nodes; ++v) result.heads.push_back(from_si<Length>(solver.head[v]));
  result.mass_residual = from_si<VolumeFlow>(outcome.mass_residual);
  result.energy_residual = from_si<Length>(outcome.energy_residual);
  result.iterations = outcome.iterations;
  result.status_rounds = outcome.rounds;
  add_tees(network, model, solver.flow, small, result);
  refuse_impossible_pumps(network, result, small);
  refuse_impossible_ends(network, result, small);
  return result;
}

bool same_layout(const Network& network, const Model& model) {
  if (network.nodes.size() != model.kind.size() || network.tees.size() != model.tees.size() ||
      network.pipes.size() + network.pumps.size() + network.valves.size() != model.links.size())
    return false;
  for (std::size_t v = 0; v < model.kind.size(); ++v)
    if (network.nodes[v].kind != model.kind[v]) return false;
  for (std::size_t t = 0; t < model.tees.size(); ++t)
    if (std::array{network.tees[t].run, network.tees[t].onward, network.tees[t].branch} != model.tees[t].link)
      return false;
  auto link = model.links.begin();
  const auto same = [&](const auto& ours, LinkKind kind, Passage passage) {
    const ModelLink& known = *link++;
    return known.from == ours.from && known.to == ours.to && known.kind == kind && known.passage == passage;
  };
  return std::all_of(network.pipes.begin(), network.pipes.end(),
                     [&](const NetworkPipe& p) { return same(p, LinkKind::pipe, p.passage); }) &&
         std::all_of(network.pumps.begin(), network.pumps.end(),
                     [&](const NetworkPump& p) { return same(p, LinkKind::pump, Passage::both_ways); }) &&
         std::all_of(network.valves.begin(), network.valves.end(),
                     [&](const NetworkValve& v) { return same(v, LinkKind::valve, v.passage); });
}

bool same_demands(const Network& network, const Model& model) {
  for (std::size_t v = 0; v < model.demand.size(); ++v)
    if (si(network.nodes[v].demand) != model.demand[v]) return false;
  return true;
}

}  // namespace

void validate(const Network& network) {
  validate_members(network);
  require_supplied(network, model_of(network));
}

struct NetworkSolver::State {
  explicit State(const Network& network) : layout(model_of(network)), solver(layout) {}
  Model layout;
  detail::GradientSolver solver;
  detail::TeeSolver tees;
};

NetworkSolver::NetworkSolver(const Network& network) {
  validate(network);
  state_ = std::make_unique<State>(network);
}
NetworkSolver::NetworkSolver(NetworkSolver&& other) noexcept = default;
NetworkSolver& NetworkSolver::operator=(NetworkSolver&& other) noexcept = default;
NetworkSolver::~NetworkSolver() = default;

NetworkFlow NetworkSolver::solve(const Network& network, const KinematicViscosity& viscosity) {
  require::positive("kinematic viscosity", viscosity);
  validate_members(network);
  require::that(same_layout(network, state_->layout), "nodes and links of the network",
                static_cast<double>(network.nodes.size()), "the layout that the solver was made for");
  if (!same_demands(network, state_->layout)) require_supplied(network, model_of(network));
  fill(state_->layout, network, si(viscosity));
  const auto outcome = state_->tees.solve(state_->layout, state_->solver);
  NetworkFlow result = result_of(network, state_->layout, state_->solver, outcome);
  result.tee_rounds = state_->tees.rounds();
  return result;
}

NetworkFlow solve(const Network& network, const KinematicViscosity& viscosity) {
  NetworkSolver solver(network);
  return solver.solve(network, viscosity);
}

}  // namespace theca::hydraulics
