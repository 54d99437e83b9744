// How often the water is renewed, and how fast it moves in front of a circulation pump.
#pragma once

#include "theca/units.hpp"

namespace theca::hydraulics {

/// Length of the core and constant of the decay of a round turbulent jet, in outlet diameters.
inline constexpr double jet_decay_constant = 6.2;

namespace kernel {
/// Velocity on the axis of a round turbulent jet; unchecked.
template <class T>
T jet_centreline_velocity(const T& outlet_velocity_m_s, const T& outlet_diameter_m, const T& distance_m) {
  const T core = T(jet_decay_constant) * outlet_diameter_m;
  return distance_m < core ? outlet_velocity_m_s : outlet_velocity_m_s * core / distance_m;
}
}  // namespace kernel

/// Turnovers per time: flow over volume.
/// @throws InvalidInput  flow negative, volume not > 0, or not finite
Frequency turnover(const VolumeFlow& flow, const Volume& volume);

/// Flow that gives a turnover.
/// @throws InvalidInput  rate negative, volume not > 0, or not finite
VolumeFlow flow_for_turnover(const Frequency& rate, const Volume& volume);

/// A round outlet blowing into still water.
struct Jet {
  VolumeFlow flow;         ///< >= 0
  Length outlet_diameter;  ///< > 0
};

/// Mean velocity at the outlet.
/// @throws InvalidInput  flow negative, diameter not > 0, or not finite
Velocity outlet_velocity(const Jet& jet);

/// Velocity on the jet's axis: u0 inside the core, 6.2 u0 d/x beyond 6.2 d.
///
/// For a free turbulent jet. In a tank its own return flow, walls, racks and the surface slow it: read the figure as
/// good to about 30 %.
/// @param distance  from the outlet, > 0, at most 100 outlet diameters
/// @throws InvalidInput   impossible jet, distance not > 0
/// @throws OutOfValidity  distance over 100 outlet diameters, or outlet Re outside 1e4 to 1e8
/// @source Rajaratnam 1976, Turbulent Jets, circular jet; 6.2 as in Fischer et al. 1979 (7.0 M^0.5/z), from memory.
///         Measured 6.11 at Re 19400 and 1.35 at Re 1430: Abdel-Rahman et al. 1996, Mech. Res. Commun. 23:313-324
Velocity jet_centreline_velocity(const Jet& jet, const Length& distance, const KinematicViscosity& viscosity);

/// Distance at which the axis velocity has fallen to a value; the inverse beyond the core.
/// @throws InvalidInput   impossible jet, velocity not > 0
/// @throws OutOfValidity  velocity above the outlet's, or reached beyond 100 outlet diameters, or Re outside 1e4 to 1e8
Length jet_reach(const Jet& jet, const Velocity& velocity, const KinematicViscosity& viscosity);

}  // namespace theca::hydraulics
