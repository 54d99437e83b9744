// Air against published tables and against formulas that others fitted to other measurements.
#include <cmath>

#include "support/near.hpp"
#include "theca/air.hpp"

using namespace theca;
using namespace theca::literals;
using theca::test::near;
using theca::test::within;

namespace {
air::MoistAir saturated(double t) { return {.temperature = celsius(t), .humidity = 100_rh}; }
}  // namespace

TEST_CASE("saturation pressure: thermodynamic properties of water [ASHRAE Fundamentals 2017, ch. 1, Table 3]") {
  struct Row {
    double t, pascal;
  };
  // The Handbook states 300 ppm for the formula; -60 degC is printed to 0.01 Pa.
  for (const Row& r :
       {Row{-20, 103.24}, Row{-5, 401.74}, Row{5, 872.6}, Row{25, 3169.7}, Row{50, 12351.3}, Row{100, 101418.0}}) {
    CAPTURE(r.t);
    near(si(air::saturation_vapour_pressure(celsius(r.t))), r.pascal, 3e-4);
  }
  within(si(air::saturation_vapour_pressure(celsius(-60))), 1.08, 0.01);
}

TEST_CASE("saturation pressure: water within 0.03 % [IAPWS-95 auxiliary equation, Wagner & Pruss 1993]") {
  const auto wagner = [](double k) {
    const double v = 1 - k / 647.096;
    return 22.064e6 *
           std::exp(647.096 / k *
                    (-7.85951783 * v + 1.84408259 * std::pow(v, 1.5) - 11.7866497 * std::pow(v, 3) +
                     22.6807411 * std::pow(v, 3.5) - 15.9618719 * std::pow(v, 4) + 1.80122502 * std::pow(v, 7.5)));
  };
  for (int t = 1; t <= 100; ++t) near(si(air::saturation_vapour_pressure(celsius(t))), wagner(t + 273.15), 3e-4);
}

TEST_CASE("humidity ratio at saturation: moist air table [ASHRAE Fundamentals 2017, ch. 1, Table 2]") {
  struct Row {
    double t, ratio;
  };
  // The table is real moist air. Air raises the saturation pressure by the enhancement factor, 1.004 to 1.005 at one
  // atmosphere, which perfect gases leave out: always low, by 0.6 % at most to 50 degC in ratio of dry mass.
  for (const Row& r :
       {Row{-20, 0.0006373}, Row{-5, 0.0024863}, Row{5, 0.005425}, Row{25, 0.020173}, Row{50, 0.086863}}) {
    CAPTURE(r.t);
    const double ratio = air::humidity_ratio(saturated(r.t));
    CHECK(ratio < r.ratio);
    near(ratio, r.ratio, 6.5e-3);
  }
}

TEST_CASE("enthalpy at saturation: moist air table [ASHRAE Fundamentals 2017, ch. 1, Table 2]") {
  struct Row {
    double t, joule_per_kg;
  };
  // 0.6 % of the vapour's share, 1 % of the whole at most (the enhancement factor again).
  for (const Row& r : {Row{-20, -18542}, Row{5, 18639}, Row{25, 76504}, Row{50, 275353}}) {
    CAPTURE(r.t);
    near(si(air::enthalpy(saturated(r.t))), r.joule_per_kg, 7e-3);
  }
  within(si(air::enthalpy({.temperature = 25_degC, .humidity = 0_rh})), 25148.0, 10.0);
}

TEST_CASE("enthalpy: 30 degC and 0.02 kg/kg are 1.006 x 30 + 0.02 (2501 + 1.86 x 30) = 81.316 kJ/kg [by hand]") {
  const RelativeHumidity humidity = air::relative_humidity(30_degC, 0.02);
  near(si(air::enthalpy({.temperature = 30_degC, .humidity = humidity})), 81316.0, 1e-9);
}

TEST_CASE("dry air at 25 degC: 0.8443 m3/kg [ASHRAE Fundamentals 2017, ch. 1, Table 2]") {
  near(1.0 / si(air::density({.temperature = 25_degC, .humidity = 0_rh})), 0.8443, 5e-4);
}

TEST_CASE("a state of moist air: 40 degC, humidity ratio 0.0065 [ASHRAE Fundamentals 2017, ch. 1, Example 1]") {
  const RelativeHumidity humidity = air::relative_humidity(40_degC, 0.0065);
  const air::MoistAir state{.temperature = 40_degC, .humidity = humidity};
  within(humidity.ratio, 0.14, 0.005);
  within(in_celsius(air::dew_point(state)), 7.5, 0.5);  // the text reads 7 degC off the chart
  within(si(air::enthalpy(state)), 56.7e3, 0.3e3);
  within(1.0 / si(air::dry_air_density(state)), 0.896, 5e-4);
}

TEST_CASE(
    "density of moist air: the metrologists' equation within 0.1 % [CIPM-2007, Picard et al. 2008, from memory]") {
  // Real gas, enhancement factor and 400 ppm CO2; 600 to 1100 hPa, 15 to 27 degC, uncertainty 22 ppm.
  const auto cipm = [](double t, double p, double h) {
    const double k = t + 273.15;
    const double saturation = std::exp(1.2378847e-5 * k * k - 1.9121316e-2 * k + 33.93711047 - 6.3431645e3 / k);
    const double x = h * (1.00062 + 3.14e-8 * p + 5.6e-7 * t * t) * saturation / p;
    const double z = 1 -
                     p / k *
                         (1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t * t + (5.707e-6 - 2.051e-8 * t) * x +
                          (1.9898e-4 - 2.376e-6 * t) * x * x) +
                     p * p / (k * k) * (1.83e-11 - 0.765e-8 * x * x);
    return 3.483740e-3 * p / (z * k) * (1 - 0.3780 * x);
  };
  for (int t = 15; t <= 27; t += 3)
    for (double h = 0.0; h <= 1.0; h += 0.25)
      for (const double p : {90e3, 101325.0}) {
        CAPTURE(t);
        CAPTURE(h);
        near(si(air::density({.temperature = celsius(t),
                              .humidity = RelativeHumidity(h),
                              .pressure = from_si<AbsolutePressure>(p)})),
             cipm(t, p, h), 1e-3);
      }
}

TEST_CASE("dew point: the weather services' formula within 0.1 K [Magnus form of WMO Guide No. 8: 17.62, 243.12]") {
  for (int t = 5; t <= 40; t += 5)
    for (int rh = 40; rh <= 100; rh += 10) {
      const double gamma = std::log(0.01 * rh) + 17.62 * t / (243.12 + t);
      const double dew = 243.12 * gamma / (17.62 - gamma);
      if (dew < 0.1) continue;  // below freezing this form stays over water
      within(in_celsius(air::dew_point({.temperature = celsius(t), .humidity = RelativeHumidity(0.01 * rh)})), dew,
             0.1);
    }
}

TEST_CASE("transport of dry air [Incropera & DeWitt, Table A.4, from memory]") {
  struct Row {
    double k, viscosity_1e7, kinematic_1e6, conductivity_1e3, diffusivity_1e6, prandtl, cp;
  };
  // "At atmospheric pressure" is one bar in this table: it prints 1.1614 kg/m3 at 300 K.
  const auto bar = from_si<AbsolutePressure>(1e5);
  // Viscosity, cp: printed digits and 0.3 %; the table's conductivity departs from the Standard Atmosphere by 0.3 %,
  // so that diffusivity and Prandtl number, which it prints to three digits, are held to 1 % and 1.5 %.
  for (const Row& r : {Row{250, 159.6, 11.44, 22.3, 15.9, 0.720, 1006}, Row{300, 184.6, 15.89, 26.3, 22.5, 0.707, 1007},
                       Row{350, 208.2, 20.92, 30.0, 29.9, 0.700, 1009}}) {
    CAPTURE(r.k);
    const auto t = from_si<Temperature>(r.k);
    near(si(air::dynamic_viscosity(t)), 1e-7 * r.viscosity_1e7, 5e-3);
    near(si(air::kinematic_viscosity(t, bar)), 1e-6 * r.kinematic_1e6, 6e-3);
    near(si(air::thermal_conductivity(t)), 1e-3 * r.conductivity_1e3, 4e-3);
    near(si(air::specific_heat_capacity(t)), r.cp, 2e-3);
    near(si(air::thermal_diffusivity(t, bar)), 1e-6 * r.diffusivity_1e6, 1e-2);
    near(air::prandtl(t), r.prandtl, 1.5e-2);
  }
}

TEST_CASE("transport of dry air at sea level: 15 degC [U.S. Standard Atmosphere 1976, Table III, from memory]") {
  near(si(air::dynamic_viscosity(15_degC)), 1.7894e-5, 3e-5);
  near(si(air::kinematic_viscosity(15_degC)), 1.4607e-5, 3e-4);
  near(si(air::thermal_conductivity(15_degC)), 2.5326e-2, 3e-4);
}

TEST_CASE(
    "vapour diffusivity: 0.26e-4 m2/s at 298 K [Incropera & DeWitt, Table A.8; Marrero & Mason 1972, from memory]") {
  within(si(air::vapour_diffusivity(from_si<Temperature>(298.0))), 0.26e-4, 0.006e-4);
  // Marrero & Mason, 280 to 450 K: 1.87e-10 T^2.072 m2/s at one atmosphere, uncertainty 3 %.
  for (int t = 10; t <= 100; t += 10)
    near(si(air::vapour_diffusivity(celsius(t))), 1.87e-10 * std::pow(t + 273.15, 2.072), 4e-2);
}
