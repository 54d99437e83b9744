#include "theca/hydraulics/intake.hpp"

#include <cmath>

#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
void validate(const Length& inlet_diameter, const VolumeFlow& flow) {
  require::positive("inlet diameter", inlet_diameter);
  require::not_negative("flow", flow);
}
}  // namespace

double intake_froude_number(const Length& inlet_diameter, const VolumeFlow& flow) {
  validate(inlet_diameter, flow);
  return kernel::intake_froude_number(si(inlet_diameter), si(flow));
}

Length critical_submergence(const Length& inlet_diameter, const VolumeFlow& flow) {
  validate(inlet_diameter, flow);
  return from_si<Length>(kernel::critical_submergence(si(inlet_diameter), si(flow)));
}

VolumeFlow flow_at_submergence(const Length& inlet_diameter, const Length& submergence) {
  require::positive("inlet diameter", inlet_diameter);
  require::positive("submergence", submergence);
  if (submergence < inlet_diameter)
    throw OutOfValidity("critical submergence (ANSI/HI 9.8)", "submergence = " + text(submergence) +
                                                                  ", at least one diameter, " + text(inlet_diameter) +
                                                                  ", whatever the flow");
  const double froude = (si(submergence) / si(inlet_diameter) - 1.0) / 2.3;
  return from_si<VolumeFlow>(froude / kernel::intake_froude_number(si(inlet_diameter), 1.0));
}

Length critical_submergence_gordon(const Length& inlet_diameter, const VolumeFlow& flow, Approach approach) {
  validate(inlet_diameter, flow);
  // Feet and ft/s to SI: ft / (ft/s ft^0.5) = s/ft^0.5.
  const double coefficient = (approach == Approach::symmetrical ? 0.3 : 0.4) / std::sqrt(units::detail::foot_m);
  const double d = si(inlet_diameter), velocity = si(flow) / kernel::bore_area(d);
  return from_si<Length>(coefficient * velocity * std::sqrt(d));
}

Length critical_submergence_jain(const Length& inlet_diameter, const VolumeFlow& flow, double circulation_number) {
  const double froude = intake_froude_number(inlet_diameter, flow);
  constexpr const char* correlation = "critical submergence (Jain, Raju & Garde 1978)";
  require::finite("circulation number", circulation_number);
  require::valid(correlation, "Froude number", froude, 1.1, 20.0);
  require::valid(correlation, "circulation number", circulation_number, 0.1875, 1.95);
  return 5.6 * std::pow(circulation_number, 0.42) * std::sqrt(froude) * inlet_diameter;
}

}  // namespace theca::hydraulics
