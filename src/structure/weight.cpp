#include "theca/structure/weight.hpp"

#include "theca/require.hpp"

namespace theca::structure {
namespace {

void require_possible(const TankShell& tank) {
  require::positive("outside length", tank.outside_length);
  require::positive("outside width", tank.outside_width);
  require::positive("outside height", tank.outside_height);
  require::positive("wall thickness", tank.wall_thickness);
  require::positive("base thickness", tank.base_thickness);
  require::that(
      2.0 * si(tank.wall_thickness) < si(tank.outside_length) && 2.0 * si(tank.wall_thickness) < si(tank.outside_width),
      "wall thickness", tank.wall_thickness, "under half of the outside length and width");
  require::that(si(tank.base_thickness) < si(tank.outside_height), "base thickness", tank.base_thickness,
                "under the outside height");
}

}  // namespace

Length inside_length(const TankShell& tank) {
  require_possible(tank);
  return tank.outside_length - 2.0 * tank.wall_thickness;
}

Length inside_width(const TankShell& tank) {
  require_possible(tank);
  return tank.outside_width - 2.0 * tank.wall_thickness;
}

Length wall_height(const TankShell& tank) {
  require_possible(tank);
  return tank.outside_height - tank.base_thickness;
}

Area inside_area(const TankShell& tank) { return inside_length(tank) * inside_width(tank); }

Volume volume_at(const TankShell& tank, const Length& depth) {
  require::within("water depth", depth, Length(), wall_height(tank));
  return inside_area(tank) * depth;
}

Volume water_volume(const TankShell& tank) { return volume_at(tank, tank.water_depth); }

Volume shell_volume(const TankShell& tank) {
  const Area outside = tank.outside_length * tank.outside_width;
  return outside * tank.base_thickness + (outside - inside_area(tank)) * wall_height(tank);
}

TankWeight weigh(const TankShell& tank, const Length& depth, const Density& water, const Mass& stand, const Mass& load,
                 const Acceleration& gravity) {
  require::positive("shell density", tank.material.density);
  require::positive("water density", water);
  require::not_negative("stand mass", stand);
  require::not_negative("load mass", load);
  require::positive("gravity", gravity);
  TankWeight w;
  w.shell = shell_volume(tank) * tank.material.density;
  w.water = volume_at(tank, depth) * water;
  w.stand = stand;
  w.load = load;
  w.total = w.shell + w.water + w.stand + w.load;
  w.weight = w.total * gravity;
  return w;
}

TankWeight weigh(const TankShell& tank, const Density& water, const Mass& stand, const Mass& load,
                 const Acceleration& gravity) {
  return weigh(tank, tank.water_depth, water, stand, load, gravity);
}

}  // namespace theca::structure
