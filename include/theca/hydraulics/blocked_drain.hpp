// A tank whose main drain is blocked: where its level settles, when it runs over, and how much lands on the floor.
#pragma once

#include <optional>

#include "theca/units.hpp"

namespace theca::hydraulics {

/// An open standpipe that takes over when the main drain is blocked.
struct EmergencyDrain {
  Length bore;
  Length rim;            ///< level of its rim
  Length highest_level;  ///< level the water may rise to, over the same floor, above the rim
};

/// Flow that an emergency drain takes off at a water level, and so the largest inflow that it holds there: the smaller
/// of its rim's flow and of stack_capacity() at a third; zero below its rim. A siphon is not counted on.
/// @throws InvalidInput   bore not > 0, a level not finite
/// @throws OutOfValidity  bore outside that of stack_capacity()
VolumeFlow emergency_drain_flow(const EmergencyDrain& drain, const Length& level);

/// A tank at the moment its main drain closes; all levels over the same floor.
struct BlockedTank {
  VolumeFlow inflow;     ///< from the return pump, steady, > 0
  Area surface;          ///< free water surface, > 0
  Length running_level;  ///< before the blockage, >= 0
  Length tank_rim;       ///< where it runs over, above the running level
  Volume sump_reserve;   ///< water that the pump can take before it draws air, >= 0
};

/// What the blockage comes to.
struct BlockedDrainOutcome {
  bool overflows = false;
  bool pump_runs_dry = false;
  Length final_level;  ///< settled level; the tank's rim if it overflows, below either if the sump runs dry first
  Volume held;         ///< that the tank takes above its running level
  Volume on_floor;     ///< all that the pump can still move, if nobody stops it
  std::optional<Time> time_to_overflow;
  std::optional<Time> time_to_dry;  ///< until the pump draws air
};

/// Level, time and volume when the main drain is blocked and the pump keeps its flow.
///
/// The level nears its settling level without end; final_level is the limit. Times are exact for the laws used; one
/// that cannot be told from never, as the drain takes the inflow but for the last digit, is infinite. The sump loses
/// what the tank holds and what runs over, whatever the emergency drain returns. Head over the tank's rim and
/// evaporation are left out; the real pump gives less as the sump falls, which errs on the early side.
/// @param drain  the emergency drain, none if absent; its highest_level plays no part here
/// @throws InvalidInput   impossible tank or drain
/// @throws OutOfValidity  bore of the drain outside that of stack_capacity()
/// @source balance of volumes, A dh/(Q - q(h)) integrated in closed form; standpipe_rim_flow() and stack_capacity()
BlockedDrainOutcome blocked_drain(const BlockedTank& tank, const std::optional<EmergencyDrain>& drain);

}  // namespace theca::hydraulics
