#include "theca/light/waterbody.hpp"

#include "limits.hpp"
#include "theca/require.hpp"

namespace theca::light {

void require_valid(const Waterbody& water) {
  limits::tank_side("water length", water.length);
  limits::tank_side("water width", water.width);
  limits::refractive_index("refractive index", water.refractive_index);
  require::not_negative("attenuation", water.attenuation);
  require::within("wall reflectance", water.wall_reflectance, 0.0, 1.0);
  if (water.walls != Walls::pane) return;
  require::within("pane thickness", water.pane.thickness, Length(), 1.0 * units::metre);
  require::that(water.pane.refractive_index >= water.refractive_index && water.pane.refractive_index <= 2.0,
                "pane refractive index", water.pane.refractive_index, "that of the water to 2");
  require::not_negative("pane attenuation", water.pane.attenuation);
}

}  // namespace theca::light
