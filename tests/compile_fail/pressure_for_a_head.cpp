// A pump's head is a length of liquid, not a pressure.
// expect: Length&
#include "theca/units.hpp"

using namespace theca;

void choose_pump(const Length& head);

void use() {
#ifdef THECA_RIGHT
  choose_pump(23_ft);
#else
  choose_pump(10_psi);
#endif
}
