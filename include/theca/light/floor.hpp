// A matt floor under the water: what falls on it comes back to all sides, and part of that once more from the surface.
#pragma once

#include <span>

#include "theca/light/field.hpp"

namespace theca::light {

/// Returns what falls on it alike to all sides (Lambert).
struct DiffuseFloor {
  Length depth;  ///< below the surface, > 0
  double reflectance =
      0.0;  ///< 0 to 1; bare glass over a dark stand about 0.05, pale sand 0.4; common practice, no source
};

/// Photon flux density on the floor.
struct FloorLight {
  DiffuseFloor floor;
  PpfdMap direct;  ///< straight from the luminaires, by way of walls
  PpfdMap total;   ///< with all that goes to and fro between floor, surface and walls
};

/// The floor as nx x ny patches of even light: radiosity, solved for all of them at once.
///
/// What leaves a patch reaches the others by way of the underside of a flat surface (Fresnel, total beyond the critical
/// angle: about 48 % of diffuse light is thrown back) and of the walls: panes with all that goes to and fro inside
/// them, but not moved aside; coated and mirror walls as they are; ignored ones let it go. Wall images are followed as
/// far as a thousandth of the light. Left out: what cover, braces and the air above throw back; scattering.
/// @param nx, ny  1 to 100, together at most 2500 patches; 0.6 s for 24 x 8 between panes
/// @throws InvalidInput  as map(); floor not in its range
FloorLight floor_light(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const DiffuseFloor& floor,
                       int nx = 24, int ny = 8);

/// Photon flux density that a receiver gets from the floor: straight from below, and from the surface's underside.
/// @param water  as for floor_light()
/// @param depth  0 to the floor's
/// @throws InvalidInput  a place outside the tank or under the floor; floor light without patches
PhotonFluxDensity ppfd_from_floor_at(const FloorLight& light, const Waterbody& water, const Length& depth,
                                     const Length& x, const Length& y, const Receiver& receiver = {});

/// map() with what comes from the floor added.
/// @throws InvalidInput  as map(), floor_light() with its default patches, ppfd_from_floor_at()
PpfdMap map_with_floor(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const DiffuseFloor& floor,
                       const Length& plane_depth, int nx, int ny, const Receiver& receiver = {});

}  // namespace theca::light
