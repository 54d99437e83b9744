// Time to bend and stretch one wall panel, by degree: a square plate with two symmetries, a wall under water with one,
// and a wall with none, each with a deflection of two to four thicknesses.
#include <benchmark/benchmark.h>

#include "theca/materials/glass.hpp"
#include "theca/structure/large_deflection.hpp"

namespace {

using namespace theca;
using namespace theca::literals;
using structure::InPlane;

structure::Panel wall() {
  return {.width = 1.6_m, .height = 600_mm, .thickness = 4_mm, .material = materials::float_glass()};
}

void report(benchmark::State& state, const structure::Panel& panel, const structure::PressureLoad& load) {
  const auto condition = state.range(1) == 0 ? InPlane::slides : InPlane::held;
  const auto edges = structure::supported_edges(panel, condition);
  const int degree = static_cast<int>(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(structure::bend_large(panel, load, edges, degree));
  const auto bent = structure::bend_large(panel, load, edges, degree);
  state.counters["deflection/thickness"] = bent.deflection_over_thickness;
  state.counters["MPa"] = in(bent.max_tension, units::megapascal);
}

void square_plate(benchmark::State& state) {
  structure::Panel panel = wall();
  panel.width = panel.height = 1_m;
  panel.top = structure::hinged();
  report(state, panel, structure::uniform(500_Pa));
}
BENCHMARK(square_plate)->ArgsProduct({{8, 10, 12}, {0, 1}})->Unit(benchmark::kMillisecond);

void wall_under_water(benchmark::State& state) { report(state, wall(), structure::hydrostatic(300_mm, 1023_kg_m3)); }
BENCHMARK(wall_under_water)->ArgsProduct({{8, 10, 12}, {0, 1}})->Unit(benchmark::kMillisecond);

void unsymmetric_wall_under_water(benchmark::State& state) {
  structure::Panel panel = wall();
  panel.right = structure::clamped();
  report(state, panel, structure::hydrostatic(300_mm, 1023_kg_m3));
}
BENCHMARK(unsymmetric_wall_under_water)->ArgsProduct({{8, 10}, {0, 1}})->Unit(benchmark::kMillisecond);

}  // namespace
