#include "theca/farm/lifting.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "theca/require.hpp"

namespace theca::farm {
namespace {

// The manual's constants in one of its two unit systems, lengths in that system's unit.
struct Constants {
  NamedUnit<unit::length> length;
  Mass load;
  double nearest, farthest;                   // horizontal
  double best_height, height_slope, highest;  // vertical
  double distance_term, shortest, longest;    // travel
};

Constants constants_of(LiftingConstants system) {
  if (system == LiftingConstants::metric)
    return {units::centimetre, 23.0 * units::kilogram, 25.0, 63.0, 75.0, 0.003, 175.0, 4.5, 25.0, 175.0};
  return {units::inch, 51.0 * units::pound, 10.0, 25.0, 30.0, 0.0075, 70.0, 1.8, 10.0, 70.0};
}

// Table 5: lifts per minute, and the multiplier for hands at or above the best height at the origin. Below it the table
// is the same but ends earlier.
constexpr std::array<double, 17> per_minute{0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15};
struct FrequencyColumn {
  std::array<double, 17> multiplier;
  double last_when_low, last_when_high;  // highest tabulated frequency with a multiplier above zero
};
constexpr std::array<FrequencyColumn, 3> table_5{{
    {{1.00, 0.97, 0.94, 0.91, 0.88, 0.84, 0.80, 0.75, 0.70, 0.60, 0.52, 0.45, 0.41, 0.37, 0.34, 0.31, 0.28}, 12, 15},
    {{0.95, 0.92, 0.88, 0.84, 0.79, 0.72, 0.60, 0.50, 0.42, 0.35, 0.30, 0.26, 0.23, 0.21, 0, 0, 0}, 10, 12},
    {{0.85, 0.81, 0.75, 0.65, 0.55, 0.45, 0.35, 0.27, 0.22, 0.18, 0.15, 0.13, 0, 0, 0, 0, 0}, 8, 10},
}};

const FrequencyColumn& column_of(LiftingDuration duration) {
  switch (duration) {
    case LiftingDuration::up_to_1_h:
      return table_5[0];
    case LiftingDuration::up_to_2_h:
      return table_5[1];
    case LiftingDuration::up_to_8_h:
      return table_5[2];
  }
  throw InvalidInput("lifting duration", "none of the three", "up to 1, 2 or 8 h");
}

double coupling_multiplier(Coupling coupling, bool low) {
  switch (coupling) {  // table 7
    case Coupling::good:
      return 1.0;
    case Coupling::fair:
      return low ? 0.95 : 1.0;
    case Coupling::poor:
      return 0.90;
  }
  throw InvalidInput("coupling", "none of the three", "good, fair or poor");
}

void require_point(const LiftPoint& p) {
  require::positive("horizontal distance of the hands", p.horizontal);
  require::not_negative("vertical height of the hands", p.vertical);
  require::not_negative("asymmetry", p.asymmetry);
}

double product(const LiftMultipliers& m) {
  return m.horizontal * m.vertical * m.distance * m.asymmetry * m.frequency * m.coupling;
}

}  // namespace

double frequency_multiplier(const Frequency& rate, LiftingDuration duration, const Length& origin_height,
                            LiftingConstants constants) {
  require::not_negative("lifting rate", rate);
  require::not_negative("origin height", origin_height);
  const Constants c = constants_of(constants);
  const FrequencyColumn& column = column_of(duration);
  const bool low = in(origin_height, c.length) < c.best_height;
  const double f = in(rate, units::per_minute);
  if (f > (low ? column.last_when_low : column.last_when_high)) return 0.0;
  if (f <= per_minute.front()) return column.multiplier.front();
  const auto above = std::lower_bound(per_minute.begin(), per_minute.end(), f);
  const auto i = static_cast<std::size_t>(above - per_minute.begin());
  const double share = (f - per_minute[i - 1]) / (per_minute[i] - per_minute[i - 1]);
  return column.multiplier[i - 1] + share * (column.multiplier[i] - column.multiplier[i - 1]);
}

LiftMultipliers lift_multipliers(const Lift& lift, LiftEnd end, LiftingConstants constants) {
  require_point(lift.origin);
  require_point(lift.destination);
  const Constants c = constants_of(constants);
  const LiftPoint& at = end == LiftEnd::origin ? lift.origin : lift.destination;
  const double h = in(at.horizontal, c.length);
  const double v = in(at.vertical, c.length);
  const double d = std::abs(in(lift.destination.vertical, c.length) - in(lift.origin.vertical, c.length));
  const double a = in(at.asymmetry, units::degree);
  // A last digit of a unit conversion must not turn a lift at the limit into one beyond it.
  const auto beyond = [](double x, double limit) { return x > limit * (1.0 + 1e-12); };
  return {
      .horizontal = beyond(h, c.farthest) ? 0.0 : c.nearest / std::max(h, c.nearest),
      .vertical = beyond(v, c.highest) ? 0.0 : 1.0 - c.height_slope * std::abs(v - c.best_height),
      .distance = beyond(d, c.longest) ? 0.0 : 0.82 + c.distance_term / std::max(d, c.shortest),
      .asymmetry = beyond(a, 135.0) ? 0.0 : 1.0 - 0.0032 * a,
      .frequency = frequency_multiplier(lift.rate, lift.duration, lift.origin.vertical, constants),
      .coupling = coupling_multiplier(lift.coupling, v < c.best_height),
  };
}

WeightLimits recommended_weight_limits(const Lift& lift, LiftingConstants constants) {
  const LiftMultipliers origin = lift_multipliers(lift, LiftEnd::origin, constants);
  const LiftMultipliers destination = lift_multipliers(lift, LiftEnd::destination, constants);
  const Mass load = constants_of(constants).load;
  return {product(origin) * load, product(destination) * load, origin, destination};
}

LiftingIndex lifting_index(const Mass& load, const Lift& lift, LiftingConstants constants) {
  require::positive("load", load);
  const WeightLimits limits = recommended_weight_limits(lift, constants);
  for (const Mass& limit : {limits.at_origin, limits.at_destination})
    if (!(si(limit) > 0.0))
      throw OutOfValidity("revised NIOSH lifting equation (Waters et al. 1993)",
                          "the recommended weight limit is zero: hands farther than 63 cm (25 in), above 175 cm "
                          "(70 in), turned by more than 135 deg, or lifts more frequent than the table");
  return {load / limits.at_origin, load / limits.at_destination};
}

}  // namespace theca::farm
