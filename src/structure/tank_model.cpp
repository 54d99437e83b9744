#include "tank_model.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "plate_basis.hpp"
#include "rim_contact.hpp"

namespace theca::structure::detail {
namespace {

/// A rigid joint gives as much as a hundredth of a thickness of the sheet would: unnoticeable, and kind to the
/// numerics.
constexpr double rigid_per_modulus = 100.0;

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
                   : rigid(tank.material, tank.wall_thickness, joints == JointModel::hinged)),
        soft_joints_(joints != JointModel::monolithic) {
    bool symmetric = load.rim_loads.empty();
    mirror_x_ = symmetric && load.rise_along == 0.0;
    for (const TankCrossBrace& brace : tank.cross_braces)
      mirror_x_ =
          mirror_x_ && std::any_of(tank.cross_braces.begin(), tank.cross_braces.end(), [&](const auto& other) {
            return std::abs((brace.at + other.at - tank.inside_length).value()) < 1e-9 * a_ && same(brace, other);
          });
    mirror_y_ = symmetric && load.rise_across == 0.0;
    // What pushes or holds at one place asks for more: a load set down for four degrees, a cross brace, whose edges cut
    // the rim strip, for one.
    const double local = !load.rim_loads.empty() ? 4.0 : !tank.cross_braces.empty() ? 1.0 : 0.0;
    const double half = mirror_x_ ? 1.0 : 1.15;
    along_degree_ = even(half * (7.0 + 0.9 * a_ / h_ + local), 10, max_plate_degree);
    across_degree_ = even(7.0 + 0.9 * b_ / h_, 8, max_plate_degree);
  }

  TankModel build() {
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
        p.soft_edge = {false, true, true, false};
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
    end.soft_edge = {false, false, true, false};
    left_rim_ = add(TankPart::left_rim, end);
    end.start_x = a_ - 0.5 * t_ - c;
    end.soft_edge = {false, true, false, false};
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
      const bool held = std::any_of(tank_.cross_braces.begin(), tank_.cross_braces.end(), [&](const auto& brace) {
        return std::abs(middle - 0.5 * t_ - si(brace.at)) < 0.5 * si(brace.width);
      });
      const bool front = part == TankPart::front_rim;
      p.soft_edge = {!front && !held, false, false, front && !held};
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
    for (std::size_t n = 0; n < 4; ++n) {
      const bool rimless = strips[n].empty();
      walls[n].soft_edge = {soft_joints_, soft_joints_, soft_joints_, true};
      // A rim strip takes a push in its plane and spreads it.
      if (rimless) walls[n].sharp_curvature = sharp_curvature(walls[n], soft_joints_ ? hinged() : clamped());
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
    base.soft_edge = {soft_joints_, soft_joints_, soft_joints_, soft_joints_};
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
  bool soft_joints_;  ///< wall to wall and to base: they hold no twisting moment
  bool mirror_x_ = false, mirror_y_ = false;
  int along_degree_ = 0, across_degree_ = 0;
  int front_ = -1, back_ = -1, left_ = -1, right_ = -1, base_ = -1;
  std::vector<int> front_rim_, back_rim_;
  int left_rim_ = -1, right_rim_ = -1;
  std::array<std::array<int, 2>, 2> corner_{};  ///< of the ring: right, back
  std::vector<Cross> cross_;
  TankModel model_;
};

}  // namespace

TankModel tank_model(const Tank& tank, const TankLoad& load, JointModel joints) {
  return Builder(tank, load, joints).build();
}

}  // namespace theca::structure::detail
