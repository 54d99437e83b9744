#include "theca/farm/walking.hpp"

#include <vector>

#include "support/near.hpp"
#include "theca/error.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

TEST_CASE("walking round: one, two and three aisles of 12 m, 3 m apart [by hand]") {
  const auto round = [](std::size_t aisles, bool back) {
    return in(walking_round(std::vector<Length>(aisles, 12_m), std::vector<Length>(aisles - 1, 3_m), back).distance,
              units::metre);
  };
  CHECK(near(round(1, false), 12.0, 1e-12));
  CHECK(near(round(1, true), 24.0, 1e-12));
  CHECK(near(round(2, false), 27.0, 1e-12));
  CHECK(near(round(2, true), 30.0, 1e-12));  // a rectangle
  CHECK(near(round(3, false), 42.0, 1e-12));
  CHECK(near(round(3, true), 60.0, 1e-12));  // the last aisle twice
  const std::vector<Length> aisle{12_m};
  CHECK(near(walking_round(aisle, {}, true, 0.8_m_s).time, 30_s, 1e-12));
}

TEST_CASE("walking round: impossible ones are refused by name") {
  const std::vector<Length> two{12_m, 10_m}, none{Length(), 10_m}, way{3_m}, back{-1_m};
  const auto refused = [](auto&& call, const char* words) { CHECK(contains(message_of<InvalidInput>(call), words)); };
  refused([] { (void)walking_round({}, {}); }, "number of aisles");
  refused([&] { (void)walking_round(two, {}); }, "ways between aisles");
  refused([&] { (void)walking_round(none, way); }, "length of an aisle");
  refused([&] { (void)walking_round(two, back); }, "way between aisles");
  refused([&] { (void)walking_round(two, way, true, Velocity()); }, "pace");
}
