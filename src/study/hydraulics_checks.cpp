#include <cmath>
#include <map>
#include <optional>

#include "collector.hpp"
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
  checks.add("hydraulics: " + tank + " emergency drain", [&] {
    std::optional<hydraulics::EmergencyDrain> drain;
    if (kind.emergency_drain)
      drain = {kind.emergency_drain->bore, kind.emergency_drain->rim, kind.emergency_drain->highest_level};
    return hydraulics::emergency_drain_check(flows.most_tank, flows.most, drain);
  });
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
    std::vector<hydraulics::DrainingTank> draining;
    for (const auto& [name, kind] : design.tanks.kinds) {
      const Length level = running_level(kind, flows_of(kind, flows).most);
      const Length outlet = level - design.pipes.outlet_below_surface;
      draining.push_back({.surface = structure::inside_area(shell(design, kind)),
                          .running_level = level,
                          .rest_level = hydraulics::rest_level_of(kind.weir.crest, outlet),
                          .count = int(kind.names.size())});
    }
    const structure::TankShell sump = shell(design, design.sump);
    return hydraulics::drain_back_check(
        hydraulics::drain_back(draining, pipe_content(design)),
        hydraulics::spare_volume(structure::inside_area(sump), design.sump.running_depth, design.sump.highest_depth));
  });
  checks.add("hydraulics: gravity main", [&] {
    const GravityMain& main = design.pipes.gravity_main;
    return hydraulics::gravity_main_check("gravity main", flow.flow,
                                          {.bore = main.bore, .slope = si(main.slope), .manning_n = main.manning_n},
                                          drain_filling);
  });
  checks.add("hydraulics: pump intake submergence", [&] {
    return hydraulics::submergence_check("plain intake in the sump", design.pump.intake_bore, flow.flow,
                                         design.sump.running_depth - design.sump.intake_centre);
  });
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
