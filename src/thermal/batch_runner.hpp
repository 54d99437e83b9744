// Systems of a batch day by day, for a caller that has something fail in between and keeps its own books.
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "batch_blocks.hpp"
#include "batch_plan.hpp"

namespace theca::thermal::detail {

/// What is out of order in a system.
struct Faults {
  bool heater_off = false;
  bool heater_stuck_on = false;  ///< a dead heater does not stick
  bool chiller_off = false;
  bool pump_off = false;  ///< tanks and sump each alone; what the pump warms is gone, too
  bool no_power = false;  ///< all of these, and the lights
  bool operator==(const Faults&) const = default;
};

/// From a step of the day on.
struct FaultChange {
  std::size_t system = 0;  ///< of the plan
  long step = 0;
  Faults faults;
};

/// What a run is taken up from at midnight: bodies and systems in the order of the plan.
struct BatchMidnight {
  std::vector<double> temperature, rate;  ///< degC, K/s
  std::vector<char> heater_on, chiller_on;
};

/// Day sums of the bodies and systems of a runner, in their order.
struct BatchDay {
  std::vector<double> lowest, highest, area, cold, warm, lost, vapour;  ///< degC, K s, s, J, kg
  std::vector<double> heater_time, chiller_time, light_time;            ///< s
  std::vector<int> heater_starts, chiller_starts;
};

class BatchRunner {
 public:
  /// Systems `first` up to `last`, as the batch starts.
  /// @param heater_cutout  degC, at which a heater that sticks is switched off by another thermostat, as wide as its
  ///                       own; infinite: by none
  BatchRunner(std::shared_ptr<const BatchPlan> plan, std::size_t first, std::size_t last, double heater_cutout);

  std::size_t first_body() const { return first_body_; }
  std::size_t bodies() const { return bodies_; }

  BatchMidnight midnight() const;
  void take_up(const BatchMidnight& from);

  /// @param changes  by system, then by step; what is out of order at the start of a day has to be told once
  /// @throws OutOfValidity, NotConverged  as run_batch
  const BatchDay& run(long day, std::span<const FaultChange> changes);

 private:
  const PlannedSystem* plan_under(std::size_t system, const Faults& faults);

  std::shared_ptr<const BatchPlan> plan_;
  std::size_t first_, first_body_, bodies_;
  double heater_cutout_;
  std::vector<Team> teams_;
  std::vector<CurveBlock> curves_;
  struct Variant {
    Faults faults;
    PlannedSystem plan;
  };
  std::vector<std::vector<std::unique_ptr<Variant>>> variants_;  ///< of each system
  BatchDay day_;
};

}  // namespace theca::thermal::detail
