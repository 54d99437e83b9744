// Kilowatt-hours need a price before they are a cost.
// expect: Money&
#include "theca/units.hpp"

using namespace theca;

void pay(const Money& bill);

void use() {
#ifdef THECA_RIGHT
  pay(12_kWh * (0.15_USD / 1_kWh));
#else
  pay(12_kWh);
#endif
}
