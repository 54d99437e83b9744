// A whole tank with glass, acrylic or insulated walls: what the choice of wall is worth beside everything else it
// loses.
#pragma once

#include <string>
#include <vector>

#include "theca/thermal/balance.hpp"
#include "theca/thermal/wall_options.hpp"

namespace theca::thermal {

/// One option for the walls of a tank.
struct TankOptionHeat {
  std::string name;
  HeatBalance balance;          ///< of the whole tank
  Power walls{};                ///< through the walls, films and surface temperatures found
  Power walls_films_ignored{};  ///< k/t times area times (water - room): the answer that misleads
  double overstated = 0.0;      ///< walls_films_ignored / walls
  Power saved{};                ///< total loss of the first option less that of this one
  Power saved_films_ignored{};  ///< what the films-ignored answer promises instead
};

/// The tank with every option's layers in all walls that face sideways; base, surface and gains as they are.
/// @throws InvalidInput  no options, no wall that faces sideways; and as tank_balance
std::vector<TankOptionHeat> compare_tank_walls(const TankSurfaces& tank, const std::vector<WallOption>& options,
                                               const Water& water, const Room& room,
                                               const std::vector<HeatGain>& gains = {});

}  // namespace theca::thermal
