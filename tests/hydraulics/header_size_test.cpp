#include "theca/hydraulics/header_size.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "demo.hpp"
#include "hydraulics/parts.hpp"
#include "hydraulics/random_manifold.hpp"
#include "support/near.hpp"
#include "theca/error.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;
using hydraulics::test::ManifoldShape;
using hydraulics::test::seawater_nu;
using hydraulics::test::tee_manifold;
using theca::test::contains;
using theca::test::demo_manifold;
using theca::test::demo_pump;
using theca::test::message_of;
using theca::test::near;

std::vector<Length> schedule_40() {
  std::vector<Length> bores;
  for (const PipeSize& size : plastic_pipe_sizes()) bores.push_back(bore(size, Schedule::s40));
  return bores;
}

// Two branches of K = 4 at 25 mm, and K = 1 in the segment between them; no friction at all.
Manifold two_branches() {
  const auto loss = [](double K) {
    return Pipe{.bore = 25.0 * units::millimetre, .length = Length(), .roughness = Length(), .minor_loss_K = K};
  };
  Manifold m;
  m.main = loss(1.0);
  m.headers = {
      {.to_first_branch = loss(1.0), .segment = loss(1.0), .branches = 2, .branch = loss(4.0), .discharge_rise = {}}};
  m.static_head = Length();
  return m;
}

// A header with tees: its pipes and tanks by their places in tee_manifold().
struct TeeHeader {
  Network network;
  std::vector<std::size_t> header{}, tanks{};
};

TeeHeader tee_header(const ManifoldShape& shape) {
  TeeHeader h{.network = tee_manifold(shape)};
  for (std::size_t t = 0; t < shape.tanks; ++t) {
    h.header.push_back(2 * t);
    h.tanks.push_back(3 + 2 * t);
  }
  return h;
}

// As in the test of tee_difference(): branches of 32 mm that lose 60 velocity heads.
ManifoldShape of_tanks(std::size_t tanks) {
  ManifoldShape shape{.tanks = tanks, .branch_bore = 0.032, .spacing = 0.5, .rise = 1.5};
  shape.branch_K = 60.0;
  shape.pump_head = 2.0;
  shape.pump_flow = 1e-4 * static_cast<double>(tanks);
  return shape;
}

std::vector<Length> wide_bores() {
  std::vector<Length> bores;
  for (const double mm : {25.0, 40.0, 50.0, 65.0, 80.0, 100.0, 125.0, 150.0, 200.0, 250.0})
    bores.push_back(mm * units::millimetre);
  return bores;
}
}  // namespace

TEST_CASE("header size: with tees, the answer balances as solved anew and the size below does not") {
  for (const std::size_t tanks : {std::size_t{4}, std::size_t{12}, std::size_t{48}}) {
    const TeeHeader h = tee_header(of_tanks(tanks));
    const NetworkHeaderSize size = header_size(h.network, h.header, h.tanks, wide_bores(), 0.05, seawater_nu);
    const auto spread = [&](const Length& bore) {
      ManifoldShape shape = of_tanks(tanks);
      shape.header_bore = si(bore);
      const NetworkFlow flow = solve(tee_manifold(shape), seawater_nu);
      double sum = 0.0, largest = 0.0;
      for (const std::size_t t : h.tanks) sum += si(flow.inflows[t]);
      for (const std::size_t t : h.tanks)
        largest = std::max(largest, std::abs(si(flow.inflows[t]) * static_cast<double>(tanks) / sum - 1.0));
      return largest;
    };
    CHECK(near(spread(size.bore), *size.tried.back().imbalance, 1e-6));  // tees to 1e-9 of the heads
    CHECK(spread(size.bore) <= 0.05);
    REQUIRE(size.tried.size() > 1);
    const TriedHeader& below = size.tried[size.tried.size() - 2];
    if (below.imbalance) CHECK(spread(below.bore) > 0.05);
    CHECK_FALSE(size.tried.front().imbalance.has_value());  // narrower than its branches: no law of tees
  }
}

TEST_CASE("header size: a constant K of tees asks for a wider header than tees by the share that turns") {
  TeeHeader h = tee_header(of_tanks(48));
  const NetworkHeaderSize by_share = header_size(h.network, h.header, h.tanks, wide_bores(), 0.05, seawater_nu);
  REQUIRE(by_share.imbalance_by_constant_K.has_value());
  CHECK(*by_share.imbalance_by_constant_K > 0.2);
  // The K of a run at an equal split with area ratio up to 0.4, 0.4 q^2 over (1 - q)^2, is 0.4 on its own velocity
  // head.
  for (std::size_t t = 1; t < h.header.size(); ++t) h.network.pipes[h.header[t]].pipe.minor_loss_K += 0.4;
  h.network.tees.clear();
  const NetworkHeaderSize constant = header_size(h.network, h.header, h.tanks, wide_bores(), 0.05, seawater_nu);
  CHECK(constant.bore > by_share.bore);
  CHECK_FALSE(constant.imbalance_by_constant_K.has_value());
}

TEST_CASE("header size: with tees, impossible places are refused, and unlike heights balance with no header") {
  TeeHeader h = tee_header(of_tanks(4));
  const auto refuses = [&](const std::vector<std::size_t>& header, const std::vector<std::size_t>& ends,
                           const char* words) {
    CHECK(contains(
        message_of<InvalidInput>([&] { (void)header_size(h.network, header, ends, wide_bores(), 0.05, seawater_nu); }),
        words));
  };
  refuses({}, h.tanks, "header");
  refuses({99}, h.tanks, "header");
  refuses({0, 0}, h.tanks, "once");
  refuses(h.header, {3}, "ends");
  refuses(h.header, {3, 99}, "ends");
  refuses(h.header, {2, 3}, "free surfaces");
  h.network.nodes[h.tanks[1]].level += 0.2_m;
  CHECK(contains(message_of<OutOfValidity>(
                     [&] { (void)header_size(h.network, h.header, h.tanks, wide_bores(), 0.05, seawater_nu); }),
                 "even at the largest bore"));
}

TEST_CASE("header size: the bore that balances two branches, in closed form") {
  // Both branches lose the same: 4 q1^2 = (4 + r) q2^2 with r = (25 mm / bore)^4, so q1/q2 = sqrt(1 + r/4) and the
  // imbalance is (q1 - q2)/(q1 + q2). 5 % asks for r = 4 ((1.05/0.95)^2 - 1).
  const double bore_m = 0.025 * std::pow(4.0 * (std::pow(1.05 / 0.95, 2) - 1.0), -0.25);
  const std::vector<Length> bores = {0.6 * bore_m * units::metre, (1.0 - 1e-6) * bore_m * units::metre,
                                     (1.0 + 1e-6) * bore_m * units::metre, 2.0 * bore_m * units::metre};
  const HeaderSize size = header_size(two_branches(), demo_pump(), bores, 0.05, seawater_nu);
  CHECK(size.bore == bores[2]);
  CHECK(size.tried.size() == 3);
  CHECK(near(*size.tried[1].imbalance, 0.05, 1e-5));
  for (const TriedHeader& t : size.tried) {
    const double ratio = std::sqrt(1.0 + 0.25 * std::pow(0.025 / si(t.bore), 4));
    CHECK(near(*t.imbalance, (ratio - 1.0) / (ratio + 1.0), 1e-9));
  }
}

TEST_CASE("header size: the answer meets the tolerance as solved anew, the size below does not") {
  const Manifold farm = demo_manifold(3.068_in, 1.0_in);  // its own header bore does not count
  for (const double tolerance : {0.02, 0.05, 0.1, 0.2}) {
    const HeaderSize size = header_size(farm, demo_pump(), schedule_40(), tolerance, seawater_nu);
    CHECK(solve(demo_manifold(3.068_in, size.bore), demo_pump(), seawater_nu).largest_imbalance <= tolerance);
    REQUIRE(size.tried.size() > 1);
    const TriedHeader& below = size.tried[size.tried.size() - 2];
    CHECK(solve(demo_manifold(3.068_in, below.bore), demo_pump(), seawater_nu).largest_imbalance > tolerance);
    CHECK(size.flow.largest_imbalance == *size.tried.back().imbalance);
    // Wider headers balance better: on this farm every step does.
    for (std::size_t i = 1; i < size.tried.size(); ++i) CHECK(*size.tried[i].imbalance < *size.tried[i - 1].imbalance);
  }
}

TEST_CASE("header size: branches of unlike height are not balanced by any header, and the pump's curve ends") {
  Manifold farm = demo_manifold(3.068_in, 2.067_in);
  farm.headers[1].discharge_rise = 3_ft;
  const auto high =
      message_of<OutOfValidity>([&] { (void)header_size(farm, demo_pump(), schedule_40(), 0.05, seawater_nu); });
  CHECK(contains(high, "even at the largest bore"));
  CHECK(contains(high, "%"));
  Manifold weak = two_branches();
  weak.main.minor_loss_K = weak.headers[0].branch.minor_loss_K = 1e-3;
  weak.main.bore = weak.headers[0].branch.bore = 100.0 * units::millimetre;
  CHECK(contains(message_of<OutOfValidity>([&] { (void)header_size(weak, demo_pump(), {1.0_m}, 0.05, seawater_nu); }),
                 "pump curve"));
}

TEST_CASE("header size: impossible lists and tolerances are refused") {
  const auto refuses = [](const std::vector<Length>& bores, double tolerance, const char* words) {
    CHECK(contains(message_of<InvalidInput>(
                       [&] { (void)header_size(two_branches(), demo_pump(), bores, tolerance, seawater_nu); }),
                   words));
  };
  refuses({}, 0.05, "number of bores");
  refuses({2_in, 1_in}, 0.05, "more than the one before it");
  refuses({Length(), 1_in}, 0.05, "bore");
  refuses({1_in}, 0.0, "tolerance");
  refuses({1_in}, 1.5, "tolerance");
  refuses({1_in}, std::numeric_limits<double>::quiet_NaN(), "tolerance");
  refuses({1_in, std::numeric_limits<double>::infinity() * units::metre}, 1e-9, "bore");
}
