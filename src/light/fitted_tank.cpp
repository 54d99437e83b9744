#include "fitted_tank.hpp"

namespace theca::light {
namespace {

PaneOptics optics_of(const ClearPane& pane) {
  return {si(pane.thickness), pane.refractive_index, si(pane.attenuation)};
}

WallOptics optics_of(const SideWall& wall) { return {wall.kind, optics_of(wall.pane), wall.mirror_share}; }

WallPair pair_of(const SideWall& low, const SideWall& high, const Length& side) {
  const bool alike =
      low.kind == WallKind::pane && high.kind == WallKind::pane && low.pane.thickness == high.pane.thickness &&
      low.pane.refractive_index == high.pane.refractive_index && low.pane.attenuation == high.pane.attenuation;
  return {optics_of(low), optics_of(high), si(side), alike};
}

}  // namespace

std::optional<FittedTank> fitted_tank(const Waterbody& water) {
  const SideWalls sides = side_walls(water);
  std::optional<FittedTank> tank(FittedTank{.across_x = pair_of(sides.left, sides.right, water.length),
                                            .across_y = pair_of(sides.front, sides.back, water.width),
                                            .freeboard_m = si(water.freeboard),
                                            .braces = {.rim_m = si(water.braces.rim_width),
                                                       .half_cross_m = 0.5 * si(water.braces.cross_width),
                                                       .cross_at_m = {},
                                                       .opaque = water.braces.opaque,
                                                       .pane = optics_of(water.braces.pane)},
                                            .cover = {},
                                            .slope_deviation = std::sqrt(0.5 * water.slope_variance)});
  for (const Length& at : water.braces.cross_at) tank->braces.cross_at_m.push_back(si(at));
  if (water.cover) tank->cover = CoverOptics{si(water.cover->height), optics_of(water.cover->pane)};
  const bool plain = water.walls != Walls::each && tank->freeboard_m == 0.0 && !tank->braces.any() && !tank->cover &&
                     tank->slope_deviation == 0.0;
  if (plain) tank.reset();
  return tank;
}

}  // namespace theca::light
