// Alkalinity is charge per volume, not mass per volume.
// expect: Concentration&
#include "theca/units.hpp"

using namespace theca;

void dose(const Concentration& alkalinity);

void use() {
#ifdef THECA_RIGHT
  dose(8_dKH);
#else
  dose(8.0 * units::milligram_per_litre);
#endif
}
