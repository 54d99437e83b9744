#include "theca/thermal/film.hpp"

#include <algorithm>

namespace theca::thermal {

namespace {
constexpr const char* churchill_chu = "natural convection at a vertical plate, Churchill & Chu 1975";

// Properties of the air in the film, all at its mean temperature.
struct FilmAir {
  double viscosity, conductivity, prandtl;
  FilmAir(double mean_temperature_K, const AbsolutePressure& pressure) {
    const auto t = from_si<Temperature>(mean_temperature_K);
    viscosity = si(air::kinematic_viscosity(t, pressure));
    conductivity = si(air::thermal_conductivity(t));
    prandtl = air::prandtl(t);
  }
};

void require_air_temperature(std::string_view argument, const Temperature& t) {
  require::within(argument, t, air::lowest_temperature, air::highest_temperature);
}
}  // namespace

double nusselt_vertical_plate(double rayleigh, double prandtl) {
  require::not_negative("rayleigh", rayleigh);
  require::positive("prandtl", prandtl);
  require::valid(churchill_chu, "Rayleigh number", rayleigh, 0.0, 1e12);
  return kernel::nusselt_vertical_plate(rayleigh, prandtl);
}

double nusselt_vertical_plate_laminar(double rayleigh, double prandtl) {
  require::not_negative("rayleigh", rayleigh);
  require::positive("prandtl", prandtl);
  require::valid("laminar natural convection at a vertical plate, Churchill & Chu 1975", "Rayleigh number", rayleigh,
                 0.0, 1e9);
  return kernel::nusselt_vertical_plate_laminar(rayleigh, prandtl);
}

double nusselt_horizontal_unstable(double rayleigh) {
  require::finite("rayleigh", rayleigh);
  require::valid("natural convection off a horizontal plate, Lloyd & Moran 1974", "Rayleigh number", rayleigh, 1e4,
                 1e11);
  return kernel::nusselt_horizontal_unstable(rayleigh);
}

double nusselt_horizontal_stable(double rayleigh) {
  require::finite("rayleigh", rayleigh);
  require::valid("natural convection held at a horizontal plate, McAdams 1954", "Rayleigh number", rayleigh, 1e5, 1e10);
  return kernel::nusselt_horizontal_stable(rayleigh);
}

double nusselt_flat_plate(double reynolds, double prandtl) {
  require::not_negative("reynolds", reynolds);
  require::positive("prandtl", prandtl);
  constexpr const char* correlation = "forced convection along a plate, laminar to turbulent";
  require::valid(correlation, "Reynolds number", reynolds, 0.0, 1e8);
  require::valid(correlation, "Prandtl number", prandtl, 0.6, 60.0);
  return kernel::nusselt_flat_plate(reynolds, prandtl);
}

Film vertical_film(const Temperature& surface, const Temperature& room, const AbsolutePressure& pressure,
                   const Length& height) {
  require_air_temperature("surface temperature", surface);
  require_air_temperature("room temperature", room);
  require::positive("height", height);
  const double mean = 0.5 * (si(surface) + si(room));
  const FilmAir film(mean, pressure);
  const double h = si(height);
  Film result;
  result.rayleigh = si(standard_gravity) * std::abs(si(surface) - si(room)) / mean * h * h * h /
                    (film.viscosity * film.viscosity) * film.prandtl;
  require::valid(churchill_chu, "Rayleigh number", result.rayleigh, 0.0, 1e12);
  result.coefficient = from_si<ThermalTransmittance>(kernel::nusselt_vertical_plate(result.rayleigh, film.prandtl) *
                                                     film.conductivity / h);
  return result;
}

Film water_surface_film(const Temperature& water_temperature, const AbsolutePressure& vapour_at_surface,
                        const air::MoistAir& room, const Length& length, const Length& width,
                        const Velocity& air_speed) {
  require_air_temperature("water temperature", water_temperature);
  require_air_temperature("room temperature", room.temperature);
  require::positive("length", length);
  require::positive("width", width);
  require::not_negative("air speed", air_speed);
  const double saturation = si(air::saturation_vapour_pressure(water_temperature));
  require::that(si(vapour_at_surface) >= 0.0 && si(vapour_at_surface) <= saturation, "vapour pressure at the surface",
                vapour_at_surface, "0 Pa to saturation at the water temperature, " + text(saturation, "Pa"));

  const air::MoistAir at_surface{.temperature = water_temperature,
                                 .humidity = RelativeHumidity(std::min(1.0, si(vapour_at_surface) / saturation)),
                                 .pressure = room.pressure};
  const double rho_surface = si(air::density(at_surface));
  const double rho_room = si(air::density(room));
  const FilmAir film(0.5 * (si(water_temperature) + si(room.temperature)), room.pressure);
  const double size = si(length) * si(width) / (2.0 * (si(length) + si(width)));

  Film result;
  result.unstable = rho_surface <= rho_room;
  const double buoyancy = std::abs(rho_room - rho_surface) / (0.5 * (rho_room + rho_surface));
  result.rayleigh =
      si(standard_gravity) * buoyancy * size * size * size / (film.viscosity * film.viscosity) * film.prandtl;
  require::valid("natural convection over water, Raithby & Hollands 1998", "Rayleigh number", result.rayleigh, 0.0,
                 1e10);
  const double natural = film.conductivity / size *
                         (result.unstable ? kernel::nusselt_horizontal_unstable_smooth(result.rayleigh, film.prandtl)
                                          : kernel::nusselt_horizontal_stable_smooth(result.rayleigh, film.prandtl));
  // The room's draught may come from either side: the shorter side gives the thinner boundary layer, the upper
  // estimate.
  const double along = std::min(si(length), si(width));
  result.reynolds = si(air_speed) * along / film.viscosity;
  const double forced = film.conductivity / along * nusselt_flat_plate(result.reynolds, film.prandtl);
  result.coefficient = from_si<ThermalTransmittance>(kernel::combine_forced_and_natural(forced, natural));
  return result;
}

namespace {
void require_radiation(const Temperature& surface, const Temperature& surroundings, double emissivity) {
  require::positive("surface temperature", surface);
  require::positive("surroundings temperature", surroundings);
  require::within("emissivity", emissivity, 0.0, 1.0);
}
}  // namespace

HeatFlux radiative_flux(const Temperature& surface, const Temperature& surroundings, double emissivity) {
  require_radiation(surface, surroundings, emissivity);
  return from_si<HeatFlux>(kernel::radiative_flux(si(surface), si(surroundings), emissivity));
}

ThermalTransmittance radiative_film(const Temperature& surface, const Temperature& surroundings, double emissivity) {
  require_radiation(surface, surroundings, emissivity);
  return from_si<ThermalTransmittance>(kernel::radiative_film(si(surface), si(surroundings), emissivity));
}

}  // namespace theca::thermal
