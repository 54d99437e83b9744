// A host program: one call into every module, no knowledge of how theca is built.
#include <cstdio>

#include "theca/theca.hpp"

int main() {
  using namespace theca;
  const Density water = seawater::density(78_degF, absolute_salinity(35_psu));
  const structure::Panel wall{
      .width = 1.40_m, .height = 420_mm, .thickness = 11.91_mm, .material = materials::float_glass()};
  const structure::BentPanel bent = structure::bend(wall, structure::hydrostatic(390_mm, water));
  const Length head = hydraulics::weir_head({.crest_length = 10_in}, 600_gph);
  const double passed = light::surface_transmittance(30_deg, 1.0, 1.339);
  const Temperature dew = air::dew_point({.temperature = 70_degF, .humidity = 50_rh});
  const ThermalTransmittance u = thermal::transmittance({{12_mm, 1.0_W_mK}}, {100_W_m2K, 8.3_W_m2K});
  const double resting = farm::capacity_lost(14, 1);
  std::printf("theca %s: %.2f MPa, %.1f mm, %.3f, %.1f degC, %.2f W/m2/K, %.4f\n", version,
              in(bent.max_tension, units::megapascal), in(head, units::millimetre), passed, in_celsius(dew),
              in(u, units::watt_per_square_metre_kelvin), resting);
  try {
    structure::hydrostatic(-1_m, water);
  } catch (const InvalidInput& e) {
    return e.argument().empty() ? 1 : 0;
  }
  return 1;
}
