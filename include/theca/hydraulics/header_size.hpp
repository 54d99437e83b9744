// Sizing a header so wide that its branches get nearly the same flow without valves.
#pragma once

#include <optional>
#include <vector>

#include "theca/hydraulics/manifold.hpp"

namespace theca::hydraulics {

struct TriedHeader {
  Length bore;
  /// Largest deviation of a branch from the mean of all, ManifoldFlow::largest_imbalance; none where the pump cannot
  /// feed all branches, or leaves its curve.
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
/// size have a slightly other one; the limit of solve() with constant K of tees counts most for narrow headers.
/// @param bores      rising, e.g. bore() of plastic_pipe_sizes(); one or more
/// @param tolerance  on |branch flow / mean - 1|, > 0 to 1; 0.05 is common practice, no source
/// @throws InvalidInput   as solve(), no bores, bores not rising, tolerance out of range
/// @throws OutOfValidity  not even the last bore balances (its imbalance, or why there is no flow, is stated)
/// @throws NotConverged   as solve()
/// @source tried in turn with solve(); no formula
HeaderSize header_size(Manifold manifold, const PumpCurve& pump, const std::vector<Length>& bores, double tolerance,
                       const KinematicViscosity& viscosity);

}  // namespace theca::hydraulics
