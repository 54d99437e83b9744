// A bare number where a length is due.
// expect: Length&
#include "theca/units.hpp"

using namespace theca;

void fill(const Length& depth);

void use() {
#ifdef THECA_RIGHT
  fill(0.35_m);
#else
  fill(0.35);
#endif
}
