// Random manifolds with tees: a sump, a pump, a header from far too narrow to ample, and tanks at its tees.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <random>
#include <string>

#include "hydraulics/parts.hpp"
#include "theca/hydraulics/network.hpp"

namespace theca::hydraulics::test {

struct ManifoldShape {
  std::size_t tanks = 12;
  double header_bore = 0.06, branch_bore = 0.02;  // m
  double spacing = 0.8, rise = 1.2, branch_K = 6.0;
  Passage branch_passage = Passage::both_ways;
  double pump_flow = 0.004;  // m3/s at 80 % of the shut-off head
  double pump_head = 4.0;
};

/// Tanks 1.. at the tees of one header; the last tank hangs at its end, where there is no tee.
inline Network tee_manifold(const ManifoldShape& shape) {
  Network net;
  net.nodes = {{.name = "sump", .kind = NodeKind::free_surface}, {.name = "behind pump"}};
  NetworkPump pump{.name = "pump", .from = 0, .to = 1, .curve = {}};
  const double q = shape.pump_flow, h = shape.pump_head;
  pump.curve.points = {
      {0.0 * m3_s, h * m}, {q * m3_s, 0.8 * h * m}, {2.0 * q * m3_s, 0.4 * h * m}, {60.0 * q * m3_s, 0.0 * m}};
  net.pumps = {pump};
  std::size_t last = 1;
  for (std::size_t t = 0; t < shape.tanks; ++t) {
    const bool end = t + 1 == shape.tanks;
    const std::size_t junction = net.nodes.size();
    net.nodes.push_back({.name = "tee " + std::to_string(t + 1)});
    net.nodes.push_back(
        {.name = "tank " + std::to_string(t + 1), .kind = NodeKind::free_surface, .level = shape.rise * m});
    const std::size_t first_pipe = net.pipes.size();
    net.pipes.push_back(
        {.name = "header", .from = last, .to = junction, .pipe = pipe_of(shape.header_bore, shape.spacing)});
    net.pipes.push_back({.name = "branch " + std::to_string(t + 1),
                         .from = junction,
                         .to = junction + 1,
                         .pipe = pipe_of(shape.branch_bore, 1.0, shape.branch_K),
                         .passage = shape.branch_passage});
    if (!end)
      net.tees.push_back({.name = "tee " + std::to_string(t + 1),
                          .node = junction,
                          .run = first_pipe,
                          .onward = first_pipe + 2,
                          .branch = first_pipe + 1,
                          .tee = {.run_bore = shape.header_bore * m, .branch_bore = shape.branch_bore * m}});
    last = junction;
  }
  return net;
}

/// One of them, the same for the same seed everywhere.
inline Network random_manifold(unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random()) / static_cast<double>(std::mt19937::max());
  };
  ManifoldShape shape;
  shape.tanks = 1 + random() % 100;
  shape.branch_bore = between(0.012, 0.04);
  // Area of the header over that of all branches: 0.02 is far too narrow, 2 is ample.
  const double area = std::exp(between(std::log(0.02), std::log(2.0))) * static_cast<double>(shape.tanks);
  shape.header_bore = shape.branch_bore * std::sqrt(std::clamp(area, 1.0, 100.0));
  shape.spacing = between(0.1, 2.0);
  shape.rise = between(-1.0, 2.0);
  shape.branch_K = between(0.5, 12.0);
  shape.branch_passage = random() % 2 == 0 ? Passage::both_ways : Passage::forward_only;
  shape.pump_flow = between(1.0, 3.0) * 1e-4 * static_cast<double>(shape.tanks);
  Network net = tee_manifold(shape);
  for (NetworkNode& node : net.nodes)
    if (node.kind == NodeKind::free_surface && node.name != "sump") node.level += between(-0.1, 0.1) * units::metre;
  return net;
}

}  // namespace theca::hydraulics::test
