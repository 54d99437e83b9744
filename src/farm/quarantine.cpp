#include "theca/farm/quarantine.hpp"

#include <string_view>

#include "theca/require.hpp"

namespace theca::farm {

namespace {

Time between(std::span<const GenerationPoint> points, const Temperature& water, std::string_view source) {
  require::that(points.size() >= 2, "number of generation points", static_cast<double>(points.size()), "2 or more");
  for (std::size_t i = 0; i < points.size(); ++i) {
    require::positive("temperature of a generation point", points[i].temperature);
    require::positive("generation time of a point", points[i].time);
    if (i > 0)
      require::that(si(points[i].temperature) > si(points[i - 1].temperature), "temperature of a generation point",
                    points[i].temperature, "above that of the point before, " + text(points[i - 1].temperature));
  }
  // The ends are kelvins with a last digit of their own.
  constexpr double rounding = 1e-9;
  require::valid(source, "temperature in degC", in_celsius(water), in_celsius(points.front().temperature) - rounding,
                 in_celsius(points.back().temperature) + rounding);
  std::size_t i = 1;
  while (i + 1 < points.size() && si(water) > si(points[i].temperature)) ++i;
  const GenerationPoint &cool = points[i - 1], &warm = points[i];
  const double share = (si(water) - si(cool.temperature)) / (si(warm.temperature) - si(cool.temperature));
  return cool.time + share * (warm.time - cool.time);
}

}  // namespace

Time generation_time(std::span<const GenerationPoint> points, const Temperature& water) {
  return between(points, water, "generation time between the points given");
}

Time generation_time(const Temperature& water) {
  const GenerationPoint measured[] = {{celsius(24.0), 64.0 * units::day}, {celsius(27.0), 38.0 * units::day}};
  return between(measured, water, "generation time of the flatworm (Barton et al. 2019)");
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
