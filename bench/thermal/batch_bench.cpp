// Many tanks over time; bench/thermal/batch_numpy.py times the same farm against numpy.
#include <benchmark/benchmark.h>

#include <array>
#include <thread>
#include <vector>

#include "batch_farm.hpp"

namespace {
using namespace theca;

void per_tank_step(benchmark::State& state, int systems, double days) {
  state.counters["tank_steps"] =
      benchmark::Counter(20.0 * systems * days * 144.0, benchmark::Counter::kIsIterationInvariantRate);
}

// Growth with tanks, 20 to a system.
void batch_of_tanks_for_ten_days(benchmark::State& state) {
  const int systems = static_cast<int>(state.range(0));
  const thermal::PreparedBatch batch = thermal::prepare(bench::many_tanks(systems, 10.0));
  for (auto _ : state) benchmark::DoNotOptimize(thermal::run_batch(batch));
  per_tank_step(state, systems, 10.0);
}
BENCHMARK(batch_of_tanks_for_ten_days)->Arg(5)->Arg(50)->Arg(500)->Arg(5000)->Unit(benchmark::kMillisecond);

// Growth with time.
void batch_of_a_thousand_tanks(benchmark::State& state) {
  const double days = static_cast<double>(state.range(0));
  const thermal::PreparedBatch batch = thermal::prepare(bench::many_tanks(50, days));
  for (auto _ : state) benchmark::DoNotOptimize(thermal::run_batch(batch));
  per_tank_step(state, 50, days);
}
BENCHMARK(batch_of_a_thousand_tanks)->Arg(10)->Arg(100)->Arg(365)->Unit(benchmark::kMillisecond);

void batch_of_ten_thousand_tanks_for_a_year(benchmark::State& state) {
  const thermal::PreparedBatch batch = thermal::prepare(bench::many_tanks(500, 365.0));
  const auto threads = static_cast<int>(state.range(0));
  for (auto _ : state) {
    std::vector<std::thread> running;
    std::vector<thermal::BatchResult> parts(static_cast<std::size_t>(threads));
    for (int t = 0; t < threads; ++t)
      running.emplace_back([&batch, &parts, t, threads] {
        parts[static_cast<std::size_t>(t)] =
            thermal::run_batch(batch, batch.systems * t / threads, batch.systems * (t + 1) / threads);
      });
    for (std::thread& t : running) t.join();
    benchmark::DoNotOptimize(parts);
  }
  per_tank_step(state, 500, 365.0);
}
BENCHMARK(batch_of_ten_thousand_tanks_for_a_year)
    ->Arg(1)
    ->Arg(2)
    ->Unit(benchmark::kSecond)
    ->UseRealTime()
    ->Iterations(1);

void loss_table_of_a_tank(benchmark::State& state) {
  const thermal::Batch farm = bench::many_tanks(1, 365.0);
  for (auto _ : state) benchmark::DoNotOptimize(thermal::prepare(farm));
}
BENCHMARK(loss_table_of_a_tank)->Unit(benchmark::kMillisecond);

// What one core can do in the same kind of arithmetic: independent multiplications and additions of doubles in the
// first cache, in vectors as wide as the batch's loops choose.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
__attribute__((target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default"), optimize("O3")))
#endif
void multiply_and_add(std::array<double, 64>& x, int rounds) {
  for (int r = 0; r < rounds; ++r)
    for (double& v : x) v = v * 0.999999 + 1e-6;
}
void arithmetic_peak_of_a_core(benchmark::State& state) {
  std::array<double, 64> x{};
  for (auto _ : state) {
    multiply_and_add(x, 1000);
    benchmark::DoNotOptimize(x);
  }
  state.counters["flop"] = benchmark::Counter(2.0 * 64.0 * 1000.0, benchmark::Counter::kIsIterationInvariantRate);
}
BENCHMARK(arithmetic_peak_of_a_core);
}  // namespace
