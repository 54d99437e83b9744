// A year of many tanks: heat, water, stock, failures.
#include <benchmark/benchmark.h>

#include "year_farm.hpp"

namespace {
using namespace theca;

void run(benchmark::State& state, int systems, int days, int threads) {
  const farm::PreparedYear year = farm::prepare_year(bench::year_of_tanks(systems, days));
  farm::YearSummary sum;
  for (auto _ : state) sum = farm::summary(farm::advance(year, farm::start_year(year), days, threads));
  state.counters["tank_days"] =
      benchmark::Counter(double(sum.tanks) * days, benchmark::Counter::kIsIterationInvariantRate);
  state.counters["sold"] = double(sum.stock.sold);
  double failures = 0.0;
  for (const farm::FailureBook& f : sum.failures) failures += double(f.failures);
  state.counters["failures"] = failures;
  state.counters["dead"] = double(sum.stock.dead);
  state.counters["cut"] = double(sum.stock.cut);
  state.counters["low"] = in_celsius(sum.lowest);
  state.counters["high"] = in_celsius(sum.highest);
}

// Growth with tanks, 20 to a system.
void thirty_days_of_tanks(benchmark::State& state) { run(state, static_cast<int>(state.range(0)), 30, 1); }
BENCHMARK(thirty_days_of_tanks)->Arg(5)->Arg(50)->Arg(500)->Arg(5000)->Unit(benchmark::kMillisecond)->Iterations(1);

// Growth with time.
void days_of_a_thousand_tanks(benchmark::State& state) { run(state, 50, static_cast<int>(state.range(0)), 1); }
BENCHMARK(days_of_a_thousand_tanks)->Arg(10)->Arg(100)->Arg(365)->Unit(benchmark::kMillisecond)->Iterations(1);

void year_of_ten_thousand_tanks(benchmark::State& state) { run(state, 500, 365, static_cast<int>(state.range(0))); }
BENCHMARK(year_of_ten_thousand_tanks)
    ->Arg(1)
    ->Arg(2)
    ->Unit(benchmark::kSecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Iterations(1);
}  // namespace
