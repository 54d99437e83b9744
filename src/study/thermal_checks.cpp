#include <algorithm>

#include "collector.hpp"
#include "theca/study/assessment.hpp"
#include "theca/study/parts.hpp"

namespace theca::study {
namespace {

MassFlow evaporation(const Design& design, Season season, const air::MoistAir& room_air) {
  thermal::Room room = hall(design, season);
  room.air = room_air;
  return thermal::system_balance(tank_system(design, season, false), water(design), room).evaporation;
}

void room_checks(const Design& design, Season season, const std::string& case_name, Collector& checks) {
  const Hall& h = design.rooms.hall;
  const thermal::VentilatedRoom room{.volume = h.length * h.width * h.height, .air_changes = h.ventilation};
  const air::MoistAir inside = hall(design, season).air;
  const air::MoistAir at_limit{inside.temperature, h.humidity_limit, inside.pressure};
  checks.add("thermal: dehumidifiers, " + case_name, [&] {
    const MassFlow required = thermal::required_dehumidification(evaporation(design, season, at_limit), room, at_limit,
                                                                 outside(design, season));
    const MassFlow capacity = thermal::fresh_water(double(h.dehumidifier.installed) * h.dehumidifier.removal);
    return thermal::dehumidifier_check(required, capacity, "hall, " + case_name);
  });
}

}  // namespace

std::vector<Check> thermal_checks(const Design& design) {
  Collector checks;
  const thermal::Water tank_water = water(design);
  const auto balance = [&](Season season, bool lights_on) {
    return thermal::system_balance(tank_system(design, season, lights_on), tank_water, hall(design, season));
  };

  const thermal::HeatBalance winter = balance(Season::winter, false);
  checks.add("thermal: heaters, winter night",
             [&] { return thermal::heater_check(winter, design.heat.heaters, "winter design day, lights off"); });
  checks.add("thermal: chiller, summer day", [&] {
    return thermal::chiller_check(balance(Season::summer, true), design.heat.chiller, "summer design day, lights on");
  });
  if (design.rooms.hall.summer_hot)
    checks.add("thermal: chiller, hot summer day", [&] {
      return thermal::chiller_check(balance(Season::summer_hot, true), design.heat.chiller,
                                    "hot summer day, lights on");
    });
  room_checks(design, Season::winter, "winter", checks);
  room_checks(design, Season::summer, "summer", checks);

  const Window& window = design.rooms.hall.window;
  checks.add("thermal: window condensation, winter", [&] {
    return thermal::window_condensation_check(
        thermal::condensation({.U = window.U, .inside_film = window.inside_film_R}, hall(design, Season::winter).air,
                              outside(design, Season::winter).temperature),
        "hall window, winter");
  });
  checks.add("thermal: make-up water", [&] {
    const thermal::HeatBalance summer = balance(Season::summer, true);
    const thermal::HeatBalance& drier = winter.evaporation > summer.evaporation ? winter : summer;
    return thermal::make_up_water_check(drier.evaporation, drier.evaporation_high, design.chemistry.make_up_available,
                                        &drier == &winter ? "whole system, winter" : "whole system, summer");
  });
  return checks.take();
}

}  // namespace theca::study
