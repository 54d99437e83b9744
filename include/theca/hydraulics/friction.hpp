// Wall friction of water in pipes: Reynolds number, Darcy friction factor over the whole range, head loss.
#pragma once

#include <cmath>

#include "theca/require.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

namespace kernel {

/// Inside area of a round bore.
template <class T>
T bore_area(const T& bore_m) {
  return T(0.25 * 3.14159265358979323846) * bore_m * bore_m;
}

/// Reynolds number of a full round pipe, from its flow.
template <class T>
T reynolds_number(const T& flow_m3_s, const T& bore_m, const T& viscosity_m2_s) {
  return flow_m3_s / (T(0.25 * 3.14159265358979323846) * bore_m * viscosity_m2_s);
}

/// Darcy friction factor and its derivative to the Reynolds number.
template <class T>
struct FrictionFactor {
  T value;
  T slope;
};

/// Colebrook-White equation 1/sqrt(f) = -2 log10(e/3.7 + 2.51/(Re sqrt(f))), and df/dRe by implicit differentiation.
///
/// With x = 1/sqrt(f) the equation is g(x) = x + 2 log10(b + a x) = 0, a = 2.51/Re, b = e/3.7. The logarithm is what
/// costs, and all derivatives of g follow from it for nothing: each step is Newton's with the next two terms of
/// Schroeder's series, of fourth order. The start lies within 1.1 of the root, the first step within 4e-7, the second
/// below rounding; the step count is therefore fixed, and derivatives of T pass through.
/// @param nearby  for solvers that come back with little changed: 1/sqrt(f) of the last call, or 0, and then of this
///                one. It takes the start's place if its step is less than 0.3, and alone will do if less than 0.002;
///                the step count then varies.
/// @source Colebrook 1939, J. Inst. Civ. Eng. 11:133-156; start: Haaland 1983 without its power of the roughness;
///         series: Schroeder 1870, from memory
template <class T>
FrictionFactor<T> colebrook(const T& reynolds, const T& relative_roughness, T* nearby = nullptr) {
  using std::log;
  const double c = 0.86858896380650365530;  // 2 / ln 10
  const T per_reynolds = T(1) / reynolds;
  const T a = T(2.51) * per_reynolds, b = relative_roughness * T(1 / 3.7), ac = a * T(c);
  const auto step = [&](const T& x) {
    const T z = b + a * x;
    const T g = x + T(c) * log(z);
    const T r = T(1) / (z + ac);        // 1 / (z g')
    const T s = ac * r, w = a * r * g;  // g''/g' = -s a/z; Newton's step is -w z/a
    return T(-1) * g * z * r * (T(1) - s * w * (T(0.5) - w * (T(0.5) * s - T(1.0 / 3.0))));
  };
  const auto within = [](const T& h, double limit) { return h < T(limit) && T(-limit) < h; };
  T x(0), first(1);
  if (nearby && T(0) < *nearby) x = *nearby + (first = step(*nearby));
  if (!within(first, 0.3)) {
    x = T(-0.9 * c) * log(b + T(6.9) * per_reynolds);
    x = x + step(x);
  }
  if (!within(first, 0.002)) x = x + step(x);
  if (nearby) *nearby = x;
  const T f = T(1) / (x * x);
  return {f, T(-2) * f * ac * per_reynolds / (b + a * x + ac)};
}

/// Darcy friction factor of a full pipe for any Re > 0: laminar below 2000, Colebrook-White above 4000, between them
/// the cubic that meets both in value and slope.
/// @param nearby  as for colebrook()
template <class T>
FrictionFactor<T> friction_factor(const T& reynolds, const T& relative_roughness, T* nearby = nullptr) {
  if (reynolds < T(2000)) return {T(64) / reynolds, T(-64) / (reynolds * reynolds)};
  if (!(reynolds < T(4000))) return colebrook<T>(reynolds, relative_roughness, nearby);
  const T width(2000);
  const FrictionFactor<T> end = colebrook<T>(T(4000), relative_roughness, nearby);
  const T f0(64.0 / 2000), m0(-64.0 / 2000), m1 = end.slope * width;  // slopes per width of the interval
  const T s = (reynolds - T(2000)) / width;
  const T rise = end.value - f0;
  const T c2 = T(3) * rise - T(2) * m0 - m1;
  const T c3 = m0 + m1 - T(2) * rise;
  return {f0 + s * (m0 + s * (c2 + s * c3)), (m0 + s * (T(2) * c2 + s * T(3) * c3)) / width};
}

/// Head loss by wall friction and local losses, and its derivative to the flow; odd in the flow.
template <class T>
struct HeadLoss {
  T loss_m;
  T slope_s_m2;
};

/// @param K  sum of local loss coefficients on the velocity head of this bore
/// @param nearby  as for colebrook()
template <class T>
HeadLoss<T> head_loss(const T& flow_m3_s, const T& bore_m, const T& length_m, const T& roughness_m, const T& K,
                      const T& viscosity_m2_s, T* nearby = nullptr) {
  const double g = units::detail::standard_gravity;
  const T per_bore = T(1) / bore_m, per_area = T(1) / bore_area<T>(bore_m);
  const T v = flow_m3_s * per_area;
  const T speed = v < T(0) ? T(-1) * v : v;
  const T reynolds = speed * bore_m / viscosity_m2_s;
  if (reynolds < T(2000)) {  // f v^2 written out, since f alone has no limit at rest
    const T per_velocity = T(32 / g) * viscosity_m2_s * length_m * per_bore * per_bore;
    const T local = K * speed * T(0.5 / g);
    return {(per_velocity + local) * v, (per_velocity + T(2) * local) * per_area};
  }
  const FrictionFactor<T> f = friction_factor<T>(reynolds, roughness_m * per_bore, nearby);
  const T slenderness = length_m * per_bore;
  const T total_K = f.value * slenderness + K;
  const T per_velocity = speed * T(0.5 / g);
  return {total_K * per_velocity * v, (T(2) * total_K + f.slope * reynolds * slenderness) * per_velocity * per_area};
}

}  // namespace kernel

/// Range of the friction law: Moody's chart ends at these.
inline constexpr double largest_reynolds_number = 1e8;
inline constexpr double largest_relative_roughness = 0.05;

/// Reynolds number v D / nu.
/// @throws InvalidInput  velocity negative, diameter or viscosity not > 0, or any not finite
double reynolds_number(const Velocity& velocity, const Length& hydraulic_diameter, const KinematicViscosity& viscosity);

/// Four times the flow area over the wetted perimeter; the bore of a full round pipe.
/// @throws InvalidInput  area or perimeter not > 0, or less perimeter than a circle of that area has
Length hydraulic_diameter(const Area& flow_area, const Length& wetted_perimeter);

/// Darcy friction factor of a full round pipe.
///
/// 64/Re below Re 2000; Colebrook-White, solved to rounding, above 4000; between them the cubic that continues both
/// with value and slope, since no law holds there. Bakhmeteff's and Moody's charts leave that range hatched: read it
/// as a bridge for solvers, not as a measurement.
/// @param reynolds            0 < Re <= 1e8
/// @param relative_roughness  roughness over bore, 0 to 0.05
/// @throws InvalidInput  outside these ranges
/// @source laminar: Hagen-Poiseuille. Turbulent: Colebrook 1939, range as in Moody 1944, Trans. ASME 66:671-684.
///         Transition: a cubic of Re over 2000..4000 as by Dunlop 1991, printed in Rossman, EPANET 2 Users Manual
///         (EPA/600/R-00/057, 2000), appendix D; there the turbulent end is Swamee & Jain 1976, here Colebrook-White
double friction_factor(double reynolds, double relative_roughness);

/// Head lost to wall friction by a flow through a full round pipe: f (L/D) v^2/(2g), standard gravity.
/// @param flow       >= 0; Re up to 1e8
/// @param bore       inside diameter, > 0
/// @param length     >= 0
/// @param roughness  equivalent sand roughness, 0 to 0.05 bore
/// @throws InvalidInput  outside these ranges or not finite
/// @source Darcy-Weisbach equation; friction_factor()
Length head_loss_friction(const VolumeFlow& flow, const Length& bore, const Length& length, const Length& roughness,
                          const KinematicViscosity& viscosity);

// Short enough to be inlined, so that typed arrays cost what arrays of doubles cost.

inline double reynolds_number(const Velocity& velocity, const Length& hydraulic_diameter,
                              const KinematicViscosity& viscosity) {
  require::not_negative("velocity", velocity);
  require::positive("hydraulic diameter", hydraulic_diameter);
  require::positive("kinematic viscosity", viscosity);
  return si(velocity) * si(hydraulic_diameter) / si(viscosity);
}

inline double friction_factor(double reynolds, double relative_roughness) {
  require::positive("Reynolds number", reynolds);
  require::within("Reynolds number", reynolds, 0.0, largest_reynolds_number);
  require::within("relative roughness", relative_roughness, 0.0, largest_relative_roughness);
  return kernel::friction_factor(reynolds, relative_roughness).value;
}

namespace detail {
inline void require_bore_and_roughness(const Length& bore, const Length& roughness) {
  require::positive("bore", bore);
  require::not_negative("roughness", roughness);
  require::that(si(roughness) <= largest_relative_roughness * si(bore), "roughness", roughness,
                "at most 0.05 of the bore");
}
}  // namespace detail

inline Length head_loss_friction(const VolumeFlow& flow, const Length& bore, const Length& length,
                                 const Length& roughness, const KinematicViscosity& viscosity) {
  require::not_negative("flow", flow);
  detail::require_bore_and_roughness(bore, roughness);
  require::not_negative("length", length);
  require::positive("kinematic viscosity", viscosity);
  require::within("Reynolds number", kernel::reynolds_number(si(flow), si(bore), si(viscosity)), 0.0,
                  largest_reynolds_number);
  return from_si<Length>(kernel::head_loss(si(flow), si(bore), si(length), si(roughness), 0.0, si(viscosity)).loss_m);
}

}  // namespace theca::hydraulics
