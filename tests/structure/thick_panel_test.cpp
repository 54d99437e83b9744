// Thick panels: Mindlin's theory against Navier's series, its thin limit, equilibrium, and what is refused.
#include "theca/structure/thick_panel.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "support/near.hpp"
#include "theca/error.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using test::contains;
using test::message_of;
using test::near;
using test::within;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double infinite = std::numeric_limits<double>::infinity();

Panel block(double width, double height, double thickness) {
  Panel p;
  p.width = width * units::metre;
  p.height = height * units::metre;
  p.thickness = thickness * units::metre;
  p.material.youngs_modulus = 3.2_GPa;
  p.material.poisson_ratio = 0.3;
  p.bottom = p.left = p.right = p.top = hinged();
  return p;
}

PanelLoad pushed(const Pressure& pressure) {
  PanelLoad l;
  l.pressure = uniform(pressure);
  return l;
}

}  // namespace

TEST_CASE("square, hard simple supports, uniform load, h / a = 0.1: w D / (q a^4) = 0.00427 [Mindlin's theory]") {
  const Panel p = block(1.0, 1.0, 0.1);
  const BentThickPanel b = bend_thick(p, pushed(1_kPa));
  CHECK(within(si(b.max_deflection) * si(flexural_rigidity(p)) / 1000.0, 0.004273, 1e-6));  // 0.00427 in handbooks
  CHECK(within(si(b.at(0.5_m, 0.5_m).moment_x) / 1000.0, 0.04789, 1e-5));
}

TEST_CASE(
    "hard simple supports, water below the top: everything at a place [Navier's double series for Mindlin's plate]") {
  for (const double t : {0.002, 0.02, 0.1, 0.16}) {
    CAPTURE(t);
    const double a = 0.7, bb = 0.5, h = 0.42, nu = 0.3, x = 0.26, y = 0.19;
    const Panel p = block(a, bb, t);
    PanelLoad load;
    load.pressure = hydrostatic(h * units::metre, 1023_kg_m3);
    const double q0 = si(load.pressure.at_bottom), d = si(flexural_rigidity(p));
    const double shear = 5.0 / 6.0 * 3.2e9 / 2.6 * t;
    double w = 0.0, mx = 0.0, my = 0.0, mxy = 0.0, qx = 0.0, qy = 0.0;
    for (int m = 1; m < 600; m += 2)
      for (int n = 1; n < 600; ++n) {
        const double kx = m * pi / a, ky = n * pi / bb, k2 = kx * kx + ky * ky;
        const double q = 8.0 / (a * bb * kx) * q0 * (1.0 / ky - std::sin(ky * h) / (ky * ky * h));
        const double s = std::sin(kx * x) * std::sin(ky * y);
        w += q / (d * k2 * k2) * (1.0 + d * k2 / shear) * s;
        mx += q / (k2 * k2) * (kx * kx + nu * ky * ky) * s;
        my += q / (k2 * k2) * (ky * ky + nu * kx * kx) * s;
        mxy -= (1.0 - nu) * q / (k2 * k2) * kx * ky * std::cos(kx * x) * std::cos(ky * y);
        qx += q / k2 * kx * std::cos(kx * x) * std::sin(ky * y);
        qy += q / k2 * ky * std::sin(kx * x) * std::cos(ky * y);
      }
    const BentThickPanel b = bend_thick(p, load, SimpleSupport::hard, 14);
    const PanelState s = b.at(x * units::metre, y * units::metre);
    const double size = si(b.max_tension) * t * t / 6.0;
    CHECK(near(si(s.deflection), w, 1e-4));
    CHECK(within(si(s.moment_x), mx, 1e-3 * size));
    CHECK(within(si(s.moment_y), my, 1e-3 * size));
    CHECK(within(si(s.moment_xy), mxy, 1e-3 * size));
    if (t < 0.01) continue;  // shear is then the small difference of slope and tilt
    CHECK(within(si(s.shear_x), qx, 0.01 * q0 * bb));
    CHECK(within(si(s.shear_y), qy, 0.01 * q0 * bb));
  }
}

TEST_CASE(
    "hard simple supports, small patches: everything under and around them [Navier's series for Mindlin's plate]") {
  // From the middle to an edge and into a corner; a patch narrower than an ideal point's square counts as that wide.
  // 1e-3 of the largest: the series cut at 1500 has lost 2e-4, degree 12 the rest.
  struct Patch {
    double x, y, width, height;
  };
  for (const double t : {0.02, 0.1})
    for (const Patch& c : {Patch{0.3, 0.2, 0.02, 0.02}, Patch{0.35, 0.47, 0.02, 0.02}, Patch{0.68, 0.48, 0.02, 0.03}})
      for (const double off : {0.0, 1.0}) {
        CAPTURE(t);
        CAPTURE(c.y);
        CAPTURE(off);
        const double a = 0.7, bb = 0.5, nu = 0.3;
        const Panel p = block(a, bb, t);
        PanelLoad load;
        load.patches = {
            {c.x * units::metre, c.y * units::metre, c.width * units::metre, c.height * units::metre, 100_N}};
        const BentThickPanel b = bend_thick(p, load);
        const double half =
            std::max(0.5 * c.width, 0.5 * si(contact_patch({0.5 * p.width, 0.5 * p.height, 1_N, 0_mm}, p).width));
        const double half_y = std::max(0.5 * c.height, half);
        const double x = c.x - off * 3.0 * c.width, y = c.y - off * 2.0 * c.height;
        const double d = si(flexural_rigidity(p)), shear = 5.0 / 6.0 * 3.2e9 / 2.6 * t;
        double w = 0.0, mx = 0.0, my = 0.0, mxy = 0.0;
        for (int m = 1; m < 1500; ++m) {
          const double kx = m * pi / a;
          const double along = 400.0 / (a * bb) * std::sin(kx * c.x) * std::sin(kx * half) / (kx * half);
          const double sine = std::sin(kx * x), cosine = std::cos(kx * x);
          for (int n = 1; n < 1500; ++n) {
            const double ky = n * pi / bb, k2 = kx * kx + ky * ky;
            const double q = along * std::sin(ky * c.y) * std::sin(ky * half_y) / (ky * half_y) / (k2 * k2);
            const double s = sine * std::sin(ky * y);
            w += q / d * (1.0 + d * k2 / shear) * s;
            mx += q * (kx * kx + nu * ky * ky) * s;
            my += q * (ky * ky + nu * kx * kx) * s;
            mxy -= (1.0 - nu) * q * kx * ky * cosine * std::cos(ky * y);
          }
        }
        const PanelState s = b.at(x * units::metre, y * units::metre);
        const double size = si(b.max_tension) * t * t / 6.0;
        CHECK(within(si(s.deflection), w, 1e-3 * si(b.max_deflection)));
        CHECK(within(si(s.moment_x), mx, 1e-3 * size));
        CHECK(within(si(s.moment_y), my, 1e-3 * size));
        CHECK(within(si(s.moment_xy), mxy, 1e-3 * size));
        CHECK(b.equilibrium_residual < 1e-9);
      }
}

TEST_CASE(
    "a cantilever strip sags by bending and by shear [q L^4 / (8 E I) + q L^2 / (2 kappa G t), beam of Timoshenko]") {
  Panel p = block(0.4, 0.6, 0.12);
  p.material.poisson_ratio = 0.0;
  p.left = p.right = p.top = free_edge();
  p.bottom = clamped();
  const BentThickPanel b = bend_thick(p, pushed(1_kPa));
  const double l2 = 0.36, e = 3.2e9, t = 0.12;
  CHECK(near(si(b.max_deflection),
             1000.0 * l2 * l2 / (8.0 * e * t * t * t / 12.0) + 1000.0 * l2 / (2.0 * 5.0 / 6.0 * e / 2.0 * t), 1e-8));
  CHECK(near(si(b.at(0.2_m, 0_m).shear_y), 600.0, 1e-5));
  CHECK(near(si(b.at(0.2_m, 0_m).moment_y), -180.0, 1e-6));
}

TEST_CASE("a thinner panel comes to the thin plate of Kirchhoff, for every kind of edge") {
  for (int kind = 0; kind < 4; ++kind) {
    CAPTURE(kind);
    Panel p = block(0.8, 0.5, 0.0015);
    p.top = free_edge();
    if (kind == 1) p.bottom = p.left = p.right = p.top = clamped();
    if (kind == 2) p.top = elastic(from_si<EdgeStiffness>(3e3), from_si<RotationalStiffness>(20.0));
    if (kind == 3) p.top = beam_edge(from_si<BeamStiffness>(20.0), from_si<BeamStiffness>(5.0));
    PanelLoad load;
    load.pressure = hydrostatic(0.4_m, 1023_kg_m3);
    load.patches = {{0.3_m, 0.5_m, 0.2_m, 0_m, 20_N}};
    const BentPanel thin = bend_under(p, load, 14);
    for (const SimpleSupport support : {SimpleSupport::hard, SimpleSupport::soft}) {
      // A soft support lets the end of a beam twist, which the slope along a held edge of a thin plate cannot.
      if (kind == 3 && support == SimpleSupport::soft) continue;
      const BentThickPanel thick = bend_thick(p, load, support, 14);
      CHECK(near(thick.max_deflection, thin.max_deflection, 5e-3));
      CHECK(thick.max_deflection > 0.999 * thin.max_deflection);
      CHECK(near(thick.max_tension, thin.max_tension, 2e-2));
    }
  }
}

TEST_CASE("thick panels: reactions balance the load; soft supports give way more than hard ones; shear adds sag") {
  for (const double t : {0.02, 0.1, 0.166}) {
    CAPTURE(t);
    Panel p = block(0.9, 0.5, t);
    p.top = elastic(from_si<EdgeStiffness>(2e6));
    p.left = clamped();
    PanelLoad load;
    load.pressure = hydrostatic(0.4_m, 1023_kg_m3);
    load.patches = {{0.3_m, 0.5_m, 0.2_m, 0_m, 200_N}};
    load.points = {{0.6_m, 0.3_m, -90_N, 5_mm}};
    const BentThickPanel hard = bend_thick(p, load, SimpleSupport::hard);
    const BentThickPanel soft = bend_thick(p, load, SimpleSupport::soft);
    CHECK(hard.equilibrium_residual < 1e-6);
    CHECK(soft.equilibrium_residual < 1e-6);
    CHECK(near(si(hard.total_load), 1023.0 * 9.80665 * 0.08 * 0.9 + 110.0, 1e-9));
    CHECK(soft.max_deflection > hard.max_deflection);
  }
  Panel p = block(0.5, 0.5, 0.045);
  CHECK(bend_thick(p, pushed(1_kPa)).max_deflection > bend(p, uniform(1_kPa)).max_deflection);
}

TEST_CASE("thick panels: what is refused") {
  CHECK_THROWS_AS(bend_thick(block(1.0, 0.5, 0.17), pushed(1_kPa)), OutOfValidity);
  CHECK_THROWS_AS(bend_thick(block(1.0, 0.5, 0.0004), pushed(1_kPa)), OutOfValidity);
  CHECK_THROWS_AS(bend_thick(block(11.0, 0.5, 0.05), pushed(1_kPa)), OutOfValidity);
  CHECK(contains(message_of<InvalidInput>([] { bend_thick(block(1.0, -0.5, 0.05), pushed(1_kPa)); }), "panel height"));
  CHECK(contains(
      message_of<InvalidInput>([] { bend_thick(block(1.0, 0.5, 0.05), pushed(1_kPa), SimpleSupport::hard, 17); }),
      "degree"));
  CHECK(contains(message_of<InvalidInput>([] {
                   PanelLoad l;
                   l.patches = {{1_m, 0.2_m, 0.1_m, 0_m, 1_N}};
                   bend_thick(block(1.0, 0.5, 0.05), l);
                 }),
                 "patch load x"));
  Panel p = block(1.0, 0.5, 0.05);
  p.left = p.right = p.top = free_edge();
  CHECK(contains(message_of<InvalidInput>([&] { bend_thick(p, pushed(1_kPa)); }), "panel edges"));
  const BentThickPanel b = bend_thick(block(1.0, 0.5, 0.05), pushed(0_Pa));
  CHECK(b.max_tension == Pressure());
  CHECK(contains(message_of<InvalidInput>([&] { b.at(infinite * units::metre, 0_m); }), "x"));
}
