#include "theca/hydraulics/balance.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "../root.hpp"
#include "naming.hpp"
#include "theca/error.hpp"
#include "theca/hydraulics/pump_performance.hpp"
#include "theca/hydraulics/pump_speed.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
// Heads that are off by less than this share of the network's range of heads count as met: the solver's own error.
constexpr double head_rounding = 1e-8;

std::string valve_name(const Network& network, std::size_t v) { return detail::called("valve", network.valves, v); }

void validate(const Network& network, const std::vector<WantedFlow>& wanted, const KinematicViscosity& viscosity) {
  require::positive("kinematic viscosity", viscosity);
  validate(network);
  require::that(!wanted.empty(), "number of wanted flows", 0.0, "1 or more");
  std::vector<bool> named(network.valves.size(), false);
  for (const WantedFlow& w : wanted) {
    require::that(w.valve < network.valves.size(), "valve of a wanted flow", static_cast<double>(w.valve),
                  "the place of a valve, 0 to " + number(static_cast<double>(network.valves.size()) - 1.0));
    const std::string name = valve_name(network, w.valve);
    require::positive("wanted flow of " + name, w.flow);
    require::that(network.valves[w.valve].passage != Passage::shut, "wanted flow of " + name, w.flow,
                  "none: the valve is shut");
    require::that(!named[w.valve], "wanted flow of " + name, w.flow, "one flow a valve");
    named[w.valve] = true;
  }
}

// The network with each valve's wanted flow in place of the valve. Free surfaces and outlets take and give whatever the
// rest asks of them here; whether they can is seen when the network is solved whole.
Network imposed(Network network, const std::vector<WantedFlow>& wanted) {
  for (const WantedFlow& w : wanted) {
    NetworkValve& valve = network.valves[w.valve];
    valve.passage = Passage::shut;
    NetworkNode &before = network.nodes[valve.from], &after = network.nodes[valve.to];
    if (before.kind == NodeKind::junction) before.demand += w.flow;
    if (after.kind == NodeKind::junction) after.demand -= w.flow;
  }
  for (NetworkNode& node : network.nodes) {
    if (node.kind == NodeKind::outlet) node.kind = NodeKind::free_surface;
    node.lowest_opening.reset();
  }
  return network;
}

Network with_speed(Network network, double factor) {
  for (NetworkPump& pump : network.pumps) pump.relative_speed *= factor;
  return network;
}

class Balancer {
 public:
  Balancer(const Network& network, const std::vector<WantedFlow>& wanted, const KinematicViscosity& viscosity)
      : network_(network), wanted_(wanted), viscosity_(viscosity), imposed_(imposed(network, wanted)) {
    explained([&] { solver_.emplace(imposed_); });
  }

  struct Surplus {
    std::vector<double> heads;
    std::size_t index = 0;
    double rounding = 0.0;
    double least() const { return heads[index]; }
    bool suffices() const { return least() >= -rounding; }
  };

  Surplus surplus(double speed) {
    const Network now = with_speed(imposed_, speed);
    NetworkFlow flow;
    explained([&] { flow = solver_->solve(now, viscosity_); });
    Surplus result;
    for (const WantedFlow& w : wanted_) {
      const NetworkValve& valve = network_.valves[w.valve];
      const double left = si(flow.heads[valve.from]) - si(flow.heads[valve.to]);
      result.heads.push_back(left - valve.K * velocity_head(w));
    }
    const auto least = std::min_element(result.heads.begin(), result.heads.end());
    result.index = static_cast<std::size_t>(least - result.heads.begin());
    const auto [low, high] = std::minmax_element(flow.heads.begin(), flow.heads.end());
    result.rounding = head_rounding * (si(*high) - si(*low));
    return result;
  }

  ValveSettings settings(double speed) {
    const Surplus left = surplus(speed);
    if (!left.suffices())
      throw OutOfValidity("balance of " + valve_name(network_, wanted_[left.index].valve),
                          "fully open it lacks " + text(from_si<Length>(-left.least())) + " of head to let " +
                              text(wanted_[left.index].flow) + " pass" +
                              (speed == 1.0 ? "" : ", the pumps " + number(speed) + " times as fast"));
    ValveSettings result;
    result.speed_factor = speed;
    result.index = left.index;
    Network set = with_speed(network_, speed);
    for (std::size_t i = 0; i < wanted_.size(); ++i) {
      const double head = std::max(0.0, left.heads[i]);  // below 0 by rounding only
      NetworkValve& valve = set.valves[wanted_[i].valve];
      valve.K += head / velocity_head(wanted_[i]);
      result.K.push_back(valve.K);
      result.surplus_heads.push_back(from_si<Length>(head));
    }
    result.flow = solve(set, viscosity_);
    for (const WantedFlow& w : wanted_)
      result.largest_deviation =
          std::max(result.largest_deviation, std::abs(si(result.flow.valve_flows[w.valve]) / si(w.flow) - 1.0));
    return result;
  }

 private:
  double velocity_head(const WantedFlow& w) const {
    return kernel::velocity_head(si(w.flow), si(bore_area(network_.valves[w.valve].bore)));
  }

  // What the network with imposed flows refuses, the caller did not put in as such.
  template <class Step>
  void explained(Step&& step) const {
    detail::located([] { return ", the wanted flows being imposed"; }, step);
  }

  const Network& network_;
  const std::vector<WantedFlow>& wanted_;
  KinematicViscosity viscosity_;
  Network imposed_;
  std::optional<NetworkSolver> solver_;
};
}  // namespace

ValveSettings balance(const Network& network, const std::vector<WantedFlow>& wanted,
                      const KinematicViscosity& viscosity) {
  validate(network, wanted, viscosity);
  return Balancer(network, wanted, viscosity).settings(1.0);
}

ValveSettings balance_at_least_speed(const Network& network, const std::vector<WantedFlow>& wanted,
                                     const KinematicViscosity& viscosity) {
  validate(network, wanted, viscosity);
  require::that(!network.pumps.empty(), "number of pumps", 0.0, "1 or more");
  double lowest = 0.0, highest = highest_speed_ratio / lowest_speed_ratio;
  for (const NetworkPump& pump : network.pumps) {
    lowest = std::max(lowest, lowest_speed_ratio / pump.relative_speed);
    highest = std::min(highest, highest_speed_ratio / pump.relative_speed);
  }
  lowest = std::min(lowest, 1.0);  // a speed at the end of the range may be off it by rounding
  highest = std::max(highest, 1.0);
  Balancer balancer(network, wanted, viscosity);
  // A speed without an answer (a pump beyond the end of its curve, say) is too slow.
  const auto surplus = [&](double speed) -> std::optional<Balancer::Surplus> {
    try {
      return balancer.surplus(speed);
    } catch (const OutOfValidity&) {
      return std::nullopt;
    }
  };
  const auto least_surplus = [&](double speed) -> std::optional<double> {
    const auto left = surplus(speed);
    return left ? std::optional(left->least()) : std::nullopt;
  };
  double top = 1.0;
  std::optional<double> at_top = least_surplus(top);
  if (!at_top || *at_top < 0.0) at_top = least_surplus(top = highest);
  if (!at_top || *at_top <= 0.0) return balancer.settings(top);  // just enough, or the refusal that says why not
  const auto excess = [&](double speed) { return least_surplus(speed).value_or(-*at_top); };
  const double at_lowest = excess(lowest);
  if (at_lowest >= 0.0) return balancer.settings(lowest);
  const auto root =
      theca::detail::root_between("least speed of a balanced network", excess, lowest, top, at_lowest, *at_top);
  // Stopped by the end of a pump's curve: off that end by more than rounding, so that no later solution is beyond it.
  const auto left = surplus(root.high);
  const double margin = !left || left->least() > left->rounding ? 1.0 + head_rounding : 1.0;
  return balancer.settings(std::min(top, margin * root.high));
}

Power throttling_power(const ValveSettings& settings, const std::vector<WantedFlow>& wanted, const Density& density) {
  require::that(settings.surplus_heads.size() == wanted.size(), "number of wanted flows",
                static_cast<double>(wanted.size()), "that of the settings");
  require::positive("density", density);
  Power sum{};
  for (std::size_t i = 0; i < wanted.size(); ++i)
    sum += hydraulic_power(wanted[i].flow, settings.surplus_heads[i], density);
  return sum;
}

}  // namespace theca::hydraulics
