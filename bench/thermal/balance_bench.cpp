// Cost of one heat balance of a farm, of its parts, and of a power cut of ten hours.
#include <benchmark/benchmark.h>

#include "theca/thermal.hpp"

namespace {
using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;

TankSystem farm() {
  TankSurfaces tank{.name = "open tank",
                    .water_length = 2.4_m,
                    .water_width = 0.74_m,
                    .inside_film = 100_W_m2K,
                    .base = 1.8_m2,
                    .base_U = 1.5_W_m2K};
  for (int side = 0; side < 4; ++side)
    tank.walls.push_back({.name = "wall",
                          .length = 1.6_m,
                          .height = 0.36_m,
                          .layers = {{.thickness = 12_mm, .conductivity = 1.0_W_mK}}});
  return {.tanks = {{.tank = tank, .count = 14}}, .sump_UA = 18_W_K, .sump_room = 60_degF};
}
const Water water{.temperature = 78_degF, .salinity = absolute_salinity(35_psu)};
const Room hall{.air = {.temperature = 70_degF, .humidity = 50_rh}, .surroundings = 70_degF, .air_speed = 10_cm_s};

void wall(benchmark::State& state) {
  const std::vector<Layer> glass = {{.thickness = 12_mm, .conductivity = 1.0_W_mK}};
  const WallExposure exposure{
      .water = 78_degF, .inside_film = 100_W_m2K, .room = 70_degF, .surroundings = 70_degF, .height = 14_in};
  for (auto _ : state) benchmark::DoNotOptimize(wall_heat(glass, exposure));
}
BENCHMARK(wall);

void evaporation_of_four_models(benchmark::State& state) {
  const EvaporatingSurface surface{.water = water.temperature,
                                   .salinity = water.salinity,
                                   .room = hall.air,
                                   .air_speed = hall.air_speed,
                                   .length = 2.4_m,
                                   .width = 0.74_m};
  for (auto _ : state) benchmark::DoNotOptimize(evaporation(surface));
}
BENCHMARK(evaporation_of_four_models);

void balance_of_a_farm(benchmark::State& state) {
  const TankSystem system = farm();
  for (auto _ : state) benchmark::DoNotOptimize(system_balance(system, water, hall));
}
BENCHMARK(balance_of_a_farm);

void power_cut_of_ten_hours(benchmark::State& state) {
  const StandingWater standing{.capacity = water_heat_capacity(8_m3, water),
                               .start = water.temperature,
                               .loss = loss_of(farm(), water.salinity, hall)};
  for (auto _ : state) benchmark::DoNotOptimize(temperature_after(standing, 10_h));
}
BENCHMARK(power_cut_of_ten_hours);
}  // namespace
