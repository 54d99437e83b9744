#include "theca/structure/earthquake.hpp"

#include <cmath>

#include "theca/require.hpp"

namespace theca::structure {
namespace {
constexpr double pi = 3.14159265358979323846;

void require_tank(const Length& length, const Length& depth, const Mass& water, const Acceleration& gravity) {
  require::positive("inside length", length);
  require::positive("water depth", depth);
  require::positive("water mass", water);
  require::positive("gravity", gravity);
}

/// Height of a swinging mass over the depth; `base` is 1 without and 2 with the pressure on the base (2.01 in ACI).
/// 1 - (cosh a - base) / (a sinh a), written with exponentials so that a deep tank does not overflow.
double swinging_height(double a, double base) {
  const double e = std::exp(-a);
  return 1.0 - (1.0 + e * e - 2.0 * base * e) / (a * (1.0 - e * e));
}
}  // namespace

WaterModel housner_water(const Length& length, const Length& depth, const Mass& water, const Acceleration& gravity) {
  require_tank(length, depth, water, gravity);
  const double r = si(length) / si(depth);
  const SloshMasses masses = slosh_masses(length, depth, water);
  const double b = 0.866 * r;
  const double a = 3.16 / r;
  WaterModel m;
  m.impulsive.mass = masses.impulsive;
  m.impulsive.height_walls = (r < 1.333 ? 0.5 - 0.09375 * r : 0.375) * depth;
  m.impulsive.height_whole = (r < 0.75 ? 0.45 : b / (2.0 * std::tanh(b)) - 0.125) * depth;
  m.convective.push_back({masses.convective, swinging_height(a, 1.0) * depth, swinging_height(a, 2.01) * depth});
  m.periods.push_back(from_si<Time>(2.0 * pi / std::sqrt(3.16 * si(gravity) * std::tanh(a) / si(length))));
  return m;
}

WaterModel potential_flow_water(const Length& length, const Length& depth, const Mass& water, int modes,
                                const Acceleration& gravity) {
  require_tank(length, depth, water, gravity);
  require::within("modes", modes, 1.0, 200.0);
  const double l = si(length), h = si(depth), m = si(water);
  WaterModel model;
  // Slow shaking tilts the surface: the whole water pushes the walls at h/2 and the base with L^2 / 12h more.
  double mass = m, walls = m * 0.5 * h, whole = m * (0.5 * h + l * l / (12.0 * h));
  for (int i = 0; i < modes; ++i) {
    const int n = 2 * i + 1;
    const double k = n * pi / l;
    const double swings = m * 8.0 * std::tanh(k * h) / (k * h * n * n * pi * pi);
    const double without = h * swinging_height(k * h, 1.0), with = h * swinging_height(k * h, 2.0);
    model.convective.push_back({from_si<Mass>(swings), from_si<Length>(without), from_si<Length>(with)});
    model.periods.push_back(1.0 / from_si<Frequency>(kernel::slosh_frequency(l, h, si(gravity), n)));
    mass -= swings;
    walls -= swings * without;
    whole -= swings * with;
  }
  model.impulsive = {from_si<Mass>(mass), from_si<Length>(walls / mass), from_si<Length>(whole / mass)};
  return model;
}

ShakingCoefficients shaking_coefficients(const Earthquake& earthquake, const Time& slosh_period,
                                         double impulsive_response, double convective_response) {
  const double swinging = convective_spectral_factor(slosh_period, earthquake);
  require::within("impulsive response factor", impulsive_response, 1.0, 8.0);
  require::within("convective response factor", convective_response, 1.0, 8.0);
  const double importance = earthquake.importance_factor;
  return {earthquake.short_period * importance / impulsive_response, swinging * importance / convective_response};
}

ShakingLoad shaking_load(const WaterModel& water, const std::vector<SolidMass>& solids,
                         const ShakingCoefficients& coefficients, const Length& rise, const Acceleration& gravity) {
  require::that(!water.convective.empty(), "convective masses", 0.0, "at least one");
  require::not_negative("impulsive coefficient", coefficients.impulsive);
  require::not_negative("convective coefficient", coefficients.convective);
  require::not_negative("rise", rise);
  require::positive("gravity", gravity);
  const auto possible = [](const WaterMass& w) {
    require::not_negative("water mass", w.mass);
    require::not_negative("water mass height, walls", w.height_walls);
    require::not_negative("water mass height, whole", w.height_whole);
  };
  possible(water.impulsive);
  const double a = coefficients.impulsive * si(gravity), c = coefficients.convective * si(gravity), up = si(rise);
  double shear = a * si(water.impulsive.mass);
  double wall = shear * si(water.impulsive.height_walls);
  double whole = shear * (si(water.impulsive.height_whole) + up);
  for (const SolidMass& s : solids) {
    require::not_negative("solid mass", s.mass);
    require::not_negative("solid mass height", s.height);
    shear += a * si(s.mass);
    whole += a * si(s.mass) * si(s.height);
    // Only what stands over the inside base bends the walls.
    if (si(s.height) > up) wall += a * si(s.mass) * (si(s.height) - up);
  }
  double shear2 = 0.0, wall2 = 0.0, whole2 = 0.0;
  for (const WaterMass& w : water.convective) {
    possible(w);
    const double f = c * si(w.mass);
    shear2 += f * f;
    wall2 += std::pow(f * si(w.height_walls), 2);
    whole2 += std::pow(f * (si(w.height_whole) + up), 2);
  }
  return {from_si<Force>(shear), from_si<Force>(std::sqrt(shear2)),
          from_si<Force>(std::hypot(shear, std::sqrt(shear2))), from_si<Moment>(std::hypot(wall, std::sqrt(wall2))),
          from_si<Moment>(std::hypot(whole, std::sqrt(whole2)))};
}

}  // namespace theca::structure
