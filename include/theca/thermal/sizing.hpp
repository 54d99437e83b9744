// Heaters and chillers: how much power for the design days, in how many units, so that one that fails is survived.
#pragma once

#include <optional>
#include <vector>

#include "theca/thermal/balance.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// Temperature at which a system settles under a constant power of its heaters (positive) or chillers (negative),
/// besides its gains; nothing where that lies outside 0 to 40 degC.
/// @throws as system_balance; NotConverged
std::optional<Temperature> settled_temperature(const TankSystem& system, AbsoluteSalinity salinity, const Room& room,
                                               const Power& power);

/// A day to design for: the system with its gains on that day, and its room.
struct DesignDay {
  TankSystem system{};
  Room room;
};

/// What units must do.
struct UnitCriteria {
  Water set_point;                  ///< water temperature to hold, and its salinity
  Temperature lowest{}, highest{};  ///< what the stock bears, lowest < set point < highest
  double margin = 0.2;              ///< installed power over the need, less 1; >= 0
  std::vector<Power> sizes = {};    ///< of one unit as offered, each > 0
  int most_units = 6;               ///< >= 1
};

enum class UnitKind { heater, chiller };

/// A number of equal units and what comes of their failures. Temperatures are where the water settles if nobody comes;
/// how long that takes is another question (temperature_course).
struct UnitSplit {
  UnitKind kind = UnitKind::heater;
  int units = 0;
  Power each{}, installed{};
  Power need{};         ///< on the design day, at the set point
  bool covers = false;  ///< installed >= need (1 + margin)
  /// One unit is dead on the day that needs them, the others run by their thermostats: the set point, where they hold
  /// it; else where the water settles; nothing: outside 0 to 40 degC.
  std::optional<Temperature> one_dead = std::nullopt;
  bool bears_dead = false;  ///< ... and that is within lowest and highest
  /// One unit is stuck on, on the day that does not need it, the others run by their thermostats: as above.
  std::optional<Temperature> one_stuck = std::nullopt;
  bool bears_stuck = false;
  bool meets = false;  ///< all three
};

/// Heaters: power for the cold day; one dead on the cold day must not let it fall under `lowest`, one stuck on the warm
/// day must not raise it over `highest`. Every size in every number up to most_units, in the order of installed power.
///
/// No chiller is counted on: it may be the one that is off.
/// @throws InvalidInput  bad criteria; and as system_balance
std::vector<UnitSplit> heater_splits(const DesignDay& cold, const DesignDay& warm, const UnitCriteria& criteria);

/// Chillers, the other way round: power for the warm day, one dead on the warm day must not cook, one stuck on the cold
/// day must not chill below `lowest`.
/// @param heaters  heating power that stands ready on the cold day, >= 0
std::vector<UnitSplit> chiller_splits(const DesignDay& warm, const DesignDay& cold, const Power& heaters,
                                      const UnitCriteria& criteria);

/// The split that meets its criteria with the fewest units, of these the one with least power; nothing where none does.
std::optional<UnitSplit> fewest_units(const std::vector<UnitSplit>& splits);

}  // namespace theca::thermal
