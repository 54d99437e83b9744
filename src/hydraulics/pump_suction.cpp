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
  for (std::size_t i = 0; i < points.size(); ++i) {
    const std::string at = " of NPSH point " + std::to_string(i + 1);
    require::not_negative("flow" + at, points[i].flow);
    require::not_negative("NPSH" + at, points[i].npsh);
    if (i > 0)
      require::that(points[i].flow > points[i - 1].flow, "flow" + at, points[i].flow, "more than the point before");
  }
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
