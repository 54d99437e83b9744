// A manifold of many small branches without friction, which has a closed solution.
#include <algorithm>
#include <array>
#include <cmath>

#include "support/near.hpp"
#include "theca/hydraulics/network.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::within;

namespace {
constexpr auto m = units::metre;

struct Header {
  int branches;
  double area_ratio, branch_K;
};

// A tank 1 m over the tanks at the end of the branches feeds a header whose pipes lose nothing.
Network frictionless(const Header& h) {
  const double bore = 0.1, branch_bore = bore * std::sqrt(h.area_ratio);
  const auto pipe = [](double bore_m, double K) {
    return Pipe{.bore = bore_m * m, .length = 1e-6 * m, .roughness = 0.0 * m, .minor_loss_K = K};
  };
  Network net;
  net.nodes = {{.name = "feed", .kind = NodeKind::free_surface, .level = 1.0 * m}};
  std::size_t last = 0;
  for (int i = 0; i < h.branches; ++i) {
    const std::size_t node = net.nodes.size(), first = net.pipes.size();
    net.nodes.push_back({.name = "tee"});
    net.nodes.push_back({.name = "tank", .kind = NodeKind::free_surface});
    net.pipes.push_back({.name = "header", .from = last, .to = node, .pipe = pipe(bore, 0.0)});
    net.pipes.push_back({.name = "branch", .from = node, .to = node + 1, .pipe = pipe(branch_bore, h.branch_K)});
    if (i + 1 < h.branches)
      net.tees.push_back({.name = "tee",
                          .node = node,
                          .run = first,
                          .onward = first + 2,
                          .branch = first + 1,
                          .tee = {.run_bore = bore * m, .branch_bore = branch_bore * m}});
    last = node;
  }
  return net;
}

// Largest error of a branch's velocity over the mean. The run loses nothing as the share that turns goes to 0, and a
// branch loses A (u^2 + w^2)/2g in its tee, u along the header, w in the branch. Total head above the tanks C/2g is
// the same all along: C = A u^2 + (A + K) w^2, and mass balance du/dx = -(n a / L) w makes u a sine:
//   w = sqrt(C / (A + K)) cos(M (1 - x/L)),  M = n a sqrt(A / (A + K)).
double error(const Header& h, double A) {
  const NetworkFlow flow = solve(frictionless(h), 1e-6 * units::square_metre_per_second);
  const double C = 2.0 * 9.80665, n = h.branches;
  const double M = n * h.area_ratio * std::sqrt(A / (A + h.branch_K));
  const double fastest = std::sqrt(C / (A + h.branch_K)), mean = fastest * std::sin(M) / M;
  double largest = 0.0;
  for (int i = 0; i < h.branches; ++i) {
    const double w = fastest * std::cos(M * (1.0 - (i + 0.5) / n));
    largest = std::max(largest, std::abs(si(flow.pipe_velocities[2 * static_cast<std::size_t>(i) + 1]) - w) / mean);
  }
  return largest;
}
}  // namespace

TEST_CASE("manifold without friction: branches rise as a cosine [Acrivos, Babcock & Pigford 1959, from memory]") {
  // Chem. Eng. Sci. 10:112-124: without friction the header's velocity is a sine. The closed form is that of the
  // differential equation and is met as 1/n or faster: only the last tees turn off a large share, of a slow flow.
  // M = 0.9 and 0.8: the far branch gets 1.6 and 1.4 times what the first gets.
  for (const auto& [area_ratio, A, M] : {std::array{0.36, 1.0, 0.9}, std::array{0.1, 1.1, 0.8}}) {
    const auto with = [ratio = area_ratio, a = A, angle = M](int n) {
      return error({n, ratio, a * std::pow(n * ratio / angle, 2) - a}, a);
    };
    const double coarse = with(100), fine = with(400);
    CHECK(fine < 5e-4);
    CHECK(fine < 0.3 * coarse);
  }
}
