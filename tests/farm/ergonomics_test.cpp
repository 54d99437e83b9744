// Work height and head clearance.
#include "theca/farm/ergonomics.hpp"

#include "support/near.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::near;
using test::within;

TEST_CASE(
    "work height: inside, above and below the band for light work [Pheasant & Haslegrave 2006: 5 to 10 cm below]") {
  const Body body = pheasant_female_5();  // elbow 37.2 + 1 in
  const Length elbow = 38.2_in;
  const WorkHeight inside = work_height(body, elbow - 7_cm, WorkKind::light);
  CHECK(near(inside.hands_below_elbow, 7_cm, 1e-9));
  CHECK(inside.outside_band == 0_m);
  CHECK_FALSE(inside.too_high);
  const WorkHeight high = work_height(body, elbow + 2_cm, WorkKind::light);
  CHECK(near(high.outside_band, 7_cm, 1e-9));
  CHECK(high.too_high);
  const WorkHeight low = work_height(body, elbow - 25_cm, WorkKind::light);
  CHECK(near(low.outside_band, 15_cm, 1e-9));
  CHECK_FALSE(low.too_high);
}

TEST_CASE("work height: precision above the elbow, heavy work well below it") {
  const Body body = pheasant_male_95();
  CHECK(work_height(body, 47.9_in + 7_cm, WorkKind::precision).outside_band == 0_m);
  CHECK(near(work_height(body, 47.9_in, WorkKind::precision).outside_band, 5_cm, 1e-9));
  CHECK(work_height(body, 47.9_in - 20_cm, WorkKind::heavy).outside_band == 0_m);
}

TEST_CASE("head clearance: fixture height less shod stature, negative when the head hits") {
  const Length fixture = fixture_height(32_in, 14.5_in, 30_in);
  CHECK(near(fixture, 76.5_in, 1e-12));
  CHECK(within(head_clearance(pheasant_male_95(), fixture), 1.9_in, from_si<Length>(1e-9)));
  CHECK(within(head_clearance(pheasant_male_95(), fixture_height(32_in, 14.5_in, 12_in)), -16.1_in,
               from_si<Length>(1e-9)));
}

TEST_CASE("work height and head clearance: bad input is refused by name") {
  CHECK(test::contains(test::message_of<InvalidInput>([] { work_height(pheasant_male_95(), -1_m, WorkKind::light); }),
                       "hands height"));
  CHECK(test::contains(test::message_of<InvalidInput>([] { head_clearance(pheasant_male_95(), -1_m); }), "underside"));
  CHECK(test::contains(test::message_of<InvalidInput>([] { fixture_height(1_m, 1_m, -1_m); }), "mounting height"));
  Body bad = pheasant_male_95();
  bad.footwear = -1_in;
  CHECK(test::contains(test::message_of<InvalidInput>([&] { head_clearance(bad, 2_m); }), "footwear"));
  bad = pheasant_male_95();
  bad.elbow_height = 2_m;
  CHECK(test::contains(test::message_of<InvalidInput>([&] { head_clearance(bad, 2_m); }), "elbow height"));
}
