// Choice of pump and main: quadratics solved by hand, and every pair of a manifold tried one by one.
#include "theca/hydraulics/pump_choice.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "demo.hpp"
#include "support/near.hpp"
#include "theca/hydraulics/pump_speed.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::demo_manifold;
using test::demo_pump;
using test::message_of;
using test::near;

namespace {
const auto water = 0.93e-6_m2_s;
const Density density = 1023.0 * units::kilogram_per_cubic_metre;
// H = 10 m - 2000 Q and H = 6 m - 1000 Q in SI units.
const std::vector<CandidatePump> pumps{{.name = "steep",
                                        .curve = {.points = {{0_m3_s, 10_m}, {0.005_m3_s, 0_m}}},
                                        .efficiency = {{0_m3_s, 0.6}, {0.005_m3_s, 0.6}},
                                        .cost = 100.0},
                                       {.name = "flat",
                                        .curve = {.points = {{0_m3_s, 6_m}, {0.006_m3_s, 0_m}}},
                                        .efficiency = {{0_m3_s, 0.3}, {0.006_m3_s, 0.3}},
                                        .cost = 300.0}};
const std::vector<CandidateBore> bores{{.name = "40", .bore = 40_mm, .cost = 20.0},
                                       {.name = "50", .bore = 50_mm, .cost = 80.0}};
// A wide suction pipe without loss before the main, whose losses are local only.
const PipeLine line{.static_head = 2_m,
                    .pipes = {{.bore = 100_mm, .length = 0_m, .roughness = 0_m, .minor_loss_K = 0.0},
                              {.bore = 1_mm, .length = 0_m, .roughness = 0_m, .minor_loss_K = 6.0}}};
FlowNeed need(double flow_m3_s, double velocity_m_s, PumpRanking ranking = PumpRanking::hydraulic_power) {
  return {.least_flow = from_si<VolumeFlow>(flow_m3_s),
          .largest_velocity = from_si<Velocity>(velocity_m_s),
          .density = density,
          .ranking = ranking};
}
std::string pairs(const std::vector<PumpChoice>& choices) {
  std::string names;
  for (const PumpChoice& c : choices) names += c.pump + "/" + c.bore + " ";
  return names;
}
}  // namespace

TEST_CASE("pump choice: the pairs of a line that do, by power, power drawn and cost [quadratic, by hand]") {
  // c Q^2 + s Q = H0 - 2 m with c = K/(2 g A^2). Flows in L/s and velocities in m/s: steep/50 3.511 and 1.79, steep/40
  // 3.081 and 2.45, flat/50 3.192 and 1.63, flat/40 2.645 and 2.10.
  const auto found = choose_pump(line, 1, pumps, bores, need(3e-3, 2.0), water);
  CHECK(pairs(found) == "flat/50 steep/50 ");
  const double area = 0.25 * 3.14159265358979323846 * 0.0025, c = 6.0 / (2 * 9.80665 * area * area);
  const double q = (-1000.0 + std::sqrt(1e6 + 16.0 * c)) / (2 * c);
  CHECK(near(si(found[0].flow), q, 1e-12));
  CHECK(near(si(found[0].least_branch_flow), q, 1e-12));
  CHECK(near(si(found[0].head), 6.0 - 1000.0 * q, 1e-12));
  CHECK(near(si(found[0].fastest), q / area, 1e-12));
  CHECK(near(si(found[0].hydraulic_power), 1023.0 * 9.80665 * q * (6.0 - 1000.0 * q), 1e-12));
  CHECK(near(*found[0].power_drawn, found[0].hydraulic_power / 0.3, 1e-12));
  CHECK(*found[0].cost == 380.0);
  // At 3 L/s the pump gives 3 m, the main asks for 2 m and c Q^2.
  CHECK(near(si(found[0].surplus_head), 3.0 - 2.0 - c * 9e-6, 1e-9));
  CHECK(near(si(found[1].surplus_head), 4.0 - 2.0 - c * 9e-6, 1e-9));
  // 88, 103 and 116 W in the water; 293, 171 and 193 W drawn; 380, 180 and 120 of cost.
  CHECK(pairs(choose_pump(line, 1, pumps, bores, need(3e-3, 2.5), water)) == "flat/50 steep/50 steep/40 ");
  CHECK(pairs(choose_pump(line, 1, pumps, bores, need(3e-3, 2.5, PumpRanking::power_drawn), water)) ==
        "steep/50 steep/40 flat/50 ");
  CHECK(pairs(choose_pump(line, 1, pumps, bores, need(3e-3, 2.5, PumpRanking::cost), water)) ==
        "steep/40 steep/50 flat/50 ");
}

TEST_CASE("pump choice: pairs of unknown cost or power come last, by hydraulic power") {
  std::vector<CandidatePump> some = pumps;
  some[0].cost = std::nullopt;
  some[0].efficiency = {{0_m3_s, 0.6}, {0.0033_m3_s, 0.6}};  // ends between its two duty points
  CHECK(pairs(choose_pump(line, 1, some, bores, need(3e-3, 2.5, PumpRanking::cost), water)) ==
        "flat/50 steep/50 steep/40 ");
  const auto drawn = choose_pump(line, 1, some, bores, need(3e-3, 2.5, PumpRanking::power_drawn), water);
  CHECK(pairs(drawn) == "steep/40 flat/50 steep/50 ");
  CHECK_FALSE(drawn.back().power_drawn.has_value());
}

TEST_CASE("pump choice: where no pair does, the nearest is named with how near it comes") {
  // steep/50 gives 3.511 of 4 L/s, 87.8 %.
  const std::string slow =
      message_of<OutOfValidity>([] { choose_pump(line, 1, pumps, bores, need(4e-3, 2.0), water); });
  CHECK(contains(slow, "steep with main 50"));
  CHECK(contains(slow, "87.8 %"));
  CHECK(contains(slow, "gives 0.004 m3/s at no more than 2 m/s"));
  // flat/50 at 1.63 of 1.5 m/s is nearest where its flow is more than enough, 92.3 %.
  const std::string fast =
      message_of<OutOfValidity>([] { choose_pump(line, 1, pumps, bores, need(3e-3, 1.5), water); });
  CHECK(contains(fast, "flat with main 50"));
  CHECK(contains(fast, "92.3 %"));
  FlowNeed all = need(9e-3, 2.0);
  all.least_branch_flow = 450_gph;
  CHECK(contains(
      message_of<OutOfValidity>([&] { choose_pump(demo_manifold(3.068_in, 2.067_in), pumps, bores, all, water); }),
      "gives 0.009 m3/s in all and 0.000473176 m3/s in every branch"));
  PipeLine high = line;
  high.static_head = 11_m;
  CHECK(contains(message_of<OutOfValidity>([&] { choose_pump(high, 1, pumps, bores, need(1e-3, 2.0), water); }),
                 "static head"));
}

TEST_CASE(
    "pump choice: a manifold's pairs are those whose poorest branch and fastest pipe keep the limits [all tried]") {
  const Manifold manifold = demo_manifold(3.068_in, 2.067_in);
  std::vector<CandidatePump> offers{{.name = "whole", .curve = demo_pump()}};
  for (const double r : {0.6, 0.8, 0.9}) offers.push_back({.name = text(r, ""), .curve = at_speed(demo_pump(), r)});
  std::vector<CandidateBore> mains;
  for (const double inches : {2.067, 2.469, 3.068, 4.026})
    mains.push_back({.name = text(inches, "in"), .bore = inches * units::inch});
  const FlowNeed wish{.least_flow = 6500_gph,
                      .least_branch_flow = 450_gph,
                      .largest_velocity = 7.0 * units::foot_per_second,
                      .density = density};
  const auto found = choose_pump(manifold, offers, mains, wish, water);
  std::size_t does = 0;
  for (const CandidatePump& p : offers)
    for (const CandidateBore& b : mains) {
      const ManifoldFlow m = solve(demo_manifold(b.bore, 2.067_in), p.curve, water);
      VolumeFlow least = m.flow;
      Velocity fastest = m.main_velocity;
      for (const HeaderFlow& h : m.headers) {
        least = std::min(least, h.branch_flows.back());  // the last branch of a header gets least
        fastest = std::max({fastest, h.header_velocities.front(), h.branch_velocities.front()});
      }
      const bool expected =
          m.flow >= wish.least_flow && least >= wish.least_branch_flow && fastest <= wish.largest_velocity;
      does += expected;
      const auto at = std::find_if(found.begin(), found.end(),
                                   [&](const PumpChoice& c) { return c.pump == p.name && c.bore == b.name; });
      REQUIRE((at != found.end()) == expected);
      if (!expected) continue;
      CHECK(near(at->least_branch_flow, least, 1e-12));
      CHECK(near(at->fastest, fastest, 1e-12));
      CHECK(near(at->flow, m.flow, 1e-12));
      CHECK(near(at->head, m.pump_head, 1e-12));
      // A valve of that head in the main leaves one of the two flows at what is asked for and the other above.
      Manifold throttled = demo_manifold(b.bore, 2.067_in);
      const auto surplus = [&](double K) {
        throttled.main.minor_loss_K = demo_manifold(b.bore, 2.067_in).main.minor_loss_K + K;
        const ManifoldFlow flow = solve(throttled, p.curve, water);
        VolumeFlow poorest = flow.flow;
        for (const HeaderFlow& h : flow.headers) poorest = std::min(poorest, h.branch_flows.back());
        const double v = si(flow.main_velocity);
        return std::pair(std::min(flow.flow / wish.least_flow, poorest / wish.least_branch_flow) - 1.0,
                         K * v * v / (2.0 * 9.80665));
      };
      double low = 0.0, high = 1e3;
      for (int i = 0; i < 60; ++i) (surplus(0.5 * (low + high)).first > 0.0 ? low : high) = 0.5 * (low + high);
      CHECK(near(si(at->surplus_head), surplus(low).second, 1e-8));
    }
  CHECK(does == found.size());
  CHECK(does >= 2);
  CHECK(does < 16);
  for (std::size_t i = 1; i < found.size(); ++i) CHECK(found[i - 1].hydraulic_power <= found[i].hydraulic_power);
}

TEST_CASE("pump choice: bad input is refused by name") {
  const auto with = [](std::vector<CandidatePump> p, std::vector<CandidateBore> b, const FlowNeed& n, int main = 1) {
    return message_of<InvalidInput>([&] { choose_pump(line, main, p, b, n, water); });
  };
  const FlowNeed n = need(3e-3, 2.0);
  CHECK(contains(with({}, bores, n), "number of pumps"));
  CHECK(contains(with(pumps, {}, n), "number of bores"));
  CHECK(contains(with({{.name = "odd", .curve = {}}}, bores, n), "pump 'odd'"));
  CHECK(contains(with({{.name = "odd", .curve = pumps[0].curve, .cost = -1.0}}, bores, n), "cost"));
  CHECK(
      contains(with({{.name = "odd", .curve = pumps[0].curve, .efficiency = {{0_gph, 2.0}}}}, bores, n), "pump 'odd'"));
  CHECK(contains(with(pumps, {{.name = "none", .bore = 0_mm}}, n), "main 'none'"));
  CHECK(contains(with(pumps, {{.name = "free", .bore = 1_in, .cost = std::numeric_limits<double>::quiet_NaN()}}, n),
                 "cost"));
  CHECK(contains(with(pumps, bores, need(0.0, 2.0)), "least flow"));
  CHECK(contains(with(pumps, bores, need(-1e-3, 2.0)), "least flow"));
  FlowNeed backward = n;
  backward.least_branch_flow = -1_gph;
  CHECK(contains(with(pumps, bores, backward), "least branch flow"));
  CHECK(contains(with(pumps, bores, need(1e-3, -2.0)), "largest velocity"));
  CHECK(contains(with(pumps, bores, n, 2), "main"));
  CHECK(contains(with(pumps, bores, n, -1), "main"));
  FlowNeed massless = n;
  massless.density = Density();
  CHECK(contains(with(pumps, bores, massless), "density"));
  CHECK(contains(message_of<InvalidInput>([&] { choose_pump(Manifold{}, pumps, bores, n, water); }),
                 "number of headers"));
}
