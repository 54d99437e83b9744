// Balancing a header of tanks: valve settings at the pump's speed, and at the least speed that will do.
#include <benchmark/benchmark.h>

#include <cstddef>
#include <vector>

#include "network_layouts.hpp"
#include "theca/hydraulics/balance.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;
using namespace theca::hydraulics::bench;

struct Farm {
  Network network;
  std::vector<WantedFlow> wanted;
};

// Sump, pump, a header with a tank at each tee, each behind its valve.
Farm valved_tanks(std::size_t count) {
  Farm farm;
  Network& net = farm.network;
  net.nodes = {surface(0.0), NetworkNode{}};
  NetworkPump pump;
  pump.to = 1;
  const double most = 5e-4 * static_cast<double>(count);
  pump.curve.points = {{0.0 * units::cubic_metre_per_second, 6.0 * units::metre},
                       {0.5 * most * units::cubic_metre_per_second, 5.0 * units::metre},
                       {most * units::cubic_metre_per_second, 0.0 * units::metre}};
  net.pumps = {pump};
  std::size_t last = 1;
  for (std::size_t t = 0; t < count; ++t) {
    const std::size_t tee = net.nodes.size();
    net.nodes.insert(net.nodes.end(), {NetworkNode{}, NetworkNode{}, surface(1.2 + 0.05 * static_cast<double>(t % 3))});
    net.pipes.push_back(pipe_of(last, tee, 110.0, 1.0, 0.3));
    net.pipes.push_back(pipe_of(tee + 1, tee + 2, 20.0, 1.5, 3.0));
    NetworkValve valve;
    valve.from = tee;
    valve.to = tee + 1;
    valve.bore = 20.0 * units::millimetre;
    valve.K = 0.3;
    net.valves.push_back(valve);
    farm.wanted.push_back({t, 2.5e-4 * units::cubic_metre_per_second});
    last = tee;
  }
  return farm;
}

void settings(benchmark::State& state) {
  const Farm farm = valved_tanks(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(balance(farm.network, farm.wanted, water));
}

void least_speed(benchmark::State& state) {
  const Farm farm = valved_tanks(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(balance_at_least_speed(farm.network, farm.wanted, water));
}
}  // namespace

BENCHMARK(settings)->Arg(8)->Arg(32)->Unit(benchmark::kMicrosecond);
BENCHMARK(least_speed)->Arg(8)->Arg(32)->Unit(benchmark::kMicrosecond);
