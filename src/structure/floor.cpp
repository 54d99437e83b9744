#include "theca/structure/floor.hpp"

#include <string>

#include "theca/require.hpp"

namespace theca::structure {

FloorLoad floor_load(const Force& weight, const Footprint& footprint) {
  require::not_negative("weight", weight);
  require::positive("footprint length", footprint.length);
  require::positive("footprint width", footprint.width);
  const Area area = footprint.length * footprint.width;
  require::not_negative("tributary area", footprint.tributary_area);
  const bool alone = footprint.tributary_area.value() == 0.0;
  // A tributary area typed in square feet may miss the product of the sides by rounding.
  require::that(alone || si(footprint.tributary_area) >= (1.0 - 1e-9) * si(area), "tributary area",
                footprint.tributary_area, "zero, or at least the footprint, " + text(area));
  require::that(footprint.legs >= 1, "legs", footprint.legs, ">= 1");
  require::positive("leg plate area", footprint.leg_plate);
  require::that(footprint.legs * si(footprint.leg_plate) <= (1.0 + 1e-9) * si(area), "leg plate area",
                footprint.leg_plate, "plates of all legs within the footprint, " + text(area));
  require::within("unevenness", footprint.unevenness, 1.0, static_cast<double>(footprint.legs));
  FloorLoad load;
  load.footprint_pressure = from_si<Pressure>(si(weight) / si(area));
  load.tributary_pressure =
      alone ? load.footprint_pressure : from_si<Pressure>(si(weight) / si(footprint.tributary_area));
  load.leg_force = footprint.unevenness / footprint.legs * weight;
  load.leg_pressure = from_si<Pressure>(si(load.leg_force) / si(footprint.leg_plate));
  return load;
}

}  // namespace theca::structure
