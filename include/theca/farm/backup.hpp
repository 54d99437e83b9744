// Backup power for what must not stop: energy, battery, and the generator with its motors starting.
//
// Sums and flags only: a licensed electrician designs and installs it, local codes come first.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "theca/units.hpp"

namespace theca::farm {

/// Something that must run through an outage.
struct CriticalLoad {
  std::string name;
  Power power;                ///< while it runs
  double duty = 1.0;          ///< share of the outage that it runs, 0 to 1
  double power_factor = 1.0;  ///< > 0 to 1
  double start_factor = 1.0;  ///< apparent power while it starts over that while it runs, >= 1: from the nameplate; 5
                              ///< to 7 for an induction motor switched straight on (common practice, no source)
};

/// Energy that the loads take in an outage. @throws InvalidInput  a member out of its range, outage negative
Energy backup_energy(std::span<const CriticalLoad> loads, const Time& outage);

/// How much of what is written on a battery reaches the loads.
struct BatteryBank {
  double inverter_efficiency = 0.0;         ///< > 0 to 1
  Power inverter_idle = from_si<Power>(0);  ///< taken from the battery all the time
  double depth_of_discharge = 0.0;          ///< share of the capacity that is used, > 0 to 1
  double end_of_life = 0.8;      ///< share of the rated capacity left when it is replaced, > 0 to 1; 0.8 is the ageing
                                 ///< factor of 1.25 of IEEE 485
  double capacity_factor = 1.0;  ///< capacity in service over rated, for cold and for the rate of discharge, > 0
                                 ///< to 1.5; from the maker; about 1/1.11 for lead-acid at 15.6 degC (60 degF)
  double design_margin = 1.0;    ///< >= 1; 1.1 to 1.15 in IEEE 485 (from memory)
};

/// Rated energy of a battery that carries the loads through an outage at the end of its life.
/// @throws InvalidInput  as above, a member of `bank` out of its range
/// @source (energy / inverter efficiency + idle x outage) x margin / (depth x end of life x capacity factor); factors
/// as
///         in IEEE Std 485
Energy battery_rating(std::span<const CriticalLoad> loads, const Time& outage, const BatteryBank& bank);

/// How long a battery of that rating lasts at the end of its life: the inverse.
/// @throws InvalidInput  rating not positive, nothing that takes power
Time battery_time(std::span<const CriticalLoad> loads, const Energy& rating, const BatteryBank& bank);

/// Capacity in ampere-hours at the nominal voltage of the battery. @throws InvalidInput  negative, voltage not positive
Charge battery_charge(const Energy& rating, const Voltage& nominal);

enum class StartOrder {
  together,      ///< all at once, as when power returns to whatever was switched on
  as_listed,     ///< one after another, each when the one before runs
  largest_first  ///< one after another, greatest surge over its running power first: no order has a lower peak
};

/// What the loads ask of a generator. Apparent powers (W here stands for VA) are added as if all had one phase angle,
/// which is never too little.
struct GeneratorDemand {
  Power running;                   ///< real power, all running
  Power running_apparent;          ///< the same in VA
  Power starting_apparent;         ///< highest in VA while they start
  std::vector<std::size_t> order;  ///< places in the list, in the order of starting
};
/// @throws InvalidInput  as backup_energy; duty is not used, since all may run at once
GeneratorDemand generator_demand(std::span<const CriticalLoad> loads, StartOrder order = StartOrder::together);

/// What a generator set gives of the rating on its plate.
struct GeneratorSet {
  double loading_limit = 0.8;  ///< share of the rating to run on, > 0 to 1 (0.8: common practice, no source)
  double derating = 1.0;       ///< for height above the sea and heat, > 0 to 1, from the maker
  double surge_factor = 1.0;   ///< apparent power for the seconds of a start over rated, >= 1, from the maker
};
/// Ratings asked of a generator.
struct GeneratorRating {
  Power real;                  ///< W
  Power apparent;              ///< VA
  bool start_governs = false;  ///< the start asks for more VA than running does
};
/// @throws InvalidInput  a member of `set` out of its range
GeneratorRating generator_rating(const GeneratorDemand& demand, const GeneratorSet& set);

}  // namespace theca::farm
