#include "theca/hydraulics/friction.hpp"

#include <limits>

#include "dual.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;
using test::within;

namespace {
const double not_a_number = std::numeric_limits<double>::quiet_NaN();
const auto water = 0.93e-6_m2_s;
}  // namespace

TEST_CASE("friction factor: laminar flow is 64/Re whatever the roughness [Hagen-Poiseuille]") {
  CHECK(near(friction_factor(1.0, 0.0), 64.0, 1e-15));
  CHECK(near(friction_factor(1000.0, 0.05), 0.064, 1e-15));
  CHECK(near(friction_factor(2000.0, 0.01), 0.032, 1e-14));
}

TEST_CASE("friction factor: fully rough flow at high Re [von Karman 1930: 1/sqrt(f) = 2 log10(3.7 D/e)]") {
  // At Re 1e8 and e/D 0.05 the smooth term of Colebrook-White is 2.51/(Re sqrt(f) 0.0135) = 7e-6 of the rough one.
  const double expected = 1.0 / std::pow(2.0 * std::log10(3.7 / 0.05), 2);
  CHECK(near(friction_factor(1e8, 0.05), expected, 1e-5));
}

TEST_CASE("friction factor: value and slope run through both ends of the transition") {
  for (const double roughness : {0.0, 1e-5, 1e-3, 0.05}) {
    for (const double edge : {2000.0, 4000.0}) {
      const double h = 1e-3;
      const double below = friction_factor(edge - h, roughness), here = friction_factor(edge, roughness),
                   above = friction_factor(edge + h, roughness);
      CHECK(within(below, here, 1e-7));  // slope below 4e-5 per unit of Re, times h, with room
      CHECK(within(above, here, 1e-7));
      // One-sided slopes agree to the curvature (under 1e-7 per Re^2) times h and rounding over h.
      CHECK(within((here - below) / h, (above - here) / h, 1e-9));
    }
  }
}

TEST_CASE("friction factor: the loss f Re^2 rises with flow through all regimes, so that solvers find one root") {
  for (const double roughness : {0.0, 1e-6, 1e-4, 1e-2, 0.05}) {
    double before = 0.0;
    for (double re = 1.0; re < 1e8; re *= 1.003) {
      const double loss = friction_factor(re, roughness) * re * re;
      REQUIRE(loss > before);
      before = loss;
    }
  }
}

TEST_CASE("friction factor: solves the Colebrook-White equation to rounding over the whole range") {
  for (double re = 4000.0; re <= 1e8; re *= 1.37) {
    for (const double roughness : {0.0, 1e-9, 1e-7, 1e-5, 3e-4, 1e-2, 0.05}) {
      const double x = 1.0 / std::sqrt(friction_factor(re, roughness));
      REQUIRE(within(x + 2.0 * std::log10(roughness / 3.7 + 2.51 * x / re), 0.0, 1e-14 * x));
    }
  }
}

TEST_CASE("friction factor: started from the root of another flow, near or far, it is the same to rounding") {
  for (const double roughness : {0.0, 1e-5, 0.05}) {
    for (const double from : {4000.0, 1e5, 1e8}) {
      for (double re = 4000.0; re <= 1e8; re *= 1.9) {
        double nearby = 0.0;
        (void)kernel::friction_factor(from, roughness, &nearby);
        const auto f = kernel::friction_factor(re, roughness, &nearby);
        CHECK(near(f.value, friction_factor(re, roughness), 2e-15));
        for (const double change : {1.006, 1.01}) {  // on smooth pipes the first moves the root by 0.004 at low Re
          double back = nearby;
          CHECK(near(kernel::friction_factor(change * re, roughness, &back).value,
                     friction_factor(change * re, roughness), 2e-15));
        }
      }
    }
  }
}

TEST_CASE("friction factor: the slope given beside the value is its derivative [forward differentiation]") {
  for (const double re : {50.0, 1999.0, 2001.0, 3000.0, 3999.0, 4001.0, 5e4, 1e6, 9e7}) {
    for (const double roughness : {0.0, 1e-4, 0.03}) {
      const auto f = kernel::friction_factor(test::Dual(re, 1.0), test::Dual(roughness));
      CHECK(near(f.value.v, friction_factor(re, roughness), 1e-15));
      CHECK(near(f.slope.v, f.value.d, 1e-12));
    }
  }
}

TEST_CASE("head loss: its slope to the flow is its derivative, in both directions of flow") {
  for (const double q : {1e-6, 4e-5, 6e-5, 1e-3, -1e-6, -5e-5, -1e-3}) {
    const auto h = kernel::head_loss(test::Dual(q, 1.0), test::Dual(0.03), test::Dual(5.0), test::Dual(1.5e-6),
                                     test::Dual(2.5), test::Dual(0.93e-6));
    CHECK(near(h.slope_s_m2.v, h.loss_m.d, 1e-12));
    CHECK(near(kernel::head_loss(-q, 0.03, 5.0, 1.5e-6, 2.5, 0.93e-6).loss_m, -h.loss_m.v, 1e-14));
  }
}

TEST_CASE("head loss: laminar flow loses 32 nu L v / (g D^2), and nothing at rest [Hagen-Poiseuille]") {
  const double v = 0.03, d = 0.02, length = 7.0;
  const VolumeFlow q = from_si<VolumeFlow>(v * 0.25 * 3.14159265358979323846 * d * d);
  CHECK(near(si(head_loss_friction(q, 20_mm, 7_m, 0_m, water)), 32 * 0.93e-6 * length * v / (9.80665 * d * d), 1e-13));
  CHECK(si(head_loss_friction(0_gph, 20_mm, 7_m, 0_m, water)) == 0.0);
}

TEST_CASE("Reynolds number and hydraulic diameter [definitions]") {
  CHECK(near(reynolds_number(1.5_m_s, 40_mm, 1e-6_m2_s), 60000.0, 1e-14));
  const double pi = 3.14159265358979323846;
  CHECK(near(hydraulic_diameter(from_si<Area>(0.25 * pi * 0.01), from_si<Length>(pi * 0.1)), 0.1_m, 1e-14));
  CHECK(near(hydraulic_diameter(6_m2, 10_m), 2.4_m, 1e-14));  // duct 2 m by 3 m: 2ab/(a+b)
}

TEST_CASE("friction: bad input is refused by name") {
  CHECK(contains(message_of<InvalidInput>([] { friction_factor(0.0, 0.0); }), "Reynolds number"));
  CHECK(contains(message_of<InvalidInput>([] { friction_factor(1.01e8, 0.0); }), "Reynolds number"));
  CHECK(contains(message_of<InvalidInput>([] { friction_factor(not_a_number, 0.0); }), "Reynolds number"));
  CHECK(contains(message_of<InvalidInput>([] { friction_factor(1e5, 0.0501); }), "relative roughness"));
  CHECK(contains(message_of<InvalidInput>([] { friction_factor(1e5, -1e-9); }), "relative roughness"));
  CHECK(contains(message_of<InvalidInput>([] { reynolds_number(-1_m_s, 1_m, water); }), "velocity"));
  CHECK(contains(message_of<InvalidInput>([] { reynolds_number(1_m_s, 0_m, water); }), "hydraulic diameter"));
  CHECK(contains(message_of<InvalidInput>([] { reynolds_number(1_m_s, 1_m, 0_m2_s); }), "viscosity"));
  CHECK(contains(message_of<InvalidInput>([] { head_loss_friction(-1_gph, 1_in, 1_m, 0_m, water); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { head_loss_friction(1_gph, 0_in, 1_m, 0_m, water); }), "bore"));
  CHECK(contains(message_of<InvalidInput>([] { head_loss_friction(1_gph, 1_in, -1_m, 0_m, water); }), "length"));
  CHECK(contains(message_of<InvalidInput>([] { head_loss_friction(1_gph, 1_in, 1_m, 0.06_in, water); }), "roughness"));
  CHECK(contains(message_of<InvalidInput>([] { head_loss_friction(1e4_m3_s, 1_in, 1_m, 0_m, water); }), "Reynolds"));
  CHECK(contains(message_of<InvalidInput>([] { hydraulic_diameter(0_m2, 1_m); }), "flow area"));
  // 1 m2 cannot be enclosed by less than 3.54 m.
  CHECK(contains(message_of<InvalidInput>([] { hydraulic_diameter(1_m2, 3.5_m); }), "wetted perimeter"));
}
