// Literals: 1.40_m, 96_in, 250_gph, 78_degF (a point), 5_K (a difference), 35_psu, 250_umol_m2_s.
#pragma once

#include "theca/units/named.hpp"
#include "theca/units/salinity.hpp"

namespace theca {
inline namespace literals {

// The return type is spelled by its short name, since compilers quote it in their messages.
#define THECA_LITERAL(suffix, Type, unit_name)                                                            \
  constexpr Type operator""_##suffix(long double v) { return static_cast<double>(v) * units::unit_name; } \
  constexpr Type operator""_##suffix(unsigned long long v) { return static_cast<double>(v) * units::unit_name; }
THECA_LITERAL(m, Length, metre)
THECA_LITERAL(mm, Length, millimetre)
THECA_LITERAL(cm, Length, centimetre)
THECA_LITERAL(um, Length, micrometre)
THECA_LITERAL(nm, Length, nanometre)
THECA_LITERAL(in, Length, inch)
THECA_LITERAL(ft, Length, foot)
THECA_LITERAL(m2, Area, square_metre)
THECA_LITERAL(cm2, Area, square_centimetre)
THECA_LITERAL(ft2, Area, square_foot)
THECA_LITERAL(m3, Volume, cubic_metre)
THECA_LITERAL(L, Volume, litre)
THECA_LITERAL(gal, Volume, us_gallon)
THECA_LITERAL(rad, Angle, radian)
THECA_LITERAL(deg, Angle, degree)
THECA_LITERAL(sr, SolidAngle, steradian)
THECA_LITERAL(s, Time, second)
THECA_LITERAL(min, Time, minute)
THECA_LITERAL(h, Time, hour)
THECA_LITERAL(d, Time, day)
THECA_LITERAL(week, Time, week)
THECA_LITERAL(year, Time, year)
THECA_LITERAL(per_s, Frequency, per_second)
THECA_LITERAL(per_h, Frequency, per_hour)
THECA_LITERAL(per_d, Frequency, per_day)
THECA_LITERAL(m_s, Velocity, metre_per_second)
THECA_LITERAL(cm_s, Velocity, centimetre_per_second)
THECA_LITERAL(ft_s, Velocity, foot_per_second)
THECA_LITERAL(m_s2, Acceleration, metre_per_second_squared)
THECA_LITERAL(m3_s, VolumeFlow, cubic_metre_per_second)
THECA_LITERAL(L_s, VolumeFlow, litre_per_second)
THECA_LITERAL(L_h, VolumeFlow, litre_per_hour)
THECA_LITERAL(gph, VolumeFlow, gph)
THECA_LITERAL(gpm, VolumeFlow, gpm)
THECA_LITERAL(kg, Mass, kilogram)
THECA_LITERAL(g, Mass, gram)
THECA_LITERAL(lb, Mass, pound)
THECA_LITERAL(kg_m3, Density, kilogram_per_cubic_metre)
THECA_LITERAL(N, Force, newton)
THECA_LITERAL(kN, Force, kilonewton)
THECA_LITERAL(lbf, Force, pound_force)
THECA_LITERAL(N_m, LineLoad, newton_per_metre)
THECA_LITERAL(N_rad, RotationalStiffness, newton_per_radian)
THECA_LITERAL(Pa, Pressure, pascal)
THECA_LITERAL(kPa, Pressure, kilopascal)
THECA_LITERAL(MPa, Pressure, megapascal)
THECA_LITERAL(GPa, Pressure, gigapascal)
THECA_LITERAL(psi, Pressure, psi)
THECA_LITERAL(psf, Pressure, psf)
THECA_LITERAL(ftH2O, Pressure, foot_of_water)
THECA_LITERAL(J, Energy, joule)
THECA_LITERAL(kWh, Energy, kilowatt_hour)
THECA_LITERAL(Btu, Energy, Btu)
THECA_LITERAL(W, Power, watt)
THECA_LITERAL(kW, Power, kilowatt)
THECA_LITERAL(Btu_h, Power, Btu_per_hour)
THECA_LITERAL(W_m2, HeatFlux, watt_per_square_metre)
THECA_LITERAL(K, TemperatureDifference, kelvin)
THECA_LITERAL(W_mK, ThermalConductivity, watt_per_metre_kelvin)
THECA_LITERAL(W_m2K, ThermalTransmittance, watt_per_square_metre_kelvin)
THECA_LITERAL(W_K, ThermalConductance, watt_per_kelvin)
THECA_LITERAL(Pa_s, DynamicViscosity, pascal_second)
THECA_LITERAL(m2_s, KinematicViscosity, square_metre_per_second)
THECA_LITERAL(per_m, Attenuation, per_metre)
THECA_LITERAL(V, Voltage, volt)
THECA_LITERAL(A, Current, ampere)
THECA_LITERAL(dKH, Concentration, dKH)
THECA_LITERAL(meq_L, Concentration, meq_per_litre)
THECA_LITERAL(umol_s, PhotonFlux, umol_per_second)
THECA_LITERAL(umol_m2_s, PhotonFluxDensity, umol_per_square_metre_second)
THECA_LITERAL(umol_s_sr, PhotonIntensity, umol_per_second_steradian)
THECA_LITERAL(mol_m2, PhotonDose, mol_per_square_metre)
THECA_LITERAL(USD, Money, dollar)
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
constexpr PracticalSalinity operator""_psu(unsigned long long s) { return PracticalSalinity(static_cast<double>(s)); }
constexpr AbsoluteSalinity operator""_ppt(long double s) { return AbsoluteSalinity(static_cast<double>(s)); }
constexpr AbsoluteSalinity operator""_ppt(unsigned long long s) { return AbsoluteSalinity(static_cast<double>(s)); }
constexpr RelativeHumidity operator""_rh(long double percent) { return percent_rh(static_cast<double>(percent)); }
constexpr RelativeHumidity operator""_rh(unsigned long long percent) {
  return percent_rh(static_cast<double>(percent));
}

}  // namespace literals
}  // namespace theca
