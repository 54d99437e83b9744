// Where alkalinity goes when dosing fails either way, and the salt that dosing leaves behind.
#pragma once

#include <optional>

#include "theca/farm/chemistry.hpp"
#include "theca/units.hpp"

namespace theca::farm {

/// A dosed body of water whose stock calcifies in proportion to the alkalinity above a threshold.
struct DosedWater {
  Volume water;
  AmountFlow demand;          ///< equivalents per time that the stock takes at `reference`, >= 0
  Concentration reference;    ///< alkalinity at which the demand was found
  Concentration threshold{};  ///< alkalinity at which calcification ends, below `reference`; zero: from memory, corals
                              ///< still build at half the usual alkalinity
  AmountFlow dose{};          ///< equivalents per time that the dosing brings now, >= 0
};

/// Alkalinity after a time: V dA/dt = dose - demand (A - threshold)/(reference - threshold), solved exactly. A dose of
/// zero is a pump that stands still, one above the demand a pump that runs on.
/// @throws InvalidInput  water not positive, threshold not below the reference, others negative or not finite
/// @source mass balance; growth in proportion to (saturation - 1): Langdon & Atkinson 2005 (from memory)
Concentration alkalinity_after(const DosedWater& water, const Concentration& start, const Time& time);

/// Time until alkalinity reaches a limit, from above or below; nothing when it never does.
/// @throws InvalidInput  as above
std::optional<Time> time_to_alkalinity(const DosedWater& water, const Concentration& start, const Concentration& limit);

/// Sodium chloride that dosing sodium hydrogen carbonate or carbonate with calcium chloride leaves behind: two moles
/// for each mole of calcium carbonate that the stock takes.
/// @throws InvalidInput  as mineral_demand's results: negative or not finite
/// @source stoichiometry: 2 NaHCO3 + CaCl2 -> CaCO3 + 2 NaCl + CO2 + H2O
MassFlow salt_left_by_dosing(const MineralDemand& demand);

/// A system that gains and loses salt.
struct SaltBalance {
  Mass water;             ///< of the system
  MassFlow salt_in{};     ///< e.g. left by dosing
  MassFlow water_lost{};  ///< salt water carried out (skimmed, splashed, with stock), made up with fresh water
  Frequency renewal{};    ///< share of the water that water changes renew per time
  AbsoluteSalinity new_water{35.0};  ///< of the new water
};
/// Salinity after a time, water kept at its level: M dS/dt = salt - lost S + renewal M (new - S), solved exactly.
/// @throws InvalidInput  water not positive, others negative, a salinity outside 0 to 42 g/kg
/// @throws OutOfValidity  the salinity leaves 0 to 42 g/kg in this time
AbsoluteSalinity salinity_after(const SaltBalance& balance, AbsoluteSalinity start, const Time& time);

/// Salinity after so much more fresh water was topped up than evaporated (negative: less).
/// @param surplus  over the water of the system, > -1
/// @throws InvalidInput   a surplus that leaves no water
/// @throws OutOfValidity  as above
AbsoluteSalinity salinity_after_top_up(AbsoluteSalinity start, double surplus);

}  // namespace theca::farm
