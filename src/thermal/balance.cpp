#include "theca/thermal/balance.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "theca/seawater.hpp"

namespace theca::thermal {

namespace {

constexpr std::size_t path_count = 7;
enum Path : std::size_t { evaporating, convecting, radiating, under_lid, walls, base, sump };
constexpr std::array<const char*, path_count> path_names = {
    "evaporation", "surface convection", "surface radiation", "lid", "walls", "base", "sump"};

// A path or a mass flow of one tank or of many, in W or kg/s, with its range.
struct Flow {
  double central = 0.0, low = 0.0, high = 0.0;
  void add(double c, double l, double h) {
    central += c;
    low += l;
    high += h;
  }
  void add(const Flow& other, double count) { add(count * other.central, count * other.low, count * other.high); }
};

struct TankLoss {
  std::array<Flow, path_count> paths{};
  Flow vapour;
  void add(const TankLoss& other, double count) {
    for (std::size_t i = 0; i < path_count; ++i) paths[i].add(other.paths[i], count);
    vapour.add(other.vapour, count);
  }
};

void add_water_surface(TankLoss& loss, const TankSurfaces& tank, const Water& water, const Room& room) {
  if (si(tank.water_length) == 0.0 || si(tank.water_width) == 0.0) return;  // no surface
  const WaterSurfaceHeat heat = water_surface_heat({.free = {.water = water.temperature,
                                                             .salinity = water.salinity,
                                                             .room = room.air,
                                                             .air_speed = room.air_speed,
                                                             .length = tank.water_length,
                                                             .width = tank.water_width,
                                                             .activity = tank.evaporation_activity},
                                                    .surroundings = room.surroundings,
                                                    .emissivity = tank.water_emissivity,
                                                    .lid = tank.lid});
  const auto add = [&](Path path, const PowerRange& r) { loss.paths[path].add(si(r.central), si(r.low), si(r.high)); };
  add(evaporating, heat.evaporation);
  add(convecting, heat.convection);
  add(radiating, {heat.radiation, heat.radiation, heat.radiation});
  add(under_lid, heat.lid);
  loss.vapour.add(si(heat.evaporated), si(heat.evaporated_low), si(heat.evaporated_high));
}

void add_wall(TankLoss& loss, const WallPatch& wall, const TankSurfaces& tank, const Water& water, const Room& room) {
  const WallHeat heat = wall_heat(wall, tank, water, room);
  const double area = si(wall.length) * si(wall.height);
  loss.paths[wall.facing == Facing::sideways ? walls : base].add(area * si(heat.flux), area * si(heat.flux_low),
                                                                 area * si(heat.flux_high));
}

TankLoss loss_of_tank(const TankSurfaces& tank, const Water& water, const Room& room) {
  require::not_negative("water length", tank.water_length);
  require::not_negative("water width", tank.water_width);
  require::not_negative("base", tank.base);
  require::not_negative("base U", tank.base_U);
  require::within("water emissivity", tank.water_emissivity, 0.0, 1.0);
  require::not_negative("water speed", tank.water_speed);
  TankLoss loss;
  add_water_surface(loss, tank, water, room);
  for (const WallPatch& wall : tank.walls) add_wall(loss, wall, tank, water, room);
  const double supported = si(tank.base) * si(tank.base_U) * (si(water.temperature) - si(room.air.temperature));
  loss.paths[base].add(supported, supported, supported);
  return loss;
}

void require_states(const Water& water, const Room& room) {
  require::within("water temperature", water.temperature, seawater::lowest_temperature, seawater::highest_temperature);
  require::within("salinity", water.salinity, seawater::lowest_salinity, seawater::highest_salinity);
  require::within("room temperature", room.air.temperature, air::lowest_temperature, air::highest_temperature);
  require::within("room humidity", room.air.humidity, RelativeHumidity(0.0), RelativeHumidity(1.0));
  require::within("surroundings temperature", room.surroundings, air::lowest_temperature, air::highest_temperature);
  require::not_negative("air speed", room.air_speed);
  require::not_negative("wall air speed", room.wall_air_speed);
}

HeatBalance assemble(const TankLoss& loss, bool with_sump, const std::vector<HeatGain>& gains) {
  HeatBalance balance;
  double total = 0.0, low = 0.0, high = 0.0, magnitude = 0.0;
  for (std::size_t i = 0; i < path_count; ++i) {
    if (i == sump && !with_sump) continue;
    const Flow& flow = loss.paths[i];
    balance.losses.push_back({.name = path_names[i],
                              .power = from_si<Power>(flow.central),
                              .low = from_si<Power>(flow.low),
                              .high = from_si<Power>(flow.high)});
    total += flow.central;
    low += flow.low;
    high += flow.high;
    magnitude += std::abs(flow.central);
  }
  if (magnitude > 0.0)
    for (HeatPath& p : balance.losses) p.share = si(p.power) / magnitude;

  double gained = 0.0, warmed = total - loss.paths[evaporating].central - loss.paths[sump].central;
  for (const HeatGain& g : gains) {
    require::not_negative("gain " + g.name, g.power);
    require::not_negative("gain " + g.name + " to the room", g.to_room);
    gained += si(g.power);
    warmed += si(g.to_room);
  }
  balance.gains = gains;
  balance.total_loss = from_si<Power>(total);
  balance.total_loss_low = from_si<Power>(low);
  balance.total_loss_high = from_si<Power>(high);
  balance.total_gain = from_si<Power>(gained);
  const double net = total - gained;
  balance.net = from_si<Power>(net);
  balance.heating = from_si<Power>(std::max(net, 0.0));
  balance.cooling = from_si<Power>(std::max(-net, 0.0));
  balance.evaporation = from_si<MassFlow>(loss.vapour.central);
  balance.evaporation_low = from_si<MassFlow>(loss.vapour.low);
  balance.evaporation_high = from_si<MassFlow>(loss.vapour.high);
  balance.sensible_to_room = from_si<Power>(warmed);
  return balance;
}

}  // namespace

WallHeat wall_heat(const WallPatch& wall, const TankSurfaces& tank, const Water& water, const Room& room) {
  require::positive("wall length", wall.length);
  require::positive("wall height", wall.height);
  return wall_heat(wall.layers, {.water = water.temperature,
                                 .inside_film = tank.inside_film,
                                 .outside_film = wall.fixed_outside_film,
                                 .room = room.air.temperature,
                                 .surroundings = wall.surroundings.value_or(room.surroundings),
                                 .pressure = room.air.pressure,
                                 .height = wall.height,
                                 .emissivity = wall.emissivity,
                                 .facing = wall.facing,
                                 .length = wall.length,
                                 .air_speed = room.wall_air_speed,
                                 .water_speed = tank.water_speed,
                                 .salinity = water.salinity});
}

Power HeatBalance::loss(std::string_view path) const {
  for (const HeatPath& p : losses)
    if (p.name == path) return p.power;
  throw InvalidInput("path", path, "the name of one of the balance's losses");
}

HeatBalance tank_balance(const TankSurfaces& tank, const Water& water, const Room& room,
                         const std::vector<HeatGain>& gains) {
  require_states(water, room);
  return assemble(loss_of_tank(tank, water, room), false, gains);
}

HeatBalance system_balance(const TankSystem& system, const Water& water, const Room& room) {
  require_states(water, room);
  require::not_negative("sump UA", system.sump_UA);
  TankLoss sum;
  for (const TankGroup& group : system.tanks) {
    require::not_negative("count of tanks", static_cast<double>(group.count));
    if (group.count > 0) sum.add(loss_of_tank(group.tank, water, room), static_cast<double>(group.count));
  }
  if (si(system.sump_UA) > 0.0) {
    require::within("sump room temperature", system.sump_room, air::lowest_temperature, air::highest_temperature);
    const double lost = si(system.sump_UA) * (si(water.temperature) - si(system.sump_room));
    sum.paths[sump].add(lost, lost, lost);
  }
  return assemble(sum, true, system.gains);
}

}  // namespace theca::thermal
