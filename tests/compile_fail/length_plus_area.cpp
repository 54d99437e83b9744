// A length and an area do not add.
// expect: (no match for .*operator[+]|invalid operands to binary expression)
#include "theca/units.hpp"

using namespace theca;

void use() {
#ifdef THECA_RIGHT
  auto sum = 2_m * 2_m + 3_m2;
#else
  auto sum = 2_m + 3_m2;
#endif
}
