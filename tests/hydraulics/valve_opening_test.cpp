#include "theca/hydraulics/valve_opening.hpp"

#include <cmath>
#include <limits>

#include "support/near.hpp"
#include "theca/error.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

double degrees_from_open(double K) { return 90.0 * (1.0 - valve_opening(ThrottleValve::ball, K)); }
}  // namespace

TEST_CASE("valve opening: points of Perry's table, gate valve and plug cock") {
  CHECK(valve_K(ThrottleValve::gate, 1.0) == 0.17);
  CHECK(near(valve_K(ThrottleValve::gate, 0.75), 0.9, 1e-14));
  CHECK(near(valve_opening(ThrottleValve::gate, 4.5), 0.5, 1e-14));
  CHECK(near(valve_opening(ThrottleValve::gate, 24.0), 0.25, 1e-14));
  CHECK(near(degrees_from_open(0.05), 5.0, 1e-12));
  CHECK(near(degrees_from_open(0.29), 10.0, 1e-12));
  CHECK(near(degrees_from_open(17.3), 40.0, 1e-12));
  CHECK(near(degrees_from_open(206.0), 60.0, 1e-12));
}

TEST_CASE("valve opening: Weisbach's plug cock between those points [his table of 5 degree steps, from memory]") {
  // He has 15, 25, 30, 35, 45, 50 and 55 degrees too: straight lines of ln K come within 1.5 degrees of them.
  const double table[][2] = {{15, 0.75}, {25, 3.10}, {30, 5.47}, {35, 9.68}, {45, 31.2}, {50, 52.6}, {55, 106}};
  for (const auto& [angle, K] : table) CHECK(within(degrees_from_open(K), angle, 1.5));
}

TEST_CASE("valve opening: another published table of gate valves, as far as two makes agree") {
  // 1/4, 1/2 and 3/4 closed: K 0.26, 2.1 and 17, in many textbooks. The opening is off by what the docstring says.
  CHECK(within(valve_opening(ThrottleValve::gate, 0.26), 0.75, 0.2));
  CHECK(within(valve_opening(ThrottleValve::gate, 2.1), 0.5, 0.13));
  CHECK(within(valve_opening(ThrottleValve::gate, 17.0), 0.25, 0.06));
}

TEST_CASE("valve opening: falls as K rises, and K and opening are inverses") {
  for (const ThrottleValve valve : {ThrottleValve::gate, ThrottleValve::ball}) {
    double before = 2.0;
    for (double K = 0.18; K < 24.0; K *= 1.07) {
      const double opening = valve_opening(valve, K);
      CHECK(opening < before);
      CHECK(near(valve_K(valve, opening), K, 1e-12));
      before = opening;
    }
  }
}

TEST_CASE("valve opening: no reading beyond the tables") {
  CHECK(contains(message_of<OutOfValidity>([] { (void)valve_opening(ThrottleValve::gate, 25.0); }), "24"));
  CHECK_THROWS_AS((void)valve_opening(ThrottleValve::gate, 0.1), OutOfValidity);
  CHECK_THROWS_AS((void)valve_opening(ThrottleValve::ball, 300.0), OutOfValidity);
  CHECK_THROWS_AS((void)valve_opening(ThrottleValve::ball, -1.0), InvalidInput);
  CHECK_THROWS_AS((void)valve_opening(ThrottleValve::ball, std::numeric_limits<double>::quiet_NaN()), InvalidInput);
  CHECK_THROWS_AS((void)valve_K(ThrottleValve::gate, 0.2), OutOfValidity);
  CHECK_THROWS_AS((void)valve_K(ThrottleValve::ball, 1.0), OutOfValidity);
  CHECK_THROWS_AS((void)valve_K(ThrottleValve::ball, std::numeric_limits<double>::infinity()), InvalidInput);
}
