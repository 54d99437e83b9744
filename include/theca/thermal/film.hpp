// Heat films at a surface: natural and forced convection in air, and long-wave radiation to the room's surfaces.
#pragma once

#include <cmath>

#include "theca/air.hpp"
#include "theca/require.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// Unchecked kernels on plain scalars, dimensionless or in coherent SI.
namespace kernel {

/// W/(m2 K4).  @source 2019 SI: exact value 5.670374419...e-8 from the defining constants, CODATA 2018
inline constexpr double stefan_boltzmann = 5.670374419e-8;

/// @source Churchill & Chu 1975, Int. J. Heat Mass Transfer 18, 1323, eq. 9; isothermal vertical plate, mean Nusselt
///         number on the height, every Prandtl number, 0.1 < Ra < 1e12
template <class T>
T nusselt_vertical_plate(const T& rayleigh, const T& prandtl) {
  using std::pow;
  const T blend = pow(T(1.0) + pow(T(0.492) / prandtl, 9.0 / 16.0), 8.0 / 27.0);
  const T root = T(0.825) + T(0.387) * pow(rayleigh, 1.0 / 6.0) / blend;
  return root * root;
}

/// @source Churchill & Chu 1975, laminar form, Ra <= 1e9, somewhat closer there than the form above
template <class T>
T nusselt_vertical_plate_laminar(const T& rayleigh, const T& prandtl) {
  using std::pow;
  const T blend = pow(T(1.0) + pow(T(0.492) / prandtl, 9.0 / 16.0), 4.0 / 9.0);
  return T(0.68) + T(0.670) * pow(rayleigh, 0.25) / blend;
}

/// Light fluid rising off a horizontal surface (warm face up, cold face down); length = area / perimeter.
/// @source Lloyd & Moran 1974, J. Heat Transfer 96, 443, with McAdams 1954's constants: 0.54 Ra^(1/4) for
///         1e4 < Ra < 1e7, 0.15 Ra^(1/3) for 1e7 < Ra < 1e11. The two branches differ by 2 % where they meet
template <class T>
T nusselt_horizontal_unstable(const T& rayleigh) {
  using std::pow;
  return rayleigh < T(1e7) ? T(0.54) * pow(rayleigh, 0.25) : T(0.15) * pow(rayleigh, 1.0 / 3.0);
}

/// Light fluid held under a horizontal surface (warm face down, cold face up); length = area / perimeter.
/// @source McAdams 1954, Heat Transmission 3rd ed.: 0.27 Ra^(1/4), 1e5 < Ra < 1e10
template <class T>
T nusselt_horizontal_stable(const T& rayleigh) {
  using std::pow;
  return T(0.27) * pow(rayleigh, 0.25);
}

/// The unstable case without jump from Ra = 0 on, which an iteration passing through neutral air needs.
/// @source Raithby & Hollands in Rohsenow, Hartnett & Cho 1998, Handbook of Heat Transfer 3rd ed., ch. 4, as given in
/// Nellis & Klein
///         2021, Introduction to Engineering Heat Transfer;
///         1 < Ra < 1e10; length = area / perimeter. Within 15 % of Lloyd & Moran over their range
template <class T>
T nusselt_horizontal_unstable_smooth(const T& rayleigh, const T& prandtl) {
  using std::log;
  using std::pow;
  if (!(rayleigh > T(0.0))) return T(0.0);
  const T shape = T(0.671) / pow(T(1.0) + pow(T(0.492) / prandtl, 9.0 / 16.0), 4.0 / 9.0);
  const T thin_layer = T(0.835) * shape * pow(rayleigh, 0.25);
  const T laminar = T(1.4) / log(T(1.0) + T(1.4) / thin_layer);
  const T turbulent =
      T(0.14) * (T(1.0) + T(0.0107) * prandtl) / (T(1.0) + T(0.01) * prandtl) * pow(rayleigh, 1.0 / 3.0);
  return pow(pow(laminar, 10.0) + pow(turbulent, 10.0), 0.1);
}

/// The stable case without jump from Ra = 0 on.
/// @source as above: thin layer 0.527 Ra^(1/5) / (1 + (1.9/Pr)^0.9)^(2/9), 1e3 < Ra < 1e10
template <class T>
T nusselt_horizontal_stable_smooth(const T& rayleigh, const T& prandtl) {
  using std::log;
  using std::pow;
  if (!(rayleigh > T(0.0))) return T(0.0);
  const T thin_layer = T(0.527) * pow(rayleigh, 0.2) / pow(T(1.0) + pow(T(1.9) / prandtl, 0.9), 2.0 / 9.0);
  return T(2.5) / log(T(1.0) + T(2.5) / thin_layer);
}

/// @source laminar boundary layer, Pohlhausen 1921: 0.664 Re^(1/2) Pr^(1/3), Re < 5e5, Pr > 0.6; past the transition
///         (0.037 Re^(4/5) - 871) Pr^(1/3), Re < 1e8, Pr < 60: Incropera & DeWitt, Fundamentals of Heat and Mass
///         Transfer, ch. 7, from memory
template <class T>
T nusselt_flat_plate(const T& reynolds, const T& prandtl) {
  using std::pow;
  using std::sqrt;
  const T wall = pow(prandtl, 1.0 / 3.0);
  return reynolds < T(5e5) ? T(0.664) * sqrt(reynolds) * wall : (T(0.037) * pow(reynolds, 0.8) - T(871.0)) * wall;
}

/// Forced and natural convection together over a horizontal surface, both as Nusselt numbers on one length or both as
/// film coefficients.
/// @source Incropera & DeWitt, ch. 9.9, exponent 7/2 for transverse flow over a horizontal plate, from memory
template <class T>
T combine_forced_and_natural(const T& forced, const T& natural) {
  using std::pow;
  return pow(pow(forced, 3.5) + pow(natural, 3.5), 1.0 / 3.5);
}

/// Heat flux from a grey surface to black surroundings that enclose it.  @source Stefan-Boltzmann law
template <class T>
T radiative_flux(const T& surface_K, const T& surroundings_K, const T& emissivity) {
  const T a = surface_K * surface_K;
  const T b = surroundings_K * surroundings_K;
  return emissivity * T(stefan_boltzmann) * (a - b) * (a + b);
}

/// The same flux per kelvin; for equal temperatures 4 epsilon sigma T^3.
template <class T>
T radiative_film(const T& surface_K, const T& surroundings_K, const T& emissivity) {
  return emissivity * T(stefan_boltzmann) * (surface_K + surroundings_K) *
         (surface_K * surface_K + surroundings_K * surroundings_K);
}

}  // namespace kernel

/// Mean Nusselt number of natural convection at an isothermal vertical plate, on its height.
/// @throws InvalidInput   rayleigh negative or not finite, prandtl not positive
/// @throws OutOfValidity  rayleigh > 1e12
/// @source kernel::nusselt_vertical_plate
double nusselt_vertical_plate(double rayleigh, double prandtl);

/// The laminar form, for Ra <= 1e9.  @throws as above, with the limit 1e9
double nusselt_vertical_plate_laminar(double rayleigh, double prandtl);

/// Mean Nusselt number over a horizontal surface from which the lighter fluid rises, on area / perimeter.
/// @throws InvalidInput   rayleigh not finite; @throws OutOfValidity  rayleigh outside 1e4 to 1e11
/// @source kernel::nusselt_horizontal_unstable
double nusselt_horizontal_unstable(double rayleigh);

/// Mean Nusselt number where the lighter fluid cannot leave the surface, on area / perimeter.
/// @throws InvalidInput   rayleigh not finite; @throws OutOfValidity  rayleigh outside 1e5 to 1e10
/// @source kernel::nusselt_horizontal_stable
double nusselt_horizontal_stable(double rayleigh);

/// Mean Nusselt number of forced flow along an isothermal plate, laminar or past the transition at Re = 5e5.
/// @throws InvalidInput   reynolds negative or not finite, prandtl not positive
/// @throws OutOfValidity  reynolds > 1e8, prandtl outside 0.6 to 60
/// @source kernel::nusselt_flat_plate
double nusselt_flat_plate(double reynolds, double prandtl);

/// A convective film and what it was found from.
struct Film {
  ThermalTransmittance coefficient;  ///< W/m2/K, by convection only
  double rayleigh = 0.0;             ///< of the buoyancy, >= 0
  double reynolds = 0.0;             ///< of the room's air speed along the surface
  bool unstable = true;              ///< lighter air rises off the surface; for a vertical surface always true
};

/// Natural convection in room air at a vertical surface.
///
/// Air properties at the mean of both temperatures; buoyancy g (1/T_mean) dT, for the vapour content is the same at
/// the surface and in the room.
/// @param surface, room   temperatures of the surface and of the air, in the range of theca/air.hpp
/// @param pressure        air pressure
/// @param height          of the surface, > 0
/// @throws InvalidInput   bad argument; OutOfValidity  Ra > 1e12 (a height above 4 m or so)
Film vertical_film(const Temperature& surface, const Temperature& room, const AbsolutePressure& pressure,
                   const Length& height);

/// Natural and forced convection between a horizontal water surface and room air.
///
/// Buoyancy comes from the density difference between the moist air at the surface (at the water's temperature, with
/// its vapour pressure) and the room's air: vapour is lighter than air, so that water a little colder than the room
/// still sends air upwards when the room is dry.
/// @param water_temperature        of the surface
/// @param vapour_at_surface        vapour pressure of the water, salt included
/// @param room                     air away from the surface
/// @param length, width            of the surface, > 0
/// @param air_speed                along the surface, >= 0
/// @throws InvalidInput   bad argument; OutOfValidity  Ra > 1e10
/// @valid   smooth from neutral air to Ra = 1e10; in the stable case forced and natural parts are still added, an upper
///          estimate
Film water_surface_film(const Temperature& water_temperature, const AbsolutePressure& vapour_at_surface,
                        const air::MoistAir& room, const Length& length, const Length& width,
                        const Velocity& air_speed);

/// Net long-wave heat flux from a surface to surroundings of one temperature that enclose it.
/// @param emissivity  of the surface, 0 to 1
/// @throws InvalidInput  a temperature not positive or not finite, emissivity outside 0 to 1
HeatFlux radiative_flux(const Temperature& surface, const Temperature& surroundings, double emissivity);

/// Long-wave film coefficient, W/m2/K: the flux above over the temperature difference, defined also where that is zero.
/// @throws as above
ThermalTransmittance radiative_film(const Temperature& surface, const Temperature& surroundings, double emissivity);

}  // namespace theca::thermal
