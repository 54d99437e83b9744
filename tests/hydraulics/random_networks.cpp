// Solves random networks and says which fail: theca_random_networks COUNT [FIRST_SEED [plain|tees|manifolds]].
// Each is solved from nothing and, from that solution, at 0.9 times the speed of its pumps. `tees` takes the networks
// of `plain` that have places for tees, with these; `manifolds` are headers of 1 to 100 tanks, each behind its tee.
#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <map>
#include <string>

#include "hydraulics/random_manifold.hpp"
#include "hydraulics/random_network.hpp"
#include "theca/error.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;

struct Kind {
  Network (*make)(unsigned seed);
  double energy_tolerance;  // as NetworkSolver promises, of the largest head difference
};
constexpr double mass_tolerance = 1e-12;  // of the largest flow
const std::map<std::string, Kind> kinds = {
    {"plain", {[](unsigned seed) { return test::RandomNetwork(seed).make(); }, 1e-9}},
    {"tees", {[](unsigned seed) { return test::with_tees(test::RandomNetwork(seed).make()); }, 3e-9}},
    {"manifolds", {[](unsigned seed) { return test::random_manifold(seed); }, 3e-9}}};

struct Worst {
  test::Errors errors;
  int failures = 0, tee_rounds = 0;
};

void check(const Network& net, NetworkSolver& solver, unsigned seed, const char* start, double energy_tolerance,
           Worst& worst) {
  try {
    const NetworkFlow flow = solver.solve(net, test::seawater_nu);
    const auto e = test::errors(net, flow, test::seawater_nu);
    worst.errors.mass = std::max(worst.errors.mass, e.mass);
    worst.errors.energy = std::max(worst.errors.energy, e.energy);
    worst.tee_rounds = std::max(worst.tee_rounds, flow.tee_rounds);
    if (e.mass <= mass_tolerance && e.energy <= energy_tolerance) return;
    std::cout << "seed " << seed << ", " << start << ": mass " << e.mass << ", energy " << e.energy << '\n';
  } catch (const Error& e) {
    std::cout << "seed " << seed << ", " << start << ": " << e.what() << '\n';
  }
  ++worst.failures;
}
}  // namespace

int main(int argc, char** argv) {
  const auto count = argc > 1 ? static_cast<unsigned>(std::strtoul(argv[1], nullptr, 10)) : 0;
  const auto first = argc > 2 ? static_cast<unsigned>(std::strtoul(argv[2], nullptr, 10)) : 1;
  const auto kind = kinds.find(argc > 3 ? argv[3] : "plain");
  if (count == 0 || kind == kinds.end()) {
    std::cerr << "theca_random_networks COUNT [FIRST_SEED [plain|tees|manifolds]]\n";
    return 1;
  }
  const auto& [make, energy_tolerance] = kind->second;
  Worst worst;
  std::size_t networks = 0, tees = 0;
  for (unsigned seed = first; seed - first < count; ++seed) {
    Network net = make(seed);
    if (kind->first == "tees" && net.tees.empty()) continue;
    ++networks;
    tees += net.tees.size();
    NetworkSolver solver(net);
    check(net, solver, seed, "from nothing", energy_tolerance, worst);
    for (NetworkPump& pump : net.pumps) pump.relative_speed = std::max(0.5, 0.9 * pump.relative_speed);
    check(net, solver, seed, "again at another speed", energy_tolerance, worst);
  }
  std::cout << networks << " networks with " << tees << " tees, each solved twice: " << worst.failures
            << " failures; largest error of mass balance " << worst.errors.mass
            << " of the largest flow, of energy balance " << worst.errors.energy << " of the largest head difference";
  if (tees > 0) std::cout << "; most rounds for the tees " << worst.tee_rounds;
  std::cout << '\n';
  return worst.failures != 0;
}
