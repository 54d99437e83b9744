// A gauge pressure where an absolute one is due.
// expect: (theca::)?AbsolutePressure
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
  boiling(absolute_pressure(3_kPa, standard_atmosphere));
#else
  boiling(3_kPa);
#endif
}
