// Large deflection of a panel: limits, symmetries, equilibrium, and what is refused.
#include "theca/structure/large_deflection.hpp"

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

namespace {

Panel wall() {
  Panel p;
  p.width = 1.2_m;
  p.height = 500_mm;
  p.thickness = 4_mm;
  p.material.youngs_modulus = 70_GPa;
  p.material.poisson_ratio = 0.22;
  return p;
}
const PressureLoad water = hydrostatic(300_mm, 1023_kg_m3);

}  // namespace

TEST_CASE("a vanishing load gives the linear answer: deflection, stress and reactions") {
  for (const InPlane condition : {InPlane::slides, InPlane::straight, InPlane::held_across, InPlane::held}) {
    CAPTURE(static_cast<int>(condition));
    Panel p = wall();
    p.left = elastic(1e5 * units::pascal, 40.0 * units::newton_per_radian);
    p.bottom = clamped();
    const PressureLoad breath = uniform(from_si<Pressure>(1e-4));
    const BentPanel linear = bend(p, breath, 10);
    const StretchedPanel bent = bend_large(p, breath, supported_edges(p, condition));
    CHECK(near(bent.max_deflection, linear.max_deflection, 1e-8));
    CHECK(near(bent.max_tension, linear.max_tension, 1e-4));  // membrane stress is there, only small
    CHECK(near(bent.at(400_mm, 250_mm).moment_y, linear.at(400_mm, 250_mm).moment_y, 1e-7));
    CHECK(near(bent.at(400_mm, 250_mm).moment_xy, linear.at(400_mm, 250_mm).moment_xy, 1e-7));
    CHECK(near(bent.reactions.left, linear.reactions.left, 1e-7));
    CHECK(near(bent.reactions.bottom_right, linear.reactions.bottom_right, 1e-6));
  }
}

TEST_CASE("reactions balance the load at every in-plane condition, elastic edges too") {
  for (const InPlane condition : {InPlane::slides, InPlane::straight, InPlane::held_across, InPlane::held}) {
    CAPTURE(static_cast<int>(condition));
    Panel p = wall();
    p.right = elastic(2e4 * units::pascal, 300.0 * units::newton_per_radian);
    const StretchedPanel bent = bend_large(p, water, supported_edges(p, condition), 8);
    CHECK(bent.equilibrium_residual < 1e-6);
    CHECK(bent.residual < 1e-8);
    CHECK(bent.deflection_over_thickness > 1.0);
  }
}

TEST_CASE("holding edges in the plane stiffens: both limits side by side, linear answer above both") {
  const StretchedLimits both = bend_large_limits(wall(), water);
  CHECK(both.held.max_deflection < 0.7 * both.slides.max_deflection);
  CHECK(both.slides.max_deflection < both.slides.linear_deflection);
}

TEST_CASE("ratios to the linear answer: of `bend` on the same panel, one for a breath, falling as the load grows") {
  for (const InPlane condition : {InPlane::slides, InPlane::held}) {
    CAPTURE(static_cast<int>(condition));
    const InPlaneEdges edges = supported_edges(wall(), condition);
    double last = 1.0 + 1e-6;  // one to the digits of degree 10
    for (const double pressure : {1e-4, 200.0, 500.0, 1000.0, 2000.0}) {
      CAPTURE(pressure);
      const PressureLoad load = uniform(from_si<Pressure>(pressure));
      const StretchedPanel bent = bend_large(wall(), load, edges);
      const BentPanel linear = bend(wall(), load);
      CHECK(near(bent.deflection_ratio, bent.max_deflection / linear.max_deflection, 1e-9));
      CHECK(near(bent.tension_ratio, bent.max_tension / linear.max_tension, 1e-9));
      CHECK(bent.deflection_ratio < last);
      last = bent.deflection_ratio;
      if (pressure == 1e-4) CHECK(near(bent.deflection_ratio, 1.0, 1e-4));
      if (pressure == 1e-4) CHECK(near(bent.tension_ratio, 1.0, 1e-3));
    }
  }
}

TEST_CASE("membrane forces vanish across an edge that slides, and their total across one that stays straight") {
  Panel p = wall();
  p.top = hinged();
  const StretchedPanel slides = bend_large(p, uniform(2_kPa), InPlaneEdges(), 14);
  const double most = std::abs(si(slides.at(600_mm, 250_mm).membrane_y));
  CHECK(std::abs(si(slides.at(600_mm, 500_mm).membrane_y)) < 0.02 * most);
  const StretchedPanel straight = bend_large(p, uniform(2_kPa), supported_edges(p, InPlane::straight), 14);
  double total = 0.0, size = 0.0;
  for (int i = 0; i < 400; ++i) {
    const double n = si(straight.at((i + 0.5) / 400.0 * p.width, p.height).membrane_y);
    total += n;
    size += std::abs(n);
  }
  CHECK(std::abs(total) < 0.02 * size);
  CHECK(size / 400.0 > 0.1 * most);
}

TEST_CASE("the parity shortcut does not change the answer") {
  Panel p = wall();
  p.top = hinged();
  p.left = p.right = elastic(1e5 * units::pascal, 40.0 * units::newton_per_radian);
  const PressureLoad load = uniform(2_kPa);
  const StretchedPanel even = bend_large(p, load, InPlaneEdges(), 8);
  p.right = elastic(1e5 * (1.0 + 1e-13) * units::pascal, 40.0 * units::newton_per_radian);
  p.bottom = elastic(p.top.translation, from_si<RotationalStiffness>(1e-9));
  const StretchedPanel odd = bend_large(p, load, InPlaneEdges(), 8);
  CHECK(near(odd.max_deflection, even.max_deflection, 1e-7));
  CHECK(near(odd.max_tension, even.max_tension, 1e-5));
  CHECK(near(odd.at(300_mm, 100_mm).membrane_x, even.at(300_mm, 100_mm).membrane_x, 1e-5));
  CHECK(near(odd.reactions.bottom, even.reactions.bottom, 1e-6));
  CHECK(near(odd.reactions.top_left, even.reactions.top_left, 1e-5));
}

TEST_CASE("similar panels: deflection / thickness depends on load x side^4 / (E thickness^4) only") {
  Panel p = wall();
  const StretchedPanel one = bend_large(p, uniform(1_kPa), supported_edges(p, InPlane::held));
  p.thickness = 2.0 * p.thickness;
  const StretchedPanel two = bend_large(p, uniform(16_kPa), supported_edges(p, InPlane::held));
  CHECK(near(two.deflection_over_thickness, one.deflection_over_thickness, 1e-9));
  CHECK(near(two.max_tension, 4.0 * one.max_tension, 1e-6));
}

TEST_CASE("push and pull mirror one another; the peak is nowhere exceeded") {
  const InPlaneEdges held = supported_edges(wall(), InPlane::held);
  const StretchedPanel push = bend_large(wall(), uniform(1_kPa), held);
  const StretchedPanel pull = bend_large(wall(), uniform(-1_kPa), held);
  CHECK(near(pull.max_tension, push.max_tension, 1e-9));
  CHECK(push.max_tension_on_far_face != pull.max_tension_on_far_face);
  CHECK(near(push.at(600_mm, 200_mm).membrane_x, pull.at(600_mm, 200_mm).membrane_x, 1e-8));
  for (int i = 0; i <= 40; ++i)
    for (int j = 0; j <= 40; ++j) {
      const StretchedState s = push.at(i / 40.0 * push.panel.width, j / 40.0 * push.panel.height);
      CHECK(s.far_face.principal_max <= push.max_tension * (1.0 + 1e-6));
      CHECK(s.loaded_face.principal_max <= push.max_tension * (1.0 + 1e-6));
    }
}

TEST_CASE("no load: everything is zero and nothing is NaN") {
  const StretchedPanel b = bend_large(wall(), uniform(0_Pa), InPlaneEdges());
  CHECK(b.max_deflection == Length());
  CHECK(b.max_tension == Pressure());
  CHECK(b.deflection_ratio == 1.0);
  CHECK(b.at(600_mm, 200_mm).membrane_x == LineLoad());
}

TEST_CASE("what is refused names the argument") {
  const InPlaneEdges slides;
  CHECK(contains(message_of<InvalidInput>([&] { bend_large(wall(), water, slides, 3); }), "degree"));
  CHECK(contains(message_of<InvalidInput>([&] { bend_large(wall(), water, slides, 17); }), "degree"));
  Panel p = wall();
  p.width = from_si<Length>(std::numeric_limits<double>::quiet_NaN());
  CHECK(contains(message_of<InvalidInput>([&] { bend_large(p, water, slides); }), "width"));
  InPlaneEdges top;
  top.top = InPlane::held;  // free across the panel
  CHECK(contains(message_of<InvalidInput>([&] { bend_large(wall(), water, top); }), "top edge"));
  Panel beamed = wall();
  beamed.top = beam_edge(from_si<BeamStiffness>(100.0));
  CHECK(contains(message_of<InvalidInput>([&] { bend_large(beamed, water, slides); }), "top edge beam"));
  const StretchedPanel b = bend_large(wall(), water, slides, 6);
  CHECK(contains(message_of<InvalidInput>([&] { b.at(2_m, 100_mm); }), "x"));
  CHECK(contains(message_of<InvalidInput>([&] { b.at(1_m, from_si<Length>(-0.1)); }), "y"));
  p = wall();
  p.thickness = 0.2_mm;
  CHECK(contains(message_of<OutOfValidity>([&] { bend_large(p, uniform(1_kPa), supported_edges(p, InPlane::held)); }),
                 "deflection / thickness"));
  p = wall();
  p.material.youngs_modulus = 0.02_GPa;
  CHECK(contains(message_of<OutOfValidity>([&] { bend_large(p, uniform(1_kPa), slides); }), "slope"));
}
