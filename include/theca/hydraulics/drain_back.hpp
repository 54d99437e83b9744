// Power-off drain-back: what runs into the sump when the return pump stops, against the room left in it.
#pragma once

#include <vector>

#include "theca/units.hpp"

namespace theca::hydraulics {

/// Equal tanks that sink from their running level to the level where nothing leaves any more.
struct DrainingTank {
  Area surface;          ///< free water surface of one tank, > 0
  Length running_level;  ///< with the pump on: weir crest plus weir head
  Length rest_level;     ///< the weir crest, or where a return outlet's siphon breaks, whichever is lower; >= 0
  int count = 1;         ///< >= 0
};

/// The lower of the weir crest and the level at which the return outlet draws air: the siphon break if there is one,
/// else the outlet's end. All levels over the same floor.
/// @throws InvalidInput  a level not finite
Length rest_level_of(const Length& weir_crest, const Length& siphon_break);

struct DrainBack {
  Volume from_tanks;
  Volume from_pipes;
  Volume total;
};

/// Volume that drains back. Check valves are not counted on: they leak and stick.
/// @param pipes  content of the pipes and drains that run empty, >= 0
/// @throws InvalidInput  a surface not > 0, a rest level negative or above its running level, a count or
///         content negative
/// @source geometry
DrainBack drain_back(const std::vector<DrainingTank>& tanks, const Volume& pipes);

/// Room in the sump between its running and its highest allowed level.
/// @throws InvalidInput  surface not > 0, highest below running level, or not finite
Volume spare_volume(const Area& sump_surface, const Length& running_level, const Length& highest_level);

/// Level of the sump after the drain-back, over the same floor as the running level; may pass the sump's wall.
/// @throws InvalidInput  surface not > 0, level negative, or not finite
Length sump_level_after(const DrainBack& back, const Area& sump_surface, const Length& running_level);

}  // namespace theca::hydraulics
