// The light on a plane of any slope: the glass of a tank, a sloping rack, the side of a block of stock.
#pragma once

#include <span>

#include "theca/light/field.hpp"
#include "theca/units.hpp"

namespace theca::light {

/// A rectangle in the tank. From its lowest corner one side runs level, the other one to the left of it, rising by the
/// slope. The side that looks up is lit, a vertical one from the right of the level side.
struct SlopingPlane {
  Length x;  ///< of the corner
  Length y;
  Length depth;     ///< of the corner below the surface
  Length length;    ///< of the level side, > 0
  Length width;     ///< of the rising side, > 0
  Angle azimuth{};  ///< of the level side from the tank's length; any finite angle
  Angle slope{};    ///< 0 is level, 90 deg vertical; to 180 deg it leans over and is lit from below
};

/// Photon flux density at the centres of nx x ny cells of the plane, as new; row-major along the level side. The map's
/// length and width are the plane's, its x and y run along the plane's sides, its plane_depth is the corner's.
/// @param nx, ny     1 to 2000
/// @param spherical  counts photons from all directions alike
/// @throws InvalidInput  also where a corner lies outside the tank or above the water
/// @throws NotConverged
PpfdMap map(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const SlopingPlane& plane, int nx,
            int ny, bool spherical = false);

}  // namespace theca::light
