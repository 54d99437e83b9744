#include "theca/hydraulics/intake.hpp"

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

}  // namespace theca::hydraulics
