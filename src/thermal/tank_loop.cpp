#include "theca/thermal/tank_loop.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "course.hpp"
#include "theca/require.hpp"
#include "theca/seawater.hpp"

namespace theca::thermal {

namespace {

void require_index(std::string_view argument, std::size_t index, std::size_t count, std::string_view of) {
  require::that(index < count, argument, double(index),
                "below the number of " + std::string(of) + ", " + std::to_string(count));
}

void validate_course(const Course& course) {
  if (course.points.empty()) require::positive("mean of a course", course.mean);
  for (const Swing& s : course.swings) {
    require::not_negative("amplitude of a swing", s.amplitude);
    require::positive("period of a swing", s.period);
    require::finite("warmest time of a swing", s.warmest);
  }
  for (std::size_t i = 0; i < course.points.size(); ++i) {
    const CoursePoint& p = course.points[i];
    require::positive("temperature of a course", p.temperature);
    require::not_negative("time in a course", p.time);
    require::that(i == 0 || p.time > course.points[i - 1].time, "time in a course", p.time,
                  "later than the point ahead of it");
  }
  if (course.repeats_after) {
    require::positive("repeats after", *course.repeats_after);
    require::that(course.points.empty() || *course.repeats_after > course.points.back().time, "repeats after",
                  *course.repeats_after, "later than the last point of the course");
  } else if (!course.points.empty()) {
    require::that(si(course.points.front().time) == 0.0, "first time in a course", course.points.front().time,
                  "0, since the course does not repeat");
  }
}

void validate_node(const LoopNode& node, const TankLoop& loop, std::size_t self) {
  require::positive("heat capacity of " + node.name, node.capacity);
  require::within("start temperature of " + node.name, node.start, air::lowest_temperature, air::highest_temperature);
  require::not_negative("UA of " + node.name, node.UA);
  require::within("share to the room of " + node.name, node.share_to_room, 0.0, 1.0);
  if (node.in_room) {
    require_index("room of " + node.name, *node.in_room, loop.nodes.size(), "nodes");
    require::that(*node.in_room != self, "room of " + node.name, double(self), "another node");
  } else {
    require_index("course of " + node.name, node.course, loop.courses.size(), "courses");
  }
}

// One-way flows of a pump must bring as much to a node as they take: water does not pile up.
void validate_rounds(const TankLoop& loop) {
  std::map<std::pair<std::string, std::size_t>, std::pair<double, double>> through;  // pump, node: net, and gross
  for (const LoopFlow& flow : loop.flows) {
    require_index("from of a flow", flow.from, loop.nodes.size(), "nodes");
    require_index("to of a flow", flow.to, loop.nodes.size(), "nodes");
    require::that(flow.from != flow.to, "to of a flow", double(flow.to), "another node than it comes from");
    require::not_negative("exchange of a flow", flow.exchange);
    if (flow.returns) continue;
    for (const auto& [node, sign] : {std::pair{flow.from, -1.0}, std::pair{flow.to, 1.0}}) {
      auto& sum = through[{flow.pump, node}];
      sum.first += sign * si(flow.exchange);
      sum.second += si(flow.exchange);
    }
  }
  for (const auto& [key, sum] : through)
    require::that(std::abs(sum.first) <= 1e-12 * sum.second,
                  "one-way flows of pump \"" + key.first + "\" at " + loop.nodes[key.second].name,
                  from_si<ThermalConductance>(sum.first), "0 net: what flows in flows out");
}

void validate_unit(const ThermostatUnit& unit, const TankLoop& loop) {
  require_index("node of " + unit.name, unit.node, loop.nodes.size(), "nodes");
  if (unit.sensor) require_index("sensor of " + unit.name, *unit.sensor, loop.nodes.size(), "nodes");
  require::finite("heat of " + unit.name, unit.heat);
  require::that(si(unit.heat) != 0.0, "heat of " + unit.name, unit.heat, "not 0");
  require::not_negative("electricity of " + unit.name, unit.electricity);
  require::positive("on_at of " + unit.name, unit.on_at);
  require::positive("off_at of " + unit.name, unit.off_at);
  const double spread = (si(unit.off_at) - si(unit.on_at)) * (si(unit.heat) > 0.0 ? 1.0 : -1.0);
  require::that(spread >= 1e-3, "off_at of " + unit.name, from_si<TemperatureDifference>(spread),
                "past on_at by 0.001 K or more, the way that the unit drives the water");
  if (unit.warms) {
    require_index("warms of " + unit.name, *unit.warms, loop.nodes.size(), "nodes");
    require::that(si(unit.heat) < 0.0, "warms of " + unit.name, unit.heat, "asked of a chiller alone");
  }
}

void validate_gain(const LoopGain& gain, const TankLoop& loop) {
  require_index("node of " + gain.name, gain.node, loop.nodes.size(), "nodes");
  require::finite("heat of " + gain.name, gain.heat);
  require::not_negative("electricity of " + gain.name, gain.electricity);
  if (!gain.hours) return;
  require::not_negative("start of the hours of " + gain.name, gain.hours->from);
  require::that(gain.hours->from < units::day.size, "start of the hours of " + gain.name, gain.hours->from,
                "below 24 h");
  require::positive("length of the hours of " + gain.name, gain.hours->length);
  require::that(gain.hours->length < units::day.size, "length of the hours of " + gain.name, gain.hours->length,
                "below 24 h; no hours at all: always");
}

void validate_incident(const Incident& incident, const TankLoop& loop) {
  require::not_negative("from of an incident", incident.from);
  require::finite("to of an incident", incident.to);
  require::that(incident.to > incident.from, "to of an incident", incident.to, "later than its from");
  const auto named = [&](const auto& item) { return item.name == incident.name; };
  const bool unit = std::any_of(loop.units.begin(), loop.units.end(), named);
  if (incident.failure == Failure::power_cut) {
    if (!incident.name.empty()) throw InvalidInput("name of a power cut", incident.name, "none: it takes everything");
  } else if (incident.failure == Failure::stuck_on) {
    if (!unit) throw InvalidInput("name of an incident", incident.name, "that of a unit");
  } else {
    const bool gain = std::any_of(loop.gains.begin(), loop.gains.end(), named);
    const bool pump = std::any_of(loop.flows.begin(), loop.flows.end(),
                                  [&](const LoopFlow& f) { return !f.pump.empty() && f.pump == incident.name; });
    if (!unit && !gain && !pump)
      throw InvalidInput("name of an incident", incident.name, "that of a unit, a gain or a pump");
  }
}

}  // namespace

Temperature temperature_at(const Course& course, const Time& time) {
  validate_course(course);
  require::not_negative("time", time);
  if (!course.points.empty() && !course.repeats_after)
    require::that(time <= course.points.back().time, "time", time, "not past the last point of the course");
  return from_si<Temperature>(detail::piece_at(course, si(time))(si(time)));
}

ThermalConductance flow_exchange(const VolumeFlow& flow, const Water& water) {
  require::not_negative("flow", flow);
  return flow * seawater::density(water.temperature, water.salinity) *
         seawater::specific_heat_capacity(water.temperature, water.salinity);
}

ThermostatUnit heater_unit(std::string name, std::size_t node, const Power& power, const Temperature& set_point,
                           const TemperatureDifference& spread) {
  require::positive("power", power);
  require::positive("spread", spread);
  ThermostatUnit unit;
  unit.name = std::move(name);
  unit.node = node;
  unit.heat = power;
  unit.on_at = set_point - 0.5 * spread;
  unit.off_at = set_point + 0.5 * spread;
  unit.electricity = power;
  return unit;
}

ThermostatUnit chiller_unit(std::string name, std::size_t node, const Power& cooling, const Temperature& set_point,
                            const TemperatureDifference& spread, double performance) {
  require::positive("cooling", cooling);
  require::positive("spread", spread);
  require::positive("performance", performance);
  ThermostatUnit unit;
  unit.name = std::move(name);
  unit.node = node;
  unit.heat = -cooling;
  unit.on_at = set_point + 0.5 * spread;
  unit.off_at = set_point - 0.5 * spread;
  unit.electricity = cooling / performance;
  return unit;
}

void validate(const TankLoop& loop) {
  require::that(!loop.nodes.empty(), "nodes", 0.0, "at least one");
  for (const Course& course : loop.courses) validate_course(course);
  for (std::size_t i = 0; i < loop.nodes.size(); ++i) validate_node(loop.nodes[i], loop, i);
  validate_rounds(loop);
  for (const ThermostatUnit& unit : loop.units) validate_unit(unit, loop);
  for (const LoopGain& gain : loop.gains) validate_gain(gain, loop);
  for (const Incident& incident : loop.incidents) validate_incident(incident, loop);
}

}  // namespace theca::thermal
