#include <algorithm>

#include "collector.hpp"
#include "theca/study/assessment.hpp"
#include "theca/study/parts.hpp"
#include "theca/study/validate.hpp"

namespace theca::study {
namespace {

using structure::BentPanel;

/// Degree of the solution: long walls, six times as long as high, want more than the default.
constexpr int wall_degree = 20;

structure::PressureLoad load_at(const Design& design, const Length& depth) {
  return structure::hydrostatic(depth, water_density(design), design.site.gravity);
}

/// Largest line load on the joints along the bottom and up both sides, or the strip's with a held top where that is
/// more.
LineLoad joint_load(const Design& design, const Length& depth, const BentPanel& wall) {
  const structure::Panel& panel = wall.panel;
  LineLoad most = structure::bottom_joint_line_load(depth, panel.height, water_density(design), design.site.gravity);
  constexpr int steps = 40;
  for (int i = 2; i <= steps - 2; ++i) {  // next to a corner the reaction of a thin plate is coarse
    const double share = double(i) / steps;
    most = std::max({most, wall.reaction_at(structure::Side::bottom, share * panel.width),
                     wall.reaction_at(structure::Side::left, share * panel.height),
                     wall.reaction_at(structure::Side::right, share * panel.height)});
  }
  return most;
}

structure::StrengthCriterion glass_criterion(const Design& design) {
  return {.strength = {design.tanks.glass.strength, "as stated in the design", "stated in the design"},
          .load_factor = design.tanks.glass.load_factor};
}

void wall_checks(const Design& design, const std::string& subject, const structure::Panel& panel, const TankKind& kind,
                 Collector& checks) {
  const std::string name = "structure: " + subject;
  const auto bent = [&] { return structure::bend(panel, load_at(design, kind.water_depth), wall_degree); };
  checks.add(name + " stress", [&] { return structure::panel_stress_check(subject, bent(), glass_criterion(design)); });
  checks.add(name + " deflection", [&] {
    return structure::panel_deflection_check(subject, bent(), panel.width / design.tanks.glass.deflection_limit.divisor,
                                             "limit stated in the design (common practice, no source)");
  });
}

void brace_check(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  if (!kind.rim_brace) return;
  checks.add("structure: " + tank + " rim brace stress", [&] {
    const BentPanel wall = structure::bend(long_wall(design, kind, top_edge(design, kind)),
                                           load_at(design, kind.water_depth), wall_degree);
    // What the elastic edge hands to the brace follows the bowing, a half sine wave.
    const LineLoad at_mid_span = wall.reaction_at(structure::Side::top, 0.5 * wall.panel.width);
    return structure::brace_stress_check(
        tank + " rim brace", structure::half_sine_brace(rim_strip(design, kind, *kind.rim_brace), at_mid_span),
        glass_criterion(design));
  });
}

void joint_checks(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const Joint& joint = design.tanks.joint;
  const auto stress = [&](const Length& depth) {
    const BentPanel wall =
        structure::bend(long_wall(design, kind, top_edge(design, kind)), load_at(design, depth), wall_degree);
    return structure::joint_stress(joint_load(design, depth, wall), kind.joint_bite);
  };
  checks.add("structure: " + tank + " joints, permanent", [&] {
    return structure::joint_stress_check(tank + " joints", stress(kind.water_depth), structure::LoadDuration::permanent,
                                         {joint.allowable_permanent, "permanent", "stated in the design"},
                                         "most loaded joint of the long wall, water at its running level");
  });
  // The water stands at the rim for as long as it takes to notice a blocked drain.
  checks.add("structure: " + tank + " joints, drain blocked", [&] {
    return structure::joint_stress_check(tank + " joints", stress(structure::wall_height(shell(design, kind))),
                                         structure::LoadDuration::short_term,
                                         {joint.allowable_short_term, "short term", "stated in the design"},
                                         "most loaded joint of the long wall, water at the wall top");
  });
}

void motion_checks(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const structure::TankShell shell_of_tank = shell(design, kind);
  const Length length = structure::inside_length(shell_of_tank), width = structure::inside_width(shell_of_tank);
  const Length freeboard = structure::wall_height(shell_of_tank) - kind.water_depth;
  const auto wave = [&](const Length& along) {
    return structure::slosh_wave_height(along, kind.water_depth, earthquake(design), design.site.gravity);
  };
  checks.add("structure: " + tank + " earthquake wave", [&] {
    const bool along = wave(length) >= wave(width);
    return structure::freeboard_check(
        tank, along ? wave(length) : wave(width), freeboard,
        along ? "end walls, first wave along the tank" : "long walls, first wave across the tank");
  });
  checks.add("structure: " + tank + " scraping wave", [&] {
    return structure::stroke_resonance_check(
        tank, structure::stroke_frequency_ratio(design.site.scraping_stroke_rate, width, kind.water_depth,
                                                design.site.gravity));
  });
}

/// All round, its outer edge flush with the walls.
Mass rim_brace_mass(const Design& design, const TankKind& kind) {
  if (!kind.rim_brace) return Mass();
  const structure::TankShell tank = shell(design, kind);
  const Length width = kind.rim_brace->width;
  const Area ring = 2.0 * width * (structure::inside_length(tank) + structure::inside_width(tank) - 2.0 * width);
  return ring * kind.rim_brace->thickness * design.tanks.glass.density;
}

void floor_check(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const structure::TankShell shell_of_tank = shell(design, kind);
  // Fullest state: the drain is blocked and the water stands at the wall top.
  const structure::TankWeight full =
      structure::weigh(shell_of_tank, structure::wall_height(shell_of_tank), water_density(design), kind.stand_mass,
                       kind.load_mass + rim_brace_mass(design, kind), design.site.gravity);
  const structure::FloorLoad load =
      structure::floor_load(full.weight, {.length = kind.outside_length,
                                          .width = kind.outside_width,
                                          .tributary_area = Area(),
                                          .legs = kind.legs,
                                          .leg_plate = kind.leg_plate.length * kind.leg_plate.width,
                                          .unevenness = 1.0});
  checks.add("structure: " + tank + " floor load", [&] {
    return structure::floor_pressure_check(tank, load, design.rooms.hall.live_load,
                                           "live load of the hall, as stated in the design",
                                           "under the stand, water at the wall top");
  });
}

void sump_floor_check(const Design& design, Collector& checks) {
  const structure::TankShell sump = shell(design, design.sump);
  const Mass full =
      design.sump.dry_mass + structure::volume_at(sump, structure::wall_height(sump)) * water_density(design);
  const Area footprint = sump.outside_length * sump.outside_width;
  const structure::FloorLoad load = structure::floor_load(full * design.site.gravity, {.length = sump.outside_length,
                                                                                       .width = sump.outside_width,
                                                                                       .tributary_area = Area(),
                                                                                       .legs = 1,
                                                                                       .leg_plate = footprint,
                                                                                       .unevenness = 1.0});
  checks.add("structure: sump floor load", [&] {
    return structure::floor_pressure_check("sump", load, design.rooms.service.live_load,
                                           "live load of the service room, as stated in the design",
                                           "under the sump, water at its rim");
  });
}

}  // namespace

std::vector<Check> structure_checks(const Design& design) {
  validate(design);
  Collector checks;
  for (const auto& [name, kind] : design.tanks.kinds) {
    const std::string tank = "tank " + name;
    wall_checks(design, tank + " long wall", long_wall(design, kind, top_edge(design, kind)), kind, checks);
    wall_checks(design, tank + " end wall", end_wall(design, kind), kind, checks);
    brace_check(design, tank, kind, checks);
    joint_checks(design, tank, kind, checks);
    motion_checks(design, tank, kind, checks);
    floor_check(design, tank, kind, checks);
  }
  sump_floor_check(design, checks);
  checks.add_unjudged(
      {.name = "structure: sump walls",
       .question = "Do the walls and joints of the sump bear the water?",
       .where = "sump",
       .source = "none",
       .caution = "A sump bows and breaks like any tank; have its maker or an engineer state the depth it "
                  "is built for."},
      "The design states no material for the sump, so that nothing is computed.");
  return checks.take();
}

}  // namespace theca::study
