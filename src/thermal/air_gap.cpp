#include "theca/thermal/air_gap.hpp"

#include <cmath>

#include "theca/air.hpp"
#include "theca/require.hpp"
#include "theca/thermal/nusselt.hpp"
#include "theca/thermal/radiation.hpp"

namespace theca::thermal {

double nusselt_gap(double rayleigh, GapHeat heat) {
  require::not_negative("rayleigh", rayleigh);
  switch (heat) {
    case GapHeat::sideways:
      return kernel::nusselt_gap_vertical(rayleigh);
    case GapHeat::upwards:
      return kernel::nusselt_gap_heat_upwards(rayleigh);
    case GapHeat::downwards:
      break;
  }
  return 1.0;
}

ThermalTransmittance gap_conductance(const AirGap& gap, const Length& thickness, const Temperature& inner,
                                     const Temperature& outer, GapHeat heat, const AbsolutePressure& pressure) {
  require::positive("gap thickness", thickness);
  require::within("inner emissivity", gap.inner_emissivity, 0.0, 1.0);
  require::within("outer emissivity", gap.outer_emissivity, 0.0, 1.0);
  require::within("inner face temperature", inner, air::lowest_temperature, air::highest_temperature);
  require::within("outer face temperature", outer, air::lowest_temperature, air::highest_temperature);
  const auto mean = from_si<Temperature>(0.5 * (si(inner) + si(outer)));
  const double viscosity = si(air::kinematic_viscosity(mean, pressure));
  const double size = si(thickness);
  const double rayleigh = si(standard_gravity) * std::abs(si(inner) - si(outer)) / si(mean) * size * size * size /
                          (viscosity * viscosity) * air::prandtl(mean);
  const double convection = nusselt_gap(rayleigh, heat) * si(air::thermal_conductivity(mean)) / size;
  const double radiation = kernel::radiative_film(
      si(inner), si(outer), kernel::exchange_emissivity(gap.inner_emissivity, gap.outer_emissivity));
  return from_si<ThermalTransmittance>(convection + radiation);
}

}  // namespace theca::thermal
