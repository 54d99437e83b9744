// Cast acrylic: properties and the stress it bears for years.
#include "theca/materials/acrylic.hpp"

namespace theca::materials {

using namespace theca::literals;

Material acrylic() {
  return {.name = "cast acrylic",
          .youngs_modulus = 3.3_GPa,
          .poisson_ratio = 0.37,
          .density = 1190_kg_m3,
          .thermal_conductivity = 0.19_W_mK,
          .specific_heat_capacity = 1470.0 * units::joule_per_kilogram_kelvin,
          .thermal_expansion = 7e-5 * units::per_kelvin,
          .refractive_index = 1.49,
          .emissivity = 0.90,
          .source =
              "published data sheets of cast PMMA sheet (tests after ISO 527, ASTM D792, C177, D696, D542); "
              "emissivity from memory"};
}

Pressure acrylic_creep_modulus() { return 1.5_GPa; }

DesignStrength acrylic_long_term_strength() {
  return {.value = 5_MPa,
          .basis =
              "cast PMMA under a load that stays, in water at room temperature, parent sheet away from bonded "
              "joints: half of the 10.3 MPa (1500 psi) that sheet makers give as the limit against crazing for "
              "cast sheet in air; joints bear less",
          .source = "common practice, no source"};
}

}  // namespace theca::materials
