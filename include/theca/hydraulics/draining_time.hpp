// How long a tank takes to fill, to drain through an opening or a pipe, and to do both at once.
#pragma once

#include "theca/hydraulics/pipe.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

/// A tank of upright walls with an opening whose flow is C a sqrt(2 g h).
struct Outlet {
  Area tank_surface;          ///< free water surface, > 0
  Area opening;               ///< > 0, at most a tenth of the surface
  double coefficient = 0.61;  ///< of discharge, > 0 to 1; sharp edge 0.60 to 0.62, a short pipe about 0.8
};

/// Time in which the water falls from one head over the opening to another: 2 A (sqrt h1 - sqrt h2)/(C a sqrt(2 g)).
///
/// Quasi-steady; a vortex that draws air lets less water through near the end.
/// @param from, to  water surface over the opening's centre, or over a drain pipe's free end; 0 <= to <= from
/// @throws InvalidInput  impossible outlet or heads
/// @source Torricelli 1643, integrated; textbook
Time draining_time(const Outlet& outlet, const Length& from, const Length& to);

/// The same with water running in: the exact integral of A dh/dt = Q - C a sqrt(2 g h), either way.
/// @throws InvalidInput   impossible outlet, flow or heads
/// @throws OutOfValidity  the level does not come to `to`: it settles before, or runs the other way
Time level_change_time(const Outlet& outlet, const VolumeFlow& inflow, const Length& from, const Length& to);

/// Head at which inflow and outflow are equal.
/// @throws InvalidInput  impossible outlet, flow negative
Length settling_head(const Outlet& outlet, const VolumeFlow& inflow);

/// Time to drain through a long pipe full of water, friction following the falling flow: integral of A dh/Q(h), with
/// h = (1 + K + f L/D) v^2/(2 g); the pipe's K includes its entry, its free end adds the 1.
/// @param from, to  water surface over the pipe's free end; 0 < to <= from
/// @throws InvalidInput  impossible pipe, water or heads
/// @throws NotConverged  a flow or the integral did not close
/// @source Darcy-Weisbach with friction_factor(), quasi-steady
Time draining_time(const Area& tank_surface, const Pipe& pipe, const Length& from, const Length& to,
                   const KinematicViscosity& viscosity);

/// Flow that a head drives through a full pipe with a free end.
/// @throws InvalidInput  impossible pipe, head negative
/// @throws NotConverged  the root search did not close
VolumeFlow gravity_flow(const Pipe& pipe, const Length& head, const KinematicViscosity& viscosity);

/// Time to pump a volume in at a steady flow.
/// @throws InvalidInput  volume negative, flow not > 0
Time filling_time(const Volume& volume, const VolumeFlow& flow);

}  // namespace theca::hydraulics
