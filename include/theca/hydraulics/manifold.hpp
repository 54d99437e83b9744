// A return manifold: pump, one main, headers from its end, branches along each header, each header discharging at a
// level of its own.
#pragma once

#include <vector>

#include "theca/hydraulics/pipe.hpp"
#include "theca/hydraulics/pump.hpp"

namespace theca::hydraulics {

/// A header from the end of the main with equal branches at equal spacing. Losses of the tees are part of the pipes'
/// K: straight through in `segment`, into the branch in `branch`.
struct Header {
  Pipe to_first_branch;
  Pipe segment;      ///< between two branches; unused for one branch
  int branches = 1;  ///< 1 or more
  Pipe branch;       ///< tee to discharge, its exit loss included
  /// Level of this header's discharges over the discharge level of the manifold, any sign: tanks on taller stands rise,
  /// tanks near the floor fall.
  Length discharge_rise{};
};

/// A tree fed by one pump. The intake's free surface and the discharge level are `static_head` apart; the discharges of
/// a header lie `discharge_rise` over that level.
struct Manifold {
  Pipe main;  ///< suction and main, to the junction of the headers
  std::vector<Header> headers;
  Length static_head;  ///< level of discharge over level of the intake's free surface, any sign
};

/// What one header carries.
struct HeaderFlow {
  VolumeFlow flow;
  std::vector<VolumeFlow> branch_flows;  ///< in order from the main
  std::vector<Velocity> branch_velocities;
  std::vector<Velocity> header_velocities;  ///< to the first branch, then each segment
  std::vector<double> imbalance;            ///< branch flow over the mean of all branches of the manifold, less 1
};

struct ManifoldFlow {
  VolumeFlow flow;  ///< of the pump
  Length pump_head;
  Length junction_head;  ///< at the end of the main, over the discharge level
  Velocity main_velocity;
  std::vector<HeaderFlow> headers;
  VolumeFlow mean_branch_flow;
  double largest_imbalance = 0.0;  ///< the largest |imbalance|
  Length head_residual;            ///< largest error of the energy balance from pump to any discharge
  int iterations = 0;              ///< Newton steps
};

/// Flows in every branch.
///
/// The branch flows minimise a strictly convex function (the content of the network), whose gradient is the energy
/// balance of each branch; damped Newton steps therefore reach the one solution from anywhere. Converged when no
/// branch changes by more than 1e-12 of the mean branch flow and no energy balance is off by more than 1e-10 of the
/// pump's head, or when all balances close to rounding, 1e-14 of the pump's head.
///
/// Limit of the model: each tee's K is constant. In truth it depends on the share of flow that turns off, and the
/// run regains pressure as it slows, so that the far branches of a long header get more than stated here: of 48 tanks
/// on a header of 100 mm at 0.63 m/s, whose branches lose 50 mm, the last is stated a third too low with the K of an
/// equal split. The error grows with the header's velocity head against the branch's loss. A Network with its tees has
/// the losses by share; tee_difference() tells what they change.
/// @throws InvalidInput   impossible pipes, curve or water, no header, fewer than 1 or more than 1000 branches
/// @throws OutOfValidity  the pump cannot reach the lowest discharge, its curve ends before the duty point, or a header
///                        discharges so high that its water would run backward (named): a discharge over the water
///                        line would draw air, one below it would siphon its tank empty
/// @throws NotConverged   the iteration ended without meeting the criterion
/// @source Cherry 1951 and Millar 1951 (content of a network), Collins et al. 1978, Manage. Sci. 24:747-760; from
///         memory
ManifoldFlow solve(const Manifold& manifold, const PumpCurve& pump, const KinematicViscosity& viscosity);

}  // namespace theca::hydraulics
