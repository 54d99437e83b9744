#include "theca/hydraulics/turnover.hpp"

#include <limits>

#include "dual.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
const auto water = 0.93e-6_m2_s;
Jet jet() { return {.flow = 1150_gph, .outlet_diameter = 2_in}; }
}  // namespace

TEST_CASE("turnover: flow over volume, and back [definition]") {
  CHECK(near(in(turnover(600_gph, 150_gal), units::per_hour), 4.0, 1e-14));
  CHECK(near(flow_for_turnover(4_per_h, 150_gal), 600_gph, 1e-14));
}

TEST_CASE("jet: outlet speed to the end of the core, then falling as 1/x, keeping momentum [Fischer et al. 1979]") {
  const double u0 = si(1150_gph) / (3.14159265358979323846 / 4 * 0.0508 * 0.0508);
  CHECK(near(si(outlet_velocity(jet())), u0, 1e-14));
  CHECK(near(si(jet_centreline_velocity(jet(), 10_cm, water)), u0, 1e-14));
  CHECK(near(si(jet_centreline_velocity(jet(), 46_in, water)), 6.2 * u0 * 2 / 46, 1e-13));
  // u = 7.0 sqrt(M)/x with M = (pi/4) d^2 u0^2: another form of the law, its constant printed to two digits.
  CHECK(near(si(jet_centreline_velocity(jet(), 1_m, water)), 7.0 * std::sqrt(3.14159265358979323846 / 4) * 0.0508 * u0,
             0.05 / 7.0));
  const auto u = kernel::jet_centreline_velocity(test::Dual(0.6), test::Dual(0.05), test::Dual(1.0, 1.0));
  CHECK(near(u.d, -u.v, 1e-13));
}

TEST_CASE("jet: reach of a velocity is the inverse beyond the core") {
  const Length x = jet_reach(jet(), 10_cm_s, water);
  CHECK(near(jet_centreline_velocity(jet(), x, water), 10_cm_s, 1e-13));
}

TEST_CASE("turnover and jet: outside the range they are refused, bad input by name") {
  const VolumeFlow none = from_si<VolumeFlow>(std::numeric_limits<double>::quiet_NaN());
  CHECK(contains(message_of<InvalidInput>([] { turnover(-1_gph, 1_gal); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { turnover(1_gph, 0_gal); }), "volume"));
  CHECK(contains(message_of<InvalidInput>([] { flow_for_turnover(-1_per_h, 1_gal); }), "turnover"));
  CHECK(contains(message_of<InvalidInput>([] { flow_for_turnover(1_per_h, -1_gal); }), "volume"));
  CHECK(contains(message_of<InvalidInput>([&] { outlet_velocity({none, 2_in}); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { outlet_velocity({1_gph, 0_in}); }), "outlet diameter"));
  CHECK(contains(message_of<InvalidInput>([] { jet_centreline_velocity(jet(), 0_m, water); }), "distance"));
  CHECK(contains(message_of<OutOfValidity>([] { jet_centreline_velocity(jet(), 201_in, water); }), "distance"));
  CHECK(contains(message_of<OutOfValidity>([] { jet_centreline_velocity({100_gph, 2_in}, 1_m, water); }), "Reynolds"));
  CHECK(contains(message_of<InvalidInput>([] { jet_centreline_velocity(jet(), 1_m, 0_m2_s); }), "viscosity"));
  CHECK(contains(message_of<InvalidInput>([] { jet_reach(jet(), 0_m_s, water); }), "velocity"));
  CHECK(contains(message_of<OutOfValidity>([] { jet_reach(jet(), 2_m_s, water); }), "velocity"));
  CHECK(contains(message_of<OutOfValidity>([] { jet_reach(jet(), 1_cm_s, water); }), "velocity"));
}
