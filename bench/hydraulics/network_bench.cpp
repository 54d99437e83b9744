// Pipe networks: tank layouts built and solved, solved again at another speed, a grid of 1000 junctions, and trees up
// to 100,000 nodes, whose time should grow in proportion. EPANET on the same layouts:
// tests/reference/hydraulics_network_epanet.mjs time.
#include <benchmark/benchmark.h>

#include <cstdint>

#include "theca/hydraulics/network.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;

const KinematicViscosity water = 1.0e-6 * units::square_metre_per_second;

NetworkPipe pipe_of(std::size_t from, std::size_t to, double bore_mm, double length_m, double K,
                    Passage passage = Passage::both_ways) {
  NetworkPipe p;
  p.from = from;
  p.to = to;
  p.pipe = {.bore = bore_mm * units::millimetre,
            .length = length_m * units::metre,
            .roughness = 1.5 * units::micrometre,
            .minor_loss_K = K};
  p.passage = passage;
  return p;
}

NetworkNode surface(double level_m) {
  NetworkNode node;
  node.kind = NodeKind::free_surface;
  node.level = level_m * units::metre;
  return node;
}

// Sump, pump and check valve, a header with a tank at each tee.
Network tanks(std::size_t count) {
  Network net;
  net.nodes = {surface(0.0), NetworkNode{}, NetworkNode{}};
  NetworkPump pump;
  pump.from = 0;
  pump.to = 1;
  const double size = 0.25 * static_cast<double>(count);
  pump.curve.interpolation = Interpolation::linear;
  const double flow[] = {0.0, 1e-3, 2e-3, 3e-3, 4e-3}, head[] = {4.0, 3.6, 2.8, 1.5, 0.0};
  for (int i = 0; i < 5; ++i)
    pump.curve.points.push_back({size * flow[i] * units::cubic_metre_per_second, head[i] * units::metre});
  net.pumps = {pump};
  net.pipes = {pipe_of(1, 2, 50.0, 1.0, 4.0, Passage::forward_only)};
  std::size_t last = 2;
  for (std::size_t t = 0; t < count; ++t) {
    const std::size_t tee = net.nodes.size();
    net.nodes.emplace_back();
    net.nodes.push_back(surface(1.2 + 0.02 * static_cast<double>(t % 3)));
    net.pipes.push_back(pipe_of(last, tee, 63.0, 1.5, 0.6));
    net.pipes.push_back(pipe_of(tee, tee + 1, 20.0, 1.0, 8.0 + static_cast<double>(t % 4), Passage::forward_only));
    last = tee;
  }
  return net;
}

void build_and_solve(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(solve(tanks(static_cast<std::size_t>(state.range(0))), water));
}

void again_at_another_speed(benchmark::State& state) {
  Network net = tanks(static_cast<std::size_t>(state.range(0)));
  NetworkSolver solver(net);
  benchmark::DoNotOptimize(solver.solve(net, water));
  for (auto _ : state) {
    net.pumps[0].relative_speed = net.pumps[0].relative_speed < 0.95 ? 1.0 : 0.9;
    benchmark::DoNotOptimize(solver.solve(net, water));
  }
}

void grid_of_1000(benchmark::State& state) {
  const std::size_t side = 40, rows = 25;
  for (auto _ : state) {
    Network net;
    net.nodes.assign(side * rows + 1, NetworkNode{});
    for (std::size_t v = 0; v < side * rows; ++v)
      net.nodes[v].demand = (1.0 + static_cast<double>(v % 7)) * 3e-6 * units::cubic_metre_per_second;
    net.nodes.back() = surface(20.0);
    net.pipes.push_back(pipe_of(side * rows, 0, 200.0, 2.0, 1.0));
    for (std::size_t v = 0; v < side * rows; ++v) {
      const double K = 1.0 + static_cast<double>(v % 9);
      if (v % side + 1 < side) net.pipes.push_back(pipe_of(v, v + 1, 60.0, 2.0, K));
      if (v + side < side * rows) net.pipes.push_back(pipe_of(v, v + side, 60.0, 2.0, K));
    }
    benchmark::DoNotOptimize(solve(net, water));
  }
}

// Every node feeds two more, from one tank.
void tree(benchmark::State& state) {
  const auto count = static_cast<std::size_t>(state.range(0));
  Network net;
  net.nodes.assign(count, NetworkNode{});
  net.nodes[0] = surface(10.0);
  for (std::size_t v = 1; v < count; ++v) {
    net.nodes[v].demand = 1e-6 * units::cubic_metre_per_second;
    net.pipes.push_back(pipe_of((v - 1) / 2, v, 50.0 + 400.0 / static_cast<double>(v), 2.0, 1.0));
  }
  for (auto _ : state) benchmark::DoNotOptimize(solve(net, water));
  state.SetComplexityN(static_cast<std::int64_t>(count));
}

BENCHMARK(build_and_solve)->Arg(4)->Arg(12)->Arg(48)->Unit(benchmark::kMicrosecond);
BENCHMARK(again_at_another_speed)->Arg(4)->Arg(12)->Arg(48)->Unit(benchmark::kMicrosecond);
BENCHMARK(grid_of_1000)->Unit(benchmark::kMillisecond);
BENCHMARK(tree)->RangeMultiplier(10)->Range(100, 100000)->Unit(benchmark::kMillisecond)->Complexity();

}  // namespace
