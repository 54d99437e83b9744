// Lines of tanks and aisles in a room; slots.
#include "theca/farm/layout.hpp"

#include <array>

#include "support/near.hpp"
#include "theca/farm/slots.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::near;

TEST_CASE("layout: strips across a room add up, and the narrowest aisle is found") {
  const std::array strips{Strip{StripKind::tanks, 36_in, "north wall"}, Strip{StripKind::aisle, 48_in, "aisle 1"},
                          Strip{StripKind::tanks, 30_in, "row 1"}, Strip{StripKind::aisle, 34_in, "aisle 2"}};
  const Fit fit = fit_across(strips, 144_in);
  CHECK(near(fit.used, 148_in, 1e-12));
  CHECK(near(fit.spare, -4_in, 1e-9));
  CHECK(narrowest_aisle(strips).name == "aisle 2");
}

TEST_CASE("layout: a line of tanks along a room, and the most that fit [counting]") {
  // 5 x 96 + 4 x 6 + 72 = 576 in = 48 ft exactly
  const Fit fit = fit_along(5, 96_in, 6_in, 72_in, 48_ft);
  CHECK(near(fit.used, 576_in, 1e-12));
  CHECK(test::within(fit.spare, 0_m, from_si<Length>(1e-9)));
  CHECK(most_tanks_along(96_in, 6_in, 72_in, 48_ft) == 5);
  CHECK(most_tanks_along(96_in, 6_in, 72_in, 47.9_ft) == 4);
  CHECK(most_tanks_along(96_in, 6_in, 72_in, 12_ft) == 0);
  CHECK(most_tanks_along(96_in, 6_in, 72_in, 5_ft) == 0);
  for (int n = 1; n < 40; ++n) {
    const Length room = fit_along(n, 31_in, 5_in, 60_in, 1_m).used;
    CHECK(most_tanks_along(31_in, 5_in, 60_in, room) == n);
  }
}

TEST_CASE("layout: slots and footprints per floor area") {
  CHECK(near(in(slots_per_floor_area(3000, 1000_ft2), units::per_square_foot), 3.0, 1e-12));
  CHECK(near(footprint_share(20_m2, 80_m2), 0.25, 1e-12));
}

TEST_CASE("slots: floor of usable area over the square of the pitch [hand count]") {
  CHECK(slots(90_in, 30_in, 1.0, 3_in) == 300);  // 30 x 10, exact in inches
  CHECK(slots(90_in, 30_in, 0.85, 3_in) == 255);
  CHECK(slots(90_in, 29.9_in, 0.85, 3_in) == 254);
  CHECK(slots(90_in, 30_in, 0.0, 3_in) == 0);
  const std::array groups{TankGroup{10, 255}, TankGroup{4, 300}};
  CHECK(farm_slots(groups) == 3750);
}

TEST_CASE("slots: the pitch for a number of slots gives just that number") {
  for (const long wanted : {1L, 17L, 255L, 4000L}) {
    const Length pitch = pitch_for(wanted, 90_in, 29_in, 0.85);
    CHECK(slots(90_in, 29_in, 0.85, pitch * (1.0 - 1e-9)) == wanted);
    CHECK(slots(90_in, 29_in, 0.85, pitch * (1.0 + 1e-9)) == wanted - 1);
  }
}

TEST_CASE("layout and slots: bad input is refused by name") {
  const auto says = [](auto f, const char* what) { return test::contains(test::message_of<InvalidInput>(f), what); };
  const std::array no_aisle{Strip{StripKind::tanks, 1_m, "row"}};
  const std::array negative{Strip{StripKind::aisle, -1_m, "south"}};
  CHECK(says([&] { narrowest_aisle(no_aisle); }, "aisles"));
  CHECK(says([&] { narrowest_aisle(negative); }, "south"));
  CHECK(says([&] { fit_across(negative, 1_m); }, "south"));
  CHECK(says([&] { fit_across({}, 1_m); }, "strips"));
  CHECK(says([&] { fit_across(no_aisle, 0_m); }, "room width"));
  CHECK(says([] { fit_along(0, 1_m, 0_m, 0_m, 1_m); }, "tanks"));
  CHECK(says([] { fit_along(1, 1_m, -1_m, 0_m, 1_m); }, "gap"));
  CHECK(says([] { most_tanks_along(0_m, 1_m, 0_m, 1_m); }, "tank length"));
  CHECK(says([] { most_tanks_along(1_m, 1_m, 0_m, 0_m); }, "room length"));
  CHECK(says([] { most_tanks_along(1_m, 1_m, -1_m, 1_m); }, "end aisles"));
  CHECK(says([] { slots_per_floor_area(-1, 1_m2); }, "slots"));
  CHECK(says([] { slots_per_floor_area(1, 0_m2); }, "floor area"));
  CHECK(says([] { footprint_share(2_m2, 1_m2); }, "footprints"));
  CHECK(says([] { slots(0_m, 1_m, 1.0, 1_in); }, "inside length"));
  CHECK(says([] { slots(1_m, 1_m, 1.1, 1_in); }, "usable share"));
  CHECK(says([] { slots(1_m, 1_m, 1.0, 0_in); }, "slot pitch"));
  CHECK(says([] { slots(1_m, 1_m, 1.0, 1_nm); }, "slot pitch"));
  const std::array bad{TankGroup{-1, 5}};
  CHECK(says([&] { farm_slots(bad); }, "tanks"));
  CHECK(says([] { pitch_for(0, 1_m, 1_m, 1.0); }, "wanted slots"));
  CHECK(says([] { pitch_for(1, 1_m, 1_m, 0.0); }, "usable share"));
}
