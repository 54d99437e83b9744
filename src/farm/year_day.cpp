#include "year_day.hpp"

#include <algorithm>
#include <cmath>

#include "theca/farm/chemistry.hpp"
#include "theca/farm/dosing_drift.hpp"
#include "theca/farm/light_growth.hpp"

namespace theca::farm::detail {

namespace {

template <class Q>
void add(Q& q, double x) {
  q += from_si<Q>(x);
}

/// A share of the water leaves with all that is dissolved in it.
template <class Book>
void take_share(Book& book, double share, decltype(Book::now) Book::*to) {
  const auto leaving = share * book.now;
  book.*to += leaving;
  book.now -= leaving;
}

template <class Book>
void renew(Book& book, double share, double in) {
  take_share(book, share, &Book::renewed_out);
  add(book.renewed_in, in);
  add(book.now, in);
}

/// As much new water comes in as old goes out, by the fresh water in both.
void change_water(const PlannedUpkeep& upkeep, double share, YearSystem& system) {
  const double fresh = share * si(system.water.now), volume = fresh / upkeep.fresh_per_volume;
  renew(system.water, share, fresh);
  renew(system.salt, share, fresh * upkeep.salt_per_fresh);
  renew(system.alkalinity, share, volume * upkeep.alkalinity);
  renew(system.calcium, share, volume * upkeep.calcium);
}

long alive_in(const YearTank& tank) {
  long alive = 0;
  for (const YearCohort& c : tank.cohorts) alive += c.alive;
  return alive;
}

/// Stock of one tank goes into another, which has rested; what finds no slot is given up.
void move_stock(const YearPlan& plan, const PlannedUpkeep& upkeep, std::size_t from, std::size_t to,
                YearSystem& system) {
  YearTank &source = system.tanks[from], &target = system.tanks[to];
  change_water(upkeep, upkeep.tanks[to].reset_share, system);
  target.cohorts = std::move(source.cohorts);
  source.cohorts.clear();
  long surplus = alive_in(target) - upkeep.tanks[to].slots;
  for (std::size_t i = target.cohorts.size(); i-- > 0 && surplus > 0;) {
    const long given_up = std::min(surplus, target.cohorts[i].alive);
    target.cohorts[i].alive -= given_up;
    target.no_room += given_up;
    surplus -= given_up;
  }
  target.pest_adults = target.pest_adults * (1.0 - plan.pest.reset) + source.pest_adults * (1.0 - plan.pest.dip);
  source.pest_adults = 0.0;
  source.stocked = false;
  target.stocked = true;
}

struct WaterDay {
  double growth = 1.0;    ///< calcification over that at target
  double distress = 0.0;  ///< s without oxygen
  bool overflowed = false;
};

/// Level and salinity over a stretch under even evaporation, kg/s. Past the overflow the system is a stirred tank.
bool keep_level(const PlannedUpkeep& upkeep, unsigned failed, double evaporation, double time, YearSystem& system) {
  double make_up = 0.0;
  const bool off = (failed & (bit_of(YearFailure::make_up_off) | bit_of(YearFailure::power_cut))) != 0;
  if (!off) {
    make_up = upkeep.make_up;
    if ((failed & bit_of(YearFailure::make_up_stuck_on)) == 0)
      make_up = std::clamp((upkeep.full - si(system.water.now)) / time + evaporation, 0.0, make_up);
  }
  add(system.water.added, make_up * time);
  add(system.water.used, evaporation * time);
  double water = si(system.water.now) + (make_up - evaporation) * time;
  const double over = water - upkeep.highest;
  if (over > 0.0) {
    water -= over;
    add(system.water.overflowed, over);
    const double share = -std::expm1(-over / upkeep.highest);
    take_share(system.salt, share, &MassBook::overflowed);
    take_share(system.alkalinity, share, &AmountBook::overflowed);
    take_share(system.calcium, share, &AmountBook::overflowed);
  }
  if (!(water > 0.0))
    throw OutOfValidity("a year of a farm", "a system has evaporated to the last drop: its make-up is too small");
  system.water.now = from_si<Mass>(water);
  return over > 0.0;
}

/// Doses and calcification over a stretch; returns the equivalents that the stock took up.
double keep_minerals(const PlannedUpkeep& upkeep, double demand, double dose, double time, YearSystem& system) {
  const double volume = si(system.water.now) / upkeep.fresh_per_volume, dosed = dose * time;
  const Concentration before = system.alkalinity.now / from_si<Volume>(volume);
  double uptake = 0.0;
  // Diluted below the threshold, stock neither builds nor dissolves.
  if (demand > 0.0 && si(before) >= upkeep.threshold) {
    const Concentration after = alkalinity_after({.water = from_si<Volume>(volume),
                                                  .demand = from_si<AmountFlow>(demand),
                                                  .reference = from_si<Concentration>(upkeep.alkalinity),
                                                  .threshold = from_si<Concentration>(upkeep.threshold),
                                                  .dose = from_si<AmountFlow>(dose)},
                                                 before, from_si<Time>(time));
    uptake = std::max(0.0, dosed - volume * (si(after) - si(before)));
  }
  const auto equivalents = [](AmountBook& book, double added, double used) {
    add(book.added, added);
    add(book.used, used);
    add(book.now, added - used);
  };
  equivalents(system.alkalinity, dosed, uptake);
  equivalents(system.calcium, dosed / equivalents_per_calcium_carbonate, uptake / equivalents_per_calcium_carbonate);
  // What is dosed counts as taken: the rest stands in the water as alkalinity and calcium.
  const double carbonate = dosed / equivalents_per_calcium_carbonate;
  const double salt =
      si(salt_left_by_dosing({.calcium_carbonate = from_si<MassFlow>(carbonate * si(calcium_carbonate_molar_mass)),
                              .alkalinity = from_si<AmountFlow>(dosed),
                              .calcium = from_si<AmountFlow>(carbonate)}));
  add(system.salt.added, salt);
  add(system.salt.now, salt);
  return uptake;
}

/// Equivalents per time that the stock takes at the target, under the light that each tank had.
double demand_of(const YearPlan& plan, const PlannedUpkeep& upkeep, double light_time, const YearSystem& system) {
  const double more = plan.coral.light_over_dark - 1.0, measured = 1.0 + more * plan.measured_saturation;
  double carbonate = 0.0;
  for (std::size_t i = 0; i < system.tanks.size(); ++i) {
    double area = 0.0;
    for (const YearCohort& c : system.tanks[i].cohorts) area += static_cast<double>(c.alive) * si(c.area);
    carbonate += area * (1.0 + more * upkeep.tanks[i].saturation * light_time / day_s) / measured;
  }
  return carbonate * si(plan.coral.calcification) / si(calcium_carbonate_molar_mass) *
         equivalents_per_calcium_carbonate;
}

WaterDay water_of_day(const YearPlan& plan, const PlannedUpkeep& upkeep, const std::vector<OutOfOrder>& out_of_order,
                      const SystemHeat& heat, YearSystem& system) {
  WaterDay day;
  const double demand = demand_of(plan, upkeep, heat.light_time, system), evaporation = heat.vapour / day_s;
  const double volume = si(system.water.now) / upkeep.fresh_per_volume;
  const double alkalinity = si(system.alkalinity.now) / volume;
  const double wanted = std::clamp(si(system.uptake) + (upkeep.alkalinity - alkalinity) * volume / upkeep.correction,
                                   0.0, upkeep.full_dose);
  const double step = plan.heat->step;
  double uptake = 0.0;
  for (std::size_t i = 0; i < out_of_order.size(); ++i) {
    const unsigned failed = out_of_order[i].failed;
    const double from = static_cast<double>(out_of_order[i].step) * step;
    const double to = i + 1 < out_of_order.size() ? static_cast<double>(out_of_order[i + 1].step) * step : day_s;
    const double time = to - from;
    if (!(time > 0.0)) continue;
    day.overflowed |= keep_level(upkeep, failed, evaporation, time, system);
    double dose = wanted;
    if ((failed & (bit_of(YearFailure::dosing_off) | bit_of(YearFailure::power_cut))) != 0)
      dose = 0.0;
    else if ((failed & bit_of(YearFailure::dosing_stuck_on)) != 0)
      dose = upkeep.full_dose;
    uptake += keep_minerals(upkeep, demand, dose, time, system);
    if ((failed & bit_of(YearFailure::power_cut)) == 0) {
      system.without_power = {};
      continue;
    }
    const double before = si(system.without_power), lasts = si(plan.coral.oxygen_lasts);
    day.distress += std::max(0.0, before + time - lasts) - std::max(0.0, before - lasts);
    add(system.without_power, time);
  }
  system.uptake = from_si<AmountFlow>(uptake / day_s);
  day.growth = demand > 0.0 ? uptake / (demand * day_s)
                            : std::max(0.0, (alkalinity - upkeep.threshold) / (upkeep.alkalinity - upkeep.threshold));
  return day;
}

void pests_of_day(const YearPlan& plan, const PlannedUpkeep& upkeep, YearSystem& system) {
  const YearPest& pest = plan.pest;
  double all = 0.0;
  for (std::size_t i = 0; i < system.tanks.size(); ++i) {
    YearTank& tank = system.tanks[i];
    const double most = static_cast<double>(upkeep.tanks[i].slots) * pest.adults_per_slot;
    if (tank.pest_adults > 0.0) {
      // Logistic growth over a day, solved.
      const double grown = std::exp(si(pest.growth) * day_s);
      tank.pest_adults *= tank.stocked && most > 0.0 ? most * grown / (most + tank.pest_adults * (grown - 1.0))
                                                     : std::exp(-si(pest.hungry_death) * day_s);
    }
    all += tank.pest_adults;
  }
  if (!(all > 0.0)) return;
  const double mean = all / static_cast<double>(system.tanks.size());
  const double mixed = -std::expm1(-si(pest.transfer) * day_s);
  for (YearTank& tank : system.tanks) tank.pest_adults += mixed * (mean - tank.pest_adults);
}

void stock_of_day(const YearPlan& plan, const PlannedUpkeep& upkeep, std::size_t index, int seed, const WaterDay& water,
                  const SystemHeat& heat, YearSystem& system) {
  const YearCoral& coral = plan.coral;
  for (std::size_t i = 0; i < system.tanks.size(); ++i) {
    YearTank& tank = system.tanks[i];
    const PlannedTank& planned = upkeep.tanks[i];
    if (!tank.stocked) continue;
    tank.slot_days += planned.slots;
    const double distress = std::min(day_s, heat.cold[i] + heat.warm[i] + water.distress);
    double dying = si(coral.death) * day_s + si(coral.death_in_distress) * distress;
    if (planned.slots > 0)
      dying += si(plan.pest.damage) * day_s * tank.pest_adults / static_cast<double>(planned.slots);
    const double share = -std::expm1(-dying);
    const double rate =
        si(coral.growth.rate) * planned.saturation * heat.light_time / day_s / plan.measured_saturation * water.growth;
    for (std::size_t place = 0; place < tank.cohorts.size(); ++place) {
      YearCohort& cohort = tank.cohorts[place];
      cohort.dying += share * static_cast<double>(cohort.alive);
      const long dead = std::min(cohort.alive, static_cast<long>(cohort.dying));
      cohort.alive -= dead;
      cohort.dying -= static_cast<double>(dead);
      tank.dead += dead;

      const double healing = std::min(day_s, si(cohort.healing));
      add(cohort.healing, -healing);
      cohort.area = from_si<Area>(kernel::grown_area(si(cohort.area), rate * cohort.factor, day_s - healing));
      if (cohort.area < coral.growth.sale_area) continue;
      tank.sold += cohort.alive;
      cohort = {.alive = cut_size(planned, place),
                .dying = 0.0,
                .area = coral.growth.cut_area,
                .healing = coral.growth.healing,
                .factor = 1.0};
      tank.cut += cohort.alive;
      if (coral.growth_factor > 1.0)
        cohort.factor =
            std::pow(coral.growth_factor,
                     2.0 * unit_number(seed, stream_of(index, growth_purpose), system.growth_drawn++) - 1.0);
    }
  }
}

void sound_alarms(const YearPlan& plan, const PlannedUpkeep& upkeep, int day, const SystemHeat& heat, bool overflowed,
                  YearSystem& system) {
  const YearAlarms& limits = plan.alarms;
  const double fresh = si(system.water.now), salt = si(system.salt.now);
  const double alkalinity = si(system.alkalinity.now) * upkeep.fresh_per_volume / fresh;
  const double salinity = salt / (salt + fresh);
  const auto any = [](const std::vector<double>& time) {
    return std::any_of(time.begin(), time.end(), [](double t) { return t > 0.0; });
  };
  const auto set = [&](YearAlarm kind, bool on) {
    AlarmBook& alarm = system.alarms[static_cast<std::size_t>(kind)];
    if (on && !alarm.on) {
      ++alarm.raised;
      if (alarm.first_day < 0) alarm.first_day = day;
    }
    alarm.days += on ? 1 : 0;
    alarm.on = on;
  };
  set(YearAlarm::cold, any(heat.cold));
  set(YearAlarm::warm, any(heat.warm));
  set(YearAlarm::alkalinity_low, alkalinity < si(limits.alkalinity_low));
  set(YearAlarm::alkalinity_high, alkalinity > si(limits.alkalinity_high));
  set(YearAlarm::salinity_low, salinity < limits.salinity_low.mass_fraction());
  set(YearAlarm::salinity_high, salinity > limits.salinity_high.mass_fraction());
  set(YearAlarm::pump_dry, system.dry);
  set(YearAlarm::overflow, overflowed);
}

}  // namespace

long cut_size(const PlannedTank& tank, std::size_t place) {
  const long count = static_cast<long>(tank.cohorts), at = static_cast<long>(place);
  return tank.filled / count + (at < tank.filled % count ? 1 : 0);
}

YearCohort cohort_at(const YearPlan& plan, const PlannedTank& tank, std::size_t place) {
  const Growth& growth = plan.coral.growth;
  const double age = plan.cycle * static_cast<double>(place) / static_cast<double>(tank.cohorts);
  const double healing = std::min(age, si(growth.healing));
  return {.alive = cut_size(tank, place),
          .dying = 0.0,
          .area = from_si<Area>(kernel::grown_area(si(growth.cut_area), si(growth.rate), age - healing)),
          .healing = from_si<Time>(si(growth.healing) - healing),
          .factor = 1.0};
}

FailureClock wound_clock(double rate, int seed, std::uint64_t stream) {
  FailureClock clock;
  clock.next =
      from_si<Time>(rate > 0.0 ? waiting(seed, stream, clock.drawn++) / rate : std::numeric_limits<double>::infinity());
  return clock;
}

void at_midnight(const YearPlan& plan, const PlannedUpkeep& upkeep, int day, YearSystem& system) {
  if (day > 0 && upkeep.fallow > 0 && day % upkeep.days_between_moves == 0) {
    // As play_rotation: the place that has rested longest takes the stock of the one after the last that was emptied.
    const auto tanks = static_cast<int>(system.tanks.size());
    const int to = system.fallow.front(), from = (system.fallow.back() + 1) % tanks;
    system.fallow.erase(system.fallow.begin());
    system.fallow.push_back(from);
    move_stock(plan, upkeep, static_cast<std::size_t>(from), static_cast<std::size_t>(to), system);
  }
  if (day > 0 && upkeep.changed > 0.0 && day % upkeep.days_between_changes == 0)
    change_water(upkeep, upkeep.changed, system);
}

void through_day(const YearPlan& plan, const PlannedUpkeep& upkeep, std::size_t index, int seed, int day,
                 const std::vector<OutOfOrder>& out_of_order, const SystemHeat& heat, YearSystem& system) {
  for (std::size_t i = 0; i < system.tanks.size(); ++i) {
    YearTank& tank = system.tanks[i];
    tank.lowest = celsius(std::min(in_celsius(tank.lowest), heat.lowest[i]));
    tank.highest = celsius(std::max(in_celsius(tank.highest), heat.highest[i]));
    tank.degree_days += heat.area[i] / day_s;
    add(tank.cold, heat.cold[i]);
    add(tank.warm, heat.warm[i]);
    add(system.lit, upkeep.tanks[i].light * heat.light_time);
  }
  const WaterDay water = water_of_day(plan, upkeep, out_of_order, heat, system);
  run_clock(
      system.arrivals, {.rate = si(plan.pest.arrivals), .repair = 0.0}, seed, stream_of(index, arrivals_purpose),
      (day + 1) * day_s, [&](double, bool arrived) {
        if (!arrived) return;
        const double where = unit_number(seed, stream_of(index, arrivals_purpose), system.arrivals.drawn++);
        const std::size_t tanks = system.tanks.size();
        if (tanks > 0)
          system.tanks[std::min(tanks - 1, static_cast<std::size_t>(where * static_cast<double>(tanks)))].pest_adults +=
              1.0;
      });
  pests_of_day(plan, upkeep, system);
  stock_of_day(plan, upkeep, index, seed, water, heat, system);
  system.dry = si(system.water.now) < upkeep.lowest;
  sound_alarms(plan, upkeep, day, heat, water.overflowed, system);
}

}  // namespace theca::farm::detail
