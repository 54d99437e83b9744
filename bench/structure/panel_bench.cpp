// Time to bend one wall panel of a grow-out tank, by degree: a host may do so on every change of a slider.
#include <benchmark/benchmark.h>

#include "theca/materials/glass.hpp"
#include "theca/structure/bend.hpp"

namespace {

using namespace theca;
using namespace theca::literals;

const structure::PressureLoad water = structure::hydrostatic(14_in, 1023_kg_m3);

structure::Panel long_wall() {
  return {.width = 95.06_in,
          .height = 15.53_in,
          .thickness = 11.91_mm,
          .material = materials::float_glass(),
          .top = structure::hinged()};
}

void bend_symmetric(benchmark::State& state) {
  const structure::Panel wall = long_wall();
  for (auto _ : state) benchmark::DoNotOptimize(structure::bend(wall, water, static_cast<int>(state.range(0))));
}
BENCHMARK(bend_symmetric)->DenseRange(8, 16, 2)->Unit(benchmark::kMicrosecond);

// Different sides double the unknowns.
void bend_unsymmetric(benchmark::State& state) {
  structure::Panel wall = long_wall();
  wall.right = structure::clamped();
  for (auto _ : state) benchmark::DoNotOptimize(structure::bend(wall, water, static_cast<int>(state.range(0))));
}
BENCHMARK(bend_unsymmetric)->DenseRange(8, 16, 2)->Unit(benchmark::kMicrosecond);

void state_at_a_place(benchmark::State& state) {
  const structure::BentPanel bent = structure::bend(long_wall(), water);
  for (auto _ : state) benchmark::DoNotOptimize(bent.at(1_m, 200_mm));
}
BENCHMARK(state_at_a_place);

}  // namespace
