// Head loss of 4096 pipes: on quantities and on raw doubles. The claim is that the two take the same time.
#include <benchmark/benchmark.h>

#include <cmath>
#include <cstdint>
#include <vector>

#include "theca/hydraulics/friction.hpp"

namespace {
using namespace theca;

constexpr std::size_t pipes = 4096;

double flow_of(std::size_t i) { return 1e-5 * std::pow(1.0015, static_cast<double>(i)); }  // laminar to turbulent

void typed(benchmark::State& state) {
  std::vector<VolumeFlow> flow(pipes);
  std::vector<Length> loss(pipes);
  for (std::size_t i = 0; i < pipes; ++i) flow[i] = from_si<VolumeFlow>(flow_of(i));
  const Length bore = 26.6 * units::millimetre, length = 5.0 * units::foot, roughness = 1.5 * units::micrometre;
  const KinematicViscosity water = 0.93e-6 * units::square_metre_per_second;
  for (auto _ : state) {
    for (std::size_t i = 0; i < pipes; ++i)
      loss[i] = hydraulics::head_loss_friction(flow[i], bore, length, roughness, water);
    benchmark::DoNotOptimize(loss.data());
    benchmark::ClobberMemory();
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(pipes));
}

void raw(benchmark::State& state) {
  std::vector<double> flow(pipes), loss(pipes);
  for (std::size_t i = 0; i < pipes; ++i) flow[i] = flow_of(i);
  const double bore = 0.0266, length = 1.524, roughness = 1.5e-6, water = 0.93e-6;
  for (auto _ : state) {
    for (std::size_t i = 0; i < pipes; ++i)
      loss[i] = hydraulics::kernel::head_loss(flow[i], bore, length, roughness, 0.0, water).loss_m;
    benchmark::DoNotOptimize(loss.data());
    benchmark::ClobberMemory();
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(pipes));
}
}  // namespace

BENCHMARK(typed)->Name("hydraulics/head_loss/typed");
BENCHMARK(raw)->Name("hydraulics/head_loss/raw_double");
