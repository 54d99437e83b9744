// Rigid PVC.
#include "theca/materials/pipe.hpp"

namespace theca::materials {

using namespace theca::literals;

Material pvc() {
  return {.name = "rigid PVC",
          .youngs_modulus = 2.76_GPa,
          .poisson_ratio = 0.38,
          .density = 1390_kg_m3,
          .thermal_conductivity = 0.17_W_mK,
          .specific_heat_capacity = 900.0 * units::joule_per_kilogram_kelvin,
          .thermal_expansion = 5.4e-5 * units::per_kelvin,
          .refractive_index = 1.54,
          .emissivity = 0.91,
          .source =
              "density, conductivity, heat capacity EN ISO 10456; modulus 400,000 psi of ASTM D1784 cell class "
              "12454 and the other values from memory"};
}

Length pvc_roughness() { return 0.0015_mm; }

}  // namespace theca::materials
