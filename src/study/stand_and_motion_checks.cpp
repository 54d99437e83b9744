#include "stand_and_motion_checks.hpp"

#include <algorithm>
#include <vector>

#include "theca/require.hpp"
#include "theca/study/parts.hpp"

namespace theca::study {
namespace {

/// Glass or its foam on a stand, and the feet of a stand on a dry floor. Common practice, no source: wet feet, plastic
/// glides and polished floors have less.
constexpr double friction_of_tank = 0.5, friction_of_stand = 0.4;
/// Vertical shaking that lifts, share of S_DS. ASCE 7, E_v = 0.2 S_DS D (from memory).
constexpr double vertical_share = 0.2;

/// A hand that scrapes: 10 cm either way with a blade of 10 cm by 5 cm, thirty strokes on end. Common practice, no
/// source.
constexpr Length stroke_amplitude = from_si<Length>(0.10);
constexpr Area stroke_blade = from_si<Area>(0.10 * 0.05);
constexpr int strokes_on_end = 30;

/// Concentrated live load that goes with 125 psf, light manufacturing: ASCE 7, table 4.3-1 (from memory). The design
/// states none.
constexpr Force usual_concentrated_load = 2000.0 * units::pound_force;

/// A site without earthquakes asks for no earthquake check.
bool shakes(const Design& design) { return design.site.S_DS > 0.0 && design.site.S_D1 > 0.0; }

/// All round, its outer edge flush with the walls.
Mass rim_brace_mass(const Design& design, const TankKind& kind) {
  if (!kind.rim_brace) return Mass();
  const structure::TankShell tank = shell(design, kind);
  const Length width = kind.rim_brace->width;
  const Area ring = 2.0 * width * (structure::inside_length(tank) + structure::inside_width(tank) - 2.0 * width);
  return ring * kind.rim_brace->thickness * design.tanks.glass.density;
}

/// Fullest state: the drain is blocked and the water stands at the wall top.
structure::TankWeight fullest(const Design& design, const TankKind& kind) {
  const structure::TankShell tank = shell(design, kind);
  return structure::weigh(tank, structure::wall_height(tank), water_density(design), kind.stand_mass,
                          kind.load_mass + rim_brace_mass(design, kind), design.site.gravity);
}

void wave_checks(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const structure::TankShell outside = shell(design, kind);
  const Length length = structure::inside_length(outside), width = structure::inside_width(outside);
  const Length freeboard = structure::wall_height(outside) - kind.water_depth;
  const auto wave = [&](const Length& along) {
    return structure::slosh_wave_height(along, kind.water_depth, earthquake(design), design.site.gravity);
  };
  if (shakes(design))
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
  checks.add("structure: " + tank + " hand wave", [&] {
    const structure::WaveBasin basin{.length = width,
                                     .width = length,
                                     .depth = kind.water_depth,
                                     .density = water_density(design),
                                     .viscosity = design.site.water.kinematic_viscosity,
                                     .gravity = design.site.gravity};
    const structure::Stroke stroke{.amplitude = stroke_amplitude,
                                   .rate = design.site.scraping_stroke_rate,
                                   .blade = stroke_blade,
                                   .added_volume = Volume(),
                                   .place = 0.5 * width,
                                   .height = 0.5 * kind.water_depth};
    const double damping = structure::wave_damping(basin, structure::Surface::film);
    Check check =
        structure::hand_wave_check(tank, structure::hand_wave(basin, stroke, damping, strokes_on_end), freeboard);
    check.where = "long walls, first wave across the tank, after " + std::to_string(strokes_on_end) +
                  " strokes of a blade of " + text(stroke_blade) + ", " + text(stroke_amplitude) + " either way";
    return check;
  });
}

/// Pushes the running tank along or across; the plane lies `under` the tank's own underside.
structure::Stability shaken(const Design& design, const TankKind& kind, bool with_stand, bool across, double friction) {
  const structure::TankShell outside = shell(design, kind);
  const Length under = with_stand ? kind.stand_height : Length();
  const Length rise = under + kind.glass_base;
  const Density glass_density = design.tanks.glass.density;
  const Mass base = outside.outside_length * outside.outside_width * kind.glass_base * glass_density;
  const Mass walls = structure::shell_volume(outside) * glass_density - base;
  const Mass water = structure::water_volume(outside) * water_density(design);
  const Length height = structure::wall_height(outside);
  std::vector<structure::SolidMass> solids = {{base, under + 0.5 * kind.glass_base},
                                              {walls, rise + 0.5 * height},
                                              {rim_brace_mass(design, kind), rise + height},
                                              {kind.load_mass, rise + kind.rack_plane}};
  if (with_stand) solids.push_back({kind.stand_mass, 0.5 * kind.stand_height});
  const Length inside = across ? structure::inside_width(outside) : structure::inside_length(outside);
  const structure::WaterModel model = structure::housner_water(inside, kind.water_depth, water, design.site.gravity);
  const auto coefficients = structure::shaking_coefficients(earthquake(design), model.periods.front());
  const structure::ShakingLoad load = structure::shaking_load(model, solids, coefficients, rise, design.site.gravity);
  Mass total = water;
  for (const structure::SolidMass& solid : solids) total += solid.mass;
  return structure::stability({.weight = total * design.site.gravity,
                               .base = across ? kind.outside_width : kind.outside_length,
                               .off_centre = Length(),
                               .friction = friction,
                               .uplift = vertical_share * design.site.S_DS},
                              load.base_shear, load.overturning);
}

void earthquake_checks(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const auto add = [&](const std::string& what, bool with_stand, double friction) {
    const std::string subject = tank + what;
    const auto state = [&, with_stand, friction](bool across) {
      return shaken(design, kind, with_stand, across, friction);
    };
    const std::string assumed = "1 is the verge; S_DS and S_D1 of the design, no reduction for give";
    checks.add("structure: " + subject + " sliding", [&] {
      const structure::Stability along = state(false), across = state(true);
      const bool worse_across = across.sliding_factor <= along.sliding_factor;
      Check check =
          structure::sliding_check(subject, worse_across ? across : along, 1.0,
                                   assumed + "; friction " + number(friction, 2) + " (common practice, no source)");
      check.where = std::string("design earthquake ") + (worse_across ? "across" : "along") + " the tank, unanchored";
      return check;
    });
    checks.add("structure: " + subject + " tipping", [&] {
      const structure::Stability along = state(false), across = state(true);
      const bool worse_across = across.tipping_factor <= along.tipping_factor;
      Check check = structure::tipping_check(subject, worse_across ? across : along, 1.0, assumed);
      check.where = std::string("design earthquake ") + (worse_across ? "across" : "along") + " the tank, unanchored";
      return check;
    });
  };
  add(" on its stand", false, friction_of_tank);
  add(" with its stand", true, friction_of_stand);
}

void leg_check(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const std::string name = "structure: " + tank + " leg load";
  const bool apart = kind.leg_plate.length < kind.outside_length && kind.leg_plate.width < kind.outside_width;
  if (!apart || (kind.legs != 4 && kind.legs != 6 && kind.legs != 8)) {
    checks.add_unjudged({.name = name,
                         .question = "Can the floor and the foot take the most loaded leg?",
                         .where = std::to_string(kind.legs) + " legs",
                         .source = "statics",
                         .caution = {}},
                        "The places of the legs are known for 4, 6 or 8 legs in two rows under the tank only.");
    return;
  }
  checks.add(name, [&] {
    const Force weight = fullest(design, kind).weight;
    const auto legs = structure::rectangle_of_legs(kind.outside_length - kind.leg_plate.length,
                                                   kind.outside_width - kind.leg_plate.width, kind.legs);
    // Legs that are alike on a level floor share by place alone, whatever their stiffness.
    const auto forces = structure::leg_forces(legs, weight, Length(), Length(), from_si<LineLoad>(1e6));
    Check check =
        structure::leg_force_check(tank, forces, usual_concentrated_load,
                                   "concentrated live load that goes with 125 psf, ASCE 7 table 4.3-1 (from memory)");
    check.where = "each of " + std::to_string(forces.standing) +
                  " legs on a level floor, water at the wall top; on an uneven floor two legs across a diagonal may "
                  "carry " +
                  number(in(0.5 * weight, units::pound_force), 3) + " lbf each";
    return check;
  });
}

/// How much the waterline may differ from end to end. Common practice, no source.
constexpr Length widest_waterline = 0.125 * units::inch;

void level_check(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const std::string name = "structure: " + tank + " level";
  if (!kind.tilt) {
    checks.add_unjudged({.name = name,
                         .question = "Is the tank level enough?",
                         .where = "along its length",
                         .source = "none",
                         .caution = "A spirit level along the empty tank on its stand tells; shim before filling."},
                        "No statement: the design states no tilt of this kind of tank.");
    return;
  }
  checks.add(name, [&] {
    const structure::TankShell outside = shell(design, kind);
    const Length length = structure::inside_length(outside);
    const structure::OutOfLevel level = structure::out_of_level(
        length, kind.water_depth, structure::wall_height(outside), structure::tilt_of(length, si(*kind.tilt) * length));
    Check check = structure::level_check(tank, level, widest_waterline, "common practice, no source");
    check.where = "waterline from end to end; the low end wall bears " + number(level.wall_load_ratio, 3) +
                  " times its level load and keeps " + number(in(level.low_freeboard, units::inch), 3) +
                  " in of freeboard; a shim of " + number(in(level.rise, units::inch), 3) + " in levels it, tank empty";
    return check;
  });
}

void floor_check(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const structure::FloorLoad load =
      structure::floor_load(fullest(design, kind).weight, {.length = kind.outside_length,
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

}  // namespace

void stand_and_motion_checks(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  wave_checks(design, tank, kind, checks);
  if (shakes(design)) earthquake_checks(design, tank, kind, checks);
  leg_check(design, tank, kind, checks);
  level_check(design, tank, kind, checks);
  floor_check(design, tank, kind, checks);
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

}  // namespace theca::study
