#include "theca/hydraulics/tee_difference.hpp"

#include <array>
#include <cmath>

#include "naming.hpp"
#include "network_model.hpp"
#include "theca/error.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
// K of one leg that takes or brings half of the combined flow, on the velocity head of the combined flow.
double equal_split_K(const Tee& tee, const detail::TeeUse& use, std::size_t leg) {
  const bool branch = leg == 2;
  switch (use.direction) {
    case TeeDirection::at_rest:
      return 0.0;
    case TeeDirection::dividing:
      return branch ? dividing_tee(tee, 0.5).branch_K : dividing_tee(tee, 0.5).run_K;
    case TeeDirection::combining:
      return branch ? combining_tee(tee, 0.5).branch_K : combining_tee(tee, 0.5).run_K;
    case TeeDirection::branch_into_both:
      return dividing_bullhead_K(tee, 0.5);
    case TeeDirection::both_into_branch:
      return combining_bullhead_K(tee, 0.5);
  }
  return 0.0;
}

Network with_constant_K(Network network, const std::vector<VolumeFlow>& pipe_flows) {
  for (const NetworkTee& tee : network.tees) {
    const std::array<std::size_t, 3> pipes{tee.run, tee.onward, tee.branch};
    std::array<double, 3> in{};
    for (std::size_t leg = 0; leg < 3; ++leg)
      in[leg] = (network.pipes[pipes[leg]].to == tee.node ? 1.0 : -1.0) * si(pipe_flows[pipes[leg]]);
    const detail::TeeUse use = detail::use_of(in);
    const double combined_bore = si(use.combined == 2 ? tee.tee.branch_bore : tee.tee.run_bore);
    for (std::size_t leg = 0; leg < 3; ++leg) {
      if (leg == use.combined) continue;
      Pipe& pipe = network.pipes[pipes[leg]].pipe;
      const double velocity_ratio = 2.0 * std::pow(si(pipe.bore) / combined_bore, 2);  // combined over leg
      pipe.minor_loss_K += equal_split_K(tee.tee, use, leg) * velocity_ratio * velocity_ratio;
    }
  }
  for (std::size_t i = 0; i < network.pipes.size(); ++i)
    if (network.pipes[i].pipe.minor_loss_K < 0.0)
      throw OutOfValidity(detail::called("pipe", network.pipes, i),
                          "with the K of its tees at an equal split, which may be negative, its own is " +
                              number(network.pipes[i].pipe.minor_loss_K));
  network.tees.clear();
  return network;
}
}  // namespace

TeeDifference tee_difference(const Network& network, const KinematicViscosity& viscosity) {
  require::that(!network.tees.empty(), "number of tees", 0.0, "1 or more");
  TeeDifference result;
  result.with_tees = solve(network, viscosity);
  result.with_constant_K = solve(with_constant_K(network, result.with_tees.pipe_flows), viscosity);
  double sum = 0.0, largest = 0.0, count = 0.0;
  for (std::size_t v = 0; v < network.nodes.size(); ++v) {
    const double by_tees = si(result.with_tees.inflows[v]), by_constant = si(result.with_constant_K.inflows[v]);
    if (by_tees > 0.0) sum += by_tees, count += 1.0;
    if ((by_tees <= 0.0 && by_constant <= 0.0) || std::abs(by_constant - by_tees) <= std::abs(largest)) continue;
    largest = by_constant - by_tees;
    result.node = v;
  }
  if (sum > 0.0) result.largest = largest * count / sum;
  return result;
}

}  // namespace theca::hydraulics
