// Voltage drop, battery and generator.
#include <algorithm>
#include <cmath>
#include <complex>
#include <vector>

#include "support/near.hpp"
#include "theca/farm/checks.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;
using test::within;

namespace {
const std::vector<CriticalLoad> critical{
    {.name = "return pump", .power = 1300_W, .power_factor = 0.85, .start_factor = 6.0},
    {.name = "circulation", .power = 350_W, .power_factor = 0.6, .start_factor = 2.0},
    {.name = "heaters", .power = 3600_W, .duty = 0.5},
    {.name = "chiller", .power = 900_W, .duty = 0.4, .power_factor = 0.8, .start_factor = 5.0},
    {.name = "controls", .power = 100_W}};
const BatteryBank bank{.inverter_efficiency = 0.9,
                       .inverter_idle = 40_W,
                       .depth_of_discharge = 0.8,
                       .capacity_factor = 0.95,
                       .design_margin = 1.1};
}  // namespace

TEST_CASE("voltage drop: the load's phasor plus the drop along the cable is the panel's voltage") {
  for (const double pf : {1.0, 0.95, 0.7, 0.3})
    for (const double x : {0.0, 0.15, 1.5})
      for (const double length : {1.0, 60.0, 200.0}) {
        const CircuitRun run{.length = length * units::metre,
                             .current = 30_A,
                             .voltage = 240_V,
                             .power_factor = pf,
                             .conductor_temperature = 60_degC,
                             .reactance = x * units::ohm_per_kilometre};
        const Conductor c = conductor("6 AWG");
        const VoltageDrop drop = voltage_drop(run, c);
        const std::complex<double> current = std::polar(30.0, -std::acos(pf));
        const std::complex<double> z(2.0 * length * si(resistance_at(c, 60_degC)), 2.0 * length * x * 1e-3);
        CHECK(near(std::abs(si(drop.at_load) + z * current), 240.0, 1e-12));
        CHECK(near(si(drop.drop) + si(drop.at_load), 240.0, 1e-12));
        // energy: what the panel gives is what the load takes and the cable loses
        const double given =
            (240.0 * std::polar(1.0, std::arg(si(drop.at_load) + z * current)) * std::conj(current)).real();
        CHECK(near(given, si(drop.at_load) * 30.0 * pf + si(drop.lost), 1e-9));
      }
}

TEST_CASE("voltage drop: a run of the longest length drops exactly the limit") {
  for (const double pf : {1.0, 0.8, 0.4})
    for (const double limit : {0.01, branch_drop_limit, 0.2}) {
      CircuitRun run{
          .current = 16_A, .voltage = 120_V, .power_factor = pf, .reactance = 0.2 * units::ohm_per_kilometre};
      run.length = longest_run(run, conductor("10 AWG"), limit);
      CHECK(near(voltage_drop(run, conductor("10 AWG")).share, limit, 1e-9));
    }
  const CircuitRun plain{.current = 16_A, .voltage = 120_V};
  // 3 % of 120 V over 16 A is 0.225 ohm there and back; 2 x 1.24 ohm per 1000 ft [hand sum]
  CHECK(near(longest_run(plain, conductor("10 AWG")), 225.0 / 2.48 * units::foot, 1e-12));
}

TEST_CASE("voltage drop: thicker conductors drop less, and the flag is that of the limit") {
  const CircuitRun run{.length = 100_ft, .current = 20_A, .voltage = 120_V};
  const auto sizes = drop_by_size(run, awg_conductors());
  REQUIRE(sizes.size() == awg_conductors().size());
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (i > 0) CHECK(sizes[i].drop.drop < sizes[i - 1].drop.drop);
    CHECK(sizes[i].meets_drop_limit == (sizes[i].drop.share <= 0.03));
  }
  const auto first = std::find_if(sizes.begin(), sizes.end(), [](const SizeDrop& s) { return s.meets_drop_limit; });
  CHECK(first->conductor == "8 AWG");
}

TEST_CASE("voltage drop checks: 3 % in a branch circuit, 5 % with its feeder, and who chooses the conductor") {
  const CircuitRun run{.length = 60_ft, .current = 16_A, .voltage = 120_V};
  const VoltageDrop branch = voltage_drop(run, conductor("10 AWG"));  // 2.4 V, 1.98 %
  const Check check = voltage_drop_check("T01 lights", branch);
  CHECK(check.verdict == Verdict::holds);
  CHECK(near(check.utilisation, branch.share / 0.03, 1e-12));
  CHECK(contains(check.caution, "licensed electrician"));
  CHECK(contains(check.caution, "may carry the current"));
  const VoltageDrop feeder = voltage_drop({.length = 130_ft, .current = 60_A, .voltage = 240_V}, conductor("6 AWG"));
  CHECK(total_voltage_drop_check("T01 lights", feeder, branch).verdict == Verdict::fails);
  CHECK(near(total_voltage_drop_check("T01 lights", feeder, branch).utilisation, (feeder.share + branch.share) / 0.05,
             1e-12));
}

TEST_CASE("backup: energy for six hours [hand sum]") {
  // 1300 + 350 + 1800 + 360 + 100 = 3910 W
  CHECK(near(backup_energy(critical, 6_h), 6.0 * 3.91_kWh, 1e-12));
  // (3910/0.9 + 40) x 6 x 1.1 / (0.8 x 0.8 x 0.95)
  const Energy rating = battery_rating(critical, 6_h, bank);
  CHECK(near(in(rating, units::kilowatt_hour), (3.910 / 0.9 + 0.04) * 6.0 * 1.1 / 0.608, 1e-12));
  CHECK(near(battery_time(critical, rating, bank), 6_h, 1e-12));
  CHECK(near(in(battery_charge(4.8_kWh, 48_V), units::ampere_hour), 100.0, 1e-12));
}

TEST_CASE("backup: a battery drawn down minute by minute reaches its depth of discharge when the outage ends") {
  const Energy rating = battery_rating(critical, 6_h, bank);
  const double aged = in(rating, units::kilowatt_hour) * 0.8 * 0.95;
  double stored = aged;
  for (int minute = 0; minute < 360; ++minute) stored -= (3.910 / 0.9 + 0.04) / 60.0;
  // the margin of 1.1 is what is left over the depth of discharge of 0.8
  CHECK(near((aged - stored) * 1.1, 0.8 * aged, 1e-9));
}

TEST_CASE("generator: no order of starting has a lower peak than the largest surge first [all orders tried]") {
  const GeneratorDemand best = generator_demand(critical, StartOrder::largest_first);
  const GeneratorDemand together = generator_demand(critical);
  std::vector<std::size_t> order{0, 1, 2, 3, 4};
  double least = 1e99;
  do {
    std::vector<CriticalLoad> listed;
    for (const std::size_t i : order) listed.push_back(critical[i]);
    const GeneratorDemand demand = generator_demand(listed, StartOrder::as_listed);
    least = std::min(least, si(demand.starting_apparent));
    CHECK(near(demand.running_apparent, best.running_apparent, 1e-12));
    CHECK(demand.starting_apparent <= together.starting_apparent);
  } while (std::next_permutation(order.begin(), order.end()));
  CHECK(near(si(best.starting_apparent), least, 1e-12));
  CHECK(best.order.front() == 0);
  CHECK(near(best.running, 6250_W, 1e-12));
}

TEST_CASE("generator: a pump of 1 kVA that starts at six beside 4 kVA of heaters [hand sums]") {
  const std::vector<CriticalLoad> loads{{.name = "heaters", .power = 4_kW},
                                        {.name = "pump", .power = 800_W, .power_factor = 0.8, .start_factor = 6.0}};
  const GeneratorDemand last = generator_demand(loads, StartOrder::as_listed);
  CHECK(near(last.running, 4.8_kW, 1e-12));
  CHECK(near(last.running_apparent, 5_kW, 1e-12));
  CHECK(near(last.starting_apparent, 10_kW, 1e-12));
  CHECK(near(generator_demand(loads, StartOrder::largest_first).starting_apparent, 6_kW, 1e-12));
  CHECK(near(generator_demand(loads).starting_apparent, 10_kW, 1e-12));
  const GeneratorRating rating = generator_rating(last, {.loading_limit = 0.8, .derating = 0.9, .surge_factor = 1.25});
  CHECK(near(rating.real, 4.8_kW / 0.72, 1e-12));
  CHECK(near(rating.apparent, 8_kW / 0.9, 1e-12));
  CHECK(rating.start_governs);
  CHECK_FALSE(
      generator_rating(generator_demand(loads, StartOrder::largest_first), {.surge_factor = 2.0}).start_governs);
}

TEST_CASE("backup checks: outage against battery, rating against generator, with their cautions") {
  CHECK(battery_check("sump", 6_h, 8_h).verdict == Verdict::holds);
  CHECK(battery_check("sump", 6_h, 6.5_h).verdict == Verdict::marginal);
  CHECK(battery_check("sump", 6_h, 5_h).verdict == Verdict::fails);
  const GeneratorRating asked{.real = 6_kW, .apparent = 9_kW, .start_governs = true};
  const Check check = generator_check("farm", asked, 8_kW, 10_kW);
  CHECK(near(check.utilisation, 0.9, 1e-12));
  CHECK(check.verdict == Verdict::marginal);
  CHECK(contains(check.where, "start"));
  CHECK(contains(check.caution, "exhaust kills"));
  CHECK(contains(check.caution, "transfer switch"));
  CHECK(near(generator_check("farm", asked, 6.1_kW, 10_kW).utilisation, 6.0 / 6.1, 1e-12));
}

TEST_CASE("power: bad input is refused by name") {
  const CircuitRun good{.length = 10_m, .current = 10_A, .voltage = 120_V};
  const auto refused = [&](auto change) {
    CircuitRun run = good;
    change(run);
    return message_of<InvalidInput>([&] { voltage_drop(run, conductor("12 AWG")); });
  };
  CHECK(contains(refused([](CircuitRun& r) { r.length = -1_m; }), "length of the run"));
  CHECK(contains(refused([](CircuitRun& r) { r.length = 10_m * 1e3; }), "voltage is left"));
  CHECK(contains(refused([](CircuitRun& r) { r.current = -1_A; }), "current"));
  CHECK(contains(refused([](CircuitRun& r) { r.voltage = 0_V; }), "voltage"));
  CHECK(contains(refused([](CircuitRun& r) { r.power_factor = 0.0; }), "power factor"));
  CHECK(contains(refused([](CircuitRun& r) { r.reactance = from_si<ResistancePerLength>(-1); }), "reactance"));
  CHECK(contains(message_of<OutOfValidity>([] { resistance_at(conductor("12 AWG"), celsius(200.0)); }), "degC"));
  CHECK(contains(message_of<InvalidInput>([] { conductor("12AWG"); }), "'12 AWG'"));
  CHECK(contains(message_of<InvalidInput>([] { conductor("14 AWG", ConductorMetal::aluminium); }), "'14 AWG'"));
  CHECK(contains(message_of<InvalidInput>([&] { longest_run(good, conductor("12 AWG"), 1.0); }), "drop limit"));
  const auto loaded = [](const CriticalLoad& load) {
    return message_of<InvalidInput>([&] { backup_energy(std::vector<CriticalLoad>{load}, 1_h); });
  };
  CHECK(contains(loaded({.name = "pump", .power = -1_W}), "power of 'pump'"));
  CHECK(contains(loaded({.name = "pump", .power = 1_W, .duty = 1.1}), "duty"));
  CHECK(contains(loaded({.name = "pump", .power = 1_W, .power_factor = 0.0}), "power factor"));
  CHECK(contains(loaded({.name = "pump", .power = 1_W, .start_factor = 0.5}), "start factor"));
  CHECK(contains(message_of<InvalidInput>([] { battery_rating(critical, 1_h, {.depth_of_discharge = 0.8}); }),
                 "inverter efficiency"));
  CHECK(contains(message_of<InvalidInput>([] { battery_rating(critical, 1_h, {.inverter_efficiency = 0.9}); }),
                 "depth of discharge"));
  CHECK(contains(message_of<InvalidInput>(
                     [] { battery_time({}, 1_kWh, {.inverter_efficiency = 0.9, .depth_of_discharge = 0.8}); }),
                 "power taken"));
  CHECK(contains(message_of<InvalidInput>([] { generator_rating(generator_demand(critical), {.loading_limit = 0.0}); }),
                 "loading limit"));
}
