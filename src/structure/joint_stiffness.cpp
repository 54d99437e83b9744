#include "theca/structure/joint_stiffness.hpp"

#include <cmath>

#include "theca/require.hpp"

namespace theca::structure {
namespace {

/// How far a bead is from incompressible: shares of the bulk modulus that its volume change takes up.
struct Confinement {
  double normal = 0.0;  // 1 - tanh(b) / b
  double tilt = 0.0;    // 1 - 3 coth(b) / b + 3 / b^2
};

/// @param beta  half bite x sqrt(12 G / K) / thickness
Confinement confinement(double beta) {
  const double b2 = beta * beta;
  // Series below: the closed forms lose all digits as beta goes to 0. Error under 1e-9 at the switch.
  if (beta < 0.05) return {b2 / 3.0 - 2.0 / 15.0 * b2 * b2, b2 / 15.0 - 2.0 / 315.0 * b2 * b2};
  return {1.0 - std::tanh(beta) / beta, 1.0 - 3.0 / (std::tanh(beta) * beta) + 3.0 / b2};
}

void require_possible(const AdhesiveBead& bead) {
  require::positive("bead thickness", bead.thickness);
  require::positive("bead bite", bead.bite);
  require::positive("adhesive modulus", bead.youngs_modulus);
  require::that(bead.poisson_ratio <= 0.5, "adhesive Poisson's ratio", bead.poisson_ratio, "0.45 to 0.5");
  require::valid("joint stiffness of a rubbery bead", "adhesive Poisson's ratio", bead.poisson_ratio, 0.45, 0.5);
  require::valid("joint stiffness of a rubbery bead", "bite over thickness", si(bead.bite) / si(bead.thickness), 0.5,
                 200.0);
}

}  // namespace

AdhesiveBead adhesive_bead(const Length& thickness, const Length& bite, const materials::Material& adhesive) {
  const AdhesiveBead bead{.thickness = thickness,
                          .bite = bite,
                          .youngs_modulus = adhesive.youngs_modulus,
                          .poisson_ratio = adhesive.poisson_ratio};
  require_possible(bead);
  return bead;
}

JointStiffness joint_stiffness(const AdhesiveBead& bead) {
  require_possible(bead);
  const double t = si(bead.thickness);
  const double b = si(bead.bite);
  const double G = si(bead.youngs_modulus) / (2.0 * (1.0 + bead.poisson_ratio));
  const double S = b / (2.0 * t);
  const double G_over_K = 1.5 * (1.0 - 2.0 * bead.poisson_ratio) / (1.0 + bead.poisson_ratio);
  const Confinement share = confinement(S * std::sqrt(12.0 * G_over_K));

  // Pressure part K x share; as K goes to infinity it tends to 4 G S^2 and 4/5 G S^2.
  const bool incompressible = G_over_K < 1e-12;
  const double normal_pressure = incompressible ? 4.0 * G * S * S : G / G_over_K * share.normal;
  const double tilt_pressure = incompressible ? 0.8 * G * S * S : G / G_over_K * share.tilt;
  // Shape change: 4 G where the bead spreads sideways freely, 4/3 G where volume change spares it from spreading.
  const auto shear_part = [G](double volume_share) { return 4.0 * G - 8.0 / 3.0 * G * volume_share; };
  const double normal = normal_pressure + shear_part(share.normal);
  const double tilt = tilt_pressure + shear_part(share.tilt);

  return {.normal = from_si<EdgeStiffness>(normal * b / t),
          .shear_along = from_si<EdgeStiffness>(G * b / t),
          .shear_across = from_si<EdgeStiffness>(G * b / t),
          .rotation = from_si<RotationalStiffness>(tilt * b * b * b / (12.0 * t)),
          .shape_factor = S,
          .normal_modulus = from_si<Pressure>(normal),
          .rotation_modulus = from_si<Pressure>(tilt)};
}

Edge edge_on_bead_normal(const AdhesiveBead& bead) {
  const JointStiffness k = joint_stiffness(bead);
  return elastic(k.normal, k.rotation);
}

Edge edge_on_bead_across(const AdhesiveBead& bead) {
  const JointStiffness k = joint_stiffness(bead);
  return elastic(k.shear_across, k.rotation);
}

Pressure peel_stress(const LineLoad& pull, const MomentPerLength& moment, const Length& bite) {
  require::finite("pull", pull);
  require::finite("peeling moment", moment);
  require::positive("bite", bite);
  const double b = si(bite);
  return from_si<Pressure>(std::fmax(0.0, si(pull) / b + 6.0 * std::fabs(si(moment)) / (b * b)));
}

}  // namespace theca::structure
