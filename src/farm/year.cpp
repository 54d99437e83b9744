// A farm held to its limits and turned into raw numbers.
#include "theca/farm/year.hpp"

#include <cmath>

#include "theca/farm/chemistry.hpp"
#include "theca/farm/light_growth.hpp"
#include "theca/require.hpp"
#include "theca/seawater.hpp"
#include "year_plan.hpp"

namespace theca::farm {

namespace {

using namespace detail;

template <class Entry>
const Entry& entry(const std::vector<Entry>& list, std::size_t i) {
  return list.size() == 1 ? list.front() : list[i];
}
template <class Entry>
void require_entries(const char* name, const std::vector<Entry>& list, std::size_t count) {
  require::that(list.size() == 1 || list.size() == count, std::string("length of ") + name,
                static_cast<double>(list.size()), "one, or " + std::to_string(count));
}

void require_coral(const YearCoral& coral) {
  cycle_time(coral.growth);
  require::not_negative("calcification", coral.calcification);
  require::positive("light of the day of the measurement", coral.measured_at);
  require::positive("hours of light of the measurement", coral.measured_hours);
  require::that(coral.light_over_dark >= 1.0 && std::isfinite(coral.light_over_dark),
                "calcification in light over dark", coral.light_over_dark, ">= 1");
  require::within("factor of growth", coral.growth_factor, 1.0, 10.0);
  require::not_negative("death rate", coral.death);
  require::not_negative("death rate in distress", coral.death_in_distress);
  require::not_negative("time that oxygen lasts", coral.oxygen_lasts);
}

void require_pest(const YearPest& pest) {
  require::not_negative("growth of the pest", pest.growth);
  require::positive("adults per slot", pest.adults_per_slot);
  require::not_negative("death of hungry adults", pest.hungry_death);
  require::not_negative("transfer", pest.transfer);
  require::not_negative("arrivals", pest.arrivals);
  require::within("share killed by a dip", pest.dip, 0.0, 1.0);
  require::within("share killed by a reset", pest.reset, 0.0, 1.0);
  require::not_negative("damage", pest.damage);
}

void require_upkeep(const YearUpkeep& u, const Volume& water, std::size_t tanks) {
  require::positive("alkalinity", u.alkalinity);
  require::not_negative("alkalinity threshold", u.alkalinity_threshold);
  require::that(u.alkalinity_threshold < u.alkalinity, "alkalinity threshold", u.alkalinity_threshold,
                "below the alkalinity, " + text(u.alkalinity));
  require::not_negative("calcium", u.calcium);
  require::not_negative("full dose", u.full_dose);
  require::positive("correction", u.correction);
  require::not_negative("make-up", u.make_up);
  require::not_negative("room above the running level", u.above);
  require::within("water above the pump's intake", u.below, from_si<Volume>(0.0), water);
  require::within("water of a change", u.changed, from_si<Volume>(0.0), water);
  require::that(u.days_between_changes > 0, "days between changes", u.days_between_changes, "> 0");
  require::that(u.days_between_moves > 0, "days between moves", u.days_between_moves, "> 0");
  require::that(u.fallow >= 0 && (u.fallow == 0 || static_cast<std::size_t>(u.fallow) < tanks), "fallow tanks",
                u.fallow, "0 to one fewer than the tanks of the system, " + std::to_string(tanks));
}

PlannedTank planned_tank(const FarmYear& farm, std::size_t tank, double system_water) {
  const YearStock& stock = entry(farm.stock, tank);
  require::that(stock.slots >= 0, "slots", static_cast<double>(stock.slots), ">= 0");
  require::within("occupancy", stock.occupancy, 0.0, 1.0);
  require::that(stock.cohorts >= 1 && stock.cohorts <= 1000, "cohorts", stock.cohorts, "1 to 1000");
  return {.slots = stock.slots,
          .filled = static_cast<long>(std::floor(static_cast<double>(stock.slots) * stock.occupancy + 1e-9)),
          .cohorts = static_cast<std::size_t>(stock.cohorts),
          .saturation = light_saturation(stock.ppfd, farm.coral.onset),
          .reset_share = si(farm.heat.tanks.water[tank]) / system_water,
          .light = si(farm.heat.tanks.light[tank])};
}

}  // namespace

PreparedYear prepare_year(const FarmYear& farm) {
  const thermal::PreparedBatch heat = thermal::prepare(farm.heat);
  auto plan = std::make_shared<YearPlan>();
  plan->heat = heat.plan;
  const double steps = day_s / si(farm.heat.step);
  require::that(std::abs(steps - std::round(steps)) < 1e-9 &&
                    std::round(steps) <= static_cast<double>(thermal::detail::block_steps),
                "step", farm.heat.step, "that divides a day, 10 min or more");
  require::that(farm.heat.traced.empty(), "traced tanks", static_cast<double>(farm.heat.traced.size()),
                "none: a year keeps no courses");
  const std::size_t systems = farm.heat.systems.room.size();
  require_entries("upkeep", farm.upkeep, systems);
  require_entries("stock", farm.stock, farm.heat.tanks.system.size());
  require_coral(farm.coral);
  require_pest(farm.pest);
  for (std::size_t s = 0; s < systems; ++s) {
    const double spread = si(farm.heat.systems.spread[s]);
    if (si(farm.heat.systems.heater[s]) > 0.0)
      require::within("cut-out of the heaters", farm.heater_cutout,
                      from_si<Temperature>(si(farm.heat.systems.heater_set_point[s]) + 1.5 * spread),
                      farm.heat.water_high);
  }
  plan->heater_cutout = in_celsius(farm.heater_cutout);
  plan->coral = farm.coral;
  plan->pest = farm.pest;
  plan->alarms = farm.alarms;
  plan->cycle = si(cycle_time(farm.coral.growth));
  plan->measured_saturation =
      daily_saturation({{.ppfd = farm.coral.measured_at, .duration = farm.coral.measured_hours}}, farm.coral.onset);
  for (const FailureRate& f : farm.failures) {
    require::not_negative("failure rate", f.rate);
    require::positive("time to repair", f.repair);
    PlannedFailure& planned = plan->failures.at(index_of(f.kind));
    require::that(planned.rate == 0.0, "failure rates", static_cast<double>(index_of(f.kind)), "each kind once");
    planned = {.rate = si(f.rate), .repair = si(f.repair)};
  }

  std::vector<std::vector<std::size_t>> tanks_of(systems);
  for (std::size_t i = 0; i < farm.heat.tanks.system.size(); ++i)
    tanks_of[static_cast<std::size_t>(farm.heat.tanks.system[i])].push_back(i);
  std::vector<std::size_t> place(farm.heat.tanks.system.size(), 0);
  const double salt = farm.heat.salinity.mass_fraction();
  const double fresh_per_volume = si(seawater::density(celsius(25.0), farm.heat.salinity)) * (1.0 - salt);
  for (std::size_t s = 0; s < systems; ++s) {
    const YearUpkeep& u = entry(farm.upkeep, s);
    Volume water = farm.heat.systems.sump_water[s];
    for (const std::size_t tank : tanks_of[s]) water += farm.heat.tanks.water[tank];
    require_upkeep(u, water, tanks_of[s].size());
    const double volume = si(water);
    PlannedUpkeep planned{.fresh_per_volume = fresh_per_volume,
                          .full = volume * fresh_per_volume,
                          .highest = si(water + u.above) * fresh_per_volume,
                          .lowest = si(water - u.below) * fresh_per_volume,
                          .salt_per_fresh = salt / (1.0 - salt),
                          .alkalinity = si(u.alkalinity),
                          .threshold = si(u.alkalinity_threshold),
                          .calcium = si(u.calcium) / si(calcium_molar_mass),
                          .full_dose = si(u.full_dose),
                          .correction = si(u.correction),
                          .make_up = si(u.make_up),
                          .changed = si(u.changed) / volume,
                          .days_between_changes = u.days_between_changes,
                          .days_between_moves = u.days_between_moves,
                          .fallow = static_cast<std::size_t>(u.fallow),
                          .tanks = {},
                          .tank_of_body = {}};
    for (std::size_t i = 0; i < tanks_of[s].size(); ++i) {
      place[tanks_of[s][i]] = i;
      planned.tanks.push_back(planned_tank(farm, tanks_of[s][i], volume));
      require::that(u.fallow == 0 || planned.tanks.back().cohorts == planned.tanks.front().cohorts, "cohorts",
                    static_cast<double>(planned.tanks.back().cohorts),
                    "the same in all tanks that stock moves through");
    }
    const thermal::detail::PlannedSystem& heated = heat.plan->systems[s];
    for (std::size_t body = heated.first; body < heated.sump; ++body)
      planned.tank_of_body.push_back(place[static_cast<std::size_t>(heat.plan->tank[body])]);
    plan->systems.push_back(std::move(planned));
  }
  return {.systems = heat.systems,
          .days = static_cast<int>(std::floor(si(farm.heat.duration) / day_s + 1e-9)),
          .plan = std::move(plan)};
}

}  // namespace theca::farm
