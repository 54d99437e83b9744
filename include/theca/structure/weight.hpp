// Volumes and weights of a glued rectangular tank.
#pragma once

#include "theca/materials/material.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// A rectangular tank whose walls stand on its base; all dimensions outside.
struct TankShell {
  Length outside_length;
  Length outside_width;
  Length outside_height;  ///< base included
  Length wall_thickness;
  Length base_thickness;
  Length water_depth;  ///< running level over the inside base
  materials::Material material;
};

/// @throws InvalidInput (every function here)  a dimension not > 0 and finite, walls or base that leave no inside,
///                                             water over the wall top
Length inside_length(const TankShell& tank);
Length inside_width(const TankShell& tank);
/// Height of the walls over the base: also the largest depth of water.
Length wall_height(const TankShell& tank);
Area inside_area(const TankShell& tank);
/// Volume of water at a depth over the inside base, 0 to the wall height.
Volume volume_at(const TankShell& tank, const Length& depth);
/// Volume at the running level.
Volume water_volume(const TankShell& tank);
/// Volume of the sheet: base and four walls, without braces.
Volume shell_volume(const TankShell& tank);

struct TankWeight {
  Mass shell, water, stand, load;
  Mass total;
  Force weight;  ///< total x gravity
};

/// Weighs a tank with water to `depth`. For the fullest state (drain blocked) the depth is the wall height.
///
/// @param stand  mass of the stand, >= 0
/// @param load   mass of what else it carries: braces, racks, stock, lids, >= 0. What stands under water is taken with
///               its full mass, beside the full volume of water: on the heavy side.
TankWeight weigh(const TankShell& tank, const Length& depth, const Density& water, const Mass& stand, const Mass& load,
                 const Acceleration& gravity = standard_gravity);
/// At the running level.
TankWeight weigh(const TankShell& tank, const Density& water, const Mass& stand, const Mass& load,
                 const Acceleration& gravity = standard_gravity);

}  // namespace theca::structure
