// 60 could be a ratio or a percentage.
// expect: RelativeHumidity&
#include "theca/units.hpp"

using namespace theca;

void dry(const RelativeHumidity& limit);

void use() {
#ifdef THECA_RIGHT
  dry(60_rh);
#else
  dry(60.0);
#endif
}
