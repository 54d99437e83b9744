#include "theca/hydraulics/pump_suction.hpp"

#include <string>

#include "monotone_cubic.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

Length npsh_available(const Suction& suction) {
  const Pressure surface = above_vacuum(suction.surface_pressure);
  require::positive("surface pressure", surface);
  require::not_negative("vapour pressure", suction.vapour_pressure);
  require::positive("density", suction.density);
  require::finite("level above impeller", suction.level_above_impeller);
  require::not_negative("loss", suction.loss);
  return from_si<Length>((si(surface) - si(suction.vapour_pressure)) /
                             (si(suction.density) * units::detail::standard_gravity) +
                         si(suction.level_above_impeller) - si(suction.loss));
}

Length npsh_required(const std::vector<NpshPoint>& points, const VolumeFlow& flow) {
  require::that(points.size() >= 2, "NPSH points", static_cast<double>(points.size()), "2 or more");
  std::vector<double> x, y;
  for (const NpshPoint& p : points) {
    const std::string at = " of NPSH point " + std::to_string(x.size() + 1);
    require::not_negative("flow" + at, p.flow);
    require::not_negative("NPSH" + at, p.npsh);
    if (!x.empty()) require::that(si(p.flow) > x.back(), "flow" + at, p.flow, "more than the point before");
    x.push_back(si(p.flow));
    y.push_back(si(p.npsh));
  }
  require::finite("flow", flow);
  require::valid("NPSH curve", "flow", flow, points.front().flow, points.back().flow);
  return from_si<Length>(detail::monotone_cubic(x, y, si(flow)));
}

Length npsh_margin(const Suction& suction, const std::vector<NpshPoint>& points, const VolumeFlow& flow) {
  return from_si<Length>(si(npsh_available(suction)) - si(npsh_required(points, flow)));
}

}  // namespace theca::hydraulics
