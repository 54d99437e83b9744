// A lid over a water surface: heat through the humid gap under it. Water evaporates, condenses on the lid and drips
// back: no water is lost, but its heat is.
#pragma once

#include <vector>

#include "theca/air.hpp"
#include "theca/thermal/wall.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// A tight lid over a share of a water surface. What it leaves open, cracks included, is the free share.
struct Lid {
  double covered_share = 1.0;         ///< of the water surface, 0 to 1
  Length gap{};                       ///< water to underside, > 0
  std::vector<Layer> layers = {};     ///< from the underside upwards
  double underside_emissivity = 0.9;  ///< wet or dry, 0 to 1
  double top_emissivity = 0.9;        ///< 0 to 1
};

/// What a lid lies between.
struct LidExposure {
  Temperature water{};
  AbsoluteSalinity salinity = AbsoluteSalinity(0.0);
  air::MoistAir room;
  Temperature surroundings{};  ///< mean radiant temperature over the lid
  Length length{}, width{};    ///< of the lid, > 0
  Velocity air_speed{};        ///< along its top, >= 0
  double water_emissivity = 0.96;
};

/// Heat through a lid per covered area, and where it goes.
struct LidHeat {
  HeatFlux flux{};                               ///< out of the water positive
  HeatFlux flux_low{}, flux_high{};              ///< 25 % on the gap's moist exchange, and the ends of the film on top
  HeatFlux convection{}, radiation{}, latent{};  ///< across the gap; latent is 0 where the lid stays dry
  MassFlux dripping{};                           ///< water that condenses on the underside and falls back, >= 0
  HeatFlux dry_gap{};                            ///< what the same lid would seem to lose were the gap dry air
  Temperature underside{}, top{};
  int iterations = 0;
  HeatFlux residual{};  ///< largest difference of flux in and flux out at any surface
};

/// Steady heat through a lid; underside, layers and top by Newton's method, as wall_heat.
///
/// In the gap: natural convection between the water and the underside, driven by the densities of moist air saturated
/// at both; radiation between the two; and vapour carried by the same convection, condensing on an underside that is
/// below the water's dew point. A lid warmer than that stays dry, and the air under it stands at the water's vapour
/// pressure.
/// @throws InvalidInput  a bad field, named; OutOfValidity  Rayleigh number in the gap above 1e8; NotConverged
/// @source gap: kernel::nusselt_gap_from_below; vapour: Chilton & Colburn 1934, kernel::evaporation_by_analogy. Where
///         the gap only conducts, its exponent 2/3 makes the vapour 5 % too little
LidHeat lid_heat(const Lid& lid, const LidExposure& exposure);

}  // namespace theca::thermal
