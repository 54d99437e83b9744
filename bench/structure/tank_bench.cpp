// Time to bend a whole tank and to size it: a host may do so on every change of a slider. `unknowns` of the system and
// `equilibrium_residual` stand beside each time.
#include <benchmark/benchmark.h>

#include "theca/materials/glass.hpp"
#include "theca/structure/tank.hpp"
#include "theca/structure/tank_size.hpp"

namespace {

using namespace theca;
using namespace theca::literals;

enum Build { rimless, rim, rim_and_cross };

structure::Tank grow_out_tank(Build build) {
  structure::Tank tank;
  tank.inside_length = 96_in;
  tank.inside_width = 30_in;
  tank.wall_height = 15.53_in;
  tank.wall_thickness = tank.base_thickness = 11.91_mm;
  tank.material = materials::float_glass();
  if (build != rimless)
    tank.rim = {.width = 64_mm, .thickness = tank.wall_thickness, .material = tank.material, .bond = {}};
  if (build == rim_and_cross)
    tank.cross_braces = {{.at = 0.5 * tank.inside_length,
                          .width = 152_mm,
                          .thickness = tank.wall_thickness,
                          .material = tank.material,
                          .bond = {}}};
  return tank;
}

structure::TankLoad water() {
  structure::TankLoad load;
  load.water_depth = 14_in;
  load.water = 1023_kg_m3;
  return load;
}

void count(benchmark::State& state, const structure::BentTank& bent) {
  state.counters["unknowns"] = static_cast<double>(bent.unknowns);
  state.counters["equilibrium_residual"] = bent.equilibrium_residual;
}

/// Arguments: build, joint model.
void bend_tank(benchmark::State& state) {
  const structure::Tank tank = grow_out_tank(static_cast<Build>(state.range(0)));
  const auto joints = static_cast<structure::JointModel>(state.range(1));
  for (auto _ : state) benchmark::DoNotOptimize(structure::bend(tank, water(), joints));
  count(state, structure::bend(tank, water(), joints));
}
BENCHMARK(bend_tank)
    ->ArgNames({"build", "joints"})
    ->ArgsProduct({{rimless, rim, rim_and_cross},
                   {static_cast<int>(structure::JointModel::hinged),
                    static_cast<int>(structure::JointModel::monolithic)}})
    ->Unit(benchmark::kMicrosecond);

// Out of level in both directions: no symmetry is left.
void bend_tilted_tank(benchmark::State& state) {
  const structure::Tank tank = grow_out_tank(static_cast<Build>(state.range(0)));
  structure::TankLoad load = water();
  load.rise_along = load.rise_across = 0.005;
  for (auto _ : state) benchmark::DoNotOptimize(structure::bend(tank, load, structure::JointModel::hinged));
  count(state, structure::bend(tank, load, structure::JointModel::hinged));
}
BENCHMARK(bend_tilted_tank)->ArgName("build")->DenseRange(rimless, rim_and_cross)->Unit(benchmark::kMicrosecond);

// Foam lets the base bend.
void bend_tank_on_foam(benchmark::State& state) {
  structure::Tank tank = grow_out_tank(rim);
  tank.support = structure::TankSupport::foam;
  tank.foundation = from_si<FoundationModulus>(2e7);
  for (auto _ : state) benchmark::DoNotOptimize(structure::bend(tank, water(), structure::JointModel::monolithic));
  count(state, structure::bend(tank, water(), structure::JointModel::monolithic));
}
BENCHMARK(bend_tank_on_foam)->Unit(benchmark::kMicrosecond);

// The whole list of stock glass, both limits of the joints. `sheet_mm` is the nominal sheet found.
void size_tank(benchmark::State& state) {
  const structure::Tank tank = grow_out_tank(static_cast<Build>(state.range(0)));
  structure::TankCriteria criteria;
  criteria.wall_tension = 4_MPa;
  criteria.base_tension = 4_MPa;
  criteria.strip_stress = 4_MPa;
  criteria.wall_deflection_over_length = 1.0 / 300.0;
  const auto stock = materials::float_glass_thicknesses();
  for (auto _ : state) benchmark::DoNotOptimize(structure::thinnest_tank(tank, water(), criteria, stock));
  if (const auto found = structure::thinnest_tank(tank, water(), criteria, stock)) {
    count(state, found->rated.bent.front());
    state.counters["sheet_mm"] = 1e3 * si(found->sheet.nominal);
  }
}
BENCHMARK(size_tank)->ArgName("build")->DenseRange(rimless, rim_and_cross)->Unit(benchmark::kMillisecond);

// The longest search: no sheet of the list holds.
void size_tank_in_vain(benchmark::State& state) {
  const structure::Tank tank = grow_out_tank(rim_and_cross);
  structure::TankCriteria criteria;
  criteria.wall_deflection = 0.1_um;
  const auto stock = materials::float_glass_thicknesses();
  for (auto _ : state) benchmark::DoNotOptimize(structure::thinnest_tank(tank, water(), criteria, stock));
}
BENCHMARK(size_tank_in_vain)->Unit(benchmark::kMillisecond);

}  // namespace
