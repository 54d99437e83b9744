#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "collector.hpp"
#include "pump_checks.hpp"
#include "theca/study/assessment.hpp"
#include "theca/study/parts.hpp"
#include "theca/study/validate.hpp"

namespace theca::study {
namespace {

/// Least renewal of a tank's water through the sump. Common practice, no source: 3 to 10 per hour.
constexpr Frequency least_turnover = 3.0 * units::per_hour;
/// A drain should run no fuller than this. Common practice, no source.
constexpr double drain_filling = 0.5;
/// Ring of water on a standpipe's wall: a quiet quarter of its section, 1/4 to 1/3 by Wyly & Eaton 1961.
constexpr double quiet_ring = 0.25;

/// Branch flows by tank name, in the order in which `manifold` lays them out.
std::map<std::string, VolumeFlow> tank_flows(const Design& design, const hydraulics::ManifoldFlow& flow) {
  std::map<std::string, VolumeFlow> flows;
  std::size_t header = 0;
  for (const auto& [row, names] : design.rooms.layout.rows) {
    for (std::size_t i = 0; i < names.size(); ++i) flows[names[i]] = flow.headers[header].branch_flows[i];
    ++header;
  }
  return flows;
}

Volume pipe_content(const Design& design) {
  const PipeContent& content = design.pipes.content;
  Volume sum = content.drains;
  for (const auto& [bore, length] : content.counted_length) {
    const auto per_length = content.per_length.find(bore);
    if (per_length == content.per_length.end())
      throw InvalidInput("pipes.content.per_length", text(bore), "a volume per length for every counted bore");
    sum += per_length->second * length;
  }
  return sum;
}

struct KindFlows {
  std::string least_tank, most_tank;
  VolumeFlow least, most;
};

KindFlows flows_of(const TankKind& kind, const std::map<std::string, VolumeFlow>& flows) {
  KindFlows result;
  for (const std::string& name : kind.names) {
    const auto found = flows.find(name);
    if (found == flows.end()) throw InvalidInput("rooms.layout.rows", "no place for " + name, "every tank in one row");
    if (result.least_tank.empty() || found->second < result.least) {
      result.least = found->second;
      result.least_tank = name;
    }
    if (result.most_tank.empty() || found->second > result.most) {
      result.most = found->second;
      result.most_tank = name;
    }
  }
  return result;
}

std::optional<hydraulics::EmergencyDrain> emergency_drain(const TankKind& kind) {
  if (!kind.emergency_drain) return {};
  return hydraulics::EmergencyDrain{kind.emergency_drain->bore, kind.emergency_drain->rim,
                                    kind.emergency_drain->highest_level};
}

/// The main drain blocked while the pump runs on, from the level that it had: the tank with the most flow.
void blocked_drain_checks(const Design& design, const std::string& tank, const TankKind& kind, const KindFlows& flows,
                          Collector& checks) {
  const auto blocked = [&](const std::optional<hydraulics::EmergencyDrain>& drain) {
    const structure::TankShell outside = shell(design, kind);
    const hydraulics::BlockedTank blocked_tank{
        .inflow = flows.most,
        .surface = structure::inside_area(outside),
        .running_level = running_level(kind, flows.most),
        .tank_rim = structure::wall_height(outside),
        .sump_reserve = hydraulics::spare_volume(structure::inside_area(shell(design, design.sump)),
                                                 design.sump.pump_draws_air_below, design.sump.running_depth)};
    if (!(blocked_tank.running_level < blocked_tank.tank_rim))
      throw OutOfValidity("blocked drain", "the tank runs over its rim even with the main drain open");
    return hydraulics::blocked_drain_check(flows.most_tank, blocked_tank, drain);
  };
  checks.add("hydraulics: " + tank + " blocked drain", [&] { return blocked(emergency_drain(kind)); });
  if (!kind.emergency_drain) return;
  checks.add("hydraulics: " + tank + " both drains blocked", [&] {
    Check check = blocked({});
    check.question = "If both drains are blocked and the pump runs on, does the water stay off the floor?";
    return check;
  });
}

void tank_checks(const Design& design, const std::string& tank, const TankKind& kind, const KindFlows& flows,
                 Collector& checks) {
  const Volume volume = structure::water_volume(shell(design, kind));
  checks.add("hydraulics: " + tank + " turnover",
             [&] { return hydraulics::turnover_check(flows.least_tank, flows.least, volume, least_turnover); });
  checks.add("hydraulics: " + tank + " standpipe", [&] {
    return hydraulics::standpipe_check(flows.most_tank, flows.most, kind.main_drain_bore, quiet_ring);
  });
  checks.add("hydraulics: " + tank + " running level", [&] {
    return make_check({.name = {},
                       .question = "Does the water run below the top of the wall?",
                       .where = flows.most_tank + ", weir crest and weir head over the inside base",
                       .source = "Francis 1855, weir; statics of the running level",
                       .caution = "Water over the rim reaches electrics and neighbours."},
                      measure(running_level(kind, flows.most), units::inch),
                      measure(structure::wall_height(shell(design, kind)), units::inch), 0.0);
  });
  checks.add("hydraulics: " + tank + " emergency drain",
             [&] { return hydraulics::emergency_drain_check(flows.most_tank, flows.most, emergency_drain(kind)); });
  blocked_drain_checks(design, tank, kind, flows, checks);
}

std::string furthest_from_mean(const std::map<std::string, VolumeFlow>& flows, const VolumeFlow& mean) {
  std::string furthest;
  double most = -1.0;
  for (const auto& [tank, flow] : flows) {
    const double share = si(flow / mean) - 1.0;
    if (std::abs(share) > most) {
      most = std::abs(share);
      furthest = tank + (share > 0.0 ? ", above the mean" : ", below the mean");
    }
  }
  return furthest;
}

void circulation_check(const Design& design, Collector& checks) {
  const CirculationPump& pump = design.pump.circulation;
  checks.add("hydraulics: circulation pump jet", [&] {
    const Velocity velocity =
        hydraulics::jet_centreline_velocity({.flow = pump.flow, .outlet_diameter = pump.outlet_diameter},
                                            pump.target_distance, design.site.water.kinematic_viscosity);
    return hydraulics::water_velocity_check("jet axis at " + text(measure(pump.target_distance, units::inch)), velocity,
                                            pump.target.low, pump.target.high);
  });
}

/// What runs into the sump when the pump stops.
hydraulics::DrainBack drain_back(const Design& design, const std::map<std::string, VolumeFlow>& flows) {
  std::vector<hydraulics::DrainingTank> draining;
  for (const auto& [name, kind] : design.tanks.kinds) {
    const Length level = running_level(kind, flows_of(kind, flows).most);
    const Length outlet = level - design.pipes.outlet_below_surface;
    draining.push_back({.surface = structure::inside_area(shell(design, kind)),
                        .running_level = level,
                        .rest_level = hydraulics::rest_level_of(kind.weir.crest, outlet),
                        .count = int(kind.names.size())});
  }
  return hydraulics::drain_back(draining, pipe_content(design));
}

/// The sump when the pump starts again: weirs overfilled by the flow that the pump gives against empty pipes, and
/// without the water that ran over the sump's rim when the power went.
Check restart(const Design& design, const VolumeFlow& duty, const std::map<std::string, VolumeFlow>& flows) {
  const structure::TankShell shell_of_sump = shell(design, design.sump);
  const Area surface = structure::inside_area(shell_of_sump);
  constexpr double most_surge = 1.5;  // that is calculated
  const double run_out = si(design.pump.curve.back().flow / duty), surge = std::clamp(run_out, 1.0, most_surge);
  std::vector<hydraulics::OverflowingTank> tanks;
  for (const auto& [name, kind] : design.tanks.kinds)
    tanks.push_back({.surface = structure::inside_area(shell(design, kind)),
                     .weir_crest = kind.weir.crest,
                     .weir = weir(kind),
                     .inflow = flows_of(kind, flows).most,
                     .siphon = {},
                     .count = int(kind.names.size())});
  // A highest depth at the very rim may be a rounding over it.
  const Length rim = std::max(structure::wall_height(shell_of_sump), design.sump.highest_depth);
  const Volume lost = std::max(
      drain_back(design, flows).total - hydraulics::spare_volume(surface, design.sump.running_depth, rim), Volume());
  std::string where = "sump, pump at " + number(surge, 3) + " times its steady flow against empty pipes";
  if (run_out > surge) where += " (its curve ends at " + number(run_out, 3) + " times)";
  if (lost > Volume())
    where += "; " + text(measure(lost, units::us_gallon)) + " ran over the sump's rim at power-off and are missing";
  const Length lowest = hydraulics::sump_level_at_restart(tanks, surface, design.sump.running_depth, surge);
  return hydraulics::restart_check(where, lowest - lost / surface, design.sump.pump_draws_air_below);
}

/// Checks that need the flows of the tanks.
void flow_checks(const Design& design, const hydraulics::ManifoldFlow& flow, Collector& checks) {
  const std::map<std::string, VolumeFlow> flows = tank_flows(design, flow);
  checks.add("hydraulics: supply pipe velocity",
             [&] { return hydraulics::pipe_velocity_check(flow, design.pipes.velocity_limit); });
  checks.add("hydraulics: branch balance", [&] {
    Check check = hydraulics::branch_balance_check(flow, design.pipes.balance_limit);
    check.where = furthest_from_mean(flows, flow.mean_branch_flow);
    return check;
  });

  for (const auto& [name, kind] : design.tanks.kinds)
    tank_checks(design, "tank " + name, kind, flows_of(kind, flows), checks);
  checks.add("hydraulics: power-off drain-back", [&] {
    return hydraulics::drain_back_check(drain_back(design, flows),
                                        hydraulics::spare_volume(structure::inside_area(shell(design, design.sump)),
                                                                 design.sump.running_depth, design.sump.highest_depth));
  });
  checks.add("hydraulics: restart after a power cut", [&] { return restart(design, flow.flow, flows); });
  checks.add("hydraulics: gravity main", [&] {
    const GravityMain& main = design.pipes.gravity_main;
    return hydraulics::gravity_main_check("gravity main", flow.flow,
                                          {.bore = main.bore, .slope = si(main.slope), .manning_n = main.manning_n},
                                          drain_filling);
  });
  pump_checks(design, flow, checks);
}

}  // namespace

std::vector<Check> hydraulics_checks(const Design& design) {
  validate(design);
  Collector checks;
  checks.group("hydraulics: manifold", [&] {
    const hydraulics::ManifoldFlow flow =
        hydraulics::solve(manifold(design), pump_curve(design), design.site.water.kinematic_viscosity);
    flow_checks(design, flow, checks);
  });
  circulation_check(design, checks);
  return checks.take();
}

}  // namespace theca::study
