#include "theca/structure/edge_on_brace.hpp"

#include <cmath>
#include <limits>

#include "support/near.hpp"
#include "theca/materials/glass.hpp"
#include "theca/structure/bend.hpp"

using namespace theca;
using namespace theca::structure;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

namespace {
BraceStrip strip() {
  return {.span = 2.4_m, .width = 60_mm, .thickness = 11.91_mm, .material = materials::float_glass()};
}
BentPanel wall(const Edge& top) {
  return bend(
      {.width = 2.4_m, .height = 0.4_m, .thickness = 11.91_mm, .material = materials::float_glass(), .top = top},
      hydrostatic(0.36_m, 1023.0_kg_m3), 18);
}
}  // namespace

TEST_CASE(
    "brace edge: half-sine load on a slender hinged strip integrates to q L4 / (pi4 E I) [beam equation, quadrature]") {
  // The beam equation E I w'' = -M with M = q (L/pi)^2 sin(pi x/L), integrated twice numerically from the left end;
  // the slope there is that of symmetry, zero at mid-span.
  const BraceStrip slender{.span = 10_m, .width = 20_mm, .thickness = 10_mm, .material = materials::float_glass()};
  const double E = si(slender.material.youngs_modulus), I = 0.01 * std::pow(0.02, 3) / 12.0, L = 10.0;
  constexpr double pi = 3.14159265358979323846;
  constexpr int n = 20000;
  const double dx = 0.5 * L / n;
  double slope = 0.0, middle = 0.0;  // from mid-span outwards, by the midpoint rule
  for (int i = 0; i < n; ++i) {
    const double x = 0.5 * L + (i + 0.5) * dx;
    const double curvature = (L / pi) * (L / pi) * std::sin(pi * x / L) / (E * I);
    middle += (slope + 0.5 * curvature * dx) * dx;
    slope += curvature * dx;
  }
  // Shear adds (pi w / L)^2 E / (12 k G) = 1e-5 here.
  CHECK(near(1.0 / si(edge_on_brace(slender).translation), middle, 3e-5));
}

TEST_CASE("brace edge: a braced wall lies between the rimless wall and one with a held top edge") {
  const BentPanel rimless = wall(free_edge()), braced = wall(edge_on_brace(strip())), held = wall(hinged());
  CHECK(braced.max_deflection < rimless.max_deflection);
  CHECK(braced.max_deflection > held.max_deflection);
  CHECK(braced.reactions.top > from_si<Force>(0.0));
  CHECK(braced.reactions.top < held.reactions.top);
}

TEST_CASE("brace edge: a strip of hardly any width holds nothing, an endlessly wide one holds the edge") {
  BraceStrip thread = strip(), shelf = strip();
  thread.width = 0.01_mm;
  thread.thickness = 0.01_mm;
  shelf.width = 1000_m;
  CHECK(near(wall(edge_on_brace(thread)).max_deflection, wall(free_edge()).max_deflection, 1e-6));
  CHECK(near(wall(edge_on_brace(shelf)).max_deflection, wall(hinged()).max_deflection, 1e-4));
}

TEST_CASE("brace edge: impossible strips are refused") {
  for (const double bad : {-1.0, 0.0, std::numeric_limits<double>::quiet_NaN()}) {
    BraceStrip s = strip();
    s.width = bad * units::metre;
    CHECK(contains(message_of<InvalidInput>([&] { edge_on_brace(s); }), "width of the brace"));
  }
  BraceStrip upright = strip();
  upright.width = 11_mm;
  CHECK(contains(message_of<InvalidInput>([&] { edge_on_brace(upright); }), "thickness of the brace"));
  BraceStrip s = strip();
  s.material.poisson_ratio = 0.6;
  CHECK(contains(message_of<InvalidInput>([&] { edge_on_brace(s); }), "Poisson ratio"));
}
