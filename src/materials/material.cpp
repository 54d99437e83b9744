// Refuses a material that no solid can be.
#include "theca/materials/material.hpp"

#include "theca/require.hpp"

namespace theca::materials {

void require_possible(const Material& material) {
  require::positive("Young's modulus", material.youngs_modulus);
  require::within("Poisson's ratio", material.poisson_ratio, 0.0, 0.5);
  require::positive("density", material.density);
  require::positive("thermal conductivity", material.thermal_conductivity);
  require::positive("specific heat capacity", material.specific_heat_capacity);
  require::not_negative("thermal expansion", material.thermal_expansion);
  require::that(material.refractive_index >= 1.0 && std::isfinite(material.refractive_index), "refractive index",
                material.refractive_index, ">= 1 and finite");
  require::within("emissivity", material.emissivity, 0.0, 1.0);
}

}  // namespace theca::materials
