#include "theca/light/plane_map.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "arrivals.hpp"
#include "limits.hpp"
#include "map_cells.hpp"
#include "theca/require.hpp"

namespace theca::light {
namespace {

struct Spot {
  double x_m, y_m, depth_m;
};

Spot spot_on(const SlopingPlane& plane, double level_m, double rising_m) {
  const double cos_azimuth = std::cos(si(plane.azimuth)), sin_azimuth = std::sin(si(plane.azimuth));
  const double out_m = rising_m * std::cos(si(plane.slope));
  return {si(plane.x) + level_m * cos_azimuth - out_m * sin_azimuth,
          si(plane.y) + level_m * sin_azimuth + out_m * cos_azimuth,
          si(plane.depth) - rising_m * std::sin(si(plane.slope))};
}

void require_in_water(const SlopingPlane& plane, const Waterbody& water) {
  require::positive("length of the plane", plane.length);
  require::positive("width of the plane", plane.width);
  require::finite("azimuth of the plane", plane.azimuth);
  require::within("slope of the plane", plane.slope, Angle(), 180.0 * units::degree);
  // Corners that touch a wall or the surface may miss it by a rounding.
  const Length rounding = 1e-9 * (water.length + water.width + plane.length + plane.width);
  for (const double level : {0.0, si(plane.length)})
    for (const double rising : {0.0, si(plane.width)}) {
      const Spot corner = spot_on(plane, level, rising);
      require::within("x of a corner of the plane", from_si<Length>(corner.x_m), -rounding, water.length + rounding);
      require::within("y of a corner of the plane", from_si<Length>(corner.y_m), -rounding, water.width + rounding);
      require::within("depth of a corner of the plane", from_si<Length>(corner.depth_m), -rounding, limits::deepest);
    }
}

}  // namespace

PpfdMap map(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const SlopingPlane& plane, int nx,
            int ny, bool spherical) {
  require_valid(water);
  require_in_water(plane, water);
  require_cells(nx, ny);
  Scene scene =
      make_scene(luminaires, water, plane.depth,
                 {.spherical = spherical, .tilt = plane.slope, .azimuth = plane.azimuth - 90.0 * units::degree});
  PpfdMap result{.nx = nx,
                 .ny = ny,
                 .length = plane.length,
                 .width = plane.width,
                 .plane_depth = plane.depth,
                 .values = {},
                 .walls = water.walls,
                 .wall_reflectance = water.wall_reflectance};
  std::vector<Arrival> arrivals;
  for (int j = 0; j < ny; ++j) {
    scene.depth_m = std::max(0.0, spot_on(plane, 0.0, si(result.y(j))).depth_m);
    tabulate_paths(scene, static_cast<std::size_t>(nx));
    for (int i = 0; i < nx; ++i) {
      const Spot spot = spot_on(plane, si(result.x(i)), si(result.y(j)));
      gather_arrivals(scene, std::clamp(spot.x_m, 0.0, scene.length_m), std::clamp(spot.y_m, 0.0, scene.width_m),
                      arrivals);
      result.values.push_back(sum_of(arrivals));
    }
  }
  return result;
}

}  // namespace theca::light
