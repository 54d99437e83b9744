#include "theca/structure/panel.hpp"

#include <algorithm>
#include <limits>

#include "theca/require.hpp"

namespace theca::structure {

std::string_view name(Side side) {
  switch (side) {
    case Side::bottom:
      return "bottom";
    case Side::left:
      return "left";
    case Side::right:
      return "right";
    case Side::top:
      return "top";
  }
  return "";
}

Pressure PressureLoad::at(const Length& y) const {
  return std::max(1.0 - si(y) / si(water_depth), 0.0) * at_bottom;  // y / infinity is 0
}

PressureLoad hydrostatic(const Length& water_depth, const Density& water, const Acceleration& gravity) {
  require::positive("water depth", water_depth);
  require::positive("water density", water);
  require::positive("gravity", gravity);
  return {from_si<Pressure>(si(water) * si(gravity) * si(water_depth)), water_depth};
}

PressureLoad uniform(const Pressure& pressure) {
  require::finite("pressure", pressure);
  return {pressure, from_si<Length>(std::numeric_limits<double>::infinity())};
}

}  // namespace theca::structure
