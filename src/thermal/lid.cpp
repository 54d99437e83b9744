#include "theca/thermal/lid.hpp"

#include <algorithm>
#include <cmath>

#include "series.hpp"
#include "theca/seawater.hpp"
#include "theca/thermal/evaporation.hpp"
#include "theca/thermal/nusselt.hpp"
#include "theca/thermal/radiation.hpp"

namespace theca::thermal {

namespace {

// Fluxes across the gap, W/m2, and condensation, kg/m2/s.
struct Gap {
  double convection = 0.0, radiation = 0.0, condensing = 0.0;
};

void require_lid(const Lid& lid, const LidExposure& e) {
  require::within("covered share", lid.covered_share, 0.0, 1.0);
  require::positive("gap", lid.gap);
  require::within("underside emissivity", lid.underside_emissivity, 0.0, 1.0);
  require::within("top emissivity", lid.top_emissivity, 0.0, 1.0);
  require::that(!lid.layers.empty(), "layers", 0.0, "at least one layer");
  for (const Layer& layer : lid.layers) {
    require::positive("layer thickness", layer.thickness);
    require::that(!layer.gap.has_value(), "layer", layer.thickness, "a solid; the gap of a lid is the one under it");
    require::positive("layer conductivity", layer.conductivity);
  }
  require::within("water temperature", e.water, seawater::lowest_temperature, seawater::highest_temperature);
  require::within("salinity", e.salinity, seawater::lowest_salinity, seawater::highest_salinity);
  require::within("room temperature", e.room.temperature, air::lowest_temperature, air::highest_temperature);
  require::within("surroundings temperature", e.surroundings, air::lowest_temperature, air::highest_temperature);
  require::within("water emissivity", e.water_emissivity, 0.0, 1.0);
}

double moist_density(double temperature_K, double vapour_Pa, double pressure_Pa) {
  return ((pressure_Pa - vapour_Pa) / si(air::gas_constant_dry_air) + vapour_Pa / si(air::gas_constant_water_vapour)) /
         temperature_K;
}

Gap across(const Lid& lid, const LidExposure& e, double underside, bool moist) {
  const double water = si(e.water), pressure = si(e.room.pressure), size = si(lid.gap);
  const double mean = 0.5 * (water + underside);
  const auto t = from_si<Temperature>(mean);
  const double at_water = moist ? si(seawater::vapour_pressure(e.water, e.salinity)) : 0.0;
  const double held = air::kernel::saturation_vapour_pressure(underside);
  const double at_lid = std::min(at_water, held);

  const double below = moist_density(water, at_water, pressure), above = moist_density(underside, at_lid, pressure);
  const double viscosity = si(air::kinematic_viscosity(t, e.room.pressure));
  const double rayleigh = si(standard_gravity) * (above - below) / (0.5 * (above + below)) * size * size * size /
                          (viscosity * viscosity) * air::prandtl(t);
  require::valid("air gap heated from below, Hollands et al. 1976", "Rayleigh number", std::max(rayleigh, 0.0), 0.0,
                 1e8);
  const double film = kernel::nusselt_gap_from_below(rayleigh) * si(air::thermal_conductivity(t)) / size;
  const double lewis =
      si(air::thermal_diffusivity(t, e.room.pressure)) / si(air::vapour_diffusivity(t, e.room.pressure));
  Gap gap;
  gap.convection = film * (water - underside);
  gap.radiation = kernel::radiative_flux(water, underside,
                                         kernel::exchange_emissivity(e.water_emissivity, lid.underside_emissivity));
  gap.condensing = kernel::evaporation_by_analogy(film, air::kernel::dry_density(mean, pressure),
                                                  si(air::specific_heat_capacity(t)), lewis, at_water - at_lid, mean);
  return gap;
}

double top_flux(const Lid& lid, const LidExposure& e, double top) {
  const Film film = horizontal_film(from_si<Temperature>(top), e.room.temperature, e.room.pressure, Facing::up,
                                    e.length, e.width, e.air_speed);
  return si(film.coefficient) * (top - si(e.room.temperature)) +
         kernel::radiative_flux(top, si(e.surroundings), lid.top_emissivity);
}

detail::SeriesHeat solved(const Lid& lid, const LidExposure& e, bool moist) {
  const double water = si(e.water), room = si(e.room.temperature), around = si(e.surroundings);
  const double latent = si(seawater::latent_heat_of_vaporisation(e.water, e.salinity));
  const double resistance = si(layer_resistance(lid.layers));
  const std::vector<detail::Link> links = {[&](double /*water*/, double underside) {
                                             const Gap gap = across(lid, e, underside, moist);
                                             return gap.convection + gap.radiation + latent * gap.condensing;
                                           },
                                           [&](double underside, double top) { return (underside - top) / resistance; },
                                           [&](double top, double /*room*/) { return top_flux(lid, e, top); }};
  return detail::solve_series("surface temperatures of a lid", links, water, room, std::min({water, room, around}),
                              std::max({water, room, around}));
}

}  // namespace

LidHeat lid_heat(const Lid& lid, const LidExposure& exposure) {
  require_lid(lid, exposure);
  const detail::SeriesHeat moist = solved(lid, exposure, true);
  const double underside = moist.surfaces[0], top = moist.surfaces[1];
  const Gap gap = across(lid, exposure, underside, true);
  const double latent = si(seawater::latent_heat_of_vaporisation(exposure.water, exposure.salinity)) * gap.condensing;

  // Low and high by the resistances in series at the temperatures found.
  constexpr double open = 0.25;
  const Film film = horizontal_film(from_si<Temperature>(top), exposure.room.temperature, exposure.room.pressure,
                                    Facing::up, exposure.length, exposure.width, exposure.air_speed);
  const double drop = si(exposure.water) - underside;
  const double radiative = kernel::radiative_film(
      si(exposure.water), underside, kernel::exchange_emissivity(exposure.water_emissivity, lid.underside_emissivity));
  const double exchanged = drop != 0.0 ? (gap.convection + latent) / drop : 0.0;
  const double above = kernel::radiative_film(top, si(exposure.surroundings), lid.top_emissivity);
  const double resistance = si(layer_resistance(lid.layers));
  const auto transmitted = [&](double factor, const ThermalTransmittance& h) {
    return kernel::transmittance(radiative + factor * exchanged, resistance, si(h) + above);
  };
  const double central = transmitted(1.0, film.coefficient);
  const double one = moist.flux * transmitted(1.0 - open, film.low) / central;
  const double other = moist.flux * transmitted(1.0 + open, film.high) / central;

  LidHeat heat;
  heat.flux = from_si<HeatFlux>(moist.flux);
  heat.flux_low = from_si<HeatFlux>(std::min(one, other));
  heat.flux_high = from_si<HeatFlux>(std::max(one, other));
  heat.convection = from_si<HeatFlux>(gap.convection);
  heat.radiation = from_si<HeatFlux>(gap.radiation);
  heat.latent = from_si<HeatFlux>(latent);
  heat.dripping = from_si<MassFlux>(gap.condensing);
  heat.dry_gap = from_si<HeatFlux>(solved(lid, exposure, false).flux);
  heat.underside = from_si<Temperature>(underside);
  heat.top = from_si<Temperature>(top);
  heat.iterations = moist.iterations;
  heat.residual = from_si<HeatFlux>(moist.residual);
  return heat;
}

}  // namespace theca::thermal
