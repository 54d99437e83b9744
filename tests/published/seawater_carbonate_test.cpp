// The carbonate system against the check values of the Guide to Best Practices (Dickson, Sabine & Christian 2007,
// PICES Special Publication 3, chapter 5: S 35, 25 degC) and against measured CO2 over one water at eight temperatures.
#include <array>
#include <cmath>

#include "support/near.hpp"
#include "theca/seawater.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::seawater;
using test::near;
using test::within;

namespace {
// printed to four decimals of a natural or decimal logarithm
constexpr double half_digit = 0.5e-4;
const auto at_25_degC = kernel::carbonate_constants(298.15, 35.0);
}  // namespace

TEST_CASE("solubility of CO2 [Weiss 1974; Guide: ln(K0) = -3.5617]") {
  CHECK(within(std::log(at_25_degC.k0), -3.5617, half_digit));
}

TEST_CASE("carbonic acid [Lueker et al. 2000; Guide: log K1 = -5.8472, log K2 = -8.9660]") {
  CHECK(within(std::log10(at_25_degC.k1), -5.8472, half_digit));
  CHECK(within(std::log10(at_25_degC.k2), -8.9660, half_digit));
}

TEST_CASE("boric acid [Dickson 1990; Guide: ln(KB) = -19.7964]") {
  CHECK(within(std::log(at_25_degC.kb), -19.7964, half_digit));
}

TEST_CASE("water [Millero 1995; Guide: ln(KW) = -30.434]") { CHECK(within(std::log(at_25_degC.kw), -30.434, 5e-4)); }

TEST_CASE("aragonite and calcite [Mucci 1983: -log K 6.19 and 6.37 at S 35, 25 degC, from memory]") {
  CHECK(within(std::log10(at_25_degC.aragonite), -6.19, 0.005));
  CHECK(within(std::log10(at_25_degC.calcite), -6.37, 0.005));
}

TEST_CASE(
    "boron and calcium of reference seawater [Guide, table of concentrations at S 35: 0.000416, 0.01028 mol/kg]") {
  CHECK(within(at_25_degC.borate, 0.000416, 0.5e-6));
  CHECK(within(at_25_degC.calcium, 0.01028, 0.5e-5));
}

TEST_CASE("CO2 over one water at eight temperatures [Takahashi et al. 1993, table A1: measured, 2.1 to 24.5 degC]") {
  // S 35.38, carbon 2074 umol/kg; the alkalinity is the one figure that is fitted, at 20 degC. Partial pressure was
  // measured to about 2 uatm; equilibrium constants of seawater leave 2 % (Lueker et al. 2000 compare several sets).
  struct Measured {
    double degC, microatm;
  };
  constexpr std::array measured{Measured{2.1, 267.0},   Measured{6.33, 322.1}, Measured{10.05, 376.1},
                                Measured{15.01, 461.6}, Measured{18, 526.3},   Measured{20, 571.1},
                                Measured{24.5, 688.2}};
  const auto pressure = [](double degC, double alkalinity_mol_kg) {
    const Temperature t = celsius(degC);
    const Density rho = density(t, absolute_salinity(35.38_psu));
    const auto per_volume = [&rho](double mol_kg) { return from_si<Concentration>(mol_kg * si(rho)); };
    const CarbonateWater water{.temperature = t, .salinity = 35.38_psu, .alkalinity = per_volume(alkalinity_mol_kg)};
    return si(carbonate_with_carbon(water, per_volume(2074e-6)).carbon_dioxide_pressure) / 101325.0 * 1e6;
  };
  double low = 2.2e-3, high = 2.5e-3;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (pressure(20.0, middle) > 571.1 ? low : high) = middle;
  }
  for (const auto& m : measured) {
    CAPTURE(m.degC);
    CHECK(near(pressure(m.degC, low), m.microatm, 0.02));
  }
}

TEST_CASE("warm water gives off CO2: 4.23 % per kelvin [Takahashi et al. 1993]") {
  const auto pressure = [](double degC) {
    const Temperature t = celsius(degC);
    const double rho = si(density(t, absolute_salinity(35_psu)));
    const CarbonateWater water{t, 35_psu, from_si<Concentration>(2300e-6 * rho)};
    return si(carbonate_with_carbon(water, from_si<Concentration>(2000e-6 * rho)).carbon_dioxide_pressure);
  };
  // their figure is a mean over 2 to 25 degC, and constants differ in it by some 2 %
  CHECK(near(std::log(pressure(24.5) / pressure(2.1)) / 22.4, 0.0423, 0.03));
}
