#include "theca/thermal/wall_options.hpp"

namespace theca::thermal {

std::vector<WallOptionHeat> compare_walls(const std::vector<WallOption>& options, const WallExposure& exposure) {
  require::that(!options.empty(), "options", 0.0, "at least one wall");
  const auto ratio = [](const HeatFlux& one, const HeatFlux& other) {
    return si(other) != 0.0 ? si(one) / si(other) : 0.0;
  };
  std::vector<WallOptionHeat> list;
  for (const WallOption& option : options) {
    WallOptionHeat heat;
    heat.name = option.name;
    heat.wall = wall_heat(option.layers, exposure);
    heat.pane_only = pane_only_conductance(option.layers);
    heat.films_ignored = heat.pane_only * (exposure.water - exposure.room);
    heat.overstated = ratio(heat.films_ignored, heat.wall.flux);
    list.push_back(heat);
    WallOptionHeat& last = list.back();
    last.to_first = ratio(last.wall.flux, list.front().wall.flux);
    last.films_ignored_to_first = ratio(last.films_ignored, list.front().films_ignored);
  }
  return list;
}

}  // namespace theca::thermal
