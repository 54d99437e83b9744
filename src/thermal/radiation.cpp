#include "theca/thermal/radiation.hpp"

#include <cmath>

namespace theca::thermal {

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

Temperature mean_radiant_temperature(const std::vector<SeenSurface>& seen) {
  double views = 0.0, sum = 0.0;
  for (const SeenSurface& s : seen) {
    require::within("view factor", s.view, 0.0, 1.0);
    require::positive("temperature", s.temperature);
    const double square = si(s.temperature) * si(s.temperature);
    views += s.view;
    sum += s.view * square * square;
  }
  require::that(std::abs(views - 1.0) <= 1e-6, "sum of view factors", views, "1: a surface sees everything around it");
  return from_si<Temperature>(std::pow(sum / views, 0.25));
}

}  // namespace theca::thermal
