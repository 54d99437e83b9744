#include "theca/hydraulics/standpipe.hpp"

#include <algorithm>

#include "theca/require.hpp"

namespace theca::hydraulics {

VolumeFlow stack_capacity(const Length& bore, double water_fraction) {
  require::positive("bore", bore);
  require::finite("water fraction", water_fraction);
  constexpr const char* correlation = "stack capacity (Wyly & Eaton 1961)";
  // The margins let a third, and a bore given in rounded millimetres, through.
  require::valid(correlation, "bore", bore, 0.99 * units::inch, 12.1 * units::inch);
  require::valid(correlation, "water fraction", water_fraction, 0.25, 1.0 / 3.0 + 1e-9);
  return from_si<VolumeFlow>(kernel::stack_capacity(si(bore), water_fraction));
}

RimFlow standpipe_rim_flow(const Length& bore, const Length& head_over_rim) {
  require::positive("bore", bore);
  require::not_negative("head over rim", head_over_rim);
  const double weir = kernel::rim_weir_flow(si(bore), si(head_over_rim));
  const double orifice = kernel::rim_orifice_flow(si(bore), si(head_over_rim));
  return {from_si<VolumeFlow>(std::min(weir, orifice)), weir <= orifice ? RimControl::weir : RimControl::orifice};
}

Length standpipe_rim_head(const Length& bore, const VolumeFlow& flow) {
  require::positive("bore", bore);
  require::not_negative("flow", flow);
  // Each law is a power of the head, so that its flow at a head of 1 m inverts it; the larger head governs.
  const double as_weir = si(flow) / kernel::rim_weir_flow(si(bore), 1.0);
  const double as_orifice = si(flow) / kernel::rim_orifice_flow(si(bore), 1.0);
  return from_si<Length>(std::max(std::cbrt(as_weir * as_weir), as_orifice * as_orifice));
}

}  // namespace theca::hydraulics
