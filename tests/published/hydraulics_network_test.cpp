// Worked examples of pipe networks.
#include <array>
#include <cmath>

#include "support/near.hpp"
#include "theca/hydraulics/network.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;
using theca::test::near;
using theca::test::within;

constexpr auto m = units::metre;
const VolumeFlow per_hour = (1.0 / 3600.0) * units::cubic_metre_per_second;
const KinematicViscosity water = 1.02e-6 * units::square_metre_per_second;

NetworkPipe pipe_of(std::size_t from, std::size_t to, double length_m, double bore_m, double roughness_m) {
  NetworkPipe p;
  p.from = from;
  p.to = to;
  p.pipe = {.bore = bore_m * m, .length = length_m * m, .roughness = roughness_m * m};
  return p;
}

NetworkNode surface(double level_m) {
  NetworkNode node;
  node.kind = NodeKind::free_surface;
  node.level = level_m * m;
  return node;
}

// The pipes of White, Fluid Mechanics (4th ed. 1999), examples 6.17 and 6.18; from memory.
std::array<NetworkPipe, 3> white_pipes(std::size_t to1, std::size_t to2, std::size_t to3) {
  return {pipe_of(0, to1, 100.0, 0.08, 0.24e-3), pipe_of(0, to2, 150.0, 0.06, 0.12e-3),
          pipe_of(0, to3, 80.0, 0.04, 0.20e-3)};
}

TEST_CASE("three reservoirs joined at one junction [White 1999, example 6.18]") {
  // Printed, found again by search: junction 34.53 m; 52.8, 47.0 and 5.8 m3/h, worked by hand to three places with
  // friction factors of four, so that 1 % is what it can bear; 0.1 m3/h more on the small one, the difference of two.
  Network net;
  net.nodes = {NetworkNode{}, surface(20.0), surface(100.0), surface(40.0)};
  for (const NetworkPipe& p : white_pipes(1, 2, 3)) net.pipes.push_back(p);
  const NetworkFlow flow = solve(net, water);
  CHECK(near(flow.pipe_flows[0], 52.8 * per_hour, 0.01));
  CHECK(near(flow.pipe_flows[1], -47.0 * per_hour, 0.01));
  CHECK(within(flow.pipe_flows[2], -5.8 * per_hour, 0.1 * per_hour));
  CHECK(within(flow.heads[0], 34.53 * m, 0.15 * m));
}

TEST_CASE("three pipes in parallel under 20.3 m of head [White 1999, example 6.17, figures from memory]") {
  Network net;
  net.nodes = {surface(20.3), surface(0.0)};
  for (const NetworkPipe& p : white_pipes(1, 1, 1)) net.pipes.push_back(p);
  const NetworkFlow flow = solve(net, water);
  CHECK(near(flow.pipe_flows[0], 62.5 * per_hour, 0.01));
  CHECK(near(flow.pipe_flows[1], 25.9 * per_hour, 0.01));
  CHECK(near(flow.pipe_flows[2], 11.4 * per_hour, 0.01));
  CHECK(near(flow.inflows[1], 99.8 * per_hour, 0.01));
}

// A link that loses k Q|Q|.
NetworkValve quadratic(std::size_t from, std::size_t to, double k_s2_m5) {
  NetworkValve valve;
  valve.from = from;
  valve.to = to;
  valve.bore = 0.1 * m;
  const double area = si(bore_area(valve.bore));
  valve.K = k_s2_m5 * 2.0 * 9.80665 * area * area;
  return valve;
}

TEST_CASE("two loops of links that lose k Q^2, by Cross's own loop corrections [Cross 1936, Bulletin 286]") {
  // Nodes 0 (free surface, feeds all) 1 2 3; loops 0-1-2 and 0-2-3. The corrections are worked here, another method
  // than the solver's; 2000 rounds bring them to rounding.
  const double take[4] = {0.0, 0.020, 0.050, 0.030};
  const std::array<std::array<std::size_t, 2>, 5> ends = {{{0, 1}, {1, 2}, {0, 2}, {0, 3}, {3, 2}}};
  const std::array<double, 5> k = {2000.0, 5000.0, 1000.0, 3000.0, 700.0};
  std::array<double, 5> q = {0.040, 0.020, 0.020, 0.040, 0.010};
  const std::array<std::array<double, 5>, 2> loops = {{{1, 1, -1, 0, 0}, {0, 0, 1, -1, -1}}};
  for (int round = 0; round < 2000; ++round) {
    for (const auto& loop : loops) {
      double sum = 0.0, slope = 0.0;
      for (std::size_t i = 0; i < 5; ++i) {
        sum += loop[i] * k[i] * q[i] * std::abs(q[i]);
        slope += std::abs(loop[i]) * 2.0 * k[i] * std::abs(q[i]);
      }
      for (std::size_t i = 0; i < 5; ++i) q[i] -= loop[i] * sum / slope;
    }
  }
  Network net;
  net.nodes = {surface(30.0), NetworkNode{}, NetworkNode{}, NetworkNode{}};
  for (std::size_t v = 1; v < 4; ++v) net.nodes[v].demand = take[v] * units::cubic_metre_per_second;
  for (std::size_t i = 0; i < 5; ++i) net.valves.push_back(quadratic(ends[i][0], ends[i][1], k[i]));
  const NetworkFlow flow = solve(net, water);
  for (std::size_t i = 0; i < 5; ++i) CHECK(near(si(flow.valve_flows[i]), q[i], 1e-9));
}

TEST_CASE("two reservoirs and three loops of links that lose K Q^2 [CE 3620 Water Resources Engineering, lecture 9]") {
  // University lecture notes of 6 February 2013, Hardy Cross method, feet and cubic feet a second; K and demands as
  // printed, flows and losses of the first loop after 16 rounds. The level of reservoir A over B stands in the figure,
  // which was not to be seen: the printed corrections of the third loop give 10.00 ft (-5.32 + 10.00 = 2 x 15.08 x
  // 0.1553) in the first round and 10.00 ft in the second.
  const double foot = 0.3048, cubic_foot = foot * foot * foot;
  Network net;
  net.nodes = {surface(10.0 * foot), surface(0.0)};  // A, B, then junctions 1 to 4
  for (const double demand : {2.0, 4.0, 1.0, 3.0}) {
    net.nodes.emplace_back();
    net.nodes.back().demand = demand * cubic_foot * units::cubic_metre_per_second;
  }
  const std::size_t A = 0, B = 1, J1 = 2, J2 = 3, J3 = 4, J4 = 5;
  const auto add = [&](std::size_t from, std::size_t to, double K) {
    net.valves.push_back(quadratic(from, to, K * foot / (cubic_foot * cubic_foot)));
  };
  add(A, J1, 0.38);
  add(J1, J2, 2.89);
  add(J1, J4, 2.53);
  add(J4, J2, 12.13);
  add(J3, J2, 2.17);
  add(J3, J4, 2.89);
  add(B, J3, 0.94);
  const NetworkFlow flow = solve(net, water);
  const auto cfs = [&](std::size_t i) { return si(flow.valve_flows[i]) / cubic_foot; };
  const auto lost = [&](std::size_t from, std::size_t to) { return si(flow.heads[from] - flow.heads[to]) / foot; };
  // Flows have two places; losses carry the rest of the last correction, 0.01 ft, which is their sum round the loop.
  CHECK(within(cfs(1), 2.13, 0.005));
  CHECK(within(cfs(2), 2.16, 0.005));
  CHECK(within(cfs(3), 0.32, 0.005));
  CHECK(within(lost(J1, J2), 13.10, 0.015));
  CHECK(within(lost(J1, J4), 11.81, 0.015));
  CHECK(within(lost(J4, J2), 1.28, 0.015));
}

}  // namespace
