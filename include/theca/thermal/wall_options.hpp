// Walls side by side: glass, acrylic, insulated; the right answer with films beside the one that ignores them.
#pragma once

#include <string>
#include <vector>

#include "theca/thermal/wall.hpp"

namespace theca::thermal {

/// A wall that might be built.
struct WallOption {
  std::string name;           ///< "12 mm acrylic"
  std::vector<Layer> layers;  ///< from the water outwards
};

/// What an option loses, and what it seems to lose where the films are left out.
struct WallOptionHeat {
  std::string name;
  WallHeat wall;                        ///< films and surface temperatures found
  ThermalTransmittance pane_only{};     ///< k/t, see pane_only_conductance
  HeatFlux films_ignored{};             ///< k/t (water - room)
  double overstated = 0.0;              ///< films_ignored / wall.flux: how many times too much
  double to_first = 0.0;                ///< wall.flux over that of the first option: what the choice is worth
  double films_ignored_to_first = 0.0;  ///< the same of films_ignored: what it seems to be worth
};

/// Every option in the same exposure. Ratios are 0 where the first option loses nothing.
/// @throws InvalidInput  no options; and as wall_heat
std::vector<WallOptionHeat> compare_walls(const std::vector<WallOption>& options, const WallExposure& exposure);

}  // namespace theca::thermal
