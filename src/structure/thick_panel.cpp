#include "theca/structure/thick_panel.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>

#include "local_contact.hpp"
#include "peak.hpp"
#include "plate_basis.hpp"
#include "plate_panel.hpp"
#include "theca/require.hpp"

namespace theca::structure {
namespace {

using namespace detail;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// Mapped and scaled as in bend.cpp. The tilts are counted like the slopes of the dimensionless deflection, by xi and
// by eta, so that shear is w_xi - tilt_x and w_eta - tilt_y.

constexpr int most_degree = 16;
constexpr double shear_correction = 5.0 / 6.0;
constexpr int halvings = 20;  // of the compass search's steps

/// Integrals of f_i' f_j.
Small slope_value(const PlateBasis& basis) {
  const GaussRule rule = gauss_rule(basis.degree + 1);
  Small m = Small::Zero(basis.size, basis.size);
  SmallVector f(basis.size), f1(basis.size), f2(basis.size);
  for (Index q = 0; q < rule.point.size(); ++q) {
    evaluate(basis.degree, rule.point[q], f.data(), f1.data(), f2.data());
    m += rule.weight[q] * f1 * f.transpose();
  }
  return m;
}

/// A form of the values at the two ends of a direction; infinite stiffness is left to the constraints.
Small of_values(Index size, double low, double high) {
  Small m = Small::Zero(size, size);
  if (std::isfinite(low)) m(value_low, value_low) = low;
  if (std::isfinite(high)) m(value_high, value_high) = high;
  return m;
}

struct System {
  const PlateBasis& basis;
  MatrixXd k;

  explicit System(const PlateBasis& b) : basis(b), k(MatrixXd::Zero(3 * b.size * b.size, 3 * b.size * b.size)) {}

  /// Adds a product of two one-dimensional forms to the block of two fields (0 deflection, 1 tilt_x, 2 tilt_y).
  void add(Index row, Index column, double factor, const MatrixXd& x, const MatrixXd& y) {
    const Index n = basis.size;
    for (Index l = 0; l < n; ++l)
      for (Index j = 0; j < n; ++j)
        if (y(j, l) != 0.0) k.block((row * n + j) * n, (column * n + l) * n, n, n) += (factor * y(j, l)) * x;
  }
};

struct Field {
  int degree;
  const double *w, *p, *q;
  double width, height, poisson_ratio, deflection_scale, moment_scale, shear_x_stiffness, shear_y_stiffness;

  struct Values {
    double deflection, moment_x, moment_y, moment_xy, shear_x, shear_y;
  };

  Values operator()(double xi, double eta) const {
    Derivatives x, y;
    evaluate(degree, xi, x);
    evaluate(degree, eta, y);
    const auto n = static_cast<std::size_t>(degree) + 1;
    const auto sum = [&](const double* c, std::size_t dx, std::size_t dy) {
      double s = 0.0;
      for (std::size_t j = 0; j < n; ++j) {
        double along = 0.0;
        for (std::size_t i = 0; i < n; ++i) along += c[j * n + i] * x[dx][i];
        s += along * y[dy][j];
      }
      return s;
    };
    const double along_x = height * height * sum(p, 1, 0);
    const double along_y = width * width * sum(q, 0, 1);
    const double twist = 0.5 * width * height * (sum(p, 0, 1) + sum(q, 1, 0));
    return {deflection_scale * sum(w, 0, 0),
            -moment_scale * (along_x + poisson_ratio * along_y),
            -moment_scale * (along_y + poisson_ratio * along_x),
            -moment_scale * (1.0 - poisson_ratio) * twist,
            shear_x_stiffness * (sum(w, 1, 0) - sum(p, 0, 0)),
            shear_y_stiffness * (sum(w, 0, 1) - sum(q, 0, 0))};
  }
};

double shear_rigidity(const Panel& panel) {
  return shear_correction * si(panel.material.youngs_modulus) / (2.0 * (1.0 + panel.material.poisson_ratio)) *
         si(panel.thickness);
}

Field field_of(const BentThickPanel& bent) {
  const double a = si(bent.panel.width);
  const double b = si(bent.panel.height);
  const double p0 = si(bent.reference_pressure);
  const double scale = p0 * a * a * b * b / (16.0 * si(flexural_rigidity(bent.panel)));
  const double shear = shear_rigidity(bent.panel) * scale;
  return {
      bent.degree, bent.shape.data(), bent.tilt_x.data(), bent.tilt_y.data(), a, b, bent.panel.material.poisson_ratio,
      scale,       p0 / 4.0,          2.0 * shear / a,    2.0 * shear / b};
}

/// Images behind a hinged edge hold the tilt along it as a hard support does; before a soft one the reach must end.
std::vector<LocalContact> contacts_on(const BentThickPanel& bent) {
  return bent.support == SimpleSupport::hard ? local_contacts(bent.panel, bent.patches)
                                             : local_contacts_within(bent.panel, bent.patches);
}

/// What the polynomials and the small contacts make together. These have in Mindlin's plate the moments and shears of
/// Kirchhoff's, as those balance a load that is a sum of round ones; shear adds (moment_x + moment_y) / (1 + nu) over
/// its rigidity to the deflection.
struct WholeField {
  Field field;
  ContactField small;
  double shear_per_moment;

  explicit WholeField(const BentThickPanel& bent)
      : field(field_of(bent)),
        small(bent.panel, contacts_on(bent)),
        shear_per_moment(1.0 / ((1.0 + field.poisson_ratio) * shear_rigidity(bent.panel))) {}

  Field::Values operator()(double xi, double eta) const {
    Field::Values v = field(xi, eta);
    const LocalBending l = small.on_square(xi, eta);
    v.deflection += l.deflection + shear_per_moment * (l.moment_x + l.moment_y);
    v.moment_x += l.moment_x;
    v.moment_y += l.moment_y;
    v.moment_xy += l.moment_xy;
    v.shear_x += l.shear_x;
    v.shear_y += l.shear_y;
    return v;
  }
};

FaceStress face_stress(const Field::Values& v, double section) {
  const double mean = 0.5 * section * (v.moment_x + v.moment_y);
  const double radius = std::abs(section) * std::hypot(0.5 * (v.moment_x - v.moment_y), v.moment_xy);
  return {from_si<Pressure>(section * v.moment_x), from_si<Pressure>(section * v.moment_y),
          from_si<Pressure>(section * v.moment_xy), from_si<Pressure>(mean + radius), from_si<Pressure>(mean - radius)};
}

void find_peaks(BentThickPanel& bent, const PlateBasis& basis) {
  const WholeField field(bent);
  const auto place = [&bent](const Peak& peak) {
    return PanelPlace{0.5 * (peak.x + 1.0) * bent.panel.width, 0.5 * (peak.y + 1.0) * bent.panel.height};
  };
  const VectorXd& grid = basis.grid;
  const auto largest = [&grid](const auto& f) {
    const MatrixXd on_grid =
        MatrixXd::NullaryExpr(grid.size(), grid.size(), [&](Index i, Index j) { return f(grid[i], grid[j]); });
    return highest_from_grid(on_grid, grid, grid, [&f](const Peak& from, double step_x, double step_y) {
      return climb(f, from, step_x, step_y, halvings);
    });
  };
  const Peak sag = largest([&](double xi, double eta) { return std::abs(field(xi, eta).deflection); });
  bent.max_deflection = from_si<Length>(sag.value);
  bent.max_deflection_at = place(sag);
  bent.deflection_over_thickness = sag.value / si(bent.panel.thickness);
  const auto opening_moment = [&](double xi, double eta) {
    const auto v = field(xi, eta);
    return 0.5 * std::abs(v.moment_x + v.moment_y) + std::hypot(0.5 * (v.moment_x - v.moment_y), v.moment_xy);
  };
  Peak tension = largest(opening_moment);
  const Peak under_contact = field.small.largest_under(opening_moment, halvings);
  if (under_contact.value > tension.value) tension = under_contact;
  bent.max_tension = from_si<Pressure>(6.0 * tension.value / (si(bent.panel.thickness) * si(bent.panel.thickness)));
  bent.max_tension_at = place(tension);
  const auto there = field(tension.x, tension.y);
  bent.max_tension_on_far_face = there.moment_x + there.moment_y >= 0.0;
}

}  // namespace

BentThickPanel bend_thick(const Panel& panel, const PanelLoad& load, SimpleSupport support, int degree) {
  const double rigidity = si(flexural_rigidity(panel));
  require_possible(panel, load.pressure, degree);
  require::within("degree", degree, min_plate_degree, most_degree);
  require::valid("first-order shear theory (Mindlin)", "panel thickness / shorter side",
                 si(panel.thickness) / std::min(si(panel.width), si(panel.height)), thinnest_mindlin_over_side,
                 thickest_mindlin_over_side);
  std::array<Springs, 4> spring;
  for (const Side side : all_sides) spring[number(side)] = springs(panel, side, rigidity);
  require_held(panel, spring);
  BentThickPanel bent;
  bent.panel = panel;
  bent.load = load.pressure;
  bent.support = support;
  bent.degree = degree;
  bent.patches = load.patches;
  for (const PointLoad& point : load.points) bent.patches.push_back(contact_patch(point, panel));

  const PlateBasis& basis = plate_basis(degree);
  double reference = 0.0;
  const Small as_given = load_work(basis, panel, load.pressure, bent.patches, reference);
  const std::vector<LocalContact> contacts = reference > 0.0 ? contacts_on(bent) : std::vector<LocalContact>();
  const Small pushed = spread(as_given, contacts, panel, reference);
  // What is left of a patch presses on the hinged edges beyond which it reaches: then the reactions are those to
  // patches spread within the edges.
  const Small pushed_within = any_mirrored(contacts, panel)
                                  ? spread(as_given, local_contacts_within(panel, bent.patches), panel, reference)
                                  : pushed;
  bent.reference_pressure = from_si<Pressure>(reference);

  const double a = si(panel.width), b = si(panel.height), nu = panel.material.poisson_ratio;
  const double s2 = b * b / (a * a);
  const double shear_x = shear_rigidity(panel) * b * b / (4.0 * rigidity);
  const double shear_y = shear_rigidity(panel) * a * a / (4.0 * rigidity);
  const Index n = basis.size;
  const Small d = slope_value(basis);
  const auto& [bottom, left, right, top] = spring;
  const MatrixXd &value = basis.value, &slope = basis.slope, &curvature = basis.curvature;
  const Small beam_x = of_values(n, left.bending, right.bending), beam_y = of_values(n, bottom.bending, top.bending);

  System system(basis);
  system.add(0, 0, shear_x, slope, value);
  system.add(0, 0, shear_y, value, slope);
  system.add(0, 0, 1.0, of_values(n, left.translation, right.translation), value);
  system.add(0, 0, 1.0, value, of_values(n, bottom.translation, top.translation));
  system.add(0, 0, 1.0, beam_x, curvature);
  system.add(0, 0, 1.0, curvature, beam_y);
  system.add(1, 0, -shear_x, d.transpose(), value);
  system.add(2, 0, -shear_y, value, d.transpose());
  system.add(1, 1, s2, slope, value);
  system.add(1, 1, 0.5 * (1.0 - nu), value, slope);
  system.add(1, 1, shear_x, value, value);
  system.add(1, 1, 1.0, of_values(n, left.rotation, right.rotation), value);
  system.add(1, 1, 1.0, of_values(n, left.torsion, right.torsion), slope);
  system.add(2, 2, 1.0 / s2, value, slope);
  system.add(2, 2, 0.5 * (1.0 - nu), slope, value);
  system.add(2, 2, shear_y, value, value);
  system.add(2, 2, 1.0, value, of_values(n, bottom.rotation, top.rotation));
  system.add(2, 2, 1.0, slope, of_values(n, bottom.torsion, top.torsion));
  system.add(2, 1, nu, d.transpose(), d);
  system.add(2, 1, 0.5 * (1.0 - nu), d, d.transpose());

  // Held deflections and tilts leave the unknowns.
  const auto grips = [support](const Springs& s) {
    return std::isinf(s.translation) && (support == SimpleSupport::hard || std::isinf(s.rotation));
  };
  const std::array<std::array<bool, 4>, 3> held = {{
      {std::isinf(left.translation), std::isinf(right.translation), std::isinf(bottom.translation),
       std::isinf(top.translation)},
      {std::isinf(left.rotation), std::isinf(right.rotation), grips(bottom), grips(top)},
      {grips(left), grips(right), std::isinf(bottom.rotation), std::isinf(top.rotation)},
  }};
  std::vector<Index> kept;
  for (Index field = 0; field < 3; ++field)
    for (Index j = 0; j < n; ++j)
      for (Index i = 0; i < n; ++i) {
        const auto& h = held[static_cast<std::size_t>(field)];
        if ((h[0] && i == value_low) || (h[1] && i == value_high) || (h[2] && j == value_low) ||
            (h[3] && j == value_high))
          continue;
        kept.push_back((field * n + j) * n + i);
      }
  MatrixXd f = MatrixXd::Zero(3 * n * n, 2);
  f.col(0).head(n * n) = pushed.reshaped();
  f.col(1).head(n * n) = pushed_within.reshaped();
  MatrixXd reduced = system.k(kept, kept);
  // The functions differ in size; a unit diagonal saves digits.
  const VectorXd scale = reduced.diagonal().cwiseSqrt().cwiseInverse();
  reduced = scale.asDiagonal() * reduced * scale.asDiagonal();
  const Eigen::LLT<Eigen::Ref<MatrixXd>> factors(reduced);
  const MatrixXd c = scale.asDiagonal() * factors.solve(scale.asDiagonal() * MatrixXd(f(kept, Eigen::all)));
  if (factors.info() != Eigen::Success || !c.allFinite())
    throw NotConverged("thick plate stiffness factorisation", 0.0, 0);
  MatrixXd all = MatrixXd::Zero(3 * n * n, 2);
  all(kept, Eigen::all) = c;
  bent.shape.assign(all.data(), all.data() + n * n);
  bent.tilt_x.assign(all.data() + n * n, all.data() + 2 * n * n);
  bent.tilt_y.assign(all.data() + 2 * n * n, all.data() + 3 * n * n);

  // The supports' virtual work on the deflection: load less shear and beams.
  const auto within = [&](Index field) { return Small(all.col(1).segment(field * n * n, n * n).reshaped(n, n)); };
  const Small w = within(0), p = within(1), q = within(2);
  const Small work = pushed_within - shear_x * (slope * w - d * p) * value -
                     shear_y * value * (w * slope - q * d.transpose()) - beam_x * w * curvature -
                     curvature * w * beam_y;
  bent.reactions = reactions(basis, work, w, spring, reference * a * b / 4.0);
  bent.total_load = total_load(load.pressure, panel, bent.patches);
  bent.equilibrium_residual = equilibrium_residual(bent.reactions, load.pressure, panel, bent.patches);
  find_peaks(bent, basis);
  return bent;
}

PanelState BentThickPanel::at(const Length& x, const Length& y) const {
  require::within("x", x, Length(), panel.width);
  require::within("y", y, Length(), panel.height);
  const auto v = WholeField(*this)(2.0 * si(x) / si(panel.width) - 1.0, 2.0 * si(y) / si(panel.height) - 1.0);
  const double section = 6.0 / (si(panel.thickness) * si(panel.thickness));
  return {from_si<Length>(v.deflection),
          from_si<MomentPerLength>(v.moment_x),
          from_si<MomentPerLength>(v.moment_y),
          from_si<MomentPerLength>(v.moment_xy),
          from_si<LineLoad>(v.shear_x),
          from_si<LineLoad>(v.shear_y),
          face_stress(v, -section),
          face_stress(v, section)};
}

}  // namespace theca::structure
