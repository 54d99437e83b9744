// Shade: what colonies, pipes and upper tiers take of the light, on a plane and on the tops and flanks of a colony.
#pragma once

#include <span>
#include <vector>

#include "theca/light/field.hpp"
#include "theca/light/shading_bodies.hpp"

namespace theca::light {

/// One receiver with nothing in the way, and with all that is.
struct ShadedLight {
  PhotonFluxDensity unshaded;
  PhotonFluxDensity shaded;
};

/// Share that is taken away, 0 to 1: of what this receiver, facing as it does, would get without the bodies. Against
/// the light on a top, more luminaires would seem to shade a flank more. 0 where no light comes in any case.
/// @throws InvalidInput  shaded more than unshaded, negative or not finite
double shaded_share(const ShadedLight& light);

/// ppfd_at() without and with the bodies.
///
/// Each path of the field is followed back from the receiver to the luminaire's emitter point, mirrored at the walls,
/// and dropped where it meets a body. Shadows of an aperture are as soft as its points are many. What the bodies
/// themselves scatter or let through is left out: living tissue returns some per cent. Behind a pane, before a cover
/// and under a brace paths are followed as if those did not move them sideways (some mm).
/// @throws InvalidInput  as ppfd_at() and require_valid(); a receiver inside a body is dark, not refused
ShadedLight shaded_ppfd_at(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                           const ShadingBodies& bodies, const Length& plane_depth, const Length& x, const Length& y,
                           const Receiver& receiver = {});

struct ShadowMap {
  PpfdMap unshaded;
  PpfdMap shaded;
};

/// The same at the centres of nx x ny cells.
/// @param nx, ny  1 to 2000
/// @throws InvalidInput
ShadowMap shadow_map(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const ShadingBodies& bodies,
                     const Length& plane_depth, int nx, int ny, const Receiver& receiver = {});

/// Light on the surface of a colony.
struct ColonyLight {
  ShadedLight top;    ///< mean over the area that faces up
  ShadedLight flank;  ///< mean over the area that faces sideways; 0 for a disc
  /// The flank by equal sectors, the first facing along the tank's length, then turning to its width; empty for a disc.
  std::vector<ShadedLight> sectors;
};

/// Share of the flank's sectors that get less than a share of what the flank would get on average unshaded: the sides
/// that stay dark, by their own aspect or by neighbours. 0 without a flank.
/// @param threshold  > 0 to 1
/// @throws InvalidInput
double dark_flank_share(const ColonyLight& light, double threshold);

/// Top and flank of a colony among other bodies. What its own body hides from a place counts as unshaded no more than
/// as shaded: all behind that place's horizon, and what walls would return of light that had to pass the colony first.
/// @param others   all other bodies, not the colony itself
/// @param sectors  around the flank, 4 to 360
/// @throws InvalidInput  also a colony that is not inside the tank
ColonyLight colony_light(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                         const ShadingCylinder& colony, const ShadingBodies& others, int sectors = 16);

/// The same; top is what faces within 45 degrees of straight up, flank the rest, 71 % of the dome.
ColonyLight colony_light(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                         const ShadingHemisphere& colony, const ShadingBodies& others, int sectors = 16);

/// The same; only a top.
ColonyLight colony_light(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const ShadingDisc& colony,
                         const ShadingBodies& others, int sectors = 16);

}  // namespace theca::light
