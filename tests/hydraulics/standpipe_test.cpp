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

namespace {
const Standpipe tall{
    .pipe = {.bore = 1.049_in, .length = 2_m, .roughness = 1.5 * units::micrometre, .minor_loss_K = 1.5},
    .fall = 1.5_m};
const KinematicViscosity seawater_at_25 = 0.95e-6 * units::square_metre_per_second;
}  // namespace

TEST_CASE("standpipe: regimes follow one another with the flow and the level to plan for never jumps or falls") {
  int regime = 0;
  double last = 0.0;
  for (int i = 0; i <= 4000; ++i) {
    const StandpipeState s = standpipe_state(tall, i * 0.5e-6 * units::cubic_metre_per_second, seawater_at_25);
    REQUIRE(static_cast<int>(s.regime) >= regime);
    regime = static_cast<int>(s.regime);
    REQUIRE(si(s.head) >= last);
    REQUIRE(si(s.head) - last < 0.004);  // the steepest law gains 3.4 mm over a step at 2 L/s
    REQUIRE(s.lowest_head <= s.head);
    last = si(s.head);
  }
  CHECK(regime == static_cast<int>(StandpipeRegime::siphon));
}

TEST_CASE("standpipe: the limits between regimes are those of their laws") {
  const auto regime_at = [](const VolumeFlow& q) { return standpipe_state(tall, q, seawater_at_25).regime; };
  const VolumeFlow vent = self_venting_flow(tall.pipe.bore), ring = stack_capacity(tall.pipe.bore, 1.0 / 3.0);
  const VolumeFlow full = siphon_start_flow(tall, seawater_at_25);
  CHECK(regime_at(0.999 * vent) == StandpipeRegime::weir);
  CHECK(regime_at(1.001 * vent) == StandpipeRegime::annular);
  CHECK(regime_at(0.999 * ring) == StandpipeRegime::annular);
  CHECK(regime_at(1.001 * ring) == StandpipeRegime::gulping);
  CHECK(regime_at(0.999 * full) == StandpipeRegime::gulping);
  CHECK(regime_at(1.001 * full) == StandpipeRegime::siphon);
  CHECK(near(standpipe_state(tall, vent, seawater_at_25).froude, 0.3, 1e-12));
}

TEST_CASE("standpipe: a siphon spends its fall and head on friction, fittings and exit [energy equation]") {
  const VolumeFlow q = siphon_flow(tall, 0.1_m, seawater_at_25);
  CHECK(near(standpipe_state(tall, q, seawater_at_25).lowest_head, 0.1_m, 1e-8));
}

TEST_CASE("standpipe: the largest flow at an allowed level is the rim's, the regime's or the full pipe's [by hand]") {
  const double pi = 3.14159265358979323846, d = 1.049 * 0.0254;
  const auto flow_at = [](const Length& head, StandpipeRegime allowed) {
    return standpipe_flow(tall, head, allowed, seawater_at_25);
  };
  CHECK(near(si(flow_at(9_mm, StandpipeRegime::annular)), 1.84 * pi * d * std::pow(0.009, 1.5),
             1e-13));  // the rim as a weir
  CHECK(near(si(flow_at(9_mm, StandpipeRegime::weir)), 0.3 * 0.25 * pi * d * d * std::sqrt(9.80665 * d), 1e-13));
  CHECK(near(flow_at(100_mm, StandpipeRegime::annular), stack_capacity(tall.pipe.bore), 1e-15));
  CHECK(near(flow_at(1.2_m, StandpipeRegime::gulping), siphon_start_flow(tall, seawater_at_25), 1e-15));
  CHECK(si(flow_at(0_m, StandpipeRegime::siphon)) == 0.0);
  for (const Length& head : {1_mm, 5_mm, 12_mm, 30_mm, 200_mm, 1_m}) {
    const VolumeFlow q = flow_at(head, StandpipeRegime::siphon);
    CHECK(near(standpipe_state(tall, q, seawater_at_25).head, head, 1e-12));
    for (const auto allowed : {StandpipeRegime::weir, StandpipeRegime::annular, StandpipeRegime::gulping}) {
      const StandpipeState s = standpipe_state(tall, flow_at(head, allowed), seawater_at_25);
      CHECK(s.regime <= allowed);
      CHECK(si(s.head) <= si(head) * (1.0 + 1e-12));
    }
  }
  CHECK(contains(message_of<InvalidInput>([&] { flow_at(-1_m, StandpipeRegime::weir); }), "head over rim"));
}

TEST_CASE("standpipe: an impossible pipe or flow is named, regimes") {
  Standpipe bad = tall;
  bad.fall = 3_m;
  CHECK(contains(message_of<InvalidInput>([&] { standpipe_state(bad, VolumeFlow(), seawater_at_25); }), "fall"));
  CHECK(contains(message_of<InvalidInput>([] { standpipe_state(tall, -1.0 * units::gpm, seawater_at_25); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { siphon_flow(tall, -1.0 * units::metre, seawater_at_25); }),
                 "head over rim"));
  CHECK(contains(message_of<InvalidInput>([] { siphon_start_flow(tall, KinematicViscosity()); }), "viscosity"));
  CHECK(contains(message_of<InvalidInput>([] { self_venting_flow(Length()); }), "bore"));
}
