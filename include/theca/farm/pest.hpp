// A pest of the stock in tanks that share water: life stages, predators, dips, and what moving stock through fallow
// tanks does or does not do about it.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "theca/farm/rotation.hpp"
#include "theca/units.hpp"

namespace theca::farm {

/// A stage on the way to adult.
struct PestStage {
  Time duration{};    ///< mean; zero leaves the stage out
  Frequency death{};  ///< of its own causes
};

/// How the pest lives where it has food and nothing hunts it.
struct PestLife {
  PestStage egg{}, juvenile{};
  Frequency births;                ///< eggs per adult and time
  Frequency adult_death{};         ///< of its own causes
  Frequency adult_death_hungry{};  ///< added in a tank without stock
};

/// Rates at which predators take each stage; 0.82 of the adults in a day is -ln(0.18) per day.
struct Predation {
  Frequency egg{}, juvenile{}, adult{};
};

/// Spread of duration within a stage: eight equal steps, so that its standard deviation is 35 % of its mean.
inline constexpr int pest_steps_per_stage = 8;

/// Growth rate of a pest that food does not limit; negative when it dies out.
/// @throws InvalidInput  a duration or rate negative or not finite
/// @source Euler-Lotka equation (Lotka 1925, textbook) with gamma-distributed stages
Frequency pest_growth_rate(const PestLife& life, const Predation& predation = {});

/// An age class of a life table.
struct AgeClass {
  Time age;
  double surviving;  ///< share of the newborn that lives to this age, 0 to 1
  double births;     ///< per individual at this age, >= 0
};
/// Growth rate r with sum l b exp(-r x) = 1.
/// @throws InvalidInput   ages not rising and > 0, a share outside 0 to 1, nothing ever born
/// @source Euler-Lotka equation, textbook
Frequency life_table_growth_rate(std::span<const AgeClass> table);

/// Share of each stage that a dip kills, 0 to 1.
struct Dip {
  double egg = 0.0, juvenile = 0.0, adult = 0.0;
};

/// What happens at each move of the rotation.
struct PestRotation {
  Time interval;                 ///< between moves
  int fallow = 1;                ///< tanks that rest
  Dip dip{};                     ///< of the stock that moves
  double left_behind = 0.0;      ///< share of every stage that stays in the tank, 0 to 1
  double killed_by_reset = 1.0;  ///< share of what the rest left over that the reset of a tank kills, 0 to 1
};

/// Tanks on one body of water.
struct PestTanks {
  std::vector<long> slots;        ///< of each tank, > 0
  double adults_per_slot;         ///< where the stock feeds no more: births stop, > 0
  Frequency juvenile_transfer{};  ///< rate at which juveniles of every tank mix with the mean of all
  Frequency adult_transfer{};
};

struct PestCourse {
  std::vector<Time> time;
  std::vector<double> adults;          ///< in all tanks
  std::vector<double> infested_tanks;  ///< tanks with at least one adult
  double mean_adults_per_slot;         ///< over stocked slots and the whole time
  double most_adults_per_slot;         ///< in the worst tank at the worst sampled time
};

/// Course of an outbreak that starts with adults in one tank. Expected numbers: small numbers die out by chance in
/// life, not here. Whether rotation helps is an outcome of the assumed rates, not a finding: with water that carries
/// the pest over faster than tanks are reset it does not.
/// @param first     tank that the first adults come to, stocked at the start
/// @param sample    between the entries of the result, > 0
/// @throws InvalidInput  as above; no tanks, `first` not a stocked tank, a share outside 0 to 1, over 1e6 samples
/// @throws NotConverged  the step of the integrator became too small
/// @source stage-structured population with linear chain stages (MacDonald 1978, textbook method, from memory)
PestCourse pest_course(const PestLife& life, const Predation& predation, const PestTanks& tanks,
                       const std::optional<PestRotation>& rotation, int first, double adults, const Time& duration,
                       const Time& sample);

/// Share of the fragments lost in a cycle: 1 - exp(-damage x adults per slot x cycle).
/// @param damage  share of a fragment's odds lost per adult on its slot and time, >= 0
/// @throws InvalidInput  negative or not finite
double pest_loss(double adults_per_slot, const Frequency& damage, const Time& cycle_time);

}  // namespace theca::farm
