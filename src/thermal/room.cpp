#include "theca/thermal/room.hpp"

#include <algorithm>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>

#include "../root.hpp"
#include "theca/require.hpp"
#include "theca/thermal/radiation.hpp"

namespace theca::thermal {

namespace {

// ASHRAE Fundamentals 2017, chapter 1, eq. 30, and water; J/kg/K and J/kg
constexpr double dry_air_heat = 1006.0, vapour_heat = 1860.0, water_heat = 4186.0, vapour_at_0_degC = 2501e3;
constexpr double latent_heat_of_sweat = 2.43e6;       // J/kg, at skin temperature
constexpr double coldest = 253.15, warmest = 318.15;  // K, of a hall
constexpr double most_changes = 60.0 / 3600.0;        // 1/s

void require_hall(const TankHall& hall) {
  require::positive("hall volume", hall.volume);
  require::not_negative("infiltration", hall.infiltration);
  require::not_negative("fan", hall.fan);
  for (const HallSurface& s : hall.surfaces) require::positive("area of " + s.name, s.area);
  if (hall.held)
    require::within("held temperature", *hall.held, from_si<Temperature>(coldest), from_si<Temperature>(warmest));
  require::finite("heating", hall.heating);
  require::not_negative("dryer removal", hall.dryer.removal);
  require::not_negative("dryer power", hall.dryer.power);
  if (hall.dryer.set_point)
    require::within("dryer set point", *hall.dryer.set_point, RelativeHumidity(0.01), RelativeHumidity(1.0));
  require::not_negative("people", hall.people.count);
  require::not_negative("sensible heat of people", hall.people.sensible);
  require::not_negative("latent heat of people", hall.people.latent);
  for (const HeatGain& e : hall.equipment) require::not_negative("heat of " + e.name, e.to_room);
  if (hall.chiller_performance) require::positive("chiller performance", *hall.chiller_performance);
}

Temperature inside_of(const HallSurface& s, const Temperature& air) {
  return inside_surface({.U = s.U, .inside_film = s.inside_film}, air, s.beyond);
}

// Mean radiant temperature, each surface seen by its share of the area.
Temperature radiant(const TankHall& hall, const Temperature& air) {
  if (hall.surfaces.empty()) return air;
  double area = 0.0;
  for (const HallSurface& s : hall.surfaces) area += si(s.area);
  std::vector<SeenSurface> seen;
  for (const HallSurface& s : hall.surfaces) seen.push_back({si(s.area) / area, inside_of(s, air)});
  return mean_radiant_temperature(seen);
}

Room room_of(const TankHall& hall, const air::MoistAir& air) {
  return {.air = air,
          .surroundings = radiant(hall, air.temperature),
          .air_speed = hall.air_speed,
          .wall_air_speed = hall.wall_air_speed};
}

VentilatedRoom ventilated(const TankHall& hall) {
  return {.volume = hall.volume, .air_changes = hall.infiltration + hall.fan / hall.volume};
}

// Everything that happens in the hall at an air temperature and humidity and a duty of its dryer.
HallState state_at(const TankHall& hall, double temperature_K, double humidity, double duty) {
  HallState s{.air = {from_si<Temperature>(temperature_K), RelativeHumidity(humidity), hall.outside.pressure}};
  const Room room = room_of(hall, s.air);
  s.mean_radiant = room.surroundings;
  s.tanks = system_balance(hall.tanks, hall.water, room);
  s.dryer_duty = duty;
  s.evaporation = s.tanks.evaporation;
  s.from_people = from_si<MassFlow>(hall.people.count * si(hall.people.latent) / latent_heat_of_sweat);
  s.ventilated = ventilation_removal(ventilated(hall), s.air, hall.outside);
  s.dried = duty * hall.dryer.removal;
  s.moisture_left = s.evaporation + s.from_people - s.ventilated - s.dried;

  const double celsius = in_celsius(s.air.temperature);
  const double condensing = vapour_at_0_degC + (vapour_heat - water_heat) * celsius;
  const double dry_air = si(ventilated(hall).air_changes) * si(hall.volume) * si(air::dry_air_density(s.air));
  double sum = 0.0;
  const auto add = [&](std::string name, double power) {
    s.heat.push_back({std::move(name), from_si<Power>(power)});
    sum += power;
  };
  double from_gains = 0.0;
  for (const HeatGain& gain : s.tanks.gains) from_gains += si(gain.to_room);
  add("tanks", si(s.tanks.sensible_to_room) - from_gains);
  for (const HeatGain& gain : s.tanks.gains) add(gain.name, si(gain.to_room));
  add("vapour", si(s.evaporation) * vapour_heat * (si(hall.water.temperature) - temperature_K));
  add("people", hall.people.count * si(hall.people.sensible));
  for (const HeatGain& e : hall.equipment) add(e.name, si(e.to_room));
  add("dehumidifier", duty * (si(hall.dryer.power) + si(hall.dryer.removal) * condensing));
  add("chiller", hall.chiller_performance ? si(s.tanks.cooling) * (1.0 + 1.0 / *hall.chiller_performance) : 0.0);
  for (const HallSurface& surface : hall.surfaces)
    add(surface.name, si(surface.U) * si(surface.area) * (si(surface.beyond) - temperature_K));
  add("ventilation", dry_air * (dry_air_heat + vapour_heat * air::humidity_ratio(hall.outside)) *
                         (si(hall.outside.temperature) - temperature_K));
  s.heating = hall.held ? from_si<Power>(-sum) : hall.heating;
  add("heating", si(s.heating));
  s.heat_left = from_si<Power>(sum);
  return s;
}

// At a humidity and a duty, with the temperature held or found.
HallState warm_state(const TankHall& hall, double humidity, double duty) {
  if (hall.held) return state_at(hall, si(*hall.held), humidity, duty);
  const auto left = [&](double temperature_K) { return si(state_at(hall, temperature_K, humidity, duty).heat_left); };
  const double at_coldest = left(coldest), at_warmest = left(warmest);
  if (at_coldest < 0.0 || at_warmest > 0.0)
    throw OutOfValidity("heat balance of a hall",
                        at_coldest < 0.0 ? "it falls below -20 degC, short of " + text(-at_coldest, "W")
                                         : "it rises past 45 degC, with " + text(at_warmest, "W") + " left");
  return state_at(
      hall, theca::detail::root_between("temperature of a hall", left, coldest, warmest, at_coldest, at_warmest).at(),
      humidity, duty);
}

double moisture_left(const TankHall& hall, double humidity, double duty) {
  return si(warm_state(hall, humidity, duty).moisture_left);
}

HallState moist_state(const TankHall& hall, double duty) {
  const auto left = [&](double humidity) { return moisture_left(hall, humidity, duty); };
  const double dry = left(0.0), saturated = left(1.0);
  if (dry < 0.0)
    throw OutOfValidity("moisture balance of a hall",
                        "dehumidifier and ventilation take out more than is supplied even "
                        "to perfectly dry air, by " +
                            text(-dry, "kg/s"));
  if (saturated > 0.0)
    throw OutOfValidity("moisture balance of a hall", "the hall passes saturation, with " + text(saturated, "kg/s") +
                                                          " left over at 100 % RH: fog and wet walls");
  return warm_state(hall, theca::detail::root_between("humidity of a hall", left, 0.0, 1.0, dry, saturated).at(), duty);
}

void require_share(std::string_view argument, double share) { require::within(argument, share, 0.0, 0.1); }

}  // namespace

HallState steady_hall(const TankHall& hall) {
  require_hall(hall);
  if (!hall.dryer.set_point) return moist_state(hall, 1.0);
  const double wanted = hall.dryer.set_point->ratio;
  const auto left = [&](double duty) { return moisture_left(hall, wanted, duty); };
  const double idle = left(0.0), full = left(1.0);
  if (idle <= 0.0) return moist_state(hall, 0.0);
  if (full >= 0.0) return moist_state(hall, 1.0);
  return warm_state(hall, wanted,
                    theca::detail::root_between("duty of a dehumidifier", left, 0.0, 1.0, idle, full).at());
}

std::vector<SurfaceMoisture> surface_moisture(const TankHall& hall, const HallState& state) {
  require_hall(hall);
  std::vector<SurfaceMoisture> list;
  for (const HallSurface& s : hall.surfaces)
    list.push_back({s.name, condensation(inside_of(s, state.air.temperature), state.air)});
  const Room room = room_of(hall, state.air);
  for (const TankGroup& group : hall.tanks.tanks)
    for (const WallPatch& wall : group.tank.walls)
      list.push_back({group.tank.name + ", " + wall.name,
                      condensation(wall_heat(wall, group.tank, hall.water, room).outside_surface, state.air)});
  return list;
}

std::optional<VolumeFlow> ventilation_for_humidity(const TankHall& hall, RelativeHumidity limit) {
  require_hall(hall);
  require::within("limit", limit, RelativeHumidity(0.01), RelativeHumidity(1.0));
  TankHall with = hall;
  // A humidistat whose set point is above the limit does nothing at the limit; else the dryer runs all it can.
  const double duty = hall.dryer.set_point && hall.dryer.set_point->ratio > limit.ratio ? 0.0 : 1.0;
  const auto left = [&](double flow) {
    with.fan = from_si<VolumeFlow>(flow);
    return moisture_left(with, limit.ratio, duty);
  };
  const double most = most_changes * si(hall.volume);
  const double none = left(0.0), full = left(most);
  if (none <= 0.0) return from_si<VolumeFlow>(0.0);
  if (full > 0.0) return std::nullopt;
  return from_si<VolumeFlow>(
      theca::detail::root_between("ventilation for a humidity", left, 0.0, most, none, full).at());
}

MassFlow drying_for_humidity(const TankHall& hall, RelativeHumidity limit) {
  require_hall(hall);
  require::within("limit", limit, RelativeHumidity(0.01), RelativeHumidity(1.0));
  TankHall with = hall;
  with.dryer.set_point.reset();
  const double power_each = si(hall.dryer.removal) > 0.0 ? si(hall.dryer.power) / si(hall.dryer.removal) : 0.0;  // J/kg
  const auto left = [&](double removal) {
    with.dryer.removal = from_si<MassFlow>(removal);
    with.dryer.power = from_si<Power>(power_each * removal);
    return moisture_left(with, limit.ratio, 1.0);
  };
  const double none = left(0.0);
  if (none <= 0.0) return from_si<MassFlow>(0.0);
  if (hall.held) return from_si<MassFlow>(none);
  // Its heat warms the hall, and a warmer hall at the same relative humidity holds evaporation back.
  return from_si<MassFlow>(
      theca::detail::root_between("drying for a humidity", left, 0.0, none, none, left(none)).at());
}

std::optional<Time> time_to_humidity(const TankHall& hall, const air::MoistAir& from, RelativeHumidity limit) {
  require_hall(hall);
  require::within("start humidity", from.humidity, RelativeHumidity(0.0), RelativeHumidity(1.0));
  require::within("limit", limit, from.humidity, RelativeHumidity(1.0));
  if (limit.ratio == from.humidity.ratio) return from_si<Time>(0.0);
  const auto rate = [&](double humidity) {
    return si(state_at(hall, si(from.temperature), humidity, 0.0).moisture_left);
  };
  // The hall creeps towards its balance without end; this near to it the limit is out of reach.
  const double start = rate(from.humidity.ratio), end = rate(limit.ratio);
  if (start <= 0.0 || end <= 1e-6 * start) return std::nullopt;
  const double saturation = si(air::saturation_vapour_pressure(from.temperature));
  const auto seconds = [&](double humidity) {
    // Vapour over volume is proportional to its pressure.
    return si(hall.volume) * saturation / (si(air::gas_constant_water_vapour) * si(from.temperature)) / rate(humidity);
  };
  return from_si<Time>(boost::math::quadrature::gauss_kronrod<double, 15>::integrate(seconds, from.humidity.ratio,
                                                                                     limit.ratio, 8, 1e-6));
}

Temperature pipe_face(const CoveredPipe& pipe, const Temperature& water, const Temperature& room) {
  require::positive("outside diameter", pipe.outside_diameter);
  require::not_negative("insulation", pipe.insulation);
  require::positive("outside film", pipe.outside_film);
  require::positive("water temperature", water);
  require::positive("room temperature", room);
  if (si(pipe.insulation) == 0.0) return water;
  require::positive("conductivity of the insulation", pipe.conductivity);
  const double inner = 0.5 * si(pipe.outside_diameter);
  return from_si<Temperature>(kernel::pipe_face(inner, inner + si(pipe.insulation), si(pipe.conductivity),
                                                si(pipe.outside_film), si(water), si(room)));
}

std::optional<Length> insulation_against_dew(const CoveredPipe& pipe, const Temperature& water,
                                             const air::MoistAir& room, const TemperatureDifference& margin) {
  require::not_negative("margin", margin);
  require::positive("conductivity of the insulation", pipe.conductivity);
  const double wanted = si(air::dew_point(room)) + si(margin);
  CoveredPipe with = pipe;
  const auto over = [&](double thickness) {
    with.insulation = from_si<Length>(thickness);
    return si(pipe_face(with, water, room.temperature)) - wanted;
  };
  constexpr double thickest = 0.3;  // m
  const double bare = over(0.0), most = over(thickest);
  if (bare >= 0.0) return from_si<Length>(0.0);
  if (most < 0.0) return std::nullopt;
  return from_si<Length>(
      theca::detail::root_between("insulation of a pipe against dew", over, 0.0, thickest, bare, most).at());
}

VolumeFlow co2_from_people(double count, double met) {
  require::not_negative("people", count);
  require::within("met", met, 0.8, 8.0);
  return from_si<VolumeFlow>(count * met / 1.2 * 0.31e-3 / 60.0);
}

double steady_co2(const VolumeFlow& generation, const VolumeFlow& fresh_air, double outside) {
  require::not_negative("generation", generation);
  require::positive("fresh air", fresh_air);
  require_share("CO2 outside", outside);
  return outside + generation / fresh_air;
}

double co2_after(const Volume& hall, double start, const VolumeFlow& generation, const VolumeFlow& fresh_air,
                 const Time& time, double outside) {
  require::positive("hall volume", hall);
  require_share("CO2 at the start", start);
  require::not_negative("generation", generation);
  require::not_negative("fresh air", fresh_air);
  require::not_negative("time", time);
  require_share("CO2 outside", outside);
  const double changes = fresh_air * time / hall;
  // (1 - exp(-n)) / n, which is 1 without fresh air
  const double filled = changes > 0.0 ? -std::expm1(-changes) / changes : 1.0;
  return outside + (start - outside) * std::exp(-changes) + generation * time / hall * filled;
}

VolumeFlow ventilation_for_co2(const VolumeFlow& generation, double limit, double outside) {
  require::not_negative("generation", generation);
  require_share("CO2 outside", outside);
  require_share("CO2 limit", limit);
  require::that(limit > outside, "CO2 limit", limit, "above that outside, " + number(outside));
  return generation / (limit - outside);
}

}  // namespace theca::thermal
