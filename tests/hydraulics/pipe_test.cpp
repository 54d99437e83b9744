#include "theca/hydraulics/pipe.hpp"

#include <limits>

#include "support/near.hpp"
#include "theca/hydraulics/fittings.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
const double not_a_number = std::numeric_limits<double>::quiet_NaN();
const auto water = 0.93e-6_m2_s;
Pipe branch() { return {.bore = 1.049_in, .length = 5_ft, .roughness = 1.5e-6_m, .minor_loss_K = 3.83}; }
}  // namespace

TEST_CASE("pipe: head loss is wall friction plus K v^2/2g, and changes sign with the flow") {
  Pipe p = branch();
  const VolumeFlow q = 800_gph;
  const double v = si(q) / si(bore_area(p.bore));
  CHECK(near(si(velocity(p, q)), v, 1e-15));
  const Length friction = head_loss_friction(q, p.bore, p.length, p.roughness, water);
  CHECK(near(head_loss(p, q, water), friction + minor_loss(3.83, velocity(p, q)), 1e-14));
  CHECK(near(si(head_loss(p, -q, water)), -si(head_loss(p, q, water)), 1e-15));
  CHECK(si(head_loss(p, 0_gph, water)) == 0.0);
}

TEST_CASE("pipe: content and velocity of a bore of the trade [1 in Schedule 40 holds 0.0449 gal/ft, 5 ft/s 13.5 gpm]") {
  // pi/4 1.049^2 12 / 231 = 0.04490 gal/ft; 0.0449 x 5 x 60 = 13.47 gpm.
  Pipe p = branch();
  CHECK(near(in(content(p), units::us_gallon) / 5.0, 0.0449, 0.0005 / 0.449));
  CHECK(near(in(flow_at_velocity(1.049_in, 5_ft_s), units::gpm), 13.47, 0.005 / 13.47 + 0.0002));
}

TEST_CASE("pipe sizes: rising, and the wall of Schedule 80 is the thicker one") {
  Length before;
  for (const PipeSize& s : plastic_pipe_sizes()) {
    CHECK(s.outside_diameter > before);
    CHECK(s.minimum_wall_s80 > s.minimum_wall_s40);
    CHECK(bore(s, Schedule::s80) < bore(s, Schedule::s40));
    CHECK(&plastic_pipe_size(s.nominal) == &s);
    before = s.outside_diameter;
  }
  CHECK(contains(message_of<InvalidInput>([] { plastic_pipe_size("7"); }), "1-1/2"));
}

TEST_CASE("metric pipe: rising sizes, PN 16 thicker than PN 10, and industrial never thinner than water pipe") {
  int before = 0;
  for (const MetricPipeSize& s : metric_pipe_sizes()) {
    CHECK(s.nominal > before);
    before = s.nominal;
    CHECK(&metric_pipe_size(s.nominal) == &s);
    CHECK(minimum_wall(s, MetricClass::industrial_pn16) >= minimum_wall(s, MetricClass::water_pn16));
    if (s.nominal < 32) continue;
    CHECK(bore(s, MetricClass::water_pn10) > bore(s, MetricClass::water_pn16));
    CHECK(bore(s, MetricClass::industrial_pn10) > bore(s, MetricClass::industrial_pn16));
    CHECK(bore(s, MetricClass::water_pn10) >= bore(s, MetricClass::industrial_pn10));
  }
  CHECK(test::within(bore(metric_pipe_size(63), MetricClass::water_pn10), 57_mm, 1e-12_m));
  CHECK(contains(message_of<InvalidInput>([] { metric_pipe_size(60); }), "63"));
  CHECK(contains(message_of<InvalidInput>([] { bore(metric_pipe_size(25), MetricClass::water_pn10); }), "32 or more"));
  CHECK(contains(message_of<InvalidInput>([] {
                   MetricPipeSize odd = metric_pipe_size(63);
                   odd.wall_sdr13_6 = 40_mm;
                   bore(odd, MetricClass::water_pn16);
                 }),
                 "minimum wall"));
}

TEST_CASE("pipe: bad input is refused by name") {
  const auto refused = [](auto change) {
    Pipe p = branch();
    change(p);
    return message_of<InvalidInput>([&p] { head_loss(p, 1_gph, water); });
  };
  CHECK(contains(refused([](Pipe& p) { p.bore = -1_in; }), "bore"));
  CHECK(contains(refused([](Pipe& p) { p.length = from_si<Length>(not_a_number); }), "length"));
  CHECK(contains(refused([](Pipe& p) { p.roughness = 1_in; }), "roughness"));
  CHECK(contains(refused([](Pipe& p) { p.minor_loss_K = -0.1; }), "minor loss K"));
  CHECK(contains(message_of<InvalidInput>([] { head_loss(branch(), from_si<VolumeFlow>(not_a_number), water); }),
                 "flow"));
  CHECK(contains(message_of<InvalidInput>([] { head_loss(branch(), 1_gph, 0_m2_s); }), "viscosity"));
  CHECK(contains(message_of<InvalidInput>([] { head_loss(branch(), 1e4_m3_s, water); }), "Reynolds"));
  CHECK(contains(message_of<InvalidInput>([] { velocity(branch(), from_si<VolumeFlow>(not_a_number)); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { flow_at_velocity(1_in, -1_ft_s); }), "velocity"));
  CHECK(contains(message_of<InvalidInput>([] { bore_area(0_in); }), "bore"));
  CHECK(contains(message_of<InvalidInput>([] {
                   bore(
                       {.nominal = "x", .outside_diameter = 1_in, .minimum_wall_s40 = 0.5_in, .minimum_wall_s80 = 0_in},
                       Schedule::s40);
                 }),
                 "minimum wall"));
}
