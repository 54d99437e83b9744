// Time of light field maps: the demo's seven luminaires of six points on 24 x 8 cells, open, with mirror walls and
// between panes.
#include <benchmark/benchmark.h>

#include "theca/light/field.hpp"
#include "theca/light/luminaire_choice.hpp"
#include "theca/light/placement.hpp"

namespace {
using namespace theca;
using namespace theca::light;
using namespace theca::literals;

Luminaire luminaire() {
  TabulatedIntensity table;
  double angle_deg = 0.0;
  for (const double value : {94.0, 93.0, 87.0, 75.0, 57.0, 36.0, 18.0, 7.0, 2.0, 0.0}) {
    table.angles.push_back(angle_deg * units::degree);
    table.values.push_back(value * units::umol_per_second_steradian);
    angle_deg += 10.0;
  }
  return {.intensity = table,
          .aperture_length = 18_in,
          .aperture_width = 6_in,
          .points_along = 3,
          .points_across = 2,
          .power = 84_W};
}

Waterbody tank(Walls walls) {
  return {.length = 96_in - 24_mm,
          .width = 30_in - 24_mm,
          .refractive_index = 1.339,
          .attenuation = 0.15_per_m,
          .walls = walls,
          .wall_reflectance = 0.9};
}

void demo_map(benchmark::State& state, Walls walls) {
  const Waterbody water = tank(walls);
  const auto row = evenly_spaced(luminaire(), 7, water.length, water.width, 30_in, 90_deg);
  for (auto _ : state) benchmark::DoNotOptimize(map(row, water, 8_in, 24, 8).values.data());
  state.SetItemsProcessed(state.iterations() * 7 * 6 * 24 * 8);
}
BENCHMARK_CAPTURE(demo_map, walls_ignored, Walls::ignored)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(demo_map, mirror_walls, Walls::mirror)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(demo_map, panes, Walls::pane)->Unit(benchmark::kMillisecond);

/// The fewest luminaires for the demo tank among many places, their dimming, the field checked again.
void placing(benchmark::State& state, Walls walls, int along, int across) {
  const LitPlane plane{.water = tank(walls), .depth = 8_in};
  const auto places =
      candidate_places(luminaire(), plane.water.length, plane.water.width, 30_in, along, across, 90_deg);
  const PpfdTarget target{
      .lower_mean = 200_umol_m2_s, .upper_mean = 350_umol_m2_s, .highest = 450_umol_m2_s, .min_over_mean = 0.5};
  for (auto _ : state) benchmark::DoNotOptimize(fewest_luminaires(target, places, plane));
}
BENCHMARK_CAPTURE(placing, 19_places_open, Walls::ignored, 19, 1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(placing, 19_places_panes, Walls::pane, 19, 1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(placing, 60_places_panes, Walls::pane, 20, 3)->Unit(benchmark::kMillisecond);

void height_for_mean(benchmark::State& state) {
  const LitPlane plane{.water = tank(Walls::ignored), .depth = 8_in};
  const Luminaire lamp = luminaire();
  for (auto _ : state)
    benchmark::DoNotOptimize(mounting_height_for(250_umol_m2_s, lamp, 7, plane, 12_in, 72_in, 90_deg));
}
BENCHMARK(height_for_mean)->Unit(benchmark::kMillisecond);
}  // namespace
