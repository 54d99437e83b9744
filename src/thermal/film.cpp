#include "theca/thermal/film.hpp"

#include <algorithm>
#include <cmath>

#include "theca/require.hpp"
#include "theca/seawater.hpp"
#include "theca/thermal/nusselt.hpp"

namespace theca::thermal {

namespace {

// Properties of the fluid in the film, at its mean temperature.
struct FilmFluid {
  double viscosity, conductivity, prandtl;
};

FilmFluid film_air(double mean_temperature_K, const AbsolutePressure& pressure) {
  const auto t = from_si<Temperature>(mean_temperature_K);
  return {si(air::kinematic_viscosity(t, pressure)), si(air::thermal_conductivity(t)), air::prandtl(t)};
}

void require_air_temperature(std::string_view argument, const Temperature& t) {
  require::within(argument, t, air::lowest_temperature, air::highest_temperature);
}

// One part of a film, natural or forced, in W/m2/K: the central correlation and the extremes beside it.
struct Part {
  double central = 0.0, low = 0.0, high = 0.0;
  explicit Part(double value) : central(value), low(value), high(value) {}
  void compare(double other) {
    low = std::min(low, other);
    high = std::max(high, other);
  }
};

constexpr double least_spread = 0.10;

Film joined(const Part& forced, const Part& natural, double exponent) {
  const auto both = [&](double f, double n) { return kernel::combine_forced_and_natural(f, n, exponent); };
  const double central = both(forced.central, natural.central);
  Film film;
  film.coefficient = from_si<ThermalTransmittance>(central);
  film.low = from_si<ThermalTransmittance>(std::min(both(forced.low, natural.low), (1.0 - least_spread) * central));
  film.high = from_si<ThermalTransmittance>(std::max(both(forced.high, natural.high), (1.0 + least_spread) * central));
  return film;
}

// g drho/rho L^3 Pr / nu^2
double rayleigh_of(double buoyancy, double size, const FilmFluid& fluid) {
  return si(standard_gravity) * std::abs(buoyancy) * size * size * size / (fluid.viscosity * fluid.viscosity) *
         fluid.prandtl;
}

double forced_film(const FilmFluid& fluid, double speed, double along) {
  return fluid.conductivity / along * nusselt_flat_plate(speed * along / fluid.viscosity, fluid.prandtl);
}

Film vertical(const FilmFluid& fluid, double buoyancy, double height, double speed) {
  const double rayleigh = rayleigh_of(buoyancy, height, fluid);
  const double scale = fluid.conductivity / height;
  Part natural(scale * nusselt_vertical_plate(rayleigh, fluid.prandtl));
  if (rayleigh <= 1e9) natural.compare(scale * kernel::nusselt_vertical_plate_laminar(rayleigh, fluid.prandtl));
  if (rayleigh >= 1e4) natural.compare(scale * kernel::nusselt_vertical_plate_power_law(rayleigh));
  Film film = joined(Part(forced_film(fluid, speed, height)), natural, 3.0);
  film.rayleigh = rayleigh;
  film.reynolds = speed * height / fluid.viscosity;
  return film;
}

Film horizontal(const FilmFluid& fluid, double buoyancy, bool unstable, double length, double width, double speed) {
  const double size = length * width / (2.0 * (length + width));
  const double rayleigh = rayleigh_of(buoyancy, size, fluid);
  require::valid("natural convection at a horizontal surface, Raithby & Hollands 1998", "Rayleigh number", rayleigh,
                 0.0, 1e10);
  const double scale = fluid.conductivity / size;
  Part natural(scale * (unstable ? kernel::nusselt_horizontal_unstable_smooth(rayleigh, fluid.prandtl)
                                 : kernel::nusselt_horizontal_stable_smooth(rayleigh, fluid.prandtl)));
  if (unstable) {
    if (rayleigh >= 1e4) natural.compare(scale * kernel::nusselt_horizontal_unstable(rayleigh));
  } else {
    if (rayleigh >= 1e4 && rayleigh <= 1e9) natural.compare(scale * kernel::nusselt_horizontal_stable_later(rayleigh));
    if (rayleigh >= 1e5) natural.compare(scale * kernel::nusselt_horizontal_stable(rayleigh));
  }
  // A room's draught may come from either side: the shorter side gives the thinner boundary layer, the upper estimate.
  const double shorter = std::min(length, width), longer = std::max(length, width);
  Part forced(forced_film(fluid, speed, shorter));
  forced.compare(forced_film(fluid, speed, longer));
  Film film = joined(forced, natural, 3.5);
  film.rayleigh = rayleigh;
  film.reynolds = speed * shorter / fluid.viscosity;
  film.unstable = unstable;
  return film;
}

void require_size(const Length& length, const Length& width, const Velocity& speed, std::string_view speed_name) {
  require::positive("length", length);
  require::positive("width", width);
  require::not_negative(speed_name, speed);
}

}  // namespace

Film vertical_film(const Temperature& surface, const Temperature& room, const AbsolutePressure& pressure,
                   const Length& height, const Velocity& air_speed) {
  require_air_temperature("surface temperature", surface);
  require_air_temperature("room temperature", room);
  require::positive("height", height);
  require::not_negative("air speed", air_speed);
  const double mean = 0.5 * (si(surface) + si(room));
  return vertical(film_air(mean, pressure), (si(surface) - si(room)) / mean, si(height), si(air_speed));
}

Film horizontal_film(const Temperature& surface, const Temperature& room, const AbsolutePressure& pressure,
                     Facing facing, const Length& length, const Length& width, const Velocity& air_speed) {
  require_air_temperature("surface temperature", surface);
  require_air_temperature("room temperature", room);
  require::that(facing != Facing::sideways, "facing", 0.0, "up or down; a wall has a vertical film");
  require_size(length, width, air_speed, "air speed");
  const double mean = 0.5 * (si(surface) + si(room));
  const double buoyancy = (si(surface) - si(room)) / mean;
  const bool unstable = facing == Facing::up ? buoyancy >= 0.0 : buoyancy <= 0.0;
  return horizontal(film_air(mean, pressure), buoyancy, unstable, si(length), si(width), si(air_speed));
}

Film water_surface_film(const Temperature& water_temperature, const AbsolutePressure& vapour_at_surface,
                        const air::MoistAir& room, const Length& length, const Length& width,
                        const Velocity& air_speed) {
  require_air_temperature("water temperature", water_temperature);
  require_air_temperature("room temperature", room.temperature);
  require_size(length, width, air_speed, "air speed");
  const double saturation = si(air::saturation_vapour_pressure(water_temperature));
  require::that(si(vapour_at_surface) >= 0.0 && si(vapour_at_surface) <= saturation, "vapour pressure at the surface",
                vapour_at_surface, "0 Pa to saturation at the water temperature, " + text(saturation, "Pa"));

  const air::MoistAir at_surface{.temperature = water_temperature,
                                 .humidity = RelativeHumidity(std::min(1.0, si(vapour_at_surface) / saturation)),
                                 .pressure = room.pressure};
  const double rho_surface = si(air::density(at_surface));
  const double rho_room = si(air::density(room));
  const double buoyancy = (rho_room - rho_surface) / (0.5 * (rho_room + rho_surface));
  return horizontal(film_air(0.5 * (si(water_temperature) + si(room.temperature)), room.pressure), buoyancy,
                    buoyancy >= 0.0, si(length), si(width), si(air_speed));
}

Film water_film(const Temperature& surface, const Temperature& water, AbsoluteSalinity salinity, Facing facing,
                const Length& height, const Length& length, const Velocity& water_speed) {
  require::within("surface temperature", surface, seawater::lowest_temperature, seawater::highest_temperature);
  require::within("water temperature", water, seawater::lowest_temperature, seawater::highest_temperature);
  require::within("salinity", salinity, seawater::lowest_salinity, seawater::highest_salinity);
  require::positive("height", height);
  require::not_negative("water speed", water_speed);
  const auto mean = from_si<Temperature>(0.5 * (si(surface) + si(water)));
  const double density = si(seawater::density(mean, salinity));
  const double conductivity = si(seawater::thermal_conductivity(mean, salinity));
  const double viscosity = si(seawater::kinematic_viscosity(mean, salinity));
  const FilmFluid fluid{viscosity, conductivity,
                        viscosity * density * si(seawater::specific_heat_capacity(mean, salinity)) / conductivity};
  const double lift = si(seawater::density(water, salinity)) - si(seawater::density(surface, salinity));
  const double buoyancy = lift / density;
  if (facing == Facing::sideways) return vertical(fluid, buoyancy, si(height), si(water_speed));
  require::positive("length", length);
  return horizontal(fluid, buoyancy, facing == Facing::up ? buoyancy >= 0.0 : buoyancy <= 0.0, si(height), si(length),
                    si(water_speed));
}

}  // namespace theca::thermal
