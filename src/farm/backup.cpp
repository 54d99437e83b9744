#include "theca/farm/backup.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "theca/require.hpp"

namespace theca::farm {

namespace {

void require_share(const std::string& what, double share) {
  require::that(share > 0.0 && share <= 1.0, what, share, "> 0 to 1");
}
void require_factor(const std::string& what, double factor) {
  require::that(factor >= 1.0 && std::isfinite(factor), what, factor, ">= 1 and finite");
}

void require_loads(std::span<const CriticalLoad> loads) {
  for (const CriticalLoad& load : loads) {
    require::not_negative("power of '" + load.name + "'", load.power);
    require::within("duty of '" + load.name + "'", load.duty, 0.0, 1.0);
    require_share("power factor of '" + load.name + "'", load.power_factor);
    require_factor("start factor of '" + load.name + "'", load.start_factor);
  }
}

void require_bank(const BatteryBank& bank) {
  require_share("inverter efficiency", bank.inverter_efficiency);
  require::not_negative("idle power of the inverter", bank.inverter_idle);
  require_share("depth of discharge", bank.depth_of_discharge);
  require_share("capacity at the end of life", bank.end_of_life);
  require::that(bank.capacity_factor > 0.0 && bank.capacity_factor <= 1.5, "capacity factor", bank.capacity_factor,
                "> 0 to 1.5");
  require_factor("design margin", bank.design_margin);
}

/// Power over the outage on average.
Power mean_power(std::span<const CriticalLoad> loads) {
  require_loads(loads);
  Power sum = from_si<Power>(0.0);
  for (const CriticalLoad& load : loads) sum += load.duty * load.power;
  return sum;
}

Power battery_power(std::span<const CriticalLoad> loads, const BatteryBank& bank) {
  require_bank(bank);
  return mean_power(loads) / bank.inverter_efficiency + bank.inverter_idle;
}

/// Share of the rating that may be drawn in the last year of its life.
double usable(const BatteryBank& bank) {
  return bank.depth_of_discharge * bank.end_of_life * bank.capacity_factor / bank.design_margin;
}

Power running_apparent(const CriticalLoad& load) { return load.power / load.power_factor; }
/// What the start of a load adds to its running power.
Power surge(const CriticalLoad& load) { return (load.start_factor - 1.0) * running_apparent(load); }

}  // namespace

Energy backup_energy(std::span<const CriticalLoad> loads, const Time& outage) {
  require::not_negative("outage", outage);
  return mean_power(loads) * outage;
}

Energy battery_rating(std::span<const CriticalLoad> loads, const Time& outage, const BatteryBank& bank) {
  require::not_negative("outage", outage);
  return battery_power(loads, bank) * outage / usable(bank);
}

Time battery_time(std::span<const CriticalLoad> loads, const Energy& rating, const BatteryBank& bank) {
  require::positive("rating of the battery", rating);
  const Power taken = battery_power(loads, bank);
  require::positive("power taken from the battery", taken);
  return usable(bank) * rating / taken;
}

Charge battery_charge(const Energy& rating, const Voltage& nominal) {
  require::not_negative("rating of the battery", rating);
  require::positive("nominal voltage", nominal);
  return rating / nominal;
}

GeneratorDemand generator_demand(std::span<const CriticalLoad> loads, StartOrder order) {
  require_loads(loads);
  GeneratorDemand demand;
  demand.order.resize(loads.size());
  std::iota(demand.order.begin(), demand.order.end(), std::size_t{0});
  // Exchanging two neighbours of which the second has the greater surge never raises the peak.
  if (order == StartOrder::largest_first)
    std::stable_sort(demand.order.begin(), demand.order.end(),
                     [&](std::size_t a, std::size_t b) { return surge(loads[a]) > surge(loads[b]); });
  Power all_surges = from_si<Power>(0.0);
  for (const std::size_t i : demand.order) {
    demand.running += loads[i].power;
    demand.running_apparent += running_apparent(loads[i]);
    all_surges += surge(loads[i]);
    demand.starting_apparent = std::max(demand.starting_apparent, demand.running_apparent + surge(loads[i]));
  }
  if (order == StartOrder::together) demand.starting_apparent = demand.running_apparent + all_surges;
  return demand;
}

GeneratorRating generator_rating(const GeneratorDemand& demand, const GeneratorSet& set) {
  require::not_negative("running power", demand.running);
  require::that(demand.running_apparent >= demand.running && std::isfinite(si(demand.running_apparent)),
                "running apparent power", demand.running_apparent, "at least the real power, " + text(demand.running));
  require::not_negative("starting apparent power", demand.starting_apparent);
  require_share("loading limit", set.loading_limit);
  require_share("derating", set.derating);
  require_factor("surge factor", set.surge_factor);
  const Power running = demand.running_apparent / (set.loading_limit * set.derating);
  const Power starting = demand.starting_apparent / (set.surge_factor * set.derating);
  return {demand.running / (set.loading_limit * set.derating), std::max(running, starting), starting > running};
}

}  // namespace theca::farm
