// Chemistry and oxygen.
#include <cmath>

#include "support/near.hpp"
#include "theca/farm/chemistry.hpp"
#include "theca/farm/oxygen.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;
using test::within;

namespace {
const MassFlux calcification = 1.2 * units::milligram_per_square_centimetre_day;
}

TEST_CASE("mineral demand: 10 m2 at 1.2 mg cm-2 d-1 is 120 g of CaCO3, 2.398 eq and 1.199 mol of Ca a day [hand sum]") {
  const MineralDemand d = mineral_demand(10_m2, calcification);
  CHECK(near(in(d.calcium_carbonate, units::gram_per_day), 120.0, 1e-12));
  CHECK(near(in(d.calcium, units::mole_per_day), 120.0 / 100.086, 1e-5));
  CHECK(near(in(d.alkalinity, units::mole_per_day), 240.0 / 100.086, 1e-5));
}

TEST_CASE("alkalinity and calcium fall together: 20.04 mg/L of calcium per meq/L") {
  const MineralDemand d = mineral_demand(10_m2, calcification);
  const Concentration drop = alkalinity_drop(d, 5000_L, 1_d);
  CHECK(near(in(drop, units::meq_per_litre), 240.0 / 100.086 / 5.0, 1e-5));
  CHECK(near(calcium_drop(d, 5000_L, 1_d), calcium_for_alkalinity(drop), 1e-12));
  CHECK(near(alkalinity_drop(d, 5000_L, 3_d), 3.0 * drop, 1e-12));
  CHECK(near(alkalinity_drop(d, 2500_L, 1_d), 2.0 * drop, 1e-12));
}

TEST_CASE("doses put back the mass of the precipitate: salts minus what stays in solution [mass balance]") {
  // 2 NaHCO3 + CaCl2.2H2O -> CaCO3 + 2 NaCl + CO2 + 3 H2O
  const MineralDemand d = mineral_demand(1_m2, calcification);
  const Doses dose = doses(d);
  const double mol = in(d.calcium, units::mole_per_day);
  const double products = mol * (100.086 + 2.0 * 58.44 + 44.009 + 3.0 * 18.015);
  CHECK(near(in(dose.sodium_bicarbonate + dose.calcium_chloride_dihydrate, units::gram_per_day), products, 1e-4));
  // 2 NaHCO3 -> Na2CO3 + CO2 + H2O
  CHECK(near(in(dose.sodium_bicarbonate - dose.sodium_carbonate, units::gram_per_day), mol * (44.009 + 18.015), 1e-4));
}

TEST_CASE("dosing failure: a straight fall, refused where it would use up all alkalinity") {
  const MineralDemand d = mineral_demand(20_m2, calcification);
  const Concentration left = alkalinity_after_dosing_failure(8_dKH, d, 5000_L, 2_d);
  CHECK(near(8_dKH - left, alkalinity_drop(d, 5000_L, 2_d), 1e-9));
  CHECK(contains(message_of<OutOfValidity>([&] { alkalinity_after_dosing_failure(8_dKH, d, 5000_L, 60_d); }),
                 "alkalinity"));
}

TEST_CASE("water changes: each in turn agrees with the power, and many small ones with the exponential") {
  double level = 40.0;
  for (int i = 0; i < 6; ++i) level = 0.9 * level + 0.1 * 5.0;
  CHECK(near(after_changes(40.0 * units::milligram_per_litre, 5.0 * units::milligram_per_litre, 0.1, 6),
             level * units::milligram_per_litre, 1e-12));
  CHECK(near(left_after_changes(0.5 / 1000000, 1000000), left_after_continuous(0.5), 1e-6));
  CHECK(left_after_changes(1.0, 1) == 0.0);
  CHECK(left_after_changes(0.3, 0) == 1.0);
  CHECK(changes_for(0.5, 0.25) == 2);
  CHECK(changes_for(0.5, 0.24) == 3);
  CHECK(changes_for(0.1, 0.5) == 7);  // 0.9^6 = 0.531, 0.9^7 = 0.478
}

TEST_CASE("chemistry: bad input is refused by name") {
  const MineralDemand d = mineral_demand(1_m2, calcification);
  CHECK(contains(message_of<InvalidInput>([] { mineral_demand(-1_m2, calcification); }), "live area"));
  CHECK(contains(message_of<InvalidInput>([] { mineral_demand(1_m2, from_si<MassFlux>(std::nan(""))); }),
                 "calcification"));
  CHECK(contains(message_of<InvalidInput>([&] { alkalinity_drop(d, 0_L, 1_d); }), "water volume"));
  CHECK(contains(message_of<InvalidInput>([&] { calcium_drop(d, 1_L, -1_d); }), "time"));
  CHECK(contains(message_of<InvalidInput>([] { calcium_for_alkalinity(-1_dKH); }), "alkalinity"));
  MineralDemand bad = d;
  bad.calcium = -d.calcium;
  CHECK(contains(message_of<InvalidInput>([&] { doses(bad); }), "calcium demand"));
  CHECK(contains(message_of<InvalidInput>([&] { alkalinity_after_dosing_failure(-1_dKH, d, 1_L, 1_d); }), "start"));
  CHECK(contains(message_of<InvalidInput>([] { salt_mass(0_L, 35_psu, 25_degC); }), "water volume"));
  CHECK(contains(message_of<InvalidInput>([] { salt_mass(1_L, 43_psu, 25_degC); }), "salinity"));
  CHECK(contains(message_of<InvalidInput>([] { salt_mass(1_L, 35_psu, from_si<Density>(0.0)); }), "density"));
  CHECK(contains(message_of<InvalidInput>([] { left_after_changes(1.1, 1); }), "share changed"));
  CHECK(contains(message_of<InvalidInput>([] { left_after_changes(0.1, -1); }), "changes"));
  CHECK(contains(message_of<InvalidInput>([] { left_after_continuous(-0.1); }), "exchanged"));
  CHECK(contains(message_of<InvalidInput>([] { changes_for(0.0, 0.5); }), "share changed"));
  CHECK(contains(message_of<InvalidInput>([] { changes_for(0.5, 1.0); }), "share left"));
  CHECK(contains(message_of<InvalidInput>([] { after_changes(-1_dKH, 1_dKH, 0.1, 1); }), "level"));
}

namespace {
constexpr Density mg_L(double x) { return x * units::milligram_per_litre; }
const StillTank tank{.water = 400_L,
                     .surface = 1.5_m2,
                     .transfer = 0.5 * units::metre_per_day,
                     .saturation = mg_L(6.7),
                     .consumption = 0.25 * units::gram_per_hour};
}  // namespace

TEST_CASE("oxygen in a power cut: agrees with a Runge-Kutta integration of the balance") {
  const double x = si(tank.transfer) * si(tank.surface) / si(tank.water), r = si(tank.consumption) / si(tank.water);
  const auto slope = [&](double c) { return x * (si(tank.saturation) - c) - r; };
  double c = si(mg_L(6.5));
  const double h = 36.0;
  for (int i = 0; i < 1000; ++i) {
    const double k1 = slope(c), k2 = slope(c + 0.5 * h * k1), k3 = slope(c + 0.5 * h * k2), k4 = slope(c + h * k3);
    c += h / 6.0 * (k1 + 2 * k2 + 2 * k3 + k4);
  }
  CHECK(near(si(oxygen_after(tank, mg_L(6.5), 10_h)), c, 1e-10));
}

TEST_CASE("oxygen in a power cut: without a surface the fall is straight, and a tiny surface changes nothing") {
  StillTank closed = tank;
  closed.transfer = from_si<Velocity>(0.0);
  // 400 L x 2.7 mg/L = 1.08 g at 0.25 g/h
  CHECK(near(*time_to_limit(closed, mg_L(6.7), mg_L(4.0)), 4.32_h, 1e-9));
  closed.transfer = from_si<Velocity>(1e-15);
  CHECK(near(*time_to_limit(closed, mg_L(6.7), mg_L(4.0)), 4.32_h, 1e-6));
}

TEST_CASE("oxygen in a power cut: the level at the time to the limit is the limit, and exchange lengthens it") {
  Time before = 0_h;
  for (const double kl : {0.0, 0.1, 0.3, 0.6, 1.0}) {
    StillTank t = tank;
    t.transfer = kl * units::metre_per_day;
    const auto lasts = time_to_limit(t, mg_L(6.7), mg_L(4.0));
    REQUIRE(lasts.has_value());
    CHECK(near(oxygen_after(t, mg_L(6.7), *lasts), mg_L(4.0), 1e-10));
    CHECK(*lasts > before);
    before = *lasts;
  }
}

TEST_CASE("oxygen in a power cut: a surface that keeps up never lets it fall; at or below the limit no time is left") {
  StillTank t = tank;
  t.transfer = 10.0 * units::metre_per_day;  // 15 m3/d x 2.7 mg/L = 40 g/d against 6 g/d
  CHECK_FALSE(time_to_limit(t, mg_L(6.7), mg_L(4.0)).has_value());
  CHECK(*time_to_limit(tank, mg_L(4.0), mg_L(4.0)) == 0_s);
  CHECK(*time_to_limit(tank, mg_L(3.0), mg_L(4.0)) == 0_s);
  StillTank still = tank;
  still.transfer = from_si<Velocity>(0.0);
  still.consumption = from_si<MassFlow>(0.0);
  CHECK_FALSE(time_to_limit(still, mg_L(6.7), mg_L(4.0)).has_value());
}

TEST_CASE("oxygen consumption: 1 m2 of coral at 1 umol cm-2 h-1 takes 0.32 g/h; fish and film add [hand sum]") {
  const Breathing b{.coral_area = 1_m2,
                    .coral_rate = 1.0 * units::umol_per_square_centimetre_hour,
                    .fish_mass = 250_g,
                    .fish_rate = 0.25 * units::gram_per_kilogram_hour,
                    .film = 0.04 * units::gram_per_hour};
  // "0.25 g/kg/h" is a mass per mass and time
  CHECK(near(in(oxygen_consumption(b), units::gram_per_hour), 0.31998 + 0.0625 + 0.04, 1e-9));
}

TEST_CASE("oxygen: bad input is refused by name, temperatures and salinities outside the fit too") {
  CHECK(contains(message_of<OutOfValidity>([] { oxygen_saturation(41_degC, 35_psu); }), "Garcia"));
  CHECK(contains(message_of<OutOfValidity>([] { oxygen_saturation(25_degC, 43_psu); }), "salinity"));
  CHECK(contains(message_of<OutOfValidity>([] { oxygen_saturation(celsius(std::nan("")), 35_psu); }), "temperature"));
  const auto refused = [](auto change) {
    StillTank t = tank;
    change(t);
    return message_of<InvalidInput>([&] { time_to_limit(t, mg_L(6), mg_L(4)); });
  };
  CHECK(contains(refused([](StillTank& t) { t.water = 0_L; }), "water volume"));
  CHECK(contains(refused([](StillTank& t) { t.surface = -1_m2; }), "surface"));
  CHECK(contains(refused([](StillTank& t) { t.transfer = from_si<Velocity>(-1.0); }), "transfer"));
  CHECK(contains(refused([](StillTank& t) { t.saturation = mg_L(-1); }), "saturation"));
  CHECK(contains(refused([](StillTank& t) { t.consumption = from_si<MassFlow>(-1.0); }), "consumption"));
  CHECK(contains(message_of<InvalidInput>([] { time_to_limit(tank, mg_L(-1), mg_L(4)); }), "start"));
  CHECK(contains(message_of<InvalidInput>([] { time_to_limit(tank, mg_L(6), mg_L(-4)); }), "limit"));
  CHECK(contains(message_of<InvalidInput>([] { oxygen_after(tank, mg_L(6), -1_h); }), "time"));
  Breathing b{};
  b.fish_mass = -1_kg;
  CHECK(contains(message_of<InvalidInput>([&] { oxygen_consumption(b); }), "fish mass"));
}
