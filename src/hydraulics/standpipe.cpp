#include "theca/hydraulics/standpipe.hpp"

#include <algorithm>
#include <cmath>

#include "theca/hydraulics/draining_time.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
constexpr double self_venting_froude = 0.3;

void validate(const Standpipe& standpipe) {
  validate(standpipe.pipe);
  require::positive("fall", standpipe.fall);
  require::that(standpipe.fall <= standpipe.pipe.length, "fall", standpipe.fall,
                "at most the length of the pipe, " + text(standpipe.pipe.length));
}
}  // namespace

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

VolumeFlow self_venting_flow(const Length& bore) {
  const double area = si(bore_area(bore));
  return from_si<VolumeFlow>(self_venting_froude * area * std::sqrt(units::detail::standard_gravity * si(bore)));
}

VolumeFlow siphon_flow(const Standpipe& standpipe, const Length& head_over_rim, const KinematicViscosity& viscosity) {
  validate(standpipe);
  require::not_negative("head over rim", head_over_rim);
  return gravity_flow(standpipe.pipe, standpipe.fall + head_over_rim, viscosity);
}

VolumeFlow siphon_start_flow(const Standpipe& standpipe, const KinematicViscosity& viscosity) {
  return siphon_flow(standpipe, from_si<Length>(kernel::drowned_rim_head(si(standpipe.pipe.bore))), viscosity);
}

StandpipeState standpipe_state(const Standpipe& standpipe, const VolumeFlow& flow,
                               const KinematicViscosity& viscosity) {
  const VolumeFlow siphon_starts = siphon_start_flow(standpipe, viscosity);
  const Length& bore = standpipe.pipe.bore;
  const VolumeFlow ring = stack_capacity(bore);
  StandpipeState state;
  const Length at_rim = standpipe_rim_head(bore, flow);
  const double area = si(bore_area(bore)), velocity_m_s = si(flow) / area, g = units::detail::standard_gravity;
  state.froude = velocity_m_s / std::sqrt(g * si(bore));
  const Length full = head_loss(standpipe.pipe, flow, viscosity) +
                      from_si<Length>(velocity_m_s * velocity_m_s / (2.0 * g)) - standpipe.fall;
  state.head = std::max(at_rim, full);
  state.lowest_head = state.head;
  if (flow > siphon_starts) {
    state.regime = StandpipeRegime::siphon;
    state.uncertainty = full >= at_rim ? 0.10 : 0.40;  // a rim's head only bounds a pipe that runs full below it
    state.lowest_head = full;
  } else if (flow > ring) {
    state.regime = StandpipeRegime::gulping;
    state.uncertainty = 0.40;
    state.lowest_head = std::min(state.head, std::max(full, Length()));
  } else {
    state.regime = flow > self_venting_flow(bore) ? StandpipeRegime::annular : StandpipeRegime::weir;
    state.uncertainty = 0.20;
  }
  return state;
}

VolumeFlow standpipe_flow(const Standpipe& standpipe, const Length& highest_head, StandpipeRegime allowed,
                          const KinematicViscosity& viscosity) {
  const Length& bore = standpipe.pipe.bore;
  const VolumeFlow flow =
      std::min(siphon_flow(standpipe, highest_head, viscosity), standpipe_rim_flow(bore, highest_head).flow);
  const VolumeFlow ring = stack_capacity(bore);
  switch (allowed) {
    case StandpipeRegime::weir:
      return std::min({flow, ring, self_venting_flow(bore), siphon_start_flow(standpipe, viscosity)});
    case StandpipeRegime::annular:
      return std::min({flow, ring, siphon_start_flow(standpipe, viscosity)});
    case StandpipeRegime::gulping:
      return std::min(flow, siphon_start_flow(standpipe, viscosity));
    case StandpipeRegime::siphon:
      break;
  }
  return flow;
}

}  // namespace theca::hydraulics
