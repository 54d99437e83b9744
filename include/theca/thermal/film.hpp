// Convective films at a surface, in room air and in the tank's water: natural, forced, or both together.
#pragma once

#include "theca/air.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// Where a surface looks, into the fluid whose film is asked for.
enum class Facing { sideways, up, down };

/// A convective film, what it was found from, and how far published correlations disagree about it.
struct Film {
  ThermalTransmittance coefficient{};  ///< W/m2/K, by convection only
  /// Extremes of the correlations whose ranges cover this state, and at least 10 % either side of the coefficient: the
  /// scatter of measurements about any one of them (from memory).
  ThermalTransmittance low{}, high{};
  double rayleigh = 0.0;  ///< of the buoyancy, >= 0
  double reynolds = 0.0;  ///< of the flow along the surface
  bool unstable = true;   ///< lighter fluid rises off the surface; for a vertical surface always true
};

/// Room air at a vertical surface.
///
/// Air properties at the mean of both temperatures; buoyancy g (1/T_mean) dT, for the vapour content is the same at
/// the surface and in the room. Natural convection by Churchill & Chu 1975 over the whole range; a fan's flow along the
/// surface by the flat plate, joined with exponent 3.
/// @param surface, room   temperatures of the surface and of the air, in the range of theca/air.hpp
/// @param pressure        air pressure
/// @param height          of the surface, > 0; also the length of the flow along it
/// @param air_speed       along the surface, >= 0; 0: natural convection alone
/// @throws InvalidInput   bad argument; OutOfValidity  Ra > 1e12 (a height above 4 m or so), Re > 1e8
/// @source kernel::nusselt_vertical_plate, kernel::nusselt_flat_plate; spread: kernel::nusselt_vertical_plate_laminar
///         and kernel::nusselt_vertical_plate_power_law
Film vertical_film(const Temperature& surface, const Temperature& room, const AbsolutePressure& pressure,
                   const Length& height, const Velocity& air_speed = {});

/// Room air over or under a horizontal surface: a lid (facing up), the underside of a base on legs (facing down).
///
/// Natural convection by Raithby & Hollands 1998, smooth through equal temperatures; forced flow along the shorter
/// side, joined with exponent 7/2.
/// @param facing          up or down
/// @param length, width   of the surface, > 0
/// @throws InvalidInput   bad argument; OutOfValidity  Ra > 1e10, Re > 1e8
/// @source kernel::nusselt_horizontal_unstable_smooth and _stable_smooth, kernel::nusselt_flat_plate; spread: Lloyd &
///         Moran 1974 or McAdams 1954 with Radziemska & Lewandowski 2001, and the flow along the longer side
Film horizontal_film(const Temperature& surface, const Temperature& room, const AbsolutePressure& pressure,
                     Facing facing, const Length& length, const Length& width, const Velocity& air_speed = {});

/// Natural and forced convection between a horizontal water surface and room air.
///
/// Buoyancy comes from the density difference between the moist air at the surface (at the water's temperature, with
/// its vapour pressure) and the room's air: vapour is lighter than air, so that water as warm as the room, or a little
/// colder, still sends air upwards when the room is dry.
/// @param water_temperature        of the surface
/// @param vapour_at_surface        vapour pressure of the water, salt included
/// @param room                     air away from the surface
/// @param length, width            of the surface, > 0
/// @param air_speed                along the surface, >= 0
/// @throws InvalidInput   bad argument; OutOfValidity  Ra > 1e10
/// @valid   smooth from neutral air to Ra = 1e10; in the stable case forced and natural parts are still added, an upper
///          estimate
/// @source as horizontal_film
Film water_surface_film(const Temperature& water_temperature, const AbsolutePressure& vapour_at_surface,
                        const air::MoistAir& room, const Length& length, const Length& width,
                        const Velocity& air_speed);

/// The tank's water at its wall or base: stirred by circulation, or still and moved by its own buoyancy.
///
/// The same correlations as in air with the properties of seawater at the mean temperature; buoyancy from its densities
/// at both temperatures.
/// @param surface, water  temperatures, 0 to 40 degC
/// @param facing          sideways for a wall; up for a base (its inner face looks up)
/// @param height, length  of a wall: its wetted height, and its length, which is not used; of a base: its two sides
/// @param water_speed     along the surface, >= 0; 0: still water
/// @throws InvalidInput   bad argument; OutOfValidity  beyond the correlations, Pr outside 0.6 to 60
Film water_film(const Temperature& surface, const Temperature& water, AbsoluteSalinity salinity, Facing facing,
                const Length& height, const Length& length, const Velocity& water_speed = {});

}  // namespace theca::thermal
