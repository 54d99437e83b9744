#include "support/near.hpp"
#include "theca/units.hpp"

using namespace theca;
using theca::test::near;
using theca::test::within;

namespace {
// NIST SP 811 prints exact factors in full and others to seven significant digits.
constexpr double exact = 1e-15;
constexpr double seven_digits = 5e-7;
}  // namespace

TEST_CASE("named units: exact definitions [NIST SP 811 (2008), B.8, factors in bold]") {
  CHECK(si(1_in) == 0.0254);
  CHECK(si(1_ft) == 0.3048);
  CHECK(near(si(1_lb), 0.45359237, exact));
  CHECK(near(in(1_gal, units::cubic_metre), 231 * 0.0254 * 0.0254 * 0.0254, exact));  // 231 cubic inches, NIST HB 44
  CHECK(near(8.0 * units::us_pint, 1_gal, exact));
  CHECK(near(in(1_ft2, units::square_metre), 0.09290304, exact));
  CHECK(near(si(1_lbf), 4.4482216152605, exact));
  CHECK(near(si(1_Btu), 1055.05585262, exact));
  CHECK(si(1_kWh) == 3.6e6);
  CHECK(si(1_d) == 86400.0);
}

TEST_CASE("named units: factors printed to seven digits [NIST SP 811 (2008), B.8]") {
  CHECK(near(si(1_gal), 3.785412e-3, seven_digits));
  CHECK(near(si(1_gpm), 6.309020e-5, seven_digits));
  CHECK(near(in(1_gal / 1_d, units::cubic_metre_per_second), 4.381264e-8, seven_digits));
  CHECK(near(si(1_psi), 6894.757, seven_digits));
  CHECK(near(si(1_psf), 47.88026, seven_digits));
  CHECK(near(si(1_ftH2O), 2989.067, seven_digits));
  CHECK(near(si(1.0 * units::us_pint), 4.731765e-4, seven_digits));
  CHECK(near(si(1_Btu_h), 0.2930711, seven_digits));
  CHECK(near(si(1.0 * units::Btu_per_hour_ft2_degF), 5.678263, seven_digits));
  CHECK(near(si(1.0 * units::pound_force_per_foot), 14.59390, seven_digits));
  CHECK(near(si(1_deg), 1.745329e-2, seven_digits));
}

TEST_CASE("temperature: points, differences and conversions [NIST SP 811 (2008), B.8 and 8.5]") {
  CHECK(within(in_celsius(32_degF), 0.0, 1e-12));
  CHECK(within(in_celsius(212_degF), 100.0, 1e-12));
  CHECK(within(in_fahrenheit(celsius(-40.0)), -40.0, 1e-12));
  CHECK(within(si(above_absolute_zero(0_degC)), 273.15, 1e-12));
  const TemperatureDifference step = 78_degF - 70_degF;
  CHECK(near(in(step, units::degF_difference), 8.0, 1e-12));
  CHECK(near(si(step), 8.0 / 1.8, 1e-12));
  CHECK(within(in_fahrenheit(20_degC + 10_K), 86.0, 1e-10));
}

TEST_CASE("absolute pressure: gauge pressure over the surroundings and back") {
  const AbsolutePressure inside = absolute_pressure(3_kPa, standard_atmosphere);
  CHECK(si(above_vacuum(inside)) == 104325.0);
  const Pressure gauge = inside - standard_atmosphere;
  CHECK(near(gauge, 3_kPa, 1e-12));
}

TEST_CASE("salinity: reference-composition scale [Millero et al. 2008: 35 practical is 35.16504 g/kg]") {
  CHECK(near(absolute_salinity(35_psu).grams_per_kg, 35.16504, 1e-15));
  CHECK(near(practical_salinity(absolute_salinity(33.3_psu)).value, 33.3, 1e-14));
  CHECK(near((35_ppt).mass_fraction(), 0.035, 1e-15));
}

TEST_CASE("alkalinity: 1 meq/L is 2.804 dKH [10 mg/L CaO per degree, M(CaO) from IUPAC atomic weights]") {
  CHECK(within(in(1_meq_L, units::dKH), 2.804, 0.0005));
  CHECK(near(si(8_dKH), 8.0 / 2.803870, 1e-6));
}

TEST_CASE("photons: daily light integral of 1 umol/m2/s for an hour is 0.0036 mol/m2 [definition]") {
  CHECK(near(in(1_umol_m2_s * 1_h, units::mol_per_square_metre), 0.0036, 1e-14));
}

TEST_CASE("money: a price per kilowatt-hour times energy is a cost") {
  const Money bill = 12_kWh * (0.15_USD / 1_kWh);
  CHECK(near(in(bill, units::dollar), 1.80, 1e-14));
}

TEST_CASE("a unit's symbol follows from its type") {
  CHECK(si_symbol(3_psi) == "Pa");
  CHECK(si_symbol(25_degC) == "K");
  CHECK(si_symbol(1_m2 * 1_m / 1_s) == "m3/s");
  CHECK(text(1.25_m) == "1.25 m");
  CHECK(text(25_degC) == "25 degC");
}
