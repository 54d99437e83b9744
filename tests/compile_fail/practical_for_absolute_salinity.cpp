// What a conductivity meter shows is not grams per kilogram.
// expect: AbsoluteSalinity&
#include "theca/units.hpp"

using namespace theca;

void mix(const AbsoluteSalinity& s);

void use() {
#ifdef THECA_RIGHT
  mix(absolute_salinity(35_psu));
#else
  mix(35_psu);
#endif
}
