// Gallons are not gallons per hour.
// expect: no match for .operator=|conversion from|could not convert|no viable conversion|cannot convert
#include "theca/units.hpp"

using namespace theca;

Force weight_on(Pressure p, Area a) { return p * a; }
Pressure bottom_pressure(Length depth, Density water) { return water * standard_gravity * depth; }
Temperature set_point(Temperature t) { return t; }
void water(Temperature, AbsoluteSalinity) {}
void room(Temperature, RelativeHumidity) {}
void lamp(PhotonFlux) {}
void boiling(AbsolutePressure) {}
void pump_head(Length) {}
void dose(Concentration) {}
void cost(Money) {}
void edge(RotationalStiffness) {}
void film(ThermalTransmittance) {}

void use() {
#ifdef THECA_RIGHT
  VolumeFlow q = 250_gph;
#else
  VolumeFlow q = 250_gal;
#endif
}
