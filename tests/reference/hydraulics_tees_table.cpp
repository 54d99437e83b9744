// Solves the pipe networks on standard input and prints the flows of each, in m3/s, on a line. Lines of a network:
//   surface <level>; junction; pipe <from> <to> <bore> <length> <K>;
//   tee <node> <run> <onward> <branch> <run bore> <branch bore> <angle in degrees>; end
#include <iomanip>
#include <iostream>
#include <string>

#include "theca/hydraulics/network.hpp"

using namespace theca;
using namespace theca::hydraulics;

namespace {
double next_number() {
  double value = 0.0;
  std::cin >> value;
  return value;
}
std::size_t next_place() {
  std::size_t value = 0;
  std::cin >> value;
  return value;
}
Length next_length() { return next_number() * units::metre; }

void print(const Network& network) {
  for (const VolumeFlow& q : solve(network, 1e-6 * units::square_metre_per_second).pipe_flows)
    std::cout << std::setprecision(17) << si(q) << ' ';
  std::cout << '\n';
}
}  // namespace

int main() {
  Network network;
  for (std::string word; std::cin >> word;) {
    if (word == "surface") {
      network.nodes.push_back({.name = "surface", .kind = NodeKind::free_surface, .level = next_length()});
    } else if (word == "junction") {
      network.nodes.push_back({.name = "junction"});
    } else if (word == "pipe") {
      NetworkPipe pipe;
      pipe.from = next_place();
      pipe.to = next_place();
      pipe.pipe.bore = next_length();
      pipe.pipe.length = next_length();
      pipe.pipe.roughness = 1.5 * units::micrometre;
      pipe.pipe.minor_loss_K = next_number();
      network.pipes.push_back(pipe);
    } else if (word == "tee") {
      NetworkTee tee;
      tee.node = next_place();
      tee.run = next_place();
      tee.onward = next_place();
      tee.branch = next_place();
      tee.tee.run_bore = next_length();
      tee.tee.branch_bore = next_length();
      tee.tee.angle = next_number() * units::degree;
      network.tees.push_back(tee);
    } else if (word == "end") {
      print(network);
      network = {};
    }
  }
}
