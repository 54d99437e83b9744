// Pipe networks: tank layouts built and solved, solved again at another speed, a grid of 1000 junctions, and trees up
// to 100,000 nodes, whose time should grow in proportion. Beside EPANET on the same layouts: against_epanet/run.sh.
#include <benchmark/benchmark.h>

#include <cstdint>

#include "network_layouts.hpp"
#include "theca/hydraulics/network.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;
using namespace theca::hydraulics::bench;

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
  for (auto _ : state) benchmark::DoNotOptimize(solve(bench::grid_of_1000(), water));
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
