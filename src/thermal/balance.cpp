#include "theca/thermal/balance.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "theca/seawater.hpp"
#include "theca/thermal/film.hpp"
#include "theca/thermal/radiation.hpp"

namespace theca::thermal {

namespace {

// Paths of one tank in W and kg/s, in the order in which they are reported.
struct TankLoss {
  double evaporation = 0.0, convection = 0.0, radiation = 0.0, walls = 0.0, base = 0.0;
  double evaporation_low = 0.0, evaporation_high = 0.0;
  double mass = 0.0, mass_low = 0.0, mass_high = 0.0;
  void add(const TankLoss& other, double count) {
    evaporation += count * other.evaporation;
    convection += count * other.convection;
    radiation += count * other.radiation;
    walls += count * other.walls;
    base += count * other.base;
    evaporation_low += count * other.evaporation_low;
    evaporation_high += count * other.evaporation_high;
    mass += count * other.mass;
    mass_low += count * other.mass_low;
    mass_high += count * other.mass_high;
  }
};

void add_water_surface(TankLoss& loss, const TankSurfaces& tank, const Water& water, const Room& room) {
  const double area = si(tank.water_length) * si(tank.water_width);
  if (area == 0.0) return;  // covered
  const EvaporationEstimate e = evaporation({.water = water.temperature,
                                             .salinity = water.salinity,
                                             .room = room.air,
                                             .air_speed = room.air_speed,
                                             .length = tank.water_length,
                                             .width = tank.water_width,
                                             .activity = tank.evaporation_activity});
  loss.evaporation = area * si(e.latent);
  loss.evaporation_low = area * si(e.latent_low);
  loss.evaporation_high = area * si(e.latent_high);
  loss.mass = area * si(e.central);
  loss.mass_low = area * si(e.low);
  loss.mass_high = area * si(e.high);
  const Film film = water_surface_film(water.temperature, seawater::vapour_pressure(water.temperature, water.salinity),
                                       room.air, tank.water_length, tank.water_width, room.air_speed);
  loss.convection = area * si(film.coefficient) * (si(water.temperature) - si(room.air.temperature));
  loss.radiation = area * si(radiative_flux(water.temperature, room.surroundings, tank.water_emissivity));
}

double wall_loss(const WallPatch& wall, const TankSurfaces& tank, const Water& water, const Room& room) {
  require::positive("wall length", wall.length);
  require::positive("wall height", wall.height);
  const double area = si(wall.length) * si(wall.height);
  if (wall.fixed_outside_film) {
    const auto u = transmittance(wall.layers, {.inside = tank.inside_film, .outside = *wall.fixed_outside_film});
    return area * si(u) * (si(water.temperature) - si(room.air.temperature));
  }
  return area * si(wall_heat(wall.layers, {.water = water.temperature,
                                           .inside_film = tank.inside_film,
                                           .room = room.air.temperature,
                                           .surroundings = room.surroundings,
                                           .pressure = room.air.pressure,
                                           .height = wall.height,
                                           .emissivity = wall.emissivity})
                       .flux);
}

TankLoss loss_of_tank(const TankSurfaces& tank, const Water& water, const Room& room) {
  require::not_negative("water length", tank.water_length);
  require::not_negative("water width", tank.water_width);
  require::not_negative("base", tank.base);
  require::not_negative("base U", tank.base_U);
  require::within("water emissivity", tank.water_emissivity, 0.0, 1.0);
  TankLoss loss;
  add_water_surface(loss, tank, water, room);
  for (const WallPatch& wall : tank.walls) loss.walls += wall_loss(wall, tank, water, room);
  loss.base = si(tank.base) * si(tank.base_U) * (si(water.temperature) - si(room.air.temperature));
  return loss;
}

void require_states(const Water& water, const Room& room) {
  require::within("water temperature", water.temperature, seawater::lowest_temperature, seawater::highest_temperature);
  require::within("salinity", water.salinity, seawater::lowest_salinity, seawater::highest_salinity);
  require::within("room temperature", room.air.temperature, air::lowest_temperature, air::highest_temperature);
  require::within("room humidity", room.air.humidity, RelativeHumidity(0.0), RelativeHumidity(1.0));
  require::within("surroundings temperature", room.surroundings, air::lowest_temperature, air::highest_temperature);
  require::not_negative("air speed", room.air_speed);
}

HeatBalance assemble(const TankLoss& loss, std::optional<double> sump, const std::vector<HeatGain>& gains) {
  HeatBalance balance;
  const auto path = [&](const char* path_name, double watts) {
    balance.losses.push_back({path_name, from_si<Power>(watts), 0.0});
  };
  path("evaporation", loss.evaporation);
  path("surface convection", loss.convection);
  path("surface radiation", loss.radiation);
  path("walls", loss.walls);
  path("base", loss.base);
  if (sump) path("sump", *sump);

  double total = 0.0, magnitude = 0.0;
  for (const HeatPath& p : balance.losses) {
    total += si(p.power);
    magnitude += std::abs(si(p.power));
  }
  if (magnitude > 0.0)
    for (HeatPath& p : balance.losses) p.share = si(p.power) / magnitude;

  double gained = 0.0;
  for (const HeatGain& g : gains) {
    require::not_negative("gain " + g.name, g.power);
    gained += si(g.power);
  }
  balance.gains = gains;
  balance.total_loss = from_si<Power>(total);
  balance.total_loss_low = from_si<Power>(total - loss.evaporation + loss.evaporation_low);
  balance.total_loss_high = from_si<Power>(total - loss.evaporation + loss.evaporation_high);
  balance.total_gain = from_si<Power>(gained);
  const double net = total - gained;
  balance.net = from_si<Power>(net);
  balance.heating = from_si<Power>(std::max(net, 0.0));
  balance.cooling = from_si<Power>(std::max(-net, 0.0));
  balance.evaporation = from_si<MassFlow>(loss.mass);
  balance.evaporation_low = from_si<MassFlow>(loss.mass_low);
  balance.evaporation_high = from_si<MassFlow>(loss.mass_high);
  return balance;
}

}  // namespace

Power HeatBalance::loss(std::string_view path) const {
  for (const HeatPath& p : losses)
    if (p.name == path) return p.power;
  throw InvalidInput("path", path, "the name of one of the balance's losses");
}

HeatBalance tank_balance(const TankSurfaces& tank, const Water& water, const Room& room,
                         const std::vector<HeatGain>& gains) {
  require_states(water, room);
  return assemble(loss_of_tank(tank, water, room), std::nullopt, gains);
}

HeatBalance system_balance(const TankSystem& system, const Water& water, const Room& room) {
  require_states(water, room);
  require::not_negative("sump UA", system.sump_UA);
  require::within("sump room temperature", system.sump_room, air::lowest_temperature, air::highest_temperature);
  TankLoss sum;
  for (const TankGroup& group : system.tanks) {
    require::not_negative("count of tanks", static_cast<double>(group.count));
    if (group.count > 0) sum.add(loss_of_tank(group.tank, water, room), static_cast<double>(group.count));
  }
  const double sump = si(system.sump_UA) * (si(water.temperature) - si(system.sump_room));
  return assemble(sum, sump, system.gains);
}

}  // namespace theca::thermal
