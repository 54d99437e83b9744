// Heat balance of open tanks at steady temperature: every path by name, sums, and the heater or chiller power needed.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "theca/air.hpp"
#include "theca/thermal/gains.hpp"
#include "theca/thermal/wall.hpp"
#include "theca/thermal/water_surface.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// A wet part of a tank's walls or base.
struct WallPatch {
  std::string name{};              ///< "front", "left end"
  Length length{};                 ///< along the water line, > 0
  Length height{};                 ///< wetted; of a base its other side; > 0
  std::vector<Layer> layers = {};  ///< from the water outwards
  double emissivity = 0.9;         ///< of the outer face
  /// Given: this film (convection and radiation together) towards the room's air is used as it is.
  /// Not given: solved from the surface temperature, towards air and surroundings.
  std::optional<ThermalTransmittance> fixed_outside_film = std::nullopt;
  Facing facing = Facing::sideways;  ///< of the outer face: sideways for a wall, down for a base on legs
  /// What this face looks at, where that is not the room's mean: a cold window, a neighbour tank.
  std::optional<Temperature> surroundings = std::nullopt;
};

/// The surfaces through which one tank exchanges heat. A tank without a water surface has length or width 0.
struct TankSurfaces {
  std::string name{};
  Length water_length{}, water_width{};  ///< water surface, >= 0
  std::vector<WallPatch> walls = {};
  /// Water to wall. Given: used as it is, > 0. Not given: found from `water_speed` and buoyancy.
  std::optional<ThermalTransmittance> inside_film = std::nullopt;
  Area base{};                        ///< base that is not among the walls, >= 0
  ThermalTransmittance base_U{};      ///< water to the air of the room through that base and its support, >= 0
  double water_emissivity = 0.96;     ///< long-wave, 0 to 1
  double evaporation_activity = 1.0;  ///< see EvaporatingSurface
  std::optional<Lid> lid = std::nullopt;
  Velocity water_speed{};  ///< along the walls inside, >= 0; 0: still water
};

struct Room {
  air::MoistAir air;
  Temperature surroundings{};  ///< mean radiant temperature of the room's surfaces
  Velocity air_speed{};        ///< along the water surfaces and lids, >= 0
  Velocity wall_air_speed{};   ///< along the outer faces of walls, of a fan, >= 0
};

struct Water {
  Temperature temperature{};
  AbsoluteSalinity salinity;
};

/// Heat through a wall of a tank, and its surface temperatures.
/// @throws as wall_heat
WallHeat wall_heat(const WallPatch& wall, const TankSurfaces& tank, const Water& water, const Room& room);

/// One way by which heat leaves the water.
struct HeatPath {
  std::string name{};
  Power power{};        ///< out of the water positive; negative where the room heats the water
  Power low{}, high{};  ///< range in which models and correlations put it, low <= power <= high
  double share = 0.0;   ///< of the sum of all paths' magnitudes, with the path's sign
};

/// A balance at one water temperature. Sums are exact: total_loss is the sum of `losses` in their order.
struct HeatBalance {
  /// evaporation, surface convection, surface radiation, lid, walls (sideways), base (facing down, and base_U), and
  /// sump
  std::vector<HeatPath> losses{};
  std::vector<HeatGain> gains{};
  Power total_loss{};                         ///< with every path at its central value
  Power total_loss_low{}, total_loss_high{};  ///< with every path at its low, its high end at once
  Power total_gain{};                         ///< into the water
  Power net{};                                ///< total_loss - total_gain: positive, the water must be heated
  Power heating{};                            ///< max(net, 0)
  Power cooling{};                            ///< max(-net, 0)
  MassFlow evaporation{}, evaporation_low{}, evaporation_high{};
  /// Heat that the room takes without its moisture: every path but evaporation and sump, and what gains give to it.
  Power sensible_to_room{};

  /// Power of a path by its name.  @throws InvalidInput  no such path
  Power loss(std::string_view path) const;
};

/// One tank.
/// @throws InvalidInput  a bad field, named; OutOfValidity, NotConverged from films and walls
HeatBalance tank_balance(const TankSurfaces& tank, const Water& water, const Room& room,
                         const std::vector<HeatGain>& gains = {});

/// Tanks of one kind in one room.
struct TankGroup {
  TankSurfaces tank{};
  int count = 1;  ///< >= 0
};

/// Tanks that share their water, with a covered sump in a room of its own. A sump that is to be found by its surfaces
/// stands among the tanks, in the same room.
struct TankSystem {
  std::vector<TankGroup> tanks = {};
  ThermalConductance sump_UA{};  ///< >= 0
  Temperature sump_room{};       ///< asked only where sump_UA is not 0
  std::vector<HeatGain> gains = {};
};

/// All tanks and the sump, at one water temperature; paths of like name are added up over the tanks.
/// @throws as tank_balance
HeatBalance system_balance(const TankSystem& system, const Water& water, const Room& room);

}  // namespace theca::thermal
