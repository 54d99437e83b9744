// Heat balance of open tanks at steady temperature: every path by name, sums, and the heater or chiller power needed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "theca/air.hpp"
#include "theca/thermal/evaporation.hpp"
#include "theca/thermal/wall.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// A wet part of a tank's walls.
struct WallPatch {
  std::string name;           ///< "front", "left end"
  Length length;              ///< along the water line, > 0
  Length height;              ///< wetted, > 0
  std::vector<Layer> layers;  ///< from the water outwards
  double emissivity = 0.9;    ///< of the outer face
  /// Given: this film (convection and radiation together) towards the room's air is used as it is.
  /// Not given: solved from the surface temperature, towards air and surroundings.
  std::optional<ThermalTransmittance> fixed_outside_film = std::nullopt;
};

/// The surfaces through which one tank exchanges heat. A tank without a water surface (covered) has length or width 0.
struct TankSurfaces {
  std::string name;
  Length water_length, water_width;  ///< open water surface, >= 0
  std::vector<WallPatch> walls = {};
  ThermalTransmittance inside_film;   ///< water to wall, > 0
  Area base;                          ///< >= 0
  ThermalTransmittance base_U;        ///< water to the air of the room through base and support, >= 0
  double water_emissivity = 0.96;     ///< long-wave, 0 to 1
  double evaporation_activity = 1.0;  ///< see EvaporatingSurface
};

struct Room {
  air::MoistAir air;
  Temperature surroundings;  ///< mean temperature of the room's surfaces, for long-wave exchange
  Velocity air_speed;        ///< along the water surfaces, >= 0
};

struct Water {
  Temperature temperature;
  AbsoluteSalinity salinity;
};

/// One way by which heat leaves the water.
struct HeatPath {
  std::string name;
  Power power;         ///< out of the water positive; negative where the room heats the water
  double share = 0.0;  ///< of the sum of all paths' magnitudes, with the path's sign
};

/// Power into the water from equipment.
struct HeatGain {
  std::string name;
  Power power;  ///< into the water, >= 0
};

/// A balance at one water temperature. Sums are exact: total_loss is the sum of `losses` in their order.
struct HeatBalance {
  std::vector<HeatPath> losses;  ///< evaporation, surface convection, surface radiation, walls, base (and sump)
  std::vector<HeatGain> gains;
  Power total_loss;                       ///< with central evaporation
  Power total_loss_low, total_loss_high;  ///< with the low and high ends of evaporation
  Power total_gain;
  Power net;      ///< total_loss - total_gain: positive, the water must be heated; negative, cooled
  Power heating;  ///< max(net, 0)
  Power cooling;  ///< max(-net, 0)
  MassFlow evaporation, evaporation_low, evaporation_high;

  /// Power of a path by its name.  @throws InvalidInput  no such path
  Power loss(std::string_view path) const;
};

/// One tank.
/// @throws InvalidInput  a bad field, named; OutOfValidity, NotConverged from films and walls
HeatBalance tank_balance(const TankSurfaces& tank, const Water& water, const Room& room,
                         const std::vector<HeatGain>& gains = {});

/// Tanks of one kind in one room.
struct TankGroup {
  TankSurfaces tank;
  int count = 1;  ///< >= 0
};

/// Tanks that share their water, with a covered sump in a room of its own.
struct TankSystem {
  std::vector<TankGroup> tanks;
  ThermalConductance sump_UA;  ///< >= 0
  Temperature sump_room;
  std::vector<HeatGain> gains = {};
};

/// All tanks and the sump, at one water temperature; paths of like name are added up over the tanks.
/// @throws as tank_balance
HeatBalance system_balance(const TankSystem& system, const Water& water, const Room& room);

}  // namespace theca::thermal
