// Time to bend one wall panel of a grow-out tank, by degree: a host may do so on every change of a slider. Beside each
// time stand the errors at that degree, against degree 24: `deflection_error` and `tension_error` of the largest ones.
#include <benchmark/benchmark.h>

#include <cmath>

#include "theca/materials/glass.hpp"
#include "theca/structure/bend.hpp"

namespace {

using namespace theca;
using namespace theca::literals;

const structure::PressureLoad water = structure::hydrostatic(14_in, 1023_kg_m3);

enum Kind { free_top, all_hinged, clamped_bottom };

structure::Panel wall(double aspect, Kind kind) {
  const Length height = 15.53_in;
  return {.width = aspect * height,
          .height = height,
          .thickness = 11.91_mm,
          .material = materials::float_glass(),
          .bottom = kind == clamped_bottom ? structure::clamped() : structure::hinged(),
          .top = kind == all_hinged ? structure::hinged() : structure::free_edge()};
}

void report_errors(benchmark::State& state, const structure::Panel& panel, int degree) {
  const structure::BentPanel got = structure::bend(panel, water, degree);
  const structure::BentPanel fine = structure::bend(panel, water, 24);
  state.counters["deflection_error"] = std::abs(si(got.max_deflection) / si(fine.max_deflection) - 1.0);
  state.counters["tension_error"] = std::abs(si(got.max_tension) / si(fine.max_tension) - 1.0);
}

/// Arguments: degree, kind of wall, width over height.
void bend_symmetric(benchmark::State& state) {
  const int degree = static_cast<int>(state.range(0));
  const structure::Panel panel = wall(static_cast<double>(state.range(2)), static_cast<Kind>(state.range(1)));
  for (auto _ : state) benchmark::DoNotOptimize(structure::bend(panel, water, degree));
  report_errors(state, panel, degree);
}
BENCHMARK(bend_symmetric)
    ->ArgNames({"degree", "kind", "aspect"})
    ->ArgsProduct({{8, 10, 12, 14}, {free_top, all_hinged, clamped_bottom}, {1, 3, 6}})
    ->Unit(benchmark::kMicrosecond);

// Different sides double the unknowns.
void bend_unsymmetric(benchmark::State& state) {
  const int degree = static_cast<int>(state.range(0));
  structure::Panel panel = wall(3.0, free_top);
  panel.right = structure::clamped();
  for (auto _ : state) benchmark::DoNotOptimize(structure::bend(panel, water, degree));
  report_errors(state, panel, degree);
}
BENCHMARK(bend_unsymmetric)->ArgName("degree")->DenseRange(8, 16, 2)->Unit(benchmark::kMicrosecond);

/// A hand on the rim, a tool box, two small contacts: finite elements around them.
void bend_under_patches(benchmark::State& state) {
  const structure::Panel panel = wall(3.0, free_top);
  structure::PanelLoad load{water, {}, {}};
  const auto rim = [&panel](const Length& x, const Length& width, const Length& height) {
    return structure::PatchLoad{x, panel.height - 0.5 * height, width, height, 200_N};
  };
  if (state.range(0) == 0) load.patches = {rim(0.5 * panel.width, 80_mm, 80_mm)};
  if (state.range(0) == 1) load.patches = {rim(0.5 * panel.width, 300_mm, 12_mm)};
  if (state.range(0) == 2) load.patches = {rim(0.3 * panel.width, 20_mm, 20_mm), rim(0.7 * panel.width, 20_mm, 20_mm)};
  for (auto _ : state) benchmark::DoNotOptimize(structure::bend_under(panel, load));
}
BENCHMARK(bend_under_patches)->ArgName("hand_box_two")->DenseRange(0, 2)->Unit(benchmark::kMillisecond);

void state_at_a_place(benchmark::State& state) {
  const structure::BentPanel bent = structure::bend(wall(6.0, free_top), water);
  for (auto _ : state) benchmark::DoNotOptimize(bent.at(1_m, 200_mm));
}
BENCHMARK(state_at_a_place);

}  // namespace
