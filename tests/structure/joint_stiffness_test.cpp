// Springs of an adhesive bead against the known limits of bonded rubber strips.
#include "theca/structure/joint_stiffness.hpp"

#include <cmath>
#include <limits>
#include <vector>

#include "support/near.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

namespace {
AdhesiveBead bead(double thickness_mm, double bite_mm, double nu) {
  return {.thickness = thickness_mm * units::millimetre,
          .bite = bite_mm * units::millimetre,
          .youngs_modulus = 1.5_MPa,
          .poisson_ratio = nu};
}

/// Moments of the pressure in the bead by finite differences of p'' = 12 G (p / K - e(x)) / t^2.
double pressure_modulus(double S, double G_over_K, bool tilt) {
  const int n = 4001;  // points over x in -1 .. 1 of half bites; thickness is 1 / S half bites
  const double h = 2.0 / (n - 1);
  std::vector<double> c(n, 0.0), p(n, 0.0);
  const double a = 12.0 * S * S;  // G = 1
  for (int i = 1; i + 1 < n; ++i) {
    const double x = -1.0 + i * h;
    const double diagonal = -2.0 - h * h * a * G_over_K;
    const double right = -h * h * a * (tilt ? x : 1.0);
    const auto at = static_cast<std::size_t>(i);
    const double m = diagonal - c[at - 1];
    c[at] = 1.0 / m;
    p[at] = (right - p[at - 1]) / m;
  }
  for (int i = n - 2; i > 0; --i) {
    const auto at = static_cast<std::size_t>(i);
    p[at] -= c[at] * p[at + 1];
  }
  double sum = 0.0;
  for (int i = 0; i < n; ++i) sum += p[static_cast<std::size_t>(i)] * (tilt ? -1.0 + i * h : 1.0) * h;
  return tilt ? sum * 1.5 : sum * 0.5;
}
}  // namespace

TEST_CASE("An incompressible strip has the modulus 4/3 E (1 + S^2) [Gent & Lindley 1959]") {
  for (const double bite : {6.0, 12.0, 40.0}) {
    const JointStiffness k = joint_stiffness(bead(2.0, bite, 0.5));
    const double S = bite / 4.0;
    CHECK(near(k.shape_factor, S, 1e-14));
    CHECK(near(k.normal_modulus, 4.0 / 3.0 * (1.0 + S * S) * 1.5_MPa, 1e-12));
    CHECK(near(k.normal.value(), 4.0 / 3.0 * (1.0 + S * S) * 1.5e6 * bite / 2.0, 1e-12));
    CHECK(near(k.rotation.value(), 4.0 / 3.0 * (1.0 + S * S / 5.0) * 1.5e6 * std::pow(bite * 1e-3, 3) / (12.0 * 2e-3),
               1e-12));
    CHECK(near(k.shear_along.value(), 0.5e6 * bite / 2.0, 1e-12));
  }
}

TEST_CASE("A compressible bead follows the pressure equation [finite differences]") {
  for (const double nu : {0.45, 0.49, 0.499, 0.4999999}) {
    for (const double S : {0.5, 2.0, 10.0, 50.0}) {
      CAPTURE(nu);
      CAPTURE(S);
      const double G = 1.5e6 / (2.0 * (1.0 + nu));
      const double G_over_K = 1.5 * (1.0 - 2.0 * nu) / (1.0 + nu);
      const JointStiffness k = joint_stiffness(bead(1.0, 2.0 * S, nu));
      const double normal = pressure_modulus(S, G_over_K, false);
      const double tilt = pressure_modulus(S, G_over_K, true);
      // The share of the shape change is 4 G less 8/3 G of the volume's share: written out apart from the closed forms.
      CHECK(near(k.normal_modulus.value() / G, normal + 4.0 - 8.0 / 3.0 * normal * G_over_K, 1e-4));
      CHECK(near(k.rotation_modulus.value() / G, tilt + 4.0 - 8.0 / 3.0 * tilt * G_over_K, 1e-4));
    }
  }
}

TEST_CASE("A wide compressible bead tends to the constrained modulus K + 4/3 G [elasticity]") {
  const double nu = 0.45;
  const double E = 1.5e6;
  const double constrained = E * (1.0 - nu) / ((1.0 + nu) * (1.0 - 2.0 * nu));
  // tanh(b)/b = 0.5 % remains at 200 thicknesses
  CHECK(near(joint_stiffness(bead(1.0, 200.0, nu)).normal_modulus.value(), constrained, 0.01));
}

TEST_CASE("A narrow bead is a rod in plane strain, E / (1 - nu^2) [elasticity]") {
  CHECK(near(joint_stiffness(bead(2.0, 1.0, 0.499)).rotation_modulus.value(), 1.5e6 / (1.0 - 0.499 * 0.499), 0.02));
}

TEST_CASE("Edges of a panel on a bead take the springs of the bead") {
  const AdhesiveBead b = adhesive_bead(2_mm, 12_mm, materials::silicone_adhesive());
  const JointStiffness k = joint_stiffness(b);
  CHECK(edge_on_bead_normal(b) == elastic(k.normal, k.rotation));
  CHECK(edge_on_bead_across(b) == elastic(k.shear_across, k.rotation));
  CHECK(k.normal > k.shear_across);
}

TEST_CASE("Peel adds the bending of the bead to its mean tension") {
  const auto pull = from_si<LineLoad>(1200.0);
  const auto moment = from_si<MomentPerLength>(2.4);
  CHECK(near(peel_stress(pull, moment, 12_mm).value(), 1e5 + 6.0 * 2.4 / 144e-6, 1e-12));
  CHECK(near(peel_stress(pull, -moment, 12_mm), peel_stress(pull, moment, 12_mm), 1e-15));
  CHECK(peel_stress(-pull, from_si<MomentPerLength>(0.0), 12_mm).value() == 0.0);
}

TEST_CASE("A bead that cannot be is refused by name") {
  CHECK(contains(message_of<InvalidInput>([] { joint_stiffness(bead(0.0, 12.0, 0.49)); }), "bead thickness"));
  CHECK(contains(message_of<InvalidInput>([] { joint_stiffness(bead(2.0, -1.0, 0.49)); }), "bead bite"));
  CHECK(contains(message_of<InvalidInput>([] { joint_stiffness(bead(2.0, 12.0, 0.6)); }), "Poisson"));
  CHECK(contains(message_of<OutOfValidity>([] { joint_stiffness(bead(2.0, 12.0, 0.3)); }), "Poisson"));
  CHECK(contains(message_of<OutOfValidity>([] { joint_stiffness(bead(2.0, 0.5, 0.49)); }), "bite over thickness"));
  AdhesiveBead soft = bead(2.0, 12.0, 0.49);
  soft.youngs_modulus = from_si<Pressure>(std::numeric_limits<double>::quiet_NaN());
  CHECK(contains(message_of<InvalidInput>([&] { joint_stiffness(soft); }), "adhesive modulus"));
  CHECK(contains(message_of<InvalidInput>([] {
                   peel_stress(from_si<LineLoad>(std::numeric_limits<double>::infinity()),
                               from_si<MomentPerLength>(0.0), 12_mm);
                 }),
                 "pull"));
  CHECK(contains(
      message_of<InvalidInput>([] { peel_stress(from_si<LineLoad>(1.0), from_si<MomentPerLength>(NAN), 12_mm); }),
      "moment"));
  CHECK(contains(
      message_of<InvalidInput>([] { peel_stress(from_si<LineLoad>(1.0), from_si<MomentPerLength>(0.0), 0_mm); }),
      "bite"));
}
