// An invented farm over a year for the benchmark: the tanks of the batch's, with stock, water and failures.
#pragma once

#include "../thermal/batch_farm.hpp"
#include "theca/farm.hpp"

namespace theca::bench {

inline farm::FarmYear year_of_tanks(int systems, int days) {
  using namespace farm;
  using namespace theca::literals;
  FarmYear year{.heat = many_tanks(systems, days), .heater_cutout = 29_degC};
  year.heat.water_low = 14_degC;
  year.heat.water_high = 31_degC;
  year.heat.cold_limit = 23_degC;
  year.heat.warm_limit = 29_degC;
  year.upkeep = {{.alkalinity = 8_dKH,
                  .alkalinity_threshold = 4_dKH,
                  .calcium = from_si<Density>(0.42),
                  .full_dose = from_si<AmountFlow>(2e-4),
                  .correction = 3_d,
                  .make_up = from_si<MassFlow>(0.02),
                  .above = 400_L,
                  .below = 300_L,
                  .changed = 1000_L,
                  .fallow = 1}};
  year.stock = {{.slots = 200, .occupancy = 0.9, .cohorts = 4, .ppfd = 250_umol_m2_s}};
  year.coral = {.growth = {.cut_area = 9_cm2, .sale_area = 33_cm2, .rate = 0.0088_per_d, .healing = 14_d},
                .calcification = 1.2 * units::milligram_per_square_centimetre_day,
                .measured_at = 250_umol_m2_s,
                .measured_hours = 10_h,
                .onset = 250_umol_m2_s,
                .growth_factor = 1.4,
                .death = 0.0007_per_d,
                .death_in_distress = 0.2_per_d,
                .oxygen_lasts = 6_h};
  year.pest = {.growth = 0.05_per_d,
               .adults_per_slot = 2.0,
               .hungry_death = 0.2_per_d,
               .transfer = 0.001_per_d,
               .arrivals = 0.003_per_d,
               .dip = 0.8,
               .damage = 0.001_per_d};
  const Frequency twice = 2.0 / 365_d;
  for (int kind = 0; kind < 9; ++kind)
    year.failures.push_back({.kind = static_cast<YearFailure>(kind), .rate = twice, .repair = 12_h});
  year.alarms = {
      .alkalinity_low = 7_dKH, .alkalinity_high = 9_dKH, .salinity_low = 33.0_ppt, .salinity_high = 37.0_ppt};
  return year;
}

}  // namespace theca::bench
