#include "theca/hydraulics/tee.hpp"

#include <cmath>
#include <limits>

#include "dual.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
Tee equal() { return {.run_bore = 50_mm, .branch_bore = 50_mm}; }
Tee wye(double area_ratio, const Angle& angle) {
  return {.run_bore = 50_mm, .branch_bore = std::sqrt(area_ratio) * 50_mm, .angle = angle};
}
const double angles_deg[] = {30, 40, 45, 60, 90};
const double area_ratios[] = {0.01, 0.1, 0.3, 0.36, 0.5, 0.8, 1.0};
}  // namespace

TEST_CASE("tee: losses are continuous in the flow share from 0 to 1") {
  const double step = 1e-6;
  for (const double angle : angles_deg)
    for (const double area : area_ratios) {
      const Tee tee = wye(area, angle * units::degree);
      for (int i = 0; i < 1000; ++i) {
        const double q = i / 1000.0 + 0.5e-3;
        // The steepest of them is the branch: A (2 v + 2 cos a) / area <= 2.2 (1/area^2 + 1/area) + 4 per share.
        const double steepest = 2.2 * (1 / (area * area) + 1 / area) + 5.0;
        for (const auto rule : {&dividing_tee, &combining_tee}) {
          CHECK(std::abs(rule(tee, q + step).branch_K - rule(tee, q - step).branch_K) < steepest * 2 * step);
          CHECK(std::abs(rule(tee, q + step).run_K - rule(tee, q - step).run_K) < steepest * 2 * step);
        }
      }
    }
  // At the places where printed rules change over, with steps smaller than any jump printed there.
  for (const double q : {5.0 / 14, 0.35 / 0.9, 0.4, 0.5, 0.6, 2.0 / 3})
    for (const double area : {0.3, 1.0})
      for (const auto rule : {&dividing_tee, &combining_tee}) {
        const Tee tee = wye(area, 90_deg);
        CHECK(test::within(rule(tee, q + 1e-9).branch_K, rule(tee, q - 1e-9).branch_K, 1e-7));
        CHECK(test::within(rule(tee, q + 1e-9).run_K, rule(tee, q - 1e-9).run_K, 1e-7));
      }
}

TEST_CASE("tee: a slow branch is drawn along by the run, and a run gains head where a little is taken off") {
  CHECK(combining_tee(equal(), 0.05).branch_K < 0.0);
  CHECK(dividing_tee(equal(), 0.3).run_K < 0.0);
  CHECK(combining_tee(wye(0.3, 30_deg), 0.6).run_K < 0.0);
}

TEST_CASE("tee: nothing turning costs the run nothing; into a closed branch the whole velocity head is lost") {
  for (const double angle : angles_deg) {
    const Tee tee = wye(1.0, angle * units::degree);
    CHECK(dividing_tee(tee, 0.0).run_K == 0.0);
    CHECK(combining_tee(tee, 0.0).run_K == 0.0);
    CHECK(near(dividing_tee(tee, 0.0).branch_K, 1.0, 1e-15));
  }
}

TEST_CASE("tee: the kernel takes a scalar that carries its derivative") {
  using test::Dual;
  for (const double q : {0.1, 0.37, 0.55, 0.9}) {
    const double h = 1e-6, area = 0.5, cosine = 0.5;
    const auto d = kernel::dividing_tee(Dual(q, 1.0), Dual(area), Dual(cosine));
    const auto up = kernel::dividing_tee(q + h, area, cosine), down = kernel::dividing_tee(q - h, area, cosine);
    CHECK(test::within(d.run_K.d, (up.run_K - down.run_K) / (2 * h), 1e-8));
    CHECK(test::within(d.branch_K.d, (up.branch_K - down.branch_K) / (2 * h), 1e-8));
    const auto c = kernel::combining_tee(Dual(q, 1.0), Dual(area), Dual(cosine));
    const auto up2 = kernel::combining_tee(q + h, area, cosine), down2 = kernel::combining_tee(q - h, area, cosine);
    CHECK(test::within(c.run_K.d, (up2.run_K - down2.run_K) / (2 * h), 1e-8));
    CHECK(test::within(c.branch_K.d, (up2.branch_K - down2.branch_K) / (2 * h), 1e-8));
  }
}

TEST_CASE("tee: head loss is K times the velocity head of the combined flow; none at rest") {
  const double v = 3e-3 / (0.25 * 3.14159265358979323846 * 0.05 * 0.05);
  const double velocity_head = v * v / (2 * 9.80665);
  const TeeHeadLoss split = dividing_tee_head_loss(equal(), 2e-3_m3_s, 1e-3_m3_s);
  CHECK(near(si(split.branch), dividing_tee(equal(), 1.0 / 3).branch_K * velocity_head, 1e-13));
  CHECK(near(si(split.run), dividing_tee(equal(), 1.0 / 3).run_K * velocity_head, 1e-13));
  const TeeHeadLoss join = combining_tee_head_loss(equal(), 2e-3_m3_s, 1e-3_m3_s);
  CHECK(near(si(join.branch), combining_tee(equal(), 1.0 / 3).branch_K * velocity_head, 1e-13));
  CHECK(near(si(join.run), combining_tee(equal(), 1.0 / 3).run_K * velocity_head, 1e-13));
  CHECK(si(dividing_tee_head_loss(equal(), 0_m3_s, 0_m3_s).branch) == 0.0);
}

TEST_CASE("tee: a bull-head loses the velocity head into a side without flow, and the same from both sides") {
  CHECK(dividing_bullhead_K(equal(), 0.0) == 1.0);
  CHECK(near(dividing_bullhead_K(equal(), 0.5), 1.375, 1e-15));
  for (const double s : {0.1, 0.3, 0.5})
    CHECK(near(combining_bullhead_K(equal(), s), combining_bullhead_K(equal(), 1.0 - s), 1e-14));
}

TEST_CASE("tee: bad input is refused by name") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(contains(message_of<InvalidInput>([] { dividing_tee({.run_bore = 0_mm, .branch_bore = 1_mm}, 0.5); }),
                 "run bore"));
  CHECK(contains(message_of<InvalidInput>([] { combining_tee({.run_bore = 1_mm, .branch_bore = -1_mm}, 0.5); }),
                 "branch bore"));
  CHECK(contains(message_of<InvalidInput>([nan] { dividing_tee(equal(), nan); }), "branch share"));
  CHECK(contains(message_of<InvalidInput>([] { combining_tee(equal(), 1.01); }), "branch share"));
  CHECK(contains(message_of<OutOfValidity>([] { dividing_tee({.run_bore = 50_mm, .branch_bore = 4_mm}, 0.5); }),
                 "branch area"));
  CHECK(contains(message_of<OutOfValidity>([] { dividing_tee({.run_bore = 50_mm, .branch_bore = 60_mm}, 0.5); }),
                 "branch area"));
  CHECK(contains(message_of<OutOfValidity>([] { combining_tee(wye(1.0, 75_deg), 0.5); }), "angle = 75 deg"));
  CHECK(contains(message_of<OutOfValidity>([] { dividing_bullhead_K(wye(1.0, 45_deg), 0.5); }), "angle = 45 deg"));
  CHECK(contains(message_of<InvalidInput>([] { combining_bullhead_K(equal(), 1.5); }), "side share"));
  CHECK(dividing_tee(wye(0.01, 90_deg), 0.5).branch_K > 0.0);  // bores whose squares come out a rounding below 0.01
  CHECK(contains(message_of<InvalidInput>([nan] { combining_tee(wye(1.0, nan * units::degree), 0.5); }), "angle"));
  CHECK(contains(message_of<InvalidInput>([] { dividing_tee_head_loss(equal(), -1_m3_s, 1_m3_s); }), "run flow"));
  CHECK(contains(message_of<InvalidInput>([] { combining_tee_head_loss(equal(), 1_m3_s, -1_m3_s); }), "branch flow"));
}
