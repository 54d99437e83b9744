// Tanks, sump and room as a net of well mixed heat capacities: what exchanges heat with what, what heats, chills and
// lights them by which thermostat and clock, what surrounds them over day and season, and what fails when.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "theca/thermal/balance.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// A swing of temperature about its mean: amplitude cos(2 pi (t - warmest) / period).
struct Swing {
  TemperatureDifference amplitude{};  ///< mean to highest, >= 0
  Time period{};                      ///< > 0: a day, a year
  Time warmest{};                     ///< a time at which it is highest
};

/// A temperature at a time.
struct CoursePoint {
  Time time{};
  Temperature temperature{};
};

/// Temperature of surroundings over time: a mean or points, and swings upon it.
struct Course {
  Temperature mean{};                                ///< asked only without points
  std::vector<Swing> swings = {};                    ///< season, day
  std::vector<CoursePoint> points = {};              ///< linear between them; times strictly rising from 0 on
  std::optional<Time> repeats_after = std::nullopt;  ///< the points come again after this time, over the last of them;
                                                     ///< a straight line joins the last and the first
};

/// @throws InvalidInput  bad course; a time before 0, or past the last point of a course that does not repeat
Temperature temperature_at(const Course& course, const Time& time);

/// Well mixed water of a tank or sump, or the air and fabric of a room.
struct LoopNode {
  std::string name{};
  HeatCapacity capacity{};  ///< > 0
  Temperature start{};      ///< at time 0
  ThermalConductance UA{};  ///< to what surrounds it, >= 0; in addition to `loss`
  /// Out of the node positive, of its temperature and that of its surroundings; both continuous. From a loss table, or
  /// tank_balance itself for short runs.
  std::function<Power(const Temperature& node, const Temperature& surroundings)> loss = nullptr;
  std::size_t course = 0;                             ///< its surroundings, among the courses of the loop
  std::optional<std::size_t> in_room = std::nullopt;  ///< given: another node surrounds it and takes up what it loses
  double share_to_room = 1.0;  ///< 0 to 1: the part of the loss that warms that node; what leaves as
                               ///< vapour does not
};

/// Water that flows between two nodes, or heat that is conducted.
struct LoopFlow {
  std::size_t from = 0, to = 0;
  ThermalConductance exchange{};  ///< flow x density x heat capacity (flow_exchange), or U A of a wall between; >= 0
  std::string pump{};             ///< by whose name failures find it; empty: needs no power
  bool returns = true;            ///< it flows back the same way; false: one way, and others of the same pump close the
                                  ///< round
  bool backed_up = false;         ///< runs on in a power cut
};

/// rho cp Q of salt water.
/// @throws InvalidInput  flow negative; temperature or salinity outside theca/seawater.hpp
ThermalConductance flow_exchange(const VolumeFlow& flow, const Water& water);

/// A heater or chiller with its thermostat: on at one temperature, off at another.
struct ThermostatUnit {
  std::string name{};
  std::size_t node = 0;                              ///< that it heats or chills
  Power heat{};                                      ///< into the node while on; negative: out of it
  Temperature on_at{}, off_at{};                     ///< a heater's on_at is the lower, a chiller's the higher
  Power electricity{};                               ///< drawn while on, >= 0
  std::optional<std::size_t> sensor = std::nullopt;  ///< node whose temperature it follows; not given: its own
  std::optional<std::size_t> warms =
      std::nullopt;        ///< node that takes a chiller's waste: heat taken and electricity; none: outside
  bool starts_on = false;  ///< asked only between on_at and off_at
  bool backed_up = false;  ///< runs on in a power cut
};

/// A heater in the water: all its electricity is heat.
/// @param spread  between on and off, > 0, half either side of the set point
/// @throws InvalidInput  power or spread not positive
ThermostatUnit heater_unit(std::string name, std::size_t node, const Power& power, const Temperature& set_point,
                           const TemperatureDifference& spread);

/// @param cooling      heat taken from the water, > 0
/// @param performance  that heat over electricity, > 0
/// @throws InvalidInput
ThermostatUnit chiller_unit(std::string name, std::size_t node, const Power& cooling, const Temperature& set_point,
                            const TemperatureDifference& spread, double performance);

/// Hours of the day: a photoperiod.
struct DailyHours {
  Time from{};    ///< after midnight, 0 to 24 h; midnight is at time 0, 24 h, ...
  Time length{};  ///< > 0 and < 24 h
};

/// Heat by the clock: lights, pumps.
struct LoopGain {
  std::string name{};
  std::size_t node = 0;
  Power heat{};                                    ///< into the node, any sign
  Power electricity{};                             ///< >= 0
  std::optional<DailyHours> hours = std::nullopt;  ///< none: always
  bool backed_up = false;                          ///< runs on in a power cut
};

enum class Failure {
  power_cut,  ///< everything that is not backed up stands still
  off,        ///< a unit, gain or pump by its name is dead
  stuck_on    ///< a unit by its name runs whatever its thermostat says
};

/// Something that goes wrong, from a time to a time.
struct Incident {
  Failure failure = Failure::power_cut;
  std::string name{};  ///< of a power cut empty; else all units, gains and pumps of this name
  Time from{}, to{};   ///< from >= 0, to > from
};

struct TankLoop {
  std::vector<LoopNode> nodes = {};
  std::vector<LoopFlow> flows = {};
  std::vector<ThermostatUnit> units = {};
  std::vector<LoopGain> gains = {};
  std::vector<Course> courses = {};
  std::vector<Incident> incidents = {};
};

/// Holds every field to its limits and every index and name to what it names; water that a pump sends into a node must
/// leave it.
/// @throws InvalidInput
void validate(const TankLoop& loop);

}  // namespace theca::thermal
