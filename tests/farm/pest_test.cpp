#include "theca/farm/pest.hpp"

#include <algorithm>
#include <cmath>

#include "support/near.hpp"
#include "theca/farm.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::near;
using test::within;

namespace {
constexpr auto day = units::day;

/// Stages without duration: births go straight to adults, which grow by the logistic law.
const PestLife simple{.births = 0.05_per_d};
/// Eggs hatch after 11 d and lay after 38 d, as the flatworm of Barton et al. 2019 at 27 degC; the rest is invented.
const PestLife flatworm{.egg = {11.0 * day, 0.02_per_d},
                        .juvenile = {27.0 * day, 0.03_per_d},
                        .births = 1.5_per_d,
                        .adult_death = 0.02_per_d,
                        .adult_death_hungry = 0.1_per_d};

PestTanks equal_tanks(std::size_t count, const Frequency& transfer) {
  return {.slots = std::vector<long>(count, 200),
          .adults_per_slot = 5.0,
          .juvenile_transfer = transfer,
          .adult_transfer = transfer};
}
const Time year = 365.0 * day;
}  // namespace

TEST_CASE(
    "a life table's growth rate [Gotelli 1995, A Primer of Ecology, table 3.1: r = 0.776 per year, from memory]") {
  const Time one = 365.0 * units::day;
  const std::vector<AgeClass> table{{one, 0.8, 2.0}, {2.0 * one, 0.4, 3.0}, {3.0 * one, 0.1, 1.0}};
  CHECK(within(si(life_table_growth_rate(table)) * si(one), 0.776, 0.0005));
}

TEST_CASE("a pest without stages in one tank grows by the logistic law [Verhulst, closed form]") {
  const auto course = pest_course(simple, {}, equal_tanks(1, 0.0_per_d), {}, 0, 10.0, year, 73.0 * day);
  for (std::size_t i = 0; i < course.time.size(); ++i) {
    const double grown = std::exp(0.05 * si(course.time[i]) / 86400.0);
    CHECK(near(course.adults[i], 1000.0 * 10.0 * grown / (1000.0 + 10.0 * (grown - 1.0)), 1e-7));
  }
}

TEST_CASE("a pest with stages grows at the rate of the Euler-Lotka equation while food lasts") {
  PestTanks tanks = equal_tanks(1, 0.0_per_d);
  tanks.adults_per_slot = 1e25;
  const auto course = pest_course(flatworm, {}, tanks, {}, 0, 1.0, 600.0 * day, 10.0 * day);
  const std::size_t last = course.adults.size() - 1;
  const double rate = std::log(course.adults[last] / course.adults[last - 10]) / 100.0;
  CHECK(near(rate, si(pest_growth_rate(flatworm)) * 86400.0, 1e-6));
}

TEST_CASE("predators that take more than is born make the pest die out at the Euler-Lotka rate") {
  // shrimp took 82 % of the adults and 64 % of the eggs in a day [Barton et al. 2020]
  const Predation shrimp{.egg = -std::log(0.36) * 1.0_per_d, .adult = -std::log(0.18) * 1.0_per_d};
  CHECK(si(pest_growth_rate(flatworm)) > 0.0);
  CHECK(si(pest_growth_rate(flatworm, shrimp)) < 0.0);
  const auto course = pest_course(flatworm, shrimp, equal_tanks(1, 0.0_per_d), {}, 0, 100.0, 400.0 * day, 100.0 * day);
  CHECK(course.adults.back() < 1e-3);
}

TEST_CASE("without births the growth rate is the loss of the adults") {
  PestLife barren = flatworm;
  barren.births = 0.0_per_d;
  CHECK(near(pest_growth_rate(barren), -0.02_per_d, 1e-12));
}

TEST_CASE("a slow stage does not hide a positive growth rate, a losing one gives a negative") {
  PestLife slow = flatworm;
  slow.egg.duration = 1000.0 * day;
  slow.births = 0.001_per_d;
  slow.adult_death = 2.0_per_d;
  const double r = si(pest_growth_rate(slow)) * 86400.0;
  CHECK(r < 0.0);
  CHECK(r > -2.0);
}

TEST_CASE("water that all tanks share carries the pest about and makes or loses none") {
  PestLife still{.births = 0.0_per_d};
  const auto course = pest_course(still, {}, equal_tanks(7, 0.3_per_d), {}, 3, 70.0, 60.0 * day, 5.0 * day);
  for (const double all : course.adults) CHECK(near(all, 70.0, 1e-8));
  CHECK(course.infested_tanks.front() == 1.0);
  CHECK(course.infested_tanks.back() == 7.0);
}

TEST_CASE("with no transfer the pest stays in its tank") {
  const auto course = pest_course(flatworm, {}, equal_tanks(5, 0.0_per_d), {}, 2, 50.0, year, 30.0 * day);
  CHECK(*std::max_element(course.infested_tanks.begin(), course.infested_tanks.end()) == 1.0);
}

TEST_CASE("a dip that kills every stage ends the outbreak at the first move of an infested tank") {
  PestRotation rotation{.interval = 30.0 * day, .fallow = 1, .dip = {1.0, 1.0, 1.0}};
  const auto course = pest_course(flatworm, {}, equal_tanks(4, 0.0_per_d), rotation, 1, 50.0, 200.0 * day, 10.0 * day);
  CHECK(course.adults.front() == 50.0);
  CHECK(course.adults.back() == 0.0);
}

TEST_CASE("rotation without a dip only carries the pest along: it works no better than none") {
  const PestRotation carried{.interval = 30.0 * day, .fallow = 1};
  const auto with = pest_course(flatworm, {}, equal_tanks(6, 0.0_per_d), carried, 2, 50.0, year, year);
  const auto without = pest_course(flatworm, {}, equal_tanks(6, 0.0_per_d), {}, 2, 50.0, year, year);
  CHECK(near(with.adults.back(), without.adults.back(), 1e-6));
}

TEST_CASE("rotation with a strong dip fails all the same when shared water carries the pest faster than tanks move") {
  const PestRotation rotation{.interval = 35.0 * day, .fallow = 1, .dip = {0.0, 0.95, 0.95}};
  const auto apart = pest_course(flatworm, {}, equal_tanks(14, 0.0_per_d), rotation, 3, 50.0, 2.0 * year, 30.0 * day);
  const auto shared = pest_course(flatworm, {}, equal_tanks(14, 0.01_per_d), rotation, 3, 50.0, 2.0 * year, 30.0 * day);
  const auto without = pest_course(flatworm, {}, equal_tanks(14, 0.01_per_d), {}, 3, 50.0, 2.0 * year, 30.0 * day);
  CHECK(shared.mean_adults_per_slot > 3.0 * apart.mean_adults_per_slot);
  CHECK(shared.mean_adults_per_slot > 0.8 * without.mean_adults_per_slot);
}

TEST_CASE("pest loss follows the odds that a fragment escapes") {
  CHECK(pest_loss(0.0, 0.01_per_d, 100.0 * day) == 0.0);
  CHECK(near(pest_loss(2.0, 0.001_per_d, 50.0 * day), 1.0 - std::exp(-0.1), 1e-12));
}

TEST_CASE("an outbreak out of bounds is refused by name") {
  const auto run = [](const PestLife& life, const PestTanks& tanks, const std::optional<PestRotation>& r, int first,
                      double adults) { return pest_course(life, {}, tanks, r, first, adults, year, 30.0 * day); };
  const PestTanks four = equal_tanks(4, 0.0_per_d);
  PestLife bad = flatworm;
  bad.egg.duration = -1.0 * day;
  CHECK(test::message_of<InvalidInput>([&] { run(bad, four, {}, 0, 1.0); }).find("egg") != std::string::npos);
  CHECK_THROWS_AS(run(flatworm, equal_tanks(0, 0.0_per_d), {}, 0, 1.0), InvalidInput);
  CHECK_THROWS_AS(run(flatworm, four, {}, 4, 1.0), InvalidInput);
  CHECK_THROWS_AS(run(flatworm, four, {}, -1, 1.0), InvalidInput);
  CHECK_THROWS_AS(run(flatworm, four, {}, 0, std::nan("")), InvalidInput);
  const PestRotation rotation{.interval = 30.0 * day, .fallow = 1, .left_behind = 1.5};
  CHECK_THROWS_AS(run(flatworm, four, rotation, 1, 1.0), InvalidInput);
  // the first tank rests at the start
  CHECK_THROWS_AS(run(flatworm, four, PestRotation{.interval = 30.0 * day}, 0, 1.0), InvalidInput);
}
