// Arguments in the wrong order.
// expect: Pressure&
#include "theca/units.hpp"

using namespace theca;

Force push(const Pressure& p, const Area& a);

void use() {
#ifdef THECA_RIGHT
  push(3_kPa, 2_m2);
#else
  push(2_m2, 3_kPa);
#endif
}
