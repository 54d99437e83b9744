// What every run of a batch does about its blocks: teams, the range of their curves, and going back to a block's start.
#pragma once

#include <cmath>
#include <cstddef>
#include <vector>

#include "batch_team.hpp"

namespace theca::thermal::detail {

// Neumaier 1974: a year of small parts keeps its last digits.
struct Sum {
  double value = 0.0, rest = 0.0;
  void add(double x) {
    const double next = value + x;
    rest += std::abs(value) >= std::abs(x) ? (value - next) + x : (x - next) + value;
    value = next;
  }
  double total() const { return value + rest; }
};

std::vector<Team> make_teams(const BatchPlan& plan, std::size_t first, std::size_t last);

/// Ranges of the curves: about where the water is now, or all of the tables.
void narrow(const BatchPlan& plan, const std::vector<Team>& teams, std::vector<CurveBlock>& curves);
void widen(const BatchPlan& plan, std::vector<CurveBlock>& curves);

/// @throws OutOfValidity  names the water that has left its range
[[noreturn]] void refuse_water(const BatchPlan& plan, const Team& team, double hours);

/// What a block may have to be repeated from.
struct TeamState {
  std::vector<double> temperature, rate;
  std::vector<Devices> devices;
  std::vector<const PlannedSystem*> plans;
  explicit TeamState(const Team& team);
  void restore(Team& team) const;
};

}  // namespace theca::thermal::detail
