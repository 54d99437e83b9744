// A tank loop over time: temperatures, switchings of thermostats, energies, and hours to a limit.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "theca/thermal/tank_loop.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// A thermostat's contact closes or opens. It follows the temperature in a power cut too, when nothing runs by it.
struct Switching {
  Time time{};
  std::size_t unit = 0;  ///< among the units of the loop
  bool on = false;
};

/// A temperature to watch for.
struct LoopLimit {
  std::size_t node = 0;
  Temperature temperature{};
};

/// What a unit or a gain did in a run.
struct LoopEnergy {
  std::string name{};
  Energy heat{};  ///< into its node; negative: out of it
  Energy electricity{};
  Time running{};  ///< power delivered
};

/// A run of a loop from time 0 to the last time asked.
struct LoopRun {
  std::vector<Time> times{};                             ///< as asked
  std::vector<std::vector<Temperature>> temperatures{};  ///< at each of them, of every node
  std::vector<Switching> switchings{};                   ///< in the order of time
  std::vector<LoopEnergy> units{}, gains{};              ///< as in the loop
  std::vector<Energy> lost{};                            ///< of every node to its surroundings
  std::vector<Energy> stored{};                          ///< of every node: capacity x (temperature at the end - start)
  std::vector<Temperature> lowest{}, highest{};          ///< of every node, and all that lies between the times asked
  std::vector<std::optional<Time>> reached{};            ///< of every limit: when first; nothing: not in this run
  Energy imbalance{};                                    ///< given - lost - stored over all nodes: rounding alone
  long steps = 0;                                        ///< of the integrator
};

/// Runs a loop.
///
/// Dormand-Prince 5(4) with its dense output, error per step 1e-9 K in every temperature; clocks, incidents and points
/// of courses cut the run into pieces within which its right side is smooth; a thermostat's crossing is the root of the
/// dense output, also where the temperature only touches its limit within a step. What is lost is integrated beside the
/// temperatures, so that heat is conserved to rounding. One thread; the same input gives the same bits, and equal tanks
/// the same course.
/// Steps are held down by the quickest exchange, to about 3 x capacity / exchange of the smallest node: a sump of 10 s
/// costs 20,000 steps a week.
/// @param times   not negative nor falling; the last is the end of the run
/// @param limits  whose first crossings are asked for; at the start already reached: 0
/// @throws InvalidInput  as validate; no times; what `loss` throws; NotConverged  more than 50 million steps, or 2
///         million switchings
/// @source Dormand & Prince 1980, J. Comput. Appl. Math. 6:19-26; dense output of order 4 by Shampine, as in Hairer,
///         Norsett & Wanner 1993, Solving ordinary differential equations I, II.6
LoopRun run_loop(const TankLoop& loop, const std::vector<Time>& times, const std::vector<LoopLimit>& limits = {});

}  // namespace theca::thermal
