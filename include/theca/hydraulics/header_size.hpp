// Sizing a header so wide that its branches get nearly the same flow without valves.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "theca/hydraulics/manifold.hpp"
#include "theca/hydraulics/network.hpp"

namespace theca::hydraulics {

struct TriedHeader {
  Length bore;
  /// Largest |flow / mean - 1| of the branches; none where the pump cannot feed them all or leaves its curve, or where
  /// no law of tees holds for that bore.
  std::optional<double> imbalance;
};

struct HeaderSize {
  Length bore;                     ///< the smallest that balances
  std::vector<TriedHeader> tried;  ///< in rising order, up to that one
  ManifoldFlow flow;               ///< with that one
};

/// The smallest bore of all headers, to_first_branch and segment alike, with which no branch differs from the mean by
/// more than the tolerance.
///
/// Branches of one header differ by what the header loses along them, so that a wide header or a lossy branch balances;
/// branches of unlike rise or make need valves, see balance(). K in the headers stays as given, though tees of another
/// size have a slightly other one. A constant K of tees misjudges narrow headers most; a Network with its tees does
/// not.
/// @param bores      rising, e.g. bore() of plastic_pipe_sizes(); one or more
/// @param tolerance  on |branch flow / mean - 1|, > 0 to 1; 0.05 is common practice, no source
/// @throws InvalidInput   as solve(), no bores, bores not rising, tolerance out of range
/// @throws OutOfValidity  not even the last bore balances (its imbalance, or why there is no flow, is stated)
/// @throws NotConverged   as solve()
/// @source tried in turn with solve(); no formula
HeaderSize header_size(Manifold manifold, const PumpCurve& pump, const std::vector<Length>& bores, double tolerance,
                       const KinematicViscosity& viscosity);

struct NetworkHeaderSize {
  Length bore;                     ///< the smallest that balances
  std::vector<TriedHeader> tried;  ///< in rising order, up to that one
  NetworkFlow flow;                ///< with that one
  /// What the same size gives when every tee has the constant K of an equal split, as tee_difference(); none where
  /// that cannot be solved, or the network has no tees.
  std::optional<double> imbalance_by_constant_K;
};

/// The same for any network, whose tees lose by the share of flow that turns.
///
/// The bore goes into the header's pipes and, as run, into the tees whose runs are among them. A dividing run loses
/// little or even gains head where a constant K charges a loss at every tee, so that a header found here may be
/// smaller than by constant K; the result states both imbalances.
/// @param header  places in Network::pipes of the pipes that take the bore; one or more, none twice
/// @param ends    places in Network::nodes of the tanks or outlets that shall get equal flow; two or more, none twice
/// @param bores, tolerance  as above
/// @throws InvalidInput   as NetworkSolver::solve(), places that do not exist or stand twice, an end that is no free
///                        surface or outlet, and as above
/// @throws OutOfValidity  not even the last bore balances, as above
/// @throws NotConverged   as NetworkSolver::solve()
NetworkHeaderSize header_size(Network network, const std::vector<std::size_t>& header,
                              const std::vector<std::size_t>& ends, const std::vector<Length>& bores, double tolerance,
                              const KinematicViscosity& viscosity);

}  // namespace theca::hydraulics
