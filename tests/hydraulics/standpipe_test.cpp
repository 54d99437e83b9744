#include "theca/hydraulics/standpipe.hpp"

#include <limits>

#include "dual.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

TEST_CASE("standpipe: capacity grows with the 8/3 power of the bore and the 5/3 power of the water's share") {
  CHECK(near(stack_capacity(4_in, 0.25) / stack_capacity(2_in, 0.25), std::pow(2.0, 8.0 / 3.0), 1e-13));
  CHECK(near(stack_capacity(2_in, 1.0 / 3.0) / stack_capacity(2_in, 0.25), std::pow(4.0 / 3.0, 5.0 / 3.0), 1e-13));
  const auto q = kernel::stack_capacity(test::Dual(0.05, 1.0), test::Dual(0.3));
  CHECK(near(q.d, 8.0 / 3.0 * q.v / 0.05, 1e-13));
}

TEST_CASE(
    "standpipe rim: a weir round the rim at small heads, an orifice of the bore at large ones [both laws by hand]") {
  const double pi = 3.14159265358979323846, d = 0.04;
  const RimFlow low = standpipe_rim_flow(40_mm, 5_mm), high = standpipe_rim_flow(40_mm, 80_mm);
  CHECK(low.control == RimControl::weir);
  CHECK(near(si(low.flow), 1.84 * pi * d * std::pow(0.005, 1.5), 1e-14));
  CHECK(high.control == RimControl::orifice);
  CHECK(near(si(high.flow), 0.6 * 0.25 * pi * d * d * std::sqrt(2 * 9.80665 * 0.08), 1e-14));
  // They cross where 1.84 pi D H^1.5 = 0.6 (pi/4) D^2 sqrt(2 g H), H = 0.15 sqrt(2 g)/1.84 D = 0.361 D.
  CHECK(standpipe_rim_flow(100_mm, 36.0_mm).control == RimControl::weir);
  CHECK(standpipe_rim_flow(100_mm, 36.2_mm).control == RimControl::orifice);
}

TEST_CASE("standpipe rim: head from flow is the inverse of flow from head") {
  for (double h = 1e-5; h < 1.0; h *= 1.5)
    CHECK(near(standpipe_rim_head(1.61_in, standpipe_rim_flow(1.61_in, from_si<Length>(h)).flow), from_si<Length>(h),
               1e-13));
  CHECK(si(standpipe_rim_head(1.61_in, 0_gph)) == 0.0);
  CHECK(si(standpipe_rim_flow(1.61_in, 0_in).flow) == 0.0);
}

TEST_CASE("standpipe: outside its range it is refused, bad input by name") {
  const double not_a_number = std::numeric_limits<double>::quiet_NaN();
  CHECK(contains(message_of<OutOfValidity>([] { stack_capacity(0.5_in, 0.25); }), "bore"));
  CHECK(contains(message_of<OutOfValidity>([] { stack_capacity(13_in, 0.25); }), "bore"));
  CHECK(contains(message_of<OutOfValidity>([] { stack_capacity(2_in, 0.2); }), "water fraction"));
  CHECK(contains(message_of<OutOfValidity>([] { stack_capacity(2_in, 0.34); }), "water fraction"));
  CHECK(contains(message_of<InvalidInput>([=] { stack_capacity(2_in, not_a_number); }), "water fraction"));
  CHECK(contains(message_of<InvalidInput>([] { stack_capacity(-2_in, 0.25); }), "bore"));
  CHECK(contains(message_of<InvalidInput>([] { standpipe_rim_flow(0_in, 1_in); }), "bore"));
  CHECK(contains(message_of<InvalidInput>([] { standpipe_rim_flow(1_in, -1_in); }), "head over rim"));
  CHECK(contains(message_of<InvalidInput>([] { standpipe_rim_head(0_in, 1_gph); }), "bore"));
  CHECK(
      contains(message_of<InvalidInput>([=] { standpipe_rim_head(1_in, from_si<VolumeFlow>(not_a_number)); }), "flow"));
}
