#include "theca/farm/voltage_drop.hpp"

#include <cmath>

#include "theca/require.hpp"

namespace theca::farm {

namespace {

/// Drop along and across the load's voltage, for each metre of run, there and back.
struct DropPerMetre {
  double along, across;
};
DropPerMetre drop_per_metre(const CircuitRun& run, const Conductor& conductor) {
  require::not_negative("current", run.current);
  require::positive("voltage", run.voltage);
  require::that(run.power_factor > 0.0 && run.power_factor <= 1.0, "power factor", run.power_factor, "> 0 to 1");
  require::not_negative("reactance", run.reactance);
  const double r = si(resistance_at(conductor, run.conductor_temperature)), x = si(run.reactance);
  const double cosine = run.power_factor, sine = std::sqrt((1.0 - cosine) * (1.0 + cosine));
  const double both_ways = 2.0 * si(run.current);
  return {both_ways * (r * cosine + x * sine), both_ways * (x * cosine - r * sine)};
}

}  // namespace

VoltageDrop voltage_drop(const CircuitRun& run, const Conductor& conductor) {
  const DropPerMetre each = drop_per_metre(run, conductor);
  require::not_negative("length of the run", run.length);
  const double panel = si(run.voltage), along = each.along * si(run.length), across = each.across * si(run.length);
  require::that(std::hypot(along, across) < panel, "length of the run", run.length,
                "short enough that voltage is left for the load");
  // panel - sqrt(panel^2 - across^2) without the difference of two nearly equal numbers
  const double bend = across * across / (panel + std::sqrt((panel - across) * (panel + across)));
  const double drop = along + bend;
  VoltageDrop result;
  result.drop = from_si<Voltage>(drop);
  result.share = drop / panel;
  result.at_load = from_si<Voltage>(panel - drop);
  result.lost = 2.0 * (resistance_at(conductor, run.conductor_temperature) * run.length) * run.current * run.current;
  return result;
}

Length longest_run(const CircuitRun& run, const Conductor& conductor, double limit) {
  const DropPerMetre each = drop_per_metre(run, conductor);
  require::positive("current", run.current);
  require::that(limit > 0.0 && limit < 1.0, "drop limit", limit, "> 0 to below 1");
  const double panel = si(run.voltage), load = (1.0 - limit) * panel;
  // (load + along L)^2 + (across L)^2 = panel^2
  const double left = limit * (2.0 - limit) * panel * panel;
  const double square = each.along * each.along + each.across * each.across;
  return from_si<Length>(left / (load * each.along + std::sqrt(load * load * each.along * each.along + square * left)));
}

std::vector<SizeDrop> drop_by_size(const CircuitRun& run, std::span<const Conductor> conductors, double limit) {
  require::positive("drop limit", limit);
  std::vector<SizeDrop> sizes;
  for (const Conductor& conductor : conductors) {
    const VoltageDrop drop = voltage_drop(run, conductor);
    sizes.push_back({conductor.name, drop, drop.share <= limit});
  }
  return sizes;
}

}  // namespace theca::farm
