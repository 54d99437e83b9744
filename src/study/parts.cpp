#include "theca/study/parts.hpp"

#include <algorithm>
#include <limits>
#include <map>

#include "theca/require.hpp"
#include "theca/seawater.hpp"

namespace theca::study {
namespace {

template <class T>
const T& named(const std::map<std::string, T>& table, std::string_view what, std::string_view name) {
  const auto found = table.find(std::string(name));
  if (found != table.end()) return found->second;
  std::string known;
  for (const auto& [key, value] : table) known += (known.empty() ? "" : ", ") + key;
  throw InvalidInput(what, "\"" + std::string(name) + "\"", "one of: " + known);
}

hydraulics::Pipe pipe(const Design& design, const Length& bore, const Length& length,
                      const std::map<std::string, Fitting>& K) {
  double sum = 0.0;
  for (const auto& [name, fitting] : K) sum += fitting.count * fitting.K;
  return {.bore = bore, .length = length, .roughness = design.pipes.roughness, .minor_loss_K = sum};
}

/// Lights of one stocked tank as paid for, electrical input.
Power lights_of_a_tank(const Design& design) {
  return double(light_proposal(design, design.money.lights_as).per_tank) * design.lights.power;
}

Power circulation_power(const Design& design) {
  int pumps = 0;
  for (const auto& [name, kind] : design.tanks.kinds) pumps += int(kind.names.size()) * kind.circulation_pumps;
  return double(pumps) * design.pump.circulation.power;
}

thermal::TankSurfaces tank_surfaces(const Design& design, const std::string& name, const TankKind& kind) {
  const structure::TankShell tank = shell(design, kind);
  const auto wall = [&](const char* side, const Length& length) {
    return thermal::WallPatch{.name = side,
                              .length = length,
                              .height = kind.water_depth,
                              .layers = {{kind.glass_nominal, design.heat.glass_k}},
                              .fixed_outside_film = design.heat.film_outside};
  };
  const Length length = structure::inside_length(tank);
  const Length width = structure::inside_width(tank);
  return {.name = "tank " + name,
          .water_length = length,
          .water_width = width,
          .walls = {wall("front", length), wall("back", length), wall("left end", width), wall("right end", width)},
          .inside_film = design.heat.film_inside,
          .base = structure::inside_area(tank),
          .base_U = design.heat.base_U,
          .water_emissivity = design.heat.surface_emissivity,
          .evaporation_activity = design.heat.evaporation_activity};
}

}  // namespace

int tank_count(const Design& design) {
  std::size_t count = 0;
  for (const auto& [name, kind] : design.tanks.kinds) count += kind.names.size();
  require::that(count > 0, "number of tanks", double(count), "at least one tank");
  return int(count);
}

int stocked_tanks(const Design& design) {
  const int stocked = tank_count(design) - design.production.rotation.fallow_tanks;
  require::that(stocked > 0, "fallow tanks", design.production.rotation.fallow_tanks,
                "fewer than the tanks, " + std::to_string(tank_count(design)));
  return stocked;
}

const TankKind& tank_kind(const Design& design, std::string_view name) {
  return named(design.tanks.kinds, "kind of tank", name);
}

const LightProposal& light_proposal(const Design& design, std::string_view name) {
  return named(design.lights.proposals, "light proposal", name);
}

farm::Body body(const Design& design, std::string_view name) {
  const Body& b = named(design.workers.bodies, "body", name);
  // The file states no hip height; the module's estimate for a small or tall person is scaled with stature.
  const farm::Body reference = b.stature < 67_in ? farm::pheasant_female_5() : farm::pheasant_male_95();
  return {.stature = b.stature,
          .shoulder_height = b.shoulder,
          .elbow_height = b.elbow,
          .forward_grip_reach = b.forward_grip_reach,
          .shoulder_grip = b.shoulder_grip,
          .hip_height = reference.hip_height * si(b.stature) / si(reference.stature),
          .footwear = design.workers.footwear};
}

AbsoluteSalinity salinity(const Design& design) { return absolute_salinity(design.site.water.salinity); }

Density water_density(const Design& design) {
  return seawater::density(design.site.water.temperature, salinity(design));
}

materials::Material glass(const Design& design) {
  materials::Material material = materials::float_glass();
  material.youngs_modulus = design.tanks.glass.E;
  material.poisson_ratio = design.tanks.glass.poisson;
  material.density = design.tanks.glass.density;
  material.thermal_conductivity = design.heat.glass_k;
  return material;
}

structure::TankShell shell(const Design& design, const TankKind& kind) {
  return {.outside_length = kind.outside_length,
          .outside_width = kind.outside_width,
          .outside_height = kind.outside_height,
          .wall_thickness = kind.glass_nominal,
          .base_thickness = kind.glass_base,
          .water_depth = kind.water_depth,
          .material = glass(design)};
}

structure::TankShell shell(const Design& design, const Sump& sump) {
  return {.outside_length = sump.outside_length,
          .outside_width = sump.outside_width,
          .outside_height = sump.outside_height,
          .wall_thickness = sump.wall,
          .base_thickness = sump.base,
          .water_depth = std::min(sump.running_depth, sump.outside_height - sump.base),  // full: over it by rounding
          .material = glass(design)};
}

structure::Panel long_wall(const Design& design, const TankKind& kind, const structure::Edge& top) {
  return {.width = kind.outside_length - kind.glass_nominal,
          .height = structure::wall_height(shell(design, kind)),
          .thickness = kind.glass_design,
          .material = glass(design),
          .top = top};
}

structure::Edge top_edge(const Design& design, const TankKind& kind) {
  if (!kind.rim_brace) return structure::free_edge();
  return structure::edge_on_brace({.span = structure::inside_length(shell(design, kind)),
                                   .width = kind.rim_brace->width,
                                   .thickness = kind.rim_brace->design_thickness,
                                   .material = glass(design)});
}

structure::AdhesiveBead joint_bead(const Design& design, const Length& bite) {
  const Joint& joint = design.tanks.joint;
  const materials::Material adhesive = materials::silicone_adhesive();
  // A bead that no formula covers is refused by the calculation that uses it, so that the other checks still stand.
  return {.thickness = joint.thickness.value_or(usual_bead_thickness),
          .bite = bite,
          .youngs_modulus = joint.E.value_or(adhesive.youngs_modulus),
          .poisson_ratio = adhesive.poisson_ratio};
}

structure::Tank built_tank(const Design& design, const TankKind& kind) {
  const structure::TankShell outside = shell(design, kind);
  structure::Tank tank{.inside_length = structure::inside_length(outside),
                       .inside_width = structure::inside_width(outside),
                       .wall_height = structure::wall_height(outside),
                       .wall_thickness = kind.glass_design,
                       // The base's sheet is taken to fall short of its nominal thickness by as much as the walls'.
                       .base_thickness = kind.glass_base * si(kind.glass_design) / si(kind.glass_nominal),
                       .material = glass(design),
                       .joint = joint_bead(design, kind.joint_bite),
                       .rim = {},
                       .cross_braces = {},
                       .support = structure::TankSupport::perimeter,
                       .foundation = {},
                       .edge_stiffness = from_si<EdgeStiffness>(std::numeric_limits<double>::infinity())};
  if (kind.support == BaseSupport::closed_cell_foam) {
    tank.support = structure::TankSupport::foam;
    tank.foundation = usual_foam_foundation;
  }
  if (kind.rim_brace) {
    const RimBrace& brace = *kind.rim_brace;
    tank.rim = structure::TankRimBrace{.width = brace.width,
                                       .thickness = brace.design_thickness,
                                       .material = glass(design),
                                       .corner = structure::RingCorner::mitred,
                                       .bond = joint_bead(design, std::min(kind.joint_bite, brace.design_thickness))};
  }
  return tank;
}

structure::TankLoad tank_load(const Design& design, const Length& water_depth) {
  return {.water_depth = water_depth,
          .water = water_density(design),
          .gravity = design.site.gravity,
          .rise_along = 0.0,
          .rise_across = 0.0,
          .own_weight = true,
          .rim_loads = {}};
}

structure::PressureLoad water_load(const Design& design, const TankKind& kind) {
  return structure::hydrostatic(kind.water_depth, water_density(design), design.site.gravity);
}

structure::Earthquake earthquake(const Design& design) {
  return {
      .short_period = design.site.S_DS, .one_second = design.site.S_D1, .importance_factor = design.site.importance};
}

Volume system_volume(const Design& design) {
  Volume volume = structure::water_volume(shell(design, design.sump));
  for (const auto& [name, kind] : design.tanks.kinds)
    volume += double(kind.names.size()) * structure::water_volume(shell(design, kind));
  return volume;
}

hydraulics::PumpCurve pump_curve(const Design& design) {
  hydraulics::PumpCurve curve{.points = {}, .interpolation = hydraulics::Interpolation::linear};
  for (const PumpPoint& point : design.pump.curve) curve.points.push_back({point.flow, point.head});
  return curve;
}

hydraulics::Manifold manifold(const Design& design) {
  const Pipes& pipes = design.pipes;
  const auto height_over_hall_floor = [](const TankKind& kind) {
    return kind.stand_height + kind.glass_base + kind.water_depth;
  };
  // The outlets end under water, so that each branch discharges at the water level of its own tank.
  std::map<std::string, Length> level;
  for (const auto& [name, kind] : design.tanks.kinds)
    for (const std::string& tank : kind.names) level[tank] = height_over_hall_floor(kind);
  Length lowest = level.begin()->second;
  for (const auto& [tank, height] : level) lowest = std::min(lowest, height);
  const Length intake =
      design.sump.plinth + design.sump.base + design.sump.running_depth - design.rooms.service.floor_below_hall;

  hydraulics::Manifold result{
      .main = pipe(design, pipes.main.bore, pipes.main.length_suction + pipes.main.length, pipes.main.K),
      .headers = {},
      .static_head = lowest - intake};
  hydraulics::Pipe segment = pipe(design, pipes.header.bore, pipes.header.spacing, {});
  segment.minor_loss_K = pipes.header.K_tee_run;
  const hydraulics::Pipe branch = pipe(design, pipes.branch.bore, pipes.branch.length, pipes.branch.K);
  for (const auto& [row, names] : design.rooms.layout.rows) {
    const Length& first = named(pipes.header.to_first_branch, "pipes.header.to_first_branch", row);
    // One level for a row: its highest tank.
    Length discharge = lowest;
    for (const std::string& tank : names) discharge = std::max(discharge, named(level, "tank", tank));
    result.headers.push_back({.to_first_branch = pipe(design, pipes.header.bore, first, pipes.header.K),
                              .segment = segment,
                              .branches = int(names.size()),
                              .branch = branch,
                              .discharge_rise = discharge - lowest});
  }
  return result;
}

hydraulics::Weir weir(const TankKind& kind) { return {.crest_length = kind.weir.length, .end_contractions = 2}; }

Length running_level(const TankKind& kind, const VolumeFlow& flow) {
  return kind.weir.crest + hydraulics::weir_head(weir(kind), flow);
}

light::Luminaire luminaire(const Design& design) {
  const Lights& lights = design.lights;
  return {.intensity = light::TabulatedIntensity{.angles = lights.angle, .values = lights.intensity},
          .aperture_length = lights.aperture.length,
          .aperture_width = lights.aperture.width,
          .points_along = 3,
          .points_across = 2,
          .power = lights.power,
          .ageing_factor = lights.ageing_factor};
}

light::Waterbody waterbody(const Design& design, const TankKind& kind, light::Walls walls) {
  const structure::TankShell tank = shell(design, kind);
  const std::optional<double>& mirror = design.lights.wall_reflectance_variant;
  if (walls == light::Walls::each || (walls == light::Walls::mirror && !mirror))
    throw InvalidInput("lights.wall_reflectance_variant", "nothing", "a share, for walls that mirror it");
  // Clear float glass absorbs about 10/m (light::ClearPane).
  return {.length = structure::inside_length(tank),
          .width = structure::inside_width(tank),
          .refractive_index = design.lights.water_index,
          .attenuation = design.lights.water_attenuation,
          .walls = walls,
          .wall_reflectance = walls == light::Walls::mirror ? *mirror : 0.0,
          .pane = {.thickness = kind.glass_nominal, .attenuation = 10.0 * units::per_metre}};
}

std::vector<light::PlacedLuminaire> luminaires(const Design& design, const TankKind& kind,
                                               const LightProposal& proposal) {
  const light::Waterbody water = waterbody(design, kind);
  const light::Luminaire fixture = luminaire(design);
  // Apertures lie along the tank, or across it where a row of them would not fit lengthwise.
  const Angle heading = light::fits_in_row(fixture, proposal.per_tank, water.length) ? 0_deg : 90_deg;
  return light::evenly_spaced(fixture, proposal.per_tank, water.length, water.width, proposal.mounting_height, heading);
}

light::PpfdMap rack_light(const Design& design, const TankKind& kind, const LightProposal& proposal,
                          light::Walls walls) {
  const std::vector<light::PlacedLuminaire> placed = luminaires(design, kind, proposal);
  return light::map(placed, waterbody(design, kind, walls), kind.water_depth - kind.rack_plane,
                    design.lights.grid.along_length, design.lights.grid.along_width);
}

light::PpfdTarget light_target(const Design& design) {
  const Lights& lights = design.lights;
  return {.lower_mean = lights.target_mean.low,
          .upper_mean = lights.target_mean.high,
          .highest = lights.target_max,
          .min_over_mean = lights.target_min_over_mean};
}

thermal::Room hall(const Design& design, Season season) {
  const Hall& room = design.rooms.hall;
  AirState state = season == Season::winter ? room.winter : room.summer;
  if (season == Season::summer_hot) {
    if (!room.summer_hot) throw InvalidInput("rooms.hall.summer_hot", "nothing", "a temperature and a humidity");
    state = *room.summer_hot;
  }
  return {.air = {state.temperature, state.relative_humidity, design.site.air_pressure},
          .surroundings = state.temperature,
          .air_speed = room.air_speed_at_surface};
}

air::MoistAir outside(const Design& design, Season season) {
  const AirState& state = season == Season::winter ? design.site.outside.winter : design.site.outside.summer;
  return {state.temperature, state.relative_humidity, design.site.air_pressure};
}

thermal::Water water(const Design& design) {
  return {.temperature = design.site.water.temperature, .salinity = salinity(design)};
}

thermal::TankSystem tank_system(const Design& design, Season season, bool lights_on) {
  thermal::TankSystem system{.tanks = {}, .sump_UA = design.sump.UA, .sump_room = {}, .gains = {}};
  for (const auto& [name, kind] : design.tanks.kinds)
    system.tanks.push_back({tank_surfaces(design, name, kind), int(kind.names.size())});
  const ServiceRoom& service = design.rooms.service;
  system.sump_room = season == Season::winter       ? service.winter
                     : season == Season::summer_hot ? service.summer_hot.value_or(service.summer)
                                                    : service.summer;
  // The pump's other losses warm the service room, where it stands by the sump, not the hall.
  system.gains.push_back({"return pump", design.pump.share_to_water * design.pump.power});
  system.gains.push_back({"circulation pumps", circulation_power(design)});
  if (lights_on)
    system.gains.push_back(thermal::light_gain("lights", double(stocked_tanks(design)) * lights_of_a_tank(design),
                                               design.lights.share_to_water));
  return system;
}

std::vector<thermal::TankOptionHeat> wall_options(const Design& design, std::string_view kind_name) {
  const TankKind& kind = tank_kind(design, kind_name);
  const thermal::Layer glass{kind.glass_nominal, design.heat.glass_k};
  const thermal::Layer acrylic{kind.glass_nominal, materials::acrylic().thermal_conductivity};
  const thermal::Layer insulation{25_mm, 0.035_W_mK};
  return thermal::compare_tank_walls(
      tank_surfaces(design, std::string(kind_name), kind),
      {{"glass", {glass}}, {"acrylic", {acrylic}}, {"insulated glass", {glass, insulation}}}, water(design),
      hall(design, Season::winter));
}

long slots_per_tank(const Design& design, const TankKind& kind) {
  const structure::TankShell tank = shell(design, kind);
  return farm::slots(structure::inside_length(tank), structure::inside_width(tank), design.stock.usable_rack_share,
                     design.stock.slot_pitch);
}

long all_slots(const Design& design) {
  long sum = 0;
  for (const auto& [name, kind] : design.tanks.kinds) sum += long(kind.names.size()) * slots_per_tank(design, kind);
  return sum;
}

double stocked_slots(const Design& design) {
  const double resting = farm::capacity_lost(tank_count(design), design.production.rotation.fallow_tanks);
  return (1.0 - resting) * double(all_slots(design));
}

farm::Yield farm_yield(const Design& design) {
  const Production& p = design.production;
  const Time cycle =
      farm::cycle_time({.cut_area = p.cut_area, .sale_area = p.sale_area, .rate = p.growth_rate, .healing = p.healing});
  return farm::yield({.slots = stocked_slots(design),
                      .occupancy = p.occupancy,
                      .survival = p.survival,
                      .cycle_time = cycle,
                      .unsold = p.unsold});
}

VolumeFlow water_changed(const Design& design) { return system_volume(design) * design.chemistry.water_change; }

VolumeFlow water_reset(const Design& design) {
  const Rotation& rotation = design.production.rotation;
  if (rotation.fallow_tanks == 0 || !rotation.reset_renews_water) return VolumeFlow();
  // One tank in every interval between moves: over a rotation, the mean tank.
  const Volume tanks = system_volume(design) - structure::water_volume(shell(design, design.sump));
  return tanks / double(tank_count(design)) / rotation.move_interval;
}

std::vector<farm::Task> tasks(const Design& design) {
  const Labour& labour = design.labour;
  const farm::Yield yield = farm_yield(design);
  const Frequency weekly = 1.0 * units::per_week;
  const auto standing = [&](const char* name, const Ratio& share) {
    return farm::Task{name, si(share) * units::week.size, weekly};
  };
  const double stocked = stocked_tanks(design);
  std::vector<farm::Task> list = {{"cut", labour.cut, yield.cut},
                                  {"pack", labour.pack, yield.sold},
                                  standing("scrape", stocked * labour.scrape),
                                  standing("inspect", stocked * labour.inspect),
                                  standing("test and dose", labour.test_and_dose),
                                  standing("feed", labour.feed),
                                  standing("water change", labour.water_change),
                                  standing("quarantine", labour.quarantine),
                                  standing("equipment", labour.equipment)};
  if (design.production.rotation.fallow_tanks > 0)
    list.push_back({"moves", design.production.rotation.time_per_move, 1.0 / design.production.rotation.move_interval});
  return list;
}

farm::Economics economics(const Design& design) {
  const MoneyPlan& money = design.money;
  const farm::Yield yield = farm_yield(design);

  std::vector<farm::CostItem> items;
  for (const auto& [name, item] : money.capital.items) items.push_back({name, double(item.count) * item.price});
  const Money capital = farm::capital_sum(items, money.capital.contingency);

  const double lit_share = design.lights.photoperiod / units::day.size;
  const Dehumidifier& dehumidifier = design.rooms.hall.dehumidifier;
  const auto electricity = [&](const char* name, const Power& load, double duty) {
    return farm::RunningCost{name, farm::energy_cost(load, duty, money.electricity)};
  };

  const std::vector<farm::RunningCost> running = {
      electricity("lights", double(stocked_tanks(design)) * lights_of_a_tank(design), lit_share),
      electricity("return pump", design.pump.power, 1.0),
      electricity("circulation pumps", circulation_power(design), 1.0),
      electricity("heating", money.heating, 1.0),
      electricity("chiller", money.chiller, 1.0),
      electricity("dehumidifiers", double(dehumidifier.budgeted) * dehumidifier.power, money.dehumidifier_duty),
      electricity("miscellaneous", design.electricity.misc_power, 1.0),
      {"rent", money.rent * money.rent_area},
      {"salt water", (water_changed(design) + water_reset(design)) * money.salt_water},
      {"feed and chemicals", money.feed_and_chemicals},
      {"plugs", yield.cut * money.plug},
      {"labour", farm::wages(si(design.labour.hired) * units::week.size, design.labour.wage)}};
  return farm::economics(capital, money.capital.discount_rate, money.capital.life / units::year.size, running,
                         yield.sold, money.price);
}

}  // namespace theca::study
