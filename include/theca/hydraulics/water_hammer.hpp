// Water hammer: how fast a pressure wave runs in a pipe, and the pressure when a valve or check valve shuts.
#pragma once

#include <cmath>

#include "theca/units.hpp"

namespace theca::hydraulics {

namespace kernel {
/// Korteweg's wave speed in a thin-walled pipe; unchecked.
template <class T>
T wave_speed(const T& bulk_modulus_Pa, const T& density_kg_m3, const T& bore_m, const T& wall_m, const T& modulus_Pa,
             const T& restraint) {
  using std::sqrt;
  return sqrt(bulk_modulus_Pa / density_kg_m3 / (T(1) + restraint * bulk_modulus_Pa * bore_m / (modulus_Pa * wall_m)));
}
}  // namespace kernel

/// What a pressure wave runs through: the water and the pipe around it.
struct ElasticPipe {
  Length bore;             ///< inside diameter, > 0
  Length wall;             ///< > 0, at most a quarter of the bore
  Pressure modulus;        ///< Young's modulus of the wall for short loads, > 0; rigid PVC about 2.8 GPa (400 000 psi)
  Pressure bulk_modulus;   ///< of the water, > 0; 2.1 GPa (300 000 psi) by convention, seawater about 2.3 GPa
  Density density;         ///< of the water, > 0
  double restraint = 1.0;  ///< 0.8 to 1.25: 1 for expansion joints, 1 - nu^2 if held along its length
};

/// Speed of a pressure wave: a = sqrt((K/rho) / (1 + c K D/(E e))).
///
/// Free air slows it much further; without air the surge is largest.
/// @throws InvalidInput  impossible pipe
/// @source Korteweg 1878; restraint: Wylie & Streeter 1993, Fluid Transients in Systems; moduli of PVC and water as
///         in the trade's PVC pipe handbooks, 400 000 and 300 000 psi
Velocity wave_speed(const ElasticPipe& pipe);

/// Pressure rise when the velocity drops at once: rho a dv.
/// @throws InvalidInput  impossible pipe, velocity change negative or not finite
/// @source Joukowsky 1898
Pressure joukowsky_pressure(const ElasticPipe& pipe, const Velocity& velocity_change);

/// Time in which a wave runs to the open end and back, 2 L/a: what shuts within it shuts at once.
/// @throws InvalidInput  impossible pipe, length not > 0
Time pipe_period(const ElasticPipe& pipe, const Length& length);

struct Surge {
  Pressure rise;        ///< above the working pressure
  bool sudden = false;  ///< shut within the pipe's period
  Velocity wave_speed;
  Time pipe_period;
};

/// Pressure rise when a valve shuts evenly within a time: rho a v if sudden, else 2 rho L v/t.
///
/// A check valve that lets the water run back before it slams shuts at once: time 0, with the reversed velocity. Most
/// valves take effect in the last part of their travel: give the time of that part (common practice, no source).
/// @throws InvalidInput  impossible pipe, length not > 0, velocity or closing time negative or not finite
/// @source Joukowsky 1898; slow closing: Michaud 1878, from memory
Surge valve_surge(const ElasticPipe& pipe, const Length& length, const Velocity& velocity, const Time& closing_time);

/// Least closing time that keeps the rise to a limit; zero if even sudden closing does.
/// @throws InvalidInput  impossible pipe, length or limit not > 0, velocity negative
Time least_closing_time(const ElasticPipe& pipe, const Length& length, const Velocity& velocity, const Pressure& limit);

}  // namespace theca::hydraulics
