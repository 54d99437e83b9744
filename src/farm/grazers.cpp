#include "theca/farm/grazers.hpp"

#include "theca/require.hpp"

namespace theca::farm {

Grazing grazing(const Area& lit_surface, const MassFlux& production, int grazers, const MassFlow& each) {
  require::not_negative("lit surface", lit_surface);
  require::not_negative("algal production", production);
  require::that(grazers >= 0, "grazers", grazers, ">= 0");
  require::positive("consumption of each grazer", each);
  const MassFlow grown = lit_surface * production;
  return {grown, static_cast<double>(grazers) * each, grown / each};
}

}  // namespace theca::farm
