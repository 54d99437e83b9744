#include "theca/light/checks.hpp"

#include "demo_luminaire.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;

namespace {
PpfdMap by_hand() {  // mean 250, lowest 100, highest 400, min/mean 0.4
  return {.nx = 2,
          .ny = 2,
          .length = 40_in,
          .width = 20_in,
          .plane_depth = 8_in,
          .values = {100e-6, 200e-6, 300e-6, 400e-6}};
}
}  // namespace

TEST_CASE("light checks: demand, capacity, verdict and place by hand") {
  const PpfdTarget target = test::demo_target();  // 200 to 350 mean, 450 highest, 0.5
  const Check lower = lower_mean_check(by_hand(), target);
  CHECK(lower.verdict == Verdict::holds);
  CHECK(near(lower.utilisation, 200.0 / 250.0, 1e-13));
  CHECK(lower.demand.shown_unit == "umol/m2/s");
  CHECK(near(lower.capacity.shown_value, 250.0, 1e-13));
  CHECK(contains(lower.where, "plane 8 in"));

  const Check upper = upper_mean_check(by_hand(), target);
  CHECK(upper.verdict == Verdict::holds);
  CHECK(near(upper.utilisation, 250.0 / 350.0, 1e-13));

  const Check highest = highest_check(by_hand(), target);
  CHECK(highest.verdict == Verdict::holds);
  CHECK(near(highest.utilisation, 400.0 / 450.0, 1e-13));
  CHECK(contains(highest.where, "30 in along, 15 in across"));

  const Check uniformity = uniformity_check(by_hand(), target);
  CHECK(uniformity.verdict == Verdict::fails);
  CHECK(near(uniformity.utilisation, 0.5 / 0.4, 1e-13));
  CHECK(text(uniformity.capacity) == "40 %");
  CHECK(contains(uniformity.where, "10 in along, 5 in across"));

  for (const Check& check : {lower, upper, highest, uniformity}) {
    CHECK(contains(check.source, "walls ignored"));
    CHECK(contains(check.caution, "residual-current"));
    CHECK(contains(check.caution, "eyes"));
    CHECK(contains(check.caution, "mounting"));
    CHECK(check.uncertainty == 0.10);
  }
}

TEST_CASE("light checks: within the model's 10 % the verdict is marginal, beyond the limit it fails") {
  PpfdTarget target = test::demo_target();
  target.lower_mean = 240_umol_m2_s;
  target.upper_mean = 260_umol_m2_s;
  target.highest = 410_umol_m2_s;
  target.min_over_mean = 0.38;
  CHECK(lower_mean_check(by_hand(), target).verdict == Verdict::marginal);
  CHECK(upper_mean_check(by_hand(), target).verdict == Verdict::marginal);
  CHECK(highest_check(by_hand(), target).verdict == Verdict::marginal);
  CHECK(uniformity_check(by_hand(), target).verdict == Verdict::marginal);
  CHECK(lower_mean_check(aged(by_hand(), 0.85), target).verdict == Verdict::fails);
  target.lower_mean = 100_umol_m2_s;
  target.upper_mean = 240_umol_m2_s;
  target.highest = 390_umol_m2_s;
  CHECK(upper_mean_check(by_hand(), target).verdict == Verdict::fails);
  CHECK(highest_check(by_hand(), target).verdict == Verdict::fails);
}

TEST_CASE("light checks: the demo's three proposals, walls ignored") {
  const Waterbody water = test::demo_water();
  const PpfdTarget target = test::demo_target();
  const auto lit = [&](int count, Length height, Angle heading) {
    return map(evenly_spaced(test::demo_luminaire(), count, water.length, water.width, height, heading), water, 8_in,
               24, 8);
  };
  const auto low = lit(4, 12_in, Angle()), few = lit(4, 30_in, Angle()), seven = lit(7, 30_in, 90_deg);
  CHECK(uniformity_check(low, target).verdict == Verdict::fails);
  CHECK(lower_mean_check(few, target).verdict == Verdict::fails);
  CHECK(lower_mean_check(seven, target).verdict == Verdict::holds);
  CHECK(upper_mean_check(seven, target).verdict == Verdict::holds);
  CHECK(highest_check(seven, target).verdict == Verdict::holds);
  CHECK(uniformity_check(seven, target).verdict == Verdict::holds);
  // The same rows summed by a separate program (root by bracketing on the angle, flux tube by a finite difference of
  // the annulus, Fresnel in sine and tangent form), to the digits it agrees with itself on.
  CHECK(near(low.mean(), 296.39442_umol_m2_s, 1e-7));
  CHECK(near(low.min(), 111.89874_umol_m2_s, 1e-7));
  CHECK(near(seven.mean(), 280.86692_umol_m2_s, 1e-7));
  CHECK(near(seven.max(), 354.93912_umol_m2_s, 1e-7));
  CHECK(near(seven.min_over_mean(), 0.5798697, 1e-7));
}

TEST_CASE("light checks: the source says how the walls were reckoned with, also after ageing") {
  Waterbody water = test::demo_water();
  water.walls = Walls::mirror;
  water.wall_reflectance = 0.9;
  const auto row = evenly_spaced(test::demo_luminaire(), 2, water.length, water.width, 12_in, Angle());
  const PpfdMap aged_map = aged(map(row, water, 8_in, 2, 2), 0.9);
  CHECK(aged_map.wall_reflectance == 0.9);
  CHECK(contains(lower_mean_check(aged_map, test::demo_target()).source, "walls mirror 90 %"));
}

TEST_CASE("light checks: bad input is refused by name") {
  PpfdTarget target = test::demo_target();
  CHECK(contains(message_of<InvalidInput>([&] { lower_mean_check(PpfdMap(), target); }), "number of values"));
  CHECK(contains(message_of<InvalidInput>([&] { highest_check(PpfdMap(), target); }), "number of values"));
  target.min_over_mean = -0.1;
  CHECK(contains(message_of<InvalidInput>([&] { uniformity_check(by_hand(), target); }), "min over mean"));
  CHECK(contains(message_of<InvalidInput>([&] { upper_mean_check(by_hand(), target); }), "min over mean"));
}
