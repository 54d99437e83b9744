#include "theca/hydraulics/friction.hpp"

namespace theca::hydraulics {

Length hydraulic_diameter(const Area& flow_area, const Length& wetted_perimeter) {
  require::positive("flow area", flow_area);
  require::positive("wetted perimeter", wetted_perimeter);
  const double pi = 3.14159265358979323846;
  // The circle has the least perimeter of all shapes of an area; the margin is for rounding in the caller's numbers.
  require::that(
      si(wetted_perimeter) >= (1.0 - 1e-9) * 2.0 * std::sqrt(pi * si(flow_area)), "wetted perimeter", wetted_perimeter,
      "at least the circumference of a circle of the flow area, " + text(2.0 * std::sqrt(pi * si(flow_area)), "m"));
  return from_si<Length>(4.0 * si(flow_area) / si(wetted_perimeter));
}

}  // namespace theca::hydraulics
