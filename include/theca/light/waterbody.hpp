// The water that light enters, and the walls around it.
#pragma once

#include <optional>

#include "theca/light/tank_parts.hpp"
#include "theca/units.hpp"

namespace theca::light {

enum class Walls {
  ignored,  ///< plain superposition: the surface is taken as unbounded and no ray meets a wall
  mirror,   ///< only rays that enter through the tank's own surface count; each meeting with a wall under water
            ///< reflects them with the wall reflectance (0: black walls)
  pane,     ///< the same rays meet clear panes with air behind: Fresnel at both faces and the way through the pane and
            ///< back. All that came in within about 62 deg of the vertical is totally reflected
  each      ///< as Waterbody::sides says, wall by wall
};

/// The water that the light enters: a rectangular tank with vertical walls.
struct Waterbody {
  Length length;            ///< inside, along x, > 0, at most 10 km
  Length width;             ///< inside, along y, > 0, at most 10 km
  double refractive_index;  ///< 1 to 2
  Attenuation attenuation;  ///< absorbed share per length of path, >= 0
  Walls walls = Walls::ignored;
  double wall_reflectance = 0.0;  ///< 0 to 1, the same at every angle; used by Walls::mirror
  ClearPane pane{};               ///< all four walls; used by Walls::pane
  SideWalls sides{};              ///< used by Walls::each
  Length freeboard{};             ///< of the walls above the water, 0 to 10 m; luminaires hang higher
  Braces braces{};                ///< no thicker than the freeboard
  std::optional<Cover> cover = std::nullopt;
  double slope_variance = 0.0;  ///< mean square slope of a ruffled surface, both directions together, 0 (flat) to 0.05
};
void require_valid(const Waterbody& water);

/// The four walls, however the water names them. All ignored with Walls::ignored.
SideWalls side_walls(const Waterbody& water);

}  // namespace theca::light
