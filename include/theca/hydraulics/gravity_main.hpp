// Sloping drains that run part full: Manning flow in a round pipe, and the depth that a flow takes.
#pragma once

#include <cmath>

#include "theca/units.hpp"

namespace theca::hydraulics {

namespace kernel {
template <class T>
struct CircularSection {
  T area_m2;
  T hydraulic_radius_m;
};
/// Section of a round pipe whose wetted arc spans theta at its centre, 0 < theta <= 2 pi.
template <class T>
CircularSection<T> circular_section(const T& bore_m, const T& theta_rad) {
  using std::sin;
  const T t2 = theta_rad * theta_rad;
  // theta - sin(theta) cancels in shallow water; its series there is good to 3e-13.
  const T segment = theta_rad < T(0.05) ? theta_rad * t2 / T(6) * (T(1) - t2 / T(20) * (T(1) - t2 / T(42)))
                                        : theta_rad - sin(theta_rad);
  return {bore_m * bore_m * segment / T(8), bore_m * segment / (T(4) * theta_rad)};
}
/// Manning's velocity; unchecked.
template <class T>
T manning_velocity(const T& hydraulic_radius_m, const T& slope, const T& manning_n) {
  using std::pow;
  using std::sqrt;
  return pow(hydraulic_radius_m, 2.0 / 3.0) * sqrt(slope) / manning_n;
}
}  // namespace kernel

/// A straight round drain at a steady slope, vented, outfall free.
struct GravityMain {
  Length bore;               ///< inside diameter, > 0
  double slope = 0.0;        ///< fall over run, > 0 and at most 0.1; 1/4 in per foot is 1.0 / 48.0
  double manning_n = 0.009;  ///< Manning's coefficient in s/m^(1/3), 0.006 to 0.03; 0.009 for smooth plastic
};

/// Uniform flow at one depth.
struct PartFullFlow {
  VolumeFlow flow;
  Length depth;          ///< at the middle of the section
  double filling = 0.0;  ///< depth over bore
  Area flow_area;
  Length hydraulic_radius;
  Velocity velocity;
};

/// Uniform flow at a depth: v = R^(2/3) sqrt(S) / n.
///
/// Manning's n is taken as constant with depth. Losses at entry and bends, and the length needed to reach uniform
/// flow, are not in it.
/// @param depth  0 to bore
/// @throws InvalidInput  impossible main, depth outside the bore
/// @source Manning 1891, Trans. Inst. Civ. Eng. Ireland 20:161-207; circular section geometry, Chow 1959, Open-Channel
///         Hydraulics, table 2-1
PartFullFlow flow_at_depth(const GravityMain& main, const Length& depth);

/// Flow of the full section at its own slope (no pressure).
/// @throws InvalidInput  impossible main
VolumeFlow full_bore_flow(const GravityMain& main);

/// The largest uniform flow, at a depth of 0.938 bore; about 7.6 % above the full bore's.
/// @throws InvalidInput  impossible main
PartFullFlow largest_flow(const GravityMain& main);

/// Depth that a flow takes, the lower of the two where both exist.
/// @throws InvalidInput   impossible main, flow negative or not finite
/// @throws OutOfValidity  the flow exceeds largest_flow(): the pipe would run under pressure
/// @throws NotConverged   the root search did not close
PartFullFlow normal_depth(const GravityMain& main, const VolumeFlow& flow);

}  // namespace theca::hydraulics
