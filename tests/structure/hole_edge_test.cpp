// A drilled hole near an edge.
#include <cmath>

#include "support/near.hpp"
#include "theca/structure/hole.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

TEST_CASE("An edge raises a hole's stress the more the nearer it is, and not at all from afar") {
  CHECK(near(hole_near_edge_factor(10_mm, 100_m), 1.0, 1e-4));
  double last = 1.0;
  for (double mm = 100.0; mm >= 30.0; mm -= 10.0) {
    const double factor = hole_near_edge_factor(30_mm, mm * units::millimetre);
    CHECK(factor > last);
    last = factor;
  }
  CHECK(near(hole_edge_stress_near_edge(4_MPa, 1_MPa, 30_mm, 10_mm, 30_mm).value(),
             last * hole_edge_stress(4_MPa, 1_MPa, 30_mm, 10_mm).value(), 1e-12));
}

TEST_CASE("A hole nearer to an edge than the source goes is refused by name") {
  CHECK(contains(message_of<OutOfValidity>([] { hole_near_edge_factor(30_mm, 29_mm); }), "centre to edge"));
  CHECK(contains(message_of<InvalidInput>([] { hole_near_edge_factor(30_mm, 0_mm); }), "centre to edge"));
  CHECK(contains(message_of<InvalidInput>([] { hole_near_edge_factor(from_si<Length>(NAN), 1_m); }), "hole diameter"));
  CHECK(contains(message_of<InvalidInput>([] { hole_edge_stress_near_edge(1_MPa, 0_MPa, 30_mm, 0_mm, 60_mm); }),
                 "thickness"));
}
