// Gallons are not gallons per hour.
// expect: (conversion from|no viable conversion)
#include "theca/units.hpp"

using namespace theca;

void use() {
#ifdef THECA_RIGHT
  VolumeFlow flow = 250_gal / 1_h;
#else
  VolumeFlow flow = 250_gal;
#endif
}
