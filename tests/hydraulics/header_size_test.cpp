#include "theca/hydraulics/header_size.hpp"

#include <cmath>
#include <limits>

#include "demo.hpp"
#include "hydraulics/parts.hpp"
#include "support/near.hpp"
#include "theca/error.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;
using hydraulics::test::seawater_nu;
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
}  // namespace

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
