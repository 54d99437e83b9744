#include "theca/hydraulics/network.hpp"

#include <algorithm>
#include <cmath>

#include "hydraulics/random_network.hpp"
#include "support/near.hpp"
#include "theca/error.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;
using hydraulics::test::errors;
using hydraulics::test::m;
using hydraulics::test::m3_s;
using hydraulics::test::pipe_of;
using hydraulics::test::RandomNetwork;
using hydraulics::test::seawater_nu;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

NetworkPump small_pump(std::size_t from, std::size_t to) {
  NetworkPump pump;
  pump.name = "return pump";
  pump.from = from;
  pump.to = to;
  pump.curve.points = {{0.0 * m3_s, 4.0 * m}, {0.001 * m3_s, 3.0 * m}, {0.002 * m3_s, 0.0 * m}};
  return pump;
}

// Sump, return pump, check valve, tank `rise` over the sump, and an overflow back.
Network one_tank(double rise) {
  Network net;
  net.nodes = {{.name = "sump", .kind = NodeKind::free_surface},
               {.name = "behind pump"},
               {.name = "tank", .kind = NodeKind::free_surface, .level = rise * m}};
  net.pumps = {small_pump(0, 1)};
  net.pipes = {
      {.name = "riser", .from = 1, .to = 2, .pipe = pipe_of(0.03, 4.0, 3.0), .passage = Passage::forward_only},
      {.name = "overflow", .from = 2, .to = 0, .pipe = pipe_of(0.05, 2.0, 2.0), .passage = Passage::forward_only}};
  return net;
}

TEST_CASE(
    "network: random networks keep mass balance to 1e-9 and energy balance along every link, so round every loop") {
  double mass = 0.0, energy = 0.0;
  for (unsigned seed = 1; seed <= 3000; ++seed) {
    const Network net = RandomNetwork(seed).make();
    const auto e = errors(net, solve(net, seawater_nu), seawater_nu);
    mass = std::max(mass, e.mass);
    energy = std::max(energy, e.energy);
  }
  CHECK(mass < 1e-9);
  CHECK(energy < 1e-9);
}

TEST_CASE("network: a warm start after a change of speed gives what a cold start gives") {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    Network net = RandomNetwork(seed).make();
    if (net.pumps.empty()) continue;
    NetworkSolver solver(net);
    (void)solver.solve(net, seawater_nu);
    for (NetworkPump& p : net.pumps) p.relative_speed *= 0.8;
    const NetworkFlow warm = solver.solve(net, seawater_nu), cold = solve(net, seawater_nu);
    double scale = 1e-6;
    for (const VolumeFlow& q : cold.pipe_flows) scale = std::max(scale, std::abs(si(q)));
    const auto same = [scale](const std::vector<VolumeFlow>& a, const std::vector<VolumeFlow>& b) {
      for (std::size_t i = 0; i < b.size(); ++i) CHECK(std::abs(si(a[i]) - si(b[i])) < 1e-9 * scale);
    };
    same(warm.pipe_flows, cold.pipe_flows);
    same(warm.pump_flows, cold.pump_flows);
    same(warm.valve_flows, cold.valve_flows);
  }
}

TEST_CASE("network: from the last solution, a tenth less speed takes at most four Newton steps") {
  // Sump, pump with check valve, twelve tanks along a header. The steps stand for the time, which no test can hold to.
  Network net;
  net.nodes = {{.name = "sump", .kind = NodeKind::free_surface}, {.name = "behind pump"}, {.name = "header"}};
  net.pumps = {small_pump(0, 1)};
  net.pipes = {
      {.name = "check", .from = 1, .to = 2, .pipe = pipe_of(0.05, 1.0, 4.0), .passage = Passage::forward_only}};
  std::size_t last = 2;
  for (int t = 0; t < 12; ++t) {
    const std::size_t tee = net.nodes.size();
    net.nodes.push_back({.name = "tee"});
    net.nodes.push_back({.name = "tank", .kind = NodeKind::free_surface, .level = 1.0 * m});
    net.pipes.push_back({.name = "header", .from = last, .to = tee, .pipe = pipe_of(0.05, 1.5, 0.6)});
    net.pipes.push_back({.name = "branch", .from = tee, .to = tee + 1, .pipe = pipe_of(0.02, 1.0, 8.0)});
    last = tee;
  }
  NetworkSolver solver(net);
  CHECK(solver.solve(net, seawater_nu).iterations > 4);
  CHECK(solver.solve(net, seawater_nu).iterations <= 2);
  for (const double speed : {0.9, 1.0, 0.9}) {
    net.pumps[0].relative_speed = speed;
    const NetworkFlow flow = solver.solve(net, seawater_nu);
    CHECK(flow.iterations <= 4);
    CHECK(flow.status_rounds == 1);
  }
}

TEST_CASE("network: shutting a valve further never raises the flow through it") {
  for (unsigned seed = 1; seed <= 400; ++seed) {
    Network net = RandomNetwork(seed).make();
    if (net.valves.empty()) continue;
    double before = std::abs(si(solve(net, seawater_nu).valve_flows[0]));
    for (int k = 0; k < 4; ++k) {
      net.valves[0].K *= 5.0;
      const double now = std::abs(si(solve(net, seawater_nu).valve_flows[0]));
      CHECK(now <= before + 1e-10);
      before = now;
    }
  }
}

TEST_CASE("network: pump, riser and overflow meet where the pump curve meets the system curve") {
  const Network net = one_tank(1.5);
  const NetworkFlow flow = solve(net, seawater_nu);
  const VolumeFlow q = flow.pump_flows[0];
  CHECK(near(head(net.pumps[0].curve, q), head_loss(net.pipes[0].pipe, q, seawater_nu) + 1.5 * m, 1e-9));
  CHECK(flow.pipe_flows[1] > q);  // the tank's fixed level drives its overflow by itself
  CHECK(near(flow.inflows[2], q - flow.pipe_flows[1], 1e-12));
}

TEST_CASE("network: a shut check valve carries exactly nothing and a pump too weak stands at its shut-off head") {
  const NetworkFlow flow = solve(one_tank(5.0), seawater_nu);
  CHECK(si(flow.pipe_flows[0]) == 0.0);
  CHECK(std::abs(si(flow.pump_flows[0])) < 1e-15);
  CHECK(flow.pump_heads[0] > 3.999 * m);
  CHECK(flow.status_rounds > 1);
}

TEST_CASE("network: a pump without check valve that would run backward is refused by name") {
  Network net = one_tank(5.0);
  net.pipes[0].passage = Passage::both_ways;
  const auto text = message_of<OutOfValidity>([&] { (void)solve(net, seawater_nu); });
  CHECK(contains(text, "return pump"));
  CHECK(contains(text, "backward"));
}

TEST_CASE("network: a pump beyond its curve is refused by name") {
  Network net = one_tank(-5.0);
  net.pipes[1].passage = Passage::shut;
  CHECK(contains(message_of<OutOfValidity>([&] { (void)solve(net, seawater_nu); }), "return pump"));
}

TEST_CASE("network: an outlet that would draw air, and a dry tank that would give water, are refused by name") {
  Network net;
  net.nodes = {{.name = "high", .kind = NodeKind::outlet, .level = 2.0 * m},
               {.name = "low", .kind = NodeKind::free_surface}};
  net.pipes = {{.name = "drop", .from = 0, .to = 1, .pipe = pipe_of(0.03, 2.0, 1.0)}};
  CHECK(contains(message_of<OutOfValidity>([&] { (void)solve(net, seawater_nu); }), "'high'"));
  net.nodes[0].kind = NodeKind::free_surface;
  CHECK(solve(net, seawater_nu).pipe_flows[0] > 0.0 * m3_s);
  net.nodes[0].lowest_opening = 2.0 * m;
  CHECK(contains(message_of<OutOfValidity>([&] { (void)solve(net, seawater_nu); }), "dry"));
  net.pipes[0].passage = Passage::forward_only;
  net.nodes[0].level = -1.0 * m;  // an overflow out of a tank below the other: nothing runs
  net.nodes[0].lowest_opening.reset();
  CHECK(si(solve(net, seawater_nu).pipe_flows[0]) == 0.0);
}

TEST_CASE("network: a junction that cannot be supplied is named") {
  Network net;
  net.nodes = {{.name = "tank", .kind = NodeKind::free_surface, .level = 1.0 * m},
               {.name = "tap", .demand = 1e-4 * m3_s}};
  net.pipes = {{.name = "branch", .from = 1, .to = 0, .pipe = pipe_of(0.02, 3.0), .passage = Passage::forward_only}};
  CHECK(contains(message_of<InvalidInput>([&] { (void)solve(net, seawater_nu); }), "'tap'"));
  net.pipes[0].passage = Passage::shut;
  CHECK(contains(message_of<InvalidInput>([&] { (void)solve(net, seawater_nu); }), "'tap'"));
  net.pipes[0].passage = Passage::both_ways;
  CHECK(near(solve(net, seawater_nu).pipe_flows[0], -1e-4 * m3_s, 1e-12));
  // Fed through one way only, by less than it takes: the rest would have to come against the other check valve.
  net.pipes[0].passage = Passage::forward_only;
  net.nodes.push_back({.name = "feed", .demand = -0.4e-4 * m3_s});
  net.pipes.push_back({.name = "feed pipe", .from = 2, .to = 1, .pipe = pipe_of(0.02, 3.0)});
  CHECK(contains(message_of<InvalidInput>([&] { (void)solve(net, seawater_nu); }), "branch"));
}

TEST_CASE("network: impossible members are refused, named with their node or link") {
  const auto refused = [](auto&& spoil, const char* name, const char* member) {
    Network net = one_tank(1.5);
    net.valves = {{.name = "throttle", .from = 1, .to = 2, .bore = 0.02 * m, .K = 2.0}};
    spoil(net);
    const auto text = message_of<InvalidInput>([&] { validate(net); });
    CHECK(contains(text, name));
    CHECK(contains(text, member));
  };
  const double nan = std::nan("");
  refused([&](Network& n) { n.nodes[2].level = nan * m; }, "tank", "level");
  refused([&](Network& n) { n.nodes[1].demand = nan * m3_s; }, "behind pump", "demand");
  refused([&](Network& n) { n.nodes[0].demand = 1.0 * m3_s; }, "sump", "demand");
  refused([&](Network& n) { n.nodes[1].level = 1.0 * m; }, "behind pump", "level");
  refused([&](Network& n) { n.nodes[1].lowest_opening = 1.0 * m; }, "behind pump", "lowest opening");
  refused([&](Network& n) { n.pipes[0].pipe.bore = 0.0 * m; }, "riser", "bore");
  refused([&](Network& n) { n.pipes[0].pipe = pipe_of(0.03, 0.0); }, "riser", "loses head");
  refused([&](Network& n) { n.pipes[0].to = 7; }, "riser", "to");
  refused([&](Network& n) { n.pipes[0].to = n.pipes[0].from; }, "riser", "to");
  refused([&](Network& n) { n.pumps[0].relative_speed = nan; }, "return pump", "relative speed");
  refused([&](Network& n) { n.pumps[0].curve.points.pop_back(), n.pumps[0].curve.points.pop_back(); }, "return pump",
          "points");
  refused([&](Network& n) { n.valves[0].K = 0.0; }, "throttle", "K");
  refused([&](Network& n) { n.valves[0].bore = nan * m; }, "throttle", "bore");
  const Network net = one_tank(1.5);
  CHECK(contains(message_of<InvalidInput>([&] { (void)solve(net, -1e-6 * units::square_metre_per_second); }),
                 "viscosity"));
  CHECK(contains(message_of<InvalidInput>([] { validate(Network{}); }), "nodes"));
  NetworkSolver solver(net);
  Network other = net;
  other.pipes[0].passage = Passage::both_ways;
  CHECK(contains(message_of<InvalidInput>([&] { (void)solver.solve(other, seawater_nu); }), "layout"));
  other = net;
  other.nodes[2].kind = NodeKind::outlet;
  CHECK(contains(message_of<InvalidInput>([&] { (void)solver.solve(other, seawater_nu); }), "layout"));
  for (const double speed : {0.0, 0.49, 1.21}) {
    other = net;
    other.pumps[0].relative_speed = speed;
    const auto text = message_of<OutOfValidity>([&] { validate(other); });
    CHECK(contains(text, "return pump"));
    CHECK(contains(text, "relative speed"));
  }
}

}  // namespace

TEST_CASE("network: two tanks at one level stay at rest, asked once and again") {
  NetworkPipe open{.name = "open", .from = 0, .to = 1, .pipe = {.bore = 50_mm, .length = 0_m, .roughness = 0_m}};
  open.pipe.minor_loss_K = 2.0;
  NetworkPipe onward = open;
  onward.name = "onward";
  onward.from = 1;
  onward.to = 2;
  Network network;
  network.nodes = {{.name = "left", .kind = NodeKind::free_surface, .level = 1_m},
                   {.name = "middle"},
                   {.name = "right", .kind = NodeKind::free_surface, .level = 1_m}};
  network.pipes = {open, onward};
  NetworkSolver solver(network);
  for (int i = 0; i < 3; ++i) {
    const NetworkFlow flow = solver.solve(network, 1e-6 * units::square_metre_per_second);
    for (const VolumeFlow& q : flow.pipe_flows) CHECK(std::abs(si(q)) < 1e-9);  // no NaN passes this
  }
}
