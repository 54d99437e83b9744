#include "theca/hydraulics/duty_point.hpp"

#include "demo.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::demo_pump;
using test::message_of;
using test::near;

namespace {
const auto water = 0.93e-6_m2_s;
Pipe pipe(const Length& bore, const Length& length, double K) {
  return {.bore = bore, .length = length, .roughness = 1.5e-6_m, .minor_loss_K = K};
}
PipeLine line() { return {.static_head = 4_ft, .pipes = {pipe(3.068_in, 49_ft, 6.13), pipe(2.067_in, 60_ft, 4.0)}}; }
}  // namespace

TEST_CASE("duty point: straight pump curve and local losses only [closed form of a quadratic]") {
  // H = 10 - 2000 Q, h = 2 + c Q^2 with c = K/(2 g A^2): c Q^2 + 2000 Q - 8 = 0.
  const PumpCurve pump{.points = {{0_m3_s, 10_m}, {0.005_m3_s, 0_m}}};
  const PipeLine local{.static_head = 2_m, .pipes = {pipe(50_mm, 0_m, 6.0)}};
  const double area = 0.25 * 3.14159265358979323846 * 0.0025;
  const double c = 6.0 / (2 * 9.80665 * area * area);
  const double q = (-2000.0 + std::sqrt(4e6 + 32.0 * c)) / (2 * c);
  const DutyPoint d = duty_point(local, pump, water);
  CHECK(near(si(d.flow), q, 1e-13));
  CHECK(near(si(d.head), 10.0 - 2000.0 * q, 1e-13));
  CHECK(near(si(d.velocities.at(0)), q / area, 1e-13));
}

TEST_CASE("duty point: two pipes in series [scipy brentq with the package fluids, tests/reference]") {
  const DutyPoint d = duty_point(line(), demo_pump(), water);
  CHECK(near(in(d.flow, units::gph), 6690.31655463, 1e-11));  // printed to 12 digits
  CHECK(near(in(d.head, units::foot), 24.4264618571, 1e-11));
  CHECK(test::within(d.residual, 0_m, 1e-12_m));
  CHECK(near(system_head(line(), d.flow, water), d.head, 1e-13));
  CHECK(d.velocities.size() == 2);
  CHECK(near(d.velocities[1] / d.velocities[0], std::pow(3.068 / 2.067, 2), 1e-13));
  CHECK(d.iterations > 0);
}

TEST_CASE("duty point: more static head or a narrower pipe gives less flow") {
  PipeLine higher = line(), narrower = line();
  higher.static_head = 6_ft;
  narrower.pipes[1].bore = 1.9_in;
  const VolumeFlow q = duty_point(line(), demo_pump(), water).flow;
  CHECK(duty_point(higher, demo_pump(), water).flow < q);
  CHECK(duty_point(narrower, demo_pump(), water).flow < q);
}

TEST_CASE("duty point: a pump that cannot lift that high, or a curve that ends too early, is told apart") {
  PipeLine high = line(), wide = line();
  high.static_head = 31_ft;
  CHECK(contains(message_of<OutOfValidity>([&] { duty_point(high, demo_pump(), water); }), "static head"));
  wide.pipes = {pipe(10_in, 1_ft, 0.1)};
  wide.static_head = 0_ft;
  CHECK(contains(message_of<OutOfValidity>([&] { duty_point(wide, demo_pump(), water); }), "curve ends"));
  high.static_head = 30_ft;  // exactly the shut-off head: no flow
  CHECK(si(duty_point(high, demo_pump(), water).flow) == 0.0);
}

TEST_CASE("duty point: bad input is refused by name") {
  PipeLine none = line(), odd = line();
  none.pipes.clear();
  CHECK(contains(message_of<InvalidInput>([&] { duty_point(none, demo_pump(), water); }), "number of pipes"));
  odd.pipes[0].bore = 0_in;
  CHECK(contains(message_of<InvalidInput>([&] { duty_point(odd, demo_pump(), water); }), "bore"));
  CHECK(contains(message_of<InvalidInput>([&] { duty_point(line(), {}, water); }), "pump curve"));
  CHECK(contains(message_of<InvalidInput>([&] { duty_point(line(), demo_pump(), 0_m2_s); }), "viscosity"));
  CHECK(contains(message_of<InvalidInput>([&] { system_head(line(), -1_gph, water); }), "flow"));
}
