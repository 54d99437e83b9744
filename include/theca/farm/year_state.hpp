// Where a simulated year stands: all that it is taken up from, and the sums so far.
#pragma once

#include <string>
#include <vector>

#include "theca/farm/year.hpp"
#include "theca/units.hpp"

namespace theca::farm {

/// start + added + renewed_in - renewed_out - overflowed - used = now
struct MassBook {
  Mass start{}, added{}, renewed_in{}, renewed_out{}, overflowed{}, used{}, now{};
};
struct AmountBook {
  AmountOfSubstance start{}, added{}, renewed_in{}, renewed_out{}, overflowed{}, used{}, now{};
};

/// Something that fails and is repaired, and which of its random numbers are used up.
struct FailureClock {
  bool failed = false;
  Time since{}, next{};  ///< of its last and next failure or repair, after the start
  long drawn = 0;
  long failures = 0;
  Time down{};  ///< over failures that were repaired
};

struct AlarmBook {
  bool on = false;
  int raised = 0, days = 0;
  int first_day = -1;
};

/// Fragments of one cut.
struct YearCohort {
  long alive = 0;
  double dying = 0.0;   ///< part of a fragment, 0 to 1
  Area area{};          ///< live, of each
  Time healing{};       ///< left
  double factor = 1.0;  ///< of its growth rate
};

struct YearTank {
  bool stocked = true;
  std::vector<YearCohort> cohorts = {};
  double pest_adults = 0.0;
  long start = 0, cut = 0, dead = 0, sold = 0, no_room = 0;  ///< fragments; no_room: given up at a move
  long slot_days = 0;                                        ///< while stocked
  Temperature lowest{}, highest{};
  double degree_days = 0.0;  ///< integral of the Celsius temperature
  Time cold{}, warm{};
};

struct YearSystem {
  MassBook water = {};                       ///< without its salt; used: evaporated
  MassBook salt = {};                        ///< added: sodium chloride that doses leave
  AmountBook alkalinity = {}, calcium = {};  ///< used: calcified
  AmountFlow uptake{};                       ///< of alkalinity, over the last day
  bool dry = false;                          ///< the pump draws air
  Time without_power{};                      ///< since the power went
  std::vector<int> fallow = {};              ///< tanks of the system, longest rest first
  std::vector<YearTank> tanks = {};          ///< in the order of the batch
  std::vector<FailureClock> clocks = {};     ///< of every YearFailure
  FailureClock arrivals = {};                ///< of the pest
  long growth_drawn = 0;
  std::vector<AlarmBook> alarms = {};  ///< of every YearAlarm
  Energy heated{}, chilled{}, lit{};
  /// Tanks and sump in an order of the batch's own: degC, and K/s over the last step.
  std::vector<double> temperature = {}, temperature_rate = {};
  bool heater_on = false, chiller_on = false;
};

enum class YearAlarm { cold, warm, alkalinity_low, alkalinity_high, salinity_low, salinity_high, pump_dry, overflow };

/// Systems `first` and on, at midnight. A copy is a checkpoint.
struct YearState {
  int day = 0;  ///< days run
  int first = 0;
  int seed = 1;
  FailureClock power = {};
  std::vector<YearSystem> systems = {};
};

/// @param seed   >= 0; the same one gives the same year on any number of threads
/// @param first  systems from this one
/// @param last   up to but not with this one; -1: all. Parts that run on their own, on other machines
///              perhaps, are the same bits; their lists of systems side by side are the whole
/// @throws InvalidInput
YearState start_year(const PreparedYear& year, int seed = 1, int first = 0, int last = -1);

/// Runs on for whole days.
///
/// Heat goes as in thermal::run_batch; failures begin and end at the nearest step. Every midnight: stock moves, water
/// is changed, the dose is set to the last day's uptake and what the alkalinity is off over `correction`. Over the day,
/// cut where something fails: what evaporates is made up, level and salinity follow, and alkalinity goes as
/// alkalinity_after. At its end stock has grown in proportion to its light (growth_rate_under) and to what
/// calcification was over that at target, and some has died; what has grown to sale size is sold and its slots are cut
/// again; fragments that died left theirs empty until then.
///
/// Left out: heat takes every system at its running level and salinity, and new water at the temperature of the old;
/// the litres that carry the doses count as make-up; fallow tanks stay lit; what a stopped pump drains back; minerals
/// that precipitate while dosing runs on (the alarm says when).
///
/// The rates of failures, deaths and pests are the caller's assumptions, and the year is one of those that they allow:
/// it shows what to be ready for, and replaces neither alarms nor a second heater.
/// @param threads  1 to 1024
/// @throws InvalidInput   days negative or beyond the farm's; a state of another farm
/// @throws OutOfValidity  water past the range of the batch, or evaporated to the last drop
/// @source balances of heat, water, salt and minerals; failures and repairs as an alternating renewal process with
///         exponential times (Cox 1962, Renewal Theory, from memory), random numbers by split_mix (Steele, Lea & Flood
///         2014), one stream for every device of every system
YearState advance(const PreparedYear& year, YearState state, int days, int threads = 1);

/// A state as text, and back, to the last bit.
std::string saved(const YearState& state);
/// @throws InvalidInput  text that `saved` has not written
YearState restored(const std::string& text);

}  // namespace theca::farm
