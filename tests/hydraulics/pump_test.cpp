#include "theca/hydraulics/pump.hpp"

#include <limits>

#include "demo.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::demo_pump;
using test::message_of;
using test::near;

TEST_CASE("pump curve: passes through its points, both ways between them") {
  for (const auto between : {Interpolation::linear, Interpolation::monotone}) {
    const PumpCurve curve = demo_pump(between);
    for (const CurvePoint& p : curve.points) {
      CHECK(near(head(curve, p.flow), p.head, 1e-14));
      CHECK(test::within(si(flow_at_head(curve, p.head)), si(p.flow), 1e-15));
    }
  }
}

TEST_CASE("pump curve: straight lines between points [proportion]") {
  CHECK(near(head(demo_pump(), 9000_gph), 19.7_ft, 1e-14));
  CHECK(near(head(demo_pump(), 500_gph), 29.85_ft, 1e-14));
}

TEST_CASE("pump curve: monotone cubic [scipy 1.10.1 PchipInterpolator, tests/reference/hydraulics_values.py]") {
  const double expected[][2] = {{500, 29.9175},
                                {1000, 29.78},
                                {3100, 28.7425213157895},
                                {9000, 19.9632783882784},
                                {11000, 13.5615384615385},
                                {12900, 4.77279120879121},
                                {13400, 2.0594415954416}};
  const PumpCurve curve = demo_pump(Interpolation::monotone);
  for (const auto& [gph, ft] : expected) CHECK(near(head(curve, gph * units::gph), ft * units::foot, 1e-13));
}

TEST_CASE("pump curve: falls all the way, also past a kink, and two points make a straight line") {
  const PumpCurve kinked{.points = {{0_gpm, 10_m}, {1_gpm, 9.9_m}, {2_gpm, 5_m}, {10_gpm, 4.9_m}}};
  Length before = 11_m;
  for (int i = 0; i <= 1000; ++i) {
    const Length h = head(kinked, 0.01 * i * units::gpm);
    CHECK(h < before);
    before = h;
  }
  const PumpCurve two{.points = {{1_gpm, 10_m}, {3_gpm, 4_m}}};
  CHECK(near(head(two, 2_gpm), 7_m, 1e-14));
}

TEST_CASE("pump curve: flow at a head is the inverse of head at a flow") {
  for (const auto between : {Interpolation::linear, Interpolation::monotone}) {
    const PumpCurve curve = demo_pump(between);
    for (double gph = 100; gph < 13500; gph += 333)
      CHECK(near(flow_at_head(curve, head(curve, gph * units::gph)), gph * units::gph, 1e-12));
  }
}

TEST_CASE("pump curve: is never read beyond its points") {
  CHECK(contains(message_of<OutOfValidity>([] { head(demo_pump(), 13501_gph); }), "flow"));
  CHECK(contains(message_of<OutOfValidity>([] { head(demo_pump(), -1_gph); }), "flow"));
  CHECK(contains(message_of<OutOfValidity>([] { flow_at_head(demo_pump(), 30.1_ft); }), "head"));
  CHECK(contains(message_of<OutOfValidity>([] { flow_at_head(demo_pump(), 1.4_ft); }), "head"));
}

TEST_CASE("pump curve: points out of order are refused by number") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto refused = [](std::vector<CurvePoint> points) {
    return message_of<InvalidInput>([&points] { head({.points = points}, 1_gpm); });
  };
  CHECK(contains(refused({{0_gpm, 5_m}}), "points"));
  CHECK(contains(refused({{0_gpm, 5_m}, {2_gpm, 4_m}, {2_gpm, 3_m}}), "flow of pump curve point 3"));
  CHECK(contains(refused({{0_gpm, 5_m}, {2_gpm, 5_m}}), "head of pump curve point 2"));
  CHECK(contains(refused({{-1_gpm, 5_m}, {2_gpm, 4_m}}), "flow of pump curve point 1"));
  CHECK(contains(refused({{0_gpm, 5_m}, {2_gpm, -1_m}}), "head of pump curve point 2"));
  CHECK(contains(refused({{0_gpm, from_si<Length>(nan)}, {2_gpm, 1_m}}), "head of pump curve point 1"));
  CHECK(contains(message_of<InvalidInput>([nan] { head(demo_pump(), from_si<VolumeFlow>(nan)); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([nan] { flow_at_head(demo_pump(), from_si<Length>(nan)); }), "head"));
}

TEST_CASE("pump curve: one that ends at no head never falls below it") {
  for (int i = 1; i < 400; ++i) {
    const PumpCurve curve{
        .points = {{0_gph, 4_m}, {(0.1 + 0.0017 * i) * 1000_gph, (3.0 - 0.003 * i) * 1_m}, {1013_gph, 0_m}}};
    CHECK(head(curve, curve.points.back().flow) >= 0_m);
  }
}
