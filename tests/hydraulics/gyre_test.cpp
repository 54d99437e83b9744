// Gyre speed: the balance it comes from, its limits, its inverse.
#include "theca/hydraulics/gyre.hpp"

#include <cmath>

#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
const GyreTank tank{.length = 1.8_m, .width = 0.6_m, .depth = 0.5_m, .drag_area = 0.05 * units::square_metre};
const Jet jet{.flow = 2.0 * units::litre_per_second, .outlet_diameter = 40.0 * units::millimetre};
}  // namespace

TEST_CASE("gyre: thrust of the jets equals the drag of walls, turns and racks [balance by hand]") {
  const double u = si(gyre_speed(tank, jet, 2)), u0 = 0.002 / (3.14159265358979323846 * 0.02 * 0.02);
  const double area = 0.005 * (1.8 * 0.6 + 2.0 * 0.5 * 2.4) + 4.0 * 0.3 * 0.5 + 0.05;
  CHECK(near(2.0 * 0.002 * (u0 - u), 0.5 * area * u * u, 1e-12));
}

TEST_CASE("gyre: without resistance to speak of the water comes to run as fast as the jet, with much as its root") {
  GyreTank free = tank;
  free.turning_K = 0.0;
  free.drag_area = Area();
  CHECK(near(gyre_speed(free, jet, 100000), outlet_velocity(jet), 1e-4));
  GyreTank full = tank;
  full.drag_area = 1e6 * units::square_metre;
  CHECK(near(gyre_speed(full, jet, 4) / gyre_speed(full, jet, 1), 2.0, 1e-4));
  CHECK(si(gyre_speed(tank, {VolumeFlow(), 1_in}, 1)) == 0.0);
}

TEST_CASE("gyre: the number of jets for a speed is the least that reaches it [inverse]") {
  for (int n = 1; n <= 20; ++n) CHECK(jets_for_gyre_speed(tank, jet, gyre_speed(tank, jet, n)) == n);
  CHECK(jets_for_gyre_speed(tank, jet, 1.001 * gyre_speed(tank, jet, 3)) == 4);
}

TEST_CASE("gyre: impossible input is named") {
  const auto with = [](auto change) {
    GyreTank t = tank;
    change(t);
    return message_of<InvalidInput>([&] { gyre_speed(t, jet, 1); });
  };
  CHECK(contains(with([](GyreTank& t) { t.length = Length(); }), "length"));
  CHECK(contains(with([](GyreTank& t) { t.width = Length(); }), "width"));
  CHECK(contains(with([](GyreTank& t) { t.depth = -1.0 * units::metre; }), "depth"));
  CHECK(contains(with([](GyreTank& t) { t.friction_coefficient = 0.1; }), "friction coefficient"));
  CHECK(contains(with([](GyreTank& t) { t.turning_K = -1.0; }), "turning K"));
  CHECK(contains(with([](GyreTank& t) { t.drag_area = -1.0 * units::square_metre; }), "drag area"));
  CHECK(contains(message_of<InvalidInput>([] { gyre_speed(tank, jet, 0); }), "jets"));
  CHECK(contains(message_of<InvalidInput>([] { gyre_speed(tank, {jet.flow, Length()}, 1); }), "outlet diameter"));
  CHECK(contains(message_of<OutOfValidity>([] { jets_for_gyre_speed(tank, jet, outlet_velocity(jet)); }), "speed"));
}
