// Checked faces of the transport kernels of dry air.
#include "theca/air/transport.hpp"

namespace theca::air {
namespace {

double checked(const Temperature& temperature) {
  require::within("air temperature", temperature, celsius(-40.0), celsius(100.0));
  return si(temperature);
}
double checked(const AbsolutePressure& pressure) {
  require::within("air pressure", above_vacuum(pressure), 50.0 * units::kilopascal, 200.0 * units::kilopascal);
  return si(pressure);
}

}  // namespace

DynamicViscosity dynamic_viscosity(const Temperature& temperature) {
  return from_si<DynamicViscosity>(kernel::dynamic_viscosity(checked(temperature)));
}

ThermalConductivity thermal_conductivity(const Temperature& temperature) {
  return from_si<ThermalConductivity>(kernel::thermal_conductivity(checked(temperature)));
}

SpecificHeatCapacity specific_heat_capacity(const Temperature& temperature) {
  return from_si<SpecificHeatCapacity>(kernel::specific_heat_capacity(checked(temperature)));
}

KinematicViscosity kinematic_viscosity(const Temperature& temperature, const AbsolutePressure& pressure) {
  const double t = checked(temperature);
  return from_si<KinematicViscosity>(kernel::dynamic_viscosity(t) / kernel::dry_density(t, checked(pressure)));
}

KinematicViscosity thermal_diffusivity(const Temperature& temperature, const AbsolutePressure& pressure) {
  const double t = checked(temperature);
  return from_si<KinematicViscosity>(kernel::thermal_conductivity(t) /
                                     (kernel::dry_density(t, checked(pressure)) * kernel::specific_heat_capacity(t)));
}

double prandtl(const Temperature& temperature) {
  const double t = checked(temperature);
  return kernel::specific_heat_capacity(t) * kernel::dynamic_viscosity(t) / kernel::thermal_conductivity(t);
}

KinematicViscosity vapour_diffusivity(const Temperature& temperature, const AbsolutePressure& pressure) {
  const double t = checked(temperature);
  return from_si<KinematicViscosity>(kernel::vapour_diffusivity(t, checked(pressure)));
}

}  // namespace theca::air
