// Steady flow in any network of tanks, sumps, junctions, pipes, pumps, valves, check valves and overflows.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "theca/hydraulics/pipe.hpp"
#include "theca/hydraulics/pump.hpp"
#include "theca/hydraulics/tee.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

enum class NodeKind {
  junction,      ///< where links meet; its head is sought
  free_surface,  ///< tank or sump, water line at a fixed level
  outlet         ///< open end in air at a fixed level; water may only leave the network there
};

struct NetworkNode {
  std::string name;
  NodeKind kind = NodeKind::junction;
  VolumeFlow demand{};  ///< junction only: taken out of the network; negative feeds in
  Length level{};       ///< free surface or outlet only: over the datum of the whole network
  /// Free surface only: level of its lowest opening. A water line at or below it gives no water; none stands for deep.
  std::optional<Length> lowest_opening{};
};

enum class Passage {
  both_ways,
  forward_only,  ///< check valve in the pipe, or an overflow: no water from `to` to `from`
  shut           ///< no water at all
};

/// Links run from one node to another, named by their place in Network::nodes; flows are positive that way.
struct NetworkPipe {
  std::string name;
  std::size_t from = 0;
  std::size_t to = 0;
  Pipe pipe;  ///< fittings, entrance and exit losses are its K; length and K must not both be 0
  Passage passage = Passage::both_ways;
};

struct NetworkPump {
  std::string name;
  std::size_t from = 0;  ///< suction
  std::size_t to = 0;    ///< pressure side
  PumpCurve curve;
  double relative_speed = 1.0;  ///< over the speed of the curve, 0.5 to 1.2; affinity laws move the whole curve
};

struct NetworkValve {
  std::string name;
  std::size_t from = 0;
  std::size_t to = 0;
  Length bore;
  double K = 0.0;  ///< loss coefficient on the velocity head of the bore at its setting, > 0
  Passage passage = Passage::both_ways;
};

/// A tee at a junction where these three pipes, and nothing else, meet; its losses follow the share of flow that turns.
///
/// They come on top of the pipes' own K, which must not hold them. Either side of the run may bring the combined flow
/// (dividing_tee(), combining_tee()), and the branch may feed or drain both sides (dividing_bullhead_K(),
/// combining_bullhead_K()). A wye is known only where `run` carries the combined flow. The laws of two directions do
/// not meet where a leg turns round; a straight line leads from one to the other while a joining branch brings less
/// than 1 % of the flow past it, or the weaker side of a bull-head less than 10 %.
struct NetworkTee {
  std::string name;
  std::size_t node = 0;
  std::size_t run = 0;     ///< place in Network::pipes
  std::size_t onward = 0;  ///< run on the other side; of a wye, the side to which the branch leans
  std::size_t branch = 0;
  Tee tee;
};

struct Network {
  std::vector<NetworkNode> nodes;
  std::vector<NetworkPipe> pipes;
  std::vector<NetworkPump> pumps;
  std::vector<NetworkValve> valves;
  std::vector<NetworkTee> tees;
};

enum class TeeDirection {
  at_rest,
  dividing,          ///< run into onward run and branch, either way
  combining,         ///< run and branch into the onward run, either way
  branch_into_both,  ///< bull-head: the branch feeds both sides of the run
  both_into_branch   ///< bull-head: both sides of the run feed the branch
};

/// What a tee does in a solution: total head of each leg at the tee over that of its node, which is that of the
/// combined flow.
struct NetworkTeeFlow {
  TeeDirection direction = TeeDirection::at_rest;
  Length run_head;
  Length onward_head;
  Length branch_head;
};

/// Flows and heads with the evidence that they solve the network; vectors follow those of Network.
///
/// Heads are total heads: pressure, height and velocity head. An end under water or in air loses its velocity head,
/// the exit loss K = 1 of the last pipe.
struct NetworkFlow {
  std::vector<VolumeFlow> pipe_flows;
  std::vector<Velocity> pipe_velocities;
  std::vector<VolumeFlow> pump_flows;
  std::vector<Length> pump_heads;
  std::vector<VolumeFlow> valve_flows;
  std::vector<Length> heads;        ///< of the nodes, over the datum
  std::vector<VolumeFlow> inflows;  ///< into each free surface or outlet from the network; 0 for a junction
  std::vector<NetworkTeeFlow> tee_flows;
  VolumeFlow mass_residual;  ///< largest |inflow - outflow - demand| of a junction
  Length energy_residual;    ///< largest |loss - drop of head| of a link that is not shut
  int iterations = 0;        ///< Newton steps, of all states of the check valves tried
  int status_rounds = 0;     ///< states of the check valves tried
  int tee_rounds = 0;        ///< solutions with the tees' losses held, until those fit the flows
};

/// @throws InvalidInput  impossible member (named by node or link), a link to a node that does not exist or to its own
///                       start, a pipe that loses no head, no free surface or outlet, or a junction that cannot be
///                       supplied: no way to a free surface or outlet through open links, or a demand that no
///                       water can reach in the direction of its check valves; a tee whose pipes do not meet at its
///                       junction or do not meet alone
/// @throws OutOfValidity  speed of a pump outside the affinity laws' range, shape of a tee outside dividing_tee()'s
void validate(const Network& network);

/// Solves networks of one layout over and over: order of elimination and symbolic factorisation are kept, and each
/// solution starts from the last. Levels, demands, speeds, K, bores and the like may change between calls; node kinds,
/// link ends, passages and the pipes of tees may not.
///
/// Newton steps on the network's content, a convex function of the flows, among flows that keep mass balance (global
/// gradient method). The step is shortened where the content would rise, so that it never diverges. Junctions with one
/// neighbour are eliminated by hand until none is left; what remains has loops and goes to a sparse LDLT. Check valves
/// are open or shut: those with backflow are shut, with flow exactly 0, and those with more head behind them than
/// before them opened, first on loose solutions, until all hold; should that go round in circles, a solution in which
/// they resist backflow stiffly says which to shut. Converged when no flow changes by more than 1e-10 of the largest
/// and no energy balance is off by more than 1e-9 of the largest head difference. Mass balance is then brought to
/// rounding, and both residuals come with the answer: over a million random networks, cold and warm, within 1e-12 of
/// the largest flow and 1e-9 of the head range.
///
/// Losses of tees depend on two flows and belong to no convex function. They are held while the network is solved, and
/// Newton's method on the held losses, with the derivatives of all laws, brings them to those of the flows found: to
/// 1e-9 of the largest head difference. Steps are halved while the difference would grow; where that fails, the spans
/// over which the laws of a turning leg are joined are made wide and narrowed down again. Of 20,000 random manifolds of
/// 1 to 100 tanks and 100,572 random networks with 232,781 tees all converged, most in 4 or 5 rounds
/// (theca_random_networks 20000 1 manifolds, 137000 1 tees). Where the laws of a leg's directions do not meet there may
/// be two solutions, of which a warm start finds the nearer.
/// @source Todini & Pilati 1988, "A gradient algorithm for the analysis of pipe networks"; Cherry 1951 and Millar 1951
///         (content); both from memory. Affinity laws: head as speed squared, flow as speed
class NetworkSolver {
 public:
  /// @throws InvalidInput  as validate()
  explicit NetworkSolver(const Network& network);
  NetworkSolver(NetworkSolver&& other) noexcept;
  NetworkSolver& operator=(NetworkSolver&& other) noexcept;
  ~NetworkSolver();

  /// @throws InvalidInput   as validate(), or another layout than the solver was made for
  /// @throws OutOfValidity  as validate(); a wye whose combined flow is not in its run, a pump outside its curve or
  /// backward, an outlet that would draw air, a dry tank that would
  ///                        have to give water, Reynolds number above 1e8; each by name
  /// @throws NotConverged   the iteration ended without meeting the criterion
  NetworkFlow solve(const Network& network, const KinematicViscosity& viscosity);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// One solution from a cold start; see NetworkSolver.
///
/// Limit of the model: a K is constant. A tee's is not: give the network its tees, or, where their losses stand in the
/// pipes' K, see by tee_difference() what that costs.
/// @throws as NetworkSolver::solve()
NetworkFlow solve(const Network& network, const KinematicViscosity& viscosity);

}  // namespace theca::hydraulics
