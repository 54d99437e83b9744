// Twice 25 degC means nothing until the zero is named.
// expect: (deleted function|overload resolution selected deleted operator)
#include "theca/units.hpp"

using namespace theca;

void use() {
#ifdef THECA_RIGHT
  auto twice = 2.0 * above_absolute_zero(25_degC);
#else
  auto twice = 2.0 * 25_degC;
#endif
}
