#include "theca/thermal/evaporation.hpp"

#include <algorithm>
#include <limits>

#include "theca/seawater.hpp"
#include "theca/thermal/film.hpp"

namespace theca::thermal {

namespace {

constexpr std::array<EvaporationModel, 4> all_models = {EvaporationModel::ashrae, EvaporationModel::smith_lof_jones,
                                                        EvaporationModel::shah, EvaporationModel::heat_mass_analogy};

// Models may agree by chance; their scatter against measurements does not shrink with that (common practice, no
// source).
constexpr double least_spread = 0.25;

void require_surface(const EvaporatingSurface& s) {
  require::within("water temperature", s.water, seawater::lowest_temperature, seawater::highest_temperature);
  require::within("salinity", s.salinity, seawater::lowest_salinity, seawater::highest_salinity);
  require::within("room temperature", s.room.temperature, air::lowest_temperature, air::highest_temperature);
  require::within("room humidity", s.room.humidity, RelativeHumidity(0.0), RelativeHumidity(1.0));
  require::not_negative("air speed", s.air_speed);
  require::positive("length", s.length);
  require::positive("width", s.width);
  require::within("activity", s.activity, 0.0, 2.0);
}

double pressure_difference(const EvaporatingSurface& s) {
  return si(seawater::vapour_pressure(s.water, s.salinity)) - si(air::vapour_pressure(s.room));
}

double by_analogy(const EvaporatingSurface& s, double difference) {
  const Film film = water_surface_film(s.water, seawater::vapour_pressure(s.water, s.salinity), s.room, s.length,
                                       s.width, s.air_speed);
  const double mean = 0.5 * (si(s.water) + si(s.room.temperature));
  const auto t = from_si<Temperature>(mean);
  const double lewis =
      si(air::thermal_diffusivity(t, s.room.pressure)) / si(air::vapour_diffusivity(t, s.room.pressure));
  return kernel::evaporation_by_analogy(si(film.coefficient), air::kernel::dry_density(mean, si(s.room.pressure)),
                                        si(air::specific_heat_capacity(t)), lewis, difference, mean);
}

double by_shah(const EvaporatingSurface& s, double difference) {
  const double vapour = si(seawater::vapour_pressure(s.water, s.salinity));
  const air::MoistAir at_surface{
      .temperature = s.water,
      .humidity = RelativeHumidity(std::min(1.0, vapour / si(air::saturation_vapour_pressure(s.water)))),
      .pressure = s.room.pressure};
  return kernel::evaporation_shah(si(air::dry_air_density(at_surface)), si(air::dry_air_density(s.room)),
                                  air::humidity_ratio(at_surface), air::humidity_ratio(s.room), difference,
                                  si(s.air_speed));
}

double rate(EvaporationModel model, const EvaporatingSurface& s) {
  const double difference = pressure_difference(s);
  const double latent = si(seawater::latent_heat_of_vaporisation(s.water, s.salinity));
  switch (model) {
    case EvaporationModel::ashrae:
      return kernel::evaporation_ashrae(difference, si(s.air_speed), latent, s.activity);
    case EvaporationModel::smith_lof_jones:
      return kernel::evaporation_smith_lof_jones(difference, si(s.air_speed), latent);
    case EvaporationModel::shah:
      return by_shah(s, difference);
    case EvaporationModel::heat_mass_analogy:
      return by_analogy(s, difference);
  }
  throw InvalidInput("evaporation model", "unknown", "one of the four named");
}

std::string_view source(EvaporationModel model) {
  switch (model) {
    case EvaporationModel::ashrae:
      return "ASHRAE Handbook HVAC Applications, natatoriums (Carrier 1918), with activity";
    case EvaporationModel::smith_lof_jones:
      return "Smith, Loef & Jones 1998, undisturbed pool";
    case EvaporationModel::shah:
      return "Shah 2014, undisturbed water";
    case EvaporationModel::heat_mass_analogy:
      return "Chilton & Colburn 1934 on the film of natural and forced convection";
  }
  return "";
}

}  // namespace

std::string_view name(EvaporationModel model) {
  switch (model) {
    case EvaporationModel::ashrae:
      return "ASHRAE";
    case EvaporationModel::smith_lof_jones:
      return "Smith, Loef & Jones";
    case EvaporationModel::shah:
      return "Shah";
    case EvaporationModel::heat_mass_analogy:
      return "heat and mass analogy";
  }
  return "";
}

Pressure vapour_pressure_difference(const EvaporatingSurface& surface) {
  require_surface(surface);
  return from_si<Pressure>(pressure_difference(surface));
}

MassFlux evaporation_rate(EvaporationModel model, const EvaporatingSurface& surface) {
  require_surface(surface);
  return from_si<MassFlux>(rate(model, surface));
}

bool in_fitted_range(EvaporationModel model, const EvaporatingSurface& surface) {
  require_surface(surface);
  if (model == EvaporationModel::heat_mass_analogy) return true;
  if (pressure_difference(surface) < 0.0) return false;
  const double speed = si(surface.air_speed);
  switch (model) {
    case EvaporationModel::ashrae:
      return speed <= 0.15;
    case EvaporationModel::smith_lof_jones:
      return speed <= 1.3;
    case EvaporationModel::shah: {
      const double water = in_celsius(surface.water), room = in_celsius(surface.room.temperature);
      const double humidity = surface.room.humidity.ratio;
      return speed <= 0.15 && water >= 7.0 && room >= 6.0 && room <= 35.0 && humidity >= 0.28 && humidity <= 0.95;
    }
    case EvaporationModel::heat_mass_analogy:
      break;
  }
  return true;
}

double bowen_ratio(const EvaporatingSurface& surface) {
  require_surface(surface);
  const double difference = pressure_difference(surface);
  if (std::abs(difference) < 1e-6)
    throw OutOfValidity("Bowen ratio", "vapour pressures of water and room differ by " + text(difference, "Pa"));
  const Film film = water_surface_film(surface.water, seawater::vapour_pressure(surface.water, surface.salinity),
                                       surface.room, surface.length, surface.width, surface.air_speed);
  const double convection = si(film.coefficient) * (si(surface.water) - si(surface.room.temperature));
  return convection /
         (by_analogy(surface, difference) * si(seawater::latent_heat_of_vaporisation(surface.water, surface.salinity)));
}

EvaporationEstimate evaporation(const EvaporatingSurface& surface) {
  require_surface(surface);
  EvaporationEstimate estimate;
  double sum = 0.0, low = std::numeric_limits<double>::max(), high = std::numeric_limits<double>::lowest();
  int counted = 0;
  for (std::size_t i = 0; i < all_models.size(); ++i) {
    const double value = rate(all_models[i], surface);
    const bool in_range = in_fitted_range(all_models[i], surface);
    estimate.models[i] = {all_models[i], from_si<MassFlux>(value), in_range, source(all_models[i])};
    if (!in_range) continue;
    sum += value;
    low = std::min(low, value);
    high = std::max(high, value);
    ++counted;
  }
  const double central = sum / counted;  // the analogy is always among them
  const double margin = least_spread * std::abs(central);
  estimate.central = from_si<MassFlux>(central);
  estimate.low = from_si<MassFlux>(std::min(low, central - margin));
  estimate.high = from_si<MassFlux>(std::max(high, central + margin));
  const SpecificEnergy latent = seawater::latent_heat_of_vaporisation(surface.water, surface.salinity);
  estimate.latent = estimate.central * latent;
  estimate.latent_low = estimate.low * latent;
  estimate.latent_high = estimate.high * latent;
  return estimate;
}

}  // namespace theca::thermal
