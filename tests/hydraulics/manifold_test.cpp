#include "theca/hydraulics/manifold.hpp"

#include <array>
#include <limits>
#include <string>

#include "demo.hpp"
#include "support/near.hpp"
#include "theca/hydraulics/duty_point.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::demo_manifold;
using test::demo_pump;
using test::message_of;
using test::near;

namespace {
const auto water = 0.93e-6_m2_s;

struct Reference {
  const char* name;
  Length main, header;
  std::array<double, 14> gph;
};

// scipy.optimize.fsolve with the friction factor of the package fluids (tests/reference/hydraulics_values.py).
const Reference references[] = {
    {"main 3 in, headers 2 in",
     3.068_in,
     2.067_in,
     {887.2410872, 799.877026, 746.4502848, 720.3543932, 712.8328097, 831.8989411, 749.5378709, 699.1379531,
      674.4986812, 667.3864937, 919.6133555, 859.0539692, 829.5296746, 821.0463113}},
    {"main 3 in, headers 3 in",
     3.068_in,
     3.068_in,
     {826.2689239, 809.4439426, 799.4739413, 794.7176544, 793.3677743, 809.85525, 793.3317721, 783.5387719, 778.8657916,
      777.5389634, 844.7787664, 834.4217356, 829.4833459, 828.0831024}},
    {"main 4 in, headers 2 in",
     4.026_in,
     2.067_in,
     {976.9298383, 881.5066674, 823.2077001, 794.7693164, 786.590327, 916.6573367, 826.6436291, 771.6145444,
      744.7479796, 737.0099832, 1013.163157, 947.089019, 914.9175538, 905.6931384}},
    {"main 4 in, headers 3 in",
     4.026_in,
     3.068_in,
     {912.9278164, 894.5191871, 883.6198725, 878.4264518, 876.9557351, 895.0660346, 876.982738, 866.2742833,
      861.1706066, 859.7246813, 933.4649282, 922.1429668, 916.750873, 915.2253022}}};
}  // namespace

TEST_CASE("manifold: branch flows of the return [scipy fsolve with the package fluids, tests/reference]") {
  for (const Reference& r : references) {
    CAPTURE(r.name);
    const ManifoldFlow m = solve(demo_manifold(r.main, r.header), demo_pump(), water);
    std::size_t i = 0;
    for (const HeaderFlow& h : m.headers)
      for (const VolumeFlow& q : h.branch_flows)
        CHECK(near(in(q, units::gph), r.gph.at(i++), 1e-9));  // printed to 10 digits
    CHECK(i == 14);
    CHECK(m.iterations <= 12);
  }
}

TEST_CASE("manifold: mass and energy are kept, recomputed along every way from pump to tank") {
  const Manifold m = demo_manifold(3.068_in, 2.067_in);
  for (const auto between : {Interpolation::linear, Interpolation::monotone}) {
    const PumpCurve pump = demo_pump(between);
    const ManifoldFlow r = solve(m, pump, water);
    CHECK(near(r.pump_head, head(pump, r.flow), 1e-14));
    double total = 0.0;
    for (std::size_t h = 0; h < m.headers.size(); ++h) {
      double of_header = 0.0;
      for (const auto& q : r.headers[h].branch_flows) of_header += si(q);
      CHECK(near(si(r.headers[h].flow), of_header, 1e-13));
      total += of_header;
      double carried = of_header;
      Length left = r.pump_head - m.static_head - head_loss(m.main, r.flow, water);
      CHECK(test::within(left, r.junction_head, 1e-12_m));
      for (std::size_t b = 0; b < r.headers[h].branch_flows.size(); ++b) {
        const Pipe& before = b == 0 ? m.headers[h].to_first_branch : m.headers[h].segment;
        left -= head_loss(before, from_si<VolumeFlow>(carried), water);
        const Length branch = head_loss(m.headers[h].branch, r.headers[h].branch_flows[b], water);
        CHECK(test::within(left, branch, 1e-10 * r.pump_head));
        CHECK(near(r.headers[h].header_velocities[b], velocity(before, from_si<VolumeFlow>(carried)), 1e-12));
        CHECK(near(1.0 + r.headers[h].imbalance[b], r.headers[h].branch_flows[b] / r.mean_branch_flow, 1e-13));
        carried -= si(r.headers[h].branch_flows[b]);
      }
    }
    CHECK(near(si(r.flow), total, 1e-13));
    CHECK(r.head_residual <= 1e-10 * r.pump_head);
  }
}

TEST_CASE("manifold: one header of one branch is a line of pipes in series [duty_point, other solver]") {
  Manifold m = demo_manifold(3.068_in, 2.067_in);
  m.headers.resize(1);
  m.headers[0].branches = 1;
  m.static_head = 3_ft;
  const PipeLine line{.static_head = 3_ft, .pipes = {m.main, m.headers[0].to_first_branch, m.headers[0].branch}};
  const ManifoldFlow r = solve(m, demo_pump(), water);
  const DutyPoint d = duty_point(line, demo_pump(), water);
  CHECK(near(r.flow, d.flow, 1e-11));
  CHECK(r.largest_imbalance == 0.0);
}

TEST_CASE("manifold: equal headers share equally, and the nearest branch of a header gets most") {
  Manifold m = demo_manifold(3.068_in, 2.067_in);
  m.headers = {m.headers[0], m.headers[0], m.headers[0]};
  const ManifoldFlow r = solve(m, demo_pump(Interpolation::monotone), water);
  for (std::size_t b = 0; b < 5; ++b) {
    CHECK(near(r.headers[0].branch_flows[b], r.headers[2].branch_flows[b], 1e-12));
    if (b > 0) CHECK(r.headers[0].branch_flows[b] < r.headers[0].branch_flows[b - 1]);
  }
}

TEST_CASE("manifold: discharges that all rise alike are a higher static head") {
  Manifold risen = demo_manifold(3.068_in, 2.067_in), higher = risen;
  for (Header& h : risen.headers) h.discharge_rise = 3_ft;
  higher.static_head += 3_ft;
  const ManifoldFlow a = solve(risen, demo_pump(), water), b = solve(higher, demo_pump(), water);
  CHECK(near(a.flow, b.flow, 1e-11));
  CHECK(near(a.headers[1].branch_flows[4], b.headers[1].branch_flows[4], 1e-11));
  CHECK(near(a.junction_head, b.junction_head + 3_ft, 1e-11));  // over the discharge level, which is 3 ft lower for a
  CHECK(a.head_residual <= 1e-10 * a.pump_head);
}

TEST_CASE("manifold: rows of tanks at different heights [junction head by bisection of every line, other method]") {
  Manifold m = demo_manifold(3.068_in, 2.067_in);
  const Length rises[] = {-1.5_ft, 2_ft, 0_ft};
  for (std::size_t i = 0; i < 3; ++i) {
    m.headers[i].branches = 1;
    m.headers[i].discharge_rise = rises[i];
  }
  for (Header& h : m.headers) h.branch.bore = 1.61_in;
  m.static_head = 2_ft;
  const PumpCurve pump = demo_pump();
  // A line from the junction takes the flow whose loss is the junction's head over its discharge; of two heads the pump
  // with the main reaches the one at which all lines together ask for what it gives.
  const auto of_line = [&](const Header& h, double junction_m) {
    double low = -0.02, high = 0.02;
    for (int i = 0; i < 100; ++i) {
      const double q = 0.5 * (low + high);
      const Length loss = head_loss(h.to_first_branch, from_si<VolumeFlow>(q), water) +
                          head_loss(h.branch, from_si<VolumeFlow>(q), water);
      (si(loss) + si(h.discharge_rise) < junction_m ? low : high) = q;
    }
    return low;
  };
  double low = 0.7, high = 8.0;  // m over the discharge level
  for (int i = 0; i < 100; ++i) {
    const double junction = 0.5 * (low + high);
    double total = 0.0;
    for (const Header& h : m.headers) total += of_line(h, junction);
    const VolumeFlow flow = from_si<VolumeFlow>(total);
    const bool in_reach =
        flow < 13500_gph && si(head(pump, flow) - m.static_head - head_loss(m.main, flow, water)) > junction;
    (in_reach ? low : high) = junction;
  }
  const ManifoldFlow r = solve(m, pump, water);
  CHECK(near(si(r.junction_head), low, 1e-9));
  for (std::size_t i = 0; i < 3; ++i) CHECK(near(si(r.headers[i].flow), of_line(m.headers[i], low), 1e-9));
  CHECK(r.head_residual <= 1e-10 * r.pump_head);
}

TEST_CASE("manifold: a row set lower gets more, the others less") {
  Manifold m = demo_manifold(3.068_in, 2.067_in);
  const ManifoldFlow level = solve(m, demo_pump(), water);
  m.headers[0].discharge_rise = -1_ft;
  const ManifoldFlow lowered = solve(m, demo_pump(), water);
  for (std::size_t h = 0; h < 3; ++h)
    for (std::size_t b = 0; b < level.headers[h].branch_flows.size(); ++b) {
      const bool more = lowered.headers[h].branch_flows[b] > level.headers[h].branch_flows[b];
      CHECK(more == (h == 0));
    }
}

TEST_CASE("manifold: a header so high that its water would run backward is named") {
  Manifold m = demo_manifold(3.068_in, 2.067_in);
  for (const Length& rise : {12_ft, 29_ft, 40_ft}) {
    CAPTURE(si(rise));
    m.headers[1].discharge_rise = rise;
    const std::string why = message_of<OutOfValidity>([&] { solve(m, demo_pump(), water); });
    CHECK(contains(why, "header 2"));
    CHECK(contains(why, "backward"));
  }
  for (Header& h : m.headers) h.discharge_rise = 31_ft;  // none in reach
  CHECK(contains(message_of<OutOfValidity>([&] { solve(m, demo_pump(), water); }), "static head"));
  m.headers[0].discharge_rise = from_si<Length>(std::numeric_limits<double>::quiet_NaN());
  CHECK(contains(message_of<InvalidInput>([&] { solve(m, demo_pump(), water); }), "discharge rise"));
}

TEST_CASE("manifold: converges from the plan's extremes: syrup, near shut-off, many branches, a corner of the curve") {
  Manifold m = demo_manifold(3.068_in, 2.067_in);
  CHECK(si(solve(m, demo_pump(), 1e-2_m2_s).flow) > 0.0);  // laminar everywhere
  m.static_head = 29.9999_ft;
  CHECK(si(solve(m, demo_pump(), water).flow) > 0.0);
  m.static_head = 0_ft;
  for (Header& h : m.headers) h.branches = 60;
  const ManifoldFlow many = solve(m, demo_pump(), water);
  CHECK(many.head_residual <= 1e-10 * many.pump_head);
  CHECK(many.headers[1].branch_flows[59] > 0_gph);

  // Losses of K Q^2 with K chosen so that the crossing lies on a point of the curve.
  m = demo_manifold(3.068_in, 2.067_in);
  for (Pipe* p : {&m.main, &m.headers[0].to_first_branch, &m.headers[0].segment, &m.headers[0].branch})
    *p = {.bore = 2_in, .length = 0_ft, .roughness = 0_m, .minor_loss_K = 0.0};
  m.headers.resize(1);
  m.headers[0].branches = 2;
  const double v = si(8000_gph) / 2 / si(bore_area(2_in));
  for (Pipe* p : {&m.headers[0].branch}) p->minor_loss_K = si(22.2_ft) * 2 * 9.80665 / (v * v);
  CHECK(near(solve(m, demo_pump(), water).flow, 8000_gph, 1e-10));
}

TEST_CASE("manifold: static head out of reach, or a curve that ends too early, is said") {
  Manifold m = demo_manifold(3.068_in, 2.067_in);
  m.static_head = 30_ft;
  CHECK(contains(message_of<OutOfValidity>([&] { solve(m, demo_pump(), water); }), "static head"));
  m = demo_manifold(8_in, 8_in);
  for (Header& h : m.headers) h.branch.bore = 4_in;
  CHECK(contains(message_of<OutOfValidity>([&] { solve(m, demo_pump(), water); }), "pump curve runs from"));
  PumpCurve late = demo_pump();
  late.points.erase(late.points.begin(), late.points.end() - 2);  // begins at 12000 gph, past the duty point
  m = demo_manifold(3.068_in, 2.067_in);
  CHECK(contains(message_of<OutOfValidity>([&] { solve(m, late, water); }), "pump curve runs from"));
}

TEST_CASE("manifold: bad input is refused by name") {
  const auto refused = [](auto change) {
    Manifold m = demo_manifold(3.068_in, 2.067_in);
    change(m);
    return message_of<InvalidInput>([&m] { solve(m, demo_pump(), water); });
  };
  CHECK(contains(refused([](Manifold& m) { m.headers.clear(); }), "number of headers"));
  CHECK(contains(refused([](Manifold& m) { m.headers[1].branches = 0; }), "branches"));
  CHECK(contains(refused([](Manifold& m) { m.headers[1].branches = 2000000000; }), "branches"));
  CHECK(contains(refused([](Manifold& m) { m.main.bore = 0_in; }), "bore"));
  CHECK(contains(refused([](Manifold& m) { m.headers[2].segment.length = -1_ft; }), "length"));
  CHECK(contains(refused([](Manifold& m) { m.headers[0].branch.minor_loss_K = -1; }), "minor loss K"));
  CHECK(contains(refused([](Manifold& m) { m.headers[0].branch = {1_in, 0_ft, 0_m, 0.0}; }), "branch length"));
  const Manifold m = demo_manifold(3.068_in, 2.067_in);
  CHECK(contains(message_of<InvalidInput>([&] { solve(m, {}, water); }), "pump curve"));
  CHECK(contains(message_of<InvalidInput>([&] { solve(m, demo_pump(), -1_m2_s); }), "viscosity"));
}
