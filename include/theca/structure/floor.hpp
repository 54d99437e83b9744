// What a loaded stand puts on the floor: mean pressure under the footprint, force and pressure under a leg.
#pragma once

#include "theca/units.hpp"

namespace theca::structure {

/// Where a stand meets the floor.
struct Footprint {
  Length length, width;     ///< of the whole stand
  Area tributary_area;      ///< floor that carries it, at least length x width; zero: the footprint alone
  int legs = 4;             ///< legs that carry, >= 1
  Area leg_plate;           ///< area of the plate under a leg, > 0
  double unevenness = 1.0;  ///< force of the most loaded leg over the mean, >= 1 and <= number of legs; 1 shares evenly
};

struct FloorLoad {
  Pressure footprint_pressure;  ///< weight over the footprint
  Pressure tributary_pressure;  ///< weight over the tributary area
  Force leg_force;              ///< most loaded leg
  Pressure leg_pressure;        ///< under the plate of that leg
};

/// @throws InvalidInput  weight negative or not finite, dimensions not > 0 and finite, tributary area smaller than the
///                       footprint (and not zero), legs < 1, leg plates larger than the footprint, unevenness outside 1
///                       to the number of legs
/// @source statics
FloorLoad floor_load(const Force& weight, const Footprint& footprint);

}  // namespace theca::structure
