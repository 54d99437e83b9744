#include "theca/thermal/tank_options.hpp"

namespace theca::thermal {

std::vector<TankOptionHeat> compare_tank_walls(const TankSurfaces& tank, const std::vector<WallOption>& options,
                                               const Water& water, const Room& room,
                                               const std::vector<HeatGain>& gains) {
  require::that(!options.empty(), "options", 0.0, "at least one wall");
  Area sides{};
  for (const WallPatch& wall : tank.walls)
    if (wall.facing == Facing::sideways) sides += wall.length * wall.height;
  require::that(si(sides) > 0.0, "walls", sides, "at least one that faces sideways");

  std::vector<TankOptionHeat> list;
  for (const WallOption& option : options) {
    TankSurfaces built = tank;
    for (WallPatch& wall : built.walls)
      if (wall.facing == Facing::sideways) wall.layers = option.layers;
    TankOptionHeat heat;
    heat.name = option.name;
    heat.balance = tank_balance(built, water, room, gains);
    heat.walls = heat.balance.loss("walls");
    heat.walls_films_ignored =
        pane_only_conductance(option.layers) * sides * (water.temperature - room.air.temperature);
    heat.overstated = si(heat.walls) != 0.0 ? si(heat.walls_films_ignored) / si(heat.walls) : 0.0;
    list.push_back(heat);
    TankOptionHeat& last = list.back();
    last.saved = list.front().balance.total_loss - last.balance.total_loss;
    last.saved_films_ignored = list.front().walls_films_ignored - last.walls_films_ignored;
  }
  return list;
}

}  // namespace theca::thermal
