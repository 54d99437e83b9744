#include "theca/structure/column.hpp"

#include <algorithm>
#include <cmath>

#include "theca/require.hpp"

namespace theca::structure {
namespace {
constexpr double pi = 3.14159265358979323846;

struct Plain {
  double euler, squash;
};
Plain plain(const Column& c) {
  require::positive("effective length", c.effective_length);
  require::positive("Young's modulus", c.youngs_modulus);
  require::positive("strength", c.strength);
  require::positive("section area", c.section.area);
  require::positive("second moment of area", c.section.second_moment);
  const double l = si(c.effective_length);
  return {pi * pi * si(c.youngs_modulus) * si(c.section.second_moment) / (l * l), si(c.strength) * si(c.section.area)};
}

/// Perry's form of EN 1993 and EN 1995: lower root of (1 - x)(1 - x s^2) = imperfection x.
double perry(double slenderness, double imperfection) {
  const double phi = 0.5 * (1.0 + imperfection + slenderness * slenderness);
  return std::min(1.0, 1.0 / (phi + std::sqrt(phi * phi - slenderness * slenderness)));
}
}  // namespace

Force euler_load(const Column& column) { return from_si<Force>(plain(column).euler); }

Force johnson_load(const Column& column) {
  const Plain p = plain(column);
  return from_si<Force>(p.euler <= 0.5 * p.squash ? p.euler : p.squash * (1.0 - 0.25 * p.squash / p.euler));
}

Force secant_load(const Column& column, const Length& eccentricity) {
  const Plain p = plain(column);
  require::not_negative("eccentricity", eccentricity);
  require::positive("section modulus", column.section.section_modulus);
  const double offset = si(eccentricity) * si(column.section.area) / si(column.section.section_modulus);
  double low = 0.0, high = std::min(p.euler, p.squash);
  constexpr int most = 200;
  int i = 0;
  for (; i < most && high - low > 1e-13 * high; ++i) {
    const double load = 0.5 * (low + high);
    const double stress = load * (1.0 + offset / std::cos(0.5 * pi * std::sqrt(load / p.euler)));
    (stress > p.squash ? high : low) = load;
  }
  if (i == most) throw NotConverged("secant formula", (high - low) / high, i);
  return from_si<Force>(low);
}

Force steel_buckling_load(const Column& column, BucklingCurve curve) {
  const Plain p = plain(column);
  const double alpha[] = {0.13, 0.21, 0.34, 0.49, 0.76};
  const double s = std::sqrt(p.squash / p.euler);
  const double imperfection = alpha[static_cast<int>(curve)] * (s - 0.2);
  return from_si<Force>(p.squash * (s <= 0.2 ? 1.0 : perry(s, imperfection)));
}

Force timber_buckling_load(const Column& column, double straightness) {
  const Plain p = plain(column);
  require::within("straightness", straightness, 0.0, 0.5);
  const double s = std::sqrt(p.squash / p.euler);
  return from_si<Force>(p.squash * (s <= 0.3 ? 1.0 : perry(s, straightness * (s - 0.3))));
}

Force nds_column_load(const Column& column, double c) {
  const Plain p = plain(column);
  require::within("c", c, 0.5, 1.0);
  const double depth = std::sqrt(12.0 * si(column.section.second_moment) / si(column.section.area));
  const double slenderness = si(column.effective_length) / depth;
  require::valid("NDS column stability factor", "effective length over depth", slenderness, 0.0, 50.0);
  const double ratio = 0.822 * si(column.youngs_modulus) / (slenderness * slenderness) / si(column.strength);
  const double half = (1.0 + ratio) / (2.0 * c);
  return from_si<Force>(p.squash * (ratio / c) / (half + std::sqrt(half * half - ratio / c)));
}

}  // namespace theca::structure
