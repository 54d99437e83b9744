// A bare number where a length is due.
// expect: (theca::)?Length
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
  pump_head(0.35_m);
#else
  pump_head(0.35);
#endif
}
