#include "theca/structure/bend.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "local_contact.hpp"
#include "peak.hpp"
#include "plate_basis.hpp"
#include "plate_panel.hpp"
#include "plate_stiffness.hpp"
#include "theca/require.hpp"

namespace theca::structure {
namespace {

using namespace detail;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// The plate is mapped on the square -1..1: x = a (xi + 1) / 2, y = b (eta + 1) / 2. Energies are divided by 4 D / (a b)
// and the deflection is counted in p0 (a b)^2 / (16 D), p0 the reference pressure, which makes everything below
// dimensionless.

/// The functions left in one direction once held values and slopes are taken out and, when the direction is symmetric,
/// only even functions are kept. Each is a function of the basis or the sum or difference of two. Even bubbles come
/// first, then odd ones, then the cubics: those two kinds meet only through the cubics.
struct Admitted {
  struct Function {
    Index first;
    Index second = -1;
    double sign = 0.0;
  };
  std::array<Function, most> function;
  Index size = 0;
  Index even_bubbles = 0;
  Index odd_bubbles = 0;

  Admitted(const PlateBasis& basis, const Springs& low, const Springs& high, bool symmetric) {
    for (Index i = detail::first_bubble; i < basis.size; i += 2) add({i});
    even_bubbles = size;
    if (!symmetric)
      for (Index i = detail::first_bubble + 1; i < basis.size; i += 2) add({i});
    odd_bubbles = size - even_bubbles;
    using namespace detail;
    if (symmetric) {
      if (std::isfinite(low.translation)) add({value_low, value_high, 1.0});
      if (std::isfinite(low.rotation)) add({slope_low, slope_high, -1.0});
      return;
    }
    if (std::isfinite(low.translation)) add({value_low});
    if (std::isfinite(low.rotation)) add({slope_low});
    if (std::isfinite(high.translation)) add({value_high});
    if (std::isfinite(high.rotation)) add({slope_high});
  }

  double value(const auto& of_basis, Index i) const {
    const Function& f = at(i);
    return f.second < 0 ? of_basis(f.first) : of_basis(f.first) + f.sign * of_basis(f.second);
  }
  Small reduced(const MatrixXd& of_basis) const {
    Small m(size, size);
    for (Index j = 0; j < size; ++j)
      for (Index i = 0; i < size; ++i)
        m(i, j) = value([&](Index p) { return value([&](Index q) { return of_basis(p, q); }, j); }, i);
    return m;
  }
  const Function& at(Index i) const { return function[static_cast<std::size_t>(i)]; }

 private:
  void add(const Function& f) { function[static_cast<std::size_t>(size++)] = f; }
};

Direction direction(const PlateBasis& basis, const Admitted& admitted) {
  const auto end = [&admitted](Index what) {
    SmallVector v(admitted.size);
    for (Index i = 0; i < admitted.size; ++i) v[i] = admitted.value([&](Index p) { return p == what ? 1.0 : 0.0; }, i);
    return v;
  };
  return {admitted.reduced(basis.curvature),
          admitted.reduced(basis.slope),
          admitted.reduced(basis.curvature_value),
          admitted.reduced(basis.value),
          end(value_low),
          end(slope_low),
          end(value_high),
          end(slope_high)};
}

/// Solves the system whose first two groups of unknowns, even and odd bubbles in y, meet only through the third.
VectorXd solve(MatrixXd& k, VectorXd c, Index even, Index odd) {
  const Index border = k.rows() - even - odd;
  auto ke = k.topLeftCorner(even, even);
  auto ko = k.block(even, even, odd, odd);
  auto kb = k.bottomRightCorner(border, border);
  auto be = k.bottomLeftCorner(border, even);
  auto bo = k.block(even + odd, even, border, odd);
  bool positive = true;
  const auto factor = [&positive](auto&& part) {
    if (part.rows() == 0) return;
    Eigen::LLT<Eigen::Ref<MatrixXd>> in_place(part);
    positive = positive && in_place.info() == Eigen::Success;
  };
  factor(ke);
  factor(ko);
  auto ce = c.head(even);
  auto co = c.segment(even, odd);
  auto cb = c.tail(border);
  const auto le = ke.template triangularView<Eigen::Lower>();
  const auto lo = ko.template triangularView<Eigen::Lower>();
  le.solveInPlace(ce);
  lo.solveInPlace(co);
  if (border > 0) {
    le.transpose().template solveInPlace<Eigen::OnTheRight>(be);
    kb.template selfadjointView<Eigen::Lower>().rankUpdate(be, -1.0);
    cb.noalias() -= be * ce;
    if (odd > 0) {
      lo.transpose().template solveInPlace<Eigen::OnTheRight>(bo);
      kb.template selfadjointView<Eigen::Lower>().rankUpdate(bo, -1.0);
      cb.noalias() -= bo * co;
    }
    factor(kb);
    const auto lb = kb.template triangularView<Eigen::Lower>();
    lb.solveInPlace(cb);
    lb.transpose().solveInPlace(cb);
    ce.noalias() -= be.transpose() * cb;
    co.noalias() -= bo.transpose() * cb;
  }
  le.transpose().solveInPlace(ce);
  lo.transpose().solveInPlace(co);
  if (!positive || !c.allFinite()) throw NotConverged("plate stiffness factorisation", 0.0, 0);
  return c;
}

/// Coefficients of the shape that a load bends, from its work on all products of functions.
Small shape_under(const Small& work, MatrixXd stiffness, const Admitted& x, const Admitted& y,
                  const PlateBasis& basis) {
  VectorXd f(x.size * y.size);
  for (Index j = 0; j < y.size; ++j)
    for (Index i = 0; i < x.size; ++i)
      f[j * x.size + i] = y.value([&](Index q) { return x.value([&](Index p) { return work(p, q); }, i); }, j);
  const VectorXd c = solve(stiffness, std::move(f), x.size * y.even_bubbles, x.size * y.odd_bubbles);
  Small shape = Small::Zero(basis.size, basis.size);
  for (Index j = 0; j < y.size; ++j)
    for (Index i = 0; i < x.size; ++i) {
      const auto& fx = x.at(i);
      const auto& fy = y.at(j);
      const double v = c[j * x.size + i];
      shape(fx.first, fy.first) = v;
      if (fx.second >= 0) shape(fx.second, fy.first) = fx.sign * v;
      if (fy.second >= 0) shape(fx.first, fy.second) = fy.sign * v;
      if (fx.second >= 0 && fy.second >= 0) shape(fx.second, fy.second) = fx.sign * fy.sign * v;
    }
  return shape;
}

/// Virtual work of the supports on the products of one end function across an edge with all functions along it: load
/// minus elastic work of plate and beams. `shape` and `load` have the direction along the edge first.
SmallVector support_work(const PlateBasis& basis, const Small& shape, const Small& load, double across_over_along,
                         double poisson_ratio, Index end, const std::array<Springs, 2>& beams_along,
                         const std::array<Springs, 2>& beams_across) {
  const double s2 = across_over_along * across_over_along;
  const MatrixXd& cv = basis.curvature_value;
  SmallVector bending = s2 * (shape * basis.value.col(end));
  // Beams along this edge bend with its deflection; those across it meet the end function's own curvature and slope.
  bending += beams_along[end == detail::value_low ? 0 : 1].bending * shape.col(end);
  const SmallVector curved = shape * basis.curvature.col(end) / s2;
  const SmallVector twisted = 2.0 * (1.0 - poisson_ratio) * (shape * basis.slope.col(end));
  const SmallVector one = poisson_ratio * (shape * cv.row(end).transpose());
  const SmallVector other = poisson_ratio * (shape * cv.col(end));
  SmallVector work = load.col(end);
  work.noalias() -= basis.curvature * bending;
  work.noalias() -= basis.value * curved;
  work.noalias() -= basis.slope * twisted;
  work.noalias() -= cv.transpose() * one;
  work.noalias() -= cv * other;
  const SmallVector bent = shape * basis.curvature.col(end);
  const SmallVector turned = shape * basis.slope.col(end);
  work[detail::value_low] -= beams_across[0].bending * bent[detail::value_low];
  work[detail::value_high] -= beams_across[1].bending * bent[detail::value_high];
  work[detail::slope_low] -= beams_across[0].torsion * turned[detail::slope_low];
  work[detail::slope_high] -= beams_across[1].torsion * turned[detail::slope_high];
  return work;
}

FaceStress face_stress(double moment_x, double moment_y, double moment_xy, double stress_per_moment) {
  const double mean = 0.5 * stress_per_moment * (moment_x + moment_y);
  const double radius = std::abs(stress_per_moment) * std::hypot(0.5 * (moment_x - moment_y), moment_xy);
  return {from_si<Pressure>(stress_per_moment * moment_x), from_si<Pressure>(stress_per_moment * moment_y),
          from_si<Pressure>(stress_per_moment * moment_xy), from_si<Pressure>(mean + radius),
          from_si<Pressure>(mean - radius)};
}

/// Evaluates a bent panel on the square -1..1.
struct Field {
  int degree;
  const double* shape;
  double width, height, poisson_ratio;
  double deflection_scale;  ///< p0 (a b)^2 / (16 D)
  double moment_scale;      ///< p0 / 4

  struct Values {
    double deflection, moment_x, moment_y, moment_xy;
  };
  /// w[p][q]: derived p times by xi and q times by eta, up to four times in all
  using Jet = std::array<std::array<double, 5>, 5>;

  Values from(double w, double w_xx, double w_yy, double w_xy) const {
    const double along_x = height * height * w_xx;
    const double along_y = width * width * w_yy;
    return {deflection_scale * w, -moment_scale * (along_x + poisson_ratio * along_y),
            -moment_scale * (along_y + poisson_ratio * along_x),
            -moment_scale * (1.0 - poisson_ratio) * width * height * w_xy};
  }

  Values from(const Jet& w) const { return from(w[0][0], w[2][0], w[0][2], w[1][1]); }

  Jet jet(double xi, double eta) const {
    detail::Derivatives x, y;
    detail::evaluate(degree, xi, x);
    detail::evaluate(degree, eta, y);
    const auto n = static_cast<std::size_t>(degree) + 1;
    Jet w{};
    for (std::size_t j = 0; j < n; ++j) {
      std::array<double, 5> c{};
      for (std::size_t i = 0; i < n; ++i) {
        const double s = shape[j * n + i];
        for (std::size_t p = 0; p < 5; ++p) c[p] += s * x[p][i];
      }
      for (std::size_t p = 0; p < 5; ++p)
        for (std::size_t q = 0; p + q < 5; ++q) w[p][q] += c[p] * y[q][j];
    }
    return w;
  }
};

Field field_of(const BentPanel& bent) {
  const double area = si(bent.panel.width) * si(bent.panel.height);
  const double p0 = si(bent.reference_pressure);
  return {bent.degree,
          bent.shape.data(),
          si(bent.panel.width),
          si(bent.panel.height),
          bent.panel.material.poisson_ratio,
          p0 * area * area / (16.0 * si(flexural_rigidity(bent.panel))),
          p0 / 4.0};
}

/// A value on the square with its first and second derivatives.
struct Local {
  double value, x, y, xx, xy, yy;
};

Local deflection_at(const Field& field, double xi, double eta) {
  const auto w = field.jet(xi, eta);
  const double k = w[0][0] * field.deflection_scale >= 0.0 ? field.deflection_scale : -field.deflection_scale;
  return {k * w[0][0], k * w[1][0], k * w[0][1], k * w[2][0], k * w[1][1], k * w[0][2]};
}

/// The opening moment, smooth but where its two principal moments meet; there the derivatives are left at zero.
Local opening_moment_at(const Field& field, double xi, double eta) {
  const auto w = field.jet(xi, eta);
  const auto derived = [&](std::size_t p, std::size_t q) {
    const auto v = field.from(w[p][q], w[p + 2][q], w[p][q + 2], w[p + 1][q + 1]);
    return std::array<double, 3>{0.5 * (v.moment_x + v.moment_y), 0.5 * (v.moment_x - v.moment_y), v.moment_xy};
  };
  const auto f = derived(0, 0);
  const double sign = f[0] >= 0.0 ? 1.0 : -1.0;
  const double r = std::hypot(f[1], f[2]);
  Local local{sign * f[0] + r, 0.0, 0.0, 0.0, 0.0, 0.0};
  if (r <= 1e-9 * local.value) return local;
  const auto fx = derived(1, 0), fy = derived(0, 1), fxx = derived(2, 0), fxy = derived(1, 1), fyy = derived(0, 2);
  const auto dot = [](const std::array<double, 3>& a, const std::array<double, 3>& b) {
    return a[1] * b[1] + a[2] * b[2];
  };
  const double rx = dot(f, fx) / r;
  const double ry = dot(f, fy) / r;
  local.x = sign * fx[0] + rx;
  local.y = sign * fy[0] + ry;
  local.xx = sign * fxx[0] + (dot(fx, fx) + dot(f, fxx) - rx * rx) / r;
  local.xy = sign * fxy[0] + (dot(fx, fy) + dot(f, fxy) - rx * ry) / r;
  local.yy = sign * fyy[0] + (dot(fy, fy) + dot(f, fyy) - ry * ry) / r;
  return local;
}

constexpr int halvings = 20;  // of the compass search's steps

/// Climbs from a grid point by Newton's method inside the square, sliding along its edges; steps are held to the
/// grid's.
template <class F>
Peak refine(const F& f, Peak peak, double step_x, double step_y) {
  Local here = f(peak.x, peak.y);
  peak.value = here.value;
  double shrink = 1.0;
  for (int step = 0; step < 30; ++step) {
    const bool fixed_x = (peak.x >= 1.0 && here.x >= 0.0) || (peak.x <= -1.0 && here.x <= 0.0);
    const bool fixed_y = (peak.y >= 1.0 && here.y >= 0.0) || (peak.y <= -1.0 && here.y <= 0.0);
    double dx = 0.0, dy = 0.0;
    if (!fixed_x && !fixed_y) {
      // Newton's step with the curvatures made negative: upward also from a saddle.
      const double mean = 0.5 * (here.xx + here.yy);
      const double radius = std::hypot(0.5 * (here.xx - here.yy), here.xy);
      const double angle = 0.5 * std::atan2(here.xy, 0.5 * (here.xx - here.yy));
      const double cosine = std::cos(angle), sine = std::sin(angle);
      const double least = 1e-6 * std::max(here.value, std::abs(mean) + radius);
      const double along = (cosine * here.x + sine * here.y) / std::max(std::abs(mean + radius), least);
      const double across = (cosine * here.y - sine * here.x) / std::max(std::abs(mean - radius), least);
      dx = cosine * along - sine * across;
      dy = sine * along + cosine * across;
      if (least == 0.0) return peak;
    } else {
      if (!fixed_x) dx = here.xx < 0.0 ? -here.x / here.xx : std::copysign(step_x, here.x);
      if (!fixed_y) dy = here.yy < 0.0 ? -here.y / here.yy : std::copysign(step_y, here.y);
    }
    const double too_long = std::max({1.0, std::abs(dx) / step_x, std::abs(dy) / step_y});
    const double xi = std::clamp(peak.x + shrink * dx / too_long, -1.0, 1.0);
    const double eta = std::clamp(peak.y + shrink * dy / too_long, -1.0, 1.0);
    const double moved = std::max(std::abs(xi - peak.x), std::abs(eta - peak.y));
    const bool stationary = (here.xx < 0.0 || fixed_x) && (here.yy < 0.0 || fixed_y);
    if (moved < 1e-9 && stationary && shrink == 1.0) return peak;
    // What is left to gain is less than the rounding of the value: flat, as in the middle of a long panel.
    const double gain = std::abs(here.x * (xi - peak.x)) + std::abs(here.y * (eta - peak.y));
    if (stationary && shrink == 1.0 && gain < 1e-13 * here.value) return peak;
    const Local there = f(xi, eta);
    if (there.value > here.value) {
      const bool arrived = moved < 1e-4 && stationary && shrink == 1.0;  // the next step would be its square
      here = there;
      peak = {there.value, xi, eta};
      shrink = 1.0;
      if (arrived) return peak;
    } else {
      if (moved < 1e-6 && stationary) return peak;  // the rounding of the value
      shrink *= 0.25;
      if (shrink < 1e-3) break;
    }
  }
  return climb([&f](double xi, double eta) { return f(xi, eta).value; }, peak, 0.25 * step_x, 0.25 * step_y, halvings);
}

/// What the polynomials and the small contacts make together.
struct WholeField {
  Field field;
  ContactField small;

  explicit WholeField(const BentPanel& bent)
      : field(field_of(bent)), small(bent.panel, local_contacts(bent.panel, bent.patches)) {}

  double deflection(const Field::Values& v, const LocalBending& l) const {
    return std::abs(v.deflection + l.deflection);
  }
  double opening_moment(const Field::Values& v, const LocalBending& l) const {
    const double x = v.moment_x + l.moment_x, y = v.moment_y + l.moment_y, xy = v.moment_xy + l.moment_xy;
    return 0.5 * std::abs(x + y) + std::sqrt(0.25 * (x - y) * (x - y) + xy * xy);
  }
};

void find_peaks(BentPanel& bent, const PlateBasis& basis, bool symmetric) {
  const WholeField whole(bent);
  const Field& field = whole.field;
  const Eigen::Map<const MatrixXd> shape(bent.shape.data(), basis.size, basis.size);
  // A symmetric panel is searched in its left half and the middle.
  const Index nx = symmetric ? basis.grid.size() / 2 + 1 : basis.grid.size();
  const Index ny = basis.grid.size();
  const MatrixXd value = basis.grid_value.topRows(nx) * shape;
  const MatrixXd slope = basis.grid_slope.topRows(nx) * shape;
  const MatrixXd curvature = basis.grid_curvature.topRows(nx) * shape;
  const MatrixXd w = value * basis.grid_value.transpose();
  const MatrixXd w_yy = value * basis.grid_curvature.transpose();
  const MatrixXd w_xx = curvature * basis.grid_value.transpose();
  const MatrixXd w_xy = slope * basis.grid_slope.transpose();
  MatrixXd deflection(nx, ny);
  MatrixXd moment(nx, ny);
  for (Index j = 0; j < ny; ++j)
    for (Index i = 0; i < nx; ++i) {
      const auto v = field.from(w(i, j), w_xx(i, j), w_yy(i, j), w_xy(i, j));
      const LocalBending local = whole.small.on_square(basis.grid[i], basis.grid[j]);
      deflection(i, j) = whole.deflection(v, local);
      moment(i, j) = whole.opening_moment(v, local);
    }
  const auto place = [&bent](const Peak& peak) {
    return PanelPlace{0.5 * (peak.x + 1.0) * bent.panel.width, 0.5 * (peak.y + 1.0) * bent.panel.height};
  };
  // Newton's method knows the polynomials' derivatives only; among small contacts the compass finds its way.
  const bool smooth = whole.small.contacts.empty();
  const auto smooth_sag = [&](double xi, double eta) { return deflection_at(field, xi, eta); };
  const auto smooth_moment = [&](double xi, double eta) { return opening_moment_at(field, xi, eta); };
  const auto whole_sag = [&](double xi, double eta) {
    return whole.deflection(field.from(field.jet(xi, eta)), whole.small.on_square(xi, eta));
  };
  const auto whole_moment = [&](double xi, double eta) {
    return whole.opening_moment(field.from(field.jet(xi, eta)), whole.small.on_square(xi, eta));
  };
  const auto largest = [&](const MatrixXd& on_grid, const auto& polynomial, const auto& with_contacts) {
    return highest_from_grid(on_grid, basis.grid, basis.grid, [&](const Peak& from, double step_x, double step_y) {
      return smooth ? refine(polynomial, from, step_x, step_y) : climb(with_contacts, from, step_x, step_y, halvings);
    });
  };
  const Peak sag = largest(deflection, smooth_sag, whole_sag);
  bent.max_deflection = from_si<Length>(sag.value);
  bent.max_deflection_at = place(sag);
  bent.deflection_over_thickness = sag.value / si(bent.panel.thickness);
  Peak tension = largest(moment, smooth_moment, whole_moment);
  const Peak under_contact = whole.small.largest_under(whole_moment, halvings);
  if (under_contact.value > tension.value) tension = under_contact;
  const double t = si(bent.panel.thickness);
  bent.max_tension = from_si<Pressure>(6.0 * tension.value / (t * t));
  bent.max_tension_at = place(tension);
  const auto there = field.from(field.jet(tension.x, tension.y));
  const LocalBending local = whole.small.on_square(tension.x, tension.y);
  bent.max_tension_on_far_face = there.moment_x + local.moment_x + there.moment_y + local.moment_y >= 0.0;
}

/// Reactions, corner forces and their balance with the load; `load` is the work of the load on all functions.
void find_reactions(BentPanel& bent, const PlateBasis& basis, const Small& load, const Small& shape,
                    double height_over_width, const std::array<Springs, 4>& spring) {
  const Small turned = shape.transpose();
  const Small load_turned = load.transpose();
  const double nu = bent.panel.material.poisson_ratio;
  const auto& [bottom_spring, left_spring, right_spring, top_spring] = spring;
  const std::array<Springs, 2> lying = {bottom_spring, top_spring}, upright = {left_spring, right_spring};
  std::array<SmallVector, 4> work;
  for (const Side side : all_sides)
    work[number(side)] =
        horizontal(side)
            ? support_work(basis, shape, load, height_over_width, nu, end_of(side), lying, upright)
            : support_work(basis, turned, load_turned, 1.0 / height_over_width, nu, end_of(side), upright, lying);
  const std::array<SmallVector, 4> along = edge_reactions(work, shape, spring);
  for (const SmallVector& q : along) bent.edge_reactions.insert(bent.edge_reactions.end(), q.begin(), q.end());
  const double unit = si(bent.reference_pressure) * si(bent.panel.width) * si(bent.panel.height) / 4.0;
  bent.reactions = reactions(basis, work, along, spring, unit);
  bent.total_load = total_load(bent.load, bent.panel, bent.patches);
  bent.equilibrium_residual = equilibrium_residual(bent.reactions, bent.load, bent.panel, bent.patches);
}

}  // namespace

FlexuralRigidity flexural_rigidity(const Panel& panel) {
  require::positive("panel thickness", panel.thickness);
  require::positive("panel Young's modulus", panel.material.youngs_modulus);
  require::within("panel Poisson's ratio", panel.material.poisson_ratio, 0.0, 0.5);
  const double t = si(panel.thickness);
  const double nu = panel.material.poisson_ratio;
  return from_si<FlexuralRigidity>(si(panel.material.youngs_modulus) * t * t * t / (12.0 * (1.0 - nu * nu)));
}

BentPanel bend(const Panel& panel, const PressureLoad& load, int degree) {
  return bend_under(panel, {load, {}, {}}, degree);
}

BentPanel bend_under(const Panel& panel, const PanelLoad& load, int degree) {
  const double rigidity = si(flexural_rigidity(panel));
  const PressureLoad& pressure = load.pressure;
  detail::require_possible(panel, pressure, degree);
  require::valid("thin plate theory (Kirchhoff)", "panel thickness / shorter side",
                 si(panel.thickness) / std::min(si(panel.width), si(panel.height)), thinnest_over_side,
                 thickest_over_side);
  BentPanel bent;
  bent.patches = load.patches;
  for (const PointLoad& point : load.points) bent.patches.push_back(contact_patch(point, panel));
  bool centred_x = true, centred_y = true;
  for (const PatchLoad& patch : bent.patches) {
    centred_x = centred_x && 2.0 * patch.x == panel.width;
    centred_y = centred_y && 2.0 * patch.y == panel.height;
  }
  const PlateBasis& basis = detail::plate_basis(degree);
  std::array<Springs, 4> spring;
  for (const Side side : all_sides) spring[number(side)] = springs(panel, side, rigidity);
  require_held(panel, spring);

  const bool uniform_load = std::isinf(si(pressure.water_depth));
  const bool symmetric_x = centred_x && panel.left == panel.right;
  const bool symmetric_y = uniform_load && centred_y && panel.bottom == panel.top;
  const Admitted admitted_x(basis, spring[number(Side::left)], spring[number(Side::right)], symmetric_x);
  const Admitted admitted_y(basis, spring[number(Side::bottom)], spring[number(Side::top)], symmetric_y);
  const double height_over_width = si(panel.height) / si(panel.width);

  double reference = 0.0;
  const Small as_given = load_work(basis, panel, pressure, bent.patches, reference);
  const std::vector<LocalContact> contacts =
      reference > 0.0 ? local_contacts(panel, bent.patches) : std::vector<LocalContact>();
  const Small work = spread(as_given, contacts, panel, reference);
  MatrixXd k = plate_stiffness(direction(basis, admitted_x), direction(basis, admitted_y), height_over_width,
                               panel.material.poisson_ratio, spring);
  bent.panel = panel;
  bent.load = pressure;
  bent.reference_pressure = from_si<Pressure>(reference);
  bent.degree = degree;
  // What is left of a patch presses on the hinged edges beyond which it reaches: then the reactions are those to
  // patches spread within the edges.
  const bool mirrored = any_mirrored(contacts, panel);
  if (mirrored) {
    const Small within = spread(as_given, local_contacts_within(panel, bent.patches), panel, reference);
    find_reactions(bent, basis, within, shape_under(within, k, admitted_x, admitted_y, basis), height_over_width,
                   spring);
  }
  const Small shape = shape_under(work, std::move(k), admitted_x, admitted_y, basis);
  bent.shape.assign(shape.data(), shape.data() + shape.size());
  if (!mirrored) find_reactions(bent, basis, work, shape, height_over_width, spring);
  find_peaks(bent, basis, symmetric_x);
  return bent;
}

PanelState BentPanel::at(const Length& x, const Length& y) const {
  require::within("x", x, Length(), panel.width);
  require::within("y", y, Length(), panel.height);
  const WholeField whole(*this);
  const Field& field = whole.field;
  const auto w = field.jet(2.0 * si(x) / si(panel.width) - 1.0, 2.0 * si(y) / si(panel.height) - 1.0);
  const auto v = field.from(w);
  const LocalBending local = whole.small.at(si(x), si(y));
  const double a = si(panel.width);
  const double b = si(panel.height);
  const double shear_x = -2.0 * field.moment_scale * (b * b * w[3][0] + a * a * w[1][2]) / a;
  const double shear_y = -2.0 * field.moment_scale * (b * b * w[2][1] + a * a * w[0][3]) / b;
  const double moment_x = v.moment_x + local.moment_x;
  const double moment_y = v.moment_y + local.moment_y;
  const double moment_xy = v.moment_xy + local.moment_xy;
  const double section = 6.0 / (si(panel.thickness) * si(panel.thickness));
  return {from_si<Length>(v.deflection + local.deflection),
          from_si<MomentPerLength>(moment_x),
          from_si<MomentPerLength>(moment_y),
          from_si<MomentPerLength>(moment_xy),
          from_si<LineLoad>(shear_x + local.shear_x),
          from_si<LineLoad>(shear_y + local.shear_y),
          face_stress(moment_x, moment_y, moment_xy, -section),
          face_stress(moment_x, moment_y, moment_xy, section)};
}

LineLoad BentPanel::reaction_at(Side side, const Length& along) const {
  const Length edge = horizontal(side) ? panel.width : panel.height;
  const Length across = horizontal(side) ? panel.height : panel.width;
  require::within("place along the " + std::string(name(side)) + " edge", along, Length(), edge);
  const double place = 2.0 * si(along) / si(edge) - 1.0;
  std::array<double, most> f, unused_slope, unused_curvature;
  if (std::isfinite(springs(panel, side, si(flexural_rigidity(panel))).translation))
    detail::evaluate(degree, place, f.data(), unused_slope.data(), unused_curvature.data());
  else
    detail::evaluate_fourth_derivative(degree, place, f.data());
  const std::size_t n = static_cast<std::size_t>(degree) + 1;
  double q = 0.0;
  for (std::size_t i = 0; i < n; ++i) q += edge_reactions[number(side) * n + i] * f[i];
  return from_si<LineLoad>(q * si(reference_pressure) * si(across) / 2.0);
}

}  // namespace theca::structure
