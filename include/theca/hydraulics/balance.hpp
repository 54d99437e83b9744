// Balancing a network: how far to throttle its valves so that each carries the flow that is wanted of it.
#pragma once

#include <cstddef>
#include <vector>

#include "theca/hydraulics/network.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

/// A flow that a valve shall let pass. The valve's K in the network is that of the fully open valve, its least.
struct WantedFlow {
  std::size_t valve = 0;  ///< place in Network::valves
  VolumeFlow flow;        ///< > 0, from the valve's `from` to its `to`
};

/// Valve settings with the evidence that they give the wanted flows; vectors follow the list of wanted flows.
struct ValveSettings {
  double speed_factor = 1.0;          ///< on the relative speed of every pump of the network
  std::vector<double> K;              ///< on the velocity head of the valve's bore, as NetworkValve::K
  std::vector<Length> surplus_heads;  ///< that its setting takes up over what it would lose fully open; >= 0
  std::size_t index = 0;              ///< place, in the list, of the valve of least surplus: the index branch
  NetworkFlow flow;                   ///< the network solved anew with these K at that speed
  /// Of the flows in `flow` from the wanted ones, relative: below 1e-8, more for a flow tiny beside the largest.
  double largest_deviation = 0.0;
};

/// Settings of the valves at the pump speeds of the network.
///
/// Each valve is taken out, its wanted flow drawn off the node before it and fed to the node after it, and the network
/// solved once: the heads that are left at the valve's ends set its K. Where the index branch's surplus is not 0, the
/// pumps run faster than the flows need: see balance_at_least_speed(). `flow` comes from a second solution, without
/// that substitution, and proves the first.
/// @param wanted  one or more valves, each once; the network's other valves stay as they are
/// @throws InvalidInput   as solve(); a valve that does not exist, is shut or is named twice; flow not > 0; or wanted
///                        flows that leave a part of the network without a way to a free surface, whose head would be
///                        open (two valves in series, say: put one of them on the list)
/// @throws OutOfValidity  a valve that lacks head even fully open (named, with the head it lacks), or as solve(), e.g.
///                        wanted flows beyond the pump's curve
/// @throws NotConverged   as solve()
/// @source proportional balancing against the index circuit, common practice, no source; the substitution of a branch
///         by its known flow is that of network theory
ValveSettings balance(const Network& network, const std::vector<WantedFlow>& wanted,
                      const KinematicViscosity& viscosity);

/// Settings at the least pump speed that still gives all wanted flows: the index valve is then fully open.
///
/// All pumps' relative speeds are multiplied by one factor, so that each stays within lowest_speed_ratio to
/// highest_speed_ratio of its curve; flows that lack head at the network's own speeds may be had at higher ones. The
/// search takes it that a higher speed leaves more head at the valve that has least, as it does where every pump feeds
/// the valves; a pump that works against some of them may leave less, and the speed found then gives the flows but need
/// not be the least. The index branch keeps a surplus where the range of speeds or the end of a pump's curve stops the
/// search before. The water gets the same flow either way, so that pump_heads before and after tell what slowing down
/// saves, pump efficiency aside.
/// @throws InvalidInput   as balance(), or no pump
/// @throws OutOfValidity  as balance() at the highest speed; as solve() for a relative speed outside 0.5 to 1.2
/// @throws NotConverged   as solve(), or the root search did not close
/// @source affinity laws, see pump_speed.hpp; Alefeld, Potra & Shi 1995, ACM Trans. Math. Softw. 21:327-344
ValveSettings balance_at_least_speed(const Network& network, const std::vector<WantedFlow>& wanted,
                                     const KinematicViscosity& viscosity);

/// Power that the water loses in the valves because they are not fully open: density g flow times surplus, summed. The
/// pumps draw it over their efficiency.
/// @throws InvalidInput  lists of unlike length, flow or surplus negative, density not > 0
Power throttling_power(const ValveSettings& settings, const std::vector<WantedFlow>& wanted, const Density& density);

}  // namespace theca::hydraulics
