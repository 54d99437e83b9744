// Light and growth, nitrogen, dosing failures, salinity creep: limits, closed forms by another way, mass balances.
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
/// Small explicit steps of a balance: another way to the same course.
template <class Rate>
double stepped(double start, double time, const Rate& rate) {
  constexpr int steps = 200000;
  for (int i = 0; i < steps; ++i) {
    const double h = time / steps;
    start += h * rate(start + 0.5 * h * rate(start));
  }
  return start;
}
}  // namespace

TEST_CASE("photosynthesis is tanh(1) = 76 % of its most at the onset of saturation, and proportional to dim light") {
  CHECK(within(light_saturation(250_umol_m2_s, 250_umol_m2_s), 0.76159, 5e-6));
  CHECK(near(light_saturation(1_umol_m2_s, 250_umol_m2_s), 1.0 / 250.0, 1e-5));
  CHECK(near(light_saturation(2500_umol_m2_s, 250_umol_m2_s), 1.0, 1e-8));
}

TEST_CASE("a ramped day brings less than a square one of the same dose when light saturates, as much when it is dim") {
  const Time hours = 1.0 * units::hour;
  const auto day_of = [&](PhotonFluxDensity top) {
    std::vector<LightHours> ramp;
    for (int i = 0; i < 100; ++i)
      ramp.push_back({top * ((i + 0.5) / 50.0 > 1.0 ? 2.0 - (i + 0.5) / 50.0 : (i + 0.5) / 50.0), 0.1 * hours});
    return ramp;
  };
  const auto onset = 250_umol_m2_s;
  CHECK(daily_saturation(day_of(800_umol_m2_s), onset) < daily_saturation({{400_umol_m2_s, 10.0 * hours}}, onset));
  CHECK(
      near(daily_saturation(day_of(2_umol_m2_s), onset), daily_saturation({{1_umol_m2_s, 10.0 * hours}}, onset), 1e-4));
}

TEST_CASE("growth under another light follows the day's photosynthesis, calcification keeps its dark part") {
  const Time ten = 10.0 * units::hour;
  const std::vector<LightHours> known{{250_umol_m2_s, ten}}, dark{};
  CHECK(near(growth_rate_under(0.02_per_d, known, known, 200_umol_m2_s), 0.02_per_d, 1e-15));
  CHECK(si(growth_rate_under(0.02_per_d, known, dark, 200_umol_m2_s)) == 0.0);
  CHECK(near(relative_calcification(dark, 200_umol_m2_s, 2.6), 1.0 / 2.6, 1e-15));
  CHECK(near(relative_calcification({{1e5 * 1_umol_m2_s, 24.0 * units::hour}}, 200_umol_m2_s, 2.6), 1.0, 1e-12));
  CHECK_THROWS_AS(growth_rate_under(0.02_per_d, dark, known, 200_umol_m2_s), InvalidInput);
  CHECK_THROWS_AS(daily_saturation({{250_umol_m2_s, 25.0 * units::hour}}, 200_umol_m2_s), InvalidInput);
  CHECK_THROWS_AS(light_saturation(-1.0 * 1_umol_m2_s, 200_umol_m2_s), InvalidInput);
}

TEST_CASE("ammonia nitrogen of a feed [Timmons & Ebeling: 0.092 x feed x protein, from memory]") {
  // 1 kg/d of a 45 % feed: 41.4 g/d
  CHECK(near(nitrogen_load(1.0 * units::kilogram_per_day, 0.45), 41.4 * units::gram_per_day, 1e-12));
}

TEST_CASE("nitrogen follows its balance [small steps], tends to its settled level and is held there by its inverse") {
  const NitrogenBalance b{.water = 2.0 * units::cubic_metre,
                          .load = 8.0 * units::gram_per_day,
                          .uptake = 3.0 * units::gram_per_day,
                          .removal = 0.02_per_d,
                          .renewal = 0.01_per_d,
                          .new_water = 0.5 * units::milligram_per_litre};
  const Density start = 20.0 * units::milligram_per_litre;
  const double after = stepped(20.0, 60.0, [](double c) { return 5.0 / 2.0 + 0.01 * (0.5 - c) - 0.02 * c; });
  CHECK(near(nitrogen_after(b, start, 60.0 * day), after * units::milligram_per_litre, 1e-8));
  const Density settled = *settled_nitrogen(b);
  CHECK(near(nitrogen_after(b, start, 5000.0 * day), settled, 1e-9));
  CHECK(near(*renewal_for(b, settled), b.renewal, 1e-12));
}

TEST_CASE("nitrogen that nothing carries away rises for ever; water that is richer cannot dilute it") {
  NitrogenBalance b{.water = 1.0 * units::cubic_metre, .load = 1.0 * units::gram_per_day, .uptake = MassFlow{}};
  CHECK(!settled_nitrogen(b));
  CHECK(near(nitrogen_after(b, Density{}, 10.0 * day), 10.0 * units::milligram_per_litre, 1e-12));
  b.new_water = 30.0 * units::milligram_per_litre;
  CHECK(!renewal_for(b, 20.0 * units::milligram_per_litre));
  b.uptake = 5.0 * units::gram_per_day;
  CHECK(si(nitrogen_after(b, Density{}, 10.0 * day)) == 0.0);
  CHECK(si(*settled_nitrogen(b)) == 0.0);
  CHECK(near(nitrate(1.0 * units::milligram_per_litre), 4.4266 * units::milligram_per_litre, 1e-5));
}

TEST_CASE("dosing: no drift at the right dose, down without, up when the pump runs on [small steps]") {
  DosedWater w{.water = 3.0 * units::cubic_metre,
               .demand = 1.5 * units::mole_per_day,
               .reference = 2.8_meq_L,
               .threshold = 1.0_meq_L,
               .dose = 1.5 * units::mole_per_day};
  CHECK(near(alkalinity_after(w, 2.8_meq_L, 100.0 * day), 2.8_meq_L, 1e-12));
  for (const double dose : {0.0, 4.0}) {
    w.dose = dose * units::mole_per_day;
    const double after = stepped(2.8, 4.0, [&](double a) { return (dose - 1.5 * (a - 1.0) / (2.8 - 1.0)) / 3.0; });
    CHECK(near(alkalinity_after(w, 2.8_meq_L, 4.0 * day), after * 1.0_meq_L, 1e-9));
    CHECK(near(*time_to_alkalinity(w, 2.8_meq_L, alkalinity_after(w, 2.8_meq_L, 4.0 * day)), 4.0 * day, 1e-9));
  }
}

TEST_CASE("dosing: an alkalinity beyond where it settles is never reached") {
  DosedWater w{.water = 3.0 * units::cubic_metre,
               .demand = 1.5 * units::mole_per_day,
               .reference = 2.8_meq_L,
               .threshold = 1.0_meq_L};
  CHECK(!time_to_alkalinity(w, 2.8_meq_L, 0.9_meq_L));
  CHECK(!time_to_alkalinity(w, 2.8_meq_L, 3.0_meq_L));
  w.dose = 3.0 * units::mole_per_day;  // settles at 1.0 + 2 x 1.8
  CHECK(!time_to_alkalinity(w, 2.8_meq_L, 4.7_meq_L));
  CHECK(time_to_alkalinity(w, 2.8_meq_L, 4.5_meq_L).has_value());
  w.demand = AmountFlow{};
  CHECK(near(*time_to_alkalinity(w, 2.8_meq_L, 3.8_meq_L), 1.0 * day, 1e-12));
  w.threshold = 3.0_meq_L;
  CHECK_THROWS_AS(alkalinity_after(w, 2.8_meq_L, 1.0 * day), InvalidInput);
}

TEST_CASE("dosing a kilogram of calcium carbonate leaves 1.168 kg of common salt [2 x 58.44 / 100.086]") {
  const MineralDemand demand{1.0 * units::kilogram_per_day, AmountFlow{}, AmountFlow{}};
  CHECK(near(salt_left_by_dosing(demand), 2.0 * 58.44 / 100.086 * units::kilogram_per_day, 1e-5));
}

TEST_CASE("salinity creeps up with dosing, down with skimming, and is held by water changes [small steps]") {
  const SaltBalance b{.water = 5000.0 * units::kilogram,
                      .salt_in = 0.5 * units::kilogram_per_day,
                      .water_lost = 4.0 * units::kilogram_per_day,
                      .renewal = 0.01_per_d,
                      .new_water = AbsoluteSalinity(35.0)};
  const double after = stepped(34.0, 90.0, [](double s) { return 0.1 - 4.0 / 5000.0 * s + 0.01 * (35.0 - s); });
  CHECK(near(salinity_after(b, AbsoluteSalinity(34.0), 90.0 * day).grams_per_kg, after, 1e-9));
  SaltBalance closed{.water = 5000.0 * units::kilogram, .salt_in = 0.5 * units::kilogram_per_day};
  CHECK(near(salinity_after(closed, AbsoluteSalinity(35.0), 30.0 * day).grams_per_kg, 38.0, 1e-12));
  CHECK_THROWS_AS(salinity_after(closed, AbsoluteSalinity(35.0), 300.0 * day), OutOfValidity);
}

TEST_CASE("a top-up that runs on dilutes, one that stops leaves the salt behind [salt is conserved]") {
  CHECK(near(salinity_after_top_up(AbsoluteSalinity(35.0), 0.10).grams_per_kg * 1.10, 35.0, 1e-14));
  CHECK(near(salinity_after_top_up(AbsoluteSalinity(35.0), -0.05).grams_per_kg * 0.95, 35.0, 1e-14));
  CHECK_THROWS_AS(salinity_after_top_up(AbsoluteSalinity(35.0), -0.5), OutOfValidity);
  CHECK_THROWS_AS(salinity_after_top_up(AbsoluteSalinity(35.0), -1.0), InvalidInput);
}
