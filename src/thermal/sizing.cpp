#include "theca/thermal/sizing.hpp"

#include <algorithm>
#include <cmath>

#include "../root.hpp"
#include "theca/require.hpp"
#include "theca/seawater.hpp"

namespace theca::thermal {

namespace {

double net_loss(const TankSystem& system, AbsoluteSalinity salinity, const Room& room, double temperature_K) {
  return si(
      system_balance(system, {.temperature = from_si<Temperature>(temperature_K), .salinity = salinity}, room).net);
}

void require_criteria(const UnitCriteria& c) {
  require::within("set point", c.set_point.temperature, seawater::lowest_temperature, seawater::highest_temperature);
  require::within("lowest temperature", c.lowest, seawater::lowest_temperature, c.set_point.temperature);
  require::within("highest temperature", c.highest, c.set_point.temperature, seawater::highest_temperature);
  require::not_negative("margin", c.margin);
  require::that(!c.sizes.empty(), "sizes", 0.0, "at least one size of unit");
  for (const Power& size : c.sizes) require::positive("size of a unit", size);
  require::that(c.most_units >= 1, "most units", double(c.most_units), "at least 1");
}

constexpr double plenty = 1e12;  // W

// Where the water comes to stand with a constant power that no thermostat governs, and heating and cooling that one
// does.
std::optional<Temperature> held(const DesignDay& day, const Water& set_point, double constant, double heating,
                                double cooling) {
  const double lacking = net_loss(day.system, set_point.salinity, day.room, si(set_point.temperature)) - constant;
  if (lacking <= heating && -lacking <= cooling) return set_point.temperature;
  return settled_temperature(day.system, set_point.salinity, day.room,
                             from_si<Power>(constant + (lacking > 0.0 ? heating : -cooling)));
}

std::vector<UnitSplit> splits(UnitKind kind, const DesignDay& needed, const DesignDay& idle, double heaters,
                              const UnitCriteria& c) {
  require_criteria(c);
  const bool heats = kind == UnitKind::heater;
  const double net = net_loss(needed.system, c.set_point.salinity, needed.room, si(c.set_point.temperature));
  const double need = std::max(heats ? net : -net, 0.0);
  const auto borne = [&](const std::optional<Temperature>& t) { return t && *t >= c.lowest && *t <= c.highest; };
  std::vector<UnitSplit> list(static_cast<std::size_t>(c.most_units) * c.sizes.size());
  auto split = list.begin();
  for (int units = 1; units <= c.most_units; ++units)
    for (const Power& each : c.sizes) {
      const double one = si(each), others = double(units - 1) * one;
      split->kind = kind;
      split->units = units;
      split->each = each;
      split->installed = double(units) * each;
      split->need = from_si<Power>(need);
      split->covers = si(split->installed) >= (1.0 + c.margin) * need;
      split->one_dead =
          heats ? held(needed, c.set_point, 0.0, others, plenty) : held(needed, c.set_point, 0.0, plenty, others);
      split->one_stuck =
          heats ? held(idle, c.set_point, one, others, 0.0) : held(idle, c.set_point, -one, heaters, others);
      split->bears_dead = borne(split->one_dead);
      split->bears_stuck = borne(split->one_stuck);
      split->meets = split->covers && split->bears_dead && split->bears_stuck;
      ++split;
    }
  std::stable_sort(list.begin(), list.end(),
                   [](const UnitSplit& a, const UnitSplit& b) { return a.installed < b.installed; });
  return list;
}

}  // namespace

std::optional<Temperature> settled_temperature(const TankSystem& system, AbsoluteSalinity salinity, const Room& room,
                                               const Power& power) {
  require::finite("power", power);
  const auto surplus = [&](double temperature_K) {
    return net_loss(system, salinity, room, temperature_K) - si(power);
  };
  // Loss rises with the water's temperature throughout.
  const double low = si(seawater::lowest_temperature), high = si(seawater::highest_temperature);
  const double at_low = surplus(low), at_high = surplus(high);
  if (at_low > 0.0 || at_high < 0.0) return std::nullopt;
  return from_si<Temperature>(
      theca::detail::root_between("settled water temperature", surplus, low, high, at_low, at_high).at());
}

std::vector<UnitSplit> heater_splits(const DesignDay& cold, const DesignDay& warm, const UnitCriteria& criteria) {
  return splits(UnitKind::heater, cold, warm, 0.0, criteria);
}

std::vector<UnitSplit> chiller_splits(const DesignDay& warm, const DesignDay& cold, const Power& heaters,
                                      const UnitCriteria& criteria) {
  require::not_negative("heaters", heaters);
  return splits(UnitKind::chiller, warm, cold, si(heaters), criteria);
}

std::optional<UnitSplit> fewest_units(const std::vector<UnitSplit>& list) {
  std::optional<UnitSplit> best;
  for (const UnitSplit& split : list) {
    const bool better =
        !best || split.units < best->units || (split.units == best->units && split.installed < best->installed);
    if (split.meets && better) best = split;
  }
  return best;
}

}  // namespace theca::thermal
