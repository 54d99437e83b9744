#include "theca/farm/slots.hpp"

#include <cmath>

#include "theca/require.hpp"

namespace theca::farm {

long slots(const Length& inside_length, const Length& inside_width, double usable_share, const Length& pitch) {
  require::positive("inside length", inside_length);
  require::positive("inside width", inside_width);
  require::within("usable share", usable_share, 0.0, 1.0);
  require::positive("slot pitch", pitch);
  const double count = usable_share * (si(inside_length) / si(pitch)) * (si(inside_width) / si(pitch));
  require::that(count < 1e9, "slot pitch", pitch, "wide enough that a tank holds fewer than a billion slots");
  // A count that is whole in the grower's unit must not lose one to the last digit of the conversion.
  return static_cast<long>(std::floor(count * (1.0 + 1e-12)));
}

long farm_slots(std::span<const TankGroup> groups) {
  long sum = 0;
  for (const TankGroup& group : groups) {
    require::that(group.tanks >= 0, "tanks", group.tanks, ">= 0");
    require::that(group.slots_each >= 0 && group.slots_each <= 1000000000L, "slots of each tank",
                  static_cast<double>(group.slots_each), "0 to 1e9");
    sum += group.tanks * group.slots_each;
  }
  return sum;
}

Length pitch_for(long wanted, const Length& inside_length, const Length& inside_width, double usable_share) {
  require::positive("inside length", inside_length);
  require::positive("inside width", inside_width);
  require::that(usable_share > 0.0 && usable_share <= 1.0, "usable share", usable_share, "> 0 to 1");
  require::that(wanted >= 1, "wanted slots", static_cast<double>(wanted), ">= 1");
  return from_si<Length>(std::sqrt(usable_share * si(inside_length) * si(inside_width) / static_cast<double>(wanted)));
}

}  // namespace theca::farm
