// The water that light enters, and the walls around it.
#pragma once

#include "theca/units.hpp"

namespace theca::light {

enum class Walls {
  ignored,  ///< plain superposition: the surface is taken as unbounded and no ray meets a wall
  mirror,   ///< only rays that enter through the tank's own surface count; each meeting with a wall under water
            ///< reflects them with the wall reflectance (0: black walls)
  pane      ///< the same rays meet clear panes with air behind: Fresnel at both faces and the way through the pane and
            ///< back. All that came in within about 62 deg of the vertical is totally reflected
};

/// What the walls are made of.
struct ClearPane {
  Length thickness = 12.0 * units::millimetre;  ///< 0 to 1 m
  double refractive_index = 1.52;               ///< soda-lime glass; acrylic 1.49. From the water's to 2
  Attenuation attenuation{};                    ///< absorbed share per length of path, >= 0; clear float about 10/m
};

/// The water that the light enters: a rectangular tank with vertical walls and a flat surface, full to the brim.
struct Waterbody {
  Length length;            ///< inside, along x, > 0, at most 10 km
  Length width;             ///< inside, along y, > 0, at most 10 km
  double refractive_index;  ///< 1 to 2
  Attenuation attenuation;  ///< absorbed share per length of path, >= 0
  Walls walls = Walls::ignored;
  double wall_reflectance = 0.0;  ///< 0 to 1, the same at every angle; used by Walls::mirror
  ClearPane pane{};               ///< all four walls; used by Walls::pane
};
void require_valid(const Waterbody& water);

}  // namespace theca::light
