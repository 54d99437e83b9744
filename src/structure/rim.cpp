#include "theca/structure/rim.hpp"

#include "theca/require.hpp"

namespace theca::structure {

LineLoad held_top_line_load(const Length& water_depth, const Length& wall_height, const Density& water,
                            const Acceleration& gravity) {
  require::positive("water depth", water_depth);
  require::positive("wall height", wall_height);
  require::that(water_depth.value() <= wall_height.value(), "water depth", water_depth,
                "at most the wall height, " + text(wall_height));
  require::positive("water density", water);
  require::positive("gravity", gravity);
  return from_si<LineLoad>(kernel::held_top_line_load(si(water_depth), si(wall_height), si(water), si(gravity)));
}

}  // namespace theca::structure
