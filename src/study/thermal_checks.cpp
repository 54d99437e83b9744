#include <algorithm>

#include "collector.hpp"
#include "theca/study/assessment.hpp"
#include "theca/study/parts.hpp"
#include "theca/study/validate.hpp"

namespace theca::study {
namespace {

thermal::HeatBalance balance_in(const Design& design, Season season, const air::MoistAir& room_air, bool lights_on) {
  thermal::Room room = hall(design, season);
  room.air = room_air;
  return thermal::system_balance(tank_system(design, season, lights_on), water(design), room);
}

thermal::VentilatedRoom ventilated(const Design& design) {
  const Hall& hall = design.rooms.hall;
  return {.volume = hall.length * hall.width * hall.height, .air_changes = hall.ventilation};
}

MassFlow installed_drying(const Design& design) {
  const Dehumidifier& dehumidifier = design.rooms.hall.dehumidifier;
  return thermal::fresh_water(double(dehumidifier.installed) * dehumidifier.removal);
}

/// Humidity that the hall settles at with what is installed.
RelativeHumidity settled_humidity(const Design& design, Season season) {
  const air::MoistAir inside = hall(design, season).air;
  return thermal::steady_humidity(
      ventilated(design), inside.temperature, outside(design, season),
      [&](const air::MoistAir& air) { return balance_in(design, season, air, false).evaporation; },
      installed_drying(design));
}

void humidity_checks(const Design& design, Season season, const std::string& case_name, Collector& checks) {
  const air::MoistAir inside = hall(design, season).air;
  const air::MoistAir at_limit{inside.temperature, design.rooms.hall.humidity_limit, inside.pressure};
  checks.add("thermal: dehumidifiers, " + case_name, [&] {
    const thermal::HeatBalance balance = balance_in(design, season, at_limit, false);
    const auto required = [&](const MassFlow& evaporation) {
      return thermal::required_dehumidification(evaporation, ventilated(design), at_limit, outside(design, season));
    };
    return thermal::dehumidifier_check(required(balance.evaporation), installed_drying(design), "hall, " + case_name,
                                       required(balance.evaporation_high));
  });
  checks.add("thermal: hall humidity, " + case_name, [&] {
    return thermal::room_humidity_check(settled_humidity(design, season), design.rooms.hall.humidity_limit,
                                        "hall, " + case_name + ", with the dehumidifiers installed");
  });
}

void window_check(const Design& design, const std::string& name, RelativeHumidity humidity, const std::string& where,
                  Collector& checks) {
  const Window& window = design.rooms.hall.window;
  checks.add(name, [&] {
    const air::MoistAir inside = hall(design, Season::winter).air;
    return thermal::window_condensation_check(
        thermal::condensation({.U = window.U, .inside_film = window.inside_film_R},
                              {inside.temperature, humidity, inside.pressure},
                              outside(design, Season::winter).temperature),
        where);
  });
}

void water_checks(const Design& design, Collector& checks) {
  checks.add("thermal: make-up water", [&] {
    const thermal::HeatBalance winter = balance_in(design, Season::winter, hall(design, Season::winter).air, false);
    const thermal::HeatBalance summer = balance_in(design, Season::summer, hall(design, Season::summer).air, false);
    const bool in_winter = winter.evaporation > summer.evaporation;
    const thermal::HeatBalance& most = in_winter ? winter : summer;
    // The same supply makes the new salt water for changes and resets.
    const MassFlow mixed = thermal::fresh_water(water_changed(design) + water_reset(design));
    return thermal::make_up_water_check(
        most.evaporation + mixed, most.evaporation_high + mixed, design.chemistry.make_up_available,
        std::string("evaporation, water changes and resets, ") + (in_winter ? "winter" : "summer"));
  });
}

}  // namespace

std::vector<Check> thermal_checks(const Design& design) {
  validate(design);
  Collector checks;
  const auto balance = [&](Season season, bool lights_on) {
    return balance_in(design, season, hall(design, season).air, lights_on);
  };
  checks.add("thermal: heaters, winter night", [&] {
    return thermal::heater_check(balance(Season::winter, false), design.heat.heaters, "winter design day, lights off");
  });
  checks.add("thermal: chiller, summer day", [&] {
    return thermal::chiller_check(balance(Season::summer, true), design.heat.chiller, "summer design day, lights on");
  });
  if (design.rooms.hall.summer_hot)
    checks.add("thermal: chiller, hot summer day", [&] {
      return thermal::chiller_check(balance(Season::summer_hot, true), design.heat.chiller,
                                    "hot summer day, lights on");
    });
  humidity_checks(design, Season::winter, "winter", checks);
  humidity_checks(design, Season::summer, "summer", checks);
  window_check(design, "thermal: window, design humidity", design.rooms.hall.winter.relative_humidity,
               "hall window, winter, humidity as stated", checks);
  checks.group("thermal: window, settled humidity", [&] {
    window_check(design, "thermal: window, settled humidity", settled_humidity(design, Season::winter),
                 "hall window, winter, humidity that the dehumidifiers hold", checks);
  });
  water_checks(design, checks);
  return checks.take();
}

}  // namespace theca::study
