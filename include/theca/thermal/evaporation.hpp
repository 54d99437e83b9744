// Evaporation from an open water surface: four published models side by side, a central value and the spread.
#pragma once

#include <array>
#include <cmath>
#include <string_view>

#include "theca/air.hpp"
#include "theca/require.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

namespace kernel {

/// Mass flux in kg/m2/s; negative where the room's vapour condenses on the water.
/// @source Carrier 1918 as given in ASHRAE Handbook HVAC Applications, natatoriums:
///         w = A (p_w - p_a)(0.089 + 0.0782 V)/Y, p in kPa, Y in kJ/kg, V in m/s, times an activity factor; here p in
///         Pa and Y in J/kg, which leaves the constants as they are. The original (95 + 0.425 v)(p_w - p_a)/Y in
///         lb/h/ft2, inHg, Btu/lb, ft/min converts to 0.0885 + 0.0779 V
template <class T>
T evaporation_ashrae(const T& vapour_pressure_difference_Pa, const T& air_speed_m_s, const T& latent_heat_J_kg,
                     const T& activity) {
  return activity * vapour_pressure_difference_Pa * (T(0.089) + T(0.0782) * air_speed_m_s) / latent_heat_J_kg;
}

/// Undisturbed pool: 74 % of Carrier's equation.
/// @source Smith, Loef & Jones 1998, ASHRAE Transactions 104(1A), abstract: W = (95 + 0.425 v)(p_w - p_a)/Y; "in
///         undisturbed pools ... 74 %"
template <class T>
T evaporation_smith_lof_jones(const T& vapour_pressure_difference_Pa, const T& air_speed_m_s,
                              const T& latent_heat_J_kg) {
  constexpr double Btu_h_ft2 = 1055.05585262 / 3600.0 / (0.3048 * 0.3048);  // W/m2
  constexpr double inHg = 3386.389;                                         // Pa, NIST SP 811 (2008) B.8, 0 degC
  constexpr double ft_min = 0.3048 / 60.0;                                  // m/s
  return T(0.74 * Btu_h_ft2 / inHg) * (T(95.0) + T(0.425 / ft_min) * air_speed_m_s) * vapour_pressure_difference_Pa /
         latent_heat_J_kg;
}

/// Undisturbed water, kg/m2/s: the larger in magnitude of natural convection C rho_w (rho_r - rho_w)^(1/3) (W_w - W_r)
/// and of the air currents' b (p_w - p_r), the latter alone where the air at the surface is the heavier, and grown with
/// (u/0.15)^0.7 under a fan.
/// @param dry_density_*  mass of DRY air per volume of moist air, at the surface (saturated over the water) and in the
///                       room; with moist densities in their place the result is 10 % and more too low
/// @param air_speed_m_s  below 0.15 m/s the air counts as quiet and its speed as no matter
/// @source Shah 2014, ASHRAE Transactions 120(2): C = 35 for kg/m2/h, confirmed against all of his table for unoccupied
///         pools (rho_r - rho_w from 0.012 to 0.035 kg/m3). His papers of 2002 and 2003 had C = 40 below 0.02 kg/m3,
///         which that table does not follow. b = 0.00005 kg/m2/h/Pa and the power of the air speed from memory. For
///         condensation the same expressions are used with their sign, beyond his data
template <class T>
T evaporation_shah(const T& dry_density_at_surface_kg_m3, const T& dry_density_in_room_kg_m3,
                   const T& humidity_ratio_at_surface, const T& humidity_ratio_in_room,
                   const T& vapour_pressure_difference_Pa, const T& air_speed_m_s) {
  using std::abs;
  using std::pow;
  T forced = T(5e-5) * vapour_pressure_difference_Pa;
  if (air_speed_m_s > T(0.15)) forced = forced * pow(air_speed_m_s / T(0.15), 0.7);
  const T lift = dry_density_in_room_kg_m3 - dry_density_at_surface_kg_m3;
  if (!(lift > T(0.0))) return forced / T(3600.0);
  const T natural = T(35.0) * dry_density_at_surface_kg_m3 * pow(lift, 1.0 / 3.0) *
                    (humidity_ratio_at_surface - humidity_ratio_in_room);
  return (abs(natural) > abs(forced) ? natural : forced) / T(3600.0);
}

/// Mass flux from the convective film by the analogy of heat and mass transfer, kg/m2/s.
/// @source Chilton & Colburn 1934: h_m = h / (rho cp Le^(2/3)), Le = thermal diffusivity / vapour diffusivity; vapour
///         density difference taken at the mean temperature, so that its sign is that of the vapour pressures
template <class T>
T evaporation_by_analogy(const T& film_W_m2K, const T& air_density_kg_m3, const T& heat_capacity_J_kgK, const T& lewis,
                         const T& vapour_pressure_difference_Pa, const T& mean_temperature_K) {
  using std::pow;
  constexpr double vapour_gas_constant = 461.52;  // J/kg/K, 8.314463 / 0.018015268
  return film_W_m2K / (air_density_kg_m3 * heat_capacity_J_kgK * pow(lewis, 2.0 / 3.0)) *
         vapour_pressure_difference_Pa / (T(vapour_gas_constant) * mean_temperature_K);
}

}  // namespace kernel

/// An open water surface under room air.
struct EvaporatingSurface {
  Temperature water;
  AbsoluteSalinity salinity = AbsoluteSalinity(0.0);  ///< salt lowers the vapour pressure, by about 2 % at 35 g/kg
  air::MoistAir room;
  Velocity air_speed;     ///< along the surface, >= 0
  Length length, width;   ///< of the surface, > 0
  double activity = 1.0;  ///< factor on the ASHRAE model alone: 0.5 undisturbed, 0.65 residential pool, 1 public pool
};

enum class EvaporationModel { ashrae, smith_lof_jones, shah, heat_mass_analogy };
std::string_view name(EvaporationModel model);

struct ModelEvaporation {
  EvaporationModel model{};
  MassFlux rate;                ///< leaving the water positive, condensing negative
  bool in_fitted_range = true;  ///< false: given for information, not part of the estimate
  std::string_view source;
};

/// Models disagree; the central value never travels without its spread.
struct EvaporationEstimate {
  MassFlux central;    ///< mean of the models in their range; negative means condensation
  MassFlux low, high;  ///< extremes of those models, and at least 25 % either side of central
  HeatFlux latent;     ///< heat that the central value takes from the water
  HeatFlux latent_low, latent_high;
  std::array<ModelEvaporation, 4> models;
};

/// Vapour pressure of the water less that of the room; negative where the room condenses on the water.
/// @throws InvalidInput  temperature, salinity or humidity outside the range of theca/seawater.hpp or theca/air.hpp
Pressure vapour_pressure_difference(const EvaporatingSurface& surface);

/// Evaporation rate per area by one model.
/// @throws InvalidInput   bad field of `surface` (named); OutOfValidity  the film of the analogy beyond its range
MassFlux evaporation_rate(EvaporationModel model, const EvaporatingSurface& surface);

/// True where the model's own data covers the conditions: ASHRAE air speed up to 0.15 m/s (from memory); Smith, Loef &
/// Jones up to 1.3 m/s (from memory); Shah water 7 to 94 degC, air 6 to 35 degC, humidity 28 to 95 % (abstract of Shah
/// 2002), air speed up to 0.15 m/s; the analogy wherever its film is defined. All but the analogy: evaporation only.
bool in_fitted_range(EvaporationModel model, const EvaporatingSurface& surface);

/// Sensible over latent heat at the surface, by the analogy of heat and mass transfer: gamma (T_w - T_r)/(p_w - p_r)
/// with gamma near 61 Pa/K. It is negative where a warmer room heats water that still evaporates.
/// @throws InvalidInput  bad field; OutOfValidity  no vapour pressure difference (under 1e-6 Pa), where it has no value
double bowen_ratio(const EvaporatingSurface& surface);

/// All four models, their mean and spread.
/// @throws InvalidInput  bad field of `surface`, e.g. water outside 0 to 45 degC; OutOfValidity
EvaporationEstimate evaporation(const EvaporatingSurface& surface);

}  // namespace theca::thermal
