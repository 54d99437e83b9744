#include "pump_checks.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "theca/seawater.hpp"
#include "theca/study/parts.hpp"

namespace theca::study {
namespace {

/// Of seawater near 25 degC. From memory.
constexpr Pressure seawater_bulk_modulus = 2.3 * units::gigapascal;

/// Water over the intake, at which the pump is taken to stand.
Length level_over_pump(const Design& design) { return design.sump.running_depth - design.sump.intake_centre; }

/// A key of the design file and whether the design states it.
struct Stated {
  const char* key;
  bool there;
};

/// Adds the answer that there is none where the design does not state all of `needed`, and says whether it did.
bool lacks(const std::vector<Stated>& needed, Collector& checks, const std::string& name, const std::string& question,
           const std::string& caution = {}) {
  std::string missing;
  for (const Stated& one : needed)
    if (!one.there) missing += (missing.empty() ? "" : ", ") + std::string(one.key);
  if (missing.empty()) return false;
  checks.add_unjudged(
      {.name = name, .question = question, .where = "return pump and its main", .source = "none", .caution = caution},
      "No statement: the design states no " + missing + ".");
  return true;
}

/// The flow stops at once, or runs back through the valve first: then at most as fast as the height between the tanks
/// and the sump drives it through the same pipes, whose losses go with the square of the flow.
Velocity stopped_velocity(const Design& design, const hydraulics::ManifoldFlow& flow) {
  const double static_head = std::max(si(manifold(design).static_head), 0.0);
  const double lost_head = si(flow.pump_head) - static_head;
  return flow.main_velocity * std::max(1.0, std::sqrt(static_head / lost_head));
}

void water_hammer(const Design& design, const hydraulics::ManifoldFlow& flow, Collector& checks) {
  const MainPipe& main = design.pipes.main;
  const std::string name = "hydraulics: water hammer";
  if (lacks({{"pipes.main.wall", main.wall.has_value()},
             {"pipes.main.pressure_rating", main.pressure_rating.has_value()}},
            checks, name, "Does the main's rating cover the surge of a shutting check valve?",
            "A joint that fails floods the room at the pump's full flow. Local plumbing codes come first."))
    return;
  checks.add(name, [&] {
    const Density density = water_density(design);
    const Velocity velocity = stopped_velocity(design, flow);
    // Shut at once, whatever the length of the main.
    hydraulics::Surge surge;
    surge.sudden = true;
    surge.rise = hydraulics::joukowsky_pressure({.bore = main.bore,
                                                 .wall = *main.wall,
                                                 .modulus = materials::pvc().youngs_modulus,
                                                 .bulk_modulus = seawater_bulk_modulus,
                                                 .density = density},
                                                velocity);
    const Length highest_head = design.pump.curve.front().head + level_over_pump(design);
    return hydraulics::water_hammer_check("supply main of rigid PVC, check valve, " +
                                              text(measure(velocity, units::foot_per_second)) +
                                              " stopped over the pump's highest head",
                                          density * design.site.gravity * highest_head, surge, *main.pressure_rating);
  });
}

std::vector<hydraulics::EfficiencyPoint> efficiency_points(const Design& design) {
  std::vector<hydraulics::EfficiencyPoint> points;
  for (const EfficiencyPoint& point : design.pump.efficiency) points.push_back({point.flow, point.efficiency});
  return points;
}

std::optional<VolumeFlow> best_flow(const Design& design) {
  if (design.pump.best_efficiency_flow) return design.pump.best_efficiency_flow;
  if (design.pump.efficiency.empty()) return {};
  return hydraulics::best_efficiency_point(efficiency_points(design)).flow;
}

void operating_region(const Design& design, const hydraulics::ManifoldFlow& flow, Collector& checks) {
  const std::string name = "hydraulics: pump operating region";
  const std::optional<VolumeFlow> best = best_flow(design);
  const auto& allowed = design.pump.allowable_region;
  if (lacks({{"pump.best_efficiency_flow or pump.efficiency", best.has_value()},
             {"pump.allowable_region", allowed.has_value()}},
            checks, name, "Does the pump run where its maker allows it to run all the time?"))
    return;
  checks.add(name, [&] {
    hydraulics::OperatingRegion region{.allowable_low = allowed->low, .allowable_high = allowed->high};
    // A maker may allow less than the standard prefers.
    region.preferred_low = std::max(region.preferred_low, allowed->low);
    region.preferred_high = std::min(region.preferred_high, allowed->high);
    return hydraulics::operating_region_check("return pump", flow.flow, *best, region);
  });
}

void suction(const Design& design, const hydraulics::ManifoldFlow& flow, Collector& checks) {
  const std::string name = "hydraulics: pump NPSH";
  const MainPipe& main = design.pipes.main;
  if (lacks({{"pump.npsh_required", !design.pump.npsh_required.empty()},
             {"pipes.main.K_suction", main.K_suction.has_value()}},
            checks, name, "Does the suction leave the pump pressure enough to run without cavitation?"))
    return;
  checks.add(name, [&] {
    std::vector<hydraulics::NpshPoint> points;
    for (const PumpPoint& point : design.pump.npsh_required) points.push_back({point.flow, point.head});
    const hydraulics::Pipe pipe{.bore = main.bore,
                                .length = main.length_suction,
                                .roughness = design.pipes.roughness,
                                .minor_loss_K = *main.K_suction};
    const Length available = hydraulics::npsh_available(
        {.surface_pressure = design.site.air_pressure,
         .vapour_pressure = above_vacuum(seawater::vapour_pressure(design.site.water.temperature, salinity(design))),
         .density = water_density(design),
         .level_above_impeller = level_over_pump(design),
         .loss = hydraulics::head_loss(pipe, flow.flow, design.site.water.kinematic_viscosity)});
    return hydraulics::npsh_check("return pump at the height of its intake, sump at its running depth", available,
                                  hydraulics::npsh_required(points, flow.flow));
  });
}

void power(const Design& design, const hydraulics::ManifoldFlow& flow, Collector& checks) {
  const std::string name = "hydraulics: pump power";
  if (lacks({{"pump.efficiency", !design.pump.efficiency.empty()}}, checks, name,
            "Does the return pump draw no more than its rated power?"))
    return;
  checks.add(name, [&] {
    const Power drawn =
        hydraulics::power_drawn(pump_curve(design), efficiency_points(design), flow.flow, water_density(design));
    const MoneyRate cost = farm::energy_cost(drawn, 1.0, design.money.electricity);
    return hydraulics::pump_power_check("return pump, " + number(in(cost, units::dollar_per_year)) + " USD/year", drawn,
                                        design.pump.power);
  });
}

}  // namespace

void pump_checks(const Design& design, const hydraulics::ManifoldFlow& flow, Collector& checks) {
  water_hammer(design, flow, checks);
  operating_region(design, flow, checks);
  power(design, flow, checks);
  suction(design, flow, checks);
  checks.add("hydraulics: pump intake submergence", [&] {
    return hydraulics::submergence_check("plain intake in the sump", design.pump.intake_bore, flow.flow,
                                         level_over_pump(design));
  });
}

}  // namespace theca::study
