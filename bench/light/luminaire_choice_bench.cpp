// Time to place fixtures: the fewest luminaires for the demo tank among many places, their dimming, the field checked
// again.
#include <benchmark/benchmark.h>

#include "light_bench_scene.hpp"
#include "theca/light/luminaire_choice.hpp"

namespace {
using namespace theca;
using namespace theca::light;
using namespace theca::literals;

void placing(benchmark::State& state, Walls walls, int along, int across) {
  const LitPlane plane{.water = bench::demo_tank(walls), .depth = 8_in};
  const auto places =
      candidate_places(bench::luminaire(), plane.water.length, plane.water.width, 30_in, along, across, 90_deg);
  const PpfdTarget target{
      .lower_mean = 200_umol_m2_s, .upper_mean = 350_umol_m2_s, .highest = 450_umol_m2_s, .min_over_mean = 0.5};
  for (auto _ : state) benchmark::DoNotOptimize(fewest_luminaires(target, places, plane));
}
BENCHMARK_CAPTURE(placing, 19_places_open, Walls::ignored, 19, 1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(placing, 19_places_panes, Walls::pane, 19, 1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(placing, 60_places_panes, Walls::pane, 20, 3)->Unit(benchmark::kMillisecond);
}  // namespace
