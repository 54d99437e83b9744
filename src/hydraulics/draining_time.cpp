#include "theca/hydraulics/draining_time.hpp"

#include <algorithm>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>

#include "../root.hpp"
#include "level_time.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
constexpr double two_g = 2.0 * units::detail::standard_gravity;

void validate(const Outlet& outlet) {
  require::positive("tank surface", outlet.tank_surface);
  require::positive("opening", outlet.opening);
  require::that(10.0 * outlet.opening <= outlet.tank_surface, "opening", outlet.opening,
                "at most a tenth of the surface, " + text(outlet.tank_surface));
  require::positive("coefficient", outlet.coefficient);
  require::within("coefficient", outlet.coefficient, 0.0, 1.0);
}
// Flow at a head of 1 m.
double scale(const Outlet& outlet) { return outlet.coefficient * si(outlet.opening) * std::sqrt(two_g); }
}  // namespace

Time draining_time(const Outlet& outlet, const Length& from, const Length& to) {
  validate(outlet);
  require::not_negative("from", from);
  require::within("to", to, Length(), from);
  return from_si<Time>(2.0 * si(outlet.tank_surface) * (std::sqrt(si(from)) - std::sqrt(si(to))) / scale(outlet));
}

Length settling_head(const Outlet& outlet, const VolumeFlow& inflow) {
  validate(outlet);
  require::not_negative("inflow", inflow);
  const double root = si(inflow) / scale(outlet);
  return from_si<Length>(root * root);
}

Time level_change_time(const Outlet& outlet, const VolumeFlow& inflow, const Length& from, const Length& to) {
  const Length settles = settling_head(outlet, inflow);
  require::not_negative("from", from);
  require::not_negative("to", to);
  if (si(inflow) == 0.0 && to <= from) return draining_time(outlet, from, to);  // down to an empty tank too
  const double time = detail::level_time(si(outlet.tank_surface), si(inflow), scale(outlet), si(from), si(to));
  if (std::isinf(time))
    throw OutOfValidity("time of a level change", "to = " + text(to) + "; from " + text(from) +
                                                      " the level goes towards " + text(settles) +
                                                      " and does not reach it");
  return from_si<Time>(time);
}

VolumeFlow gravity_flow(const Pipe& pipe, const Length& head, const KinematicViscosity& viscosity) {
  validate(pipe);
  require::not_negative("head", head);
  require::positive("viscosity", viscosity);
  if (si(head) == 0.0) return VolumeFlow();
  const double area = si(bore_area(pipe.bore));
  Pipe with_exit = pipe;
  with_exit.minor_loss_K += 1.0;
  const auto excess = [&](double q) { return si(head_loss(with_exit, from_si<VolumeFlow>(q), viscosity)) - si(head); };
  // No friction gives the largest flow.
  const double most = area * std::sqrt(two_g * si(head) / with_exit.minor_loss_K);
  const double at_most = excess(most);
  if (at_most <= 0.0) return from_si<VolumeFlow>(most);
  return from_si<VolumeFlow>(theca::detail::root_between("gravity flow", excess, 0.0, most, -si(head), at_most).at());
}

Time draining_time(const Area& tank_surface, const Pipe& pipe, const Length& from, const Length& to,
                   const KinematicViscosity& viscosity) {
  require::positive("tank surface", tank_surface);
  require::positive("from", from);
  require::positive("to", to);
  require::within("to", to, Length(), from);
  validate(pipe);
  require::positive("viscosity", viscosity);
  if (from == to) return Time();
  // In s = sqrt(h) the integrand is smooth towards an empty tank.
  const auto integrand = [&](double s) { return 2.0 * s / si(gravity_flow(pipe, from_si<Length>(s * s), viscosity)); };
  double error = 0.0;
  const double integral = boost::math::quadrature::gauss_kronrod<double, 15>::integrate(
      integrand, std::sqrt(si(to)), std::sqrt(si(from)), 12, 1e-8, &error);
  if (!(error <= 1e-6 * integral)) throw NotConverged("draining time", error, 12);
  return from_si<Time>(si(tank_surface) * integral);
}

Time filling_time(const Volume& volume, const VolumeFlow& flow) {
  require::not_negative("volume", volume);
  require::positive("flow", flow);
  return from_si<Time>(si(volume) / si(flow));
}

}  // namespace theca::hydraulics
