// Alkalinity and calcium used by growing stock, doses, salt for mixing, water changes, a dosing failure.
#pragma once

#include <cmath>

#include "theca/require.hpp"
#include "theca/units.hpp"

namespace theca::farm {

/// Molar masses, and grams per equivalent.
/// @source IUPAC standard atomic weights (abridged 2021: H 1.008, C 12.011, O 15.999, Na 22.990, Cl 35.45, Ca 40.078),
///         summed here
inline constexpr MolarMass calcium_molar_mass = 40.078 * units::gram_per_mole;
inline constexpr MolarMass calcium_carbonate_molar_mass = (40.078 + 12.011 + 3.0 * 15.999) * units::gram_per_mole;
inline constexpr MolarMass sodium_bicarbonate_per_equivalent =
    (22.990 + 1.008 + 12.011 + 3.0 * 15.999) * units::gram_per_mole;
inline constexpr MolarMass sodium_carbonate_per_equivalent =
    0.5 * (2.0 * 22.990 + 12.011 + 3.0 * 15.999) * units::gram_per_mole;
inline constexpr MolarMass calcium_chloride_dihydrate_molar_mass =
    (40.078 + 2.0 * 35.45 + 2.0 * (2.0 * 1.008 + 15.999)) * units::gram_per_mole;

/// Equivalents of alkalinity used per mole of CaCO3: Ca2+ + 2 HCO3- -> CaCO3 + CO2 + H2O.
/// @source stoichiometry; measured 2.06 +- 0.19 over corals alone (Murillo et al. 2014)
inline constexpr double equivalents_per_calcium_carbonate = 2.0;

/// What calcification takes from the water per time.
struct MineralDemand {
  MassFlow calcium_carbonate;
  AmountFlow alkalinity;  ///< equivalents per time
  AmountFlow calcium;
};

/// Demand of live coral area at a calcification rate per area.
/// @param area  live area, >= 0
/// @param rate  mass of CaCO3 per area and time, >= 0; plan 0.3 to 2 mg cm-2 d-1, always as a range (Ross et al. 2015:
///              Acropora yongei 1.31 to 2.02, Pocillopora damicornis 0.34 to 0.90)
/// @throws InvalidInput  negative or not finite
MineralDemand mineral_demand(const Area& area, const MassFlux& rate);

/// Fall of alkalinity over a time when nothing is dosed, at constant demand: an upper bound, since calcification slows
/// as alkalinity falls.
/// @throws InvalidInput  volume not positive, time negative
Concentration alkalinity_drop(const MineralDemand& demand, const Volume& water, const Time& time);
/// Fall of dissolved calcium, as mass per volume, likewise.
Density calcium_drop(const MineralDemand& demand, const Volume& water, const Time& time);

/// Calcium used together with an amount of alkalinity, as mass per volume of water: 1 dKH takes 7.15 mg/L.
Density calcium_for_alkalinity(const Concentration& alkalinity);

struct Doses {
  MassFlow sodium_bicarbonate;          ///< for all of the alkalinity; or, instead,
  MassFlow sodium_carbonate;            ///< for all of the alkalinity
  MassFlow calcium_chloride_dihydrate;  ///< for all of the calcium
};
/// Doses that replace a demand, as pure dry salts.
Doses doses(const MineralDemand& demand);

/// Alkalinity after the dosing pump has been off for a time.
/// @throws InvalidInput   arguments negative or not finite
/// @throws OutOfValidity  constant demand would have used all of it: the linear model does not hold that far
Concentration alkalinity_after_dosing_failure(const Concentration& start, const MineralDemand& demand,
                                              const Volume& water, const Time& time);

/// Sea salt dissolved in a volume of mixed seawater: V rho (35.16504/35) S/1000. A dry mix holds water of hydration and
/// weighs more, about a tenth (common practice, no source).
/// @param density  of the mixed seawater
/// @throws InvalidInput  volume or density not positive, salinity outside 0 to 42
/// @source Millero, Feistel, Wright & McDougall 2008, reference-composition salinity
Mass salt_mass(const Volume& water, PracticalSalinity salinity, const Density& density);
/// The same with the density of seawater at a temperature.
Mass salt_mass(const Volume& water, PracticalSalinity salinity, const Temperature& temperature);

/// Share of a dissolved substance left after n changes of a share f of the water: (1 - f)^n.
/// @throws InvalidInput  f outside 0 to 1, n negative
inline double left_after_changes(double share, int changes) {
  require::within("share changed", share, 0.0, 1.0);
  require::that(changes >= 0, "changes", changes, ">= 0");
  return std::pow(1.0 - share, changes);
}
/// The same volume changed continuously, new water in as mixed water runs out: exp(-f).
/// @param exchanged  new water over system volume, >= 0
inline double left_after_continuous(double exchanged) {
  require::not_negative("exchanged", exchanged);
  return std::exp(-exchanged);
}
/// Number of changes after which at most `left` remains.
/// @throws InvalidInput  share or left outside (0, 1)
int changes_for(double share, double left);

/// Level after n water changes, towards that of the new water. Works for alkalinity, calcium or a pollutant.
/// @throws InvalidInput  as left_after_changes; levels negative
template <class Unit>
Quantity<Unit> after_changes(const Quantity<Unit>& level, const Quantity<Unit>& new_water, double share, int changes) {
  require::not_negative("level", level);
  require::not_negative("level of the new water", new_water);
  return new_water + left_after_changes(share, changes) * (level - new_water);
}

}  // namespace theca::farm
