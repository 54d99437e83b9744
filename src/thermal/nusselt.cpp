#include "theca/thermal/nusselt.hpp"

#include "theca/require.hpp"

namespace theca::thermal {

double nusselt_vertical_plate(double rayleigh, double prandtl) {
  require::not_negative("rayleigh", rayleigh);
  require::positive("prandtl", prandtl);
  require::valid("natural convection at a vertical plate, Churchill & Chu 1975", "Rayleigh number", rayleigh, 0.0,
                 1e12);
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

}  // namespace theca::thermal
