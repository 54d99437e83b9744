#include "theca/farm/quarantine.hpp"

#include "theca/require.hpp"

namespace theca::farm {

Time generation_time(const Temperature& water) {
  constexpr double cool = 24.0, warm = 27.0, days_cool = 64.0, days_warm = 38.0;
  const double t = in_celsius(water);
  // The ends are kelvins with a last digit of their own.
  require::valid("generation time of the flatworm (Barton et al. 2019)", "temperature in degC", t, cool - 1e-9,
                 warm + 1e-9);
  return (days_cool + (days_warm - days_cool) * (t - cool) / (warm - cool)) * units::day;
}

double quarantine_slots(const Frequency& arrivals, const Time& hold) {
  require::not_negative("arrivals", arrivals);
  require::not_negative("hold time", hold);
  return arrivals * hold;
}

Frequency largest_arrivals(double slots, const Time& hold) {
  require::not_negative("slots", slots);
  require::positive("hold time", hold);
  return slots / hold;
}

}  // namespace theca::farm
