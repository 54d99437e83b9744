// Prints every seawater property over the whole accepted range as CSV (SI units, t in degC, s in g/kg), for comparison
// with a seawater property library: see seawater_gsw_test.py.
#include <cstdio>

#include "theca/seawater.hpp"

int main() {
  using namespace theca;
  namespace sw = theca::seawater;
  std::puts(
      "t,s,density,specific_heat_capacity,dynamic_viscosity,kinematic_viscosity,thermal_conductivity,vapour_pressure,"
      "latent_heat,surface_tension,refractive_index_550nm");
  for (int t = 0; t <= 40; ++t) {
    for (int s = 0; s <= 42; ++s) {
      const Temperature temperature = celsius(t);
      const AbsoluteSalinity salinity(s);
      std::printf("%d,%d,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,", t, s, si(sw::density(temperature, salinity)),
                  si(sw::specific_heat_capacity(temperature, salinity)),
                  si(sw::dynamic_viscosity(temperature, salinity)), si(sw::kinematic_viscosity(temperature, salinity)),
                  si(sw::thermal_conductivity(temperature, salinity)), si(sw::vapour_pressure(temperature, salinity)),
                  si(sw::latent_heat_of_vaporisation(temperature, salinity)));
      // The last two are offered on a narrower range; an empty field is outside it.
      if (t >= 1) std::printf("%.17g", si(sw::surface_tension(temperature, salinity)));
      std::putchar(',');
      if (t <= 30 && s <= 40)
        std::printf("%.17g", sw::refractive_index(550.0 * units::nanometre, temperature, salinity));
      std::putchar('\n');
    }
  }
}
