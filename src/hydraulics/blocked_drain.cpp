#include "theca/hydraulics/blocked_drain.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "level_time.hpp"
#include "theca/hydraulics/standpipe.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
void validate(const BlockedTank& tank) {
  require::positive("inflow", tank.inflow);
  require::positive("surface", tank.surface);
  require::not_negative("running level", tank.running_level);
  require::finite("tank rim", tank.tank_rim);
  require::that(tank.tank_rim > tank.running_level, "tank rim", tank.tank_rim,
                "above the running level, " + text(tank.running_level));
  require::not_negative("sump reserve", tank.sump_reserve);
}

// Exact integral of A dh/(Q - q(h)) with q a weir round the rim, c h^1.5; infinite if the level does not come to `to`.
// With u^3 = q(h)/Q the integrand is A h/u^2/Q times 2 u du/(1 - u^3), in partial fractions 2/3 (1/(1 - u) +
// (u - 1)/(u^2 + u + 1)).
double weir_time(double area, double inflow, double bore, double from, double to) {
  const double settles = std::cbrt(std::pow(inflow / kernel::rim_weir_flow(bore, 1.0), 2.0));
  const double u1 = std::sqrt(from / settles), u2 = std::sqrt(to / settles);
  // From the flows left over, which keep their digits close to where the level settles.
  const auto left = [&](double h, double u) {
    return (1.0 - kernel::rim_weir_flow(bore, h) / inflow) / (1.0 + u + u * u);
  };
  const double left1 = left(from, u1), left2 = left(to, u2);
  if (!(left2 > 0.0)) return std::numeric_limits<double>::infinity();
  const auto rest = [](double u) {
    return 0.5 * std::log(1.0 + u + u * u) - std::numbers::sqrt3 * std::atan((2.0 * u + 1.0) / std::numbers::sqrt3);
  };
  return 2.0 / 3.0 * area * settles / inflow * (std::log(left1 / left2) + rest(u2) - rest(u1));
}

// Time in which the level rises between two heights; infinite if the drain takes the whole inflow before.
double rise_time(const BlockedTank& tank, const std::optional<EmergencyDrain>& drain, double from, double to) {
  const double q = si(tank.inflow), area = si(tank.surface);
  if (to <= from) return 0.0;
  if (!drain) return area * (to - from) / q;
  // The drain's law changes at its rim, where its rim drowns, and where its pipe takes over from the rim.
  const double rim = si(drain->rim), bore = si(drain->bore), most = si(stack_capacity(drain->bore));
  const double pipe_governs = si(standpipe_rim_head(drain->bore, stack_capacity(drain->bore)));
  const double drowned = std::min(kernel::drowned_rim_head(bore), pipe_governs);
  const auto stretch = [&](double low, double high, const auto& law) {
    const double a = std::max(low, from - rim), b = std::min(high, to - rim);  // heads over the rim
    return b > a ? law(a, b) : 0.0;
  };
  constexpr double all = std::numeric_limits<double>::infinity();
  return stretch(-all, 0.0, [&](double a, double b) { return area * (b - a) / q; }) +
         stretch(0.0, drowned, [&](double a, double b) { return weir_time(area, q, bore, a, b); }) +
         stretch(drowned, pipe_governs,
                 [&](double a, double b) {
                   return detail::level_time(area, q, kernel::rim_orifice_flow(bore, 1.0), a, b);
                 }) +
         stretch(pipe_governs, all, [&](double a, double b) { return q > most ? area * (b - a) / (q - most) : all; });
}
}  // namespace

VolumeFlow emergency_drain_flow(const EmergencyDrain& drain, const Length& level) {
  require::finite("rim", drain.rim);
  require::finite("level", level);
  const VolumeFlow pipe = stack_capacity(drain.bore);
  if (level <= drain.rim) return VolumeFlow();
  return std::min(pipe, standpipe_rim_flow(drain.bore, level - drain.rim).flow);
}

BlockedDrainOutcome blocked_drain(const BlockedTank& tank, const std::optional<EmergencyDrain>& drain) {
  validate(tank);
  const bool drain_copes = drain && emergency_drain_flow(*drain, tank.tank_rim) >= tank.inflow;
  const double running = si(tank.running_level), rim = si(tank.tank_rim), area = si(tank.surface);
  // Where the drain takes the whole flow; a drain that already does at the running level keeps it there.
  const double settles =
      drain_copes ? std::max(running, si(drain->rim) + si(standpipe_rim_head(drain->bore, tank.inflow))) : rim;
  const double reserve_to = running + si(tank.sump_reserve) / area;
  const double reached = std::min(settles, reserve_to);

  BlockedDrainOutcome outcome;
  outcome.final_level = from_si<Length>(reached);
  outcome.held = from_si<Volume>(area * (reached - running));
  if (!drain_copes && reserve_to > rim) {
    outcome.overflows = true;
    outcome.pump_runs_dry = true;
    outcome.on_floor = tank.sump_reserve - outcome.held;
    const double until_overflow = rise_time(tank, drain, running, rim);
    outcome.time_to_overflow = from_si<Time>(until_overflow);
    const double spilling = si(tank.inflow) - (drain ? si(emergency_drain_flow(*drain, tank.tank_rim)) : 0.0);
    outcome.time_to_dry = from_si<Time>(until_overflow + si(outcome.on_floor) / spilling);
  } else if (reserve_to < settles) {
    outcome.pump_runs_dry = true;
    outcome.time_to_dry = from_si<Time>(rise_time(tank, drain, running, reserve_to));
  }
  return outcome;
}

}  // namespace theca::hydraulics
