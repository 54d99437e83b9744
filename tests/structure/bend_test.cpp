// Bending of a panel: limits, symmetries, scaling laws, equilibrium, and what is refused.
#include "theca/structure/bend.hpp"

#include <cmath>
#include <limits>
#include <random>

#include "support/near.hpp"
#include "theca/error.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using test::contains;
using test::message_of;
using test::near;
using test::within;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double pi = 3.14159265358979323846;
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

Panel wall() {
  Panel p;
  p.width = 1.2_m;
  p.height = 420_mm;
  p.thickness = 10_mm;
  p.material.youngs_modulus = 70_GPa;
  p.material.poisson_ratio = 0.22;
  return p;
}
const PressureLoad water = hydrostatic(390_mm, 1023_kg_m3);

/// Moment of all reactions about the bottom edge line.
double moment_about_bottom(const BentPanel& b) {
  const auto arm = [&](Side side) {
    double sum = 0.0;  // midpoint rule on the reaction times y
    constexpr int n = 4000;
    for (int i = 0; i < n; ++i) sum += si(b.reaction_at(side, (i + 0.5) / n * b.panel.height)) * (i + 0.5) / n;
    return sum / n * si(b.panel.height) * si(b.panel.height);
  };
  return arm(Side::left) + arm(Side::right) +
         si(b.panel.height) * (si(b.reactions.top) + si(b.reactions.top_left) + si(b.reactions.top_right));
}

/// Random walls: every kind of edge, beams and springs among them, that keep the panel in place.
class RandomWalls {
 public:
  explicit RandomWalls(unsigned seed) : random_(seed) {}
  double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }
  double log_between(double low, double high) { return std::exp(between(std::log(low), std::log(high))); }
  Edge edge() {
    switch (std::uniform_int_distribution<int>(0, 4)(random_)) {
      case 0:
        return hinged();
      case 1:
        return clamped();
      case 2:
        return elastic(from_si<EdgeStiffness>(log_between(1e3, 1e7)),
                       from_si<RotationalStiffness>(log_between(10.0, 1e5)));
      case 3:
        return beam_edge(from_si<BeamStiffness>(log_between(10.0, 1e5)), from_si<BeamStiffness>(log_between(1.0, 1e4)));
      default:
        return free_edge();
    }
  }
  Panel panel() {
    Panel p = wall();
    p.width = log_between(0.2, 2.5) * units::metre;
    p.height = between(0.3, 0.6) * units::metre;
    p.bottom = between(0.0, 1.0) < 0.5 ? hinged() : clamped();
    p.left = edge();
    p.right = between(0.0, 1.0) < 0.5 ? p.left : hinged();
    if (p.left.translation.value() == 0.0) p.right = hinged();
    p.top = edge();
    return p;
  }
  PanelLoad load(const Panel& p) {
    PanelLoad l;
    l.pressure = hydrostatic(between(0.1, 1.0) * p.height, 1023_kg_m3);
    for (int i = std::uniform_int_distribution<int>(0, 3)(random_); i > 0; --i) {
      const Length w = between(0.0, 0.5) * p.width, h = between(-0.3, 0.5) > 0.0 ? 0.2 * p.height : Length();
      l.patches.push_back({0.5 * w + between(0.0, 1.0) * (p.width - w), 0.5 * h + between(0.0, 1.0) * (p.height - h), w,
                           h, between(-300.0, 500.0) * units::newton});
    }
    if (between(0.0, 1.0) < 0.5)
      l.points.push_back({between(0.0, 1.0) * p.width, p.height, between(-200.0, 200.0) * units::newton, 20_mm});
    return l;
  }

 private:
  std::mt19937 random_;
};

Force sum(const EdgeReactions& r) {
  return r.bottom + r.left + r.right + r.top + r.bottom_left + r.bottom_right + r.top_left + r.top_right;
}

}  // namespace

TEST_CASE("random walls and loads: reactions balance the load to 1e-6 of all forces") {
  RandomWalls walls(1);
  for (int i = 0; i < 300; ++i) {
    CAPTURE(i);
    const Panel p = walls.panel();
    const PanelLoad l = walls.load(p);
    const BentPanel b = bend_under(p, l, i % 2 == 0 ? 14 : 11);
    double total = 0.5 * si(l.pressure.at_bottom) * si(l.pressure.water_depth) * si(p.width), size = total;
    for (const PatchLoad& patch : l.patches) total += si(patch.force), size += std::abs(si(patch.force));
    for (const PointLoad& point : l.points) total += si(point.force), size += std::abs(si(point.force));
    CHECK(within(si(b.total_load), total, 1e-9 * size));
    CHECK(within(si(sum(b.reactions)), total, 1e-6 * size));
    CHECK(b.equilibrium_residual < 1e-6);
  }
}

TEST_CASE("random walls and loads: no point of a dense scan has more tension or deflection than the peaks found") {
  RandomWalls walls(2);
  for (int i = 0; i < 60; ++i) {
    CAPTURE(i);
    const Panel p = walls.panel();
    const BentPanel b = bend_under(p, walls.load(p), 12);
    double tension = 0.0, deflection = 0.0;
    const auto see = [&](const Length& x, const Length& y) {
      const auto s = b.at(x, y);
      tension = std::max({tension, si(s.far_face.principal_max), si(s.loaded_face.principal_max)});
      deflection = std::max(deflection, std::abs(si(s.deflection)));
    };
    constexpr int n = 80;
    for (int j = 0; j <= n; ++j)
      for (int k = 0; k <= n; ++k)
        see(0.5 * (1.0 - std::cos(j * pi / n)) * p.width, 0.5 * (1.0 - std::cos(k * pi / n)) * p.height);
    for (const PatchLoad& patch : b.patches)  // a narrow one may stand between the places of the scan
      for (int j = -8; j <= 8; ++j)
        for (int k = -8; k <= 8; ++k)
          see(patch.x + j / 16.0 * (1.0 - 1e-9) * patch.width, patch.y + k / 16.0 * (1.0 - 1e-9) * patch.height);
    CHECK(tension <= si(b.max_tension) * (1.0 + 1e-9));
    CHECK(deflection <= si(b.max_deflection) * (1.0 + 1e-9));
    CHECK(tension >= si(b.max_tension) * 0.9);  // and the peak is not thin air
    const auto there = b.at(b.max_tension_at);
    CHECK(near(b.max_tension_on_far_face ? there.far_face.principal_max : there.loaded_face.principal_max,
               b.max_tension, 1e-9));
  }
}

TEST_CASE("loads are superposed: the answer to all is the sum of the answers to each") {
  RandomWalls walls(3);
  for (int i = 0; i < 20; ++i) {
    CAPTURE(i);
    const Panel p = walls.panel();
    PanelLoad all = walls.load(p);
    all.patches.push_back({0.3 * p.width, 0.7 * p.height, 0.1 * p.width, 0_mm, 120_N});
    const Length x = 0.37 * p.width, y = 0.61 * p.height;
    // All contacts stay where they are, without force: the polynomials' pieces follow them.
    PanelLoad none = all;
    none.pressure = PanelLoad().pressure;
    for (PatchLoad& patch : none.patches) patch.force = 0_N;
    for (PointLoad& point : none.points) point.force = 0_N;
    double deflection = 0.0, moment = 0.0, size = 0.0, moment_size = 0.0;
    const auto add = [&](const PanelLoad& one) {
      const PanelState s = bend_under(p, one, 12).at(x, y);
      deflection += si(s.deflection);
      moment += si(s.moment_y);
      size += std::abs(si(s.deflection));
      moment_size += std::abs(si(s.moment_y));
    };
    PanelLoad one = none;
    one.pressure = all.pressure;
    add(one);
    for (std::size_t k = 0; k < all.patches.size(); ++k) {
      one = none;
      one.patches[k] = all.patches[k];
      add(one);
    }
    for (std::size_t k = 0; k < all.points.size(); ++k) {
      one = none;
      one.points[k] = all.points[k];
      add(one);
    }
    const PanelState s = bend_under(p, all, 12).at(x, y);
    CHECK(within(si(s.deflection), deflection, 1e-7 * size));  // slender pieces cost digits
    CHECK(within(si(s.moment_y), moment, 1e-7 * moment_size));
  }
}

TEST_CASE("the mirror image of a loaded panel has the mirror image of its answer") {
  RandomWalls walls(4);
  for (int i = 0; i < 20; ++i) {
    CAPTURE(i);
    const Panel p = walls.panel();
    const PanelLoad l = walls.load(p);
    Panel q = p;
    std::swap(q.left, q.right);
    PanelLoad m = l;
    for (PatchLoad& patch : m.patches) patch.x = p.width - patch.x;
    for (PointLoad& point : m.points) point.x = p.width - point.x;
    const BentPanel a = bend_under(p, l, 12), b = bend_under(q, m, 12);
    CHECK(near(a.max_tension, b.max_tension, 1e-7));
    CHECK(near(a.max_deflection, b.max_deflection, 1e-7));
    const Length x = 0.2 * p.width, y = 0.6 * p.height;
    CHECK(within(si(a.at(x, y).deflection), si(b.at(p.width - x, y).deflection), 1e-8 * si(a.max_deflection)));
    CHECK(within(si(a.reactions.bottom_left), si(b.reactions.bottom_right),
                 1e-6 * std::abs(si(a.reactions.bottom)) + 1e-4));
  }
}

TEST_CASE("a patch over the whole panel is a uniform pressure; a line or point load is the limit of a narrow patch") {
  const Panel p = wall();
  PanelLoad whole;
  whole.patches = {{0.5 * p.width, 0.5 * p.height, p.width, p.height, 1000_Pa * p.width * p.height}};
  CHECK(near(bend_under(p, whole).max_tension, bend(p, uniform(1_kPa)).max_tension, 1e-9));
  CHECK(near(bend_under(p, whole).reactions.left, bend(p, uniform(1_kPa)).reactions.left, 1e-9));
  PanelLoad line;
  line.patches = {{0.4 * p.width, p.height, 200_mm, 0_mm, 100_N}};  // a tool box on the rim
  PanelLoad narrow = line;
  narrow.patches[0].height = 1_um;
  narrow.patches[0].y = p.height - 0.5_um;
  CHECK(near(bend_under(p, line).max_deflection, bend_under(p, narrow).max_deflection, 1e-5));
}

TEST_CASE("a force on a held corner or edge goes into the support and bends nothing") {
  Panel p = wall();
  PanelLoad corner;
  corner.patches = {{0_m, 0_m, 0_m, 0_m, 300_N}};
  const BentPanel b = bend_under(p, corner);
  CHECK(si(b.max_deflection) < 1e-15);
  CHECK(near(b.reactions.bottom_left, 300_N, 1e-9));
  PanelLoad foot;
  foot.patches = {{0.5 * p.width, 0_m, 200_mm, 0_m, 300_N}};
  const BentPanel f = bend_under(p, foot);
  CHECK(si(f.max_deflection) < 1e-15);
  CHECK(near(sum(f.reactions), 300_N, 1e-9));
}

TEST_CASE("edge beam: a narrow strip of plate on a stiff beam bends as the beam [5 q L^4 / (384 E I), beam statics]") {
  // Two free long edges with a beam each, hinged ends, no lateral contraction: a beam of D b + 2 E I.
  Panel p = wall();
  p.width = 1_m;
  p.height = 100_mm;
  p.thickness = 5_mm;
  p.material.poisson_ratio = 0.0;
  p.left = p.right = hinged();
  p.bottom = p.top = beam_edge(from_si<BeamStiffness>(200.0));
  const BentPanel b = bend(p, uniform(1_kPa), 20);
  const double stiffness = si(flexural_rigidity(p)) * 0.1 + 2.0 * 200.0;
  const double line_load = 100.0;
  const double mean = si(b.at(500_mm, 50_mm).deflection);
  CHECK(near(mean, 5.0 * line_load / (384.0 * stiffness), 5e-3));  // the strip sags a little between its beams
  CHECK(near(si(b.reactions.left + b.reactions.bottom_left + b.reactions.top_left), 50.0, 1e-9));
}

TEST_CASE("transverse shears: their divergence balances the water pressure, and at a hinged edge centre they match") {
  Panel p = wall();
  p.width = 0.6_m;
  p.top = hinged();
  const BentPanel b = bend(p, uniform(2_kPa), 20);
  const double x = 0.21, y = 0.17, h = 0.01;
  const auto qx = [&](double at) { return si(b.at(at * units::metre, y * units::metre).shear_x); };
  const auto qy = [&](double at) { return si(b.at(x * units::metre, at * units::metre).shear_y); };
  CHECK(near((qx(x + h) - qx(x - h)) / (2 * h) + (qy(y + h) - qy(y - h)) / (2 * h), -2000.0, 5e-3));
}

TEST_CASE(
    "contact of a point load: Westergaard's radius, its square, and where it stands [Roark 7th ed., Table 11.4]") {
  CHECK(near(equivalent_contact_radius(0_mm, 10_mm), 3.25_mm, 1e-12));
  CHECK(near(si(equivalent_contact_radius(4_mm, 10_mm)), std::sqrt(1.6 * 16.0 + 100.0) * 1e-3 - 6.75e-3, 1e-12));
  CHECK(equivalent_contact_radius(6_mm, 10_mm) == 6_mm);
  // equal mean of ln r: over a disc ln c - 1/2, over the square by the midpoint rule
  const Panel p = wall();
  const PatchLoad patch = contact_patch({600_mm, 200_mm, 50_N, 10_mm}, p);
  CHECK(patch.width == patch.height);
  double mean = 0.0;
  for (int i = 0; i < 400; ++i)
    for (int j = 0; j < 400; ++j)
      mean += std::log(0.5 * si(patch.width) * std::hypot((i + 0.5) / 400, (j + 0.5) / 400)) / 160000;
  CHECK(within(mean, std::log(0.01) - 0.5, 1e-4));
  const PatchLoad rim = contact_patch({600_mm, 420_mm, 50_N, 10_mm}, p);
  CHECK(rim.height == 0_m);
  CHECK(rim.width == patch.width);
  CHECK_THROWS_AS(contact_patch({600_mm, 421_mm, 50_N, 10_mm}, p), InvalidInput);
}

TEST_CASE("loads beside the panel, overhanging, or no numbers are refused by name") {
  const auto refused = [](const PatchLoad& patch) {
    return message_of<InvalidInput>([&] {
      PanelLoad l;
      l.patches = {patch};
      bend_under(wall(), l);
    });
  };
  CHECK(contains(refused({50_mm, 200_mm, 101_mm, 0_mm, 10_N}), "patch load x"));
  CHECK(contains(refused({600_mm, 400_mm, 100_mm, 50_mm, 10_N}), "patch load y"));
  CHECK(contains(refused({600_mm, 200_mm, -1_mm, 50_mm, 10_N}), "patch load width"));
  CHECK(contains(refused({600_mm, 200_mm, 1_mm, not_a_number * units::metre, 10_N}), "patch load height"));
  CHECK(contains(refused({600_mm, 200_mm, 1_mm, 1_mm, not_a_number * units::newton}), "patch load force"));
  const auto point = [](const PointLoad& at) {
    return message_of<InvalidInput>([&] {
      PanelLoad l;
      l.points = {at};
      bend_under(wall(), l);
    });
  };
  CHECK(contains(point({1.3_m, 200_mm, 10_N, 1_mm}), "point load x"));
  CHECK(contains(point({1.1_m, -1_mm, 10_N, 1_mm}), "point load y"));
  CHECK(contains(point({1.1_m, 1_mm, 10_N, -1_mm}), "contact radius"));
  CHECK(contains(point({1.1_m, 1_mm, infinite * units::newton, 1_mm}), "point load force"));
  for (const double bad : {-1.0, not_a_number, infinite}) {
    Panel p = wall();
    p.top = beam_edge(from_si<BeamStiffness>(bad));
    CHECK(contains(message_of<InvalidInput>([&] { bend(p, water); }), "top edge beam bending"));
    p.top = beam_edge(from_si<BeamStiffness>(1.0), from_si<BeamStiffness>(bad));
    CHECK(contains(message_of<InvalidInput>([&] { bend(p, water); }), "top edge beam torsional"));
  }
}

TEST_CASE("pressure load: falls to zero at the water line and stays zero above") {
  CHECK(near(water.at_bottom, from_si<Pressure>(1023.0 * 9.80665 * 0.39), 1e-15));
  CHECK(near(water.at(195_mm), 0.5 * water.at_bottom, 1e-12));
  CHECK(water.at(390_mm) == Pressure());
  CHECK(water.at(420_mm) == Pressure());
  CHECK(uniform(3_kPa).at(2_m) == 3_kPa);
}

TEST_CASE("reactions and corner forces balance the load, in force to rounding and in moment to 1e-3") {
  const double total = 0.5 * si(water.at_bottom) * 0.39 * 1.2;
  for (int kind = 0; kind < 6; ++kind) {
    CAPTURE(kind);
    Panel p = wall();
    p.top = kind % 2 == 0 ? free_edge() : hinged();
    if (kind / 2 == 1) p.left = p.bottom = clamped();
    if (kind / 2 == 2) p.right = elastic(2e4 * units::pascal, 300.0 * units::newton_per_radian);
    const BentPanel b = bend(p, water);
    CHECK(near(si(b.total_load), total, 1e-12));
    const EdgeReactions& r = b.reactions;
    CHECK(near(si(r.bottom + r.left + r.right + r.top + r.bottom_left + r.bottom_right + r.top_left + r.top_right),
               total, 1e-9));
    CHECK(b.equilibrium_residual < 1e-9);
    if (kind / 2 != 1)  // a clamped bottom takes a moment of its own
      CHECK(within(moment_about_bottom(b), total * 0.13, 2e-3 * total * 0.13));
  }
}

TEST_CASE("stress goes with 1 / thickness^2 and deflection with 1 / thickness^3, exactly") {
  Panel p = wall();
  const BentPanel thin = bend(p, water);
  p.thickness = 3.0 * p.thickness;
  const BentPanel thick = bend(p, water);
  CHECK(near(thick.max_tension, thin.max_tension / 9.0, 1e-12));
  CHECK(near(thick.max_deflection, thin.max_deflection / 27.0, 1e-12));
}

TEST_CASE("stress and deflection go with the pressure; deflection with 1 / modulus, stress not at all") {
  Panel p = wall();
  const BentPanel one = bend(p, uniform(1_kPa));
  const BentPanel seven = bend(p, uniform(7_kPa));
  CHECK(near(seven.max_tension, 7.0 * one.max_tension, 1e-12));
  CHECK(near(seven.max_deflection, 7.0 * one.max_deflection, 1e-12));
  p.material.youngs_modulus = 3.2_GPa;
  const BentPanel soft = bend(p, uniform(1_kPa));
  CHECK(near(soft.max_tension, one.max_tension, 1e-12));
  CHECK(near(soft.max_deflection, 70.0 / 3.2 * one.max_deflection, 1e-12));
}

TEST_CASE("a pull instead of a push: same sizes, tension on the other face") {
  const BentPanel push = bend(wall(), uniform(1_kPa));
  const BentPanel pull = bend(wall(), uniform(-1_kPa));
  CHECK(push.max_tension_on_far_face);
  CHECK_FALSE(pull.max_tension_on_far_face);
  CHECK(near(pull.max_tension, push.max_tension, 1e-12));
  CHECK(near(pull.max_deflection, push.max_deflection, 1e-12));
  CHECK(near(pull.reactions.bottom, -push.reactions.bottom, 1e-12));
}

TEST_CASE("no load: everything is zero and nothing is NaN") {
  const BentPanel b = bend(wall(), uniform(0_Pa));
  CHECK(b.max_deflection == Length());
  CHECK(b.max_tension == Pressure());
  CHECK(b.equilibrium_residual == 0.0);
  CHECK(b.at(600_mm, 200_mm).far_face.principal_max == Pressure());
}

TEST_CASE("symmetric edges give a symmetric panel; the parity shortcut does not change the answer") {
  Panel p = wall();
  p.left = p.right = elastic(1e5 * units::pascal, 40.0 * units::newton_per_radian);
  const BentPanel even = bend(p, water);
  CHECK(near(even.at(300_mm, 150_mm).deflection, even.at(900_mm, 150_mm).deflection, 1e-10));
  CHECK(near(even.reactions.left, even.reactions.right, 1e-10));
  // A difference of 1e-13 in one stiffness switches parity off.
  p.right.translation = (1.0 + 1e-13) * p.right.translation;
  const BentPanel full = bend(p, water);
  CHECK(near(full.max_tension, even.max_tension, 1e-6));  // found by another search, on the other side perhaps
  CHECK(near(full.max_deflection, even.max_deflection, 1e-9));
  CHECK(near(full.at(300_mm, 150_mm).moment_y, even.at(300_mm, 150_mm).moment_y, 1e-9));
}

TEST_CASE("turning the panel by a right angle turns the answer") {
  Panel p = wall();
  p.bottom = clamped();
  p.left = hinged();
  p.right = elastic(3e4 * units::pascal, 200.0 * units::newton_per_radian);
  p.top = free_edge();
  Panel turned = p;  // x and y swapped
  turned.width = p.height;
  turned.height = p.width;
  turned.left = p.bottom;
  turned.right = p.top;
  turned.bottom = p.left;
  turned.top = p.right;
  const BentPanel a = bend(p, uniform(2_kPa));
  const BentPanel b = bend(turned, uniform(2_kPa));
  CHECK(near(a.max_deflection, b.max_deflection, 1e-9));
  CHECK(near(a.max_tension, b.max_tension, 1e-9));
  const PanelState s = a.at(0.9_m, 100_mm);
  const PanelState t = b.at(100_mm, 0.9_m);
  CHECK(near(s.moment_x, t.moment_y, 1e-9));
  CHECK(near(s.moment_y, t.moment_x, 1e-9));
  CHECK(near(s.moment_xy, t.moment_xy, 1e-9));
  CHECK(near(a.reactions.right, b.reactions.top, 1e-9));
  CHECK(near(a.reactions.bottom_right, b.reactions.top_left, 1e-6));
}

TEST_CASE("an elastic edge runs from free to held as its stiffness runs from zero to infinity") {
  Panel p = wall();
  p.top = free_edge();
  const BentPanel loose = bend(p, water);
  p.top = clamped();
  const BentPanel held = bend(p, water);
  p.top = elastic(from_si<EdgeStiffness>(1e-6), from_si<RotationalStiffness>(1e-6));
  CHECK(near(bend(p, water).max_deflection, loose.max_deflection, 1e-7));
  p.top = elastic(from_si<EdgeStiffness>(1e15), from_si<RotationalStiffness>(1e15));
  CHECK(near(bend(p, water).max_deflection, held.max_deflection, 1e-7));
  CHECK(near(bend(p, water).max_tension, held.max_tension, 1e-7));
  p.top = elastic(from_si<EdgeStiffness>(1e300), from_si<RotationalStiffness>(1e300));
  CHECK(near(bend(p, water).max_deflection, held.max_deflection, 1e-9));
  p.top = elastic(from_si<EdgeStiffness>(infinite), from_si<RotationalStiffness>(infinite));
  CHECK(bend(p, water).max_deflection == held.max_deflection);
  Length last = 2.0 * loose.max_deflection;
  for (double k = 10.0; k < 1e9; k *= 10.0) {
    p.top = elastic(from_si<EdgeStiffness>(k));
    const BentPanel b = bend(p, water);
    CHECK(b.max_deflection < last);
    last = b.max_deflection;
  }
}

TEST_CASE("a wide wall with held top bends as a strip: M = p0 H^2 / (9 sqrt 3) [statics of a beam]") {
  Panel p = wall();
  p.width = 8_m;
  p.height = 500_mm;
  p.top = hinged();
  const BentPanel b = bend(p, hydrostatic(500_mm, 1000_kg_m3), 24);
  const PanelState mid = b.at(4_m, (1.0 - 1.0 / std::sqrt(3.0)) * p.height);
  CHECK(near(si(mid.moment_y), 1000.0 * 9.80665 * 0.5 * 0.25 / (9.0 * std::sqrt(3.0)), 1e-3));
  CHECK(near(si(mid.moment_x), 0.22 * si(mid.moment_y), 1e-2));
}

TEST_CASE("a cantilever wall: clamped bottom, all else free, bends as a beam [p0 H^4 / (30 E I), p0 H^2 / 6]") {
  Panel p = wall();
  p.width = 500_mm;
  p.height = 1_m;
  p.material.poisson_ratio = 0.0;  // without lateral contraction the plate is a beam exactly
  p.left = p.right = p.top = free_edge();
  p.bottom = clamped();
  const BentPanel b = bend(p, hydrostatic(1_m, 1000_kg_m3));
  const double p0 = 9806.65;
  CHECK(near(si(b.max_deflection), p0 / 30.0 / (70e9 * 1e-6 / 12.0), 1e-9));
  CHECK(near(si(b.at(250_mm, 0_m).moment_y), -p0 / 6.0, 1e-9));
  CHECK(near(si(b.max_tension), p0 / 6.0 * 6.0 / 1e-4, 1e-9));
  CHECK_FALSE(b.max_tension_on_far_face);
  CHECK(near(si(b.max_deflection_at.y), 1.0, 1e-9));
  CHECK(within(si(b.max_tension_at.y), 0.0, 1e-9));
}

TEST_CASE("largest tension: found where it is, in a rimless wall near the lower corners and not at the top middle") {
  Panel p = wall();
  const BentPanel b = bend(p, water);
  const Pressure top_middle = b.at(0.5 * p.width, p.height).far_face.principal_max;
  CHECK(b.max_tension > 1.1 * top_middle);
  CHECK(si(b.max_tension_at.y) < 0.5 * si(p.height));
  // Nothing on a fine raster is larger, and the place gives back the value.
  for (int i = 0; i <= 60; ++i)
    for (int j = 0; j <= 60; ++j) {
      const PanelState s = b.at(i / 60.0 * p.width, j / 60.0 * p.height);
      REQUIRE(si(s.far_face.principal_max) <= si(b.max_tension) * (1.0 + 1e-9));
      REQUIRE(si(s.loaded_face.principal_max) <= si(b.max_tension) * (1.0 + 1e-9));
      REQUIRE(std::abs(si(s.deflection)) <= si(b.max_deflection) * (1.0 + 1e-9));
    }
  CHECK(near(b.at(b.max_tension_at).far_face.principal_max, b.max_tension, 1e-12));
  CHECK(near(b.at(b.max_deflection_at).deflection, b.max_deflection, 1e-12));
}

TEST_CASE("stresses of the two faces mirror each other; principal stresses keep trace and determinant") {
  const PanelState s = bend(wall(), water).at(250_mm, 130_mm);
  CHECK(near(s.loaded_face.x, -s.far_face.x, 1e-15));
  CHECK(near(s.loaded_face.principal_max, -s.far_face.principal_min, 1e-12));
  const double x = si(s.far_face.x), y = si(s.far_face.y), xy = si(s.far_face.xy);
  CHECK(near(si(s.far_face.principal_max) + si(s.far_face.principal_min), x + y, 1e-12));
  CHECK(near(si(s.far_face.principal_max) * si(s.far_face.principal_min), x * y - xy * xy, 1e-9));
  CHECK(near(x, 6.0 * si(s.moment_x) / 1e-4, 1e-12));
}

TEST_CASE("degree 14 stands to 4 digits for walls up to 6 times as long as high") {
  for (const double width : {0.2, 0.42, 1.0, 2.5})
    for (const Edge& top : {free_edge(), hinged()}) {
      Panel p = wall();
      p.width = width * units::metre;
      p.top = top;
      CAPTURE(width);
      const BentPanel usual = bend(p, water);
      const BentPanel fine = bend(p, water, 24);
      CHECK(near(usual.max_deflection, fine.max_deflection, 5e-5));
      CHECK(near(usual.max_tension, fine.max_tension, 2e-4));
    }
}

TEST_CASE("edges that leave the panel loose are refused by name") {
  Panel p = wall();
  p.bottom = p.left = p.right = p.top = free_edge();
  std::string message = message_of<InvalidInput>([&] { bend(p, water); });
  CHECK(contains(message, "panel edges"));
  CHECK(contains(message, "bottom free, left free, right free, top free"));
  p.bottom = hinged();  // a swinging door
  CHECK(contains(message_of<InvalidInput>([&] { bend(p, water); }), "bottom hinged"));
  p.bottom = elastic(EdgeStiffness(), from_si<RotationalStiffness>(infinite));  // may still shift
  CHECK(contains(message_of<InvalidInput>([&] { bend(p, water); }), "bottom elastic"));
  p.left = p.right = p.top = p.bottom;
  CHECK_THROWS_AS(bend(p, water), InvalidInput);
  p.bottom = hinged();
  p.left = elastic(from_si<EdgeStiffness>(1e-9));  // held in name only
  p.top = p.right = free_edge();
  CHECK_THROWS_AS(bend(p, water), InvalidInput);
  p.left = hinged();  // two hinged edges at a corner hold a plane
  CHECK(bend(p, water).equilibrium_residual < 1e-9);
  p.left = free_edge();
  p.bottom = clamped();
  CHECK(bend(p, water).equilibrium_residual < 1e-9);
}

TEST_CASE("impossible panels and loads are refused by name") {
  const auto refused = [](auto change) {
    Panel p = wall();
    change(p);
    return message_of<InvalidInput>([&] { bend(p, water); });
  };
  for (const double bad : {0.0, -1.0, not_a_number, infinite}) {
    CHECK(contains(refused([&](Panel& p) { p.width = bad * units::metre; }), "panel width"));
    CHECK(contains(refused([&](Panel& p) { p.height = bad * units::metre; }), "panel height"));
    CHECK(contains(refused([&](Panel& p) { p.thickness = bad * units::metre; }), "panel thickness"));
    CHECK(contains(refused([&](Panel& p) { p.material.youngs_modulus = bad * units::pascal; }), "Young's modulus"));
  }
  for (const double bad : {-0.1, 0.6, not_a_number})
    CHECK(contains(refused([&](Panel& p) { p.material.poisson_ratio = bad; }), "Poisson's ratio"));
  for (const double bad : {-1.0, not_a_number}) {
    CHECK(
        contains(refused([&](Panel& p) { p.top.translation = from_si<EdgeStiffness>(bad); }), "top edge translation"));
    CHECK(contains(refused([&](Panel& p) { p.left.rotation = from_si<RotationalStiffness>(bad); }),
                   "left edge rotation"));
    CHECK_THROWS_AS(hydrostatic(bad * units::metre, 1000_kg_m3), InvalidInput);
    CHECK_THROWS_AS(hydrostatic(1_m, bad * units::kilogram_per_cubic_metre), InvalidInput);
    CHECK_THROWS_AS(hydrostatic(1_m, 1000_kg_m3, bad * units::metre_per_second_squared), InvalidInput);
  }
  CHECK_THROWS_AS(hydrostatic(infinite * units::metre, 1000_kg_m3), InvalidInput);
  CHECK_THROWS_AS(uniform(not_a_number * units::pascal), InvalidInput);
  CHECK(contains(message_of<InvalidInput>([] { bend(wall(), hydrostatic(421_mm, 1000_kg_m3)); }), "water depth"));
  CHECK(contains(message_of<InvalidInput>([] {
                   bend(wall(), {not_a_number * units::pascal, 1_m});
                 }),
                 "load at bottom"));
  CHECK(contains(message_of<InvalidInput>([] { bend(wall(), {1_Pa, not_a_number * units::metre}); }), "water depth"));
  for (const int bad : {3, 25, -1}) {
    CAPTURE(bad);
    CHECK(contains(message_of<InvalidInput>([&] { bend(wall(), water, bad); }), "degree"));
  }
  const BentPanel b = bend(wall(), water);
  CHECK(contains(message_of<InvalidInput>([&] { b.at(1.21_m, 0_m); }), "x"));
  CHECK(contains(message_of<InvalidInput>([&] { b.at(0_m, -1_mm); }), "y"));
  CHECK(
      contains(message_of<InvalidInput>([&] { b.reaction_at(Side::left, not_a_number * units::metre); }), "left edge"));
}

TEST_CASE("stout, paper-thin and very long panels are outside the theory") {
  Panel p = wall();
  p.thickness = 43_mm;
  CHECK(contains(message_of<OutOfValidity>([&] { bend(p, water); }), "thickness / shorter side"));
  p.thickness = 1_um;
  CHECK_THROWS_AS(bend(p, water), OutOfValidity);
  p = wall();
  p.width = 8.5_m;
  CHECK(contains(message_of<OutOfValidity>([&] { bend(p, water); }), "width / height"));
  p.width = 20_mm;
  CHECK_THROWS_AS(bend(p, water), OutOfValidity);
}

TEST_CASE("any depth of water from a film to the brim, any degree: finite and in balance") {
  for (const double depth : {1e-12, 1e-6, 1e-3, 0.05, 0.2, 0.42})
    for (const int degree : {4, 5, 9, 14, 24}) {
      CAPTURE(depth);
      CAPTURE(degree);
      const BentPanel b = bend(wall(), hydrostatic(depth * units::metre, 1000_kg_m3), degree);
      CHECK(std::isfinite(si(b.max_tension)));
      CHECK(si(b.max_deflection) > 0.0);
      CHECK(b.equilibrium_residual < 1e-9);
    }
}

TEST_CASE("a panel put together by hand is refused, not read beyond its end") {
  BentPanel by_hand;
  by_hand.panel = wall();
  CHECK(contains(message_of<InvalidInput>([&] { (void)by_hand.at(0.1_m, 0.1_m); }), "bent panel"));
  CHECK(contains(message_of<InvalidInput>([&] { (void)by_hand.reaction_at(Side::left, 0.1_m); }), "bent panel"));
}
