// Two points on a temperature scale cannot be added.
// expect: no match for .operator\\+.|invalid operands to binary expression
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
  auto sum = 20_degC + 5_K;
#else
  auto sum = 20_degC + 5_degC;
#endif
}
