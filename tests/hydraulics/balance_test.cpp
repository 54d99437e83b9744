#include "theca/hydraulics/balance.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "hydraulics/random_network.hpp"
#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/hydraulics/pump_performance.hpp"
#include "theca/hydraulics/pump_speed.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;
using hydraulics::test::m;
using hydraulics::test::m3_s;
using hydraulics::test::pipe_of;
using hydraulics::test::RandomNetwork;
using hydraulics::test::seawater_nu;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

constexpr auto lph = units::litre_per_hour;

NetworkPipe pipe(std::size_t from, std::size_t to, double bore_mm, double length_m, double K,
                 Passage passage = Passage::both_ways) {
  NetworkPipe p;
  p.from = from;
  p.to = to;
  p.pipe = pipe_of(1e-3 * bore_mm, length_m, K);
  p.passage = passage;
  return p;
}

NetworkValve valve(const std::string& name, std::size_t from, std::size_t to, double bore_mm, double K) {
  return {.name = name, .from = from, .to = to, .bore = bore_mm * units::millimetre, .K = K};
}

NetworkPump pump(std::size_t from, std::size_t to) {
  NetworkPump p;
  p.from = from;
  p.to = to;
  p.curve.points = {{0.0 * m3_s, 6.0 * m}, {1e-3 * m3_s, 5.0 * m}, {2e-3 * m3_s, 3.2 * m}, {3e-3 * m3_s, 0.0 * m}};
  return p;
}

// Sump, pump, check valve, a header with four tanks of unlike height and distance, a valve before each tank's pipe.
// `loop` closes the header to a ring.
Network four_tanks(bool loop = false) {
  Network net;
  net.nodes = {{.name = "sump", .kind = NodeKind::free_surface}, {.name = "behind pump"}};
  net.pumps = {pump(0, 1)};
  std::size_t last = 1;
  const double level[] = {1.2, 1.5, 1.3, 1.4};
  for (int t = 0; t < 4; ++t) {
    const std::size_t tee = net.nodes.size();
    net.nodes.push_back({.name = "tee"});
    net.nodes.push_back({.name = "behind valve"});
    net.nodes.push_back({.name = "tank", .kind = NodeKind::free_surface, .level = level[t] * m});
    net.pipes.push_back(
        pipe(last, tee, 40.0, 2.0, t == 0 ? 4.0 : 0.5, t == 0 ? Passage::forward_only : Passage::both_ways));
    net.valves.push_back(valve("tank " + std::to_string(t + 1), tee, tee + 1, 20.0, 0.3));
    net.pipes.push_back(pipe(tee + 1, tee + 2, 20.0, 1.5, 3.0));
    last = tee;
  }
  if (loop) net.pipes.push_back(pipe(last, 2, 25.0, 6.0, 1.0));
  return net;
}

std::vector<WantedFlow> all(const Network& net, double litres_per_hour) {
  std::vector<WantedFlow> wanted;
  for (std::size_t v = 0; v < net.valves.size(); ++v) wanted.push_back({v, litres_per_hour * lph});
  return wanted;
}

Network set(Network net, const std::vector<WantedFlow>& wanted, const ValveSettings& settings) {
  for (std::size_t i = 0; i < wanted.size(); ++i) net.valves[wanted[i].valve].K = settings.K[i];
  for (NetworkPump& p : net.pumps) p.relative_speed *= settings.speed_factor;
  return net;
}
}  // namespace

TEST_CASE("balance: the network solved with the K found gives the wanted flows, on a header and on a ring") {
  for (const bool loop : {false, true}) {
    const Network net = four_tanks(loop);
    std::vector<WantedFlow> wanted = all(net, 1200.0);
    wanted[2].flow = 800.0 * lph;
    const ValveSettings s = balance(net, wanted, seawater_nu);
    const NetworkFlow flow = solve(set(net, wanted, s), seawater_nu);
    for (const WantedFlow& w : wanted) CHECK(near(flow.valve_flows[w.valve], w.flow, 1e-8));
    CHECK(s.largest_deviation < 1e-8);
    // One is the index branch; the others are throttled more than it.
    for (std::size_t i = 0; i < 4; ++i) {
      CHECK(s.surplus_heads[i] >= s.surplus_heads[s.index]);
      CHECK(s.K[i] >= net.valves[i].K);
    }
    // The tank of lowest level and smallest flow burns most.
    CHECK(s.surplus_heads[2] == *std::max_element(s.surplus_heads.begin(), s.surplus_heads.end()));
  }
}

TEST_CASE("balance: K of two valves on one header, worked by hand") {
  // All losses are K on the velocity head of one bore, so that heads follow from h = K v^2 / 2g alone.
  Network net;
  net.nodes = {{.name = "high", .kind = NodeKind::free_surface, .level = 2.0 * m},
               {.name = "header"},
               {.name = "near", .kind = NodeKind::free_surface},
               {.name = "end"},
               {.name = "far", .kind = NodeKind::outlet, .level = 0.5 * m}};
  net.pipes = {pipe(0, 1, 30.0, 0.0, 2.0), pipe(1, 3, 30.0, 0.0, 1.0)};
  net.valves = {valve("near", 1, 2, 30.0, 0.2), valve("far", 3, 4, 30.0, 0.2)};
  const double area = 0.25 * 3.14159265358979323846 * 0.03 * 0.03;
  const std::vector<WantedFlow> wanted = {{0, 0.8 * area * m3_s}, {1, 1.2 * area * m3_s}};  // 0.8 and 1.2 m/s
  const auto head_of = [](double v) { return v * v / (2.0 * 9.80665); };
  const double header = 2.0 - 2.0 * head_of(2.0);
  const ValveSettings s = balance(net, wanted, seawater_nu);
  CHECK(near(s.K[0], header / head_of(0.8), 1e-8));
  CHECK(near(s.K[1], (header - 1.0 * head_of(1.2) - 0.5) / head_of(1.2), 1e-8));
  CHECK(near(si(s.surplus_heads[1]), (s.K[1] - 0.2) * head_of(1.2), 1e-12));
  CHECK(s.index == 1);
  CHECK(near(throttling_power(s, wanted, 1025.0 * units::kilogram_per_cubic_metre),
             hydraulic_power(wanted[0].flow, s.surplus_heads[0], 1025.0 * units::kilogram_per_cubic_metre) +
                 hydraulic_power(wanted[1].flow, s.surplus_heads[1], 1025.0 * units::kilogram_per_cubic_metre),
             1e-14));
  // Far valve: 1.4 m is not to be had with 1 + 0.2 velocity heads at 3.6 m/s on its way.
  const std::vector<WantedFlow> much = {{0, 0.2 * area * m3_s}, {1, 3.6 * area * m3_s}};
  const double lacking = 0.5 + 1.2 * head_of(3.6) - (2.0 - 2.0 * head_of(3.8));
  const auto message = message_of<OutOfValidity>([&] { (void)balance(net, much, seawater_nu); });
  CHECK(contains(message, "valve 'far'"));
  CHECK(contains(message, text(lacking * m)));
}

TEST_CASE("balance: who wants the flows of the open valves leaves them open") {
  for (const bool loop : {false, true}) {
    const Network net = four_tanks(loop);
    const NetworkFlow open = solve(net, seawater_nu);
    std::vector<WantedFlow> wanted;
    for (std::size_t v = 0; v < 4; ++v) wanted.push_back({v, open.valve_flows[v]});
    const ValveSettings s = balance(net, wanted, seawater_nu);
    for (const double K : s.K) CHECK(near(K, 0.3, 1e-6));  // 1e-8 of the head range over 0.3 velocity heads
    for (const Length& left : s.surplus_heads) CHECK(within(left, 0.0 * m, 1e-8 * m));
    CHECK(s.largest_deviation < 1e-8);
    CHECK(within(balance_at_least_speed(net, wanted, seawater_nu).speed_factor, 1.0, 1e-7));
  }
}

TEST_CASE("balance: the K of a throttled network are found again from its flows, whatever the network") {
  int tried = 0;
  for (unsigned seed = 1; seed <= 1500; ++seed) {
    Network net = RandomNetwork(seed).make();
    NetworkFlow flow;
    try {
      flow = solve(net, seawater_nu);
    } catch (const OutOfValidity&) {
      continue;
    }
    std::vector<WantedFlow> wanted;
    std::vector<double> K;
    double scale = 0.0;
    for (const VolumeFlow& q : flow.pipe_flows) scale = std::max(scale, std::abs(si(q)));
    for (std::size_t v = 0; v < net.valves.size(); ++v) {
      if (si(flow.valve_flows[v]) <= 1e-2 * scale) continue;  // the smaller the flow, the less of its K the heads show
      wanted.push_back({v, flow.valve_flows[v]});
      K.push_back(net.valves[v].K);
      net.valves[v].K *= 0.25;
    }
    if (wanted.empty()) continue;
    const ValveSettings s = balance(net, wanted, seawater_nu);
    CHECK(s.largest_deviation < 1e-8);
    const auto [low, high] = std::minmax_element(flow.heads.begin(), flow.heads.end());
    for (std::size_t i = 0; i < K.size(); ++i) {
      const NetworkValve& v = net.valves[wanted[i].valve];
      const double speed = si(wanted[i].flow) / si(bore_area(v.bore));
      CHECK(std::abs(s.K[i] - K[i]) * speed * speed / (2.0 * 9.80665) < 1e-8 * si(*high - *low));
    }
    ++tried;
  }
  CHECK(tried > 300);
}

TEST_CASE("balance: twice the flow on four times the head needs the same K where all losses are quadratic") {
  Network net = four_tanks();
  for (NetworkPipe& p : net.pipes) {
    p.pipe.minor_loss_K += 20.0 * si(p.pipe.length);
    p.pipe.length = 0.0 * m;
  }
  const ValveSettings one = balance(net, all(net, 600.0), seawater_nu);
  for (NetworkNode& node : net.nodes) node.level *= 4.0;
  for (CurvePoint& p : net.pumps[0].curve.points) p = {2.0 * p.flow, 4.0 * p.head};
  const ValveSettings two = balance(net, all(net, 1200.0), seawater_nu);
  for (std::size_t i = 0; i < 4; ++i) CHECK(near(two.K[i], one.K[i], 1e-8));
  CHECK(one.index == two.index);
}

TEST_CASE("balance: at the least speed the index valve is open, all flows hold, and the pump gives no head to spare") {
  for (const bool loop : {false, true}) {
    const Network net = four_tanks(loop);
    const std::vector<WantedFlow> wanted = all(net, 900.0);
    const ValveSettings now = balance(net, wanted, seawater_nu);
    const ValveSettings slow = balance_at_least_speed(net, wanted, seawater_nu);
    CHECK(slow.speed_factor < 1.0);
    CHECK(within(slow.surplus_heads[slow.index], 0.0 * m, 1e-9 * m));
    CHECK(near(slow.K[slow.index], 0.3, 1e-8));
    CHECK(slow.largest_deviation < 1e-8);
    for (const WantedFlow& w : wanted)
      CHECK(near(solve(set(net, wanted, slow), seawater_nu).valve_flows[w.valve], w.flow, 1e-8));
    // The same flow on the way to every branch: each is rid of the head that the index branch burnt.
    CHECK(slow.index == now.index);
    for (std::size_t i = 0; i < 4; ++i)
      CHECK(within(now.surplus_heads[i] - slow.surplus_heads[i], now.surplus_heads[now.index], 1e-8 * m));
    CHECK(within(now.flow.pump_heads[0] - slow.flow.pump_heads[0], now.surplus_heads[now.index], 1e-8 * m));
    // Another way to that speed: the pump's own law at the head and flow that are left.
    CHECK(near(slow.speed_factor,
               speed_ratio_for(net.pumps[0].curve, 3600.0 * lph, now.flow.pump_heads[0] - now.surplus_heads[now.index]),
               1e-8));
    Network slower = net;
    slower.pumps[0].relative_speed = 0.9999 * slow.speed_factor;
    CHECK_THROWS_AS((void)balance(slower, wanted, seawater_nu), OutOfValidity);
  }
}

TEST_CASE("balance: flows that a slow pump cannot give are had at a higher speed, up to 1.2 of its curve") {
  Network net = four_tanks();
  const std::vector<WantedFlow> wanted = all(net, 900.0);
  const ValveSettings full = balance_at_least_speed(net, wanted, seawater_nu);
  net.pumps[0].relative_speed = 0.95 * full.speed_factor;
  CHECK(contains(message_of<OutOfValidity>([&] { (void)balance(net, wanted, seawater_nu); }), "valve 'tank 2'"));
  CHECK(near(balance_at_least_speed(net, wanted, seawater_nu).speed_factor, 1.0 / 0.95, 1e-8));
  // 2700 L/h lack head even at 1.2: the refusal names the branch and the speed tried.
  const auto fast =
      message_of<OutOfValidity>([&] { (void)balance_at_least_speed(four_tanks(), all(net, 2700.0), seawater_nu); });
  CHECK(contains(fast, "valve 'tank "));
  CHECK(contains(fast, "1.2 times as fast"));
}

TEST_CASE("balance: the search stops at half speed, and where the pump's curve ends") {
  Network net = four_tanks();
  for (NetworkNode& node : net.nodes) node.level = 0.0 * m;
  const ValveSettings half = balance_at_least_speed(net, all(net, 100.0), seawater_nu);
  CHECK(half.speed_factor == 0.5);
  CHECK(half.surplus_heads[half.index] > 0.5 * m);
  // A curve that ends at 1e-3 m3/s with much head left: 3600 L/h need the whole of it.
  net.pumps[0].curve.points = {{0.0 * m3_s, 20.0 * m}, {1e-3 * m3_s, 19.0 * m}};
  const ValveSettings end = balance_at_least_speed(net, all(net, 720.0), seawater_nu);
  CHECK(near(end.speed_factor, 0.8, 2e-8));
  CHECK(end.surplus_heads[end.index] > 1.0 * m);
}

TEST_CASE("balance: a valve between two free surfaces, and one valve of several on the list") {
  Network net;
  net.nodes = {{.name = "upper", .kind = NodeKind::free_surface, .level = 1.0 * m},
               {.name = "lower", .kind = NodeKind::free_surface}};
  net.valves = {valve("equaliser", 0, 1, 25.0, 1.0), valve("drain", 0, 1, 25.0, 1.0)};
  const double area = si(bore_area(25.0 * units::millimetre));
  const ValveSettings s = balance(net, {{0, 1.0 * area * m3_s}}, seawater_nu);
  CHECK(near(s.K[0], 2.0 * 9.80665, 1e-12));  // 1 m of head at 1 m/s
  CHECK(near(s.flow.valve_flows[1], std::sqrt(2.0 * 9.80665) * area * m3_s, 1e-8));
}

TEST_CASE("balance: impossible input is refused by name") {
  const Network net = four_tanks();
  const auto refuses = [&](const Network& n, const std::vector<WantedFlow>& wanted, const char* words) {
    CHECK(contains(message_of<InvalidInput>([&] { (void)balance(n, wanted, seawater_nu); }), words));
  };
  refuses(net, {}, "number of wanted flows");
  refuses(net, {{4, 100.0 * lph}}, "place of a valve, 0 to 3");
  refuses(net, {{1, -100.0 * lph}}, "valve 'tank 2'");
  refuses(net, {{1, std::numeric_limits<double>::quiet_NaN() * lph}}, "valve 'tank 2'");
  refuses(net, {{1, 100.0 * lph}, {1, 100.0 * lph}}, "one flow a valve");
  Network shut = net;
  shut.valves[0].passage = Passage::shut;
  refuses(shut, all(shut, 100.0), "the valve is shut");
  Network series = net;  // two valves in series leave the head between them open
  series.valves.push_back(valve("second", 3, 4, 20.0, 1.0));
  series.pipes[1].passage = Passage::shut;
  refuses(series, all(series, 100.0), "the wanted flows being imposed");
  CHECK(contains(message_of<OutOfValidity>([&] { (void)balance(net, all(net, 4000.0), seawater_nu); }), "pump"));
  Network still;
  still.nodes = {{.name = "upper", .kind = NodeKind::free_surface, .level = 1.0 * m},
                 {.name = "lower", .kind = NodeKind::free_surface}};
  still.valves = {valve("equaliser", 0, 1, 25.0, 1.0)};
  CHECK(contains(message_of<InvalidInput>([&] {
                   (void)balance_at_least_speed(still, {{0, 1e-4 * m3_s}}, seawater_nu);
                 }),
                 "number of pumps"));
  Network slow = net;
  slow.pumps[0].relative_speed = 0.4;
  CHECK_THROWS_AS((void)balance_at_least_speed(slow, all(slow, 100.0), seawater_nu), OutOfValidity);
  CHECK(contains(message_of<InvalidInput>([&] { (void)balance(net, all(net, 100.0), -seawater_nu); }),
                 "kinematic viscosity = "));
  CHECK_THROWS_AS((void)throttling_power({}, all(net, 1.0), 1000.0 * units::kilogram_per_cubic_metre), InvalidInput);
}
