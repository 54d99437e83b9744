// Structural silicone: properties and allowable stresses.
#include "theca/materials/adhesive.hpp"

namespace theca::materials {

using namespace theca::literals;

Material silicone_adhesive() {
  return {.name = "structural silicone",
          .youngs_modulus = 1.4_MPa,
          .poisson_ratio = 0.49,
          .density = 1200_kg_m3,
          .thermal_conductivity = 0.35_W_mK,
          .specific_heat_capacity = 1000.0 * units::joule_per_kilogram_kelvin,
          .thermal_expansion = 2.5e-4 * units::per_kelvin,
          .refractive_index = 1.41,
          .emissivity = 0.90,
          .source =
              "density, conductivity, heat capacity EN ISO 10456 (pure silicone), from memory; modulus (1 to 2.5 "
              "MPa between products), expansion, refractive index and emissivity from memory"};
}

DesignStrength silicone_permanent_strength() {
  return {.value = 0.014_MPa,
          .basis =
              "structural silicone joint, tension or shear that stays; the product's own value rules where it is "
              "known",
          .source = "ASTM C1401, ETAG 002 (from memory)"};
}

DesignStrength silicone_short_term_strength() {
  return {.value = 0.14_MPa,
          .basis =
              "structural silicone joint, tension or shear for seconds to minutes; the product's own value rules "
              "where it is known",
          .source = "ASTM C1401 (20 psi), ETAG 002 (from memory)"};
}

}  // namespace theca::materials
