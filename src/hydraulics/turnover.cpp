#include "theca/hydraulics/turnover.hpp"

#include "theca/hydraulics/pipe.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
constexpr double furthest = 100.0;  // outlet diameters
constexpr const char* correlation = "round turbulent jet (Rajaratnam 1976)";

// Outlet velocity of a jet that is turbulent.
double turbulent_outlet_velocity(const Jet& jet, const KinematicViscosity& viscosity) {
  const Velocity u0 = outlet_velocity(jet);
  const double reynolds = reynolds_number(u0, jet.outlet_diameter, viscosity);
  require::valid(correlation, "outlet Reynolds number", reynolds, 1e4, largest_reynolds_number);
  return si(u0);
}
}  // namespace

Frequency turnover(const VolumeFlow& flow, const Volume& volume) {
  require::not_negative("flow", flow);
  require::positive("volume", volume);
  return from_si<Frequency>(si(flow) / si(volume));
}

VolumeFlow flow_for_turnover(const Frequency& rate, const Volume& volume) {
  require::not_negative("turnover", rate);
  require::positive("volume", volume);
  return from_si<VolumeFlow>(si(rate) * si(volume));
}

Velocity outlet_velocity(const Jet& jet) {
  require::not_negative("flow", jet.flow);
  require::positive("outlet diameter", jet.outlet_diameter);
  return from_si<Velocity>(si(jet.flow) / si(bore_area(jet.outlet_diameter)));
}

Velocity jet_centreline_velocity(const Jet& jet, const Length& distance, const KinematicViscosity& viscosity) {
  const double u0 = turbulent_outlet_velocity(jet, viscosity);
  require::positive("distance", distance);
  require::valid(correlation, "distance", distance, Length(), furthest * jet.outlet_diameter);
  return from_si<Velocity>(kernel::jet_centreline_velocity(u0, si(jet.outlet_diameter), si(distance)));
}

Length jet_reach(const Jet& jet, const Velocity& velocity, const KinematicViscosity& viscosity) {
  const double u0 = turbulent_outlet_velocity(jet, viscosity);
  require::positive("velocity", velocity);
  require::valid(correlation, "velocity", velocity, from_si<Velocity>(u0 * jet_decay_constant / furthest),
                 from_si<Velocity>(u0));
  return from_si<Length>(jet_decay_constant * si(jet.outlet_diameter) * u0 / si(velocity));
}

}  // namespace theca::hydraulics
