// What bounds the water that light enters, and what stands above it: side walls, braces, cover.
#pragma once

#include <vector>

#include "theca/units.hpp"

namespace theca::light {

/// A flat clear plate.
struct ClearPane {
  Length thickness = 12.0 * units::millimetre;  ///< 0 to 1 m
  double refractive_index = 1.52;               ///< soda-lime glass; acrylic 1.49. From the water's to 2
  Attenuation attenuation{};                    ///< absorbed share per length of path, >= 0; clear float about 10/m
};

enum class WallKind {
  ignored,  ///< the water and its surface go on beyond; what crosses from inside does not come back
  pane,     ///< clear, air behind: Fresnel at both faces and the way through the pane and back
  coated    ///< opaque: a share mirrored, the rest absorbed; black where that share is 0
};

struct SideWall {
  WallKind kind = WallKind::pane;
  ClearPane pane{};           ///< used by WallKind::pane
  double mirror_share = 0.0;  ///< of WallKind::coated, 0 to 1, the same at every angle
};

struct SideWalls {
  SideWall left{};   ///< at x = 0
  SideWall right{};  ///< at x = length
  SideWall front{};  ///< at y = 0
  SideWall back{};   ///< at y = width
};

/// Level strips between the side walls, their top flush with the walls' upper edge. Clear ones also by their upright
/// sides: these mirror what went in by the top (total reflection) and part of what falls on them from the opening; what
/// goes in by one side of a cross brace comes out by the other. Lost is what goes from a strip on into a wall's pane,
/// what meets more than one side (but for crossing), and all that meets a side of an opaque strip.
struct Braces {
  Length rim_width{};              ///< of the strip all round, measured from the walls' inside; 0: none
  Length cross_width{};            ///< of each strip across the width; 0: none
  std::vector<Length> cross_at{};  ///< x of their centre lines
  bool opaque = false;             ///< clear ones refract, reflect and absorb
  ClearPane pane{};                ///< also opaque ones have its thickness; index 1.42 to 2 if clear
};

/// A splash screen or lid, air below; it reaches beyond the walls, so that no light comes in past it.
struct Cover {
  Length height{};  ///< of its lower face above the water, > 0, not below the walls' upper edge
  ClearPane pane{};
};

}  // namespace theca::light
