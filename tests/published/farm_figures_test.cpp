// Published figures and common-practice facts about chemistry, oxygen, money, growth and rotation.
#include <array>
#include <cmath>

#include "support/near.hpp"
#include "theca/farm.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::near;
using test::within;

TEST_CASE(
    "oxygen saturation: check value of the paper [Garcia & Gordon 1992: 10 degC IPTS-68, S 35, 274.610 umol/kg]") {
  CHECK(within(kernel::oxygen_saturation_umol_per_kg(10.0, 35.0), 274.610, 0.0005));
}

TEST_CASE("oxygen saturation: check value [TEOS-10 manual: S 34.7118, 28.8099 degC, 194.68 umol/kg]") {
  CHECK(within(in(oxygen_saturation_per_mass(celsius(28.8099), 34.7118_psu), units::umol_per_kilogram), 194.68, 0.005));
}

TEST_CASE("oxygen saturation: reference library [gsw 3.6.16, O2sol_SP_pt at potential temperature t]") {
  struct Row {
    double s, t, umol_per_kg;
  };
  // printed from gsw.O2sol_SP_pt to all digits, as are the tolerances
  for (const Row& row :
       {Row{0, 0, 457.0057297135252}, Row{35, 0, 347.90287113148526}, Row{35, 10, 274.5956644859288},
        Row{35, 25, 206.7667910395476}, Row{42, 40, 157.63718394849138}, Row{20, 33, 199.65708283451008}})
    CHECK(near(in(oxygen_saturation_per_mass(celsius(row.t), PracticalSalinity(row.s)), units::umol_per_kilogram),
               row.umol_per_kg, 1e-12));
}

TEST_CASE("oxygen saturation per volume [gsw 3.6.16: O2sol_SP_pt x rho_t_exact x 31.998 g/mol]") {
  // EOS-80 and TEOS-10 density differ by at most 1e-5
  CHECK(near(in(oxygen_saturation(25_degC, 35_psu), units::milligram_per_litre), 6.770568134414155, 2e-5));
  CHECK(near(in(oxygen_saturation(78_degF, 35_psu), units::milligram_per_litre), 6.707118404105051, 2e-5));
  CHECK(near(in(oxygen_saturation(0_degC, 0_psu), units::milligram_per_litre), 14.6209745237417, 2e-5));
}

TEST_CASE("capital recovery factor [compound interest tables, 1/4 %: A/P 0.10138 for 10, 0.05132 for 20 periods]") {
  CHECK(within(capital_recovery_factor(0.0025, 10), 0.10138, 5e-6));
  CHECK(within(capital_recovery_factor(0.0025, 20), 0.05132, 5e-6));
  CHECK(within(capital_recovery_factor(0.0025, 2), 0.50188, 5e-6));
}

TEST_CASE("capital recovery factor is the rate plus the sinking fund [future value of an annuity of 1, table B.4]") {
  // printed to four decimals: F/A(8 %, 8) 10.6366, (8 %, 10) 14.4866, (10 %, 14) 27.9750, (15 %, 10) 20.3037
  CHECK(near(capital_recovery_factor(0.08, 8), 0.08 + 1.0 / 10.6366, 1e-5));
  CHECK(near(capital_recovery_factor(0.08, 10), 0.08 + 1.0 / 14.4866, 1e-5));
  CHECK(near(capital_recovery_factor(0.10, 14), 0.10 + 1.0 / 27.9750, 1e-5));
  CHECK(near(capital_recovery_factor(0.15, 10), 0.15 + 1.0 / 20.3037, 1e-5));
}

TEST_CASE(
    "salt of a cubic metre at S 35 and 25 degC IPTS-68 [35.16504 g/kg, Millero et al. 2008; 1023.343 kg/m3, EOS-80]") {
  CHECK(near(salt_mass(1.0 * units::cubic_metre, 35_psu, celsius(25.0 / 1.00024)),
             35.16504e-3 * 1023.343 * units::kilogram, 1e-6));
}

TEST_CASE("one dKH used takes 7.15 mg/L of calcium; one meq/L is 2.804 dKH and takes 20.04 mg/L [stoichiometry]") {
  // rounding of the printed figures
  CHECK(within(in(calcium_for_alkalinity(1_dKH), units::milligram_per_litre), 7.15, 0.005));
  CHECK(within(in(calcium_for_alkalinity(1_meq_L), units::milligram_per_litre), 20.04, 0.005));
  CHECK(within(in(1_meq_L, units::dKH), 2.804, 0.0005));
}

TEST_CASE(
    "grams per equivalent [NaHCO3 84.01, Na2CO3 53.0, CaCl2.2H2O 147.01 g/mol or 73.5 g per equivalent, CaCO3 "
    "100.09]") {
  CHECK(within(in(sodium_bicarbonate_per_equivalent, units::gram_per_mole), 84.01, 0.005));
  CHECK(within(in(sodium_carbonate_per_equivalent, units::gram_per_mole), 53.0, 0.05));
  CHECK(within(in(calcium_chloride_dihydrate_molar_mass, units::gram_per_mole), 147.01, 0.005));
  CHECK(within(in(calcium_chloride_dihydrate_molar_mass / 2.0, units::gram_per_mole), 73.5, 0.05));
  CHECK(within(in(calcium_carbonate_molar_mass, units::gram_per_mole), 100.09, 0.005));
}

TEST_CASE("growth rate: 175 mg per gram and week is 0.023 per day [Pocillopora acuta, Huang et al. 2020]") {
  CHECK(within(in(growth_rate(1.0 * units::square_centimetre, 1.175 * units::square_centimetre, 7_d), units::per_day),
               0.023, 0.0005));
}

TEST_CASE("generation time at the measured temperatures [Barton et al. 2019: 64 d at 24 degC, 38 d at 27 degC]") {
  CHECK(near(generation_time(24_degC), 64_d, 1e-9));
  CHECK(near(generation_time(27_degC), 38_d, 1e-9));
}

TEST_CASE("rotation: 1 of 5 loses 20 %, 1 of 14 loses 7.14 % [common practice, no source; counting]") {
  CHECK(near(capacity_lost(5, 1), 0.20, 1e-12));
  CHECK(within(capacity_lost(14, 1), 0.0714, 0.00005));
}

TEST_CASE("continuous load on a breaker: 80 % of its rating [NFPA 70 210.20(A)]") {
  CHECK(near(largest_continuous_load(20_A, 120_V), 1920_W, 1e-12));
  CHECK(near(required_rating({.continuous = 1920_W}, 120_V), 20_A, 1e-12));
}

TEST_CASE("bodies [Pheasant 1996, US adults: stature 1520 mm (5 % women), 1870 mm (95 % men)]") {
  // job figures are the same table in inches to one decimal: 1.3 mm
  CHECK(within(in(pheasant_female_5().stature, units::millimetre), 1520, 1.3));
  CHECK(within(in(pheasant_male_95().stature, units::millimetre), 1870, 1.3));
}

TEST_CASE("limits in regulations [29 CFR 1910.36(g): 28 in, 6 ft 8 in; ADA 403.5.1: 36 in]") {
  CHECK(near(exit_access_width, 28_in, 1e-12));
  CHECK(near(exit_headroom, 6_ft + 8_in, 1e-12));
  CHECK(near(accessible_width, 36_in, 1e-12));
}
