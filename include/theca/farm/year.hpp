// A year in the life of a farm: heat by ten minutes, water and stock by the day, failures by their rates. What is kept
// is sums: a run takes the same memory however long it is.
#pragma once

#include <memory>
#include <vector>

#include "theca/farm/growth.hpp"
#include "theca/thermal/batch.hpp"
#include "theca/units.hpp"

namespace theca::farm {

/// What fails, each in one system; a power cut takes the whole farm.
enum class YearFailure {
  heater_off,
  heater_stuck_on,
  chiller_off,
  pump_off,         ///< tanks and sump stand apart
  power_cut,        ///< all of the farm: heater, chiller, pump, lights, dosing, make-up
  dosing_off,       ///< alkalinity and calcium alike
  dosing_stuck_on,  ///< at its full dose
  make_up_off,
  make_up_stuck_on  ///< at its full flow; where both ways of failing meet, the device is off
};

/// How often something fails and how long it takes until it is found and repaired; both times are exponential.
struct FailureRate {
  YearFailure kind = YearFailure::power_cut;
  Frequency rate{};  ///< per system and time in order, a power cut's per farm; >= 0
  Time repair{};     ///< mean, > 0
};

/// The coral, and what harms it.
struct YearCoral {
  Growth growth{};                  ///< under the day it was measured in
  MassFlux calcification{};         ///< CaCO3 per live area and time, likewise
  PhotonFluxDensity measured_at{};  ///< light of that day, > 0
  Time measured_hours{};            ///< and its length, > 0 to 24 h
  PhotonFluxDensity onset{};        ///< of saturation, see light_saturation
  double light_over_dark = 2.6;     ///< see relative_calcification
  double growth_factor = 1.0;       ///< F >= 1: each cut grows at the mean rate times 1/F to F, even in the logarithm
  Frequency death{};                ///< whatever happens, >= 0
  Frequency death_in_distress{};    ///< added while water is past the limits of the batch, or without oxygen; >= 0
  Time oxygen_lasts{};              ///< in a power cut, until distress begins (see time_to_limit); >= 0
};

/// The stock of a tank.
struct YearStock {
  long slots = 0;          ///< >= 0
  double occupancy = 0.0;  ///< of the slots when freshly cut, 0 to 1
  int cohorts = 1;         ///< 1 to 1000: cut at even times over a cycle
  PhotonFluxDensity ppfd{};
};

/// The water of a system, its dosing, make-up, water changes and rotation. Its tanks are those of the batch.
struct YearUpkeep {
  Concentration alkalinity{};            ///< start, target, and that of new water; also where demand was measured
  Concentration alkalinity_threshold{};  ///< see DosedWater
  Density calcium{};                     ///< dissolved, likewise
  AmountFlow full_dose{};                ///< of alkalinity, equivalents per time; half as much calcium goes with it
  Time correction{};                     ///< > 0: what the test of the day finds amiss is dosed over this time
  MassFlow make_up{};                    ///< full flow of fresh water
  Volume above{}, below{};               ///< as RunningSystem: to the overflow, and until the pump draws air
  Volume changed{};                      ///< of a water change, 0 to all of the water
  int days_between_changes = 7;          ///< > 0
  int fallow = 0;                        ///< tanks that rest, 0: no rotation
  int days_between_moves = 35;           ///< > 0; the tank that takes the stock gets new water
};

/// A pest of the stock, adults only (see pest.hpp for stages): logistic growth on stocked tanks, mixed by the water.
struct YearPest {
  Frequency growth{};            ///< >= 0
  double adults_per_slot = 1.0;  ///< that the stock feeds, > 0
  Frequency hungry_death{};      ///< in a fallow tank
  Frequency transfer{};          ///< rate at which tanks of a system mix with their mean
  Frequency arrivals{};          ///< per system; each time one adult in one tank
  double dip = 0.0;              ///< share killed when stock moves, 0 to 1
  double reset = 1.0;            ///< share of what is left in a tank that its reset kills, 0 to 1
  Frequency damage{};            ///< fragments lost, over fragments, per adult on a slot and time
};

/// Outside these an alarm is on, from day to day; past the limits of temperature in the batch as well.
struct YearAlarms {
  Concentration alkalinity_low{}, alkalinity_high{};
  AbsoluteSalinity salinity_low = AbsoluteSalinity(0.0), salinity_high = AbsoluteSalinity(42.0);
};

/// A farm over a year. A list of one entry holds for all.
struct FarmYear {
  thermal::Batch heat = {};     ///< rooms, systems, tanks; its duration is the longest run; its step divides a day
  Temperature heater_cutout{};  ///< where another thermostat stops a heater that sticks, under water_high
  std::vector<YearUpkeep> upkeep = {};  ///< of every system
  std::vector<YearStock> stock = {};    ///< of every tank
  YearCoral coral{};
  YearPest pest{};
  std::vector<FailureRate> failures = {};  ///< what is not named does not fail
  YearAlarms alarms{};
};

namespace detail {
struct YearPlan;
}

/// A farm made ready to run; nothing in it changes, threads may share it.
struct PreparedYear {
  int systems = 0;
  int days = 0;  ///< that it may run
  std::shared_ptr<const detail::YearPlan> plan = nullptr;
};

/// @throws InvalidInput  a bad field, a list neither of one entry nor as long as it should be; as thermal::prepare
PreparedYear prepare_year(const FarmYear& farm);

}  // namespace theca::farm
