#include "scene.hpp"

#include <cmath>

#include "limits.hpp"
#include "theca/require.hpp"

namespace theca::light {
namespace {

void add_points(Scene& scene, const PlacedLuminaire& placed) {
  const Luminaire& lamp = placed.luminaire;
  scene.intensities.emplace_back(lamp.intensity);
  const double cos_heading = std::cos(si(placed.heading)), sin_heading = std::sin(si(placed.heading));
  const double share = 1.0 / (static_cast<double>(lamp.points_along) * static_cast<double>(lamp.points_across));
  for (int j = 0; j < lamp.points_across; ++j)
    for (int i = 0; i < lamp.points_along; ++i) {
      const double along =
          ((static_cast<double>(i) + 0.5) / static_cast<double>(lamp.points_along) - 0.5) * si(lamp.aperture_length);
      const double across =
          ((static_cast<double>(j) + 0.5) / static_cast<double>(lamp.points_across) - 0.5) * si(lamp.aperture_width);
      scene.points.push_back({.x_m = si(placed.x) + along * cos_heading - across * sin_heading,
                              .y_m = si(placed.y) + along * sin_heading + across * cos_heading,
                              .height_m = si(placed.mounting_height),
                              .share = share,
                              .intensity = scene.intensities.size() - 1,
                              .cos_heading = cos_heading,
                              .sin_heading = sin_heading});
    }
}

}  // namespace

Scene make_scene(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const Length& plane_depth,
                 const Receiver& receiver) {
  require_valid(water);
  require::within("tilt of the receiver", receiver.tilt, Angle(), 180.0 * units::degree);
  require::finite("azimuth of the receiver", receiver.azimuth);
  limits::depth("plane depth", plane_depth);
  require::that(!luminaires.empty(), "number of luminaires", 0.0, "at least 1");
  Scene scene{.intensities = {},
              .points = {},
              .optics = {water.refractive_index, si(water.attenuation)},
              .length_m = si(water.length),
              .width_m = si(water.width),
              .depth_m = si(plane_depth),
              .walls = water.walls,
              .wall_reflectance = water.wall_reflectance,
              .pane = {si(water.pane.thickness), water.pane.refractive_index, si(water.pane.attenuation)},
              .spherical = receiver.spherical,
              .facing_x = std::sin(si(receiver.tilt)) * std::cos(si(receiver.azimuth)),
              .facing_y = std::sin(si(receiver.tilt)) * std::sin(si(receiver.azimuth)),
              .facing_up = std::cos(si(receiver.tilt))};
  for (const auto& placed : luminaires) {
    require_valid(placed);
    add_points(scene, placed);
  }
  return scene;
}

}  // namespace theca::light
