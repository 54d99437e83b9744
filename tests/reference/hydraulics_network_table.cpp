// Solves the networks of hydraulics_network_epanet.txt (standard input) and prints for each its name, the largest
// difference of a flow from EPANET's over the largest flow of the network, and that largest flow in L/s.
#include <algorithm>
#include <cmath>
#include <iostream>
#include <string>
#include <vector>

#include "theca/hydraulics/network.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;

struct Case {
  std::string name;
  Network network;
  std::vector<double> pipe_flows, pump_flows;  // EPANET's, L/s
};

PumpCurve curve(double size) {
  PumpCurve c;
  c.interpolation = Interpolation::linear;
  const double flow[] = {0.0, 1.0, 2.0, 3.0, 4.0}, head[] = {4.0, 3.6, 2.8, 1.5, 0.0};
  for (int i = 0; i < 5; ++i)
    c.points.push_back({size * flow[i] * 1e-3 * units::cubic_metre_per_second, head[i] * units::metre});
  return c;
}

void add_link(Case& c, const std::string& kind) {
  std::size_t from = 0, to = 0;
  double bore = 0.0, K = 0.0, flow = 0.0;
  std::cin >> from >> to >> bore >> K >> flow;
  if (kind == "pump") {
    NetworkPump pump;
    pump.from = from;
    pump.to = to;
    pump.curve = curve(bore);
    pump.relative_speed = K;
    c.network.pumps.push_back(pump);
    c.pump_flows.push_back(flow);
    return;
  }
  NetworkPipe pipe;
  pipe.from = from;
  pipe.to = to;
  pipe.pipe = {.bore = bore * units::millimetre,
               .length = 1.0 * units::millimetre,
               .roughness = 1.5 * units::micrometre,
               .minor_loss_K = K};
  if (kind == "check") pipe.passage = Passage::forward_only;
  c.network.pipes.push_back(pipe);
  c.pipe_flows.push_back(flow);
}

void add_node(Case& c, const std::string& kind) {
  double value = 0.0;
  std::cin >> value;
  NetworkNode node;
  node.name = std::to_string(c.network.nodes.size());
  if (kind == "surface") {
    node.kind = NodeKind::free_surface;
    node.level = value * units::metre;
  } else {
    node.demand = value * 1e-3 * units::cubic_metre_per_second;
  }
  c.network.nodes.push_back(node);
}

void print(const Case& c) {
  const NetworkFlow flow = solve(c.network, 1.0e-6 * units::square_metre_per_second);
  double largest = 0.0, difference = 0.0;
  const auto compare = [&](const std::vector<VolumeFlow>& ours, const std::vector<double>& theirs) {
    for (std::size_t i = 0; i < ours.size(); ++i) {
      largest = std::max(largest, std::abs(theirs[i]));
      difference = std::max(difference, std::abs(1e3 * si(ours[i]) - theirs[i]));
    }
  };
  compare(flow.pipe_flows, c.pipe_flows);
  compare(flow.pump_flows, c.pump_flows);
  std::cout << c.name << ' ' << difference / largest << ' ' << largest << '\n';
}
}  // namespace

int main() {
  Case c;
  for (std::string word; std::cin >> word;) {
    if (word == "network") {
      c = Case{};
      std::cin >> c.name;
    } else if (word == "end") {
      print(c);
    } else if (word == "surface" || word == "junction") {
      add_node(c, word);
    } else {
      add_link(c, word);
    }
  }
}
