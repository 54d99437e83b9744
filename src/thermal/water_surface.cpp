#include "theca/thermal/water_surface.hpp"

#include <algorithm>

#include "theca/seawater.hpp"
#include "theca/thermal/radiation.hpp"

namespace theca::thermal {

namespace {
PowerRange range(const Power& central, const Power& one, const Power& other) {
  return {.central = central, .low = std::min(one, other), .high = std::max(one, other)};
}
}  // namespace

WaterSurfaceHeat water_surface_heat(const WaterSurface& surface) {
  const EvaporatingSurface& s = surface.free;
  WaterSurfaceHeat heat;
  heat.per_area = evaporation(s);
  const Area whole = s.length * s.width;
  const double covered = surface.lid ? surface.lid->covered_share : 0.0;
  require::within("covered share", covered, 0.0, 1.0);
  const Area open = (1.0 - covered) * whole;

  heat.evaporation = {.central = open * heat.per_area.latent,
                      .low = open * heat.per_area.latent_low,
                      .high = open * heat.per_area.latent_high};
  heat.evaporated = open * heat.per_area.central;
  heat.evaporated_low = open * heat.per_area.low;
  heat.evaporated_high = open * heat.per_area.high;

  const Film film = water_surface_film(s.water, seawater::vapour_pressure(s.water, s.salinity), s.room, s.length,
                                       s.width, s.air_speed);
  const TemperatureDifference difference = s.water - s.room.temperature;
  heat.convection =
      range(open * film.coefficient * difference, open * film.low * difference, open * film.high * difference);
  heat.radiation = open * radiative_flux(s.water, surface.surroundings, surface.emissivity);

  if (covered > 0.0) {
    const LidHeat lid = lid_heat(*surface.lid, {.water = s.water,
                                                .salinity = s.salinity,
                                                .room = s.room,
                                                .surroundings = surface.surroundings,
                                                .length = s.length,
                                                .width = s.width,
                                                .air_speed = s.air_speed,
                                                .water_emissivity = surface.emissivity});
    const Area under = covered * whole;
    heat.lid = range(under * lid.flux, under * lid.flux_low, under * lid.flux_high);
  }
  return heat;
}

}  // namespace theca::thermal
