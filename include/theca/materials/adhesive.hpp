// Silicone joints of glass tanks: properties and allowable stresses of the adhesive.
#pragma once

#include "theca/materials/material.hpp"

namespace theca::materials {

/// Structural silicone rubber, as cured. Nearly incompressible: its stiffness in a thin joint is far above its modulus.
Material silicone_adhesive();

/// Allowable tension or shear of a structural silicone joint under a load that stays.
DesignStrength silicone_permanent_strength();

/// Allowable tension or shear of a structural silicone joint under a load of seconds to minutes.
DesignStrength silicone_short_term_strength();

}  // namespace theca::materials
