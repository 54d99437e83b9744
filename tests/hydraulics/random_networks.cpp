// Solves random networks and says which fail: theca_random_networks COUNT [FIRST_SEED].
// Each is solved from nothing and, from that solution, at 0.9 times the speed of its pumps.
#include <algorithm>
#include <cstdlib>
#include <iostream>

#include "hydraulics/random_network.hpp"
#include "theca/error.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;

// As NetworkSolver promises, of the largest flow and of the largest head difference.
constexpr double mass_tolerance = 1e-12, energy_tolerance = 1e-9;

struct Worst {
  test::Errors errors;
  int failures = 0;
};

void check(const Network& net, NetworkSolver& solver, unsigned seed, const char* start, Worst& worst) {
  try {
    const auto e = test::errors(net, solver.solve(net, test::seawater_nu), test::seawater_nu);
    worst.errors.mass = std::max(worst.errors.mass, e.mass);
    worst.errors.energy = std::max(worst.errors.energy, e.energy);
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
  if (count == 0) {
    std::cerr << "theca_random_networks COUNT [FIRST_SEED]\n";
    return 1;
  }
  Worst worst;
  for (unsigned seed = first; seed - first < count; ++seed) {
    Network net = test::RandomNetwork(seed).make();
    NetworkSolver solver(net);
    check(net, solver, seed, "from nothing", worst);
    for (NetworkPump& pump : net.pumps) pump.relative_speed = std::max(0.5, 0.9 * pump.relative_speed);
    check(net, solver, seed, "again at another speed", worst);
  }
  std::cout << count << " networks, each solved twice: " << worst.failures
            << " failures; largest error of mass balance " << worst.errors.mass
            << " of the largest flow, of energy balance " << worst.errors.energy << " of the largest head difference\n";
  return worst.failures != 0;
}
