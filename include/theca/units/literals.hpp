// Literals: 1.40_m, 96_in, 250_gph, 78_degF (a point), 5_K (a difference), 35_psu, 250_umol_m2_s.
#pragma once

#include "theca/units/named.hpp"
#include "theca/units/salinity.hpp"

namespace theca::inline literals {

#define THECA_LITERAL(suffix, unit_name)                                                     \
  constexpr auto operator""_##suffix(long double v) {                                        \
    return static_cast<double>(v) * units::unit_name;                                        \
  }                                                                                          \
  constexpr auto operator""_##suffix(unsigned long long v) {                                 \
    return static_cast<double>(v) * units::unit_name;                                        \
  }
THECA_LITERAL(m, metre)
THECA_LITERAL(mm, millimetre)
THECA_LITERAL(cm, centimetre)
THECA_LITERAL(um, micrometre)
THECA_LITERAL(nm, nanometre)
THECA_LITERAL(in, inch)
THECA_LITERAL(ft, foot)
THECA_LITERAL(m2, square_metre)
THECA_LITERAL(cm2, square_centimetre)
THECA_LITERAL(ft2, square_foot)
THECA_LITERAL(m3, cubic_metre)
THECA_LITERAL(L, litre)
THECA_LITERAL(gal, us_gallon)
THECA_LITERAL(rad, radian)
THECA_LITERAL(deg, degree)
THECA_LITERAL(sr, steradian)
THECA_LITERAL(s, second)
THECA_LITERAL(min, minute)
THECA_LITERAL(h, hour)
THECA_LITERAL(d, day)
THECA_LITERAL(week, week)
THECA_LITERAL(year, year)
THECA_LITERAL(per_s, per_second)
THECA_LITERAL(per_h, per_hour)
THECA_LITERAL(per_d, per_day)
THECA_LITERAL(m_s, metre_per_second)
THECA_LITERAL(cm_s, centimetre_per_second)
THECA_LITERAL(ft_s, foot_per_second)
THECA_LITERAL(m_s2, metre_per_second_squared)
THECA_LITERAL(m3_s, cubic_metre_per_second)
THECA_LITERAL(L_s, litre_per_second)
THECA_LITERAL(L_h, litre_per_hour)
THECA_LITERAL(gph, gph)
THECA_LITERAL(gpm, gpm)
THECA_LITERAL(kg, kilogram)
THECA_LITERAL(g, gram)
THECA_LITERAL(lb, pound)
THECA_LITERAL(kg_m3, kilogram_per_cubic_metre)
THECA_LITERAL(N, newton)
THECA_LITERAL(kN, kilonewton)
THECA_LITERAL(lbf, pound_force)
THECA_LITERAL(N_m, newton_per_metre)
THECA_LITERAL(N_rad, newton_per_radian)
THECA_LITERAL(Pa, pascal)
THECA_LITERAL(kPa, kilopascal)
THECA_LITERAL(MPa, megapascal)
THECA_LITERAL(GPa, gigapascal)
THECA_LITERAL(psi, psi)
THECA_LITERAL(psf, psf)
THECA_LITERAL(ftH2O, foot_of_water)
THECA_LITERAL(J, joule)
THECA_LITERAL(kWh, kilowatt_hour)
THECA_LITERAL(Btu, Btu)
THECA_LITERAL(W, watt)
THECA_LITERAL(kW, kilowatt)
THECA_LITERAL(Btu_h, Btu_per_hour)
THECA_LITERAL(W_m2, watt_per_square_metre)
THECA_LITERAL(K, kelvin)
THECA_LITERAL(W_mK, watt_per_metre_kelvin)
THECA_LITERAL(W_m2K, watt_per_square_metre_kelvin)
THECA_LITERAL(W_K, watt_per_kelvin)
THECA_LITERAL(Pa_s, pascal_second)
THECA_LITERAL(m2_s, square_metre_per_second)
THECA_LITERAL(per_m, per_metre)
THECA_LITERAL(V, volt)
THECA_LITERAL(A, ampere)
THECA_LITERAL(dKH, dKH)
THECA_LITERAL(meq_L, meq_per_litre)
THECA_LITERAL(umol_s, umol_per_second)
THECA_LITERAL(umol_m2_s, umol_per_square_metre_second)
THECA_LITERAL(umol_s_sr, umol_per_second_steradian)
THECA_LITERAL(mol_m2, mol_per_square_metre)
THECA_LITERAL(USD, dollar)
#undef THECA_LITERAL

constexpr Temperature operator""_degC(long double t) { return celsius(static_cast<double>(t)); }
constexpr Temperature operator""_degC(unsigned long long t) { return celsius(static_cast<double>(t)); }
constexpr Temperature operator""_degF(long double t) { return fahrenheit(static_cast<double>(t)); }
constexpr Temperature operator""_degF(unsigned long long t) { return fahrenheit(static_cast<double>(t)); }
/// Absolute pressure in pascal and kilopascal.
constexpr AbsolutePressure operator""_Pa_abs(long double p) {
  return from_si<AbsolutePressure>(static_cast<double>(p));
}
constexpr AbsolutePressure operator""_kPa_abs(long double p) {
  return from_si<AbsolutePressure>(1e3 * static_cast<double>(p));
}
/// Practical salinity (dimensionless) and absolute salinity in parts per thousand by mass (g/kg).
constexpr PracticalSalinity operator""_psu(long double s) { return PracticalSalinity(static_cast<double>(s)); }
constexpr PracticalSalinity operator""_psu(unsigned long long s) {
  return PracticalSalinity(static_cast<double>(s));
}
constexpr AbsoluteSalinity operator""_ppt(long double s) { return AbsoluteSalinity(static_cast<double>(s)); }
constexpr AbsoluteSalinity operator""_ppt(unsigned long long s) {
  return AbsoluteSalinity(static_cast<double>(s));
}
constexpr RelativeHumidity operator""_rh(long double percent) {
  return percent_rh(static_cast<double>(percent));
}
constexpr RelativeHumidity operator""_rh(unsigned long long percent) {
  return percent_rh(static_cast<double>(percent));
}

}  // namespace theca::inline literals
