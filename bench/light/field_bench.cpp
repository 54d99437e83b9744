// Time of light field maps: a 3 m tank between panes with six fixtures, its cost against fixtures, bands, image order
// and cells, what the error is and what a photon tracer takes for the same; the demo tank with seven fixtures.
#include <benchmark/benchmark.h>

#include <chrono>
#include <cmath>

#include "../../tests/light/photon_tracer.hpp"
#include "light_bench_scene.hpp"

namespace {
using namespace theca;
using namespace theca::light;
using namespace theca::literals;

struct Case {
  int fixtures = 6;
  int bands = 5;
  int nx = 96, ny = 32;
  Length depth = 8_in;
  Walls walls = Walls::pane;
};

PpfdMap lit(const Case& c, const Luminaire& lamp) {
  const Waterbody tank = bench::long_tank(c.walls);
  const auto row = evenly_spaced(lamp, c.fixtures, tank.length, tank.width, 30_in);
  static const auto bands = [] {
    std::vector<std::vector<BandOptics>> all;
    for (int count = 0; count <= 20; ++count)
      all.push_back(count > 0 ? bench::bands(count) : std::vector<BandOptics>());
    return all;
  }();
  return map(row, tank, bands[static_cast<std::size_t>(c.bands)], c.depth, c.nx, c.ny);
}

void tank_of_3_m(benchmark::State& state, const Case& c, const Luminaire& lamp) {
  for (auto _ : state) benchmark::DoNotOptimize(lit(c, lamp).values.data());
}

/// Root mean square and largest difference from a map of 24 x 12 points in each fixture.
void tank_of_3_m_error(benchmark::State& state, const Case& c, const Luminaire& lamp) {
  PpfdMap got;
  for (auto _ : state) got = lit(c, lamp);
  const PpfdMap fine = lit(c, bench::extended_luminaire(24, 12));
  double squares = 0.0, most = 0.0;
  for (std::size_t i = 0; i < got.values.size(); ++i) {
    const double off = got.values[i] / fine.values[i] - 1.0;
    squares += off * off;
    most = std::max(most, std::abs(off));
  }
  state.counters["rms_percent"] = 100.0 * std::sqrt(squares / static_cast<double>(got.values.size()));
  state.counters["max_percent"] = 100.0 * most;
}
#define TANK(name, lamp, ...) \
  BENCHMARK_CAPTURE(tank_of_3_m, name, Case{__VA_ARGS__}, lamp)->Unit(benchmark::kMillisecond)
BENCHMARK_CAPTURE(tank_of_3_m_error, six_extended_2_x_2_points, Case{}, bench::extended_luminaire())
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(tank_of_3_m_error, six_extended_3_x_2_points, Case{}, bench::extended_luminaire(3, 2))
    ->Unit(benchmark::kMillisecond);
TANK(six_points, bench::point_luminaire(), .bands = 5);
TANK(three_extended, bench::extended_luminaire(), .fixtures = 3);
TANK(one_band, bench::extended_luminaire(), .bands = 1);
TANK(twenty_bands, bench::extended_luminaire(), .bands = 20);
TANK(no_walls, bench::extended_luminaire(), .walls = Walls::ignored);
TANK(mirror_walls, bench::extended_luminaire(), .walls = Walls::mirror);
TANK(depth_24_in, bench::extended_luminaire(), .depth = 24_in);
TANK(depth_72_in, bench::extended_luminaire(), .depth = 72_in);
TANK(cells_48_x_16, bench::extended_luminaire(), .nx = 48, .ny = 16);
TANK(cells_192_x_64, bench::extended_luminaire(), .nx = 192, .ny = 64);

/// The time of one map over the time in which a tracer of single photons has a standard error of 0.5 % in its cells,
/// reckoned from a run of a million photons for each fixture; one band, both in this run.
void against_photon_tracer(benchmark::State& state, const Luminaire& lamp) {
  const Waterbody tank = bench::long_tank();
  const auto row = evenly_spaced(lamp, 6, tank.length, tank.width, 30_in);
  using Clock = std::chrono::steady_clock;
  const auto start = Clock::now();
  const test::TracedMap traced = test::PhotonTracer(tank, 8_in, 1u).trace(row, 1000000, 96, 32);
  const double tracer_s = std::chrono::duration<double>(Clock::now() - start).count();
  double squares = 0.0;
  for (std::size_t i = 0; i < traced.ppfd.size(); ++i)
    squares += std::pow(traced.standard_error[i] / traced.ppfd[i], 2) / static_cast<double>(traced.ppfd.size());
  const double tracer_for_error_s = tracer_s * squares / (0.005 * 0.005);
  const auto map_start = Clock::now();
  for (auto _ : state) benchmark::DoNotOptimize(map(row, tank, 8_in, 96, 32).values.data());
  const double map_s =
      std::chrono::duration<double>(Clock::now() - map_start).count() / static_cast<double>(state.iterations());
  state.counters["tracer_s_for_half_percent"] = tracer_for_error_s;
  state.counters["ratio"] = tracer_for_error_s / map_s;
}
BENCHMARK_CAPTURE(against_photon_tracer, six_extended, bench::extended_luminaire())->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(against_photon_tracer, six_points, bench::point_luminaire())->Unit(benchmark::kMillisecond);

void demo_map(benchmark::State& state, Walls walls) {
  const Waterbody water = bench::demo_tank(walls);
  const auto row = evenly_spaced(bench::luminaire(), 7, water.length, water.width, 30_in, 90_deg);
  for (auto _ : state) benchmark::DoNotOptimize(map(row, water, 8_in, 24, 8).values.data());
  state.SetItemsProcessed(state.iterations() * 7 * 6 * 24 * 8);
}
BENCHMARK_CAPTURE(demo_map, walls_ignored, Walls::ignored)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(demo_map, mirror_walls, Walls::mirror)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(demo_map, panes, Walls::pane)->Unit(benchmark::kMillisecond);

void height_for_mean(benchmark::State& state) {
  const LitPlane plane{.water = bench::demo_tank(Walls::ignored), .depth = 8_in};
  const Luminaire lamp = bench::luminaire();
  for (auto _ : state)
    benchmark::DoNotOptimize(mounting_height_for(250_umol_m2_s, lamp, 7, plane, 12_in, 72_in, 90_deg));
}
BENCHMARK(height_for_mean)->Unit(benchmark::kMillisecond);
}  // namespace
