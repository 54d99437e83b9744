// What it matters that a tee's loss depends on the share of flow that turns.
#pragma once

#include <cstddef>

#include "theca/hydraulics/network.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

/// One network solved with its tees, and with a constant K in their place.
struct TeeDifference {
  NetworkFlow with_tees;
  NetworkFlow with_constant_K;
  std::size_t node = 0;  ///< that receives water, and whose inflow the constant K misjudges most
  /// Its inflow by constant K less that by tees, over the mean inflow (by tees) of all ends that receive water.
  double largest = 0.0;
};

/// Solves the network with its tees, then with each tee as a table gives it: the K of its legs at an equal split, on
/// their own velocity head, added to their pipes.
/// @throws InvalidInput   as solve(); a network without tees
/// @throws OutOfValidity  as solve(); a pipe (named) whose K comes below 0 with those of its tees at an equal split
/// @throws NotConverged   as solve()
TeeDifference tee_difference(const Network& network, const KinematicViscosity& viscosity);

}  // namespace theca::hydraulics
