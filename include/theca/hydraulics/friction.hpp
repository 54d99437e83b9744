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
  return flow_m3_s * bore_m / (bore_area<T>(bore_m) * viscosity_m2_s);
}

/// Head of a flow's velocity in a section, v^2/(2g).
template <class T>
T velocity_head(const T& flow_m3_s, const T& area_m2) {
  const T v = flow_m3_s / area_m2;
  return T(0.5 / units::detail::standard_gravity) * v * v;
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
  const T slope_z = b + a * x + ac;      // z g'
  const T w = T(1) / (x * x * slope_z);  // f over it
  return {w * slope_z, T(-2) * w * ac * per_reynolds};
}

/// Between Re 2000 and 4000 the cubic that meets 64/Re and Colebrook-White in value and slope.
/// @param nearby  as for colebrook(), of the turbulent end
template <class T>
FrictionFactor<T> transition_friction_factor(const T& reynolds, const T& relative_roughness, T* nearby = nullptr) {
  const T width(2000);
  const FrictionFactor<T> end = colebrook<T>(T(4000), relative_roughness, nearby);
  const T f0(64.0 / 2000), m0(-64.0 / 2000), m1 = end.slope * width;  // slopes per width of the interval
  const T s = (reynolds - T(2000)) / width;
  const T rise = end.value - f0;
  const T c2 = T(3) * rise - T(2) * m0 - m1;
  const T c3 = m0 + m1 - T(2) * rise;
  return {f0 + s * (m0 + s * (c2 + s * c3)), (m0 + s * (T(2) * c2 + s * T(3) * c3)) / width};
}

/// Darcy friction factor of a full pipe for any Re > 0: laminar below 2000, Colebrook-White from 4000.
/// @param nearby  as for colebrook()
template <class T>
FrictionFactor<T> friction_factor(const T& reynolds, const T& relative_roughness, T* nearby = nullptr) {
  if (!(reynolds < T(4000))) return colebrook<T>(reynolds, relative_roughness, nearby);
  if (reynolds < T(2000)) return {T(64) / reynolds, T(-64) / (reynolds * reynolds)};
  return transition_friction_factor<T>(reynolds, relative_roughness, nearby);
}

/// Head loss by wall friction and local losses, and its derivative to the flow; odd in the flow.
template <class T>
struct HeadLoss {
  T loss_m;
  T slope_s_m2;
};

/// Head loss of one pipe of one water at any flow: what does not depend on the flow, worked out once by pipe_law().
template <class T>
struct PipeLaw {
  T reynolds_per_flow_s_m3{};
  T relative_roughness{};
  T laminar_s_m2{};  ///< loss at the wall over the flow, laminar
  T wall_s2_m5{};    ///< loss at the wall over f and the flow squared
  T local_s2_m5{};   ///< local losses over the flow squared

  /// @param nearby  as for colebrook()
  HeadLoss<T> operator()(const T& flow_m3_s, T* nearby = nullptr) const {
    const T size = flow_m3_s < T(0) ? T(-1) * flow_m3_s : flow_m3_s;
    const T reynolds = size * reynolds_per_flow_s_m3;
    if (reynolds < T(2000)) {  // f v^2 written out, since f alone has no limit at rest
      const T local = local_s2_m5 * size;
      return {(laminar_s_m2 + local) * flow_m3_s, laminar_s_m2 + T(2) * local};
    }
    const FrictionFactor<T> f = friction_factor<T>(reynolds, relative_roughness, nearby);
    const T per_flow = (f.value * wall_s2_m5 + local_s2_m5) * size;
    return {per_flow * flow_m3_s, T(2) * per_flow + f.slope * reynolds * wall_s2_m5 * size};
  }
};

/// @param K  sum of local loss coefficients on the velocity head of this bore
template <class T>
PipeLaw<T> pipe_law(const T& bore_m, const T& length_m, const T& roughness_m, const T& K, const T& viscosity_m2_s) {
  const T area = bore_area<T>(bore_m), per_bore = T(1) / bore_m;
  const T per_flow_squared = velocity_head<T>(T(1), area);
  const T wall = length_m * per_bore * per_flow_squared;
  return {reynolds_number<T>(T(1), bore_m, viscosity_m2_s), roughness_m * per_bore,
          T(64) * wall * viscosity_m2_s * area * per_bore, wall, K * per_flow_squared};
}

/// pipe_law() at a single flow.
template <class T>
HeadLoss<T> head_loss(const T& flow_m3_s, const T& bore_m, const T& length_m, const T& roughness_m, const T& K,
                      const T& viscosity_m2_s) {
  return pipe_law<T>(bore_m, length_m, roughness_m, K, viscosity_m2_s)(flow_m3_s);
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
