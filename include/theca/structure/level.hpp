// A tank out of level: the wedge of water at its low end, shims, what is left of the freeboard, load on the low wall.
#pragma once

#include "theca/units.hpp"

namespace theca::structure {

struct OutOfLevel {
  Length rise;             ///< difference in height of the two ends of the base: what a shim makes up
  Length waterline;        ///< difference of the water's mark on the two end walls
  Length low_depth;        ///< water at the low end wall
  Length high_depth;       ///< water at the high end wall
  Length low_freeboard;    ///< left at the low end, negative where it runs over
  double wall_load_ratio;  ///< force on the low wall over that of the level tank, (low depth / depth)^2 cos(tilt)
};

/// @param length  inside, along the tilt
/// @param tilt    0 to 5 degrees; depths are along the walls
/// @throws InvalidInput  dimensions not > 0, depth over the wall height, tilt outside its range
/// @throws OutOfValidity  the high end of the base runs dry
/// @source geometry; the volume of water is kept
OutOfLevel out_of_level(const Length& length, const Length& depth, const Length& wall_height, const Angle& tilt);

/// Tilt that a spirit level of `length` shows by a difference of height between its ends.
/// @throws InvalidInput  length not > 0, difference negative or over the length
Angle tilt_of(const Length& length, const Length& difference);

}  // namespace theca::structure
