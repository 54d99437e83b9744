// Two points on a temperature scale cannot be added.
// expect: (no match for .*operator[+]|invalid operands to binary expression)
#include "theca/units.hpp"

using namespace theca;

void use() {
#ifdef THECA_RIGHT
  auto sum = 20_degC + 5_K;
#else
  auto sum = 20_degC + 5_degC;
#endif
}
