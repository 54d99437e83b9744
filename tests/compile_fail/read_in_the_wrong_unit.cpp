// A length cannot be read in gallons.
// expect: no matching function for call to .*in
#include "theca/units.hpp"

using namespace theca;

void use() {
#ifdef THECA_RIGHT
  double depth = in(14_in, units::foot);
#else
  double depth = in(14_in, units::us_gallon);
#endif
}
