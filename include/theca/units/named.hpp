// Named units: `72.0 * inch` makes a Length, `in(span, inch)` reads it back, `inch.symbol` prints it.
// Conversion, literals, printing and parsing all take sizes and symbols from here, so that they cannot disagree; the
// list of what text may use, in src/units/parse.cpp, holds every one of these (tested).
#pragma once

#include <string_view>

#include "theca/units/quantity.hpp"

namespace theca {

/// A unit with a name: its size as a typed quantity and the symbol it is printed and parsed with.
template <class Unit>
struct NamedUnit {
  Quantity<Unit> size;
  std::string_view symbol;
};

template <class Unit>
constexpr Quantity<Unit> operator*(double value, const NamedUnit<Unit>& u) {
  return Quantity<Unit>::from_value(value * u.size.value());
}

/// The number of `unit`s in a quantity. A unit of another dimension does not compile.
template <class Unit>
constexpr double in(const Quantity<Unit>& q, const NamedUnit<Unit>& u) {
  return q.value() / u.size.value();
}

/// Sizes are exact by definition unless a comment says otherwise.
/// @source NIST Special Publication 811 (2008), Appendix B; SI Brochure 9th edition for the SI prefixes
namespace units {
namespace detail {
template <class Unit>
constexpr NamedUnit<Unit> make(double si_size, std::string_view symbol) {
  return {Quantity<Unit>::from_value(si_size), symbol};
}
inline constexpr double foot_m = 0.3048;
inline constexpr double inch_m = 0.0254;
inline constexpr double gallon_m3 = 231.0 * inch_m * inch_m * inch_m;  // US liquid gallon, 231 in3
inline constexpr double pound_kg = 0.45359237;
inline constexpr double standard_gravity = 9.80665;
inline constexpr double pound_force_N = pound_kg * standard_gravity;
inline constexpr double Btu_J = 1055.05585262;  // International Table Btu
}  // namespace detail
using detail::make;
using namespace theca::unit;

inline constexpr auto one = make<none>(1.0, "1");
inline constexpr auto percent = make<none>(0.01, "%");
inline constexpr auto ppm = make<none>(1e-6, "ppm");
inline constexpr auto gram_per_kilogram = make<none>(1e-3, "g/kg");  // mass per mass

inline constexpr auto metre = make<length>(1.0, "m");
inline constexpr auto millimetre = make<length>(1e-3, "mm");
inline constexpr auto centimetre = make<length>(1e-2, "cm");
inline constexpr auto kilometre = make<length>(1e3, "km");
inline constexpr auto micrometre = make<length>(1e-6, "um");
inline constexpr auto nanometre = make<length>(1e-9, "nm");
inline constexpr auto inch = make<length>(detail::inch_m, "in");
inline constexpr auto foot = make<length>(detail::foot_m, "ft");

inline constexpr auto square_metre = make<area>(1.0, "m2");
inline constexpr auto square_centimetre = make<area>(1e-4, "cm2");
inline constexpr auto square_millimetre = make<area>(1e-6, "mm2");
inline constexpr auto square_foot = make<area>(detail::foot_m * detail::foot_m, "ft2");
inline constexpr auto square_inch = make<area>(detail::inch_m * detail::inch_m, "in2");

inline constexpr auto cubic_metre = make<volume>(1.0, "m3");
inline constexpr auto litre = make<volume>(1e-3, "L");
inline constexpr auto millilitre = make<volume>(1e-6, "mL");
inline constexpr auto us_gallon = make<volume>(detail::gallon_m3, "gal");
inline constexpr auto us_pint = make<volume>(detail::gallon_m3 / 8.0, "US_pint");
inline constexpr auto cubic_foot = make<volume>(detail::foot_m * detail::foot_m * detail::foot_m, "ft3");

inline constexpr auto per_square_foot = make<per_area>(1.0 / (detail::foot_m * detail::foot_m), "1/ft2");

inline constexpr auto radian = make<angle>(1.0, "rad");
inline constexpr auto degree = make<angle>(3.14159265358979323846 / 180.0, "deg");
inline constexpr auto steradian = make<solid_angle>(1.0, "sr");

inline constexpr auto second = make<time>(1.0, "s");
inline constexpr auto minute = make<time>(60.0, "min");
inline constexpr auto hour = make<time>(3600.0, "h");
inline constexpr auto day = make<time>(86400.0, "d");
inline constexpr auto week = make<time>(7.0 * 86400.0, "week");
inline constexpr auto month = make<time>(30.4 * 86400.0, "month");  // convention of this library: 30.4 d
inline constexpr auto year = make<time>(365.0 * 86400.0, "year");   // 365 d, NIST SP 811 B.8
inline constexpr auto per_second = make<frequency>(1.0, "1/s");
inline constexpr auto per_minute = make<frequency>(1.0 / 60.0, "1/min");
inline constexpr auto per_hour = make<frequency>(1.0 / 3600.0, "1/h");
inline constexpr auto per_day = make<frequency>(1.0 / 86400.0, "1/d");
inline constexpr auto per_week = make<frequency>(1.0 / (7.0 * 86400.0), "1/week");
inline constexpr auto per_month = make<frequency>(1.0 / (30.4 * 86400.0), "1/month");
inline constexpr auto per_year = make<frequency>(1.0 / (365.0 * 86400.0), "1/year");

inline constexpr auto metre_per_second = make<velocity>(1.0, "m/s");
inline constexpr auto centimetre_per_second = make<velocity>(1e-2, "cm/s");
inline constexpr auto foot_per_second = make<velocity>(detail::foot_m, "ft/s");
inline constexpr auto metre_per_day = make<velocity>(1.0 / 86400.0, "m/d");
inline constexpr auto metre_per_second_squared = make<acceleration>(1.0, "m/s2");

inline constexpr auto cubic_metre_per_second = make<volume_flow>(1.0, "m3/s");
inline constexpr auto litre_per_second = make<volume_flow>(1e-3, "L/s");
inline constexpr auto litre_per_hour = make<volume_flow>(1e-3 / 3600.0, "L/h");
inline constexpr auto litre_per_day = make<volume_flow>(1e-3 / 86400.0, "L/d");
inline constexpr auto gph = make<volume_flow>(detail::gallon_m3 / 3600.0, "gph");
inline constexpr auto gpm = make<volume_flow>(detail::gallon_m3 / 60.0, "gpm");
inline constexpr auto gallon_per_day = make<volume_flow>(detail::gallon_m3 / 86400.0, "gal/d");

inline constexpr auto kilogram = make<mass>(1.0, "kg");
inline constexpr auto gram = make<mass>(1e-3, "g");
inline constexpr auto milligram = make<mass>(1e-6, "mg");
inline constexpr auto pound = make<mass>(detail::pound_kg, "lb");
inline constexpr auto kilogram_per_second = make<mass_flow>(1.0, "kg/s");
inline constexpr auto gram_per_day = make<mass_flow>(1e-3 / 86400.0, "g/d");
inline constexpr auto kilogram_per_day = make<mass_flow>(1.0 / 86400.0, "kg/d");
inline constexpr auto gram_per_hour = make<mass_flow>(1e-3 / 3600.0, "g/h");
inline constexpr auto milligram_per_square_centimetre_day = make<mass_flux>(1e-6 / 1e-4 / 86400.0, "mg/cm2/d");
inline constexpr auto gram_per_square_metre_day = make<mass_flux>(1e-3 / 86400.0, "g/m2/d");
inline constexpr auto gram_per_kilogram_hour = make<frequency>(1e-3 / 3600.0, "g/kg/h");  // mass per mass and time
inline constexpr auto kilogram_per_cubic_metre = make<density>(1.0, "kg/m3");
inline constexpr auto gram_per_litre = make<density>(1.0, "g/L");
inline constexpr auto milligram_per_litre = make<density>(1e-3, "mg/L");

inline constexpr auto newton = make<force>(1.0, "N");
inline constexpr auto kilonewton = make<force>(1e3, "kN");
inline constexpr auto pound_force = make<force>(detail::pound_force_N, "lbf");
inline constexpr auto newton_per_metre = make<line_load>(1.0, "N/m");
inline constexpr auto pound_force_per_foot = make<line_load>(detail::pound_force_N / detail::foot_m, "lbf/ft");
inline constexpr auto newton_per_radian = make<rotational_stiffness>(1.0, "N/rad");
inline constexpr auto pascal = make<pressure>(1.0, "Pa");
inline constexpr auto kilopascal = make<pressure>(1e3, "kPa");
inline constexpr auto megapascal = make<pressure>(1e6, "MPa");
inline constexpr auto gigapascal = make<pressure>(1e9, "GPa");
inline constexpr auto psi = make<pressure>(detail::pound_force_N / (detail::inch_m * detail::inch_m), "psi");
inline constexpr auto psf = make<pressure>(detail::pound_force_N / (detail::foot_m * detail::foot_m), "psf");
inline constexpr auto foot_of_water = make<pressure>(2989.067, "ftH2O");  // conventional, NIST SP 811 B.8

inline constexpr auto joule = make<energy>(1.0, "J");
inline constexpr auto kilowatt_hour = make<energy>(3.6e6, "kWh");
inline constexpr auto Btu = make<energy>(detail::Btu_J, "Btu");
inline constexpr auto watt = make<power>(1.0, "W");
inline constexpr auto kilowatt = make<power>(1e3, "kW");
inline constexpr auto Btu_per_hour = make<power>(detail::Btu_J / 3600.0, "Btu/h");
inline constexpr auto watt_per_square_metre = make<heat_flux>(1.0, "W/m2");

inline constexpr auto kelvin = make<temperature>(1.0, "K");
inline constexpr auto degC_difference = make<temperature>(1.0, "degC");
inline constexpr auto degF_difference = make<temperature>(5.0 / 9.0, "degF");
inline constexpr auto watt_per_metre_kelvin = make<thermal_conductivity>(1.0, "W/m/K");
inline constexpr auto watt_per_square_metre_kelvin = make<thermal_transmittance>(1.0, "W/m2/K");
inline constexpr auto Btu_per_hour_ft2_degF =
    make<thermal_transmittance>(detail::Btu_J / 3600.0 / (detail::foot_m * detail::foot_m) * 1.8, "Btu/h/ft2/degF");
inline constexpr auto watt_per_kelvin = make<thermal_conductance>(1.0, "W/K");
inline constexpr auto joule_per_kelvin = make<heat_capacity>(1.0, "J/K");
inline constexpr auto joule_per_kilogram_kelvin = make<specific_heat_capacity>(1.0, "J/kg/K");
inline constexpr auto joule_per_kilogram = make<specific_energy>(1.0, "J/kg");
inline constexpr auto pascal_second = make<dynamic_viscosity>(1.0, "Pa s");
inline constexpr auto square_metre_per_second = make<kinematic_viscosity>(1.0, "m2/s");
inline constexpr auto per_kelvin = make<thermal_expansion>(1.0, "1/K");
inline constexpr auto per_metre = make<attenuation>(1.0, "1/m");

inline constexpr auto volt = make<voltage>(1.0, "V");
inline constexpr auto ampere = make<current>(1.0, "A");
inline constexpr auto ohm = make<resistance>(1.0, "ohm");
inline constexpr auto ohm_per_kilometre = make<resistance_per_length>(1e-3, "ohm/km");
inline constexpr auto ohm_per_thousand_feet = make<resistance_per_length>(1e-3 / detail::foot_m, "ohm/kft");
inline constexpr auto ampere_hour = make<charge>(3600.0, "Ah");

inline constexpr auto mole = make<amount>(1.0, "mol");
inline constexpr auto micromole = make<amount>(1e-6, "umol");
inline constexpr auto milliequivalent = make<amount>(1e-3, "meq");  // mole of charge
inline constexpr auto mole_per_cubic_metre = make<concentration>(1.0, "mol/m3");
inline constexpr auto meq_per_litre = make<concentration>(1.0, "meq/L");  // mole of charge
// German degree of carbonate hardness: 10 mg CaO per litre (DIN 38409-6 usage), 2 equivalents per mole of
// CaO, M(CaO) = 56.0774 g/mol from the IUPAC standard atomic weights, so 1 meq/L = 2.804 dKH.
inline constexpr auto dKH = make<concentration>(2.0 * 10.0 / 56.0774, "dKH");
inline constexpr auto gram_per_mole = make<molar_mass>(1e-3, "g/mol");
inline constexpr auto umol_per_kilogram = make<molality>(1e-6, "umol/kg");
inline constexpr auto mole_per_day = make<photon_flux>(1.0 / 86400.0, "mol/d");
inline constexpr auto umol_per_square_centimetre_hour = make<molar_flux>(1e-6 / 1e-4 / 3600.0, "umol/cm2/h");

inline constexpr auto candela = make<luminous_intensity>(1.0, "cd");
inline constexpr auto lumen = make<luminous_flux>(1.0, "lm");
inline constexpr auto lumen_per_watt = make<luminous_efficacy>(1.0, "lm/W");
inline constexpr auto umol_per_second_lumen = make<photons_per_light>(1e-6, "umol/s/lm");
inline constexpr auto umol_per_second = make<photon_flux>(1e-6, "umol/s");
inline constexpr auto umol_per_square_metre_second = make<photon_flux_density>(1e-6, "umol/m2/s");
inline constexpr auto umol_per_second_steradian = make<photon_intensity>(1e-6, "umol/s/sr");
inline constexpr auto mol_per_square_metre = make<photon_dose>(1.0, "mol/m2");
inline constexpr auto umol_per_joule = make<photon_efficacy>(1e-6, "umol/J");

inline constexpr auto dollar = make<currency>(1.0, "USD");
inline constexpr auto dollar_per_hour = make<currency_per_time>(1.0 / 3600.0, "USD/h");
inline constexpr auto dollar_per_kilowatt_hour = make<currency_per_energy>(1.0 / 3.6e6, "USD/kWh");
inline constexpr auto dollar_per_gallon = make<currency_per_volume>(1.0 / detail::gallon_m3, "USD/gal");
inline constexpr auto dollar_per_square_foot_year =
    make<currency_per_area_time>(1.0 / (detail::foot_m * detail::foot_m) / (365.0 * 86400.0), "USD/ft2/year");
inline constexpr auto dollar_per_year = make<currency_per_time>(1.0 / (365.0 * 86400.0), "USD/year");
}  // namespace units

/// Points on the Celsius, Fahrenheit and kelvin scales.
/// @source NIST SP 811 (2008), B.8: T/K = t/degC + 273.15; t/degC = (t/degF - 32)/1.8, exact
constexpr Temperature celsius(double t) { return from_si<Temperature>(t + 273.15); }
constexpr Temperature fahrenheit(double t) { return from_si<Temperature>((t + 459.67) / 1.8); }
constexpr double in_celsius(const Temperature& t) { return t.value() - 273.15; }
constexpr double in_fahrenheit(const Temperature& t) { return t.value() * 1.8 - 459.67; }

/// Standard acceleration of free fall, exact by definition (CGPM 1901).
inline constexpr Acceleration standard_gravity = from_si<Acceleration>(units::detail::standard_gravity);
/// Standard atmosphere, exact by definition (CGPM 1954).
inline constexpr AbsolutePressure standard_atmosphere = from_si<AbsolutePressure>(101325.0);

}  // namespace theca
