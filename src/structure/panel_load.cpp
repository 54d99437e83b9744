#include "theca/structure/panel_load.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "theca/require.hpp"

namespace theca::structure {

Length equivalent_contact_radius(const Length& contact_radius, const Length& thickness) {
  require::not_negative("contact radius", contact_radius);
  require::positive("panel thickness", thickness);
  const double r = si(contact_radius);
  const double t = si(thickness);
  return r < 0.5 * t ? from_si<Length>(std::sqrt(1.6 * r * r + t * t) - 0.675 * t) : contact_radius;
}

PatchLoad contact_patch(const PointLoad& point, const Panel& panel) {
  require::within("point load x", point.x, Length(), panel.width);
  require::within("point load y", point.y, Length(), panel.height);
  require::finite("point load force", point.force);
  const Length side = std::numbers::sqrt2 * std::exp(1.0 - 0.25 * std::numbers::pi) *
                      equivalent_contact_radius(point.contact_radius, panel.thickness);
  return {.x = point.x,
          .y = point.y,
          .width = std::min({side, 2.0 * point.x, 2.0 * (panel.width - point.x)}),
          .height = std::min({side, 2.0 * point.y, 2.0 * (panel.height - point.y)}),
          .force = point.force};
}

}  // namespace theca::structure
