// What a map of the light says as a whole: its spread, the share of the plane in a wanted range, photons per energy.
#pragma once

#include <span>

#include "theca/light/field.hpp"
#include "theca/light/luminaire.hpp"
#include "theca/units.hpp"

namespace theca::light {

/// Value that a share of the plane stays at or below: 0 is the darkest cell, 0.5 the median, 1 the brightest; straight
/// between the sorted cells.
/// @param share  0 to 1
/// @throws InvalidInput  also a map without cells
/// @source quantile of type 7, Hyndman & Fan 1996, Am. Stat. 50:361-365
PhotonFluxDensity percentile(const PpfdMap& map, double share);

/// Standard deviation of the cells over their mean; 0 where the plane is dark.
/// @throws InvalidInput  a map without cells
double coefficient_of_variation(const PpfdMap& map);

/// Share of the plane from `least` to `most`, both included.
/// @throws InvalidInput  a map without cells, least negative, most below least
double share_within(const PpfdMap& map, const PhotonFluxDensity& least, const PhotonFluxDensity& most);

/// Photons that arrive on the plane: mean times area.
/// @throws InvalidInput  a map without cells
PhotonFlux photons_on_plane(const PpfdMap& map);

/// Share of the photons that the luminaires send out which arrives on the plane.
/// @throws InvalidInput  a map without cells, no or impossible luminaires
double utilance(const PpfdMap& map, std::span<const PlacedLuminaire> luminaires);

/// Photons on the plane per electricity; 1 umol/J is 3.6 mol/kWh.
/// @throws InvalidInput  as utilance()
PhotonEfficacy delivered_efficacy(const PpfdMap& map, std::span<const PlacedLuminaire> luminaires);

/// Where the luminaires' electricity goes as heat.
struct LightHeat {
  PhotonFlux entering;  ///< photons that enter the water through the tank's surface
  Power to_water;       ///< their energy: all that enters ends as heat of the water and what is in it
  Power to_room;        ///< the rest of the electricity: drivers, what misses the tank, what the surface reflects
};

/// The energy of light that leaves again through panes or the surface counts as the water's: to_water is an upper
/// bound, to_room a lower one.
///
/// @param photons_per_energy  of the luminaires' radiation, photons_per_energy() of its spectrum between the
/// wavelengths
///                            that the photon fluxes count, > 0
/// @param nx, ny              cells of the surface, 1 to 2000
/// @throws InvalidInput  also where more energy entered than the luminaires take
/// @source conservation of energy
LightHeat light_heat(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                     const PhotonEfficacy& photons_per_energy, int nx = 96, int ny = 32);

/// Daily light integral with straight ramps at both ends, which count as part of the photoperiod: PPFD times
/// (photoperiod - half of both ramps).
/// @param ppfd  at full light, >= 0
/// @param photoperiod  0 to 24 h
/// @param dawn, dusk  lengths of the ramps, >= 0, together no longer than the photoperiod
/// @throws InvalidInput
PhotonDose daily_light_integral(const PhotonFluxDensity& ppfd, const Time& photoperiod, const Time& dawn,
                                const Time& dusk);

}  // namespace theca::light
