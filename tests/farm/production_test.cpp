// Growth, cycle time, yield, rotation.
#include <array>
#include <cmath>
#include <map>
#include <vector>

#include "support/near.hpp"
#include "theca/farm/growth.hpp"
#include "theca/farm/rotation.hpp"
#include "theca/farm/yield.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;

TEST_CASE("growth: the doubling time is ln 2 over the rate, and time and area are inverses") {
  const Frequency mu = 0.01 * units::per_day;
  CHECK(near(growth_time(9_cm2, 18_cm2, mu), std::log(2.0) * 100.0 * units::day, 1e-12));
  CHECK(near(grown_area(9_cm2, mu, growth_time(9_cm2, 33_cm2, mu)), 33_cm2, 1e-12));
  CHECK(near(growth_rate(9_cm2, 33_cm2, growth_time(9_cm2, 33_cm2, mu)), mu, 1e-12));
  CHECK(grown_area(9_cm2, -mu, 10_d) < 9_cm2);
}

TEST_CASE("growth: area found by small Euler steps agrees with the exponential") {
  double area = 9.0;
  constexpr int steps = 1000000;
  for (int i = 0; i < steps; ++i) area += area * 0.0088 * (150.0 / steps);
  CHECK(near(in(grown_area(9_cm2, 0.0088 * units::per_day, 150_d), units::square_centimetre), area, 2e-6));
}

TEST_CASE("cycle time: healing plus growth; half as long at twice the rate without healing") {
  const Growth slow{9_cm2, 33_cm2, 0.0088 * units::per_day, 0_d};
  const Growth fast{9_cm2, 33_cm2, 0.0176 * units::per_day, 0_d};
  CHECK(near(cycle_time(slow), 2.0 * cycle_time(fast), 1e-12));
  Growth healed = slow;
  healed.healing = 14_d;
  CHECK(near(cycle_time(healed) - cycle_time(slow), 14_d, 1e-9));
}

TEST_CASE("growth: bad input is refused by name") {
  const Frequency mu = 0.01 * units::per_day;
  CHECK(contains(message_of<InvalidInput>([&] { grown_area(-1_cm2, mu, 1_d); }), "area"));
  CHECK(contains(message_of<InvalidInput>([&] { grown_area(1_cm2, mu, -1_d); }), "time"));
  CHECK(contains(message_of<InvalidInput>([&] { grown_area(1_cm2, mu, 1e9 * units::day); }), "finite"));
  CHECK(contains(message_of<InvalidInput>([&] { grown_area(1_cm2, from_si<Frequency>(std::nan("")), 1_d); }), "rate"));
  CHECK(contains(message_of<InvalidInput>([&] { growth_time(2_cm2, 1_cm2, mu); }), "to"));
  CHECK(contains(message_of<InvalidInput>([&] { growth_time(0_cm2, 1_cm2, mu); }), "from"));
  CHECK(contains(message_of<InvalidInput>([&] { growth_time(1_cm2, 2_cm2, 0.0 * mu); }), "rate"));
  CHECK(contains(message_of<InvalidInput>([&] { growth_rate(1_cm2, 2_cm2, 0_d); }), "time"));
  CHECK(contains(message_of<InvalidInput>([&] { cycle_time({1_cm2, 2_cm2, mu, -1_d}); }), "healing"));
}

TEST_CASE("yield: 1000 slots at 90 % occupancy, 80 % survival, half a year, 5 % unsold [hand sum]") {
  const Production p{.slots = 1000, .occupancy = 0.9, .survival = 0.8, .cycle_time = 182.5_d, .unsold = 0.05};
  const Yield y = yield(p);
  CHECK(near(in(y.cut, units::per_year), 1800.0, 1e-12));
  CHECK(near(in(y.produced, units::per_year), 1440.0, 1e-12));
  CHECK(near(in(y.sold, units::per_year), 1368.0, 1e-12));
  CHECK(near(slots_for(y.sold, p), 1000.0, 1e-12));
}

TEST_CASE("yield: bad input is refused by name") {
  const Production good{.slots = 10, .occupancy = 0.9, .survival = 0.8, .cycle_time = 100_d};
  const auto refused = [&](auto change) {
    Production p = good;
    change(p);
    return message_of<InvalidInput>([&] { yield(p); });
  };
  CHECK(contains(refused([](Production& p) { p.slots = -1; }), "slots"));
  CHECK(contains(refused([](Production& p) { p.occupancy = 1.1; }), "occupancy"));
  CHECK(contains(refused([](Production& p) { p.survival = 0.0; }), "survival"));
  CHECK(contains(refused([](Production& p) { p.cycle_time = 0_d; }), "cycle time"));
  CHECK(contains(refused([](Production& p) { p.unsold = std::nan(""); }), "unsold"));
  Production none = good;
  none.occupancy = 0.0;
  CHECK(contains(message_of<InvalidInput>([&] { slots_for(1.0 * units::per_day, none); }), "occupancy"));
}

TEST_CASE("rotation: played move by move, each place rests once in N moves and each group moves every N - k moves") {
  for (int n = 2; n <= 14; ++n)
    for (int k = 1; k < n && k <= 4; ++k) {
      const std::vector<long> slots(static_cast<std::size_t>(n), 100);
      std::vector<int> group(static_cast<std::size_t>(n), -1), rests_begun(static_cast<std::size_t>(n), 0);
      std::vector<int> rested(static_cast<std::size_t>(n), 0);
      std::map<int, int> last_move;
      for (int place = k; place < n; ++place) group[static_cast<std::size_t>(place)] = place;
      const auto steps = play_rotation(slots, k);
      REQUIRE(steps.size() == static_cast<std::size_t>(n) + 1);
      const RotationTimes times = rotation_times({n, k, 1_week});
      for (std::size_t i = 1; i < steps.size(); ++i) {
        const auto from = static_cast<std::size_t>(steps[i].moved_from),
                   to = static_cast<std::size_t>(steps[i].moved_to);
        REQUIRE(group[from] >= 0);
        REQUIRE(group[to] == -1);
        const int g = group[from];
        if (last_move.count(g))
          CHECK(near(static_cast<double>(steps[i].move - last_move[g]) * 1_week, times.group_period, 1e-12));
        last_move[g] = steps[i].move;
        group[to] = g;
        group[from] = -1;
        ++rests_begun[from];
        for (const int place : steps[i].fallow) ++rested[static_cast<std::size_t>(place)];
      }
      for (std::size_t place = 0; place < slots.size(); ++place) {
        CHECK(rests_begun[place] == 1);  // once in N moves
        CHECK(near(static_cast<double>(rested[place]) * 1_week, times.rest, 1e-12));
      }
      CHECK(steps.back().fallow == steps.front().fallow);
      CHECK(near(times.place_period, static_cast<double>(n) * 1_week, 1e-12));
    }
}

TEST_CASE("rotation: with unequal tanks the mean capacity lost is still k/N, move by move it is not") {
  const std::vector<long> slots{250, 250, 250, 340, 340};
  for (const int k : {1, 2}) {
    const auto steps = play_rotation(slots, k);
    double sum = 0.0;
    long least = 1 << 20, most = 0;
    for (std::size_t i = 1; i < steps.size(); ++i) {
      sum += static_cast<double>(steps[i].stocked_slots);
      least = std::min(least, steps[i].stocked_slots);
      most = std::max(most, steps[i].stocked_slots);
    }
    CHECK(near(1.0 - sum / 5.0 / 1430.0, capacity_lost(5, k), 1e-12));
    CHECK(most > least);
  }
}

TEST_CASE("rotation: the worst move is the largest tank's stock into the smallest tank before it") {
  const std::vector<long> slots{250, 250, 340, 340};
  const RotationFit worst = worst_move(slots, 1, 0.92);
  CHECK(near(worst.stock, 0.92 * 340.0, 1e-12));
  CHECK(near(worst.room, 250.0, 1e-12));
  CHECK(worst.from == 2);
  CHECK(worst.to == 1);
  const std::vector<long> equal{250, 250, 250};
  CHECK(worst_move(equal, 1, 0.92).stock < worst_move(equal, 1, 0.92).room);
}

TEST_CASE("rotation: at the break-even loss the output is the same with and without") {
  for (const double lost : {0.0714, 0.2, 0.5})
    for (const double with : {0.0, 0.03, 0.2}) {
      const double without = break_even_loss(lost, with);
      CHECK(near(relative_output(lost, with, without), 1.0, 1e-12));
      CHECK(without >= lost - 1e-12);
    }
}

TEST_CASE("rotation: bad input is refused by name") {
  CHECK(contains(message_of<InvalidInput>([] { capacity_lost(1, 0); }), "tanks"));
  CHECK(contains(message_of<InvalidInput>([] { capacity_lost(5, 5); }), "fallow"));
  CHECK(contains(message_of<InvalidInput>([] { rotation_times({5, 0, 1_week}); }), "fallow"));
  CHECK(contains(message_of<InvalidInput>([] { rotation_times({5, 1, 0_week}); }), "interval"));
  const std::vector<long> bad{10, -1};
  CHECK(contains(message_of<InvalidInput>([&] { play_rotation(bad, 1); }), "slots"));
  CHECK(contains(message_of<InvalidInput>([&] { play_rotation({}, 1); }), "tanks"));
  const std::vector<long> good{10, 10};
  CHECK(contains(message_of<InvalidInput>([&] { worst_move(good, 1, 1.5); }), "occupancy"));
  CHECK(contains(message_of<InvalidInput>([] { break_even_loss(1.5, 0.0); }), "capacity lost"));
  CHECK(contains(message_of<InvalidInput>([] { break_even_loss(0.5, -0.1); }), "pest loss with"));
  CHECK(contains(message_of<InvalidInput>([] { relative_output(0.5, 0.1, 1.0); }), "pest loss without"));
}
