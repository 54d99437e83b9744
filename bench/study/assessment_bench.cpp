// The whole assessment of a farm, where its time goes, and many designs of which some inputs are uncertain.
#include <benchmark/benchmark.h>

#include <vector>

#include "theca/study/assessment.hpp"
#include "theca/study/cure.hpp"
#include "theca/study/design_file.hpp"
#include "theca/study/uncertain_assessment.hpp"

namespace {
using namespace theca::study;

const Design& demo() {
  static const Design design = read_design(THECA_DEMO_TOML);
  return design;
}

void whole_assessment(benchmark::State& state) {
  std::size_t checks = 0;
  for (auto _ : state) checks = assess(demo()).checks.size();
  state.counters["checks"] = double(checks);
}
BENCHMARK(whole_assessment)->Unit(benchmark::kMillisecond);

using Module = std::vector<theca::Check> (*)(const Design&);
void module_checks(benchmark::State& state, Module checks) {
  for (auto _ : state) benchmark::DoNotOptimize(checks(demo()));
}
BENCHMARK_CAPTURE(module_checks, structure, structure_checks)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(module_checks, hydraulics, hydraulics_checks)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(module_checks, light, light_checks)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(module_checks, thermal, thermal_checks)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(module_checks, farm, farm_checks)->Unit(benchmark::kMillisecond);

// Designs for each second, all checks of each; a number of threads.
void uncertain_designs(benchmark::State& state) {
  const auto between = [](const char* key, double low, double high) {
    for (const DesignInput& input : design_inputs(demo()))
      if (input.key == key)
        return UncertainInput{key,
                              {.kind = DistributionKind::uniform,
                               .first = {low * input.value.si_value, input.value.si_unit},
                               .last = {high * input.value.si_value, input.value.si_unit}}};
    return UncertainInput{};
  };
  const std::vector<UncertainInput> inputs{between("money.price", 0.7, 1.3),
                                           between("production.growth_rate", 0.5, 2.0),
                                           between("tanks.A.water_depth", 0.9, 1.0)};
  const auto samples = static_cast<std::size_t>(state.range(0));
  const int threads = static_cast<int>(state.range(1));
  for (auto _ : state)
    benchmark::DoNotOptimize(uncertain_assessment(demo(), inputs, {SamplingKind::sobol, samples, 1}, threads));
  state.counters["designs"] = benchmark::Counter(double(samples), benchmark::Counter::kIsIterationInvariantRate);
}
BENCHMARK(uncertain_designs)->Args({256, 1})->Args({256, 2})->Unit(benchmark::kSecond)->UseRealTime()->Iterations(1);

// The smallest single change for every failed check, and what each does to the others.
void cures_of_all(benchmark::State& state) {
  const Assessment assessment = assess(demo());
  for (auto _ : state)
    for (const theca::Check& check : assessment.checks)
      if (check.verdict == theca::Verdict::fails) benchmark::DoNotOptimize(cures(demo(), check.name));
}
BENCHMARK(cures_of_all)->Unit(benchmark::kSecond)->Iterations(1);
}  // namespace
