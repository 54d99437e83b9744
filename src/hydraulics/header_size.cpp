#include "theca/hydraulics/header_size.hpp"

#include <string>
#include <utility>

#include "theca/error.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

HeaderSize header_size(Manifold manifold, const PumpCurve& pump, const std::vector<Length>& bores, double tolerance,
                       const KinematicViscosity& viscosity) {
  require::that(!bores.empty(), "number of bores", 0.0, "1 or more");
  require::positive("bore", bores.front());
  for (std::size_t i = 1; i < bores.size(); ++i)
    require::that(bores[i] > bores[i - 1], "bore", bores[i], "more than the one before it, " + text(bores[i - 1]));
  require::positive("tolerance", tolerance);
  require::within("tolerance", tolerance, 0.0, 1.0);
  HeaderSize result;
  std::string refusal;
  for (const Length& bore : bores) {
    for (Header& header : manifold.headers) header.to_first_branch.bore = header.segment.bore = bore;
    result.tried.push_back({bore, std::nullopt});
    try {
      result.flow = solve(manifold, pump, viscosity);
    } catch (const OutOfValidity& e) {
      refusal = e.limit();
      continue;
    }
    const double imbalance = result.flow.largest_imbalance;
    result.tried.back().imbalance = imbalance;
    if (imbalance <= tolerance) {
      result.bore = bore;
      return result;
    }
    refusal = "a branch differs by " + number(100.0 * imbalance) + " % from the mean, more than " +
              number(100.0 * tolerance) + " %";
  }
  throw OutOfValidity("header size", "even at the largest bore, " + text(bores.back()) + ": " + refusal);
}

}  // namespace theca::hydraulics
