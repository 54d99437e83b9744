#include "theca/structure/tank.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "folded_plate.hpp"
#include "plate_basis.hpp"
#include "theca/require.hpp"

namespace theca::structure {
namespace {

using detail::axis_x;
using detail::axis_y;
using detail::axis_z;
using detail::FoldedJoint;
using detail::FoldedPlate;
using detail::FoldedStructure;
using detail::JointSide;

/// A rigid joint gives as much as a hundredth of a thickness of the sheet would: unnoticeable, and kind to the
/// numerics.
constexpr double rigid_per_modulus = 100.0;

void require_bead(const std::string& owner, const std::optional<AdhesiveBead>& bead) {
  if (!bead) return;
  require::positive(owner + " thickness", bead->thickness);
  require::positive(owner + " bite", bead->bite);
  require::positive(owner + " Young's modulus", bead->youngs_modulus);
  (void)joint_stiffness(*bead);
}

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

/// Springs of a joint by their sense; `rotation` about its line.
struct Springs {
  double normal, along, across, rotation;
};

Springs rigid(const materials::Material& m, const Length& thickness, bool turns) {
  const double k = rigid_per_modulus * si(m.youngs_modulus);
  return {k, k, k, turns ? 0.0 : k * si(thickness) * si(thickness) / 12.0};
}

Springs of_bead(const AdhesiveBead& bead) {
  const JointStiffness s = joint_stiffness(bead);
  return {si(s.normal), si(s.shear_along), si(s.shear_across), si(s.rotation)};
}

std::array<double, 3> global(const Springs& s, int normal, int along) {
  std::array<double, 3> k{s.across, s.across, s.across};
  k[static_cast<std::size_t>(normal)] = s.normal;
  k[static_cast<std::size_t>(along)] = s.along;
  return k;
}

int even(double degree, int least, int most) {
  return std::clamp(2 * static_cast<int>(std::ceil(0.5 * degree)), least, most);
}

/// What stands for a part in the folded structure: itself, or its mirror image.
struct PartIndex {
  TankPart part;
  int number;
  int plate;
  bool flipped_x, flipped_y;  ///< the part is the image of the plate
  /// Plates of a long rim strip from its left end on, cut where cross braces meet it; in a mirrored solution up to the
  /// middle. `plate` is the first of them.
  std::vector<int> segments{};
  double length = 0.0;  ///< of the whole strip
};

struct JointIndex {
  TankPart first, second;
  std::size_t joint;
  int normal, along;
};

struct Model {
  FoldedStructure structure;
  std::vector<PartIndex> parts;
  std::vector<JointIndex> joints;
  std::vector<JointIndex> bonds;  ///< strip to wall, or cross brace to strip
};

class Builder {
 public:
  Builder(const Tank& tank, const TankLoad& load, JointModel joints)
      : tank_(tank),
        load_(load),
        a_(si(tank.inside_length + tank.wall_thickness)),
        b_(si(tank.inside_width + tank.wall_thickness)),
        h_(si(tank.wall_height)),
        t_(si(tank.wall_thickness)),
        weight_(si(load.water) * si(load.gravity)),
        glass_(joints == JointModel::as_bonded
                   ? of_bead(*tank.joint)
                   : rigid(tank.material, tank.wall_thickness, joints == JointModel::hinged)) {
    bool symmetric = load.rim_loads.empty();
    mirror_x_ = symmetric && load.rise_along == 0.0;
    for (const TankCrossBrace& brace : tank.cross_braces)
      mirror_x_ =
          mirror_x_ && std::any_of(tank.cross_braces.begin(), tank.cross_braces.end(), [&](const auto& other) {
            return std::abs((brace.at + other.at - tank.inside_length).value()) < 1e-9 * a_ && same(brace, other);
          });
    mirror_y_ = symmetric && load.rise_across == 0.0;
    const bool local = !tank.cross_braces.empty() || !load.rim_loads.empty();
    const double half = mirror_x_ ? 1.0 : 1.15;
    along_degree_ = even(half * (7.0 + 0.9 * a_ / h_ + (local ? 4.0 : 0.0)), 10, detail::max_plate_degree);
    across_degree_ = even(7.0 + 0.9 * b_ / h_, 8, detail::max_plate_degree);
  }

  Model build() {
    add_strips();
    add_walls_and_base();
    join_walls();
    join_strips();
    return std::move(model_);
  }

 private:
  static bool same(const std::optional<AdhesiveBead>& p, const std::optional<AdhesiveBead>& q) {
    if (!p || !q) return p.has_value() == q.has_value();
    return p->thickness == q->thickness && p->bite == q->bite && p->youngs_modulus == q->youngs_modulus &&
           p->poisson_ratio == q->poisson_ratio;
  }
  static bool same(const TankCrossBrace& p, const TankCrossBrace& q) {
    return p.width == q.width && p.thickness == q.thickness && p.material.youngs_modulus == q.material.youngs_modulus &&
           p.material.poisson_ratio == q.material.poisson_ratio && p.material.density == q.material.density &&
           same(p.bond, q.bond);
  }
  double twice_x() const { return mirror_x_ ? 2.0 : 1.0; }
  double twice_y() const { return mirror_y_ ? 2.0 : 1.0; }

  int add(TankPart part, FoldedPlate plate, int number = 0) {
    const int index = static_cast<int>(model_.structure.plates.size());
    model_.structure.plates.push_back(std::move(plate));
    model_.parts.push_back({part, number, index, false, false});
    return index;
  }
  void image(TankPart part, int plate, bool x, bool y, int number = 0) {
    model_.parts.push_back({part, number, plate, x, y});
  }

  FoldedPlate flat_strip(double x0, double y0, double lx, double ly, const Length& thickness,
                         const materials::Material& m) const {
    FoldedPlate p{.along_x = axis_x,
                  .along_y = axis_y,
                  .normal = axis_z,
                  .start_x = x0,
                  .start_y = y0,
                  .length_x = lx,
                  .length_y = ly,
                  .thickness = si(thickness),
                  .youngs_modulus = si(m.youngs_modulus),
                  .poisson_ratio = m.poisson_ratio,
                  .degree_x = strip_degree,
                  .degree_y = strip_degree};
    if (load_.own_weight) p.body_force = {0.0, 0.0, -si(m.density) * si(load_.gravity) * si(thickness)};
    return p;
  }

  void add_strips() {
    const double c = tank_.rim ? si(tank_.rim->width) : 0.0;
    const double y_low = 0.5 * t_ + c;
    int number = 0;
    for (const TankCrossBrace& brace : tank_.cross_braces) {
      const double middle = 0.5 * t_ + si(brace.at);
      const bool centred = std::abs(middle - 0.5 * a_) < 1e-9 * a_;
      const bool beyond = mirror_x_ && !centred && middle > 0.5 * a_;
      if (!beyond) {
        FoldedPlate p = flat_strip(middle - 0.5 * si(brace.width), y_low, si(brace.width), b_ - 2.0 * y_low,
                                   brace.thickness, brace.material);
        p.degree_x = 6;
        p.degree_y = 8;
        p.mirrored_x = mirror_x_ && centred;
        p.mirrored_y = mirror_y_;
        p.images = mirror_x_ && !centred ? 2.0 : 1.0;
        cross_.push_back({add(TankPart::cross_brace, p, number), &brace});
      }
      ++number;
    }
    number = 0;  // those beyond the mirror are images of their twins
    for (const TankCrossBrace& brace : tank_.cross_braces) {
      const double middle = 0.5 * t_ + si(brace.at);
      if (mirror_x_ && middle > 0.5 * a_ + 1e-9 * a_)
        for (const Cross& twin : cross_)
          if (std::abs((twin.brace->at + brace.at - tank_.inside_length).value()) < 1e-9 * a_) {
            image(TankPart::cross_brace, twin.plate, true, false, number);
            break;
          }
      ++number;
    }
    if (!tank_.rim) return;
    const TankRimBrace& rim = *tank_.rim;
    FoldedPlate end = flat_strip(0.5 * t_, 0.5 * t_ + c, c, b_ - t_ - 2.0 * c, rim.thickness, rim.material);
    end.degree_y = across_degree_;
    end.mirrored_y = mirror_y_;
    end.images = twice_x();
    left_rim_ = add(TankPart::left_rim, end);
    end.start_x = a_ - 0.5 * t_ - c;
    if (!mirror_x_)
      right_rim_ = add(TankPart::right_rim, end);
    else
      image(TankPart::right_rim, left_rim_, true, false);
    // The long strips run through to the end walls. Their corners are plates of their own, so that the polynomials of a
    // strip end where the ring's inner corner makes the stress singular.
    for (const bool right : {false, true})
      for (const bool back : {false, true}) {
        if ((right && mirror_x_) || (back && mirror_y_)) continue;
        FoldedPlate square = flat_strip(right ? a_ - 0.5 * t_ - c : 0.5 * t_, back ? b_ - 0.5 * t_ - c : 0.5 * t_, c, c,
                                        rim.thickness, rim.material);
        square.images = twice_x() * twice_y();
        corner_[right][back] = static_cast<int>(model_.structure.plates.size());
        model_.structure.plates.push_back(square);
      }
    front_rim_ = add_long_strip(TankPart::front_rim, 0.5 * t_);
    if (!mirror_y_) {
      back_rim_ = add_long_strip(TankPart::back_rim, b_ - 0.5 * t_ - c);
    } else {
      PartIndex back = model_.parts.back();
      back.part = TankPart::back_rim;
      back.flipped_y = true;
      model_.parts.push_back(back);
    }
  }

  /// A long strip between the corners of the ring, cut at the edges of the cross braces, where the stress is singular.
  std::vector<int> add_long_strip(TankPart part, double start_y) {
    const TankRimBrace& rim = *tank_.rim;
    const double c = si(rim.width), first = 0.5 * t_ + c, last = a_ - 0.5 * t_ - c;
    std::vector<double> cuts = {first, last};
    for (const TankCrossBrace& brace : tank_.cross_braces)
      for (const double side : {-0.5, 0.5}) cuts.push_back(0.5 * t_ + si(brace.at + side * brace.width));
    std::sort(cuts.begin(), cuts.end());
    std::vector<int> segments;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      const double from = cuts[i], length = cuts[i + 1] - from, middle = from + 0.5 * length;
      const bool crosses = mirror_x_ && std::abs(middle - 0.5 * a_) < 1e-9 * a_;
      if (length < 1e-9 * a_ || (mirror_x_ && !crosses && middle > 0.5 * a_)) continue;
      FoldedPlate p = flat_strip(from, start_y, length, c, rim.thickness, rim.material);
      p.degree_x = cuts.size() == 2 ? along_degree_ : even((crosses ? 6.0 : 7.0) + 0.9 * length / h_, 6, along_degree_);
      p.mirrored_x = crosses;
      p.images = (mirror_x_ && !crosses ? 2.0 : 1.0) * twice_y();
      segments.push_back(static_cast<int>(model_.structure.plates.size()));
      model_.structure.plates.push_back(std::move(p));
    }
    model_.parts.push_back({part, 0, segments.front(), false, false, segments, last - first});
    return segments;
  }

  /// Water depth by place. The plates keep it longer than this builder lives, so it holds all that it needs.
  auto water_level() const {
    return [depth = si(load_.water_depth), along = load_.rise_along, across = load_.rise_across, x0 = 0.5 * a_,
            y0 = 0.5 * b_](double x, double y) { return depth - along * (x - x0) - across * (y - y0); };
  }

  FoldedPlate wall(bool long_wall, double place, double outward) const {
    FoldedPlate p{.along_x = long_wall ? axis_x : axis_y,
                  .along_y = axis_z,
                  .normal = long_wall ? axis_y : axis_x,
                  .start_x = 0.0,
                  .start_y = 0.0,
                  .length_x = long_wall ? a_ : b_,
                  .length_y = h_,
                  .thickness = t_,
                  .youngs_modulus = si(tank_.material.youngs_modulus),
                  .poisson_ratio = tank_.material.poisson_ratio,
                  .degree_x = long_wall ? along_degree_ : across_degree_,
                  .degree_y = wall_degree};
    p.mirrored_x = long_wall ? mirror_x_ : mirror_y_;
    p.images = long_wall ? twice_y() : twice_x();
    const auto level = [depth = water_level(), long_wall, place](double along) {
      return long_wall ? depth(along, place) : depth(place, along);
    };
    p.wet_height = level;
    p.pressure = [level, outward, w = weight_](double x, double y) { return outward * w * (level(x) - y); };
    if (load_.own_weight) p.body_force = {0.0, 0.0, -si(tank_.material.density) * si(load_.gravity) * t_};
    return p;
  }

  /// Sets a rim load down: a down force on the rim strip where there is one, on the wall's top over the ring's corners.
  void set_down(const RimLoad& r, FoldedPlate& on, bool long_wall, double outward, const std::vector<int>& strip) {
    const double from = 0.5 * t_ + si(r.along - 0.5 * r.length), to = from + si(r.length);
    std::array<double, 3> push{0.0, 0.0, 0.0};
    push[long_wall ? axis_y : axis_x] = outward * si(r.outward);
    const auto covered = [&](const FoldedPlate& p) {
      const double start = long_wall ? p.start_x : p.start_y, length = long_wall ? p.length_x : p.length_y;
      return std::pair{std::clamp(from - start, 0.0, length), std::clamp(to - start, 0.0, length)};
    };
    double on_strip = 0.0;
    for (const int index : strip) {
      const auto reach = covered(model_.structure.plates[static_cast<std::size_t>(index)]);
      on_strip += reach.second - reach.first;
    }
    if (on_strip <= 0.0) push[axis_z] = -si(r.down);
    on.patches.push_back({from, to, h_ - t_, h_, push});
    for (const int index : strip) {
      FoldedPlate& p = model_.structure.plates[static_cast<std::size_t>(index)];
      const auto reach = covered(p);
      if (reach.second <= reach.first) continue;
      const double share = (reach.second - reach.first) / on_strip;
      FoldedPlate::Patch patch{0.0, p.length_x, 0.0, p.length_y, {0.0, 0.0, -share * si(r.down)}};
      (long_wall ? patch.x0 : patch.y0) = reach.first;
      (long_wall ? patch.x1 : patch.y1) = reach.second;
      p.patches.push_back(patch);
    }
  }

  void add_walls_and_base() {
    std::array<FoldedPlate, 4> walls = {wall(true, 0.0, -1.0), wall(true, b_, 1.0), wall(false, 0.0, -1.0),
                                        wall(false, a_, 1.0)};
    const auto of_end = [](int strip) { return strip < 0 ? std::vector<int>() : std::vector<int>{strip}; };
    const std::array<std::vector<int>, 4> strips = {front_rim_, back_rim_, of_end(left_rim_), of_end(right_rim_)};
    for (const RimLoad& r : load_.rim_loads) {
      const auto n = static_cast<std::size_t>(r.on);
      set_down(r, walls[n], n < 2, n % 2 == 0 ? -1.0 : 1.0, strips[n]);
    }
    left_ = add(TankPart::left_wall, walls[2]);
    if (!mirror_x_)
      right_ = add(TankPart::right_wall, walls[3]);
    else
      image(TankPart::right_wall, left_, true, false);

    FoldedPlate base{.along_x = axis_x,
                     .along_y = axis_y,
                     .normal = axis_z,
                     .start_x = 0.0,
                     .start_y = 0.0,
                     .length_x = a_,
                     .length_y = b_,
                     .thickness = si(tank_.base_thickness),
                     .youngs_modulus = si(tank_.material.youngs_modulus),
                     .poisson_ratio = tank_.material.poisson_ratio,
                     .degree_x = along_degree_,
                     .degree_y = across_degree_};
    base.mirrored_x = mirror_x_;
    base.mirrored_y = mirror_y_;
    base.flat = tank_.support == TankSupport::plane;
    if (tank_.support == TankSupport::foam) base.foundation = si(tank_.foundation);
    // Friction that keeps the tank from drifting, weak beside the base's own stiffness.
    base.tangential_foundation = 1e-2 * base.youngs_modulus * base.thickness / (a_ * b_);
    base.wet_height = [b = b_](double) { return b; };
    base.pressure = [depth = water_level(), w = weight_](double x, double y) {
      return -w * std::max(depth(x, y), 0.0);
    };
    if (load_.own_weight)
      base.body_force = {0.0, 0.0, -si(tank_.material.density) * si(load_.gravity) * base.thickness};
    base_ = add(TankPart::base, base);

    front_ = add(TankPart::front_wall, walls[0]);
    if (!mirror_y_)
      back_ = add(TankPart::back_wall, walls[1]);
    else
      image(TankPart::back_wall, front_, false, true);
  }

  void join(TankPart first, TankPart second, JointSide a, JointSide b, double from, double to, const Springs& s,
            int normal, int along, double images, bool bond) {
    auto& list = bond ? model_.bonds : model_.joints;
    list.push_back({first, second, model_.structure.joints.size(), normal, along});
    model_.structure.joints.push_back({a, b, from, to, global(s, normal, along), s.rotation, images});
  }

  /// A wall's foot: on the base, and on the rigid plane under it where the base cannot bend.
  void stand(TankPart part, int wall, Side base_edge, double length, int along, double images) {
    Springs on_base = glass_;
    if (tank_.support == TankSupport::plane) {
      Springs on_ground{glass_.normal, 0.0, 0.0, glass_.rotation};
      on_base.normal = on_base.rotation = 0.0;
      join(part, TankPart::base, {wall, Side::bottom}, {base_, base_edge}, 0.0, length, on_base, axis_z, along, images,
           false);
      // one joint in the report: the springs to the ground go beside it
      model_.structure.joints.push_back(
          {{wall, Side::bottom}, {}, 0.0, length, global(on_ground, axis_z, along), on_ground.rotation, images});
      return;
    }
    join(part, TankPart::base, {wall, Side::bottom}, {base_, base_edge}, 0.0, length, on_base, axis_z, along, images,
         false);
    if (tank_.support == TankSupport::perimeter) {
      const double rigid_edge = rigid_per_modulus * si(tank_.material.youngs_modulus);
      FoldedJoint under{
          {base_, base_edge}, {}, 0.0, length, {0.0, 0.0, std::min(si(tank_.edge_stiffness), rigid_edge)}, 0.0, images};
      model_.structure.joints.push_back(under);
    }
  }

  void join_walls() {
    const double four = twice_x() * twice_y();
    const auto corner = [&](TankPart end, int end_wall, Side end_edge, TankPart side, int side_wall, Side side_edge) {
      join(end, side, {end_wall, end_edge}, {side_wall, side_edge}, 0.0, h_, glass_, axis_y, axis_z, four, false);
    };
    corner(TankPart::left_wall, left_, Side::left, TankPart::front_wall, front_, Side::left);
    if (!mirror_y_) corner(TankPart::left_wall, left_, Side::right, TankPart::back_wall, back_, Side::left);
    if (!mirror_x_) corner(TankPart::right_wall, right_, Side::left, TankPart::front_wall, front_, Side::right);
    if (!mirror_x_ && !mirror_y_)
      corner(TankPart::right_wall, right_, Side::right, TankPart::back_wall, back_, Side::right);
    stand(TankPart::front_wall, front_, Side::bottom, a_, axis_x, twice_y());
    if (!mirror_y_) stand(TankPart::back_wall, back_, Side::top, a_, axis_x, 1.0);
    stand(TankPart::left_wall, left_, Side::left, b_, axis_y, twice_x());
    if (!mirror_x_) stand(TankPart::right_wall, right_, Side::right, b_, axis_y, 1.0);
  }

  void join_strips() {
    const double four = twice_x() * twice_y();
    const double inner = 0.5 * t_ + (tank_.rim ? si(tank_.rim->width) : 0.0);
    if (tank_.rim) {
      const TankRimBrace& rim = *tank_.rim;
      const Springs bond = rim.bond ? of_bead(*rim.bond) : rigid(rim.material, rim.thickness, false);
      Springs corner = bond;
      if (rim.corner == RingCorner::one_piece) corner = rigid(rim.material, rim.thickness, false);
      if (rim.corner == RingCorner::mitred)  // the cut at 45 degrees is longer
        for (double* k : {&corner.normal, &corner.along, &corner.across, &corner.rotation}) *k *= std::sqrt(2.0);
      if (rim.corner == RingCorner::open) corner = {0.0, 0.0, 0.0, 0.0};
      const Springs same_sheet = rigid(rim.material, rim.thickness, false);
      const double e = 0.5 * t_;  // from the wall's middle to its inside face
      const auto along_side = [&](TankPart part, const std::vector<int>& strip, TankPart wall_part, int wall,
                                  bool front) {
        const double sign = front ? 1.0 : -1.0;
        for (const int segment : strip) {
          const FoldedPlate& p = model_.structure.plates[static_cast<std::size_t>(segment)];
          join(part, wall_part, {segment, front ? Side::bottom : Side::top}, {wall, Side::top, sign * e}, p.start_x,
               p.start_x + p.length_x, bond, axis_y, axis_x, p.images, true);
        }
        const double y0 = front ? e : b_ - inner, y1 = front ? inner : b_ - e;
        const auto corner_square = [&](bool right, int end_wall) {
          const int square = corner_[right][!front];
          const double x0 = right ? a_ - inner : e, x1 = right ? a_ - e : inner;
          auto& joints = model_.structure.joints;
          joints.push_back({{square, front ? Side::bottom : Side::top},
                            {wall, Side::top, sign * e},
                            x0,
                            x1,
                            global(bond, axis_y, axis_x),
                            bond.rotation,
                            four});
          joints.push_back({{square, right ? Side::right : Side::left},
                            {end_wall, Side::top, right ? -e : e},
                            y0,
                            y1,
                            global(bond, axis_x, axis_y),
                            bond.rotation,
                            four});
          joints.push_back({{square, right ? Side::left : Side::right},
                            {right ? strip.back() : strip.front(), right ? Side::right : Side::left},
                            y0,
                            y1,
                            global(same_sheet, axis_x, axis_y),
                            same_sheet.rotation,
                            four});
        };
        for (std::size_t i = 0; i + 1 < strip.size(); ++i)
          model_.structure.joints.push_back({{strip[i], Side::right},
                                             {strip[i + 1], Side::left},
                                             y0,
                                             y1,
                                             global(same_sheet, axis_x, axis_y),
                                             same_sheet.rotation,
                                             four});
        corner_square(false, left_);
        if (!mirror_x_) corner_square(true, right_);
      };
      along_side(TankPart::front_rim, front_rim_, TankPart::front_wall, front_, true);
      if (!mirror_y_) along_side(TankPart::back_rim, back_rim_, TankPart::back_wall, back_, false);
      const auto along_end = [&](TankPart part, int strip, TankPart wall_part, int wall, bool left) {
        join(part, wall_part, {strip, left ? Side::left : Side::right}, {wall, Side::top, left ? e : -e}, inner,
             b_ - inner, bond, axis_x, axis_y, twice_x(), true);
        const double x0 = left ? e : a_ - inner, x1 = left ? inner : a_ - e;
        const auto ring = [&](Side edge, int square, Side square_edge) {
          model_.structure.joints.push_back(
              {{strip, edge}, {square, square_edge}, x0, x1, global(corner, axis_y, axis_x), corner.rotation, four});
        };
        ring(Side::bottom, corner_[!left][0], Side::top);
        if (!mirror_y_) ring(Side::top, corner_[!left][1], Side::bottom);
      };
      along_end(TankPart::left_rim, left_rim_, TankPart::left_wall, left_, true);
      if (!mirror_x_) along_end(TankPart::right_rim, right_rim_, TankPart::right_wall, right_, false);
    }
    for (const Cross& cross : cross_) {
      const Springs bond =
          cross.brace->bond ? of_bead(*cross.brace->bond) : rigid(cross.brace->material, cross.brace->thickness, false);
      const FoldedPlate& p = model_.structure.plates[static_cast<std::size_t>(cross.plate)];
      const double images = p.images * twice_y();
      const auto end = [&](Side edge, bool front) {
        JointSide held{front ? front_ : back_, Side::top, front ? 0.5 * t_ : -0.5 * t_};
        if (tank_.rim)
          for (const int segment : front ? front_rim_ : back_rim_)
            if (std::abs(model_.structure.plates[static_cast<std::size_t>(segment)].start_x - p.start_x) < 1e-9 * a_)
              held = {segment, front ? Side::top : Side::bottom};
        join(TankPart::cross_brace, front ? TankPart::front_wall : TankPart::back_wall, {cross.plate, edge}, held,
             p.start_x, p.start_x + p.length_x, bond, axis_y, axis_x, images, true);
      };
      end(Side::bottom, true);
      if (!mirror_y_) end(Side::top, false);
    }
  }

  static constexpr int strip_degree = 6;
  static constexpr int wall_degree = 8;
  struct Cross {
    int plate;
    const TankCrossBrace* brace;
  };
  const Tank& tank_;
  const TankLoad& load_;
  double a_, b_, h_, t_, weight_;
  Springs glass_;
  bool mirror_x_ = false, mirror_y_ = false;
  int along_degree_ = 0, across_degree_ = 0;
  int front_ = -1, back_ = -1, left_ = -1, right_ = -1, base_ = -1;
  std::vector<int> front_rim_, back_rim_;
  int left_rim_ = -1, right_rim_ = -1;
  std::array<std::array<int, 2>, 2> corner_{};  ///< of the ring: right, back
  std::vector<Cross> cross_;
  Model model_;
};

// ---- results -------------------------------------------------------------------------------------------------------

bool is_strip(TankPart part) { return part >= TankPart::front_rim; }

/// A place of a part on the plate that stands for it, or back: an image runs the other way along the mirrored axis.
PanelPlace mirrored(const FoldedPlate& p, const PartIndex& index, PanelPlace place) {
  if (index.flipped_x && p.along_x == axis_x) place.x = from_si<Length>(p.length_x) - place.x;
  if (index.flipped_y && p.along_y == axis_y) place.y = from_si<Length>(p.length_y) - place.y;
  return place;
}

/// In which direction a strip runs, its bond to the wall and its inner edge.
bool runs_along_x(TankPart part) { return part == TankPart::front_rim || part == TankPart::back_rim; }

/// Where a place along a part lies: on which plate, and whether beyond the mirror.
struct Located {
  std::size_t plate;
  double along;
  bool beyond;
};

Located locate(const FoldedStructure& s, const PartIndex& index, double along) {
  if (index.segments.empty()) return {static_cast<std::size_t>(index.plate), along, false};
  const auto plate = [&](int segment) -> const FoldedPlate& { return s.plates[static_cast<std::size_t>(segment)]; };
  const double start = plate(index.segments.front()).start_x;
  const FoldedPlate& last = plate(index.segments.back());
  double place = start + along;
  const bool beyond = last.mirrored_x && place > last.start_x + last.length_x;
  if (beyond) place = start + index.length - along;
  for (const int segment : index.segments)
    if (place <= plate(segment).start_x + plate(segment).length_x || segment == index.segments.back())
      return {static_cast<std::size_t>(segment),
              std::clamp(place - plate(segment).start_x, 0.0, plate(segment).length_x), beyond};
  return {static_cast<std::size_t>(index.plate), along, false};
}

StripSection section(const FoldedStructure& s, const PartIndex& index, double at) {
  const TankPart part = index.part;
  const Located located = locate(s, index, at);
  const FoldedPlate& p = s.plates[located.plate];
  const bool x = runs_along_x(part);
  const double width = x ? p.length_y : p.length_x;
  const detail::GaussRule rule = detail::gauss_rule(4);
  double n = 0.0, m = 0.0;
  for (Eigen::Index q = 0; q < rule.point.size(); ++q) {
    const double across = 0.5 * width * (rule.point[q] + 1.0);
    const detail::FoldedState state =
        x ? s.at(located.plate, located.along, across) : s.at(located.plate, across, located.along);
    const double membrane = x ? state.membrane_x : state.membrane_y;
    n += 0.5 * width * rule.weight[q] * membrane;
    m += 0.5 * width * rule.weight[q] * membrane * (across - 0.5 * width);
  }
  if (part == TankPart::back_rim || part == TankPart::right_rim) m = -m;  // its inner edge is the low one
  const double area = width * p.thickness, modulus = area * width / 6.0;
  return {from_si<Length>(at), from_si<Force>(n), from_si<Moment>(m), from_si<Pressure>(n / area + m / modulus),
          from_si<Pressure>(n / area - m / modulus)};
}

BentStripSections strip_sections(const Model& model, const PartIndex& index) {
  const FoldedStructure& s = model.structure;
  const FoldedPlate& p = s.plates[static_cast<std::size_t>(index.plate)];
  const double span = index.segments.empty() ? p.length_y : index.length;
  BentStripSections r;
  r.part = index.part;
  r.number = index.number;
  r.mid_span = section(s, index, 0.5 * span);
  r.inner_corner = section(s, index, 0.0);
  constexpr int steps = 20;
  double most = 0.0;
  for (int i = 0; i <= steps; ++i) {
    const StripSection at = section(s, index, span * i / steps);
    most = std::max({most, si(at.inner_edge), si(at.outer_edge)});
  }
  r.max_stress = from_si<Pressure>(most);
  double shear = 0.0, peel = 0.0;
  for (const JointIndex& bond : model.bonds) {
    const FoldedJoint& j = s.joints[bond.joint];
    if (j.a.plate != index.plate &&
        std::find(index.segments.begin(), index.segments.end(), j.a.plate) == index.segments.end())
      continue;
    const double edge = std::min(p.thickness, 0.1 * (j.to - j.from));
    const detail::JointProfile profile = s.profile(bond.joint);
    for (int i = 0; i <= steps; ++i) {
      const detail::JointForce f = profile.at(j.from + edge + (j.to - j.from - 2.0 * edge) * i / steps);
      const auto normal = static_cast<std::size_t>(bond.normal);
      double sum = 0.0;
      for (std::size_t g = 0; g < 3; ++g) sum += g == normal ? 0.0 : f.force[g] * f.force[g];
      shear = std::max(shear, std::sqrt(sum));
      // force on side a is -k (a - b); the strip is pulled off where it moves inward against the wall
      const bool low_side = j.a.edge == Side::bottom || j.a.edge == Side::left;
      peel = std::max(peel, low_side ? f.force[normal] : -f.force[normal]);
    }
  }
  r.bond_shear = from_si<LineLoad>(shear);
  r.bond_peel = from_si<LineLoad>(peel);
  return r;
}

BentPart bent_part(const Model& model, const PartIndex& index) {
  const FoldedStructure& s = model.structure;
  const auto plate = static_cast<std::size_t>(index.plate);
  const FoldedPlate& p = s.plates[plate];
  BentPart r;
  r.part = index.part;
  r.number = index.number;
  r.width = from_si<Length>(p.length_x);
  r.height = from_si<Length>(p.length_y);
  r.thickness = from_si<Length>(p.thickness);
  const auto place = [](const detail::RefinedPeak& peak) {
    return PanelPlace{from_si<Length>(peak.x), from_si<Length>(peak.y)};
  };
  auto deflection = s.largest_deflection(plate);
  if (!index.segments.empty()) {
    r.width = from_si<Length>(index.length);
    for (const int segment : index.segments) {
      detail::RefinedPeak peak = s.largest_deflection(static_cast<std::size_t>(segment));
      peak.x += s.plates[static_cast<std::size_t>(segment)].start_x - p.start_x;
      if (peak.value > deflection.value) deflection = peak;
    }
  }
  r.max_deflection = from_si<Length>(deflection.value);
  r.max_deflection_at = place(deflection);
  r.deflection_over_thickness = deflection.value / p.thickness;
  if (is_strip(index.part)) return r;  // its nominal section stress takes the place of the peak
  const double off = 0.5 * p.thickness;
  r.distance_from_joint = from_si<Length>(off);
  const bool wall = index.part != TankPart::base;
  const auto tension = s.largest_tension(plate, off, p.length_x - off, off, wall ? p.length_y : p.length_y - off);
  r.max_tension = from_si<Pressure>(tension.value);
  r.max_tension_at = place(tension);
  const bool normal_is_outside = index.part == TankPart::back_wall || index.part == TankPart::right_wall;
  r.max_tension_on_outside = s.at(plate, tension.x, tension.y).on_normal_side == normal_is_outside;
  return r;
}

BentJoint bent_joint(const FoldedStructure& s, const JointIndex& index) {
  const FoldedJoint& j = s.joints[index.joint];
  BentJoint r;
  r.first = index.first;
  r.second = index.second;
  const bool on_ground = index.joint + 1 < s.joints.size() && s.joints[index.joint + 1].b.plate < 0 &&
                         s.joints[index.joint + 1].a.plate == j.a.plate;  // its vertical and turning springs
  const detail::JointProfile profile = s.profile(index.joint);
  const detail::JointProfile ground = on_ground ? s.profile(index.joint + 1) : detail::JointProfile();
  const auto at = [&](double place) {
    detail::JointForce f = profile.at(place);
    if (on_ground) {
      const detail::JointForce under = ground.at(place);
      for (std::size_t g = 0; g < 3; ++g) f.force[g] += under.force[g];
      f.moment += under.moment;
    }
    return f;
  };
  const auto normal = static_cast<std::size_t>(index.normal), along = static_cast<std::size_t>(index.along);
  const std::size_t across = 3 - normal - along;
  // Opening is the first part moving away from the second: up from the base, away from the side wall.
  const bool second_low = index.second == TankPart::base || index.second == TankPart::front_wall;
  const double opens = second_low ? 1.0 : -1.0;
  detail::JointForce total = profile.total();
  if (on_ground) {
    const detail::JointForce under = ground.total();
    for (std::size_t g = 0; g < 3; ++g) total.force[g] += under.force[g];
  }
  r.opening = from_si<Force>(opens * total.force[normal]);
  r.along = from_si<Force>(total.force[along]);
  r.across = from_si<Force>(total.force[across]);
  const double edge = std::min(s.plates[static_cast<std::size_t>(j.a.plate)].thickness, 0.1 * (j.to - j.from));
  constexpr int steps = 40;
  for (int i = 0; i <= steps; ++i) {
    const double place = j.from + edge + (j.to - j.from - 2.0 * edge) * i / steps;
    const detail::JointForce f = at(place);
    const double line = std::hypot(std::max(opens * f.force[normal], 0.0), f.force[across]);
    if (line > si(r.max_line_load)) {
      r.max_line_load = from_si<LineLoad>(line);
      r.max_line_load_at = from_si<Length>(place);
    }
    r.max_opening = from_si<LineLoad>(std::max(si(r.max_opening), opens * f.force[normal]));
    r.max_moment = from_si<MomentPerLength>(std::max(si(r.max_moment), std::abs(f.moment)));
  }
  return r;
}

/// Largest imbalance of a wall across its plane, over the water on it.
double imbalance(const FoldedStructure& s) {
  std::vector<detail::JointForce> force;
  for (std::size_t k = 0; k < s.joints.size(); ++k) force.push_back(s.profile(k).total());
  double worst = 0.0;
  for (std::size_t n = 0; n < s.plates.size(); ++n) {
    const FoldedPlate& p = s.plates[n];
    if (!p.pressure || p.normal == axis_z) continue;
    const auto g = static_cast<std::size_t>(p.normal);
    double sum = p.images * s.load_total(n)[g];
    const double water = std::abs(sum);
    for (std::size_t k = 0; k < s.joints.size(); ++k) {
      const FoldedJoint& j = s.joints[k];
      const bool a = j.a.plate == static_cast<int>(n), b = j.b.plate == static_cast<int>(n);
      if (a || b) sum -= (a ? 1.0 : -1.0) * j.images * force[k].force[g];
    }
    if (water > 0.0) worst = std::max(worst, std::abs(sum) / water);
  }
  return worst;
}

/// Kept with the solution, to find parts again.
struct Solution : FoldedStructure {
  explicit Solution(Model model) : FoldedStructure(std::move(model.structure)), parts(std::move(model.parts)) {}
  std::vector<PartIndex> parts;
};

const PartIndex& find(const std::vector<PartIndex>& parts, TankPart which, int number) {
  for (const PartIndex& p : parts)
    if (p.part == which && p.number == number) return p;
  throw InvalidInput("tank part", std::string(name(which)) + " " + std::to_string(number), "a part that the tank has");
}

}  // namespace

std::string_view name(JointModel model) {
  switch (model) {
    case JointModel::as_bonded:
      return "as bonded";
    case JointModel::hinged:
      return "hinged";
    case JointModel::monolithic:
      break;
  }
  return "monolithic";
}

std::string_view name(TankPart part) {
  constexpr std::array<std::string_view, 10> names = {"front wall", "back wall",  "left wall", "right wall",
                                                      "base",       "front rim",  "back rim",  "left rim",
                                                      "right rim",  "cross brace"};
  return names[static_cast<std::size_t>(part)];
}

BentTank bend(const Tank& tank, const TankLoad& load, JointModel joints) {
  require_possible(tank, load, joints);
  Model model = Builder(tank, load, joints).build();
  model.structure.solve();
  BentTank bent;
  bent.tank = tank;
  bent.load = load;
  bent.joints = joints;
  for (const PartIndex& index : model.parts) {
    const bool image = index.flipped_x || index.flipped_y;
    if (!image) {
      bent.parts.push_back(bent_part(model, index));
      if (is_strip(index.part)) {
        bent.strips.push_back(strip_sections(model, index));
        bent.parts.back().max_tension = bent.strips.back().max_stress;
      }
      continue;
    }
    const auto copy = [&](auto& list, const PartIndex& original) {
      for (auto& result : list)
        if (result.part == original.part && result.number == original.number) {
          auto twin = result;
          twin.part = index.part;
          twin.number = index.number;
          list.push_back(twin);
          return;
        }
    };
    const auto original = std::find_if(model.parts.begin(), model.parts.end(),
                                       [&](const PartIndex& p) { return p.plate == index.plate; });
    copy(bent.parts, *original);
    const FoldedPlate& p = model.structure.plates[static_cast<std::size_t>(index.plate)];
    bent.parts.back().max_deflection_at = mirrored(p, index, bent.parts.back().max_deflection_at);
    if (is_strip(index.part)) copy(bent.strips, *original);
  }
  for (const JointIndex& index : model.joints) bent.joint_loads.push_back(bent_joint(model.structure, index));
  bent.equilibrium_residual = imbalance(model.structure);
  bent.unknowns = model.structure.unknowns();
  bent.solution = std::make_shared<Solution>(std::move(model));
  return bent;
}

TankBetweenLimits bend_between_limits(const Tank& tank, const TankLoad& load) {
  TankBetweenLimits limits{bend(tank, load, JointModel::hinged), bend(tank, load, JointModel::monolithic), {}};
  if (tank.joint) limits.as_bonded = bend(tank, load, JointModel::as_bonded);
  return limits;
}

BentPart part(const BentTank& bent, TankPart which, int number) {
  for (const BentPart& p : bent.parts)
    if (p.part == which && p.number == number) return p;
  throw InvalidInput("tank part", std::string(name(which)) + " " + std::to_string(number), "a part that the tank has");
}

TankState state_at(const BentTank& bent, TankPart which, const Length& x, const Length& y, int number) {
  require::that(bent.solution != nullptr, "bent tank", 0.0, "a tank that `bend` has returned");
  const auto& solution = static_cast<const Solution&>(*bent.solution);
  const PartIndex& index = find(solution.parts, which, number);
  const FoldedPlate& p = solution.plates[static_cast<std::size_t>(index.plate)];
  require::within("x", x, Length(), from_si<Length>(index.segments.empty() ? p.length_x : index.length));
  require::within("y", y, Length(), from_si<Length>(p.length_y));
  const PanelPlace place = mirrored(p, index, {x, y});
  const Located located = locate(solution, index, si(place.x));
  const detail::FoldedState s = solution.at(located.plate, located.along, si(place.y));
  return {from_si<Length>((index.flipped_x != located.beyond ? -1.0 : 1.0) * s.displacement[0]),
          from_si<Length>((index.flipped_y ? -1.0 : 1.0) * s.displacement[1]), from_si<Length>(s.displacement[2]),
          from_si<Pressure>(s.tension)};
}

}  // namespace theca::structure
