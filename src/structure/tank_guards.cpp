#include <algorithm>
#include <optional>
#include <string>

#include "tank_model.hpp"
#include "theca/require.hpp"

namespace theca::structure::detail {
namespace {

void require_bead(const std::string& owner, const std::optional<AdhesiveBead>& bead) {
  if (!bead) return;
  require::positive(owner + " thickness", bead->thickness);
  require::positive(owner + " bite", bead->bite);
  require::positive(owner + " Young's modulus", bead->youngs_modulus);
  (void)joint_stiffness(*bead);
}

}  // namespace

void require_possible(const Tank& tank, const TankLoad& load, JointModel joints) {
  require::positive("inside length", tank.inside_length);
  require::positive("inside width", tank.inside_width);
  require::positive("wall height", tank.wall_height);
  require::positive("wall thickness", tank.wall_thickness);
  require::positive("base thickness", tank.base_thickness);
  materials::require_possible(tank.material);
  require::valid("thin plates", "wall thickness / wall height", si(tank.wall_thickness) / si(tank.wall_height),
                 1.0 / 2000.0, 0.1);
  require::valid("thin plates", "wall thickness / shorter inside length",
                 si(tank.wall_thickness) / std::min(si(tank.inside_length), si(tank.inside_width)), 0.0, 0.1);
  require::valid("thin plates", "base thickness / shorter inside length",
                 si(tank.base_thickness) / std::min(si(tank.inside_length), si(tank.inside_width)), 0.0, 0.25);
  for (const Length& side : {tank.inside_length, tank.inside_width})
    require::valid("folded plates", "inside length or width / wall height", si(side) / si(tank.wall_height), 0.1, 20.0);
  require::positive("water depth", load.water_depth);
  require::positive("water density", load.water);
  require::positive("gravity", load.gravity);
  require::valid("tilt", "rise along", load.rise_along, -0.1, 0.1);
  require::valid("tilt", "rise across", load.rise_across, -0.1, 0.1);
  const Length deepest = load.water_depth + 0.5 * (std::abs(load.rise_along) * tank.inside_length +
                                                   std::abs(load.rise_across) * tank.inside_width);
  require::that(deepest.value() <= tank.wall_height.value(), "water depth", load.water_depth,
                "at its deepest end, " + text(deepest) + ", at most the wall height, " + text(tank.wall_height));
  if (joints == JointModel::as_bonded)
    require::that(tank.joint.has_value(), "tank joint", 0.0, "an adhesive bead, for joints as bonded");
  require_bead("tank joint", tank.joint);
  if (tank.support == TankSupport::foam) require::positive("foundation", tank.foundation);
  if (tank.support == TankSupport::perimeter)
    require::that(tank.edge_stiffness.value() > 0.0, "edge stiffness", tank.edge_stiffness, "> 0, infinite when rigid");
  Length opening = tank.inside_width;
  if (tank.rim) {
    const TankRimBrace& rim = *tank.rim;
    require::positive("rim brace width", rim.width);
    require::positive("rim brace thickness", rim.thickness);
    materials::require_possible(rim.material);
    require::valid("thin plates", "rim brace thickness / width", si(rim.thickness) / si(rim.width), 0.0, 0.5);
    opening -= 2.0 * rim.width;
    require::that(opening.value() > 0.1 * tank.inside_width.value() &&
                      (tank.inside_length - 2.0 * rim.width).value() > 0.1 * tank.inside_length.value(),
                  "rim brace width", rim.width, "small enough to leave an opening");
    require_bead("rim brace bond", rim.bond);
  }
  Length free_from = tank.rim ? tank.rim->width : Length();
  auto rising = tank.cross_braces;
  std::sort(rising.begin(), rising.end(), [](const auto& p, const auto& q) { return p.at.value() < q.at.value(); });
  for (const TankCrossBrace& brace : rising) {
    require::positive("cross brace width", brace.width);
    require::positive("cross brace thickness", brace.thickness);
    materials::require_possible(brace.material);
    require::valid("thin plates", "cross brace thickness / width", si(brace.thickness) / si(brace.width), 0.0, 0.5);
    require::that((brace.at - 0.5 * brace.width).value() >= free_from.value() &&
                      (brace.at + 0.5 * brace.width).value() <=
                          (tank.inside_length - (tank.rim ? tank.rim->width : Length())).value(),
                  "cross brace place", brace.at, "clear of the end walls, the rim strips and the other cross braces");
    free_from = brace.at + 0.5 * brace.width;
    require_bead("cross brace bond", brace.bond);
  }
  for (const RimLoad& r : load.rim_loads) {
    require::that(r.on <= TankPart::right_wall, "rim load wall", double(static_cast<int>(r.on)),
                  "one of the four walls");
    const Length span = r.on <= TankPart::back_wall ? tank.inside_length : tank.inside_width;
    require::positive("rim load length", r.length);
    require::that((r.along - 0.5 * r.length).value() >= 0.0 && (r.along + 0.5 * r.length).value() <= span.value(),
                  "rim load place", r.along, "with its whole length on the rim, 0 to " + text(span));
    require::finite("rim load down", r.down);
    require::finite("rim load outward", r.outward);
  }
}

}  // namespace theca::structure::detail
