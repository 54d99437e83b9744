// Cohorts, mother stock, steady output and orders.
#include "theca/farm/cutting_plan.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "support/near.hpp"
#include "theca/farm/checks.hpp"
#include "theca/farm/mother_stock.hpp"
#include "theca/farm/rotation.hpp"
#include "theca/farm/yield.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;
using test::within;

namespace {
constexpr auto day = units::day;

const Crop branching{"Acropora", {.cut_area = 9_cm2, .sale_area = 33_cm2, .rate = 0.0088_per_d, .healing = 14_d}, 0.9};
const Crop massive{"Platygyra", {.cut_area = 6_cm2, .sale_area = 20_cm2, .rate = 0.004_per_d, .healing = 21_d}, 0.8};
const std::vector<Crop> crops{branching, massive};

/// Orders and cuts drawn at random, the same on every machine.
std::vector<Cohort> random_cohorts(unsigned seed, int count) {
  std::mt19937 random(seed);
  const auto share = [&random] { return static_cast<double>(random()) / 4294967296.0; };
  std::vector<Cohort> cohorts;
  for (int i = 0; i < count; ++i)
    cohorts.push_back({"any", static_cast<long>(1 + 200 * share()), (400.0 * share() - 100.0) * day,
                       (20.0 + 200.0 * share()) * day, 0.5 + 0.5 * share()});
  return cohorts;
}
}  // namespace

TEST_CASE("survival: an even risk, found by small Euler steps; half way the square root is alive") {
  const Time cycle = cycle_time(massive.growth);
  CHECK(near(alive_at(massive, cycle), 0.8, 1e-12));
  CHECK(near(alive_at(massive, 0.5 * cycle), std::sqrt(0.8), 1e-12));
  constexpr int steps = 100000;
  const double risk = -std::log(0.8) / in(cycle, day);
  double alive = 1.0;
  for (int i = 0; i < steps; ++i) alive -= alive * risk * (50.0 / steps);
  CHECK(near(alive_at(massive, 50_d), alive, 1e-6));
}

TEST_CASE(
    "growth of a fragment: nothing while it heals, sale size at the end of its cycle, age and size are inverses") {
  CHECK(near(area_at(branching, 14_d), 9_cm2, 1e-12));
  CHECK(near(area_at(branching, 3_d), 9_cm2, 1e-12));
  CHECK(near(area_at(branching, cycle_time(branching.growth)), 33_cm2, 1e-12));
  for (const double size : {9.0, 12.0, 33.0, 60.0})
    CHECK(near(area_at(branching, age_at(branching, size * units::square_centimetre)), size * units::square_centimetre,
               1e-12));
}

TEST_CASE("slow growth: growth time doubles at half the rate, healing and the loss per day stay") {
  const Crop slow = grown_at(branching, 0.5);
  CHECK(near(cycle_time(slow.growth) - 14_d, 2.0 * (cycle_time(branching.growth) - 14_d), 1e-12));
  for (const Time& age : {1_d, 40_d, 100_d}) CHECK(near(alive_at(slow, age), alive_at(branching, age), 1e-12));
  CHECK(slow.survival < branching.survival);
  CHECK(near(grown_at(slow, 2.0).survival, branching.survival, 1e-12));
}

TEST_CASE("stock: every fragment cut is alive, lost or sold, at any time") {
  const auto cohorts = random_cohorts(1, 60);
  double all = 0.0;
  for (const Cohort& cohort : cohorts) all += static_cast<double>(cohort.fragments);
  double lost_before = 0.0, sold_before = 0.0;
  for (double t = -120.0; t <= 600.0; t += 0.7) {
    const StockBalance stock = stock_balance(cohorts, t * day);
    CHECK(within(stock.cut, stock.alive + stock.lost + stock.sold, 1e-9 * all));
    CHECK(stock.lost >= lost_before - 1e-9 * all);
    CHECK(stock.sold >= sold_before);
    CHECK(near(1.0 + stock.alive, 1.0 + slots_taken(cohorts, t * day, LostFragment::frees_slot), 1e-12));
    lost_before = stock.lost;
    sold_before = stock.sold;
  }
  const StockBalance end = stock_balance(cohorts, 600_d);
  CHECK(end.alive == 0.0);
  CHECK(near(end.cut, all, 1e-12));
  CHECK(end.lost > 0.0);
}

TEST_CASE("slots: the mean over time of what is taken agrees with the sum of many moments") {
  const auto cohorts = random_cohorts(2, 40);
  for (const LostFragment lost : {LostFragment::keeps_slot, LostFragment::frees_slot}) {
    constexpr int moments = 20000;
    double sum = 0.0;
    for (int i = 0; i < moments; ++i) sum += slots_taken(cohorts, ((i + 0.5) * 300.0 / moments) * day, lost);
    // midpoint rule across the steps of the cohorts: an error of about a moment in each of 80 steps
    CHECK(near(mean_slots_taken(cohorts, 0_d, 300_d, lost), sum / moments, 1e-3));
  }
}

TEST_CASE("slots: the peak is that of a fine scan; a fragment that leaves makes room for one cut at that moment") {
  for (unsigned seed = 1; seed <= 5; ++seed) {
    const auto cohorts = random_cohorts(seed, 30);
    for (const LostFragment lost : {LostFragment::keeps_slot, LostFragment::frees_slot}) {
      const SlotPeak peak = peak_slots_taken(cohorts, lost);
      double scanned = 0.0;
      for (double t = -100.0; t < 520.0; t += 0.05) scanned = std::max(scanned, slots_taken(cohorts, t * day, lost));
      CHECK(peak.slots >= scanned);
      CHECK(near(peak.slots, scanned, 1e-3));
      CHECK(slots_taken(cohorts, peak.at, lost) == peak.slots);
    }
  }
  for (const double interval : {0.1, 1.0 / 3.0, 7.0}) {
    std::vector<Cohort> cohorts;
    for (int k = 0; k < 500; ++k) cohorts.push_back({"any", 10, (k * interval) * day, (8.0 * interval) * day, 1.0});
    CHECK(peak_slots_taken(cohorts).slots == 80.0);
  }
}

TEST_CASE("steady output: cuts every week take cuts x mean stay on average [Little 1961]") {
  for (const Crop& crop : crops) {
    const Frequency sold = crop.survival * 20.0 / 1_week;  // cuts of 20 a week
    const auto cuts = steady_cuts(crop, sold, 1_week, 0_d, 4_year);
    for (const Cohort& cut : cuts) CHECK(cut.fragments == 20);
    for (const LostFragment lost : {LostFragment::keeps_slot, LostFragment::frees_slot}) {
      const SteadyPlan plan = steady_plan(crop, sold, lost);
      CHECK(near(mean_slots_taken(cuts, 150_week, 151_week, lost), plan.slots, 1e-9));
      CHECK(near(mean_slots_taken(cuts, 150_week, 190_week, lost), plan.slots, 1e-9));
    }
    const double s = crop.survival;
    const double kept = 20.0 / 7.0 * in(cycle_time(crop.growth), day);
    CHECK(near(steady_plan(crop, sold).slots, kept, 1e-12));
    CHECK(near(steady_plan(crop, sold, LostFragment::frees_slot).slots, kept * (1.0 - s) / -std::log(s), 1e-9));
    const StockBalance early = stock_balance(cuts, 100_week), late = stock_balance(cuts, 200_week);
    CHECK(near((late.sold - early.sold) / 100_week, sold, 1e-9));
    CHECK(near((late.lost - early.lost) / 100_week, steady_plan(crop, sold).losses, 1e-9));
  }
}

TEST_CASE("steady output: the plan for what a rack yields takes the slots that it fills [yield.hpp]") {
  const Production rack{.slots = 3000, .occupancy = 0.92, .survival = 0.9, .cycle_time = cycle_time(branching.growth)};
  const Yield y = yield(rack);
  const SteadyPlan plan = steady_plan(branching, y.produced);
  CHECK(near(plan.slots, 3000.0 * 0.92, 1e-12));
  CHECK(near(plan.cuts, y.cut, 1e-12));
}

TEST_CASE("steady output: whole cuts follow a rate that is not whole within half a fragment") {
  const Frequency sold = branching.survival * 13.37 / 1_week;
  const auto cuts = steady_cuts(branching, sold, 1_week, 3_d, 3_d + 300_week);
  CHECK(cuts.size() == 300);
  CHECK(near(cuts.back().cut, 3_d + 299_week, 1e-12));
  double sum = 0.0;
  for (std::size_t k = 0; k < cuts.size(); ++k) {
    sum += static_cast<double>(cuts[k].fragments);
    CHECK(within(sum, 13.37 * static_cast<double>(k + 1), 0.5 + 1e-9));
  }
}

TEST_CASE("steady output: slow, stated and fast growth; without healing and loss slots go as 1 over the rate") {
  Crop plain = branching;
  plain.growth.healing = 0_d;
  plain.survival = 1.0;
  const Frequency sold = 10.0 * units::per_day;
  const SteadyPlanRange range = steady_plan_range(plain, sold);
  CHECK(near(range.slow.slots, 2.0 * range.central.slots, 1e-12));
  CHECK(near(range.fast.slots, 0.5 * range.central.slots, 1e-12));
  const SteadyPlanRange real = steady_plan_range(branching, sold);
  CHECK(real.slow.cuts > real.central.cuts);  // longer at risk
  CHECK(real.fast.cuts < real.central.cuts);
  CHECK(steady_plan_range(branching, sold, 1.0).slow.slots == real.central.slots);
}

TEST_CASE("orders: cut on the scheduled day the fragments are in size when due; later or fewer is not enough") {
  const std::vector<Order> orders{
      {"Acropora", 120, 33_cm2, 300_d}, {"Platygyra", 40, 12_cm2, 500_d}, {"Acropora", 1, 18_cm2, 120_d}};
  const auto cuts = order_cuts(orders, crops);
  REQUIRE(cuts.size() == 3);
  CHECK(std::is_sorted(cuts.begin(), cuts.end(),
                       [](const OrderCut& a, const OrderCut& b) { return a.cohort.cut < b.cohort.cut; }));
  for (const OrderCut& cut : cuts) {
    const Order& order = orders[cut.order];
    const Crop& crop = order.species == "Acropora" ? branching : massive;
    CHECK(cut.cohort.species == order.species);
    CHECK_FALSE(cut.too_late);
    CHECK(near(area_at(crop, order.due - cut.cohort.cut), order.size, 1e-12));
    CHECK(area_at(crop, order.due - cut.cohort.cut - 1_d) < order.size);
    const Cohort& cohort = cut.cohort;
    const double ordered = static_cast<double>(order.fragments);
    CHECK(near(stock_balance(std::span(&cohort, 1), order.due).sold,
               static_cast<double>(cohort.fragments) * alive_at(crop, order.due - cohort.cut), 1e-12));
    CHECK(static_cast<double>(cohort.fragments) * cohort.survival >= ordered);
    CHECK(static_cast<double>(cohort.fragments - 1) * cohort.survival < ordered);
  }
  // 9 cm2 to 33 cm2 at 0.0088 /d after 14 d: ln(33/9)/0.0088 = 147.65 d [hand sum]
  CHECK(within(in(cuts[0].cohort.cut, day), 120.0 - 14.0 - std::log(2.0) / 0.0088, 1e-9));
  const auto sale = std::find_if(cuts.begin(), cuts.end(), [](const OrderCut& c) { return c.order == 0; });
  CHECK(within(in(sale->cohort.cut, day), 300.0 - 161.65, 0.005));
  CHECK(sale->cohort.fragments == 134);  // 120 / 0.9 = 133.3
}

TEST_CASE("orders: on cutting days the cut falls on the day before the latest date, and never a day too many") {
  std::vector<Order> orders;
  for (int i = 0; i < 7; ++i) {
    orders.push_back({"Acropora", 50, 25_cm2, (250.0 + i) * day});
    orders.push_back({"Platygyra", 9, 20_cm2, (611.3 + i) * day});
  }
  const auto any = order_cuts(orders, crops), weekly = order_cuts(orders, crops, 1_week);
  for (const OrderCut& cut : weekly) {
    const auto free = std::find_if(any.begin(), any.end(), [&](const OrderCut& c) { return c.order == cut.order; });
    const double weeks = in(cut.cohort.cut, units::week);
    CHECK(within(weeks, std::round(weeks), 1e-9));
    CHECK(cut.cohort.cut <= free->cohort.cut);
    CHECK(cut.cohort.cut > free->cohort.cut - 1_week);
    CHECK(near(cut.cohort.cut + cut.cohort.stay, orders[cut.order].due, 1e-12));
    CHECK(cut.cohort.survival < free->cohort.survival);  // longer on the rack
  }
  // due so that the latest date is a cutting day itself
  const Time due = 10_week + age_at(branching, 25_cm2);
  CHECK(
      near(order_cuts(std::vector<Order>{{"Acropora", 5, 25_cm2, due}}, crops, 1_week)[0].cohort.cut, 10_week, 1e-12));
}

TEST_CASE("orders: one that is due before a fragment can grow is too late and takes no slots") {
  const std::vector<Order> orders{{"Acropora", 10, 33_cm2, 100_d}, {"Acropora", 10, 33_cm2, 200_d}};
  const auto cuts = order_cuts(orders, crops);
  CHECK(cuts[0].too_late);
  CHECK_FALSE(cuts[1].too_late);
  const auto cohorts = cohorts_in_time(cuts);
  REQUIRE(cohorts.size() == 1);
  CHECK(peak_slots_taken(cohorts).slots == static_cast<double>(cuts[1].cohort.fragments));
}

TEST_CASE("orders: at half the rate the cut is one growth time earlier, at twice half of one later") {
  const std::vector<Order> orders{{"Acropora", 100, 33_cm2, 400_d}, {"Platygyra", 20, 15_cm2, 900_d}};
  const auto ranges = order_ranges(orders, crops);
  const auto cuts = order_cuts(orders, crops);
  for (const OrderRange& range : ranges) {
    const Order& order = orders[range.order];
    const Crop& crop = crops[range.order];
    const Time growth = growth_time(crop.growth.cut_area, order.size, crop.growth.rate);
    CHECK(near(range.central - range.slow, growth, 1e-9));
    CHECK(near(range.fast - range.central, 0.5 * growth, 1e-9));
    CHECK(near(range.central, cuts[range.order].cohort.cut, 1e-12));
    CHECK(range.slow_cut >= cuts[range.order].cohort.fragments);
    CHECK(range.fast_cut <= cuts[range.order].cohort.fragments);
    // exponential growth: half the logarithm of the growth, or twice
    const double from = si(crop.growth.cut_area), to = si(order.size);
    CHECK(near(si(range.size_if_slow), std::sqrt(from * to), 1e-9));
    CHECK(near(si(range.size_if_fast), to * to / from, 1e-9));
  }
}

TEST_CASE("racks: slots available are those of the rotation played move by move, before its start too") {
  const RotatingRacks racks{.slots = {250, 250, 340, 340, 120}, .fallow = 2, .interval = 5_week};
  const auto steps = play_rotation(racks.slots, 2);
  for (int move = 0; move < 5; ++move)
    for (const int turn : {-2, -1, 0, 1, 7}) {
      const Time start = static_cast<double>(move + 5 * turn) * 5_week;
      const long expected = steps[static_cast<std::size_t>(move)].stocked_slots;
      CHECK(slots_available(racks, start) == expected);
      CHECK(slots_available(racks, start + 34_d) == expected);
    }
  CHECK(slots_available({.slots = {250, 340}}, 3_d) == 590);
}

TEST_CASE("racks: the tightest moment is that of a fine scan over plan and rotation") {
  const RotatingRacks racks{.slots = {900, 500, 700, 900}, .fallow = 1, .interval = 20_d};
  for (unsigned seed = 1; seed <= 5; ++seed) {
    const auto cohorts = random_cohorts(seed, 25);
    for (const LostFragment lost : {LostFragment::keeps_slot, LostFragment::frees_slot}) {
      const SlotUse use = tightest_slots(cohorts, racks, 0_d, 300_d, lost);
      CHECK(use.taken == slots_taken(cohorts, use.at, lost));
      CHECK(use.available == slots_available(racks, use.at));
      double scanned = -1e9;
      for (double t = 0.0; t < 300.0; t += 0.02)
        scanned = std::max(scanned,
                           slots_taken(cohorts, t * day, lost) - static_cast<double>(slots_available(racks, t * day)));
      const double surplus = use.taken - static_cast<double>(use.available);
      CHECK(surplus >= scanned - 1e-9);
      CHECK(within(surplus, scanned, 1.0));  // fragments die between the points of the scan
    }
  }
}

TEST_CASE("racks: with nothing cut meanwhile, the tightest moment is the move that empties the largest tank") {
  const RotatingRacks racks{.slots = {400, 900, 500}, .fallow = 1, .interval = 20_d};
  const std::vector<Cohort> standing{{"any", 1000, -10_d, 300_d, 0.8}};
  const SlotUse use = tightest_slots(standing, racks, 0_d, 55_d);
  CHECK(near(use.at, 20_d, 1e-12));
  CHECK(use.available == 900);
  CHECK(use.taken == 1000.0);
}

TEST_CASE("racks: a steady plan for the slots of all tanks overfills them by the tank that rests") {
  const RotatingRacks racks{.slots = std::vector<long>(14, 220), .fallow = 1, .interval = 5_week};
  const Frequency sold = branching.survival * (14.0 * 220.0 / cycle_time(branching.growth));
  const auto cuts = steady_cuts(branching, sold, 1_week, 0_d, 3_year);
  const SlotUse use = tightest_slots(cuts, racks, 2_year, 3_year);
  CHECK(use.available == 13 * 220);
  CHECK(near(use.taken, 14.0 * 220.0, 0.05));  // a week of cuts in a cycle of 23 weeks
  const Check check = plan_slots_check("whole farm", use);
  CHECK(check.verdict == Verdict::fails);
  CHECK(near(check.utilisation, use.taken / 2860.0, 1e-12));
}

TEST_CASE("mother stock: colonies cut a little at a time give their growth [closed form, area x rate]") {
  // 1 % is taken at each cut: the colony grows at 0.995 of its area on average, so the error is half of that
  const MotherColony mother{.before_cut = 10000_cm2, .after_cut = 9900_cm2, .rate = 0.005_per_d, .tissue_lost = 0.1};
  const Frequency cuts = 500.0 * units::per_day;
  const double mothers = mothers_for(cuts, mother, 1_cm2);
  CHECK(near(mothers * si(9950_cm2) * si(mother.rate) * 0.9, si(cuts) * si(1_cm2), 1e-4));
}

TEST_CASE("mother stock: 400 cm2 cut to 100 cm2, a tenth lost, fragments of 9 cm2 [hand sums]") {
  const MotherColony mother{
      .before_cut = 400_cm2, .after_cut = 100_cm2, .rate = 0.01_per_d, .healing = 20_d, .tissue_lost = 0.1};
  CHECK(near(mother_cut_interval(mother), (20.0 + 100.0 * std::log(4.0)) * day, 1e-12));
  CHECK(fragments_per_mother_cut(mother, 9_cm2) == 30);  // 270 cm2 / 9 cm2 exactly
  CHECK(fragments_per_mother_cut(mother, 9.01 * units::square_centimetre) == 29);
  CHECK(near(mothers_for(3.0 * units::per_day, mother, 9_cm2), 3.0 * (20.0 + 100.0 * std::log(4.0)) / 30.0, 1e-12));
}

TEST_CASE("mother stock: for a list of cuts, that many colonies can give them and one fewer cannot") {
  const MotherColony mother{.before_cut = 400_cm2, .after_cut = 100_cm2, .rate = 0.02_per_d, .healing = 10_d};
  const long each = fragments_per_mother_cut(mother, branching.growth.cut_area);
  const Time interval = mother_cut_interval(mother);
  for (unsigned seed = 1; seed <= 10; ++seed) {
    std::vector<Cohort> cuts = random_cohorts(seed, 25);
    for (std::size_t i = 0; i < cuts.size(); ++i) cuts[i].species = i % 3 == 0 ? "Platygyra" : "Acropora";
    const long needed = mothers_for_cuts(cuts, branching, mother);
    std::sort(cuts.begin(), cuts.end(), [](const Cohort& a, const Cohort& b) { return a.cut < b.cut; });
    const auto can = [&](long colonies) {
      std::vector<Time> ready(static_cast<std::size_t>(colonies), -1000_d);
      for (const Cohort& cut : cuts) {
        if (cut.species != "Acropora") continue;
        for (long wanted = cut.fragments; wanted > 0; wanted -= each) {
          const auto free = std::find_if(ready.begin(), ready.end(), [&](const Time& t) { return t <= cut.cut; });
          if (free == ready.end()) return false;
          *free = cut.cut + interval;
        }
      }
      return true;
    };
    CHECK(can(needed));
    CHECK_FALSE(can(needed - 1));
  }
  CHECK(mothers_for_cuts(std::vector<Cohort>{}, branching, mother) == 0);
}

TEST_CASE("mother stock: steady cuts keep as many colonies busy as the balance says") {
  const MotherColony mother{.before_cut = 400_cm2, .after_cut = 130_cm2, .rate = 0.01_per_d, .healing = 20_d};
  const auto cuts = steady_cuts(branching, branching.survival * 300.0 / 1_week, 1_week, 0_d, 2_year);
  const double balance = mothers_for(300.0 / 1_week, mother, 9_cm2);
  const double counted = static_cast<double>(mothers_for_cuts(cuts, branching, mother));
  CHECK(counted >= balance);
  CHECK(counted <= balance + 10.0);  // one week's cut takes 10 colonies
}

TEST_CASE("self supply: played generation by generation the crop keeps its size and sells what was asked") {
  const SelfSupply supply = self_supply(massive, 10.0 / 1_week, 0.2);
  CHECK(supply.fragments_each == 2);  // 0.8 x 20 cm2 / 6 cm2 = 2.67
  const double cycle_weeks = in(cycle_time(massive.growth), units::week);
  double standing = in(supply.cuts, units::per_week) * cycle_weeks, sold = 0.0;
  for (int generation = 0; generation < 50; ++generation) {
    const double grown = massive.survival * standing;
    standing = supply.kept_back * grown * static_cast<double>(supply.fragments_each);
    sold += (1.0 - supply.kept_back) * grown;
  }
  CHECK(near(standing, supply.slots, 1e-9));
  CHECK(near(sold / (50.0 * cycle_weeks), 10.0, 1e-9));
}

TEST_CASE("cutting plan: bad input is refused by name") {
  const Frequency sold = 1.0 * units::per_day;
  Crop dead = branching;
  dead.survival = 0.0;
  CHECK(contains(message_of<InvalidInput>([&] { alive_at(dead, 1_d); }), "survival"));
  CHECK(contains(message_of<InvalidInput>([&] { steady_plan(dead, sold); }), "survival"));
  CHECK(contains(message_of<InvalidInput>([&] { alive_at(branching, -1_d); }), "age"));
  CHECK(contains(message_of<InvalidInput>([&] { grown_at(branching, 0.0); }), "growth factor"));
  CHECK(contains(message_of<InvalidInput>([&] { steady_plan(branching, -sold); }), "sold"));
  CHECK(contains(message_of<InvalidInput>([&] { steady_plan_range(branching, sold, 0.5); }), "growth factor"));
  CHECK(contains(message_of<InvalidInput>([&] { steady_cuts(branching, sold, 0_d, 0_d, 1_d); }), "interval"));
  CHECK(contains(message_of<InvalidInput>([&] { steady_cuts(branching, sold, 1_d, 1_d, 1_d); }), "to"));
  CHECK(contains(message_of<InvalidInput>([&] { steady_cuts(branching, sold, 1_s, 0_d, 9_d); }), "100,000"));
  CHECK(contains(message_of<InvalidInput>([&] { cohort_of(branching, -1, 0_d); }), "fragments"));
  const std::vector<Cohort> still{{"any", 1, 0_d, 0_d, 1.0}};
  CHECK(contains(message_of<InvalidInput>([&] { slots_taken(still, 0_d); }), "stay"));
  CHECK(contains(message_of<InvalidInput>([&] { peak_slots_taken({}); }), "cohorts"));
  const auto order = [](const Order& o, const std::vector<Crop>& from) {
    return message_of<InvalidInput>([&] { order_cuts(std::vector<Order>{o}, from); });
  };
  const Order good{"Acropora", 5, 33_cm2, 300_d};
  CHECK(contains(order({"Porites", 5, 33_cm2, 300_d}, crops), "'Porites'"));
  CHECK(contains(order(good, {branching, branching}), "twice"));
  CHECK(contains(order({"Acropora", 0, 33_cm2, 300_d}, crops), "fragments of an order"));
  CHECK(contains(order({"Acropora", 5, 8_cm2, 300_d}, crops), "to"));
  CHECK(contains(order({"Acropora", 5, 33_cm2, std::nan("") * day}, crops), "due date"));
  CHECK(contains(message_of<InvalidInput>([&] { order_cuts(std::vector<Order>{good}, crops, -1_d); }), "cutting"));
  CHECK(contains(message_of<InvalidInput>([] { slots_available({.slots = {}}, 0_d); }), "tanks"));
  CHECK(contains(message_of<InvalidInput>([] {
                   slots_available({.slots = {1, 1}, .fallow = 2, .interval = 1_d}, 0_d);
                 }),
                 "fallow"));
  CHECK(contains(message_of<InvalidInput>([] { slots_available({.slots = {1, 1}, .fallow = 1}, 0_d); }), "interval"));
  MotherColony mother{.before_cut = 40_cm2, .after_cut = 40_cm2, .rate = 0.01_per_d};
  CHECK(contains(message_of<InvalidInput>([&] { mother_cut_interval(mother); }), "before the cut"));
  mother.after_cut = 35_cm2;
  CHECK(contains(message_of<InvalidInput>([&] { fragments_per_mother_cut(mother, 9_cm2); }), "cut area"));
  mother.tissue_lost = 1.0;
  CHECK(contains(message_of<InvalidInput>([&] { mother_cut_interval(mother); }), "tissue lost"));
  Crop poor = massive;
  poor.survival = 0.3;
  CHECK(contains(message_of<InvalidInput>([&] { self_supply(poor, sold); }), "keep itself up"));
}
