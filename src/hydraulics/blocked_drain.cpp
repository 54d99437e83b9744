#include "theca/hydraulics/blocked_drain.hpp"

#include <algorithm>
#include <boost/math/quadrature/gauss_kronrod.hpp>

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

// Time in which the level rises between two heights at which the inflow is more than the drain takes.
double rise_time(const BlockedTank& tank, const std::optional<EmergencyDrain>& drain, double from, double to) {
  const double q = si(tank.inflow), area = si(tank.surface);
  if (to <= from) return 0.0;
  const double free_to = drain ? std::clamp(si(drain->rim), from, to) : to;
  double time = area * (free_to - from) / q;
  if (free_to >= to) return time;
  // The drain's law changes with a kink where its pipe takes over from its rim; above it the flow is constant.
  const double most = si(stack_capacity(drain->bore, 1.0 / 3.0));
  const double kink =
      std::clamp(si(drain->rim) + si(standpipe_rim_head(drain->bore, from_si<VolumeFlow>(most))), free_to, to);
  const double weir_to_orifice = std::clamp(si(drain->rim) + kernel::drowned_rim_head(si(drain->bore)), free_to, kink);
  const auto add = [&](double a, double b) {
    if (b <= a) return;
    double error = 0.0;
    const double part = boost::math::quadrature::gauss_kronrod<double, 15>::integrate(
        [&](double h) { return area / (q - si(emergency_drain_flow(*drain, from_si<Length>(h)))); }, a, b, 15, 1e-9,
        &error);
    if (!(error <= 1e-5 * part)) throw NotConverged("time until a tank overflows", error, 15);
    time += part;
  };
  add(free_to, weir_to_orifice);
  add(weir_to_orifice, kink);
  if (to > kink) time += area * (to - kink) / (q - most);
  return time;
}
}  // namespace

VolumeFlow emergency_drain_flow(const EmergencyDrain& drain, const Length& level) {
  require::finite("rim", drain.rim);
  require::finite("level", level);
  const VolumeFlow pipe = stack_capacity(drain.bore, 1.0 / 3.0);
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
