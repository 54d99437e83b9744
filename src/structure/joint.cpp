#include "theca/structure/joint.hpp"

#include "theca/require.hpp"

namespace theca::structure {

LineLoad bottom_joint_line_load(const Length& water_depth, const Length& wall_height, const Density& water,
                                const Acceleration& gravity) {
  require::positive("water depth", water_depth);
  require::positive("wall height", wall_height);
  require::that(water_depth.value() <= wall_height.value(), "water depth", water_depth,
                "at most the wall height, " + text(wall_height));
  require::positive("water density", water);
  require::positive("gravity", gravity);
  return from_si<LineLoad>(kernel::bottom_joint_line_load(si(water_depth), si(wall_height), si(water), si(gravity)));
}

Pressure joint_stress(const LineLoad& line_load, const Length& bite) {
  require::not_negative("line load", line_load);
  require::positive("bite", bite);
  return from_si<Pressure>(si(line_load) / si(bite));
}

Length needed_bite(const LineLoad& line_load, const Pressure& allowable) {
  require::not_negative("line load", line_load);
  require::positive("allowable joint stress", allowable);
  return from_si<Length>(si(line_load) / si(allowable));
}

}  // namespace theca::structure
