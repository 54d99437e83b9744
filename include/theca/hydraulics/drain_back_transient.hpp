// Power off and back on against time: weirs run down, siphons break, the sump rises; then all of it the other way.
#pragma once

#include <optional>
#include <vector>

#include "theca/hydraulics/drain_back.hpp"
#include "theca/hydraulics/weir.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

/// A return line whose outlet stands under water and siphons back through the stopped pump.
struct BackSiphon {
  Length bore;           ///< > 0
  double total_K = 0.0;  ///< of the whole line in velocity heads: entry, friction f L/D, fittings, pump, exit; >= 1
  Length breaks_at;      ///< tank level at which it draws air, >= 0
};

/// Equal tanks with an overflow weir; levels over one floor for tanks and sump.
struct OverflowingTank {
  Area surface;                      ///< free water surface of one tank, > 0
  Length weir_crest;                 ///< level, >= 0
  Weir weir;                         ///< overflow of one tank
  VolumeFlow inflow;                 ///< to one tank with the pump on, >= 0
  std::optional<BackSiphon> siphon;  ///< one per tank, none if the return ends above the water
  int count = 1;                     ///< >= 1
};

/// The sump that all of them drain to, at the moment before the change.
struct ReceivingSump {
  Area surface;          ///< > 0
  Length running_level;  ///< with the pump on, >= 0; over the same floor as the tanks' levels, and below them
  Volume pipes;          ///< content of drains and risers that run empty, >= 0
  Time pipes_empty_in;   ///< > 0; they empty, and fill again, evenly over this time
};

struct DrainBackMoment {
  Time time;
  Length sump_level;
  std::vector<Length> tank_levels;  ///< in the order of the tanks
};

/// A course at the wanted times with its extremes.
struct DrainBackCourse {
  std::vector<DrainBackMoment> moments;
  Length highest_sump_level;  ///< up to the last time
  Length lowest_sump_level;
};

/// Running level of a tank: weir crest plus the weir head of its inflow.
/// @throws InvalidInput   impossible tank
/// @throws OutOfValidity  the inflow needs more head than Francis's formula allows
Length running_level(const OverflowingTank& tank);

/// Levels after the pump stops at time 0.
///
/// A dh/dt = -(weir flow + siphon flow); the siphon is driven by the tank's level over the sump's and stops for good
/// when it draws air. Weir heads fade as 1/t^2: the end is drain_back() with rest_level_of() crest and break, which the
/// sump nears from below and never passes. Weir coefficient as in weir_flow(), also at heads below its fitted range,
/// where the last of the water comes later, not more of it.
/// @param times  rising, >= 0
/// @throws InvalidInput   impossible tank, sump or times; a sump that rises above the weir crests or the siphon's break
/// @throws OutOfValidity  weir head outside Francis's limit
/// @throws NotConverged   not at the last time after 200 000 steps
/// @source balance of volumes; Francis 1855; siphon sqrt(2 g H/K); Dormand-Prince steps with error control
DrainBackCourse drain_back_course(const std::vector<OverflowingTank>& tanks, const ReceivingSump& sump,
                                  const std::vector<Time>& times);

/// Levels after the pump starts at time 0 with the tanks at rest and the pipes empty: the sump at its drained level
/// gives each tank its inflow and fills the pipes, until weirs run as before.
///
/// The sump ends at its running level. A pump that gives more than its steady flow against empty pipes draws it lower:
/// `surge` multiplies every inflow for all the time.
/// @param surge  1 to 1.5
/// @throws InvalidInput   as above, surge outside its range, a sump that runs dry before the water comes back
/// @throws OutOfValidity  the surged flow needs more weir head than Francis's formula allows
/// @throws NotConverged   as above
DrainBackCourse restart_course(const std::vector<OverflowingTank>& tanks, const ReceivingSump& sump,
                               const std::vector<Time>& times, double surge = 1.0);

/// Level that the sump sinks to at restart while the surge lasts: the end of restart_course(), which it nears from
/// above since weirs and pipes only fill. Over the sump's own floor; negative where that much water is missing.
/// @throws InvalidInput   no tank, impossible tank, surface not > 0, running level negative, surge outside 1 to 1.5
/// @throws OutOfValidity  the surged flow needs more weir head than Francis's formula allows
Length sump_level_at_restart(const std::vector<OverflowingTank>& tanks, const Area& sump_surface,
                             const Length& running_level, double surge = 1.0);

/// Least running level of a sump that no restart draws below `least_level`, where the pump would take air: inverse of
/// sump_level_at_restart(). Evaporation between top-ups comes on top.
/// @param least_level  of the sump, >= 0: its intake plus critical_submergence() at the surged flow
/// @throws InvalidInput   no tank, impossible tank, sump surface not > 0, least level negative, surge outside 1 to 1.5
/// @throws OutOfValidity  the surged flow needs more weir head than Francis's formula allows
/// @source balance of volumes; weir_head()
Length least_sump_running_level(const std::vector<OverflowingTank>& tanks, const Area& sump_surface,
                                const Length& least_level, double surge = 1.0);

}  // namespace theca::hydraulics
