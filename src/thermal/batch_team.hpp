// Some systems of a batch that step together, their bodies of water side by side by curve, so that loops are long.
#pragma once

#include <cstddef>
#include <vector>

#include "batch_curves.hpp"
#include "batch_plan.hpp"

namespace theca::thermal::detail {

/// Bodies next to one another on the same curve.
struct Cell {
  std::size_t first = 0, last = 0, curve = 0;
};

struct StepDecays {
  std::vector<Decay> modes, groups;
};

/// Heater and chiller of a system, and what they and the sump did since a block began.
struct Devices {
  bool heater_on = false, chiller_on = false;
  double heater_time = 0.0, chiller_time = 0.0;
  int heater_starts = 0, chiller_starts = 0;
  double sump_lowest = 0.0, sump_highest = 0.0, sump_area = 0.0;
};

/// One system in a team: where its bodies are, and the scratch of a step.
class TeamSystem {
 public:
  TeamSystem(const PlannedSystem& planned, double step);

  const PlannedSystem* plan;
  std::vector<std::vector<Cell>> groups;  ///< as in the plan, the sump last
  std::vector<Cell> cells;                ///< all of them
  std::size_t sump = 0;
  Devices devices;
  bool lit = false;
  double light_time = 0.0;  ///< since the block began
  StepDecays whole_step, part_step;
  std::vector<double> mean, next_mean, heat, slope;  ///< of groups

  /// Goes by another plan from now on, of the same bodies and groups: other thermostats, rates, gain or lights.
  void follow(const PlannedSystem& planned);
  void decays(double h, StepDecays& d) const;
  /// Takes the modes through a stretch, thermostats and all: from mean, heat and slope to next_mean.
  void exchange(double h, const StepDecays& d, Devices& after);

 private:
  bool switched(double at, Devices& after);
  void toggle_at(double at, double low, double high, Devices& after);
  bool set_heater(bool on, Devices& after);
  bool set_chiller(bool on, Devices& after);
  void mode_decays(double h, std::vector<Decay>& d) const;

  double step_;
  ExchangeCourse course_;
  std::vector<Decay> rest_, exit_;
};

/// A system goes by another plan from a step of the block on.
struct PlanChange {
  long step = 0;
  std::size_t system = 0;  ///< of the team
  const PlannedSystem* plan = nullptr;
};

class Team {
 public:
  /// Systems `first` up to `last` of the plan.
  Team(const BatchPlan& plan, std::size_t first, std::size_t last);

  std::vector<TeamSystem> systems;
  std::vector<std::size_t> body;                                        ///< of the plan, at every place
  std::vector<Cell> runs;                                               ///< all places, by curve
  std::vector<double> temperature, rate;                                ///< carried from step to step; degC, K/s
  std::vector<double> lowest, highest, area, cold, warm, lost, vapour;  ///< sums of a block
  bool left = false;                                                    ///< water has left the range of its curve
  std::vector<std::size_t> traced;          ///< places whose temperature after every step is kept,
  std::vector<std::vector<double>> traces;  ///< and what it was in the block
  std::vector<PlanChange> changes;          ///< within the next block, by step

  /// Steps of a block; stops where water leaves the range of its curve. `whole_range`: water foreseen out of it counts
  /// as at its end.
  void block(const std::vector<CurveBlock>& curves, long first_step, long steps, bool whole_range);

 private:
  void step(const std::vector<CurveBlock>& curves, long node, double time_of_day);
  void step_alone(std::size_t system, const std::vector<CurveBlock>& curves, long node, double lit_for);
  struct Stretch {
    long node;
    double from, to;  ///< shares of the step
    double h;         ///< s
  };
  void stretch(const std::vector<CurveBlock>& curves, const Stretch& s, std::size_t first_system,
               std::size_t last_system, const std::vector<Cell>& places);
  void read(const std::vector<CurveBlock>& curves, const std::vector<Cell>& places, long node, double way,
            const double* water, bool check, double* loss, double* vapour_flow);
  bool move_system(TeamSystem& system, const Stretch& s, const StepDecays& d, Devices& after);
  void light(TeamSystem& system, bool on);

  const BatchPlan& plan_;
  bool whole_range_ = false, beyond_ = true;
  std::vector<double> capacity_, inverse_capacity_, light_now_;
  std::vector<double> start_loss_, end_loss_, vapour_now_, heat_, foreseen_, next_, one_, other_;
};

}  // namespace theca::thermal::detail
