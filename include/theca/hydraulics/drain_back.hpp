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

/// Where the siphon breaks of all return outlets must lie.
struct SiphonBreak {
  Length depth;                ///< under each tank's weir crest, at most
  std::vector<Length> levels;  ///< the same as the lowest level in each tank, in their order
};

/// The lowest siphon breaks, all equally deep under the weir crests of their tanks, with which the drain-back still
/// fits the sump: the inverse of drain_back(). Any higher one does too; from the crest up the weir alone decides. A
/// break must yet lie below the running level by enough not to draw air with the pump on, and one that growth closes is
/// none: keep two and clean them (common practice, no source).
///
/// A tank that would run empty gives no more than it holds; if even all of them do, every level is 0.
/// @param at_crests  the tanks with their weir crest as rest level
/// @param pipes      content of the pipes and drains that run empty, >= 0
/// @param spare      room in the sump, see spare_volume(), less any margin
/// @throws InvalidInput   as drain_back(), no tank, spare negative
/// @throws OutOfValidity  the sump runs over with the tanks at their weir crests already; says by how much
/// @source geometry: the drain-back rises with the depth in straight pieces, solved exactly
SiphonBreak siphon_break_for(const std::vector<DrainingTank>& at_crests, const Volume& pipes, const Volume& spare);

/// Least surface of a sump that holds a drain-back between its running and its highest level.
/// @param margin  room beyond the drain-back, as a share of it, >= 0: 0.1 leaves room for a tenth more
/// @throws InvalidInput  highest level not above the running level; drain-back, running level or margin negative; or
///         any not finite
Area sump_surface_for(const DrainBack& back, const Length& running_level, const Length& highest_level, double margin);

/// Least height between the running and the highest level of a sump that holds a drain-back.
/// @param margin  as for sump_surface_for()
/// @throws InvalidInput  surface not > 0, drain-back or margin negative, or not finite
Length sump_spare_height_for(const DrainBack& back, const Area& sump_surface, double margin);

}  // namespace theca::hydraulics
