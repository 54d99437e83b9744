// Prints what theca says about the plate assemblies of structure_calculix_cases.py, in SI units and under the names
// used there, as "case name value" lines, and "case seconds value" for the time of one solution: see
// structure_calculix_test.py.
#include <chrono>
#include <cmath>
#include <cstdio>
#include <limits>
#include <string>

#include "../../src/structure/folded_plate.hpp"
#include "theca/structure/bend.hpp"
#include "theca/structure/large_deflection.hpp"
#include "theca/structure/tank.hpp"
#include "theca/structure/thick_panel.hpp"

namespace {

using namespace theca;
using namespace theca::structure;

constexpr double density_of_water = 1023.0, gravity = 9.80665;
constexpr double thickness = 0.01191, length = 2.414, width = 0.738, height = 0.394, depth = 0.3556;
constexpr double strip = 0.064, cross = 0.152, foam = 2.0e7;
constexpr int stations = 8;

Length metres(double x) { return from_si<Length>(x); }

materials::Material solid(double youngs_modulus, double poisson_ratio) {
  materials::Material m;
  m.name = "reference";
  m.youngs_modulus = from_si<Pressure>(youngs_modulus);
  m.poisson_ratio = poisson_ratio;
  m.density = from_si<Density>(2500.0);
  m.thermal_conductivity = from_si<ThermalConductivity>(1.0);
  m.specific_heat_capacity = from_si<SpecificHeatCapacity>(800.0);
  m.refractive_index = 1.5;
  m.emissivity = 0.9;
  return m;
}
materials::Material glass() { return solid(70e9, 0.22); }

class Report {
 public:
  explicit Report(std::string name) : case_(std::move(name)) {}
  void operator()(const std::string& name, double value) const {
    std::printf("%s %s %.10g\n", case_.c_str(), name.c_str(), value);
  }

 private:
  std::string case_;
};

/// Seconds of one call, the best of a few.
template <class Solve>
double seconds(const Solve& solve) {
  double best = std::numeric_limits<double>::infinity();
  for (int i = 0; i < 3; ++i) {
    const auto start = std::chrono::steady_clock::now();
    (void)solve();
    best = std::min(best, std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
  }
  return best;
}

std::string station(const std::string& name, int k) { return name + "_" + std::to_string(k) + "/8"; }

/// Largest of f(u, v) over a rectangle, as fine as the scan of the reference.
template <class F>
double largest(double u0, double u1, double v0, double v1, const F& f) {
  constexpr double step = 0.004;
  double most = -std::numeric_limits<double>::infinity();
  const int columns = static_cast<int>(std::ceil((u1 - u0) / step)),
            rows = static_cast<int>(std::ceil((v1 - v0) / step));
  for (int i = 0; i <= columns; ++i)
    for (int j = 0; j <= rows; ++j) most = std::max(most, f(u0 + (u1 - u0) * i / columns, v0 + (v1 - v0) * j / rows));
  return most;
}

void panel(const char* name, const Edge& held) {
  const Report report(name);
  constexpr double half = 1.2, h = 0.39, t = 0.012;
  const Panel p{.width = metres(2.0 * half),
                .height = metres(h),
                .thickness = metres(t),
                .material = glass(),
                .bottom = held,
                .left = held,
                .right = held};
  const PressureLoad water = hydrostatic(metres(h), from_si<Density>(density_of_water));
  const BentPanel bent = bend(p, water);
  const auto at = [&](double u, double v) { return bent.at(metres(half + u), metres(v)); };
  report("max_deflection", si(bent.max_deflection));
  for (int k = 0; k <= stations; ++k) report(station("top_deflection", k), si(at(half * k / stations, h).deflection));
  report("wall_peak_stress", largest(0.0, half - 2.0 * t, 2.0 * t, h - 2.0 * t, [&](double u, double v) {
           const PanelState s = at(u, v);
           return std::max(si(s.far_face.principal_max), si(s.loaded_face.principal_max));
         }));
  const PanelState middle = at(0.0, 0.5 * h);
  report("wall_middle_stress_x_face-1", si(middle.far_face.x));
  report("wall_middle_stress_z_face-1", si(middle.far_face.y));
  report("top_middle_stress_x", si(at(0.0, h).far_face.x));
  const EdgeReactions& r = bent.reactions;
  report("bottom_reaction", si(r.bottom + r.bottom_left + r.bottom_right));
  report("sides_reaction", si(r.left + r.right + r.top_left + r.top_right));
  report("seconds", seconds([&] { return bend(p, water); }));

  // With transverse shear and edges that let the normals tilt along them, as the solid does.
  PanelLoad load;
  load.pressure = water;
  const BentThickPanel thick = bend_thick(p, load, SimpleSupport::soft, 16);
  const auto thick_at = [&](double u, double v) { return thick.at(metres(half + u), metres(v)); };
  report("thick_max_deflection", si(thick.max_deflection));
  for (int k = 0; k <= stations; ++k)
    report(station("thick_top_deflection", k), si(thick_at(half * k / stations, h).deflection));
  const PanelState thick_middle = thick_at(0.0, 0.5 * h);
  report("thick_wall_middle_stress_x_face-1", si(thick_middle.far_face.x));
  report("thick_wall_middle_stress_z_face-1", si(thick_middle.far_face.y));
  report("thick_seconds", seconds([&] { return bend_thick(p, load, SimpleSupport::soft, 16); }));
}

/// A wall with a strip along its top, both kept in their supports; see `folded` in the Python file.
void wall_with_strip(const char* name, bool tied) {
  using namespace theca::structure::detail;
  constexpr double rigid = 100.0 * 70e9, turning = rigid * thickness * thickness / 12.0;
  constexpr double tie_from = 0.5 * (length - cross), tie_to = 0.5 * (length + cross);
  // The strip in pieces that end where the tie does: no polynomial runs across the singular ends of the tie. The piece
  // to the right is the mirror image of the leg.
  const auto model = [tied] {
    FoldedPlate leg{.along_x = axis_x,
                    .along_y = axis_y,
                    .normal = axis_z,
                    .start_x = 0.0,
                    .start_y = -strip,
                    .length_x = tie_from,
                    .length_y = strip,
                    .thickness = thickness,
                    .youngs_modulus = 70e9,
                    .poisson_ratio = 0.22,
                    .degree_x = 12,
                    .degree_y = 8};
    leg.images = 2.0;
    FoldedPlate middle = leg;
    middle.start_x = tie_from;
    middle.length_x = cross;
    middle.degree_x = 8;
    middle.mirrored_x = true;
    middle.images = 1.0;
    FoldedPlate wall{.along_x = axis_x,
                     .along_y = axis_z,
                     .normal = axis_y,
                     .start_x = 0.0,
                     .start_y = 0.0,
                     .length_x = length,
                     .length_y = height,
                     .thickness = thickness,
                     .youngs_modulus = 70e9,
                     .poisson_ratio = 0.22,
                     .degree_x = 20,
                     .degree_y = 10};
    wall.mirrored_x = true;
    wall.wet_height = [](double) { return depth; };
    wall.pressure = [](double, double z) { return density_of_water * gravity * (depth - z); };
    FoldedStructure s;
    s.plates = {middle, leg, wall};
    const std::array<double, 3> all{rigid, rigid, rigid};
    s.joints = {{{0, Side::top}, {2, Side::top}, tie_from, tie_to, all, turning},
                {{1, Side::top}, {2, Side::top}, 0.0, tie_from, all, turning, 2.0},
                {{0, Side::left}, {1, Side::right}, -strip, 0.0, all, turning, 2.0},
                {{2, Side::bottom}, {}, 0.0, length, all},
                {{2, Side::left}, {}, 0.0, height, all, 0.0, 2.0},
                {{1, Side::left}, {}, -strip, 0.0, all, 0.0, 2.0}};
    if (tied) s.joints.push_back({{0, Side::bottom}, {}, tie_from, tie_to, {0.0, rigid, 0.0}});
    s.solve();
    return s;
  };
  const Report report(name);
  const FoldedStructure s = model();
  const auto at = [&](double u, double v) { return s.at(2, 0.5 * length + u, v); };
  report("max_deflection", s.largest_deflection(2).value);
  for (int k = 0; k <= stations; ++k)
    report(station("top_deflection", k), at(0.5 * length * k / stations, height).displacement[1]);
  report("wall_peak_stress", largest(0.0, 0.5 * length - 2.0 * thickness, 2.0 * thickness, height - 2.0 * thickness,
                                     [&](double u, double v) { return at(u, v).tension; }));
  const auto section = [&](const std::string& place, std::size_t piece, double x) {
    // Gauss points for a polynomial of degree 7 across the strip
    constexpr std::array<double, 4> point = {-0.8611363115940526, -0.3399810435848563, 0.3399810435848563,
                                             0.8611363115940526};
    constexpr std::array<double, 4> weight = {0.3478548451374538, 0.6521451548625461, 0.6521451548625461,
                                              0.3478548451374538};
    double n = 0.0, m = 0.0;
    for (std::size_t q = 0; q < point.size(); ++q) {
      const double across = 0.5 * strip * point[q];
      const double f = 0.5 * strip * weight[q] * s.at(piece, x, 0.5 * strip + across).membrane_x;
      n += f;
      m += f * across;
    }
    report("strip_force_" + place, n);
    report("strip_moment_" + place, m);
  };
  section("middle", 0, 0.5 * cross);
  section("quarter", 1, 0.25 * length);
  section("end", 1, 2.0 * thickness);
  if (tied) report("tie_force", s.profile(6).total().force[1]);
  report("seconds", seconds(model));
}

void tank(const char* name, JointModel joints, bool ring, bool cross_brace, TankSupport support = TankSupport::plane) {
  const Report report(name);
  Tank t;
  t.inside_length = metres(length - thickness);
  t.inside_width = metres(width - thickness);
  t.wall_height = metres(height);
  t.wall_thickness = t.base_thickness = metres(thickness);
  t.material = glass();
  t.support = support;
  t.foundation = from_si<FoundationModulus>(foam);
  t.edge_stiffness = from_si<EdgeStiffness>(std::numeric_limits<double>::infinity());
  if (ring)
    t.rim = TankRimBrace{.width = metres(strip),
                         .thickness = metres(thickness),
                         .material = glass(),
                         .corner = RingCorner::one_piece,
                         .bond = {}};
  if (cross_brace)
    t.cross_braces = {TankCrossBrace{.at = metres(0.5 * (length - thickness)),
                                     .width = metres(cross),
                                     .thickness = metres(thickness),
                                     .material = glass(),
                                     .bond = {}}};
  TankLoad load;
  load.water_depth = metres(depth);
  load.water = from_si<Density>(density_of_water);
  load.own_weight = false;
  const BentTank bent = bend(t, load, joints);

  const auto wall = [&](const std::string& which, TankPart part_of_it, double span) {
    const bool long_wall = part_of_it == TankPart::back_wall;
    const auto at = [&](double u, double v) { return state_at(bent, part_of_it, metres(0.5 * span + u), metres(v)); };
    const auto outward = [&](double u, double v) {
      const TankState s = at(u, v);
      return si(long_wall ? s.displacement_y : s.displacement_x);
    };
    const PanelPlace place = part(bent, part_of_it).max_deflection_at;
    report(which + "_max_deflection", outward(si(place.x) - 0.5 * span, si(place.y)));
    for (int k = 0; k <= stations; ++k)
      report(station(which + "_top_deflection", k), outward(0.5 * span * k / stations, height));
    report(which + "_peak_stress", largest(0.0, 0.5 * span - 2.0 * thickness, 2.0 * thickness, height - 2.0 * thickness,
                                           [&](double u, double v) { return si(at(u, v).max_tension); }));
  };
  wall("long", TankPart::back_wall, length);
  wall("end", TankPart::right_wall, width);
  for (const BentJoint& j : bent.joint_loads) {
    if (j.second != TankPart::base) continue;
    if (j.first == TankPart::front_wall) report("long_bottom_reaction", std::abs(si(j.across)));
    if (j.first == TankPart::left_wall) report("end_bottom_reaction", std::abs(si(j.across)));
  }
  for (const BentStripSections& s : bent.strips) {
    const std::string side = s.part == TankPart::front_rim ? "ring_long" : "ring_end";
    if (s.part != TankPart::front_rim && s.part != TankPart::left_rim) continue;
    report(side + "_force_corner", si(s.inner_corner.tension));
    report(side + "_moment_corner", -si(s.inner_corner.moment));
    if (cross_brace && s.part == TankPart::front_rim) continue;  // its middle section lies within the cross brace
    report(side + "_force_middle", si(s.mid_span.tension));
    report(side + "_moment_middle", -si(s.mid_span.moment));
  }
  for (const BentStripSections& s : bent.strips)
    if (s.part == TankPart::cross_brace) report("cross_brace_force", si(s.mid_span.tension));
  if (support != TankSupport::plane) {
    const auto down = [&](double x, double y) {
      return -si(state_at(bent, TankPart::base, metres(x), metres(y)).displacement_z);
    };
    report("base_middle_deflection", down(0.5 * length, 0.5 * width));
    report("base_corner_deflection", down(0.0, 0.0));
  }
  report("unknowns", static_cast<double>(bent.unknowns));
  report("seconds", seconds([&] { return bend(t, load, joints); }));
}

void acrylic(const char* name, InPlane condition, double pressure) {
  const Report report(name);
  const Panel p{.width = metres(0.6),
                .height = metres(0.4),
                .thickness = metres(0.006),
                .material = solid(3.0e9, 0.37),
                .top = hinged()};
  const InPlaneEdges edges{condition, condition, condition, condition};
  const PressureLoad load = uniform(from_si<Pressure>(pressure));
  const StretchedPanel bent = bend_large(p, load, edges);
  report("max_deflection", si(bent.max_deflection));
  const auto at = [&](double u, double v) { return bent.at(metres(0.3 + u), metres(0.2 + v)); };
  constexpr double off = 0.012;
  report("peak_stress", largest(0.0, 0.3 - off, 0.0, 0.2 - off, [&](double u, double v) {
           const StretchedState s = at(u, v);
           return std::max(si(s.far_face.principal_max), si(s.loaded_face.principal_max));
         }));
  const StretchedState middle = at(0.0, 0.0);
  report("middle_stress_x_face+0", si(middle.membrane_x) / 0.006);
  report("middle_stress_y_face+0", si(middle.membrane_y) / 0.006);
  report("middle_stress_x_face+1", si(middle.far_face.x));
  report("middle_stress_y_face+1", si(middle.far_face.y));
  report("seconds", seconds([&] { return bend_large(p, load, edges); }));
}

}  // namespace

int main() {
  panel("panel_hinged", hinged());
  panel("panel_clamped", clamped());
  wall_with_strip("wall_with_strip", false);
  wall_with_strip("wall_with_strip_tied", true);
  tank("tank_monolithic", JointModel::monolithic, false, false);
  tank("tank_hinged", JointModel::hinged, false, false);
  tank("tank_ring_monolithic", JointModel::monolithic, true, false);
  tank("tank_ring_hinged", JointModel::hinged, true, false);
  tank("tank_cross_brace_monolithic", JointModel::monolithic, true, true);
  tank("tank_cross_brace_hinged", JointModel::hinged, true, true);
  tank("tank_foam", JointModel::monolithic, false, false, TankSupport::foam);
  tank("tank_perimeter", JointModel::monolithic, false, false, TankSupport::perimeter);
  acrylic("acrylic_held", InPlane::held, 25e3);
  acrylic("acrylic_sliding", InPlane::slides, 8e3);
}
