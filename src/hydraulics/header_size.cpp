#include "theca/hydraulics/header_size.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <utility>

#include "naming.hpp"
#include "theca/error.hpp"
#include "theca/hydraulics/tee_difference.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
// Tries the bores in turn until one balances. `solved(bore)` gives the solution, `imbalance(solution)` its measure.
template <class Result, class Solved, class Imbalance>
Result first_that_balances(const std::vector<Length>& bores, double tolerance, const Solved& solved,
                           const Imbalance& imbalance) {
  require::that(!bores.empty(), "number of bores", 0.0, "1 or more");
  require::positive("bore", bores.front());
  for (std::size_t i = 1; i < bores.size(); ++i)
    require::that(bores[i] > bores[i - 1], "bore", bores[i], "more than the one before it, " + text(bores[i - 1]));
  require::positive("tolerance", tolerance);
  require::within("tolerance", tolerance, 0.0, 1.0);
  Result result;
  std::string refusal;
  for (const Length& bore : bores) {
    result.tried.push_back({bore, std::nullopt});
    try {
      result.flow = solved(bore);
    } catch (const OutOfValidity& e) {
      refusal = e.correlation() + ": " + e.limit();
      continue;
    }
    const double largest = imbalance(result.flow);
    result.tried.back().imbalance = largest;
    if (largest <= tolerance) {
      result.bore = bore;
      return result;
    }
    refusal = "a branch differs by " + number(100.0 * largest) + " % from the mean, more than " +
              number(100.0 * tolerance) + " %";
  }
  throw OutOfValidity("header size", "even at the largest bore, " + text(bores.back()) + ": " + refusal);
}

void require_places(const char* argument, const std::vector<std::size_t>& places, std::size_t least,
                    std::size_t members) {
  require::that(places.size() >= least, std::string("number of places in ") + argument,
                static_cast<double>(places.size()), std::to_string(least) + " or more");
  std::set<std::size_t> seen;
  for (const std::size_t place : places) {
    require::that(place < members, argument, static_cast<double>(place), "0 to " + std::to_string(members - 1));
    require::that(seen.insert(place).second, argument, static_cast<double>(place), "each place once");
  }
}

double largest_imbalance(const NetworkFlow& flow, const std::vector<std::size_t>& ends) {
  double sum = 0.0, largest = 0.0;
  for (const std::size_t end : ends) sum += si(flow.inflows[end]);
  const double mean = sum / static_cast<double>(ends.size());
  if (!(mean > 0.0)) throw OutOfValidity("flow", "the ends together receive none");
  for (const std::size_t end : ends) largest = std::max(largest, std::abs(si(flow.inflows[end]) / mean - 1.0));
  return largest;
}
}  // namespace

HeaderSize header_size(Manifold manifold, const PumpCurve& pump, const std::vector<Length>& bores, double tolerance,
                       const KinematicViscosity& viscosity) {
  return first_that_balances<HeaderSize>(
      bores, tolerance,
      [&](const Length& bore) {
        for (Header& header : manifold.headers) header.to_first_branch.bore = header.segment.bore = bore;
        return solve(manifold, pump, viscosity);
      },
      [](const ManifoldFlow& flow) { return flow.largest_imbalance; });
}

NetworkHeaderSize header_size(Network network, const std::vector<std::size_t>& header,
                              const std::vector<std::size_t>& ends, const std::vector<Length>& bores, double tolerance,
                              const KinematicViscosity& viscosity) {
  require_places("header", header, 1, network.pipes.size());
  require_places("ends", ends, 2, network.nodes.size());
  for (const std::size_t end : ends)
    if (network.nodes[end].kind == NodeKind::junction)
      throw InvalidInput("ends", detail::called("node", network.nodes, end), "free surfaces and outlets");
  const std::set<std::size_t> pipes(header.begin(), header.end());
  auto result = first_that_balances<NetworkHeaderSize>(
      bores, tolerance,
      [&](const Length& bore) {
        for (const std::size_t pipe : header) network.pipes[pipe].pipe.bore = bore;
        for (NetworkTee& tee : network.tees)
          if (pipes.count(tee.run) > 0 || pipes.count(tee.onward) > 0) tee.tee.run_bore = bore;
        return solve(network, viscosity);
      },
      [&](const NetworkFlow& flow) { return largest_imbalance(flow, ends); });
  if (!network.tees.empty()) {
    try {
      result.imbalance_by_constant_K = largest_imbalance(tee_difference(network, viscosity).with_constant_K, ends);
    } catch (const OutOfValidity&) {
      // A pipe without a K of its own may not come below 0 with those of its tees: no such network then.
    }
  }
  return result;
}

}  // namespace theca::hydraulics
