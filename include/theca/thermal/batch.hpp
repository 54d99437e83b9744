// Thousands of tanks over a year: lists in, lists out, entry by entry; summaries that do not grow with simulated time.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "theca/thermal/balance.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// The air of a room over the run: one value of each where it does not change, or values every `interval` from the
/// start on to the end or beyond, straight lines between.
struct RoomSeries {
  std::string name{};
  Time interval{};  ///< asked only where there is more than one value
  std::vector<Temperature> air = {};
  std::vector<RelativeHumidity> humidity = {};
  std::vector<Temperature> surroundings = {};  ///< mean radiant; none: as the air
  Velocity air_speed{};                        ///< along the water surfaces and lids, >= 0
  Velocity wall_air_speed{};                   ///< along the outer faces of walls, >= 0
  AbsolutePressure pressure = standard_atmosphere;
};

/// Sumps with their thermostats, and the lights over their tanks; all lists are of one length. A tank on its own is a
/// sump without tanks.
struct BatchSystems {
  std::vector<int> room = {};       ///< of the tanks, among the rooms of the batch
  std::vector<int> sump_room = {};  ///< of the sump
  std::vector<int> sump_type = {};  ///< surfaces of the sump, among the types of the batch
  std::vector<Volume> sump_water = {};
  std::vector<Temperature> sump_start = {};
  std::vector<Power> gain = {};                  ///< into the sump all the time, pumps; >= 0
  std::vector<Power> heater = {}, chiller = {};  ///< into and out of the sump while on, >= 0; 0: none
  std::vector<Temperature> heater_set_point = {}, chiller_set_point = {};
  std::vector<TemperatureDifference> spread = {};  ///< between on and off, > 0, half either side of each set point
  std::vector<Time> lights_from = {};              ///< after midnight, 0 to 24 h; the run starts at midnight
  std::vector<Time> lights_length = {};            ///< 0 to 24 h
};

/// Tanks, each of which shares the water of one system; all lists are of one length.
struct BatchTanks {
  std::vector<int> system = {};
  std::vector<int> type = {};  ///< surfaces, among the types of the batch
  std::vector<Volume> water = {};
  std::vector<VolumeFlow> turnover = {};  ///< from the sump and back, >= 0
  std::vector<Power> light = {};          ///< that its water takes up while the lights are on, >= 0
  std::vector<Temperature> start = {};
};

struct Batch {
  std::vector<TankSurfaces> types = {};
  std::vector<RoomSeries> rooms = {};
  BatchSystems systems = {};
  BatchTanks tanks = {};
  AbsoluteSalinity salinity = AbsoluteSalinity(35.16504);
  Time duration{};                                                           ///< a whole number of steps
  Time step = from_si<Time>(600.0);                                          ///< 1 s to 1 h
  Temperature water_low{}, water_high{};                                     ///< that the water keeps to; 9 to 38 degC
  Temperature cold_limit{}, warm_limit{};                                    ///< below and above which time is counted
  TemperatureDifference table_bound = from_si<TemperatureDifference>(5e-3);  ///< see LossTable
  std::vector<int> traced = {};                                              ///< tanks whose whole course is asked for
};

/// What became of some systems and their tanks. Lists of tanks go with `tank`, lists of systems with `system`.
struct BatchResult {
  std::vector<int> system = {}, tank = {};                                  ///< which ones these are, rising
  std::vector<Temperature> lowest = {}, highest = {}, mean = {}, end = {};  ///< of every tank, seen at the steps
  std::vector<Time> cold = {}, warm = {};                                   ///< below and above the limits
  std::vector<Energy> lost = {}, lit = {};                                  ///< out of and into every tank
  std::vector<Mass> evaporated = {};
  std::vector<Temperature> sump_lowest = {}, sump_highest = {}, sump_mean = {}, sump_end = {};
  std::vector<Energy> sump_lost = {}, gained = {}, heated = {}, chilled = {};
  std::vector<Mass> sump_evaporated = {};
  std::vector<int> heater_starts = {}, chiller_starts = {};
  std::vector<int> traced = {};                        ///< tanks of `courses`, in the order asked for
  std::vector<std::vector<Temperature>> courses = {};  ///< at the start and after every step
};

namespace detail {
struct BatchPlan;
}

/// A batch made ready to run: one loss table for every type of tank and kind of room air, and the modes of every
/// system. Nothing in it changes: threads may share it.
struct PreparedBatch {
  int systems = 0;
  TemperatureDifference table_error{};  ///< largest of the tables, as a difference in water temperature; see LossTable
  std::shared_ptr<const detail::BatchPlan> plan = nullptr;
};

/// @throws InvalidInput  a list of another length, an index, a bad value, a series too short, thermostats that overlap,
///         a tank so small that a step takes more than a fifth of its time constant; as loss_table
PreparedBatch prepare(const Batch& batch);

/// Runs all systems.
///
/// A step takes the losses as straight lines over its length, read from the tables at its start and at the temperature
/// foreseen for its end, again from where it does end if that is over 10 mK off; the part of the sump's loss that
/// follows its swings is exact. Lights and thermostats switch within steps. Under these heats the exchange with the
/// sump is exact: a step may be far longer than the seconds of a sump, and a thermostat's crossing is found to the last
/// bits. Heat is kept to rounding. Heat capacities and exchange are those of the water at 25 degC.
/// @throws OutOfValidity  water past water_low or water_high; NotConverged  a thermostat that chatters, more than 10000
///         switchings in a step
BatchResult run_batch(const PreparedBatch& batch);

/// Runs the systems from `first` up to but not with `last`. A system's result is the same bits whatever others run with
/// it: a caller may share the systems out to threads of its own and join the lists.
/// @throws InvalidInput  a range that is none; as above
BatchResult run_batch(const PreparedBatch& batch, int first, int last);

}  // namespace theca::thermal
