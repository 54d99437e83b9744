// Nitrogen: what feed brings, and where the water settles when stock, bacteria and water changes take it away.
#pragma once

#include <optional>

#include "theca/units.hpp"

namespace theca::farm {

/// Nitrogen in protein. @source Jones factor 6.25, i.e. 16 % (Jones 1931, USDA Circular 183)
inline constexpr double nitrogen_in_protein = 0.16;

/// Nitrogen that a feed leaves in the water.
/// @param feed      mass of feed per time, >= 0
/// @param protein   share of the feed's mass, 0 to 1
/// @param retained  share of the nitrogen that the animals keep or that is taken out as solids, 0 to 1. The rule of
///                  thumb of Timmons & Ebeling, ammonia nitrogen = 0.092 x feed x protein, keeps 0.425 (from memory)
/// @throws InvalidInput
MassFlow nitrogen_load(const MassFlow& feed, double protein, double retained = 0.425);

/// A body of water that takes up nitrogen.
struct NitrogenBalance {
  Volume water;
  MassFlow load;        ///< nitrogen in, >= 0
  MassFlow uptake;      ///< by stock, algae and filters whatever the level, >= 0
  Frequency removal{};  ///< by what works in proportion to the level (denitrification, exchangers), >= 0
  Frequency renewal{};  ///< water renewed per time, as a share of all, >= 0
  Density new_water{};  ///< nitrogen in the new water
};
/// Level after a time, by dC/dt = (load - uptake)/V + renewal (new - C) - removal C, solved exactly.
/// @return zero from the moment on when uptake has used all
/// @throws InvalidInput  water not positive, others negative or not finite
Density nitrogen_after(const NitrogenBalance& balance, const Density& start, const Time& time);

/// Level that the water tends to; nothing when it rises for ever: nothing carries the surplus away.
/// @throws InvalidInput  as above
std::optional<Density> settled_nitrogen(const NitrogenBalance& balance);

/// Renewal of water that holds a level: the inverse. Nothing when no renewal can, because the new water holds more.
/// @throws InvalidInput  as above, level not positive
std::optional<Frequency> renewal_for(const NitrogenBalance& balance, const Density& level);

/// Nitrate from its nitrogen: 62.004/14.007 = 4.427 times the mass. @source IUPAC standard atomic weights
Density nitrate(const Density& nitrate_nitrogen);

}  // namespace theca::farm
