// A conductance U A is not a U value.
// expect: ThermalTransmittance&
#include "theca/units.hpp"

using namespace theca;

void insulate(const ThermalTransmittance& u);

void use() {
#ifdef THECA_RIGHT
  insulate(18_W_K / 3_m2);
#else
  insulate(18_W_K);
#endif
}
