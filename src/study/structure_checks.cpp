#include <algorithm>

#include "collector.hpp"
#include "theca/study/assessment.hpp"
#include "theca/study/parts.hpp"

namespace theca::study {
namespace {

using structure::BentPanel;

/// Degree of the solution: long walls, six times as long as high, want more than the default.
constexpr int wall_degree = 20;

/// Line load on the bottom joint: the wall's reaction at mid-length, or the strip's with a held top where that is more.
LineLoad bottom_joint_load(const Design& design, const TankKind& kind, const BentPanel& wall) {
  const LineLoad strip = structure::bottom_joint_line_load(kind.water_depth, wall.panel.height, water_density(design),
                                                           design.site.gravity);
  return std::max(strip, wall.reaction_at(structure::Side::bottom, 0.5 * wall.panel.width));
}

void wall_checks(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const std::string subject = tank + " long wall";
  const BentPanel wall =
      structure::bend(long_wall(design, kind, top_edge(design, kind)), water_load(design, kind), wall_degree);
  const structure::StrengthCriterion criterion{
      .strength = {design.tanks.glass.strength, "annealed glass under a permanent load, as stated in the design",
                   "EN 16612 (design value stated in the design)"},
      .load_factor = design.tanks.glass.load_factor};
  const std::string name = "structure: " + subject;
  checks.add(name + " stress", [&] { return structure::panel_stress_check(subject, wall, criterion); });
  checks.add(name + " deflection", [&] {
    return structure::panel_deflection_check(subject, wall,
                                             wall.panel.width / design.tanks.glass.deflection_limit.divisor,
                                             "limit stated in the design (common practice, no source)");
  });
  if (kind.rim_brace) {
    const structure::BraceStrip strip = rim_strip(design, kind, *kind.rim_brace);
    checks.add("structure: " + tank + " rim brace stress", [&] {
      const LineLoad shared = wall.reactions.top / wall.panel.width;
      return structure::brace_stress_check(tank + " rim brace", structure::lone_brace(strip, shared), criterion);
    });
  }
  const Pressure stress = structure::joint_stress(bottom_joint_load(design, kind, wall), kind.joint_bite);
  const Joint& joint = design.tanks.joint;
  checks.add("structure: " + tank + " bottom joint, permanent", [&] {
    return structure::joint_stress_check(tank + " bottom joint", stress, structure::LoadDuration::permanent,
                                         {joint.allowable_permanent, "permanent, as stated in the design",
                                          materials::silicone_permanent_strength().source});
  });
  checks.add("structure: " + tank + " bottom joint, short term", [&] {
    return structure::joint_stress_check(tank + " bottom joint", stress, structure::LoadDuration::short_term,
                                         {joint.allowable_short_term, "short term, as stated in the design",
                                          materials::silicone_short_term_strength().source});
  });
}

void motion_checks(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const structure::TankShell shell_of_tank = shell(design, kind);
  const Length length = structure::inside_length(shell_of_tank), width = structure::inside_width(shell_of_tank);
  const Length freeboard = structure::wall_height(shell_of_tank) - kind.water_depth;
  const auto wave = [&](const Length& along) {
    return structure::slosh_wave_height(along, kind.water_depth, earthquake(design), design.site.gravity);
  };
  checks.add("structure: " + tank + " earthquake wave",
             [&] { return structure::freeboard_check(tank, std::max(wave(length), wave(width)), freeboard); });
  checks.add("structure: " + tank + " scraping wave", [&] {
    return structure::stroke_resonance_check(
        tank, structure::stroke_frequency_ratio(design.site.scraping_stroke_rate, width, kind.water_depth,
                                                design.site.gravity));
  });
}

void floor_check(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const structure::TankShell shell_of_tank = shell(design, kind);
  // Fullest state: the drain is blocked and the water stands at the wall top.
  const structure::TankWeight full =
      structure::weigh(shell_of_tank, structure::wall_height(shell_of_tank), water_density(design), kind.stand_mass,
                       kind.load_mass, design.site.gravity);
  const structure::FloorLoad load =
      structure::floor_load(full.weight, {.length = kind.outside_length,
                                          .width = kind.outside_width,
                                          .tributary_area = Area(),
                                          .legs = kind.legs,
                                          .leg_plate = kind.leg_plate.length * kind.leg_plate.width,
                                          .unevenness = 1.0});
  checks.add("structure: " + tank + " floor load", [&] {
    return structure::floor_pressure_check(tank + ", water at the wall top", load, design.rooms.hall.live_load,
                                           "live load of the hall, as stated in the design");
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
    return structure::floor_pressure_check("sump, water at the rim", load, design.rooms.service.live_load,
                                           "live load of the service room, as stated in the design");
  });
}

}  // namespace

std::vector<Check> structure_checks(const Design& design) {
  Collector checks;
  for (const auto& [name, kind] : design.tanks.kinds) {
    const std::string tank = "tank " + name;
    wall_checks(design, tank, kind, checks);
    motion_checks(design, tank, kind, checks);
    floor_check(design, tank, kind, checks);
  }
  sump_floor_check(design, checks);
  return checks.take();
}

}  // namespace theca::study
