// Voltage drop of a single-phase circuit between the panel and its load.
//
// Sums and flags only. Which conductor may carry a current depends on insulation, ambient heat, bundling, terminals and
// the overcurrent device: no table of that is here, and a conductor whose drop is small may still be too thin. A
// licensed electrician chooses it; local codes come first.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "theca/farm/conductor.hpp"
#include "theca/units.hpp"

namespace theca::farm {

/// Greatest drop of a branch circuit, and of feeder and branch circuit together, as a share of the voltage.
/// @source NFPA 70 (National Electrical Code) 210.19, informational note on voltage drop: advice for reasonable
///         efficiency of operation, not a requirement
inline constexpr double branch_drop_limit = 0.03;
inline constexpr double total_drop_limit = 0.05;

/// A circuit of two conductors.
struct CircuitRun {
  Length length{};                                    ///< one way, as the cable runs
  Current current;                                    ///< of the load
  Voltage voltage;                                    ///< at the panel
  double power_factor = 1.0;                          ///< of the load, lagging, > 0 to 1
  Temperature conductor_temperature = celsius(75.0);  ///< in service; cooler conductors drop less
  ResistancePerLength reactance =
      from_si<ResistancePerLength>(0);  ///< of each conductor; 0.08 ohm/km is usual in
                                        ///< Europe (IEC 60364-5-52) and small beside thin conductors
};

struct VoltageDrop {
  Voltage drop;        ///< between the voltages at the panel and at the load
  double share = 0.0;  ///< of the voltage at the panel
  Voltage at_load;
  Power lost;  ///< as heat along both conductors
};

/// Drop of a circuit: of the voltages' magnitudes, phase shift included.
/// @throws InvalidInput   length, current or reactance negative, voltage not positive, power factor outside (0, 1]; a
/// run
///                        that leaves no voltage for its load; as resistance_at
/// @throws OutOfValidity  as resistance_at
/// @source V + I (R cos + X sin) along the load's voltage and I (X cos - R sin) across it make up the voltage at the
///         panel; IEEE Std 141 (Red Book) gives the same as its exact formula (from memory)
VoltageDrop voltage_drop(const CircuitRun& run, const Conductor& conductor);

/// Longest run, one way, that keeps to a limit: the inverse. The run's own length is not used.
/// @param limit  share of the voltage at the panel, > 0 to below 1
/// @throws InvalidInput  as above; current zero
Length longest_run(const CircuitRun& run, const Conductor& conductor, double limit = branch_drop_limit);

struct SizeDrop {
  std::string conductor;
  VoltageDrop drop;
  bool meets_drop_limit = false;  ///< says nothing on whether the conductor may carry the current
};
/// The drop in each conductor of a list, for the talk with the electrician who chooses one.
/// @throws as voltage_drop; limit not positive
std::vector<SizeDrop> drop_by_size(const CircuitRun& run, std::span<const Conductor> conductors,
                                   double limit = branch_drop_limit);

}  // namespace theca::farm
