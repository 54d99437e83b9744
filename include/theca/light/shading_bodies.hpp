// What stands or hangs in the way of the light: colonies on the rack, pipes, an upper tier. All opaque.
#pragma once

#include <vector>

#include "theca/units.hpp"

namespace theca::light {

/// A plate or plug, thin and level.
struct ShadingDisc {
  Length x;  ///< of its centre
  Length y;
  Length depth;   ///< below the surface, >= 0
  Length radius;  ///< > 0
};

/// A branching or columnar colony in outline; upright.
struct ShadingCylinder {
  Length x;  ///< of its axis
  Length y;
  Length base_depth;  ///< below the surface
  Length height;      ///< > 0, at most base_depth
  Length radius;      ///< > 0
};

/// A massive colony: half a sphere on its flat base.
struct ShadingHemisphere {
  Length x;  ///< of its centre
  Length y;
  Length base_depth;  ///< below the surface
  Length radius;      ///< > 0, at most base_depth
};

/// A straight pipe or rod between two places, above or below the water.
struct ShadingPipe {
  Length from_x;
  Length from_y;
  Length from_height;  ///< of its axis over the surface; negative below
  Length to_x;
  Length to_y;
  Length to_height;
  Length radius;  ///< outside, > 0
};

/// A level rectangle, sides along and across the tank: an upper tier, a shelf, a solid lid.
struct ShadingPlate {
  Length x;  ///< of its corner next to the origin
  Length y;
  Length length;  ///< along x, > 0
  Length width;   ///< along y, > 0
  Length height;  ///< over the surface; negative below
};

struct ShadingBodies {
  std::vector<ShadingDisc> discs{};
  std::vector<ShadingCylinder> cylinders{};
  std::vector<ShadingHemisphere> hemispheres{};
  std::vector<ShadingPipe> pipes{};
  std::vector<ShadingPlate> plates{};
};

/// @throws InvalidInput  a body (by kind and place in its list) not finite, without extent, or out of the water
void require_valid(const ShadingBodies& bodies);

/// Equal colonies on a square pitch around one, which is left out: those within `rings` of it and inside the outline.
/// @param pitch   > 2 radii
/// @param rings   0 to 50; 1 gives at most 8 neighbours, 2 at most 24
/// @param length, width  of the rack, from the origin
/// @throws InvalidInput
std::vector<ShadingCylinder> neighbours(const ShadingCylinder& colony, const Length& pitch, int rings,
                                        const Length& length, const Length& width);
std::vector<ShadingHemisphere> neighbours(const ShadingHemisphere& colony, const Length& pitch, int rings,
                                          const Length& length, const Length& width);
std::vector<ShadingDisc> neighbours(const ShadingDisc& colony, const Length& pitch, int rings, const Length& length,
                                    const Length& width);

}  // namespace theca::light
