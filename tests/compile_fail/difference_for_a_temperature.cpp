// A temperature difference where a temperature is due.
// expect: Temperature&
#include "theca/units.hpp"

using namespace theca;

void set_heater(const Temperature& set_point);

void use() {
#ifdef THECA_RIGHT
  set_heater(25_degC);
#else
  set_heater(25_K);
#endif
}
