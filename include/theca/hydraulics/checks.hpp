// The questions of a farm's plumbing: enough flow everywhere, and no flood when something stops or clogs.
#pragma once

#include <optional>
#include <string_view>

#include "theca/check.hpp"
#include "theca/hydraulics/blocked_drain.hpp"
#include "theca/hydraulics/drain_back.hpp"
#include "theca/hydraulics/gravity_main.hpp"
#include "theca/hydraulics/gyre.hpp"
#include "theca/hydraulics/manifold.hpp"
#include "theca/hydraulics/pump.hpp"
#include "theca/hydraulics/pump_performance.hpp"
#include "theca/hydraulics/turnover.hpp"
#include "theca/hydraulics/water_hammer.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

// `where` names the place in the grower's words ("main", "T11"); it becomes Check::where. Every function throws
// InvalidInput as the calculation under it does.

/// Velocity in one supply pipe against a limit; 5 ft/s is common practice, no source.
Check pipe_velocity_check(std::string_view where, const Velocity& velocity, const Velocity& limit);
/// The fastest pipe of a manifold against a limit.
Check pipe_velocity_check(const ManifoldFlow& flow, const Velocity& limit);

/// The branch furthest from the mean against an allowed share either way, e.g. 0.10.
Check branch_balance_check(const ManifoldFlow& flow, double allowed_imbalance);

/// Flow that a tank needs (heat, oxygen, mixing or turnover, whichever is largest) against what it gets.
Check tank_flow_check(std::string_view where, const VolumeFlow& needed, const VolumeFlow& given);

/// Turnovers of a volume: at least `least`.
Check turnover_check(std::string_view where, const VolumeFlow& flow, const Volume& volume, const Frequency& least);

/// Head that the system asks at a flow against what the pump gives there.
Check pump_margin_check(std::string_view where, const PumpCurve& pump, const VolumeFlow& flow,
                        const Length& system_head);

/// Power-off drain-back against the sump's spare volume.
Check drain_back_check(const DrainBack& back, const Volume& spare);

/// Flow of a tank against its standpipe running as a ring of water that fills `water_fraction` of the section: 1/4
/// (quiet) to 1/3 (limit).
Check standpipe_check(std::string_view where, const VolumeFlow& flow, const Length& bore, double water_fraction);

/// The whole flow of a tank against its emergency drain, main drain blocked: the smaller of rim flow and of
/// stack_capacity() at a third. Without one the capacity is zero and the check fails.
Check emergency_drain_check(std::string_view where, const VolumeFlow& flow, const std::optional<EmergencyDrain>& drain);

/// Volume that the tank has to take with its main drain blocked, against the room up to its rim: what its emergency
/// drain leaves in it, or all that the pump can move. See blocked_drain().
Check blocked_drain_check(std::string_view where, const BlockedTank& tank, const std::optional<EmergencyDrain>& drain);

/// Level of the sump below which the pump draws air, against the lowest that it sinks to at restart, both over the
/// inside base. A negative lowest level is water that is missing altogether. See sump_level_at_restart().
Check restart_check(std::string_view where, const Length& lowest_level, const Length& draws_air_below);

/// Working pressure plus the surge of a valve that shuts, against the pipe's pressure rating.
Check water_hammer_check(std::string_view where, const Pressure& working, const Surge& surge, const Pressure& rating);

/// Flow against a gravity main filled to a share of its bore, e.g. 0.5.
Check gravity_main_check(std::string_view where, const VolumeFlow& flow, const GravityMain& main, double filling);

/// Submergence that a horizontal intake needs against what it has, water surface over the centre of its opening. The
/// rule is ANSI/HI's; how far Gordon's lies from it is the model's uncertainty, at least 15 %. A bell that looks down
/// has its submergence counted from its rim, and Gordon's rule, from intakes in a wall, is none for it: compare it with
/// critical_submergence() alone.
Check submergence_check(std::string_view where, const Length& inlet_diameter, const VolumeFlow& flow,
                        const Length& submergence);

/// Duty flow against the allowable region of the pump; reports the end that is nearer to being missed. `where` says
/// whether the flow lies in the preferred region too. @throws as operation()
Check operating_region_check(std::string_view where, const VolumeFlow& flow, const VolumeFlow& best_flow,
                             const OperatingRegion& region);

/// Required NPSH times a ratio against the available. What a negative available NPSH lacks is asked for on top.
/// @param ratio  > 1; 1.3 is the most that ANSI/HI 9.6.1 asks of small pumps (from memory)
Check npsh_check(std::string_view where, const Length& available, const Length& required, double ratio = 1.3);

/// Power that the pump draws against its rated power; `where` says what that is in a year of running all the time.
Check pump_power_check(std::string_view where, const Power& drawn, const Power& rated);

/// Water velocity at a place against a wanted range; reports the end that is nearer to being missed.
Check water_velocity_check(std::string_view where, const Velocity& velocity, const Velocity& least,
                           const Velocity& most);

/// Mean speed of the water that the circulation pumps drive round a tank, gyre_speed(), against a wanted range; reports
/// the end that is nearer to being missed.
/// @throws InvalidInput  as gyre_speed() and water_velocity_check()
Check gyre_check(std::string_view where, const GyreTank& tank, const Jet& jet, int jets, const Velocity& least,
                 const Velocity& most);

}  // namespace theca::hydraulics
