// From how many sides light comes to a place: few lamps cast hard shadows, many or wide ones reach around a colony.
#pragma once

#include <span>
#include <vector>

#include "theca/light/field.hpp"
#include "theca/light/shading_bodies.hpp"

namespace theca::light {

/// A bundle of paths that come from nearly the same side.
struct LightDirection {
  Angle from_vertical;  ///< of where it comes from, 0 is straight above
  Angle azimuth;        ///< of that side, -180 to 180 deg; 0 is along the tank's length, 90 deg across it
  double share = 0.0;   ///< of the scalar irradiance (photons from all directions alike) of all directions
};

/// The directions of the light at a place under water, strongest first; shares add up to 1.
///
/// The strongest path gathers all those within `apart` of it, then the strongest of those left, and so on. Emitter
/// points of one luminaire, which lie close together, thus count as one direction unless it hangs low.
/// @param apart   > 0 to 90 deg; 10 deg tells luminaires 20 cm apart at 1 m
/// @param bodies  that may stand in the way
/// @returns none where no light comes
/// @throws InvalidInput  as ppfd_at(), require_valid(); apart out of range
std::vector<LightDirection> light_directions(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                                             const Length& depth, const Length& x, const Length& y,
                                             const Angle& apart = 10.0 * units::degree,
                                             const ShadingBodies& bodies = {});

/// How many of them bring at least this share.
/// @param least_share  > 0 to 1; 0.05 is a use, no source
/// @throws InvalidInput
int distinct_directions(const std::vector<LightDirection>& directions, double least_share = 0.05);

}  // namespace theca::light
