#include "theca/hydraulics/gyre.hpp"

#include <cmath>

#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
constexpr int most_jets = 1000000;

void validate(const GyreTank& tank) {
  require::positive("length", tank.length);
  require::positive("width", tank.width);
  require::positive("depth", tank.depth);
  require::within("friction coefficient", tank.friction_coefficient, 0.002, 0.05);
  require::within("turning K", tank.turning_K, 0.0, 20.0);
  require::not_negative("drag area", tank.drag_area);
}
// Force per dynamic pressure, in m2.
double resisting_area(const GyreTank& tank) {
  const double l = si(tank.length), w = si(tank.width), d = si(tank.depth);
  const double wet = l * w + 2.0 * d * (l + w);
  return tank.friction_coefficient * wet + tank.turning_K * 0.5 * w * d + si(tank.drag_area);
}
}  // namespace

Velocity gyre_speed(const GyreTank& tank, const Jet& jet, int jets) {
  validate(tank);
  require::that(jets >= 1 && jets <= most_jets, "jets", static_cast<double>(jets), "1 to 1000000");
  const double u0 = si(outlet_velocity(jet)), q = jets * si(jet.flow), b = resisting_area(tank);
  if (q == 0.0) return Velocity();
  // The positive root of b U^2/2 + q U - q u0 = 0 in the form that does not cancel.
  return from_si<Velocity>(2.0 * q * u0 / (q + std::sqrt(q * q + 2.0 * b * q * u0)));
}

int jets_for_gyre_speed(const GyreTank& tank, const Jet& jet, const Velocity& speed) {
  validate(tank);
  require::positive("speed", speed);
  require::positive("flow", jet.flow);
  const double u0 = si(outlet_velocity(jet)), u = si(speed);
  if (!(u < u0))
    throw OutOfValidity("gyre speed",
                        "speed = " + text(speed) + "; it must be below the jet's, " + text(outlet_velocity(jet)));
  const double jets = std::ceil(0.5 * resisting_area(tank) * u * u / (si(jet.flow) * (u0 - u)) * (1.0 - 1e-12));
  if (!(jets <= most_jets)) throw OutOfValidity("gyre speed", "it would take more than 1000000 jets");
  return jets < 1.0 ? 1 : static_cast<int>(jets);
}

}  // namespace theca::hydraulics
