#include "theca/hydraulics/pump_suction.hpp"

#include <string>

#include "monotone_cubic.hpp"
#include "rising_flows.hpp"
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
  detail::require_rising_flows(points, "NPSH");
  for (std::size_t i = 0; i < points.size(); ++i)
    require::not_negative("NPSH of point " + std::to_string(i + 1), points[i].npsh);
  require::finite("flow", flow);
  require::valid("NPSH curve", "flow", flow, points.front().flow, points.back().flow);
  const detail::MonotoneCubic curve(
      points.size(), [&points](std::size_t i) { return si(points[i].flow); },
      [&points](std::size_t i) { return si(points[i].npsh); });
  return from_si<Length>(curve(si(flow)).value);
}

Length npsh_margin(const Suction& suction, const std::vector<NpshPoint>& points, const VolumeFlow& flow) {
  return from_si<Length>(si(npsh_available(suction)) - si(npsh_required(points, flow)));
}

}  // namespace theca::hydraulics
