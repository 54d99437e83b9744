// Kilowatt-hours need a price before they are a cost.
// expect: (theca::)?Money
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
  cost(12_kWh * (0.15_USD / 1_kWh));
#else
  cost(12_kWh);
#endif
}
