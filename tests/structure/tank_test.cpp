// Whole tanks: balance of forces, symmetry, similarity, limits of joints and braces, and a finite element program.
#include "theca/structure/tank.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/materials/adhesive.hpp"
#include "theca/materials/glass.hpp"
#include "theca/structure/thick_panel.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using test::contains;
using test::message_of;
using test::near;
using test::within;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double no_number = std::numeric_limits<double>::quiet_NaN();
constexpr std::array<TankPart, 4> walls = {TankPart::front_wall, TankPart::back_wall, TankPart::left_wall,
                                           TankPart::right_wall};

/// A box whose middle surfaces measure length x width x height, as finite element models of it do.
Tank box(const Length& length = 2.414_m, const Length& width = 0.738_m, const Length& height = 0.394_m,
         const Length& thickness = 11.91_mm) {
  Tank tank;
  tank.inside_length = length - thickness;
  tank.inside_width = width - thickness;
  tank.wall_height = height;
  tank.wall_thickness = tank.base_thickness = thickness;
  tank.material = materials::float_glass();
  tank.material.youngs_modulus = 70_GPa;
  tank.material.poisson_ratio = 0.22;
  return tank;
}

TankLoad water(const Length& depth = 0.3556_m) {
  TankLoad load;
  load.water_depth = depth;
  load.water = 1023_kg_m3;
  load.own_weight = false;
  return load;
}

TankRimBrace rim_of(const Tank& tank, const Length& width) {
  return {.width = width, .thickness = tank.wall_thickness, .material = tank.material, .bond = {}};
}

TankCrossBrace cross_at(const Tank& tank, const Length& at, const Length& width = 152_mm) {
  return {.at = at, .width = width, .thickness = tank.wall_thickness, .material = tank.material, .bond = {}};
}

AdhesiveBead silicone(const Length& bite, const Length& thickness = 2_mm) {
  return adhesive_bead(thickness, bite, materials::silicone_adhesive());
}

double weight_of(const Length& x, const Length& y, const Length& thickness, const materials::Material& m) {
  return si(x) * si(y) * si(thickness) * si(m.density) * si(standard_gravity);
}

const BentJoint& joint(const BentTank& bent, TankPart first, TankPart second) {
  const auto found = std::find_if(bent.joint_loads.begin(), bent.joint_loads.end(),
                                  [&](const BentJoint& j) { return j.first == first && j.second == second; });
  REQUIRE(found != bent.joint_loads.end());
  return *found;
}

const BentStripSections& strip(const BentTank& bent, TankPart which, int number = 0) {
  const auto found = std::find_if(bent.strips.begin(), bent.strips.end(),
                                  [&](const BentStripSections& s) { return s.part == which && s.number == number; });
  REQUIRE(found != bent.strips.end());
  return *found;
}

/// Sum of what the walls hand down to base and ground.
double pressed_down(const BentTank& bent) {
  double sum = 0.0;
  for (const TankPart wall : walls) sum -= si(joint(bent, wall, TankPart::base).opening);
  return sum;
}

struct RandomTank {
  Tank tank;
  TankLoad load;
  JointModel joints;
};

RandomTank random_tank(std::mt19937& generator) {
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(generator);
  };
  const auto one_of = [&](int count) { return std::uniform_int_distribution<int>(0, count - 1)(generator); };
  const double t = between(0.005, 0.019);
  Tank tank = box(between(0.7, 2.6) * units::metre, between(0.4, 1.0) * units::metre, between(0.3, 0.7) * units::metre,
                  t * units::metre);
  tank.base_thickness = between(1.0, 1.5) * tank.wall_thickness;
  tank.support = static_cast<TankSupport>(one_of(3));
  tank.foundation = from_si<FoundationModulus>(between(5e6, 1e8));
  tank.edge_stiffness = from_si<EdgeStiffness>(one_of(2) == 0 ? infinite : between(1e6, 1e8));
  tank.joint = silicone(t * units::metre, between(1.0, 3.0) * units::millimetre);
  if (one_of(3) != 0) {
    tank.rim = rim_of(tank, between(40.0, 90.0) * units::millimetre);
    tank.rim->corner = static_cast<RingCorner>(one_of(4));
    if (one_of(2) == 0) tank.rim->bond = silicone(tank.rim->thickness);
  }
  const int braces = one_of(3);
  for (int i = 0; i < braces; ++i) {
    TankCrossBrace brace = cross_at(tank, tank.inside_length * (i + between(0.8, 1.2)) / (braces + 1.0), 100_mm);
    if (one_of(2) == 0) brace.bond = silicone(brace.thickness);
    tank.cross_braces.push_back(brace);
  }
  TankLoad load = water(between(0.5, 0.9) * tank.wall_height);
  load.own_weight = one_of(2) == 0;
  if (one_of(3) == 0) load.rise_along = between(-0.01, 0.01);
  if (one_of(3) == 0) load.rise_across = between(-0.01, 0.01);
  if (one_of(3) == 0)
    load.rim_loads.push_back({.on = walls[static_cast<std::size_t>(one_of(4))],
                              .along = between(0.15, 0.25) * units::metre,
                              .length = between(0.05, 0.2) * units::metre,
                              .down = between(0.0, 300.0) * units::newton,
                              .outward = between(-100.0, 100.0) * units::newton});
  return {tank, load, static_cast<JointModel>(one_of(3))};
}

}  // namespace

TEST_CASE("tank: in random tanks the joints carry the water of every wall [equilibrium]") {
  std::mt19937 generator(20261125);
  for (int i = 0; i < 72; ++i) {
    const RandomTank random = random_tank(generator);
    CAPTURE(i);
    const BentTank bent = bend(random.tank, random.load, random.joints);
    CHECK(bent.equilibrium_residual < 1e-6);
    for (const BentPart& p : bent.parts) {
      CHECK(std::isfinite(si(p.max_tension)));
      CHECK(std::isfinite(si(p.max_deflection)));
    }
  }
}

TEST_CASE("tank: corners and foot of a wall carry 1/2 rho g h^2 per length of it [statics]") {
  const TankLoad load = water();
  const double per_length = 0.5 * 1023.0 * si(standard_gravity) * 0.3556 * 0.3556;
  for (const JointModel joints : {JointModel::hinged, JointModel::monolithic}) {
    const BentTank bent = bend(box(), load, joints);
    const double corner = si(joint(bent, TankPart::left_wall, TankPart::front_wall).opening);
    const double foot = std::abs(si(joint(bent, TankPart::front_wall, TankPart::base).across));
    CHECK(corner > 0.0);  // the front wall is pushed off the end walls
    CHECK(near(2.0 * corner + foot, per_length * 2.414, 1e-6));
    const double slid = std::abs(si(joint(bent, TankPart::left_wall, TankPart::front_wall).across));
    const double end_foot = std::abs(si(joint(bent, TankPart::left_wall, TankPart::base).across));
    CHECK(near(2.0 * slid + end_foot, per_length * 0.738, 1e-6));
  }
}

TEST_CASE("tank: the walls hand their own weight and what stands on the rim down to the base [statics]") {
  for (const bool braced : {false, true}) {
    for (const TankSupport support : {TankSupport::plane, TankSupport::foam, TankSupport::perimeter}) {
      CAPTURE(braced);
      CAPTURE(static_cast<int>(support));
      Tank tank = box();
      tank.support = support;
      tank.foundation = from_si<FoundationModulus>(2e7);
      tank.edge_stiffness = from_si<EdgeStiffness>(infinite);
      const Length t = tank.wall_thickness;
      double weight = 2.0 * weight_of(2.414_m, tank.wall_height, t, tank.material) +
                      2.0 * weight_of(0.738_m, tank.wall_height, t, tank.material);
      if (braced) {
        tank.rim = rim_of(tank, 64_mm);
        tank.cross_braces = {cross_at(tank, 0.5 * tank.inside_length)};
        weight += 2.0 * weight_of(tank.inside_length, 64_mm, t, tank.material) +
                  2.0 * weight_of(tank.inside_width - 128_mm, 64_mm, t, tank.material) +
                  weight_of(152_mm, tank.inside_width - 128_mm, t, tank.material);
      }
      TankLoad load = water();
      load.own_weight = true;
      const RimLoad box_of_tools{
          .on = TankPart::back_wall, .along = 0.6_m, .length = 0.3_m, .down = 120_N, .outward = {}};
      load.rim_loads = {box_of_tools};
      CHECK(near(pressed_down(bend(tank, load, JointModel::hinged)), weight + 120.0, 1e-6));
      CHECK(near(pressed_down(bend(tank, load, JointModel::monolithic)), weight + 120.0, 1e-6));
    }
  }
}

TEST_CASE("tank: a hand that leans outward on the rim adds its force to that wall's joints [statics]") {
  TankLoad load = water();
  load.rim_loads = {{.on = TankPart::back_wall, .along = 0.7_m, .length = 0.1_m, .down = {}, .outward = 80_N}};
  const BentTank leaning = bend(box(), load, JointModel::hinged);
  const auto carried = [&](TankPart wall) {
    return si(joint(leaning, TankPart::left_wall, wall).opening) +
           si(joint(leaning, TankPart::right_wall, wall).opening) +
           std::abs(si(joint(leaning, wall, TankPart::base).across));
  };
  const double of_water = 0.5 * 1023.0 * si(standard_gravity) * 0.3556 * 0.3556 * 2.414;
  CHECK(near(carried(TankPart::back_wall), of_water + 80.0, 1e-6));
  CHECK(near(carried(TankPart::front_wall), of_water, 1e-6));
  CHECK(part(leaning, TankPart::back_wall).max_deflection > part(leaning, TankPart::front_wall).max_deflection);
}

TEST_CASE("tank: a hand that pushes on a rimless wall stresses it as it does the wall alone, hinged") {
  // The wall alone is checked against Levy's series in tests/published. Within 3 %: its twist does not fall off beside
  // its edges. Without the sharp part the polynomials of the tank would miss a fifth under the shorter hand.
  for (const Length& length : {80_mm, 200_mm})
    for (const Length& along : {1.2_m, 0.2_m}) {
      CAPTURE(si(length));
      CAPTURE(si(along));
      const Tank tank = box();
      TankLoad load = water();
      load.rim_loads = {{.on = TankPart::back_wall, .along = along, .length = length, .down = {}, .outward = 200_N}};
      const BentTank bent = bend(tank, load, JointModel::hinged);
      const Length t = tank.wall_thickness;
      const Panel wall{
          .width = tank.inside_length + t, .height = tank.wall_height, .thickness = t, .material = tank.material};
      const PanelLoad on_wall{hydrostatic(load.water_depth, load.water),
                              {{along + 0.5 * t, tank.wall_height - 0.5 * t, length, t, 200_N}},
                              {}};
      const BentPanel alone = bend_under(wall, on_wall);
      CHECK(near(part(bent, TankPart::back_wall).max_tension, alone.max_tension, 0.03));
      const PanelPlace under{along + 0.5 * t, tank.wall_height};
      // Off the middle the wall alone has a twisting moment on the rim itself, which the tank's falls off to nothing.
      if (along == 1.2_m)
        CHECK(near(state_at(bent, TankPart::back_wall, under.x, under.y).max_tension,
                   alone.at(under).far_face.principal_max, 0.03));
    }
}

TEST_CASE("tank: the quarter that symmetry leaves says the same as the whole tank") {
  for (const bool crossed : {false, true}) {
    for (const JointModel joints : {JointModel::hinged, JointModel::monolithic}) {
      CAPTURE(crossed);
      CAPTURE(std::string(name(joints)));
      Tank tank = box();
      tank.rim = rim_of(tank, 64_mm);
      if (crossed) tank.cross_braces = {cross_at(tank, 0.6_m), cross_at(tank, tank.inside_length - 0.6_m)};
      TankLoad load = water();
      load.own_weight = true;
      const BentTank quarter = bend(tank, load, joints);
      load.rise_along = load.rise_across = 1e-12;
      const BentTank whole = bend(tank, load, joints);
      CHECK(whole.unknowns > 3 * quarter.unknowns);
      REQUIRE(whole.parts.size() == quarter.parts.size());
      REQUIRE(whole.strips.size() == quarter.strips.size());
      // The whole is solved in a higher degree along the tank: they differ by what the degree leaves undone, 0.3 % of a
      // deflection, 3 % of a stress in a long wall. Beside the singular corners of the ring, where end walls and strips
      // have their largest stress, 12 %.
      constexpr double beside_corners = 0.12;
      for (const BentPart& p : quarter.parts) {
        if (p.part == TankPart::base) continue;  // on a plane it does not bend
        CAPTURE(std::string(name(p.part)));
        CAPTURE(p.number);
        const BentPart& q = part(whole, p.part, p.number);
        if (p.part < TankPart::base) CHECK(near(q.max_deflection, p.max_deflection, 3e-3));
        CHECK(near(q.max_tension, p.max_tension, p.part <= TankPart::back_wall ? 3e-2 : beside_corners));
      }
      for (const BentStripSections& s : quarter.strips) {
        CAPTURE(std::string(name(s.part)));
        CHECK(near(strip(whole, s.part, s.number).mid_span.tension, s.mid_span.tension, beside_corners));
      }
    }
  }
}

TEST_CASE("tank: one mirror plane says the same as the other") {
  // A tank tilted along its length has the mirror across it; the same tank turned by 90 degrees has the other one.
  const Tank along = box(1.2_m, 0.8_m, 0.5_m, 10_mm);
  Tank across = along;
  std::swap(across.inside_length, across.inside_width);
  TankLoad a = water(0.4_m), b = a;
  a.rise_along = 0.01;
  b.rise_across = 0.01;
  const BentTank one = bend(along, a, JointModel::hinged), other = bend(across, b, JointModel::hinged);
  CHECK(near(part(one, TankPart::left_wall).max_deflection, part(other, TankPart::front_wall).max_deflection, 1e-3));
  CHECK(near(part(one, TankPart::right_wall).max_deflection, part(other, TankPart::back_wall).max_deflection, 1e-3));
  CHECK(near(part(one, TankPart::front_wall).max_deflection, part(other, TankPart::left_wall).max_deflection, 1e-3));
  CHECK(near(part(one, TankPart::left_wall).max_tension, part(other, TankPart::front_wall).max_tension, 5e-3));
}

TEST_CASE("tank: mirror images equal their originals, with places and displacements turned round") {
  Tank tank = box();
  tank.rim = rim_of(tank, 64_mm);
  tank.cross_braces = {cross_at(tank, 0.6_m), cross_at(tank, tank.inside_length - 0.6_m)};
  const BentTank bent = bend(tank, water(), JointModel::monolithic);
  const auto same = [&](TankPart p, int i, TankPart q, int j) {
    CAPTURE(std::string(name(q)));
    CHECK(part(bent, p, i).max_deflection == part(bent, q, j).max_deflection);
    CHECK(part(bent, p, i).max_tension == part(bent, q, j).max_tension);
    CHECK(part(bent, q, j).part == q);
    CHECK(part(bent, q, j).number == j);
  };
  same(TankPart::front_wall, 0, TankPart::back_wall, 0);
  same(TankPart::left_wall, 0, TankPart::right_wall, 0);
  same(TankPart::front_rim, 0, TankPart::back_rim, 0);
  same(TankPart::left_rim, 0, TankPart::right_rim, 0);
  same(TankPart::cross_brace, 0, TankPart::cross_brace, 1);
  const TankState front = state_at(bent, TankPart::front_wall, 0.9_m, 0.394_m);
  const TankState back = state_at(bent, TankPart::back_wall, 0.9_m, 0.394_m);
  CHECK(front.displacement_y < Length());  // outward is towards the front
  CHECK(front.displacement_y == -back.displacement_y);
  CHECK(front.displacement_x == back.displacement_x);
  CHECK(front.max_tension == back.max_tension);
  // A place 10 mm from the wall on one strip is 54 mm from the low edge of the opposite one.
  const TankState left = state_at(bent, TankPart::left_rim, 10_mm, 200_mm);
  const TankState right = state_at(bent, TankPart::right_rim, 54_mm, 200_mm);
  CHECK(near(left.displacement_x, -right.displacement_x, 1e-9));
  CHECK(near(left.max_tension, right.max_tension, 1e-9));
  const TankState low = state_at(bent, TankPart::front_rim, 0.5_m, 5_mm);
  const TankState high = state_at(bent, TankPart::back_rim, 0.5_m, 59_mm);
  CHECK(near(low.displacement_y, -high.displacement_y, 1e-9));
  CHECK(near(low.max_tension, high.max_tension, 1e-9));
  const TankState first = state_at(bent, TankPart::cross_brace, 20_mm, 300_mm, 0);
  const TankState second = state_at(bent, TankPart::cross_brace, 132_mm, 300_mm, 1);
  CHECK(near(first.displacement_x, -second.displacement_x, 1e-9));
  CHECK(near(first.displacement_z, second.displacement_z, 1e-9));
  CHECK(near(first.max_tension, second.max_tension, 1e-9));
}

TEST_CASE("tank: cross braces that differ in their bond alone are no mirror images") {
  Tank tank = box();
  tank.cross_braces = {cross_at(tank, 0.6_m), cross_at(tank, tank.inside_length - 0.6_m)};
  tank.cross_braces[0].bond = silicone(12_mm, 1_mm);
  tank.cross_braces[1].bond = silicone(12_mm, 6_mm);
  const BentTank bent = bend(tank, water(), JointModel::hinged);
  CHECK(strip(bent, TankPart::cross_brace, 0).mid_span.tension >
        1.05 * strip(bent, TankPart::cross_brace, 1).mid_span.tension);
}

TEST_CASE("tank: similar tanks have stress going with size and deflection with its square [dimensional analysis]") {
  Tank small = box();
  small.rim = rim_of(small, 64_mm);
  small.cross_braces = {cross_at(small, 0.5 * small.inside_length)};
  Tank large = small;
  constexpr double scale = 1.7;
  for (Length* l : {&large.inside_length, &large.inside_width, &large.wall_height, &large.wall_thickness,
                    &large.base_thickness, &large.rim->width, &large.rim->thickness, &large.cross_braces[0].at,
                    &large.cross_braces[0].width, &large.cross_braces[0].thickness})
    *l *= scale;
  for (const JointModel joints : {JointModel::hinged, JointModel::monolithic}) {
    TankLoad load = water();
    load.own_weight = true;
    const BentTank one = bend(small, load, joints);
    load.water_depth *= scale;
    const BentTank other = bend(large, load, joints);
    for (const TankPart p : {TankPart::front_wall, TankPart::left_wall, TankPart::front_rim, TankPart::cross_brace}) {
      CHECK(near(part(other, p).max_tension, scale * part(one, p).max_tension, 1e-6));
      CHECK(near(part(other, p).max_deflection, scale * scale * part(one, p).max_deflection, 1e-6));
    }
  }
}

TEST_CASE("tank: stress does not depend on the modulus, deflection goes with its inverse [linear elasticity]") {
  const Tank glass = box();
  Tank soft = glass;
  soft.material.youngs_modulus *= 1.0 / 23.0;
  for (const JointModel joints : {JointModel::hinged, JointModel::monolithic}) {
    const BentPart stiff_wall = part(bend(glass, water(), joints), TankPart::front_wall);
    const BentPart soft_wall = part(bend(soft, water(), joints), TankPart::front_wall);
    CHECK(near(soft_wall.max_tension, stiff_wall.max_tension, 1e-6));
    CHECK(near(soft_wall.max_deflection, 23.0 * stiff_wall.max_deflection, 1e-6));
  }
}

TEST_CASE("tank: thin hinged walls have stress going with 1 / t^2 and deflection with 1 / t^3 [plate theory]") {
  // The middle surfaces stay. Not exact: the foot rides on the base's membrane and the corners on the end walls', which
  // go with 1 / t, and the twist that falls off beside the edges takes 0.63 t / h of the torsion, 0.2 % of the thicker.
  const auto wall = [](double t_mm) {
    const Length t = t_mm * units::millimetre;
    return part(bend(box(2.414_m, 0.738_m, 0.394_m, t), water(), JointModel::hinged), TankPart::front_wall);
  };
  const BentPart thin = wall(0.4), thick = wall(1.2);
  CHECK(near(thin.max_tension, 9.0 * thick.max_tension, 5e-3));
  CHECK(near(thin.max_deflection, 27.0 * thick.max_deflection, 3e-3));
}

TEST_CASE("tank: a hinged wall bends like Mindlin's panel with a free top on soft supports [structure::bend_thick]") {
  const Tank tank = box();
  const Panel single{.width = 2.414_m, .height = 0.394_m, .thickness = 11.91_mm, .material = tank.material};
  const BentThickPanel panel = bend_thick(single, {hydrostatic(0.3556_m, 1023_kg_m3), {}, {}}, SimpleSupport::soft);
  const BentPart wall = part(bend(tank, water(), JointModel::hinged), TankPart::front_wall);
  CHECK(near(wall.max_deflection, panel.max_deflection, 8e-3));  // foot and corners give a little
  // 3 %: the tension of the end walls' water is on top of the bending
  CHECK(near(wall.max_tension, panel.max_tension, 3e-2));
  // The peak is the twist near the lower corners, not at mid-length.
  const double from_corner =
      std::min(si(wall.max_tension_at.x), si(wall.width) - si(wall.max_tension_at.x)) / si(wall.width);
  CHECK(from_corner < 0.15);
  CHECK(wall.max_tension_at.y < 0.5 * wall.height);
  CHECK(wall.max_tension_on_outside);
  // 4 %: read a thickness off the corner, and the end walls give a little.
  CHECK(near(wall.corner_force, -bend(single, hydrostatic(0.3556_m, 1023_kg_m3)).reactions.bottom_left, 4e-2));
  CHECK(wall.corner_force_at.y < 20_mm);
}

TEST_CASE("tank: a monolithic wall bends between the clamped and the hinged panel, near the clamped one on a plane") {
  const Tank tank = box();
  Panel single{.width = 2.414_m, .height = 0.394_m, .thickness = 11.91_mm, .material = tank.material};
  const PressureLoad load = hydrostatic(0.3556_m, 1023_kg_m3);
  const BentPanel hinged_panel = bend(single, load);
  single.bottom = clamped();
  const BentPanel clamped_foot = bend(single, load);
  single.left = single.right = clamped();
  const BentPanel clamped_panel = bend(single, load);
  const BentPart wall = part(bend(tank, water(), JointModel::monolithic), TankPart::front_wall);
  CHECK(wall.max_deflection > clamped_panel.max_deflection);
  CHECK(wall.max_deflection < 1.2 * clamped_foot.max_deflection);
  CHECK(wall.max_deflection < 0.2 * hinged_panel.max_deflection);
}

TEST_CASE("tank: a stiff bead tends to the monolithic tank, one that turns freely to the hinged tank [limits]") {
  Tank tank = box();
  const TankLoad load = water();
  const BentPart hinged_wall = part(bend(tank, load, JointModel::hinged), TankPart::front_wall);
  const BentPart whole_wall = part(bend(tank, load, JointModel::monolithic), TankPart::front_wall);
  tank.joint = AdhesiveBead{.thickness = 1_mm, .bite = 11.91_mm, .youngs_modulus = 10000_GPa, .poisson_ratio = 0.49};
  const BentPart stiff = part(bend(tank, load), TankPart::front_wall);
  CHECK(near(stiff.max_deflection, whole_wall.max_deflection, 5e-3));
  CHECK(near(stiff.max_tension, whole_wall.max_tension, 1e-2));
  // As thick as wide and a fortieth of the sheet: turning goes with the cube of the bite, holding with the bite.
  tank.joint = AdhesiveBead{.thickness = 0.3_mm, .bite = 0.3_mm, .youngs_modulus = 5_GPa, .poisson_ratio = 0.49};
  const BentPart turning = part(bend(tank, load), TankPart::front_wall);
  CHECK(near(turning.max_deflection, hinged_wall.max_deflection, 1e-2));
  CHECK(turning.max_deflection < hinged_wall.max_deflection);
  CHECK(near(turning.max_tension, hinged_wall.max_tension, 1e-2));
  // Silicone gives way in the bite too, so only a lower bound is sure: less stiff than one piece.
  tank.joint = silicone(11.91_mm);
  CHECK(part(bend(tank, load), TankPart::front_wall).max_deflection > whole_wall.max_deflection);
}

TEST_CASE("tank: between the limits holds the same three solutions") {
  Tank tank = box();
  CHECK(!bend_between_limits(tank, water()).as_bonded);
  tank.joint = silicone(12_mm);
  const TankBetweenLimits limits = bend_between_limits(tank, water());
  REQUIRE(limits.as_bonded);
  CHECK(limits.hinged.joints == JointModel::hinged);
  CHECK(limits.monolithic.joints == JointModel::monolithic);
  CHECK(part(*limits.as_bonded, TankPart::front_wall).max_deflection ==
        part(bend(tank, water()), TankPart::front_wall).max_deflection);
  // How much hangs on the joints on a rigid plane: a factor of 4 to 7 and more for a long wall.
  CHECK(part(limits.hinged, TankPart::front_wall).max_deflection >
        4.0 * part(limits.monolithic, TankPart::front_wall).max_deflection);
}

TEST_CASE("tank: foam under the base changes the bow of a monolithic wall and not that of a hinged one") {
  Tank plane = box(), foam = box();
  foam.support = TankSupport::foam;
  foam.foundation = from_si<FoundationModulus>(2e7);
  const auto bow = [](const Tank& tank, JointModel joints) {
    return si(part(bend(tank, water(), joints), TankPart::front_wall).max_deflection);
  };
  CHECK(near(bow(foam, JointModel::hinged), bow(plane, JointModel::hinged), 2e-2));
  CHECK(bow(foam, JointModel::monolithic) > 1.1 * bow(plane, JointModel::monolithic));
}

TEST_CASE("tank: stiff foam tends to the plane, and a soft perimeter lets the tank down evenly [limits]") {
  Tank plane = box(), foam = box();
  foam.support = TankSupport::foam;
  foam.foundation = from_si<FoundationModulus>(1e15);
  const auto bow = [](const Tank& tank) {
    return si(part(bend(tank, water(), JointModel::monolithic), TankPart::front_wall).max_deflection);
  };
  CHECK(near(bow(foam), bow(plane), 2e-2));
  // Perimeter on soft springs: the tank sinks by its whole load over the stiffness of the perimeter.
  Tank soft = box();
  soft.support = TankSupport::perimeter;
  soft.edge_stiffness = from_si<EdgeStiffness>(1e4);
  const BentTank sunk = bend(soft, water(), JointModel::monolithic);
  const double load = 1023.0 * si(standard_gravity) * 0.3556 * 2.414 * 0.738;
  const double mean = load / (1e4 * 2.0 * (2.414 + 0.738));
  CHECK(near(-si(state_at(sunk, TankPart::base, 1.207_m, Length()).displacement_z), mean, 2e-2));
  CHECK(near(-si(state_at(sunk, TankPart::base, Length(), 0.369_m).displacement_z), mean, 2e-2));
}

TEST_CASE("tank: what stands under it presses back with the load, and is told where it would have to pull [statics]") {
  const double load = 1023.0 * si(standard_gravity) * 0.3556 * 2.414 * 0.738;
  Tank tank = box();
  tank.support = TankSupport::foam;
  tank.foundation = from_si<FoundationModulus>(1e4);  // so soft that the base stays flat beside it
  const BentSupport floats = bend(tank, water(), JointModel::monolithic).support;
  CHECK(near(floats.least_pressure, from_si<Pressure>(load / (2.414 * 0.738)), 1e-2));
  CHECK(near(floats.largest_pressure, from_si<Pressure>(load / (2.414 * 0.738)), 1e-2));
  CHECK(floats.largest_line_load == LineLoad());
  CHECK_FALSE(floats.pulls);

  TankLoad heavy_at_one_end = water(10_mm);
  heavy_at_one_end.rim_loads = {
      {.on = TankPart::left_wall, .along = 0.363_m, .length = 0.4_m, .down = 2000_N, .outward = 0_N}};
  const BentSupport tips = bend(tank, heavy_at_one_end, JointModel::monolithic).support;
  CHECK(tips.least_pressure < Pressure());
  CHECK(tips.pulls);

  tank.support = TankSupport::perimeter;
  tank.edge_stiffness = from_si<EdgeStiffness>(1e4);
  const BentSupport edges = bend(tank, water(), JointModel::monolithic).support;
  CHECK(near(edges.largest_line_load, from_si<LineLoad>(load / (2.0 * (2.414 + 0.738))), 3e-2));
  CHECK(near(edges.least_line_load, from_si<LineLoad>(load / (2.0 * (2.414 + 0.738))), 3e-2));
  CHECK_FALSE(edges.pulls);
}

TEST_CASE("tank: a rim brace of no width leaves the tank rimless, and every wider one bows less [limits]") {
  const TankLoad load = water();
  Tank tank = box();
  const BentPart rimless = part(bend(tank, load, JointModel::hinged), TankPart::front_wall);
  tank.rim = rim_of(tank, 1_mm);
  tank.rim->thickness = 0.4_mm;
  tank.rim->bond = silicone(0.4_mm, 0.4_mm);
  const BentPart barely = part(bend(tank, load, JointModel::hinged), TankPart::front_wall);
  CHECK(near(barely.max_deflection, rimless.max_deflection, 5e-3));
  tank.rim = rim_of(tank, 64_mm);
  tank.rim->material.youngs_modulus *= 1e-6;
  const BentPart rag = part(bend(tank, load, JointModel::hinged), TankPart::front_wall);
  CHECK(near(rag.max_deflection, rimless.max_deflection, 1e-3));
  double before = si(rimless.max_deflection);
  for (const double width_mm : {30.0, 50.0, 80.0, 120.0}) {
    tank.rim = rim_of(tank, width_mm * units::millimetre);
    const double bow = si(part(bend(tank, load, JointModel::hinged), TankPart::front_wall).max_deflection);
    CHECK(bow < before);
    before = bow;
  }
}

TEST_CASE("tank: a very stiff rim brace holds the top of the wall like a panel's held top edge [structure::bend]") {
  Tank tank = box();
  tank.rim = rim_of(tank, 150_mm);
  tank.rim->corner = RingCorner::one_piece;
  tank.rim->material.youngs_modulus *= 3000.0;
  Panel single{.width = 2.414_m, .height = 0.394_m, .thickness = 11.91_mm, .material = tank.material};
  const PressureLoad load = hydrostatic(0.3556_m, 1023_kg_m3);
  single.top = clamped();
  const BentPanel clamped_top = bend(single, load);
  const BentPart turned = part(bend(tank, water(), JointModel::hinged), TankPart::front_wall);
  CHECK(near(turned.max_deflection, clamped_top.max_deflection, 3e-2));
  // A bond that turns freely leaves the top edge hinged.
  tank.rim->bond = AdhesiveBead{.thickness = 1_mm, .bite = 1_mm, .youngs_modulus = 1_GPa, .poisson_ratio = 0.49};
  single.top = hinged();
  const BentPanel hinged_top = bend(single, load);
  const BentPart held = part(bend(tank, water(), JointModel::hinged), TankPart::front_wall);
  CHECK(near(held.max_deflection, hinged_top.max_deflection, 3e-2));
}

TEST_CASE("tank: a ring whose corners are joined is stiffer than an open one") {
  Tank tank = box();
  tank.rim = rim_of(tank, 64_mm);
  const auto bow = [&](RingCorner corner) {
    tank.rim->corner = corner;
    return si(part(bend(tank, water(), JointModel::hinged), TankPart::front_wall).max_deflection);
  };
  CHECK(bow(RingCorner::one_piece) < bow(RingCorner::open));
  tank.rim->bond = silicone(12_mm);
  CHECK(bow(RingCorner::one_piece) < bow(RingCorner::butted));
  CHECK(bow(RingCorner::mitred) <= bow(RingCorner::butted));
  CHECK(bow(RingCorner::butted) <= bow(RingCorner::open));
}

TEST_CASE("tank: a cross brace pulls no more than the top reaction of walls held all along [statics]") {
  Tank tank = box();
  tank.cross_braces = {cross_at(tank, 0.5 * tank.inside_length)};
  const BentTank bent = bend(tank, water(), JointModel::hinged);
  const double pull = si(strip(bent, TankPart::cross_brace).mid_span.tension);
  // Wall as a beam from foot to top, held at both: the top takes rho g d^3 / (6 h) per length. A tie in the middle
  // takes the top reaction of its neighbourhood, at most that of the whole length as a two-span beam: 5 / 8 of it.
  const double top = 1023.0 * si(standard_gravity) * std::pow(0.3556, 3) / (6.0 * 0.394) * 2.414;
  CHECK(pull > 0.2 * top);
  CHECK(pull < 0.625 * top);
  // Tied in the middle, the wall bows less than half as much.
  CHECK(part(bent, TankPart::front_wall).max_deflection <
        0.5 * part(bend(box(), water(), JointModel::hinged), TankPart::front_wall).max_deflection);
}

TEST_CASE("tank: out of level, the deeper end bows more, and tilting the other way mirrors it") {
  TankLoad load = water(0.34_m);
  load.rise_along = 0.02;  // deeper to the left
  const Tank tank = box(1.2_m, 0.738_m, 0.394_m);
  const BentTank tilted = bend(tank, load, JointModel::hinged);
  CHECK(part(tilted, TankPart::left_wall).max_deflection > part(tilted, TankPart::right_wall).max_deflection);
  CHECK(part(tilted, TankPart::left_wall).max_tension > part(tilted, TankPart::right_wall).max_tension);
  CHECK(part(tilted, TankPart::front_wall).max_deflection_at.x < 0.6_m);
  load.rise_along = -0.02;
  const BentTank other = bend(tank, load, JointModel::hinged);
  CHECK(near(part(other, TankPart::right_wall).max_deflection, part(tilted, TankPart::left_wall).max_deflection, 1e-6));
  load.rise_along = 0.0;
  load.rise_across = 0.02;  // deeper at the front
  const BentTank across = bend(tank, load, JointModel::hinged);
  CHECK(part(across, TankPart::front_wall).max_deflection > part(across, TankPart::back_wall).max_deflection);
}

TEST_CASE("tank: state at the corners is finite and the walls move together there") {
  const Tank tank = box();
  const BentTank bent = bend(tank, water(), JointModel::monolithic);
  for (const Length& z : {Length(), 0.197_m, 0.394_m}) {
    const TankState front = state_at(bent, TankPart::front_wall, Length(), z);
    const TankState left = state_at(bent, TankPart::left_wall, Length(), z);
    // Rigid joints give as much as a hundredth of a thickness of glass: well under a micrometre here.
    CHECK(within(front.displacement_x, left.displacement_x, 0.5_um));
    CHECK(within(front.displacement_y, left.displacement_y, 0.5_um));
    CHECK(within(front.displacement_z, left.displacement_z, 0.5_um));
    CHECK(std::isfinite(si(front.max_tension)));
  }
  const BentPart& wall = part(bent, TankPart::front_wall);
  const TankState at_peak = state_at(bent, TankPart::front_wall, wall.max_deflection_at.x, wall.max_deflection_at.y);
  CHECK(near(-at_peak.displacement_y, wall.max_deflection, 1e-9));
  const TankState tense = state_at(bent, TankPart::front_wall, wall.max_tension_at.x, wall.max_tension_at.y);
  CHECK(near(tense.max_tension, wall.max_tension, 1e-9));
}

TEST_CASE("tank: a hinged and a monolithic tank [CalculiX 2.20, C3D20R]") {
  // Finite elements of 25 mm and 17 mm, which differ by 0.01 % (hinged) and 0.23 % (monolithic) in deflection: the
  // values are those of 17 mm. 1 % in deflection, 2 % in stress: the accuracy that `bend` states.
  const BentTank hinged_tank = bend(box(), water(), JointModel::hinged);
  CHECK(near(part(hinged_tank, TankPart::front_wall).max_deflection, 3.297784e-3 * units::metre, 1e-2));
  CHECK(near(part(hinged_tank, TankPart::left_wall).max_deflection, 0.1947708e-3 * units::metre, 1e-2));
  CHECK(near(part(hinged_tank, TankPart::front_wall).max_tension, 4.851746_MPa, 2e-2));
  const auto top = [](const BentTank& bent, double eighth) {
    return -si(state_at(bent, TankPart::front_wall, 0.5 * 2.414_m * (1.0 - eighth / 8.0), 0.394_m).displacement_y);
  };
  CHECK(near(top(hinged_tank, 2.0), 3.08266e-3, 1e-2));
  CHECK(near(top(hinged_tank, 6.0), 1.384216e-3, 1e-2));
  const BentTank whole = bend(box(), water(), JointModel::monolithic);
  CHECK(near(part(whole, TankPart::front_wall).max_deflection, 0.1999116e-3 * units::metre, 1e-2));
  CHECK(near(top(whole, 2.0), 0.1934076e-3, 1e-2));
  CHECK(near(top(whole, 6.0), 0.09253576e-3, 1e-2));
  CHECK(near(part(whole, TankPart::left_wall).max_deflection, 0.03104456e-3 * units::metre, 1e-2));
}

TEST_CASE("tank: impossible tanks and loads are refused by name") {
  const auto refused = [](auto&& change, const std::string& what, JointModel joints = JointModel::hinged) {
    Tank tank = box();
    TankLoad load = water();
    tank.joint = silicone(12_mm);
    tank.rim = rim_of(tank, 64_mm);
    tank.cross_braces = {cross_at(tank, 0.7_m)};
    change(tank, load);
    CAPTURE(what);
    CHECK(contains(message_of<InvalidInput>([&] { (void)bend(tank, load, joints); }), what));
  };
  const auto not_valid = [](auto&& change, const std::string& what) {
    Tank tank = box();
    TankLoad load = water();
    change(tank, load);
    CAPTURE(what);
    CHECK(contains(message_of<OutOfValidity>([&] { (void)bend(tank, load, JointModel::hinged); }), what));
  };
  refused([](Tank& t, TankLoad&) { t.inside_length = Length(); }, "inside length");
  refused([](Tank& t, TankLoad&) { t.inside_width = -1_m; }, "inside width");
  refused([](Tank& t, TankLoad&) { t.wall_height = no_number * units::metre; }, "wall height");
  refused([](Tank& t, TankLoad&) { t.wall_thickness = infinite * units::metre; }, "wall thickness");
  refused([](Tank& t, TankLoad&) { t.base_thickness = Length(); }, "base thickness");
  refused([](Tank& t, TankLoad&) { t.material.poisson_ratio = 0.7; }, "Poisson");
  refused([](Tank& t, TankLoad&) { t.joint = std::nullopt; }, "tank joint", JointModel::as_bonded);
  refused([](Tank& t, TankLoad&) { t.joint->bite = Length(); }, "tank joint bite");
  refused([](Tank& t, TankLoad&) { t.support = TankSupport::foam; }, "foundation");
  refused([](Tank& t, TankLoad&) { t.support = TankSupport::perimeter; }, "edge stiffness");
  refused([](Tank& t, TankLoad&) { t.rim->width = 0.36_m; }, "rim brace width");
  refused([](Tank& t, TankLoad&) { t.rim->thickness = -1_mm; }, "rim brace thickness");
  refused(
      [](Tank& t, TankLoad&) {
        t.rim->bond = silicone(12_mm);
        t.rim->bond->thickness = Length();
      },
      "rim brace bond thickness");
  refused([](Tank& t, TankLoad&) { t.cross_braces[0].width = Length(); }, "cross brace width");
  refused([](Tank& t, TankLoad&) { t.cross_braces[0].thickness = Length(); }, "cross brace thickness");
  refused([](Tank& t, TankLoad&) { t.cross_braces[0].at = 0.1_m; }, "cross brace place");
  refused([](Tank& t, TankLoad&) { t.cross_braces.push_back(cross_at(t, 0.8_m)); }, "cross brace place");
  refused(
      [](Tank& t, TankLoad&) {
        t.cross_braces[0].bond = silicone(12_mm);
        t.cross_braces[0].bond->youngs_modulus = Pressure();
      },
      "cross brace bond Young's modulus");
  refused([](Tank&, TankLoad& l) { l.water_depth = 0.5_m; }, "water depth");
  refused([](Tank&, TankLoad& l) { l.water_depth = Length(); }, "water depth");
  refused([](Tank&, TankLoad& l) { l.rise_along = 0.05; }, "water depth");
  refused([](Tank&, TankLoad& l) { l.water = Density(); }, "water density");
  refused([](Tank&, TankLoad& l) { l.gravity = Acceleration(); }, "gravity");
  const auto rim_load = [](auto&& change) {
    return [change](Tank&, TankLoad& l) {
      RimLoad r{.on = TankPart::left_wall, .along = 0.3_m, .length = 0.1_m, .down = 10_N, .outward = 1_N};
      change(r);
      l.rim_loads = {r};
    };
  };
  refused(rim_load([](RimLoad& r) { r.on = TankPart::base; }), "rim load wall");
  refused(rim_load([](RimLoad& r) { r.along = 0.01_m; }), "rim load place");
  refused(rim_load([](RimLoad& r) { r.along = no_number * units::metre; }), "rim load place");
  refused(rim_load([](RimLoad& r) { r.length = Length(); }), "rim load length");
  refused(rim_load([](RimLoad& r) { r.down = infinite * units::newton; }), "rim load down");
  refused(rim_load([](RimLoad& r) { r.outward = no_number * units::newton; }), "rim load outward");
  not_valid([](Tank& t, TankLoad&) { t.wall_thickness = 60_mm; }, "wall thickness / wall height");
  not_valid([](Tank& t, TankLoad&) { t.base_thickness = 200_mm; }, "base thickness");
  not_valid([](Tank& t, TankLoad&) { t.inside_length = 9_m; }, "inside length or width / wall height");
  not_valid([](Tank&, TankLoad& l) { l.rise_along = 0.2; }, "rise along");
  not_valid([](Tank&, TankLoad& l) { l.rise_across = no_number; }, "rise across");
}

TEST_CASE("tank: a part that is not there and a place beside a part are refused by name") {
  const BentTank bent = bend(box(), water(), JointModel::hinged);
  CHECK(contains(message_of<InvalidInput>([&] { (void)part(bent, TankPart::front_rim); }), "front rim"));
  CHECK(contains(message_of<InvalidInput>([&] { (void)part(bent, TankPart::front_wall, 1); }), "front wall 1"));
  CHECK(contains(message_of<InvalidInput>([&] { (void)state_at(bent, TankPart::cross_brace, 1_mm, 1_mm); }),
                 "cross brace"));
  CHECK(contains(message_of<InvalidInput>([&] { (void)state_at(bent, TankPart::base, -1_mm, 1_mm); }), "x"));
  CHECK(contains(
      message_of<InvalidInput>([&] { (void)state_at(bent, TankPart::left_wall, 1_mm, no_number * units::metre); }),
      "y"));
}

TEST_CASE("tank: names of joint models and parts") {
  CHECK(name(JointModel::as_bonded) == "as bonded");
  CHECK(name(JointModel::hinged) == "hinged");
  CHECK(name(JointModel::monolithic) == "monolithic");
  CHECK(name(TankPart::left_rim) == "left rim");
  CHECK(name(TankPart::cross_brace) == "cross brace");
}

TEST_CASE("a shallow end that falls dry pulls at nothing: the base is pressed down everywhere") {
  Tank tank = box();
  tank.support = TankSupport::foam;
  tank.foundation = from_si<FoundationModulus>(2e7);
  TankLoad load = water();
  load.own_weight = false;
  load.water_depth = 60_mm;
  load.rise_along = 0.1;
  const BentTank bent = bend(tank, load, JointModel::hinged);
  // Hydrostatics of the wet wedge, 0.06 m + 0.1 x 1.207 m deep at the low end, and foam under all of it.
  const double deepest = 0.06 + 0.1 * 0.5 * 2.414,
               weight = 1023.0 * si(standard_gravity) * 0.5 * deepest * deepest / 0.1;
  double carried = 0.0;
  constexpr int steps = 2000;
  for (int i = 0; i < steps; ++i)
    carried -=
        2e7 * 2.414 / steps * si(state_at(bent, TankPart::base, 2.414_m * ((i + 0.5) / steps), 0.369_m).displacement_z);
  CHECK(near(carried, weight, 0.03));  // along the middle line; the base spans across it, and the kink is integrated
}

TEST_CASE("a tank that was never bent has no state") {
  CHECK(contains(message_of<InvalidInput>([] { (void)state_at(BentTank{}, TankPart::base, 0_m, 0_m); }), "bent tank"));
}
