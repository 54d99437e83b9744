// Salinity is a type, not a number.
// expect: AbsoluteSalinity&
#include "theca/units.hpp"

using namespace theca;

void mix(const AbsoluteSalinity& s);

void use() {
#ifdef THECA_RIGHT
  mix(35_ppt);
#else
  mix(35.0);
#endif
}
