// What holding the water's temperature costs in a year, and what pays against it: insulation, lids, a wider band.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "theca/thermal/balance.hpp"
#include "theca/thermal/lid.hpp"
#include "theca/thermal/sizing.hpp"
#include "theca/units.hpp"

namespace theca::farm {

/// A part of the year with steady surroundings: a month by day, a month by night.
struct HeatSeason {
  thermal::DesignDay day;  ///< the system with its gains, and its room
  Time duration{};         ///< > 0; those of all seasons together at most a year
};

/// Temperatures between which nothing heats or cools.
struct TemperatureBand {
  Temperature lowest{};   ///< heaters hold this
  Temperature highest{};  ///< chillers hold this, >= lowest
};

struct HeatPrice {
  EnergyPrice electricity{};
  double heater_performance = 1.0;   ///< heat into the water over electricity, > 0; a heat pump has 3 to 5
  double chiller_performance = 3.0;  ///< heat out of the water over electricity, > 0 (common practice, no source)
};

/// Sums over the seasons of a year.
struct YearlyHeat {
  Energy heating{};  ///< into the water
  Energy cooling{};  ///< out of it
  Energy electricity{};
  MoneyRate cost{};
  Mass evaporated{};
  std::vector<Temperature> water;  ///< in each season: an end of the band, or where it floats in between
};

/// Each season at the temperature that it floats at, or at the end of the band that is held. Never from annual means:
/// heating in winter and cooling in summer do not cancel.
/// @throws InvalidInput  no seasons, durations beyond a year, a bad band or price; and as system_balance
YearlyHeat yearly_heat(const std::vector<HeatSeason>& seasons, AbsoluteSalinity salinity, const TemperatureBand& band,
                       const HeatPrice& price);

/// Insulation on offer for the walls that shall have it.
struct InsulationOffer {
  Length thickness{};      ///< >= 0; 0 leaves them as they are
  Money installed_cost{};  ///< of all of them, >= 0
};

struct InsulationLifeCost {
  Length thickness{};
  YearlyHeat heat{};
  MoneyRate capital{};  ///< installed cost spread over its life
  MoneyRate total{};    ///< with the cost of heating and cooling
};

struct EconomicInsulation {
  std::vector<InsulationLifeCost> offers;  ///< in their order
  std::size_t best = 0;                    ///< place of the least total; of equal ones the first
};

/// What each thickness costs over its life, and the one that pays. Insulation that saves heat in winter costs cooling
/// in summer: both are counted.
/// @param walls         names of the wall patches, in every tank that has them, that get a layer outside; one at least
/// @param conductivity  of the insulation, > 0; closed-cell foam about 0.035 W/m/K
/// @param rate, years   discount rate per year (0 to 1) and life (> 0)
/// @throws InvalidInput  no offer, a name that no tank has; and as yearly_heat(), capital_recovery_factor()
EconomicInsulation economic_insulation(const std::vector<HeatSeason>& seasons, AbsoluteSalinity salinity,
                                       const TemperatureBand& band, const HeatPrice& price,
                                       const std::vector<std::string>& walls, const ThermalConductivity& conductivity,
                                       const std::vector<InsulationOffer>& offers, double rate, double years);

struct LidShareCost {
  double covered_share = 0.0;
  YearlyHeat heat{};
  MoneyRate capital{};
  MoneyRate make_up{};  ///< water for what evaporates
  MoneyRate total{};
};

struct EconomicLid {
  std::vector<LidShareCost> shares;  ///< in the order tried
  std::size_t best = 0;
};

/// What each covered share of all tanks' water surfaces costs, and the one that costs least. What a lid costs in light,
/// gas exchange and handling is not in it.
/// @param lid            its share is not asked
/// @param cost_all       installed, of lids over the whole of all surfaces; other shares in proportion; >= 0
/// @param make_up_price  per mass of fresh water, as money per volume at 1000 kg/m3; >= 0
/// @param shares         0 to 1, one or more
/// @throws InvalidInput
EconomicLid economic_lid(const std::vector<HeatSeason>& seasons, AbsoluteSalinity salinity, const TemperatureBand& band,
                         const HeatPrice& price, const thermal::Lid& lid, const Money& cost_all,
                         const VolumePrice& make_up_price, const std::vector<double>& shares, double rate,
                         double years);

/// Least covered share of all surfaces with which no more than this evaporates on a day; nothing where the lids over
/// everything are not enough.
/// @throws InvalidInput  limit negative; and as system_balance
std::optional<double> lid_share_for_evaporation(const thermal::DesignDay& day, const thermal::Water& water,
                                                const thermal::Lid& lid, const MassFlow& most);

struct BandCost {
  TemperatureBand band{};
  YearlyHeat heat{};
  MoneyRate saved{};  ///< against the first band
};

/// What each band of temperatures costs: how much a wider spread between heaters and chillers saves.
/// @throws InvalidInput  no band; and as yearly_heat()
std::vector<BandCost> band_costs(const std::vector<HeatSeason>& seasons, AbsoluteSalinity salinity,
                                 const std::vector<TemperatureBand>& bands, const HeatPrice& price);

}  // namespace theca::farm
