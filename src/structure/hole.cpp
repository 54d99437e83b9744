#include "theca/structure/hole.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "theca/require.hpp"

namespace theca::structure {

double hole_bending_factor(const Length& diameter, const Length& thickness) {
  require::positive("hole diameter", diameter);
  require::positive("thickness", thickness);
  const double r = si(diameter) / si(thickness);
  return 1.79 + 0.25 / (0.39 + r) + 0.81 / (1.0 + r * r) - 0.26 / (1.0 + r * r * r);
}

Pressure hole_edge_stress(const Pressure& s1, const Pressure& s2, const Length& diameter, const Length& thickness) {
  require::finite("principal stress", s1);
  require::finite("principal stress", s2);
  const double K = hole_bending_factor(diameter, thickness);
  const double one = K * si(s1) + (2.0 - K) * si(s2);
  const double two = K * si(s2) + (2.0 - K) * si(s1);
  return from_si<Pressure>(std::max({one, two, si(s1), si(s2)}));
}

double hole_near_edge_factor(const Length& diameter, const Length& centre_to_edge) {
  require::positive("hole diameter", diameter);
  require::positive("centre to edge", centre_to_edge);
  const double q = si(diameter) / (2.0 * si(centre_to_edge));
  require::valid("hole near an edge", "hole diameter / (2 x centre to edge)", q, 0.0, 0.5);
  return (1.0 - 1.04 * q + 1.22 * q * q) / (1.0 - q);
}

Pressure hole_edge_stress_near_edge(const Pressure& s1, const Pressure& s2, const Length& diameter,
                                    const Length& thickness, const Length& centre_to_edge) {
  return hole_near_edge_factor(diameter, centre_to_edge) * hole_edge_stress(s1, s2, diameter, thickness);
}

HoleClearance hole_clearance(const Panel& panel, const Hole& hole) {
  require::positive("hole diameter", hole.diameter);
  require::positive("panel width", panel.width);
  require::positive("panel height", panel.height);
  const double radius = si(hole.diameter) / 2.0;
  const double x = si(hole.x);
  const double y = si(hole.y);
  const double w = si(panel.width);
  const double h = si(panel.height);
  const std::array<double, 4> to{y, x, w - x, h - y};  // in the order of Side
  for (const double d : to) require::that(d > radius, "hole", hole.diameter, "wholly inside the panel");
  const auto nearest = std::min_element(to.begin(), to.end());
  const double corner = std::hypot(std::fmin(x, w - x), std::fmin(y, h - y));
  return {.to_edge = from_si<Length>(*nearest - radius),
          .to_corner = from_si<Length>(corner - radius),
          .nearest_side = static_cast<Side>(nearest - to.begin())};
}

HoleRule drilled_glass_rule() { return {}; }

Length hole_spacing(const Hole& a, const Hole& b) {
  require::positive("hole diameter", a.diameter);
  require::positive("hole diameter", b.diameter);
  for (const Length& place : {a.x, a.y, b.x, b.y}) require::finite("hole place", place);
  return from_si<Length>(std::hypot(si(a.x) - si(b.x), si(a.y) - si(b.y)) - (si(a.diameter) + si(b.diameter)) / 2.0);
}

Length hole_to_joint(const Panel& panel, const Hole& hole, const Length& bite) {
  require::not_negative("bite", bite);
  return hole_clearance(panel, hole).to_edge - bite;
}

}  // namespace theca::structure
