#include "theca/structure/overturning.hpp"

#include <cmath>
#include <limits>

#include "theca/require.hpp"

namespace theca::structure {

Stability stability(const Standing& standing, const Force& shear, const Moment& overturning) {
  require::positive("weight", standing.weight);
  require::positive("base", standing.base);
  require::not_negative("off centre", standing.off_centre);
  require::that(2.0 * si(standing.off_centre) < si(standing.base), "off centre", standing.off_centre,
                "under half of the base");
  require::positive("friction", standing.friction);
  require::within("friction", standing.friction, 0.0, 1.5);
  require::that(standing.uplift >= 0.0 && standing.uplift < 1.0, "uplift", standing.uplift, ">= 0 and < 1");
  require::not_negative("shear", shear);
  require::not_negative("overturning moment", overturning);
  const double down = (1.0 - standing.uplift) * si(standing.weight);
  const double friction = standing.friction * down;
  const double righting = down * (0.5 * si(standing.base) - si(standing.off_centre));
  const double most = std::numeric_limits<double>::max();
  return {si(shear) > 0.0 ? friction / si(shear) : most, si(overturning) > 0.0 ? righting / si(overturning) : most,
          from_si<Force>(friction), from_si<Moment>(righting)};
}

Racking racking(const StandFrame& f, const Force& weight, const Force& push) {
  require::that(f.legs >= 1, "legs", f.legs, ">= 1");
  require::positive("leg height", f.height);
  require::positive("Young's modulus", f.youngs_modulus);
  require::not_negative("weight", weight);
  require::not_negative("push", push);
  const double h = si(f.height), e = si(f.youngs_modulus);
  double stiffness = 0.0, cosine = 1.0;
  if (f.diagonals) {
    require::that(f.diagonal_count >= 1, "diagonals", f.diagonal_count, ">= 1");
    require::positive("bay", f.bay);
    require::positive("diagonal area", f.diagonal_area);
    const double length = std::hypot(h, si(f.bay));
    cosine = si(f.bay) / length;
    stiffness = f.diagonal_count * e * si(f.diagonal_area) * cosine * cosine / length;
  } else {
    require::positive("leg second moment", f.second_moment);
    stiffness = f.legs * 3.0 * e * si(f.second_moment) / (h * h * h);
  }
  const double share = si(weight) / (stiffness * h);
  require::valid("sway of a stand under load", "weight over K h", share, 0.0, 0.999);
  const double amplified = 1.0 / (1.0 - share);
  const double force = si(push) * amplified;
  return {from_si<Length>(force / stiffness), f.diagonals ? Moment() : from_si<Moment>(force * h / f.legs),
          f.diagonals ? from_si<Force>(force / (f.diagonal_count * cosine)) : Force(), amplified};
}

}  // namespace theca::structure
