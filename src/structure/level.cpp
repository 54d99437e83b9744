#include "theca/structure/level.hpp"

#include <cmath>

#include "theca/require.hpp"

namespace theca::structure {

OutOfLevel out_of_level(const Length& length, const Length& depth, const Length& wall_height, const Angle& tilt) {
  require::positive("inside length", length);
  require::positive("water depth", depth);
  require::positive("wall height", wall_height);
  require::that(si(depth) <= si(wall_height), "water depth", depth, "at most the wall height");
  require::within("tilt", tilt, Angle(), 5.0 * units::degree);
  const double slope = std::tan(si(tilt));
  const Length mark = slope * length;
  require::valid("water over the whole base", "half of the waterline difference", 0.5 * mark, Length(), depth);
  OutOfLevel o{};
  o.rise = std::sin(si(tilt)) * length;
  o.waterline = mark;
  o.low_depth = depth + 0.5 * mark;
  o.high_depth = depth - 0.5 * mark;
  o.low_freeboard = wall_height - o.low_depth;
  // Pressure at the foot of the wall is over the vertical depth: the cosine of the tilt comes in once.
  o.wall_load_ratio = std::pow(si(o.low_depth) / si(depth), 2) * std::cos(si(tilt));
  return o;
}

Angle tilt_of(const Length& length, const Length& difference) {
  require::positive("length", length);
  require::within("difference", difference, Length(), length);
  return from_si<Angle>(std::asin(si(difference) / si(length)));
}

}  // namespace theca::structure
