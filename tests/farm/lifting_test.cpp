// The lifting equation beyond its published examples: properties and bad input.
#include "theca/farm/lifting.hpp"

#include <cmath>

#include "support/near.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::near;

namespace {
const Lift bucket{.origin = {15_in, 15_in, 0_deg},
                  .destination = {18_in, 48_in, 0_deg},
                  .rate = 0.0 * units::per_minute,
                  .duration = LiftingDuration::up_to_1_h,
                  .coupling = Coupling::fair};
constexpr auto us = LiftingConstants::us_customary;
}  // namespace

TEST_CASE("lifting: a bucket from 15 to 48 in, worked by hand from the equation") {
  const WeightLimits limits = recommended_weight_limits(bucket, us);
  const double distance = 0.82 + 1.8 / 33.0;
  CHECK(near(limits.at_origin, 51.0 * (10.0 / 15.0) * (1.0 - 0.0075 * 15.0) * distance * 0.95 * units::pound, 1e-9));
  CHECK(
      near(limits.at_destination, 51.0 * (10.0 / 18.0) * (1.0 - 0.0075 * 18.0) * distance * 1.0 * units::pound, 1e-9));
  const LiftingIndex index = lifting_index(44_lb, bucket, us);
  CHECK(near(index.at_destination, 44_lb / limits.at_destination, 1e-12));
  CHECK(index.at_destination > index.at_origin);
}

TEST_CASE("lifting: the frequency multiplier takes the height at the origin at both ends [NIOSH 94-110, p. 15]") {
  Lift often = bucket;
  often.rate = 12.5 * units::per_minute;  // beyond the table when the origin is low, within it when it is high
  CHECK(recommended_weight_limits(often).at_destination == 0_kg);
  often.origin.vertical = 31_in;
  CHECK(recommended_weight_limits(often).at_destination > 0_kg);
}

TEST_CASE("lifting: farther, oftener, longer, turned or slippery never raises the limit") {
  double before = 1e9;
  for (double h = 8.0; h <= 26.0; h += 0.5) {
    Lift l = bucket;
    l.origin.horizontal = h * units::inch;
    const double now = si(recommended_weight_limits(l).at_origin);
    CHECK(now <= before);
    before = now;
  }
  before = 1e9;
  for (double f = 0.0; f <= 16.0; f += 0.1) {
    Lift l = bucket;
    l.rate = f * units::per_minute;
    l.duration = LiftingDuration::up_to_8_h;
    const double now = si(recommended_weight_limits(l).at_origin);
    CHECK(now <= before);
    l.duration = LiftingDuration::up_to_2_h;
    CHECK(si(recommended_weight_limits(l).at_origin) >= now);
    before = now;
  }
  Lift l = bucket;
  l.coupling = Coupling::poor;
  CHECK(recommended_weight_limits(l).at_origin < recommended_weight_limits(bucket).at_origin);
  l = bucket;
  l.origin.asymmetry = 30_deg;
  CHECK(near(recommended_weight_limits(l).at_origin,
             (1.0 - 0.0032 * 30.0) * recommended_weight_limits(bucket).at_origin, 1e-12));
}

TEST_CASE("lifting: a limit of zero has no index, and bad input is refused by name") {
  Lift far = bucket;
  far.destination.horizontal = 30_in;
  CHECK(recommended_weight_limits(far).at_destination == 0_kg);
  CHECK(test::contains(test::message_of<OutOfValidity>([&] { lifting_index(10_lb, far); }), "NIOSH"));
  const auto refused = [](auto change) {
    Lift l = bucket;
    change(l);
    return test::message_of<InvalidInput>([&] { recommended_weight_limits(l); });
  };
  CHECK(test::contains(refused([](Lift& l) { l.origin.horizontal = 0_m; }), "horizontal"));
  CHECK(test::contains(refused([](Lift& l) { l.destination.vertical = -1_m; }), "vertical"));
  CHECK(test::contains(refused([](Lift& l) { l.origin.asymmetry = from_si<Angle>(std::nan("")); }), "asymmetry"));
  CHECK(test::contains(refused([](Lift& l) { l.rate = from_si<Frequency>(-1.0); }), "lifting rate"));
  CHECK(test::contains(test::message_of<InvalidInput>([] { lifting_index(0_kg, bucket); }), "load"));
}
