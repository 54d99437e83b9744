#include "theca/hydraulics/reynolds_fittings.hpp"

#include <limits>

#include "support/near.hpp"
#include "theca/hydraulics/fittings.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

TEST_CASE("fittings of three and two constants [package fluids 1.0.22, Darby3K and Hooper2K]") {
  CHECK(near(loss_K(three_K_fitting("90 degree elbow, threaded"), 5e3, 2_in), 0.7548613419594921, 1e-14));
  CHECK(near(loss_K(three_K_fitting("ball valve"), 3e4, 1_in), 0.0865, 1e-14));
  CHECK(near(loss_K(three_K_fitting("tee, through branch, threaded"), 1e5, 1.5_in), 1.2494723726519297, 1e-14));
  CHECK(near(loss_K(three_K_fitting("swing check valve"), 2e4, 3_in), 1.8583704917177504, 1e-14));
  CHECK(near(loss_K(two_K_fitting("globe valve"), 1e4, 2_in), 6.15, 1e-14));
}

TEST_CASE("fittings: Darby and Hooper agree within the published spread at turbulent flow") {
  for (const char* name : {"90 degree elbow, threaded", "90 degree elbow, flanged", "tee, through branch, threaded",
                           "swing check valve", "globe valve"})
    for (const Length& size : {1_in, 2_in, 4_in}) {
      const ThreeKFitting& f = three_K_fitting(name);
      const double darby = loss_K(f, 1e5, size), hooper = loss_K(two_K_fitting(name), 1e5, size);
      CHECK(hooper > darby * (1 - f.spread.less));
      CHECK(hooper < darby * (1 + f.spread.more));
    }
}

TEST_CASE("fittings: turbulent K of Darby is near Crane's for the threaded elbow [Crane TP-410: 30 f_T]") {
  // Two fits to many makers' fittings: the spread of 40 % covers them.
  const double darby = loss_K(three_K_fitting("90 degree elbow, threaded"), 1e6, 2_in);
  CHECK(near(darby, elbow_90(2.067_in).K, 0.40));
}

TEST_CASE("fittings of several constants: bad input is refused by name") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(contains(message_of<InvalidInput>([] { three_K_fitting("elbow"); }), "swing check valve"));
  CHECK(contains(message_of<InvalidInput>([] { two_K_fitting("elbow"); }), "globe valve"));
  const ThreeKFitting three = three_K_fittings().front();
  const TwoKFitting two = two_K_fittings().front();
  CHECK(contains(message_of<InvalidInput>([&] { loss_K(three, 0.0, 1_in); }), "Reynolds"));
  CHECK(contains(message_of<InvalidInput>([&] { loss_K(two, nan, 1_in); }), "Reynolds"));
  CHECK(contains(message_of<InvalidInput>([&] { loss_K(three, 1e4, 1_mm); }), "nominal size"));
  CHECK(contains(message_of<InvalidInput>([&] { loss_K(two, 1e4, 1_m); }), "bore"));
  ThreeKFitting odd = three;
  odd.Kd = -1;
  CHECK(contains(message_of<InvalidInput>([&] { loss_K(odd, 1e4, 1_in); }), "Kd"));
  TwoKFitting odd2 = two;
  odd2.K1 = nan;
  CHECK(contains(message_of<InvalidInput>([&] { loss_K(odd2, 1e4, 1_in); }), "K1"));
}
