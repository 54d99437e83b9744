#include "theca/structure/bend.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "bent_field.hpp"
#include "panel_peaks.hpp"
#include "panel_pieces.hpp"
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

/// One polynomial over the whole panel; `work` is that of the load on all products of functions.
PanelPieces bend_as_one(const Panel& panel, int degree, const std::array<Springs, 4>& spring, bool symmetric_x,
                        bool symmetric_y, const Small& work) {
  const PlateBasis& basis = plate_basis(degree);
  const Admitted x(basis, spring[number(Side::left)], spring[number(Side::right)], symmetric_x);
  const Admitted y(basis, spring[number(Side::bottom)], spring[number(Side::top)], symmetric_y);
  MatrixXd stiffness = plate_stiffness(direction(basis, x), direction(basis, y), si(panel.height) / si(panel.width),
                                       panel.material.poisson_ratio, spring);
  return {{Length(), panel.width},
          {Length(), panel.height},
          {{panel, work, shape_under(work, std::move(stiffness), x, y, basis)}},
          degree};
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

/// Reactions, corner forces and their balance with the load.
void find_reactions(BentPanel& bent, const PanelPieces& pieces) {
  const PlateBasis& basis = plate_basis(pieces.degree);
  const double nu = bent.panel.material.poisson_ratio, rigidity = si(flexural_rigidity(bent.panel));
  std::array<std::vector<EdgePart>, 4> edges;
  for (const Side side : all_sides) {
    const std::size_t last_x = pieces.along_x() - 1, last_y = pieces.along_y() - 1;
    for (std::size_t k = 0; k <= (horizontal(side) ? last_x : last_y); ++k) {
      const PanelPiece& piece = horizontal(side) ? pieces.at(k, side == Side::bottom ? 0 : last_y)
                                                 : pieces.at(side == Side::left ? 0 : last_x, k);
      const auto spring_at = [&](Side s) { return springs(piece.panel, s, rigidity); };
      const std::array<Springs, 2> lying = {spring_at(Side::bottom), spring_at(Side::top)};
      const std::array<Springs, 2> upright = {spring_at(Side::left), spring_at(Side::right)};
      const double h = si(piece.panel.height), w = si(piece.panel.width);
      const SmallVector work =
          horizontal(side) ? support_work(basis, piece.shape, piece.load, h / w, nu, end_of(side), lying, upright)
                           : support_work(basis, piece.shape.transpose(), piece.load.transpose(), w / h, nu,
                                          end_of(side), upright, lying);
      edges[number(side)].push_back(edge_part(basis, work, piece.shape, side, spring_at(side).translation,
                                              si(bent.reference_pressure) * w * h / 4.0));
      const SmallVector& q = edges[number(side)].back().reaction;
      bent.edge_reactions.insert(bent.edge_reactions.end(), q.begin(), q.end());
    }
  }
  bent.reactions = reactions(edges);
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
  detail::require_possible(panel, load.pressure, degree);
  require::valid("thin plate theory (Kirchhoff)", "panel thickness / shorter side",
                 si(panel.thickness) / std::min(si(panel.width), si(panel.height)), thinnest_over_side,
                 thickest_over_side);
  BentPanel bent;
  bent.patches = load.patches;
  for (const PointLoad& point : load.points) bent.patches.push_back(contact_patch(point, panel));
  std::array<Springs, 4> spring;
  for (const Side side : all_sides) spring[number(side)] = springs(panel, side, rigidity);
  require_held(panel, spring);
  double reference = 0.0;
  const Small work = load_work(plate_basis(degree), panel, load.pressure, bent.patches, reference);
  bent.panel = panel;
  bent.load = load.pressure;
  bent.reference_pressure = from_si<Pressure>(reference);

  if (reference > 0.0 && needs_pieces(panel, bent.patches)) {
    const PanelPieces pieces = bend_in_pieces(panel, load.pressure, bent.patches, reference);
    keep_shape(bent, pieces);
    find_reactions(bent, pieces);
    find_peaks(bent, false);
    return bent;
  }
  const bool symmetric_x = panel.left == panel.right;
  const bool symmetric_y = std::isinf(si(load.pressure.water_depth)) && panel.bottom == panel.top;
  const PanelPieces whole = bend_as_one(panel, degree, spring, symmetric_x, symmetric_y, work);
  keep_shape(bent, whole);
  find_reactions(bent, whole);
  find_peaks(bent, symmetric_x);
  return bent;
}

namespace {

/// Refuses a panel whose figures were put together by hand.
void require_bent(const BentPanel& bent) {
  const std::size_t nx = bent.lines_x.size(), ny = bent.lines_y.size(), n = static_cast<std::size_t>(bent.degree) + 1;
  const bool whole = nx >= 2 && ny >= 2 && bent.degree >= min_plate_degree && bent.degree <= max_plate_degree &&
                     bent.shape.size() == (nx - 1) * (ny - 1) * n * n &&
                     bent.edge_reactions.size() == 2 * (nx + ny - 2) * n;
  require::that(whole, "bent panel", static_cast<double>(bent.shape.size()), "a panel that `bend` has returned");
}

}  // namespace

PanelState BentPanel::at(const Length& x, const Length& y) const {
  require_bent(*this);
  require::within("x", x, Length(), panel.width);
  require::within("y", y, Length(), panel.height);
  const Field field = field_of(*this, between(lines_x, x), between(lines_y, y));
  const auto w = field.jet(field.xi(si(x)), field.eta(si(y)));
  const Bending v = field.from(w);
  const double a = field.width;
  const double b = field.height;
  const double shear_x = -2.0 * field.moment_scale * (b * b * w[3][0] + a * a * w[1][2]) / a;
  const double shear_y = -2.0 * field.moment_scale * (b * b * w[2][1] + a * a * w[0][3]) / b;
  const double section = 6.0 / (si(panel.thickness) * si(panel.thickness));
  return {from_si<Length>(v.deflection),
          from_si<MomentPerLength>(v.moment_x),
          from_si<MomentPerLength>(v.moment_y),
          from_si<MomentPerLength>(v.moment_xy),
          from_si<LineLoad>(shear_x),
          from_si<LineLoad>(shear_y),
          face_stress(v.moment_x, v.moment_y, v.moment_xy, -section),
          face_stress(v.moment_x, v.moment_y, v.moment_xy, section)};
}

LineLoad BentPanel::reaction_at(Side side, const Length& along) const {
  require_bent(*this);
  const Length edge = horizontal(side) ? panel.width : panel.height;
  require::within("place along the " + std::string(name(side)) + " edge", along, Length(), edge);
  const std::size_t nx = lines_x.size() - 1, ny = lines_y.size() - 1;
  const std::size_t k = between(horizontal(side) ? lines_x : lines_y, along);
  const bool far_side = side == Side::right || side == Side::top;
  const Field field =
      horizontal(side) ? field_of(*this, k, far_side ? ny - 1 : 0) : field_of(*this, far_side ? nx - 1 : 0, k);
  const double place = horizontal(side) ? field.xi(si(along)) : field.eta(si(along));
  std::array<double, most> f, unused_slope, unused_curvature;
  if (std::isfinite(springs(panel, side, si(flexural_rigidity(panel))).translation))
    detail::evaluate(degree, place, f.data(), unused_slope.data(), unused_curvature.data());
  else
    detail::evaluate_fourth_derivative(degree, place, f.data());
  const std::size_t n = static_cast<std::size_t>(degree) + 1;
  const std::array<std::size_t, 4> before = {0, nx, nx + ny, nx + 2 * ny};  // parts of the edges that come first
  double q = 0.0;
  for (std::size_t i = 0; i < n; ++i) q += edge_reactions[(before[number(side)] + k) * n + i] * f[i];
  return from_si<LineLoad>(q * si(reference_pressure) * (horizontal(side) ? field.height : field.width) / 2.0);
}

}  // namespace theca::structure
