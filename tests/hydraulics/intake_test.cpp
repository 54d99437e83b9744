#include "theca/hydraulics/intake.hpp"

#include <limits>

#include "dual.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

TEST_CASE("intake: Froude number and submergence by hand, one diameter at rest") {
  // v = 1 m/s in 0.1 m: Fr = 1/sqrt(0.980665), S = 0.1 (1 + 2.3 Fr)
  const VolumeFlow q = from_si<VolumeFlow>(0.25 * 3.14159265358979323846 * 0.01);
  CHECK(near(intake_froude_number(100_mm, q), 1.0 / std::sqrt(0.980665), 1e-14));
  CHECK(near(si(critical_submergence(100_mm, q)), 0.1 + 0.23 / std::sqrt(0.980665), 1e-14));
  CHECK(near(critical_submergence(100_mm, 0_gph), 100_mm, 1e-15));
  const auto s = kernel::critical_submergence(test::Dual(0.1), test::Dual(0.01, 1.0));
  CHECK(near(s.d, (s.v - 0.1) / 0.01, 1e-13));
}

TEST_CASE("intake: flow at a submergence is the inverse") {
  const VolumeFlow q = flow_at_submergence(3.068_in, 10_in);
  CHECK(near(critical_submergence(3.068_in, q), 10_in, 1e-13));
  CHECK(si(flow_at_submergence(3_in, 3_in)) == 0.0);
}

TEST_CASE("intake: bad input is refused by name") {
  const VolumeFlow none = from_si<VolumeFlow>(std::numeric_limits<double>::quiet_NaN());
  CHECK(contains(message_of<InvalidInput>([] { critical_submergence(0_in, 1_gph); }), "inlet diameter"));
  CHECK(contains(message_of<InvalidInput>([] { critical_submergence(1_in, -1_gph); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([&] { intake_froude_number(1_in, none); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { flow_at_submergence(-1_in, 1_in); }), "inlet diameter"));
  CHECK(contains(message_of<InvalidInput>([] { flow_at_submergence(1_in, 0_in); }), "submergence"));
  CHECK(contains(message_of<OutOfValidity>([] { flow_at_submergence(3_in, 2_in); }), "submergence"));
}

TEST_CASE("intake: Gordon in feet [S = 0.3 v sqrt(D) by hand]") {
  // 10 ft/s in 1 ft: 3 ft straight on, 4 ft from one side.
  const VolumeFlow q = 10.0 * 0.25 * 3.14159265358979323846 * units::cubic_foot.size / (1.0 * units::second);
  CHECK(near(critical_submergence_gordon(1_ft, q, Approach::symmetrical), 3_ft, 1e-12));
  CHECK(near(critical_submergence_gordon(1_ft, q, Approach::asymmetrical), 4_ft, 1e-12));
  CHECK(contains(
      message_of<InvalidInput>([] { critical_submergence_gordon(Length(), VolumeFlow(), Approach::symmetrical); }),
      "inlet diameter"));
}

TEST_CASE("intake: Jain grows with the root of flow and refuses what was not measured") {
  const VolumeFlow q = 2.0 * units::litre_per_second;  // Fr 6.5 in 1 in
  CHECK(near(critical_submergence_jain(1_in, 2.0 * q, 0.5) / critical_submergence_jain(1_in, q, 0.5), std::sqrt(2.0),
             1e-12));
  CHECK(near(critical_submergence_jain(1_in, q, 1.0) / (1_in * std::sqrt(intake_froude_number(1_in, q))), 5.6, 1e-12));
  CHECK(contains(message_of<OutOfValidity>([&] { critical_submergence_jain(4_in, 0.1 * q, 0.5); }), "Froude number"));
  CHECK(contains(message_of<OutOfValidity>([&] { critical_submergence_jain(1_in, q, 3.0); }), "circulation number"));
}
