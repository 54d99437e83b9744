#include "theca/hydraulics/gravity_main.hpp"

#include <limits>

#include "dual.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
const double pi = 3.14159265358979323846;
GravityMain six_inch() { return {.bore = 6.065_in, .slope = 1.0 / 48.0, .manning_n = 0.009}; }
}  // namespace

TEST_CASE("gravity main: full bore has a hydraulic radius of a quarter bore, half full the same velocity [geometry]") {
  const double d = 6.065 * 0.0254, v = std::pow(d / 4, 2.0 / 3.0) * std::sqrt(1.0 / 48.0) / 0.009;
  CHECK(near(si(full_bore_flow(six_inch())), v * pi * d * d / 4, 1e-13));
  const PartFullFlow half = flow_at_depth(six_inch(), 0.5 * six_inch().bore);
  CHECK(near(si(half.velocity), v, 1e-13));
  CHECK(near(half.flow, 0.5 * full_bore_flow(six_inch()), 1e-13));
  CHECK(near(half.filling, 0.5, 1e-14));
  const PartFullFlow full = flow_at_depth(six_inch(), six_inch().bore);
  CHECK(near(full.flow, full_bore_flow(six_inch()), 1e-13));
}

TEST_CASE("gravity main: the largest flow is a maximum over depth") {
  const PartFullFlow top = largest_flow(six_inch());
  for (double filling = 0.01; filling <= 1.0; filling += 0.01)
    CHECK(flow_at_depth(six_inch(), filling * six_inch().bore).flow <= top.flow);
}

TEST_CASE("gravity main: depth from flow is the inverse of flow from depth, from a film to the largest flow") {
  for (double filling = 1e-5; filling < 0.938; filling *= 1.2) {
    const PartFullFlow there = flow_at_depth(six_inch(), filling * six_inch().bore);
    CHECK(near(normal_depth(six_inch(), there.flow).depth, there.depth, 1e-11));
  }
  CHECK(si(normal_depth(six_inch(), 0_gph).depth) == 0.0);
  CHECK(near(normal_depth(six_inch(), largest_flow(six_inch()).flow).filling, 0.9382, 1e-4));
}

TEST_CASE("gravity main: a shallow section is that of a parabola, A = 4/3 sqrt(D y) y [series of the circle]") {
  // Next term of the series is 0.3 y/D.
  const PartFullFlow film = flow_at_depth(six_inch(), 1e-7 * six_inch().bore);
  const double d = si(six_inch().bore), y = 1e-7 * d;
  CHECK(near(si(film.flow_area), 4.0 / 3.0 * std::sqrt(d * y) * y, 1e-7));
}

TEST_CASE("gravity main kernels accept a differentiable scalar [dA/dtheta = D^2 (1 - cos theta)/8]") {
  for (const double theta : {0.01, 3.0}) {
    const auto s = kernel::circular_section(test::Dual(0.2), test::Dual(theta, 1.0));
    CHECK(near(s.area_m2.d, 0.04 * (1.0 - std::cos(theta)) / 8.0, 1e-10));
  }
  const auto v = kernel::manning_velocity(test::Dual(0.05, 1.0), test::Dual(0.01), test::Dual(0.009));
  CHECK(near(v.d, 2.0 / 3.0 * v.v / 0.05, 1e-13));
}

TEST_CASE("gravity main: more flow than fits is refused, bad input by name") {
  const double not_a_number = std::numeric_limits<double>::quiet_NaN();
  const auto refused = [](auto change) {
    GravityMain m = six_inch();
    change(m);
    return message_of<InvalidInput>([&m] { full_bore_flow(m); });
  };
  CHECK(contains(message_of<OutOfValidity>([] { normal_depth(six_inch(), 1e5_gph); }), "flow"));
  CHECK(contains(refused([](GravityMain& m) { m.bore = 0_in; }), "bore"));
  CHECK(contains(refused([](GravityMain& m) { m.slope = 0.0; }), "slope"));
  CHECK(contains(refused([](GravityMain& m) { m.slope = 0.2; }), "slope"));
  CHECK(contains(refused([](GravityMain& m) { m.manning_n = 0.9; }), "Manning's n"));
  CHECK(contains(message_of<InvalidInput>([] { flow_at_depth(six_inch(), 7_in); }), "depth"));
  CHECK(contains(message_of<InvalidInput>([] { flow_at_depth(six_inch(), -1_in); }), "depth"));
  CHECK(
      contains(message_of<InvalidInput>([=] { normal_depth(six_inch(), from_si<VolumeFlow>(not_a_number)); }), "flow"));
}
