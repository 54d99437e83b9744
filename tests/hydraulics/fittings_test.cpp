#include "theca/hydraulics/fittings.hpp"

#include <limits>

#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

TEST_CASE("fittings: K is summed with its count, and the loss is K velocity heads [definition]") {
  const double K = total_K({{.name = "entry", .K = 0.5}, {.name = "elbow", .K = 0.54, .count = 5}});
  CHECK(near(K, 3.2, 1e-15));
  CHECK(near(si(minor_loss(K, 2_m_s)), 3.2 * 4.0 / (2 * 9.80665), 1e-15));
  CHECK(total_K({}) == 0.0);
}

TEST_CASE("fittings: equivalent lengths stand in their published ratio to f_T [Crane TP-410, L/D]") {
  const double fT = complete_turbulence_friction_factor(2.067_in);
  CHECK(near(elbow_90(2.067_in).K, 30 * fT, 1e-15));
  CHECK(near(elbow_45(2.067_in).K, 16 * fT, 1e-15));
  CHECK(near(tee_run(2.067_in).K, 20 * fT, 1e-15));
  CHECK(near(tee_branch(2.067_in, 2).K, 60 * fT, 1e-15));
  CHECK(tee_branch(2.067_in, 2).count == 2);
  CHECK(near(ball_valve(2.067_in).K, 3 * fT, 1e-15));
  CHECK(near(gate_valve(2.067_in).K, 8 * fT, 1e-15));
  CHECK(near(globe_valve(2.067_in).K, 340 * fT, 1e-15));
  CHECK(near(swing_check_valve(2.067_in).K, 100 * fT, 1e-15));
  CHECK(entrance_flush().K == 0.5);
  CHECK(entrance_projecting().K == 0.78);
  CHECK(pipe_exit().K == 1.0);
}

TEST_CASE("fittings: bad input is refused by name") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(contains(message_of<InvalidInput>([] { total_K({{.name = "odd valve", .K = -1.0}}); }), "odd valve"));
  CHECK(
      contains(message_of<InvalidInput>([] { total_K({{.name = "odd valve", .K = 1.0, .count = -1}}); }), "odd valve"));
  CHECK(contains(message_of<InvalidInput>([nan] { minor_loss(nan, 1_m_s); }), "K"));
  CHECK(contains(message_of<InvalidInput>([] { minor_loss(1.0, -1_m_s); }), "velocity"));
  CHECK(contains(message_of<InvalidInput>([] { elbow_90(5_mm); }), "bore"));
  CHECK(contains(message_of<InvalidInput>([] { elbow_90(1_in, -1); }), "count"));
  CHECK(contains(message_of<InvalidInput>([] { pipe_exit(-1); }), "count"));
}
