#include "theca/light/waterbody.hpp"

#include <string>

#include "limits.hpp"
#include "theca/require.hpp"

namespace theca::light {
namespace {

void require_valid_pane(const std::string& name, const ClearPane& pane, double least_index) {
  require::within(name + " thickness", pane.thickness, Length(), 1.0 * units::metre);
  require::that(pane.refractive_index >= least_index && pane.refractive_index <= 2.0, name + " refractive index",
                pane.refractive_index, "that of the water to 2");
  require::not_negative(name + " attenuation", pane.attenuation);
}

void require_valid_wall(const std::string& name, const SideWall& wall, double water_index) {
  if (wall.kind == WallKind::pane) require_valid_pane(name + " pane", wall.pane, water_index);
  if (wall.kind != WallKind::coated) return;
  require::within(name + " mirror share", wall.mirror_share, 0.0, 1.0);
}

void require_valid_braces(const Waterbody& water) {
  const Braces& braces = water.braces;
  require::not_negative("rim brace width", braces.rim_width);
  require::not_negative("cross brace width", braces.cross_width);
  for (const Length& at : braces.cross_at) require::within("cross brace at", at, Length(), water.length);
  const bool any = si(braces.rim_width) > 0.0 || (si(braces.cross_width) > 0.0 && !braces.cross_at.empty());
  if (!any) return;
  require_valid_pane("brace", braces.pane, water.refractive_index);
  // Light that crosses a clear strip from side to side is totally reflected at its faces from the root of 2 up.
  if (!braces.opaque) require::within("refractive index of the brace", braces.pane.refractive_index, 1.42, 2.0);
  require::that(braces.pane.thickness <= water.freeboard, "brace thickness", braces.pane.thickness,
                "at most the freeboard, " + text(water.freeboard));
}

}  // namespace

void require_valid(const Waterbody& water) {
  limits::tank_side("water length", water.length);
  limits::tank_side("water width", water.width);
  limits::refractive_index("refractive index", water.refractive_index);
  require::not_negative("attenuation", water.attenuation);
  require::within("wall reflectance", water.wall_reflectance, 0.0, 1.0);
  if (water.walls == Walls::pane) require_valid_pane("pane", water.pane, water.refractive_index);
  if (water.walls == Walls::each) {
    require_valid_wall("left wall", water.sides.left, water.refractive_index);
    require_valid_wall("right wall", water.sides.right, water.refractive_index);
    require_valid_wall("front wall", water.sides.front, water.refractive_index);
    require_valid_wall("back wall", water.sides.back, water.refractive_index);
  }
  require::within("freeboard", water.freeboard, Length(), 10.0 * units::metre);
  require_valid_braces(water);
  if (water.cover) {
    require::that(si(water.cover->height) > 0.0 && water.cover->height >= water.freeboard, "cover height",
                  water.cover->height, "> 0 m and at least the freeboard, " + text(water.freeboard));
    require_valid_pane("cover", water.cover->pane, water.refractive_index);
  }
  require::within("slope variance", water.slope_variance, 0.0, 0.05);
}

SideWalls side_walls(const Waterbody& water) {
  SideWall wall;
  switch (water.walls) {
    case Walls::each:
      return water.sides;
    case Walls::ignored:
      wall.kind = WallKind::ignored;
      break;
    case Walls::mirror:
      wall.kind = WallKind::coated;
      wall.mirror_share = water.wall_reflectance;
      break;
    case Walls::pane:
      wall.pane = water.pane;
      break;
  }
  return {.left = wall, .right = wall, .front = wall, .back = wall};
}

}  // namespace theca::light
