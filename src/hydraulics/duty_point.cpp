#include "theca/hydraulics/duty_point.hpp"

#include "../root.hpp"
#include "pump_curve.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
double loss_m(const PipeLine& line, double flow, double viscosity) {
  double sum = si(line.static_head);
  for (const Pipe& p : line.pipes)
    sum += kernel::head_loss(flow, si(p.bore), si(p.length), si(p.roughness), p.minor_loss_K, viscosity).loss_m;
  return sum;
}

// Every pipe, the water, and Re at the largest flow that will be asked for.
void validate(const PipeLine& line, const VolumeFlow& largest, const KinematicViscosity& viscosity) {
  require::finite("static head", line.static_head);
  require::that(!line.pipes.empty(), "number of pipes", 0.0, "1 or more");
  for (const Pipe& p : line.pipes) head_loss(p, largest, viscosity);
}
}  // namespace

Length system_head(const PipeLine& line, const VolumeFlow& flow, const KinematicViscosity& viscosity) {
  require::not_negative("flow", flow);
  validate(line, flow, viscosity);
  return from_si<Length>(loss_m(line, si(flow), si(viscosity)));
}

DutyPoint duty_point(const PipeLine& line, const PumpCurve& pump, const KinematicViscosity& viscosity) {
  validate(pump);
  const CurvePoint& first = pump.points.front();
  const CurvePoint& last = pump.points.back();
  validate(line, last.flow, viscosity);
  const auto excess = [&](double q) { return detail::evaluate(pump, q).head_m - loss_m(line, q, si(viscosity)); };
  const double at_first = excess(si(first.flow)), at_last = excess(si(last.flow));
  if (at_first < 0.0)
    throw OutOfValidity("duty point", "the pump gives " + text(first.head) + " at the first point of its curve, " +
                                          text(first.flow) + ", and the system asks for " +
                                          text(from_si<Length>(si(first.head) - at_first)) + " there, static head " +
                                          text(line.static_head) + " included");
  if (at_last > 0.0)
    throw OutOfValidity("duty point", "the pump curve ends at " + text(last.flow) + " with " + text(last.head) +
                                          ", where the system asks for only " +
                                          text(from_si<Length>(si(last.head) - at_last)));
  DutyPoint d;
  const auto root = theca::detail::root_between("duty point", excess, si(first.flow), si(last.flow), at_first, at_last);
  d.flow = from_si<VolumeFlow>(root.at());
  d.iterations = root.evaluations;
  d.head = head(pump, d.flow);
  d.residual = from_si<Length>(excess(si(d.flow)));
  for (const Pipe& p : line.pipes) d.velocities.push_back(velocity(p, d.flow));
  return d;
}

}  // namespace theca::hydraulics
