// A simulated year: what must balance, what must not matter, and what each failure does.
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "../../src/farm/year_chance.hpp"
#include "support/near.hpp"
#include "theca/farm.hpp"
#include "theca/seawater.hpp"
#include "theca/thermal.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;
using test::within;

namespace {

constexpr std::array all_kinds{
    YearFailure::heater_off,      YearFailure::heater_stuck_on, YearFailure::chiller_off,
    YearFailure::pump_off,        YearFailure::power_cut,       YearFailure::dosing_off,
    YearFailure::dosing_stuck_on, YearFailure::make_up_off,     YearFailure::make_up_stuck_on};

thermal::TankSurfaces open_tank() {
  thermal::TankSurfaces tank{.name = "open tank",
                             .water_length = 240_cm,
                             .water_width = 74_cm,
                             .inside_film = 100_W_m2K,
                             .base = from_si<Area>(1.776),
                             .base_U = 1.5_W_m2K,
                             .evaporation_activity = 0.65};
  for (const Length& side : {240_cm, 240_cm, 74_cm, 74_cm})
    tank.walls.push_back(
        {.name = "wall", .length = side, .height = 36_cm, .layers = {{.thickness = 12_mm, .conductivity = 1.0_W_mK}}});
  return tank;
}

void add_tanks(FarmYear& year, int system, int tanks) {
  thermal::BatchTanks& t = year.heat.tanks;
  for (int i = 0; i < tanks; ++i) {
    t.system.push_back(system);
    t.type.push_back(0);
    t.water.push_back(600_L);
    t.turnover.push_back(2400_L_h);
    t.light.push_back(150_W);
    t.start.push_back(25_degC);
  }
}

// Equal systems in an even room, everything in order.
FarmYear quiet_year(int systems, int tanks, double days) {
  FarmYear year{.heater_cutout = 28_degC};
  thermal::Batch& heat = year.heat;
  heat.types = {open_tank(), {.name = "sump", .base = 2_m2, .base_U = 1_W_m2K}};
  heat.rooms = {{.name = "hall", .air = {22_degC}, .humidity = {60_rh}, .air_speed = 10_cm_s}};
  heat.duration = days * units::day;
  heat.water_low = 15_degC;
  heat.water_high = 31_degC;
  heat.cold_limit = 23_degC;
  heat.warm_limit = 28_degC;
  for (int s = 0; s < systems; ++s) {
    thermal::BatchSystems& y = heat.systems;
    y.room.push_back(0);
    y.sump_room.push_back(0);
    y.sump_type.push_back(1);
    y.sump_water.push_back(400_L);
    y.sump_start.push_back(25_degC);
    y.gain.push_back(100_W);
    y.heater.push_back(double(tanks) * 600_W);
    y.chiller.push_back(double(tanks) * 300_W);
    y.heater_set_point.push_back(25_degC);
    y.chiller_set_point.push_back(26_degC);
    y.spread.push_back(0.4_K);
    y.lights_from.push_back(8_h);
    y.lights_length.push_back(10_h);
    add_tanks(year, s, tanks);
  }
  year.upkeep = {{.alkalinity = 8_dKH,
                  .alkalinity_threshold = 4_dKH,
                  .calcium = 0.42 * units::kilogram_per_cubic_metre,
                  .full_dose = double(tanks) * from_si<AmountFlow>(2e-5),
                  .correction = 3_d,
                  .make_up = double(tanks) * from_si<MassFlow>(1e-3),
                  .above = 100_L,
                  .below = 200_L}};
  year.stock = {{.slots = 200, .occupancy = 0.9, .cohorts = 3, .ppfd = 250_umol_m2_s}};
  year.coral = {.growth = {.cut_area = 9_cm2, .sale_area = 33_cm2, .rate = 0.0088_per_d, .healing = 14_d},
                .calcification = 1.2 * units::milligram_per_square_centimetre_day,
                .measured_at = 250_umol_m2_s,
                .measured_hours = 10_h,
                .onset = 250_umol_m2_s};
  year.alarms = {
      .alkalinity_low = 7_dKH, .alkalinity_high = 9_dKH, .salinity_low = 33.0_ppt, .salinity_high = 37.0_ppt};
  return year;
}

// Everything at once: unequal tanks, rotation, water changes, pests, failures of every kind.
FarmYear eventful_year(int systems, double days) {
  FarmYear year = quiet_year(systems, 4, days);
  year.upkeep[0].changed = 280_L;
  year.upkeep[0].fallow = 1;
  year.stock.clear();
  for (int s = 0; s < systems; ++s)
    for (const long slots : {200, 150, 200, 120})
      year.stock.push_back({.slots = slots, .occupancy = 0.9, .cohorts = 3, .ppfd = 250_umol_m2_s});
  year.coral.growth_factor = 1.4;
  year.coral.death = 0.0007_per_d;
  year.coral.death_in_distress = 0.3_per_d;
  year.coral.oxygen_lasts = 4_h;
  year.pest = {.growth = 0.05_per_d,
               .adults_per_slot = 2.0,
               .hungry_death = 0.2_per_d,
               .transfer = 0.001_per_d,
               .arrivals = 0.01_per_d,
               .dip = 0.8,
               .reset = 0.9,
               .damage = 0.002_per_d};
  for (const YearFailure kind : all_kinds) year.failures.push_back({.kind = kind, .rate = 6.0 / 365_d, .repair = 15_h});
  return year;
}

YearState run(const FarmYear& farm, int days, int threads = 1, int seed = 1) {
  const PreparedYear year = prepare_year(farm);
  return advance(year, start_year(year, seed), days, threads);
}

// From the first step on, and for good.
FarmYear failing(FarmYear year, YearFailure kind) {
  year.failures.push_back({.kind = kind, .rate = 1_per_s, .repair = 1e12 * units::second});
  return year;
}

template <class Book>
double imbalance(const Book& b) {
  const double out = si(b.renewed_out) + si(b.overflowed) + si(b.used), in = si(b.added) + si(b.renewed_in);
  return (si(b.start) + in - out - si(b.now)) / (si(b.start) + in);
}

const AlarmSum& alarm(const YearSummary& sum, YearAlarm kind) { return sum.alarms[static_cast<std::size_t>(kind)]; }
const FailureBook& failure(const YearSummary& sum, YearFailure kind) {
  return sum.failures[static_cast<std::size_t>(kind)];
}
double salinity(const YearSystem& y) { return 1000.0 * (y.salt.now / (y.salt.now + y.water.now)); }
// In dKH, of a system whose water was 8 dKH at the start.
double alkalinity(const YearSystem& y) {
  return 8.0 * (y.alkalinity.now / y.alkalinity.start) / (y.water.now / y.water.start);
}
Volume water_of(int tanks) { return 400_L + double(tanks) * 600_L; }

}  // namespace

TEST_CASE("a year: water, salt, alkalinity and calcium balance to 1e-9 with changes, overflows and failures") {
  const YearState state = run(eventful_year(3, 365.0), 365, 2);
  for (const YearSystem& y : state.systems) {
    CHECK(std::abs(imbalance(y.water)) < 1e-9);
    CHECK(std::abs(imbalance(y.salt)) < 1e-9);
    CHECK(std::abs(imbalance(y.alkalinity)) < 1e-9);
    CHECK(std::abs(imbalance(y.calcium)) < 1e-9);
    CHECK(near(2.0 * y.calcium.used, y.alkalinity.used, 1e-9));
    // two moles of sodium chloride, 58.44 g, for every two equivalents dosed [IUPAC 2021: 22.990 + 35.45]
    CHECK(near(si(y.salt.added), 0.05844 * si(y.alkalinity.added), 1e-9));
    CHECK(y.water.overflowed > 1_kg);
    CHECK(y.salt.overflowed > 0_kg);
    CHECK(y.water.renewed_out > 1000_kg);
  }
  const YearSummary sum = summary(state);
  CHECK(std::abs(imbalance(sum.water)) < 1e-9);
  CHECK(std::abs(imbalance(sum.salt)) < 1e-9);
}

TEST_CASE("a year: start and cut are alive, dead, sold or without room, to the fragment") {
  const YearSummary sum = summary(run(eventful_year(4, 365.0), 365));
  const StockBook& s = sum.stock;
  CHECK(s.start + s.cut == s.alive + s.dead + s.sold + s.no_room);
  CHECK(s.start == 4 * (135 + 180 + 108));  // the first of 200, 150, 200, 120 slots rests
  CHECK(s.cut > 1000);
  CHECK(s.dead > 100);
  CHECK(s.sold > 500);
  CHECK(s.no_room > 0);
  CHECK(sum.pest_adults > 0.0);
}

TEST_CASE("a year: k of N equal tanks fallow cost exactly k/N of the production") {
  const auto sold = [](int tanks, int fallow) {
    FarmYear year = quiet_year(1, tanks, 365.0);
    year.heat.step = 1_h;                               // quicker, and nothing to the stock
    year.coral.calcification = from_si<MassFlux>(0.0);  // or fewer tanks would have a hair more alkalinity
    year.upkeep[0].fallow = fallow;
    return summary(run(year, 365)).stock;
  };
  for (const auto& pair : std::vector<std::pair<int, int>>{{2, 1}, {5, 1}, {5, 2}, {7, 1}}) {
    const int tanks = pair.first, fallow = pair.second;
    CAPTURE(tanks);
    const StockBook all = sold(tanks, 0), some = sold(tanks, fallow);
    CHECK(some.sold > 0);
    CHECK(some.sold * tanks == all.sold * (tanks - fallow));
    CHECK(some.cut * tanks == all.cut * (tanks - fallow));
    CHECK(some.slot_days * tanks == all.slot_days * (tanks - fallow));
    CHECK(some.no_room == 0);
  }
}

TEST_CASE("a year: as many fragments as slots over the cycle time, as yield says") {
  FarmYear year = quiet_year(1, 2, 324.0);
  year.stock[0].cohorts = 60;
  year.coral.calcification = from_si<MassFlux>(0.0);
  const StockBook stock = summary(run(year, 324)).stock;
  const Yield expected =
      yield({.slots = 400, .occupancy = 0.9, .survival = 1.0, .cycle_time = cycle_time(year.coral.growth)});
  // Sales wait for the evening: up to a day in a cycle of 162.
  CHECK(near(double(stock.sold), expected.produced * 324_d, 1.0 / 162.0 + 1.0 / 60.0));
}

TEST_CASE("a year is the same bits on 1, 2, 3 and 8 threads") {
  const FarmYear year = eventful_year(7, 60.0);
  const std::string one = saved(run(year, 60, 1));
  CHECK(saved(run(year, 60, 2)) == one);
  CHECK(saved(run(year, 60, 3)) == one);
  CHECK(saved(run(year, 60, 8)) == one);
  CHECK(saved(run(year, 60, 1, 2)) != one);
}

TEST_CASE("a year taken up from a checkpoint is the same bits as one that ran through") {
  const PreparedYear year = prepare_year(eventful_year(3, 365.0));
  const std::string whole = saved(advance(year, start_year(year, 5), 365));
  YearState state = start_year(year, 5);
  for (const int days : {1, 0, 99, 165, 100}) {
    state = advance(year, state, days, 2);
    state = restored(saved(state));
  }
  CHECK(saved(state) == whole);
}

TEST_CASE("systems that run on their own are the same bits as among others") {
  const PreparedYear year = prepare_year(eventful_year(5, 100.0));
  const YearState whole = advance(year, start_year(year), 100);
  const YearState first = advance(year, start_year(year, 1, 0, 2), 100);
  YearState joined = advance(year, start_year(year, 1, 2), 100, 2);
  CHECK(joined.first == 2);
  CHECK(summary(joined).stock.sold + summary(first).stock.sold == summary(whole).stock.sold);
  CHECK(summary(whole, 2, 5).stock.sold == summary(joined).stock.sold);
  joined.systems.insert(joined.systems.begin(), first.systems.begin(), first.systems.end());
  joined.first = 0;
  CHECK(saved(joined) == saved(whole));
}

TEST_CASE("what a year keeps does not grow with time") {
  const PreparedYear year = prepare_year(eventful_year(2, 300.0));
  YearState state = advance(year, start_year(year), 40);
  const std::size_t early = saved(state).size();
  CHECK(saved(advance(year, state, 260)).size() == early);
}

TEST_CASE("a year: nothing fails at a rate of zero, and nothing alarms") {
  FarmYear year = quiet_year(3, 4, 365.0);
  for (const YearFailure kind : all_kinds) year.failures.push_back({.kind = kind, .rate = 0_per_d, .repair = 1_d});
  year.upkeep[0].changed = 280_L;
  year.upkeep[0].fallow = 1;
  const YearState state = run(year, 365);
  CHECK(saved(state) == saved(run(year, 365, 1, 1)));
  const YearSummary sum = summary(state);
  for (const FailureBook& f : sum.failures) {
    CHECK(f.failures == 0);
    CHECK(f.down == 0_s);
  }
  for (const AlarmSum& a : sum.alarms) CHECK(a.raised == 0);
  CHECK(sum.stock.dead == 0);
  CHECK(sum.water.overflowed == 0_kg);
}

TEST_CASE("a year: failures number rate x time in order within 3 standard errors, and last as long as their repair") {
  FarmYear year = quiet_year(60, 1, 365.0);
  year.heat.step = 1_h;  // quicker, and nothing to the clocks
  const Frequency rate = 12.0 / 365_d;
  for (const YearFailure kind : all_kinds) year.failures.push_back({.kind = kind, .rate = rate, .repair = 10_h});
  const YearSummary sum = summary(run(year, 365, 2, 3));
  for (const FailureBook& f : sum.failures) {
    CAPTURE(static_cast<int>(f.kind));
    // A Poisson count varies by its root; a mean of n exponential times by 1/sqrt(n) of itself.
    const double expected = rate * f.in_order, count = double(f.failures);
    CHECK(std::abs(count - expected) <= 3.0 * std::sqrt(expected));
    CHECK(std::abs(si(f.down) / count - si(10_h)) <= 3.0 * si(10_h) / std::sqrt(count));
    CHECK(near(f.in_order + f.down, (f.kind == YearFailure::power_cut ? 1.0 : 60.0) * 365_d, 1e-12));
  }
  CHECK(failure(sum, YearFailure::pump_off).failures > 600);
}

TEST_CASE("a quiet year is the batch of tanks: its temperatures, energies and evaporation") {
  FarmYear year = quiet_year(2, 3, 30.0);
  year.heat.types[1] = open_tank();  // the sump evaporates, too
  year.heat.tanks.light[1] = 400_W;
  year.heat.tanks.turnover[2] = 1200_L_h;  // tanks in another order than the batch's
  const YearSummary sum = summary(run(year, 30));
  const thermal::BatchResult r = thermal::run_batch(thermal::prepare(year.heat));
  double heated = 0.0, evaporated = 0.0, mean = 0.0;
  for (std::size_t i = 0; i < 2; ++i) {
    heated += si(r.heated[i]);
    evaporated += si(r.sump_evaporated[i]);
  }
  for (std::size_t i = 0; i < 6; ++i) {
    evaporated += si(r.evaporated[i]);
    mean += in_celsius(r.mean[i]) / 6.0;
  }
  CHECK(near(si(sum.heated), heated, 1e-12));
  CHECK(near(si(sum.water.used), evaporated, 1e-12));
  CHECK(within(in_celsius(sum.mean), mean, 1e-9));
  const YearState state = run(year, 30);
  for (std::size_t i = 0; i < 6; ++i)
    CHECK(si(state.systems[i / 3].tanks[i % 3].highest) == std::max(si(r.highest[i]), si(25_degC)));
}

TEST_CASE(
    "a year: level and salinity hold while make-up works, and follow make_up_stopped and make_up_stuck when not") {
  const FarmYear quiet = quiet_year(1, 3, 20.0);
  FarmYear year = quiet;
  year.coral.calcification = from_si<MassFlux>(0.0);  // no doses, no salt from them
  const YearSystem held = run(year, 20).systems[0];
  CHECK(near(held.water.now, held.water.start, 1e-12));
  CHECK(near(held.water.added, held.water.used, 1e-12));
  CHECK(near(salinity(held), 35.16504, 1e-12));

  const thermal::Water state{.temperature = 25_degC, .salinity = year.heat.salinity};
  const YearState off = run(failing(year, YearFailure::make_up_off), 10);
  const YearSystem& dry = off.systems[0];
  CHECK(dry.water.added == 0_kg);
  const thermal::RunningSystem running{
      .water = water_of(3), .above = 100_L, .below = 200_L, .state = state, .evaporation = dry.water.used / 10_d};
  CHECK(near(salinity(dry), thermal::make_up_stopped(running, 10_d).salinity.grams_per_kg, 1e-9));
  CHECK(alarm(summary(off), YearAlarm::salinity_high).raised == 1);

  const YearState on = run(failing(year, YearFailure::make_up_stuck_on), 10);
  const YearSystem& wet = on.systems[0];
  thermal::RunningSystem running_over = running;
  running_over.evaporation = wet.water.used / 10_d;
  const thermal::WaterDrift drift = thermal::make_up_stuck(running_over, year.upkeep[0].make_up, 10_d);
  // There the level is the volume of the thinning water, here that of its fresh water: 0.2 % of the volume apart.
  CHECK(near(salinity(wet), drift.salinity.grams_per_kg, 5e-3));
  CHECK(drift.overflowed > 1_m3);
  CHECK(near(si(wet.water.overflowed) / 1000.0, si(drift.overflowed), 2e-2));
  CHECK(alarm(summary(on), YearAlarm::overflow).days == 10);
  CHECK(alarm(summary(on), YearAlarm::salinity_low).raised == 1);
}

TEST_CASE("a year: water that falls to the intake stops the pump, and the tanks go their own ways") {
  FarmYear year = quiet_year(1, 3, 40.0);
  year.upkeep[0].below = 100_L;
  const YearSummary sum = summary(run(failing(year, YearFailure::make_up_off), 20));
  CHECK(alarm(sum, YearAlarm::pump_dry).raised == 1);
  CHECK(sum.lowest < 24_degC);  // the heater in the sump does not reach them
  CHECK(summary(run(year, 20)).lowest > celsius(24.5));
}

TEST_CASE(
    "a year: alkalinity holds while dosing works, falls as alkalinity_after without, and runs up when it sticks") {
  FarmYear year = quiet_year(1, 3, 60.0);
  year.coral.growth.rate = from_si<Frequency>(1e-15);  // the stock as it stands
  year.stock[0].cohorts = 1;
  const YearSystem held = run(year, 60).systems[0];
  CHECK(within(alkalinity(held), 8.0, 0.02));

  const Area live = 540.0 * 9_cm2;
  const MineralDemand demand = mineral_demand(live, year.coral.calcification);
  CHECK(near(held.alkalinity.used, demand.alkalinity * 60_d, 1e-2));  // at 8 dKH less a hair
  const DosedWater without{.water = water_of(3), .demand = demand.alkalinity, .reference = 8_dKH, .threshold = 4_dKH};
  const YearSystem off = run(failing(year, YearFailure::dosing_off), 20).systems[0];
  CHECK(near(alkalinity(off), si(alkalinity_after(without, 8_dKH, 20_d)) / si(1_dKH), 1e-9));
  CHECK(alkalinity(off) < 7.7);

  DosedWater stuck = without;
  stuck.dose = year.upkeep[0].full_dose;
  const YearState on = run(failing(year, YearFailure::dosing_stuck_on), 20);
  CHECK(near(alkalinity(on.systems[0]), si(alkalinity_after(stuck, 8_dKH, 20_d)) / si(1_dKH), 1e-9));
  CHECK(alarm(summary(on), YearAlarm::alkalinity_high).raised == 1);
}

TEST_CASE("a year: stock grows more slowly as alkalinity falls") {
  FarmYear year = quiet_year(1, 2, 100.0);
  year.stock[0].cohorts = 1;
  const Area fed = summary(run(year, 100)).stock.live_area,
             starved = summary(run(failing(year, YearFailure::dosing_off), 100)).stock.live_area;
  CHECK(near(fed, grown_area(360.0 * 9_cm2, year.coral.growth.rate, 86_d), 1e-2));
  CHECK(starved < 0.97 * fed);
}

TEST_CASE("a year: a dead heater cools, a stuck one stops at its cut-out, a dead chiller lets it warm") {
  FarmYear year = quiet_year(1, 3, 10.0);
  const YearSummary quiet = summary(run(year, 10));
  const YearSummary off = summary(run(failing(year, YearFailure::heater_off), 10));
  CHECK(off.heated == 0_J);
  CHECK(off.lowest < quiet.lowest);
  CHECK(alarm(off, YearAlarm::cold).raised == 1);
  FarmYear stuck = failing(year, YearFailure::heater_stuck_on);
  stuck.heat.systems.chiller[0] = 0_W;
  const YearSummary hot = summary(run(stuck, 10));
  CHECK(hot.highest > 27_degC);
  CHECK(hot.highest < celsius(28.2));
  year.heat.rooms[0].air = {28_degC};
  const YearSummary chilled = summary(run(year, 10)), warm = summary(run(failing(year, YearFailure::chiller_off), 10));
  CHECK(chilled.chilled > 0_J);
  CHECK(warm.chilled == 0_J);
  CHECK(warm.highest > chilled.highest);
}

TEST_CASE("a year: without power nothing runs, and stock dies once the oxygen is used up") {
  FarmYear year = failing(quiet_year(1, 3, 3.0), YearFailure::power_cut);
  year.coral.death_in_distress = 0.5_per_d;
  year.coral.oxygen_lasts = 24_h;
  year.heat.cold_limit = 15_degC;  // leave the cold out
  const YearSummary sum = summary(run(year, 2));
  CHECK(sum.heated == 0_J);
  CHECK(sum.lit == 0_J);
  CHECK(sum.water.added == 0_kg);
  CHECK(sum.alkalinity.added == from_si<AmountOfSubstance>(0.0));
  CHECK(within(double(sum.stock.dead), 540.0 * -std::expm1(-0.5), 9.0));  // a fragment in each of 9 cohorts
}

TEST_CASE("a year: stock moves through fallow tanks in the order of play_rotation") {
  FarmYear year = quiet_year(1, 5, 400.0);
  year.upkeep[0].fallow = 2;
  year.upkeep[0].days_between_moves = 3;
  const std::array<long, 5> slots{200, 200, 200, 200, 200};
  const std::vector<RotationStep> steps = play_rotation(slots, 2);
  const PreparedYear prepared = prepare_year(year);
  YearState state = start_year(prepared);
  CHECK(state.systems[0].fallow == steps[0].fallow);
  state = advance(prepared, state, 1);
  for (std::size_t move = 1; move < steps.size(); ++move) {
    state = advance(prepared, state, 3);
    CHECK(state.systems[0].fallow == steps[move].fallow);
    for (const int tank : state.systems[0].fallow) CHECK(!state.systems[0].tanks[std::size_t(tank)].stocked);
  }
  CHECK(state.systems[0].water.renewed_in > 0_kg);
}

TEST_CASE("a year: a pest on one tank grows by the logistic law, and the water brings it to the others") {
  FarmYear year = quiet_year(1, 2, 60.0);
  year.pest = {.growth = 0.1_per_d, .adults_per_slot = 2.0};
  const auto adults = [&] {
    const PreparedYear prepared = prepare_year(year);
    YearState state = start_year(prepared);
    state.systems[0].tanks[0].pest_adults = 5.0;
    state = advance(prepared, state, 50);
    return std::array{state.systems[0].tanks[0].pest_adults, state.systems[0].tanks[1].pest_adults};
  };
  // Verhulst's law, K/(1 + (K/N0 - 1) exp(-r t)), textbook
  CHECK(near(adults()[0], 400.0 / (1.0 + (400.0 / 5.0 - 1.0) * std::exp(-5.0)), 1e-12));
  CHECK(adults()[1] == 0.0);
  year.pest.transfer = 0.01_per_d;
  CHECK(adults()[1] > 10.0);
}

TEST_CASE("random numbers of a year: SplitMix64 from 1234567 gives its published sequence") {
  // Rosetta Code, "Pseudo-random numbers/Splitmix64": the first five from this seed
  const std::array<std::uint64_t, 5> published{6457827717110365317U, 3203168211198807973U, 9817491932198370423U,
                                               4593380528125082431U, 16408922859458223821U};
  for (std::size_t n = 0; n < published.size(); ++n) CHECK(farm::detail::split_mix(1234567, n) == published[n]);
}

TEST_CASE("a year: bad input is refused by name") {
  const auto refused = [](auto change) {
    FarmYear year = quiet_year(2, 3, 10.0);
    change(year);
    return message_of<InvalidInput>([&] { prepare_year(year); });
  };
  CHECK(contains(refused([](FarmYear& y) { y.upkeep = {}; }), "upkeep"));
  CHECK(contains(refused([](FarmYear& y) { y.stock.resize(4, y.stock[0]); }), "stock"));
  CHECK(contains(refused([](FarmYear& y) { y.upkeep[0].fallow = 3; }), "fallow"));
  CHECK(contains(refused([](FarmYear& y) { y.upkeep[0].alkalinity_threshold = 8_dKH; }), "threshold"));
  CHECK(contains(refused([](FarmYear& y) { y.upkeep[0].days_between_moves = 0; }), "moves"));
  CHECK(contains(refused([](FarmYear& y) { y.stock[0].occupancy = 1.2; }), "occupancy"));
  CHECK(contains(refused([](FarmYear& y) { y.coral.growth_factor = 0.5; }), "growth"));
  CHECK(contains(refused([](FarmYear& y) { y.coral.measured_hours = 0_h; }), "hours"));
  CHECK(contains(refused([](FarmYear& y) { y.pest.dip = -0.1; }), "dip"));
  CHECK(contains(refused([](FarmYear& y) { y.heater_cutout = 25_degC; }), "cut-out"));
  CHECK(contains(refused([](FarmYear& y) { y.failures = {{.rate = 1_per_d, .repair = 0_d}}; }), "repair"));
  CHECK(contains(refused([](FarmYear& y) {
                   y.failures = {{.rate = 1_per_d, .repair = 1_d}, {.rate = 1_per_d, .repair = 1_d}};
                 }),
                 "each kind once"));
  CHECK(contains(refused([](FarmYear& y) { y.heat.step = from_si<Time>(700.0); }), "step"));
  CHECK(contains(refused([](FarmYear& y) { y.heat.step = from_si<Time>(300.0); }), "step"));
  CHECK(contains(refused([](FarmYear& y) { y.heat.traced = {0}; }), "traced"));

  const PreparedYear year = prepare_year(quiet_year(2, 3, 10.0));
  CHECK_THROWS_AS(start_year(PreparedYear{}), InvalidInput);
  CHECK_THROWS_AS(start_year(year, 1, 1, 3), InvalidInput);
  CHECK(contains(message_of<InvalidInput>([&] { start_year(year, -1); }), "seed"));
  CHECK(contains(message_of<InvalidInput>([&] { advance(year, start_year(year), 11); }), "days"));
  CHECK(contains(message_of<InvalidInput>([&] { advance(year, start_year(year), 1, 0); }), "threads"));
  CHECK_THROWS_AS(advance(year, start_year(prepare_year(quiet_year(3, 3, 10.0))), 1), InvalidInput);
  CHECK_THROWS_AS(advance(year, start_year(prepare_year(quiet_year(2, 4, 10.0))), 1), InvalidInput);
  const std::string text = saved(start_year(year));
  CHECK_THROWS_AS(restored(""), InvalidInput);
  CHECK_THROWS_AS(restored(text.substr(0, text.size() - 1)), InvalidInput);
  CHECK_THROWS_AS(restored(text + "0"), InvalidInput);
  CHECK_THROWS_AS(summary(start_year(year), 0, 3), InvalidInput);
}
