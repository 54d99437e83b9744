// Oxygen: saturation of seawater, what the stock breathes, and how long a still tank lasts in a power cut.
#pragma once

#include <cmath>
#include <optional>

#include "theca/units.hpp"

namespace theca::farm {

/// @source IUPAC standard atomic weight of oxygen 15.999, twice
inline constexpr MolarMass oxygen_molar_mass = 31.998 * units::gram_per_mole;

namespace kernel {
/// Garcia & Gordon 1992, equation 8 with the coefficients fitted to Benson & Krause 1984 (table 1, umol/kg column);
/// the term A3 Ts^2 that the paper prints is an error and is left out, as in the TEOS-10 toolbox. Temperature on the
/// IPTS-68 scale of the data; unchecked.
template <class T>
T oxygen_saturation_umol_per_kg(T ipts68_degC, T practical_salinity) {
  using std::exp;
  using std::log;
  const T ts = log((298.15 - ipts68_degC) / (273.15 + ipts68_degC));
  const T a = 5.80871 + ts * (3.20291 + ts * (4.17887 + ts * (5.10006 + ts * (-9.86643e-2 + ts * 3.80369))));
  const T b = -7.01577e-3 + ts * (-7.70028e-3 + ts * (-1.13864e-2 + ts * -9.51519e-3));
  return exp(a + practical_salinity * (b + practical_salinity * -2.75915e-7));
}

/// V dC/dt = kL A (Cs - C) - R solved exactly; x = kL A / V. All per volume: R/V. Holds at x = 0 too.
template <class T>
T oxygen_after(T start_kg_m3, T saturation_kg_m3, T exchange_per_s, T consumption_kg_m3_s, T time_s) {
  using std::expm1;
  const T xt = exchange_per_s * time_s;
  // (1 - exp(-xt))/x, which tends to t as x vanishes
  const T effective_time = exchange_per_s == T(0) ? time_s : T(-expm1(-xt) / exchange_per_s);
  return start_kg_m3 + effective_time * (exchange_per_s * (saturation_kg_m3 - start_kg_m3) - consumption_kg_m3_s);
}
}  // namespace kernel

/// Oxygen in air-saturated seawater at one standard atmosphere of moist air, per mass of seawater.
/// @throws OutOfValidity  temperature outside 0 to 40 degC (ITS-90), practical salinity outside 0 to 42
/// @source Garcia & Gordon 1992, Limnol. Oceanogr. 37:1307; check value in the TEOS-10 manual: S = 34.7118,
///         T = 28.8099 degC gives 194.68 umol/kg. Not corrected for the pressure of the place: 1 % per 100 m of
///         altitude.
Molality oxygen_saturation_per_mass(const Temperature& water, PracticalSalinity salinity);
/// The same per volume, as mass: multiplied by the density of seawater and the molar mass of oxygen.
Density oxygen_saturation(const Temperature& water, PracticalSalinity salinity);

/// Everything in a tank that breathes in the dark.
struct Breathing {
  Area coral_area;
  MolarFlux coral_rate;  ///< amount of O2 per area and time; 1.0 umol cm-2 h-1 from memory
  Mass fish_mass;
  Frequency fish_rate;  ///< mass of O2 per mass of fish and time
  MassFlow film;        ///< microbes on walls and rock
};
/// Sum of the consumption. @throws InvalidInput  negative or not finite
MassFlow oxygen_consumption(const Breathing& breathing);

struct StillTank {
  Volume water;
  Area surface;
  Velocity transfer;  ///< kL of the quiet surface, >= 0; 0.3 to 1 m/d from memory
  Density saturation;
  MassFlow consumption;
};
/// Oxygen after a time without power: exact solution of V dC/dt = kL A (Cs - C) - R.
/// @return mass per volume; negative values mean that constant consumption cannot last that long: read only down to the
///         limit that matters
/// @throws InvalidInput   volume or surface not positive, others negative
Density oxygen_after(const StillTank& tank, const Density& start, const Time& time);

/// Time until oxygen falls to a limit; nothing when it never does (the surface keeps up, or the level rises).
/// Zero when it starts at or below the limit.
std::optional<Time> time_to_limit(const StillTank& tank, const Density& start, const Density& limit);

}  // namespace theca::farm
