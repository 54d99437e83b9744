// The checks of the farm module: each states demand, capacity, source and caution of one question about running a farm.
#pragma once

#include <span>
#include <string>

#include "theca/check.hpp"
#include "theca/farm/backup.hpp"
#include "theca/farm/chemistry.hpp"
#include "theca/farm/cohort.hpp"
#include "theca/farm/economics.hpp"
#include "theca/farm/electrical.hpp"
#include "theca/farm/ergonomics.hpp"
#include "theca/farm/grazers.hpp"
#include "theca/farm/labour.hpp"
#include "theca/farm/layout.hpp"
#include "theca/farm/lifting.hpp"
#include "theca/farm/oxygen.hpp"
#include "theca/farm/quarantine.hpp"
#include "theca/farm/reach.hpp"
#include "theca/farm/rotation.hpp"
#include "theca/farm/voltage_drop.hpp"

// In each: `where` names the tank, person or circuit in question and stands in the check; errors are those of the
// functions that are called. Default limits are common practice without a source unless the comment says otherwise.
namespace theca::farm {

/// Arm needed for the worst point of the rack, with bends up to `bend_limit`, against the person's shoulder-grip
/// length. Uncertainty 1 in of arm.
Check reach_check(const std::string& where, const Body& body, const RackSection& section, OpenSides sides,
                  const Stance& stance, const Angle& bend_limit = trunk_bend_unlimited);

/// Distance of the hands from the recommended band against a tolerance.
Check work_height_check(const std::string& where, const Body& body, const Length& hands_height, WorkKind kind,
                        const Length& tolerance = 2.0 * units::inch);
/// The same against a band of the caller's.
Check work_height_check(const std::string& where, const Body& body, const Length& hands_height,
                        const WorkHeightBand& band, const Length& tolerance = 2.0 * units::inch);

/// Required aisle width against the narrowest aisle. Uncertainty 1 in.
Check aisle_check(const Strip& narrowest, const Length& required = exit_access_width);

/// Sum of lines and aisles, or a line of tanks, against the room. Uncertainty 1 in.
Check room_fit_check(const std::string& where, const Fit& fit);

/// Shod stature against the underside of a fixture. Uncertainty 1 in.
Check head_clearance_check(const std::string& where, const Body& body, const Length& underside);

/// Required headroom on an exit route against the lowest projection.
Check headroom_check(const std::string& where, const Length& underside, const Length& required = exit_headroom);

/// Load against the lower of the two recommended weight limits. Uncertainty 5 %.
Check lifting_check(const std::string& where, const Mass& load, const Lift& lift,
                    LiftingConstants constants = LiftingConstants::metric);

/// Required rating (the continuous current times a factor plus the rest) against the breaker. Uncertainty 2 %.
/// @param continuous_factor  1.25 in NFPA 70
Check circuit_check(const std::string& where, const CircuitLoad& load, const Voltage& voltage, const Current& breaker,
                    double power_factor = 1.0, double continuous_factor = 1.25);

/// Drop of a circuit against a limit, as shares of its voltage. Uncertainty 10 %: length as built, conductor
/// temperature.
Check voltage_drop_check(const std::string& where, const VoltageDrop& branch, double limit = branch_drop_limit);

/// Drops of feeder and branch circuit together against a limit, each a share of its own voltage. Uncertainty 10 %.
Check total_voltage_drop_check(const std::string& where, const VoltageDrop& feeder, const VoltageDrop& branch,
                               double limit = total_drop_limit);

/// Length of an outage against the time that the battery lasts. Uncertainty 20 % (common practice, no source).
Check battery_check(const std::string& where, const Time& outage, const Time& lasts);

/// Rating asked of a generator against the one that is there, whichever of W and VA is nearer its limit. Uncertainty
/// 20 %: starting currents (common practice, no source).
Check generator_check(const std::string& where, const GeneratorRating& asked, const Power& rated,
                      const Power& rated_apparent);

/// Fall of alkalinity between doses against the largest swing; without dosing within the time. Uncertainty 20 %.
Check alkalinity_swing_check(const std::string& where, const MineralDemand& demand, const Volume& water,
                             const Time& between_doses, const Concentration& largest_swing);

/// Lowest acceptable alkalinity against what is left after a dosing failure. Uncertainty 20 % of the fall, stated
/// relative to the level that is left.
Check dosing_failure_check(const std::string& where, const Concentration& start, const MineralDemand& demand,
                           const Volume& water, const Time& failure, const Concentration& lowest);

/// Length of the power cut against the hours until oxygen falls to the limit. Uncertainty: factor 1.5. When the level
/// never falls to the limit the hours are shown as one year, and `where` says so.
Check oxygen_check(const std::string& where, const StillTank& tank, const Density& start, const Density& limit,
                   const Time& power_cut);

/// Slots that arrivals and hold ask for against the slots there are. Uncertainty 10 %.
Check quarantine_check(const Frequency& arrivals, const Time& hold, double slots);
/// The same with one pest generation as the hold; outside the measured temperatures no verdict is given.
Check quarantine_check(const Frequency& arrivals, const Temperature& water, double slots);

/// Algal production against what the grazers take. Uncertainty: factor 2.
Check grazer_check(const std::string& where, const Grazing& grazing);

/// Weekly work against the share of the hired hours that may be used. Uncertainty 2 %.
Check labour_check(std::span<const Task> tasks, const Time& hired_per_week, double utilisation_limit = 0.85);

/// Cost per fragment sold against its price. @param uncertainty  of the yield behind it, if more than that of the sum
Check cost_check(const Economics& economics, const Money& price, double uncertainty = 0.02);

/// Stock of the worst move against the slots of the place that waits for it.
Check rotation_fit_check(const RotationFit& worst);

/// Slots that a cutting plan takes at its tightest moment against the slots there are. Uncertainty: a factor of 1.5,
/// of growth and survival.
Check plan_slots_check(const std::string& where, const SlotUse& tightest);

}  // namespace theca::farm
