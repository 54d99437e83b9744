// Layouts that the benchmarks of the pipe network solve, here and in EPANET (against_epanet/).
#pragma once

#include <cstddef>

#include "theca/hydraulics/network.hpp"

namespace theca::hydraulics::bench {

inline const KinematicViscosity water = 1.0e-6 * units::square_metre_per_second;

inline NetworkPipe pipe_of(std::size_t from, std::size_t to, double bore_mm, double length_m, double K,
                           Passage passage = Passage::both_ways) {
  NetworkPipe p;
  p.from = from;
  p.to = to;
  p.pipe = {.bore = bore_mm * units::millimetre,
            .length = length_m * units::metre,
            .roughness = 1.5 * units::micrometre,
            .minor_loss_K = K};
  p.passage = passage;
  return p;
}

inline NetworkNode surface(double level_m) {
  NetworkNode node;
  node.kind = NodeKind::free_surface;
  node.level = level_m * units::metre;
  return node;
}

// Sump, pump and check valve, a header with a tank at each tee.
inline Network tanks(std::size_t count) {
  Network net;
  net.nodes = {surface(0.0), NetworkNode{}, NetworkNode{}};
  NetworkPump pump;
  pump.from = 0;
  pump.to = 1;
  const double size = 0.25 * static_cast<double>(count);
  pump.curve.interpolation = Interpolation::linear;
  const double flow[] = {0.0, 1e-3, 2e-3, 3e-3, 4e-3}, head[] = {4.0, 3.6, 2.8, 1.5, 0.0};
  for (int i = 0; i < 5; ++i)
    pump.curve.points.push_back({size * flow[i] * units::cubic_metre_per_second, head[i] * units::metre});
  net.pumps = {pump};
  net.pipes = {pipe_of(1, 2, 50.0, 1.0, 4.0, Passage::forward_only)};
  std::size_t last = 2;
  for (std::size_t t = 0; t < count; ++t) {
    const std::size_t tee = net.nodes.size();
    net.nodes.emplace_back();
    net.nodes.push_back(surface(1.2 + 0.02 * static_cast<double>(t % 3)));
    net.pipes.push_back(pipe_of(last, tee, 63.0, 1.5, 0.6));
    net.pipes.push_back(pipe_of(tee, tee + 1, 20.0, 1.0, 8.0 + static_cast<double>(t % 4), Passage::forward_only));
    last = tee;
  }
  return net;
}

// 1000 junctions in 25 rows, a tank at one corner, a demand at each.
inline Network grid_of_1000() {
  const std::size_t side = 40, rows = 25;
  Network net;
  net.nodes.assign(side * rows + 1, NetworkNode{});
  for (std::size_t v = 0; v < side * rows; ++v)
    net.nodes[v].demand = (1.0 + static_cast<double>(v % 7)) * 3e-6 * units::cubic_metre_per_second;
  net.nodes.back() = surface(20.0);
  net.pipes.push_back(pipe_of(side * rows, 0, 200.0, 2.0, 1.0));
  for (std::size_t v = 0; v < side * rows; ++v) {
    const double K = 1.0 + static_cast<double>(v % 9);
    if (v % side + 1 < side) net.pipes.push_back(pipe_of(v, v + 1, 60.0, 2.0, K));
    if (v + side < side * rows) net.pipes.push_back(pipe_of(v, v + side, 60.0, 2.0, K));
  }
  return net;
}

}  // namespace theca::hydraulics::bench
