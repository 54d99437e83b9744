// A gauge pressure where an absolute one is due.
// expect: AbsolutePressure&
#include "theca/units.hpp"

using namespace theca;

void boil(const AbsolutePressure& p);

void use() {
#ifdef THECA_RIGHT
  boil(absolute_pressure(3_kPa, standard_atmosphere));
#else
  boil(3_kPa);
#endif
}
