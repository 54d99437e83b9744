// Circuits, grazers, quarantine, money, labour.
#include <array>
#include <cmath>
#include <vector>

#include "support/near.hpp"
#include "theca/farm/economics.hpp"
#include "theca/farm/electrical.hpp"
#include "theca/farm/grazers.hpp"
#include "theca/farm/labour.hpp"
#include "theca/farm/quarantine.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;
using test::within;

TEST_CASE("circuits: current, rating and the units that fit [hand sums]") {
  CHECK(near(circuit_current(1200_W, 120_V), 10_A, 1e-12));
  CHECK(near(circuit_current(1200_W, 120_V, 0.8), 12.5_A, 1e-12));
  CHECK(near(required_rating({.continuous = 960_W, .other = 600_W}, 120_V), 15_A, 1e-12));
  CHECK(circuits_needed(20, 96_W, 20_A, 120_V) == 1);  // 20 x 96 W = 1920 W exactly
  CHECK(circuits_needed(21, 96_W, 20_A, 120_V) == 2);
  CHECK(circuits_needed(0, 96_W, 20_A, 120_V) == 0);
  CHECK(units_on_fullest_circuit(98, 5) == 20);
  CHECK(units_on_fullest_circuit(100, 5) == 20);
  for (int n = 1; n < 60; ++n) {
    const int circuits = circuits_needed(n, 150_W, 20_A, 120_V);
    const double fullest = units_on_fullest_circuit(n, circuits);
    CHECK(required_rating({.continuous = fullest * 150_W}, 120_V) <= 20_A);
    if (circuits > 1) {
      const double tighter = units_on_fullest_circuit(n, circuits - 1);
      CHECK(required_rating({.continuous = tighter * 150_W}, 120_V) > 20_A);
    }
  }
}

TEST_CASE("circuits: bad input is refused by name") {
  CHECK(contains(message_of<InvalidInput>([] { circuit_current(-1_W, 120_V); }), "load"));
  CHECK(contains(message_of<InvalidInput>([] { circuit_current(1_W, 0_V); }), "voltage"));
  CHECK(contains(message_of<InvalidInput>([] { circuit_current(1_W, 120_V, 1.1); }), "power factor"));
  CHECK(contains(message_of<InvalidInput>([] { required_rating({.continuous = -1_W}, 120_V); }), "continuous load"));
  CHECK(
      contains(message_of<InvalidInput>([] { required_rating({.continuous = 1_W, .other = -1_W}, 120_V); }), "other"));
  CHECK(contains(message_of<InvalidInput>([] { required_rating({.continuous = 1_W}, 120_V, 1.0, 0.5); }), "factor"));
  CHECK(contains(message_of<InvalidInput>([] { largest_continuous_load(0_A, 120_V); }), "breaker"));
  CHECK(contains(message_of<InvalidInput>([] { circuits_needed(1, 5_kW, 20_A, 120_V); }), "each unit"));
  CHECK(contains(message_of<InvalidInput>([] { circuits_needed(-1, 5_W, 20_A, 120_V); }), "number of units"));
  CHECK(contains(message_of<InvalidInput>([] { units_on_fullest_circuit(1, 0); }), "circuits"));
}

TEST_CASE("grazers: 4 m2 at 1.05 g/m2/d feeds 4.2 grazers of 1 g/d [hand sum]") {
  const Grazing g = grazing(4_m2, 1.05 * units::gram_per_square_metre_day, 2, 1.0 * units::gram_per_day);
  CHECK(near(in(g.production, units::gram_per_day), 4.2, 1e-12));
  CHECK(near(in(g.consumption, units::gram_per_day), 2.0, 1e-12));
  CHECK(near(g.needed, 4.2, 1e-12));
  const MassFlux turf = 1.05 * units::gram_per_square_metre_day;
  const MassFlow each = 1.0 * units::gram_per_day;
  CHECK(contains(message_of<InvalidInput>([&] { grazing(-1_m2, turf, 1, each); }), "lit surface"));
  CHECK(contains(message_of<InvalidInput>([&] { grazing(1_m2, -turf, 1, each); }), "production"));
  CHECK(contains(message_of<InvalidInput>([&] { grazing(1_m2, turf, -1, each); }), "grazers"));
  CHECK(contains(message_of<InvalidInput>([&] { grazing(1_m2, turf, 1, 0.0 * each); }), "consumption"));
}

TEST_CASE("quarantine: half way between the measurements the generation is half way, and outside there is no answer") {
  CHECK(near(generation_time(25.5_degC), 51_d, 1e-9));
  CHECK(contains(message_of<OutOfValidity>([] { generation_time(23.9_degC); }), "Barton"));
  CHECK(contains(message_of<OutOfValidity>([] { generation_time(27.1_degC); }), "27"));
  CHECK(contains(message_of<OutOfValidity>([] { generation_time(celsius(std::nan(""))); }), "temperature"));
}

TEST_CASE("quarantine: points of one's own are met, halved between, and not left") {
  const GenerationPoint points[] = {{22_degC, 80_d}, {24_degC, 60_d}, {28_degC, 36_d}};
  for (const GenerationPoint& p : points) CHECK(near(generation_time(points, p.temperature), p.time, 1e-12));
  CHECK(near(generation_time(points, 23_degC), 70_d, 1e-12));
  CHECK(near(generation_time(points, 25_degC), 54_d, 1e-12));  // a quarter of the way from 60 to 36
  CHECK(contains(message_of<OutOfValidity>([&] { generation_time(points, 21.9_degC); }), "temperature"));
  CHECK(contains(message_of<OutOfValidity>([&] { generation_time(points, 28.1_degC); }), "28"));
  const auto refused = [](GenerationPoint second) {
    const GenerationPoint pair[] = {{24_degC, 60_d}, second};
    return message_of<InvalidInput>([&] { generation_time(pair, 24_degC); });
  };
  CHECK(contains(refused({24_degC, 50_d}), "above that of the point before"));
  CHECK(contains(refused({26_degC, 0_d}), "generation time of a point"));
  CHECK(contains(refused({celsius(std::nan("")), 50_d}), "temperature of a generation point"));
  CHECK(contains(message_of<InvalidInput>([&] { generation_time(std::span(points, 1), 22_degC); }), "number of"));
}

TEST_CASE("quarantine: one arrival played each day, held 38 days, fills 38 slots [Little's law by counting]") {
  int held = 0;
  std::vector<int> leaves(400, 0);
  for (int day = 0; day < 300; ++day) {
    held -= leaves[static_cast<std::size_t>(day)];
    ++held;
    ++leaves[static_cast<std::size_t>(day + 38)];
  }
  CHECK(near(quarantine_slots(1.0 * units::per_day, 38_d), held, 1e-12));
  CHECK(near(largest_arrivals(38.0, 38_d), 1.0 * units::per_day, 1e-12));
  CHECK(contains(message_of<InvalidInput>([] { quarantine_slots(-1.0 * units::per_day, 1_d); }), "arrivals"));
  CHECK(contains(message_of<InvalidInput>([] { quarantine_slots(1.0 * units::per_day, -1_d); }), "hold"));
  CHECK(contains(message_of<InvalidInput>([] { largest_arrivals(-1.0, 1_d); }), "slots"));
}

TEST_CASE("capital recovery: the payments pay the capital back, year by year [amortisation played]") {
  for (const double rate : {0.0, 1e-9, 0.03, 0.08, 0.25}) {
    double debt = 1000.0;
    const double payment = 1000.0 * capital_recovery_factor(rate, 8);
    for (int year = 0; year < 8; ++year) debt = debt * (1.0 + rate) - payment;
    CHECK(within(debt, 0.0, 1e-8));
  }
}

TEST_CASE("present value: yearly amounts and the factor agree, and it is zero at the internal rate of return") {
  const std::vector<Money> flows{-1000_USD, 300_USD, 300_USD, 300_USD, 300_USD, 300_USD};
  const MoneyRate surplus = 300.0 * units::dollar_per_year;
  CHECK(near(net_present_value(flows, 0.08), net_present_value(1000_USD, surplus, 0.08, 5), 1e-9));
  const double rate = internal_rate_of_return(1000_USD, surplus, 5);
  CHECK(within(in(net_present_value(flows, rate), units::dollar), 0.0, 1e-6));
  CHECK(net_present_value(flows, rate + 0.001) < 0_USD);
  CHECK_THROWS_AS(internal_rate_of_return(1000_USD, 100.0 * units::dollar_per_year, 5), OutOfValidity);
  CHECK_THROWS_AS(internal_rate_of_return(1000_USD, 20000.0 * units::dollar_per_year, 5), OutOfValidity);
}

TEST_CASE("economics: cost per fragment, profit and present value of a small farm [hand sums]") {
  const std::array items{CostItem{"tanks", 8000_USD}, CostItem{"lights", 2000_USD}};
  CHECK(near(capital_sum(items, 0.1), 11000_USD, 1e-12));
  const std::array running{RunningCost{"energy", 900.0 * units::dollar_per_year},
                           RunningCost{"rent", 1100.0 * units::dollar_per_year}};
  const Economics e = economics(11000_USD, 0.0, 10, running, 1000.0 * units::per_year, 4_USD);
  CHECK(near(e.capital_cost, 1100.0 * units::dollar_per_year, 1e-12));
  CHECK(near(e.total_cost, 3100.0 * units::dollar_per_year, 1e-12));
  CHECK(near(e.cost_per_sold, 3.1_USD, 1e-12));
  CHECK(near(e.profit, 900.0 * units::dollar_per_year, 1e-12));
  CHECK(near(e.net_present_value, 10.0 * 2000_USD - 11000_USD, 1e-12));
  // profit and present value change sign together: the annual profit is the present value spread over the life
  const Economics with_rate = economics(11000_USD, 0.08, 10, running, 1000.0 * units::per_year, 4_USD);
  CHECK(near(si(with_rate.profit) * 365 * 86400, si(with_rate.net_present_value) * capital_recovery_factor(0.08, 10),
             1e-9));
  // 1 kW at half duty for 0.15 USD/kWh: 4380 kWh a year
  CHECK(near(energy_cost(1_kW, 0.5, 0.15 * units::dollar_per_kilowatt_hour), 657.0 * units::dollar_per_year, 1e-12));
}

TEST_CASE("economics: bad input is refused by name") {
  const MoneyRate surplus = 300.0 * units::dollar_per_year;
  CHECK(contains(message_of<InvalidInput>([] { capital_recovery_factor(-0.1, 8); }), "rate"));
  CHECK(contains(message_of<InvalidInput>([] { capital_recovery_factor(0.1, 0); }), "years"));
  CHECK(contains(message_of<InvalidInput>([] { net_present_value({}, 0.1); }), "amounts"));
  const std::array bad_flow{from_si<Money>(std::nan(""))};
  CHECK(contains(message_of<InvalidInput>([&] { net_present_value(bad_flow, 0.1); }), "yearly amount"));
  CHECK(contains(message_of<InvalidInput>([&] { net_present_value(-1_USD, surplus, 0.1, 5); }), "capital"));
  CHECK(contains(message_of<InvalidInput>([&] { internal_rate_of_return(0_USD, surplus, 5); }), "capital"));
  const std::array bad_item{CostItem{"sump", -1_USD}};
  CHECK(contains(message_of<InvalidInput>([&] { capital_sum(bad_item, 0.1); }), "sump"));
  CHECK(contains(message_of<InvalidInput>([&] { capital_sum({}, -0.1); }), "contingency"));
  CHECK(
      contains(message_of<InvalidInput>([&] { economics(1_USD, 0.1, 5, {}, 0.0 * units::per_year, 1_USD); }), "sold"));
  const std::array bad_running{RunningCost{"rent", -1.0 * units::dollar_per_year}};
  CHECK(contains(message_of<InvalidInput>([&] { economics(1_USD, 0.1, 5, bad_running, 1.0 * units::per_year, 1_USD); }),
                 "rent"));
  CHECK(contains(message_of<InvalidInput>([&] { energy_cost(1_W, 1.1, 0.1 * units::dollar_per_kilowatt_hour); }),
                 "duty"));
}

TEST_CASE("labour: tasks per day, per week and per fragment add up to hours of a week [hand sum]") {
  const std::array tasks{Task{"feed", 15_min, 1.0 * units::per_day},
                         Task{"water change", 75_min, 1.0 * units::per_week},
                         Task{"cut", 3_min, 5200.0 / 52.0 * units::per_week}};
  // 105 + 75 + 300 min
  CHECK(near(weekly_work(tasks), 8_h, 1e-12));
  CHECK(near(labour_utilisation(tasks, 10_h), 0.8, 1e-12));
  CHECK(near(hours_to_hire(tasks, 0.8), 10_h, 1e-12));
  CHECK(near(workload(tasks), 8.0 / 168.0, 1e-12));
  CHECK(near(wages(10_h, 20.0 * units::dollar_per_hour), 200.0 / 7.0 * 365.0 * units::dollar_per_year, 1e-12));
  const std::array bad{Task{"scrape", -1_min, 1.0 * units::per_day}};
  CHECK(contains(message_of<InvalidInput>([&] { workload(bad); }), "scrape"));
  CHECK(contains(message_of<InvalidInput>([&] { labour_utilisation(tasks, 0_h); }), "hired"));
  CHECK(contains(message_of<InvalidInput>([&] { hours_to_hire(tasks, 0.0); }), "limit"));
  CHECK(contains(message_of<InvalidInput>([&] { wages(1_h, -1.0 * units::dollar_per_hour); }), "wage"));
}
