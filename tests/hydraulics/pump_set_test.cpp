#include "theca/hydraulics/pump_set.hpp"

#include <limits>

#include "demo.hpp"
#include "support/near.hpp"
#include "theca/hydraulics/pump_speed.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::demo_pump;
using test::message_of;
using test::near;

namespace {
const double not_a_number = std::numeric_limits<double>::quiet_NaN();
PumpCurve weak() { return worn(demo_pump(Interpolation::monotone), 0.7, 0.6); }
PumpCurve strong() { return demo_pump(Interpolation::monotone); }
}  // namespace

TEST_CASE("pumps in parallel: flows add at one head; a pump below that head is shut off by its check valve") {
  const PumpCurve joint = parallel({strong(), weak()});
  CHECK(joint.points.front().head == 30_ft);
  CHECK(si(joint.points.front().flow) == 0.0);
  for (double ft = 2.0; ft < 29.9; ft += 0.37) {
    const Length h = ft * units::foot;
    const VolumeFlow q = flow_at_head(strong(), h) + (ft < 18.0 ? flow_at_head(weak(), h) : 0_gph);
    CHECK(near(flow_at_head(joint, h), q, 1e-3));
  }
  const auto shares = parallel_flows({strong(), weak()}, 20_ft);
  CHECK(si(shares[1]) == 0.0);
  CHECK(near(shares[0], flow_at_head(strong(), 20_ft), 1e-14));
}

TEST_CASE("pumps in series: heads add at one flow, over the flows that both know") {
  const PumpCurve joint = series({strong(), weak()});
  CHECK(near(joint.points.back().flow, 0.7 * 13500_gph, 1e-14));
  for (double gph = 0; gph < 9400; gph += 133)
    CHECK(near(head(joint, gph * units::gph), head(strong(), gph * units::gph) + head(weak(), gph * units::gph), 1e-3));
}

TEST_CASE("joint curves of unlike pumps: flow right to 0.1 % of the largest, also where a curve starts flat") {
  const PumpCurve flat{.points = {{0_gph, 12_ft}, {2000_gph, 11.98_ft}, {5000_gph, 10_ft}, {8000_gph, 3_ft}}};
  const PumpCurve plateau{.points = {{0_gph, 20_ft}, {1000_gph, 12_ft}, {4000_gph, 11.95_ft}, {7000_gph, 2_ft}}};
  const std::vector<std::vector<PumpCurve>> sets{
      {strong(), weak()}, {flat, plateau}, {flat, strong()}, {flat, worn(flat, 0.95, 0.9)}, {plateau, flat, strong()}};
  for (const auto& set : sets) {
    const PumpCurve one_line = series(set), one_main = parallel(set);
    const double last = si(one_line.points.back().flow), most = si(one_main.points.back().flow);
    double worst_series = 0.0, worst_parallel = 0.0;
    for (int i = 1; i < 4000; ++i) {
      const VolumeFlow q = from_si<VolumeFlow>(last * i / 4000);
      Length sum;
      for (const PumpCurve& p : set) sum += head(p, q);
      worst_series = std::max(worst_series, std::abs(si(flow_at_head(one_line, sum)) - si(q)) / last);
      const double low = si(one_main.points.back().head), high = si(one_main.points.front().head);
      const Length h = from_si<Length>(low + (high - low) * i / 4000);
      VolumeFlow joint;
      for (const VolumeFlow& share : parallel_flows(set, h)) joint += share;
      worst_parallel = std::max(worst_parallel, std::abs(si(flow_at_head(one_main, h)) - si(joint)) / most);
    }
    CAPTURE(worst_series);
    CAPTURE(worst_parallel);
    CHECK(worst_series < 1e-3);
    CHECK(worst_parallel < 1e-3);
  }
}

TEST_CASE("equal pumps: twice the flow in parallel, twice the head in series, exact") {
  for (const auto between : {Interpolation::linear, Interpolation::monotone}) {
    const PumpCurve one = demo_pump(between);
    CHECK(near(head(parallel({one, one}), 14000_gph), head(one, 7000_gph), 1e-14));
    CHECK(near(head(series({one, one, one}), 7000_gph), 3.0 * head(one, 7000_gph), 1e-14));
  }
}

TEST_CASE("pump sets: what no curve covers is refused") {
  CHECK(contains(message_of<InvalidInput>([] { parallel({}); }), "number of pumps"));
  CHECK(contains(message_of<InvalidInput>([] { series({}); }), "number of pumps"));
  CHECK(contains(message_of<InvalidInput>([] { parallel_flows({PumpCurve{}}, 1_m); }), "points"));
  CHECK(contains(message_of<OutOfValidity>([] { parallel_flows({strong(), weak()}, 31_ft); }), "head"));
  CHECK(contains(message_of<OutOfValidity>([] { parallel_flows({strong(), weak()}, 1_ft); }), "head"));
  CHECK(contains(message_of<InvalidInput>([] { parallel_flows({strong()}, from_si<Length>(not_a_number)); }), "head"));
  const PumpCurve low{.points = {{0_gpm, 2_m}, {5_gpm, 1_m}}};
  const PumpCurve late{.points = {{10_gpm, 5_m}, {20_gpm, 3_m}}};
  CHECK(contains(message_of<OutOfValidity>([&] { series({low, late}); }), "5"));
  CHECK(contains(message_of<OutOfValidity>([&] {
                   parallel({{.points = {{1_gpm, 2_m}, {5_gpm, 1_m}}}, late});
                 }),
                 "ends"));
}

TEST_CASE("affinity laws: flow as the speed, head as its square, all along the curve") {
  for (const auto between : {Interpolation::linear, Interpolation::monotone}) {
    const PumpCurve one = demo_pump(between), slow = at_speed(one, 0.8);
    for (double gph = 0; gph <= 13500; gph += 450)
      CHECK(near(head(slow, 0.8 * gph * units::gph), 0.64 * head(one, gph * units::gph), 1e-13));
  }
}

TEST_CASE("speed control: the speed found gives the wanted head at the wanted flow") {
  const PumpCurve one = strong();
  for (const double r : {0.5, 0.63, 0.9, 1.0, 1.2})
    for (double gph = 0; gph < 13000; gph += 1000)
      CHECK(near(speed_ratio_for(one, r * gph * units::gph, r * r * head(one, gph * units::gph)), r, 1e-12));
  CHECK(contains(message_of<OutOfValidity>([&] { speed_ratio_for(one, 1000_gph, 60_ft); }), "fastest"));
  CHECK(contains(message_of<OutOfValidity>([&] { speed_ratio_for(one, 1000_gph, 1_ft); }), "slowest"));
  CHECK(contains(message_of<OutOfValidity>([&] { speed_ratio_for(one, 30000_gph, 1_ft); }), "inside"));
}

TEST_CASE("efficiency falls with speed, is kept at full speed [Sarbu & Borza 1998, by hand]") {
  CHECK(efficiency_at_speed(0.7, 1.0) == 0.7);
  CHECK(test::within(efficiency_at_speed(0.7, 0.5), 0.67847, 5e-6));  // 1 - 0.3 x 2^0.1, 2^0.1 = 1.07177
}

TEST_CASE("pump speed and wear: bad input is refused by name") {
  CHECK(contains(message_of<OutOfValidity>([] { at_speed(strong(), 0.49); }), "speed ratio"));
  CHECK(contains(message_of<OutOfValidity>([] { at_speed(strong(), 1.21); }), "speed ratio"));
  CHECK(contains(message_of<InvalidInput>([] { at_speed(strong(), not_a_number); }), "speed ratio"));
  CHECK(contains(message_of<InvalidInput>([] { at_speed(PumpCurve{}, 0.9); }), "points"));
  CHECK(contains(message_of<InvalidInput>([] { efficiency_at_speed(1.1, 0.9); }), "efficiency"));
  CHECK(contains(message_of<InvalidInput>([] { efficiency_at_speed(0.01, 0.5); }), "efficiency"));
  CHECK(contains(message_of<InvalidInput>([] { speed_ratio_for(strong(), -1_gph, 1_m); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { speed_ratio_for(strong(), 1_gph, 0_m); }), "head"));
  CHECK(contains(message_of<InvalidInput>([] { worn(strong(), 0.0, 1.0); }), "flow factor"));
  CHECK(contains(message_of<InvalidInput>([] { worn(strong(), 1.0, 1.1); }), "head factor"));
}
