#include "theca/light/placement.hpp"

#include <limits>

#include "demo_luminaire.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;

namespace {
const LitPlane rack{.water = test::demo_water(), .depth = 8_in};

PpfdMap lit_by(int count, Length height, Angle heading = 90_deg) {
  const auto row = evenly_spaced(test::demo_luminaire(), count, rack.water.length, rack.water.width, height, heading);
  return map(row, rack.water, rack.depth, 24, 8);
}
}  // namespace

TEST_CASE("mounting_height_for: the field at the height found has the mean asked for [round trip]") {
  for (const double mean : {150.0, 200.0, 280.0, 350.0}) {
    const auto target = mean * units::umol_per_square_metre_second;
    const Length height = mounting_height_for(target, test::demo_luminaire(), 7, rack, 12_in, 72_in, 90_deg);
    CHECK(near(lit_by(7, height).mean(), target, 1e-10));
  }
}

TEST_CASE("mounting_height_for: an end of the range is found exactly") {
  const Length found =
      mounting_height_for(lit_by(4, 30_in).mean(), test::demo_luminaire(), 4, rack, 30_in, 60_in, 90_deg);
  CHECK(near(found, 30_in, 1e-12));
  const Length top =
      mounting_height_for(lit_by(4, 60_in).mean(), test::demo_luminaire(), 4, rack, 30_in, 60_in, 90_deg);
  CHECK(near(top, 60_in, 1e-12));
}

TEST_CASE("mounting_height_for: a mean out of reach is refused with the means that are in reach") {
  const auto text = message_of<InvalidInput>(
      [] { mounting_height_for(900_umol_m2_s, test::demo_luminaire(), 4, rack, 12_in, 72_in); });
  CHECK(contains(text, "target mean"));
  CHECK(contains(text, theca::text(lit_by(4, 12_in, Angle()).mean())));
  CHECK(contains(text, theca::text(lit_by(4, 72_in, Angle()).mean())));
}

TEST_CASE("fewest_luminaires: the count found meets the target, one fewer does not") {
  for (const Length& height : {20_in, 30_in, 36_in}) {
    const auto found = fewest_luminaires(test::demo_target(), test::demo_luminaire(), rack, height, 15, 90_deg);
    REQUIRE(found.has_value());
    const int count = static_cast<int>(found->luminaires.size());
    CHECK(found->map.values == lit_by(count, height).values);
    CHECK(meets(found->map, test::demo_target()));
    for (int fewer = 1; fewer < count; ++fewer) CHECK_FALSE(meets(lit_by(fewer, height), test::demo_target()));
  }
}

TEST_CASE("fewest_luminaires: nothing where no count will do, and none that overlaps is tried") {
  // 12 in is too low for an even field before it gets too bright.
  CHECK_FALSE(fewest_luminaires(test::demo_target(), test::demo_luminaire(), rack, 12_in, 15, 90_deg).has_value());
  // Lengthwise only 5 of 18 in fit on 95 in; at 36 in it takes 6.
  CHECK_FALSE(fewest_luminaires(test::demo_target(), test::demo_luminaire(), rack, 36_in, 15).has_value());
  CHECK_FALSE(fewest_luminaires(test::demo_target(), test::demo_luminaire(), rack, 36_in, 3, 90_deg).has_value());
}

TEST_CASE("meets: each limit of the target is looked at") {
  const PpfdMap lit = lit_by(7, 30_in);
  CHECK(meets(lit, test::demo_target()));
  const auto changed = [&](auto change) {
    PpfdTarget target = test::demo_target();
    change(target);
    return meets(lit, target);
  };
  CHECK_FALSE(changed([&](auto& t) { t.lower_mean = 1.001 * lit.mean(); }));
  CHECK_FALSE(changed([&](auto& t) { t.upper_mean = 0.999 * lit.mean(); }));
  CHECK_FALSE(changed([&](auto& t) { t.highest = 0.999 * lit.max(); }));
  CHECK_FALSE(changed([&](auto& t) { t.min_over_mean = 1.001 * lit.min_over_mean(); }));
}

TEST_CASE("placement: bad input is refused by name") {
  const auto lamp = test::demo_luminaire();
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto target_refused = [](auto change) {
    PpfdTarget target = test::demo_target();
    change(target);
    return message_of<InvalidInput>([&] { require_valid(target); });
  };
  CHECK(contains(target_refused([](auto& t) { t.lower_mean = -1.0 * 1_umol_m2_s; }), "lower mean"));
  CHECK(contains(target_refused([](auto& t) { t.upper_mean = 100_umol_m2_s; }), "upper mean"));
  CHECK(contains(target_refused([&](auto& t) { t.upper_mean = from_si<PhotonFluxDensity>(nan); }), "upper mean"));
  CHECK(contains(target_refused([](auto& t) { t.highest = 100_umol_m2_s; }), "highest"));
  CHECK(contains(target_refused([](auto& t) { t.min_over_mean = 1.5; }), "min over mean"));
  const auto mean = 200_umol_m2_s;
  CHECK(contains(message_of<InvalidInput>([&] { mounting_height_for(PhotonFluxDensity(), lamp, 4, rack, 1_m, 2_m); }),
                 "target mean"));
  CHECK(contains(message_of<InvalidInput>([&] { mounting_height_for(mean, lamp, 4, rack, Length(), 2_m); }), "lowest"));
  CHECK(contains(message_of<InvalidInput>([&] { mounting_height_for(mean, lamp, 4, rack, 2_m, 1_m); }), "lowest"));
  CHECK(contains(message_of<InvalidInput>([&] { mounting_height_for(mean, lamp, 4, rack, 1_m, from_si<Length>(nan)); }),
                 "highest"));
  CHECK(contains(message_of<InvalidInput>([&] { mounting_height_for(mean, lamp, 0, rack, 1_m, 2_m); }), "count"));
  CHECK(
      contains(message_of<InvalidInput>([&] { fewest_luminaires(test::demo_target(), lamp, rack, 1_m, 0); }), "most"));
  CHECK(contains(message_of<InvalidInput>([&] { fewest_luminaires(test::demo_target(), lamp, rack, Length(), 4); }),
                 "mounting height"));
}
