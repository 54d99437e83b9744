// The carbonate system of seawater: pH, dissolved CO2 and carbonate from alkalinity and one more quantity.
#pragma once

#include <cmath>
#include <optional>

#include "theca/units.hpp"

namespace theca::seawater {

namespace kernel {
/// Constants of the carbonate system at a temperature and practical salinity, total pH scale, mol per kg of seawater.
template <class T>
struct CarbonateConstants {
  T k0;              ///< [CO2] over the fugacity of CO2, mol/kg/atm
  T k1, k2;          ///< first and second dissociation of carbonic acid
  T kb, kw;          ///< boric acid, water
  T aragonite;       ///< stoichiometric solubility product, (mol/kg)2
  T calcite;         ///< the same
  T borate;          ///< total boron, mol/kg
  T calcium;         ///< of reference seawater, mol/kg
  T fugacity_share;  ///< fugacity over partial pressure of CO2 at one atmosphere
};

/// @source k0: Weiss 1974, Mar. Chem. 2:203; k1, k2: Lueker, Dickson & Keeling 2000, Mar. Chem. 70:105; kb: Dickson
///         1990, Deep-Sea Res. 37:755; kw: Millero 1995 as given in Dickson, Sabine & Christian 2007, Guide to Best
///         Practices for Ocean CO2 Measurements, chapter 5; solubility products: Mucci 1983, Am. J. Sci. 283:780;
///         borate: Uppstrom 1974; calcium: Riley & Tongudai 1967; fugacity: Weiss 1974 with his virial coefficients.
///         Coefficients from memory, each constant checked against the check values printed in the Guide.
template <class T>
CarbonateConstants<T> carbonate_constants(T temperature_K, T practical_salinity) {
  using std::exp;
  using std::log;
  using std::pow;
  using std::sqrt;
  const T t = temperature_K, s = practical_salinity;
  const T root = sqrt(s), ln_t = log(t), log10_t = ln_t / std::log(10.0);
  const auto power_of_ten = [](const T& x) { return exp(x * std::log(10.0)); };
  CarbonateConstants<T> c;
  c.k0 = exp(9345.17 / t - 60.2409 + 23.3585 * log(t / 100.0) +
             s * (0.023517 - 0.023656 * (t / 100.0) + 0.0047036 * (t / 100.0) * (t / 100.0)));
  c.k1 = power_of_ten(-3633.86 / t + 61.2172 - 9.67770 * ln_t + 0.011555 * s - 0.0001152 * s * s);
  c.k2 = power_of_ten(-471.78 / t - 25.9290 + 3.16967 * ln_t + 0.01781 * s - 0.0001122 * s * s);
  c.kb = exp((-8966.90 - 2890.53 * root - 77.942 * s + 1.728 * root * s - 0.0996 * s * s) / t + 148.0248 +
             137.1942 * root + 1.62142 * s + (-24.4344 - 25.085 * root - 0.2474 * s) * ln_t + 0.053105 * root * t);
  c.kw = exp(-13847.26 / t + 148.9652 - 23.6521 * ln_t + (118.67 / t - 5.977 + 1.0495 * ln_t) * root - 0.01615 * s);
  c.aragonite = power_of_ten(-171.945 - 0.077993 * t + 2903.293 / t + 71.595 * log10_t +
                             (-0.068393 + 0.0017276 * t + 88.135 / t) * root - 0.10018 * s + 0.0059415 * root * s);
  c.calcite = power_of_ten(-171.9065 - 0.077993 * t + 2839.319 / t + 71.595 * log10_t +
                           (-0.77712 + 0.0028426 * t + 178.34 / t) * root - 0.07711 * s + 0.0041249 * root * s);
  c.borate = 0.000232 / 10.811 * s / 1.80655;
  c.calcium = 0.02128 / 40.087 * s / 1.80655;
  // virial coefficients in cm3/mol; 82.05746 cm3 atm/mol/K
  const T b = -1636.75 + 12.0408 * t - 3.27957e-2 * t * t + 3.16528e-5 * t * t * t;
  c.fugacity_share = exp((b + 2.0 * (57.7 - 0.118 * t)) / (82.05746 * t));
  return c;
}
}  // namespace kernel

/// Seawater whose alkalinity is known. Alkalinity counts carbonate, borate and water only: phosphate, silicate and
/// organic bases, which a feeding farm has, are left out (1 umol/kg of phosphate shifts pH by about 0.002).
struct CarbonateWater {
  Temperature temperature;                 ///< 2 to 35 degC
  PracticalSalinity salinity;              ///< 19 to 41.8; the constants reach to 43, the density to 42 g/kg
  Concentration alkalinity;                ///< equivalents per volume, > 0
  std::optional<Concentration> calcium{};  ///< per volume; that of reference seawater of the same salinity if empty
};

/// What is dissolved, per volume of water.
struct CarbonateSystem {
  double ph;                     ///< total scale
  Concentration carbon_dioxide;  ///< CO2 and H2CO3
  Concentration bicarbonate;
  Concentration carbonate;
  Concentration inorganic_carbon;    ///< sum of the three
  Pressure carbon_dioxide_pressure;  ///< partial pressure with which the water is in equilibrium
  double aragonite_saturation;       ///< [Ca][CO3] over the solubility product of what corals build
  double calcite_saturation;
};

/// @param ph  total scale, 7 to 9
/// @throws OutOfValidity  temperature or salinity outside the range of the constants
/// @throws InvalidInput   pH or alkalinity out of range; air pressure outside 50 to 120 kPa; alkalinity less
///                       than borate and hydroxide take at this pH
/// @source as kernel::carbonate_constants; definitions: Dickson, Sabine & Christian 2007, chapter 2
CarbonateSystem carbonate_at_ph(const CarbonateWater& water, double ph);

/// The system in equilibrium with air: what the water tends to when it is well aerated.
/// @param carbon_dioxide  mole fraction in dry air, e.g. 420 ppm outdoors, 800 to 2000 ppm in a closed room; 50 ppm to
///                        0.05
/// @param pressure        of the moist air at the water; the water's vapour pressure is taken off
/// @throws as above
CarbonateSystem carbonate_under_air(const CarbonateWater& water, double carbon_dioxide,
                                    const AbsolutePressure& pressure = standard_atmosphere);

/// The system that holds a known amount of inorganic carbon.
/// @throws as above; InvalidInput too when the pH would lie outside 4 to 11
CarbonateSystem carbonate_with_carbon(const CarbonateWater& water, const Concentration& inorganic_carbon);

}  // namespace theca::seawater
