#include "stretch_energy.hpp"

#include <algorithm>
#include <cmath>

#include "theca/error.hpp"

namespace theca::structure::detail {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

/// The same work on the functions mirrored about the middle of the first direction.
MatrixXd mirrored(const MatrixXd& m) {
  MatrixXd out = m;
  out.row(value_low) = m.row(value_high);
  out.row(value_high) = m.row(value_low);
  out.row(slope_low) = -m.row(slope_high);
  out.row(slope_high) = -m.row(slope_low);
  for (Index i = first_bubble + 1; i < m.rows(); i += 2) out.row(i) = -m.row(i);
  return out;
}

}  // namespace

StretchEnergy::StretchEnergy(const StretchProblem& problem, int degree)
    : problem_(problem),
      basis_(plate_basis(degree)),
      x_(degree, problem.symmetric_x),
      y_(degree, problem.symmetric_y),
      weight_(x_.weight * y_.weight.transpose()) {
  const Index n = basis_.size;
  const auto& spring = problem.spring;
  const auto held = [&](Side s) { return std::isinf(spring[number(s)].translation); };
  const auto stiff = [&](Side s) { return std::isinf(spring[number(s)].rotation); };
  const Parity even_x = problem.symmetric_x ? Parity::even : Parity::any;
  const Parity even_y = problem.symmetric_y ? Parity::even : Parity::any;
  const Parity odd_x = problem.symmetric_x ? Parity::odd : Parity::any;
  const Parity odd_y = problem.symmetric_y ? Parity::odd : Parity::any;
  w_ = {admitted(n, {held(Side::left), stiff(Side::left), held(Side::right), stiff(Side::right)}, even_x),
        admitted(n, {held(Side::bottom), stiff(Side::bottom), held(Side::top), stiff(Side::top)}, even_y)};
  const auto both = [&](Side s) { return problem.is(s, InPlane::held); };
  const auto across_fixed = [&](Side s) { return problem.across_fixed(s); };
  const auto straight = [&](Side s) { return problem.is(s, InPlane::straight); };
  u_ = {admitted(n, {across_fixed(Side::left), false, across_fixed(Side::right), false}, odd_x),
        admitted(n, {both(Side::bottom), false, both(Side::top), false}, even_y)};
  v_ = {admitted(n, {both(Side::left), false, both(Side::right), false}, even_x),
        admitted(n, {across_fixed(Side::bottom), false, across_fixed(Side::top), false}, odd_y)};
  u_.keep_straight(true, straight(Side::left), straight(Side::right), !both(Side::bottom) && !both(Side::top));
  v_.keep_straight(false, straight(Side::bottom), straight(Side::top), !both(Side::left) && !both(Side::right));

  stiffness_ =
      plate_stiffness(direction(basis_, w_.x), direction(basis_, w_.y), problem.ratio, problem.poisson_ratio, spring);
  load_x_ = load_integrals(degree, 1.0, 1.0, 1.0);
  load_y_ = problem.uniform ? load_x_ : load_integrals(degree, problem.wet_share, 1.0, 0.0);
  load_ = w_.functional(load_x_, load_y_);
  at_w_ = {w_, x_, y_};
  at_u_ = {u_, x_, y_};
  at_v_ = {v_, x_, y_};
  factor_in_plane();
}

VectorXd StretchEnergy::unknowns(const MatrixXd& shape) const {
  // Each function in a column of its own is the only one with its first basis function, which has the factor one.
  const auto first = [](const auto& column) {
    Index i = 0;
    while (column[i] == 0.0) ++i;
    return i;
  };
  MatrixXd factors(w_.x.cols(), w_.y.cols());
  for (Index l = 0; l < factors.cols(); ++l)
    for (Index k = 0; k < factors.rows(); ++k) {
      const Index i = first(w_.x.col(k)), j = first(w_.y.col(l));
      factors(k, l) = i < shape.rows() && j < shape.cols() ? shape(i, j) : 0.0;
    }
  return w_.unknowns(factors);
}

Slopes StretchEnergy::slopes(const VectorXd& c) const {
  const MatrixXd factors = w_.factors(c);
  return {at_w_.along_x(factors), at_w_.along_y(factors)};
}

Membrane StretchEnergy::weighted_forces(const Membrane& e) const {
  const double nu = problem_.poisson_ratio;
  return {weight_.cwiseProduct(e.x + nu * e.y), weight_.cwiseProduct(e.y + nu * e.x),
          0.5 * (1.0 - nu) * weight_.cwiseProduct(e.xy)};
}

Slopes StretchEnergy::across(const Membrane& force, const Slopes& slope) const {
  const double r = problem_.ratio;
  return {r * force.x.cwiseProduct(slope.x) + force.xy.cwiseProduct(slope.y),
          force.y.cwiseProduct(slope.y) / r + force.xy.cwiseProduct(slope.x)};
}

Strain StretchEnergy::strain(const Slopes& a, const Slopes& b) const {
  const double r = problem_.ratio;
  Strain s;
  s.e = {0.5 * r * a.x.cwiseProduct(b.x), 0.5 / r * a.y.cwiseProduct(b.y),
         0.5 * (a.x.cwiseProduct(b.y) + b.x.cwiseProduct(a.y))};
  const Membrane force = weighted_forces(s.e);
  VectorXd work(u_.size() + v_.size());
  work << u_.unknowns(at_u_.work_x(r * force.x) + at_u_.work_y(force.xy)),
      v_.unknowns(at_v_.work_y(force.y / r) + at_v_.work_x(force.xy));
  s.in_plane = -in_plane_factor_.solve(work);
  const MatrixXd u = u_.factors(s.in_plane.head(u_.size())), v = v_.factors(s.in_plane.tail(v_.size()));
  s.e.x += r * at_u_.along_x(u);
  s.e.y += at_v_.along_y(v) / r;
  s.e.xy += at_u_.along_y(u) + at_v_.along_x(v);
  return s;
}

double StretchEnergy::product(const Strain& a, const Strain& b) const {
  const Membrane force = weighted_forces(a.e);
  return force.x.cwiseProduct(b.e.x).sum() + force.y.cwiseProduct(b.e.y).sum() + force.xy.cwiseProduct(b.e.xy).sum();
}

VectorXd StretchEnergy::imbalance(const VectorXd& c, const Slopes& slope, const Strain& strain) const {
  const Slopes force = across(weighted_forces(strain.e), slope);
  return problem_.load_factor * load_ - stiffness_.selfadjointView<Eigen::Lower>() * c -
         12.0 * w_.unknowns(at_w_.work_x(force.x) + at_w_.work_y(force.y));
}

MatrixXd StretchEnergy::coupling(const Slopes& slope) const {
  const double r = problem_.ratio, nu = problem_.poisson_ratio, shear = 0.5 * (1.0 - nu);
  const MatrixXd x = weight_.cwiseProduct(slope.x), y = weight_.cwiseProduct(slope.y);
  const AtPoints &u = at_u_, &v = at_v_, &w = at_w_;
  MatrixXd on_u = MatrixXd::Zero(u_.x.cols() * u_.y.cols(), w_.size());
  MatrixXd on_v = MatrixXd::Zero(v_.x.cols() * v_.y.cols(), w_.size());
  add_integrals(on_u, r * r * x, u.x_slope, u.y, w.x_slope, w.y);
  add_integrals(on_u, nu * y, u.x_slope, u.y, w.x, w.y_slope);
  add_integrals(on_u, shear * y, u.x, u.y_slope, w.x_slope, w.y);
  add_integrals(on_u, shear * x, u.x, u.y_slope, w.x, w.y_slope);
  add_integrals(on_v, y / (r * r), v.x, v.y_slope, w.x, w.y_slope);
  add_integrals(on_v, nu * x, v.x, v.y_slope, w.x_slope, w.y);
  add_integrals(on_v, shear * y, v.x_slope, v.y, w.x_slope, w.y);
  add_integrals(on_v, shear * x, v.x_slope, v.y, w.x, w.y_slope);
  MatrixXd all(u_.size() + v_.size(), w_.size());
  all << on_u(u_.kept, Eigen::all), on_v(v_.kept, Eigen::all);
  return all;
}

MatrixXd StretchEnergy::tangent(const Slopes& slope, const Strain& strain) const {
  const double r = problem_.ratio, nu = problem_.poisson_ratio, shear = 0.5 * (1.0 - nu);
  const Membrane force = weighted_forces(strain.e);
  // The work on two changes of slope: of the forces that the changes bring, and of those that are there.
  const MatrixXd xx = weight_.cwiseProduct(slope.x.cwiseAbs2()), yy = weight_.cwiseProduct(slope.y.cwiseAbs2());
  const MatrixXd on_x = 12.0 * (r * r * xx + shear * yy + r * force.x);
  const MatrixXd on_y = 12.0 * (yy / (r * r) + shear * xx + force.y / r);
  const MatrixXd on_both = 12.0 * ((nu + shear) * weight_.cwiseProduct(slope.x.cwiseProduct(slope.y)) + force.xy);
  const AtPoints& w = at_w_;
  MatrixXd t = stiffness_;
  add_integrals(t, on_x, w.x_slope, w.y, w.x_slope, w.y);
  add_integrals(t, on_y, w.x, w.y_slope, w.x, w.y_slope);
  add_integrals(t, on_both, w.x_slope, w.y, w.x, w.y_slope);
  add_integrals(t, on_both, w.x, w.y_slope, w.x_slope, w.y);
  // Less the work that the panel saves by moving in its plane.
  MatrixXd saved = coupling(slope);
  in_plane_factor_.matrixL().solveInPlace(saved);
  t.selfadjointView<Eigen::Lower>().rankUpdate(saved.transpose(), -12.0);
  return t;
}

MatrixXd StretchEnergy::support_work(const VectorXd& c, const Slopes& slope, const Strain& strain) const {
  const double s2 = problem_.ratio * problem_.ratio;
  const double nu = problem_.poisson_ratio;
  const MatrixXd shape = w_.shape(c);
  const MatrixXd& cv = basis_.curvature_value;
  const MatrixXd work =
      problem_.load_factor * load_x_ * load_y_.transpose() - s2 * (basis_.curvature * shape * basis_.value) -
      (basis_.value * shape * basis_.curvature) / s2 - 2.0 * (1.0 - nu) * (basis_.slope * shape * basis_.slope) -
      nu * (cv.transpose() * shape * cv.transpose() + cv * shape * cv);
  const Slopes force = across(weighted_forces(strain.e), slope);
  MatrixXd membrane = 12.0 * (x_.slope.transpose() * force.x * y_.value + x_.value.transpose() * force.y * y_.slope);
  // Half the points, counted twice, integrate only products of the right parity: add their mirror images.
  if (problem_.symmetric_x) membrane = 0.5 * (membrane + mirrored(membrane));
  if (problem_.symmetric_y) membrane = 0.5 * (membrane + mirrored(membrane.transpose()).transpose());
  return work - membrane;
}

MatrixXd StretchEnergy::in_plane_stiffness() const {
  const double r = problem_.ratio, nu = problem_.poisson_ratio, shear = 0.5 * (1.0 - nu);
  const AtPoints &u = at_u_, &v = at_v_;
  const Index all_u = u_.x.cols() * u_.y.cols(), all_v = v_.x.cols() * v_.y.cols();
  MatrixXd uu = MatrixXd::Zero(all_u, all_u), vu = MatrixXd::Zero(all_v, all_u), vv = MatrixXd::Zero(all_v, all_v);
  const auto add = [this](MatrixXd& sums, double factor, const MatrixXd& left_x, const MatrixXd& left_y,
                          const MatrixXd& right_x, const MatrixXd& right_y) {
    const MatrixXd x = factor * (left_x.transpose() * x_.weight.asDiagonal() * right_x);
    const MatrixXd y = left_y.transpose() * y_.weight.asDiagonal() * right_y;
    for (Index l = 0; l < y.cols(); ++l)
      for (Index j = 0; j < y.rows(); ++j) sums.block(j * x.rows(), l * x.cols(), x.rows(), x.cols()) += y(j, l) * x;
  };
  add(uu, r * r, u.x_slope, u.y, u.x_slope, u.y);
  add(uu, shear, u.x, u.y_slope, u.x, u.y_slope);
  add(vu, nu, v.x, v.y_slope, u.x_slope, u.y);
  add(vu, shear, v.x_slope, v.y, u.x, u.y_slope);
  add(vv, 1.0 / (r * r), v.x, v.y_slope, v.x, v.y_slope);
  add(vv, shear, v.x_slope, v.y, v.x_slope, v.y);
  MatrixXd k = MatrixXd::Zero(u_.size() + v_.size(), u_.size() + v_.size());  // its lower half
  k.topLeftCorner(u_.size(), u_.size()) = uu(u_.kept, u_.kept);
  k.bottomLeftCorner(v_.size(), u_.size()) = vu(v_.kept, u_.kept);
  k.bottomRightCorner(v_.size(), v_.size()) = vv(v_.kept, v_.kept);
  return k;
}

void StretchEnergy::factor_in_plane() {
  MatrixXd k = in_plane_stiffness();
  // Motions of the panel as a rigid body in its plane strain nothing: their mean is set to zero, which changes no
  // stress as the forces on them are zero.
  const auto fix = [&k](const VectorXd& mean) { k.selfadjointView<Eigen::Lower>().rankUpdate(mean); };
  const auto loose = [this](Side s) { return !problem_.across_fixed(s); };
  const auto unheld = [this](Side s) { return !problem_.is(s, InPlane::held); };
  VectorXd mean = VectorXd::Zero(k.rows());
  if (!problem_.symmetric_x && loose(Side::left) && loose(Side::right) && unheld(Side::bottom) && unheld(Side::top)) {
    mean.head(u_.size()) = u_.functional(load_x_, load_x_);
    fix(mean);
  }
  if (!problem_.symmetric_y && loose(Side::bottom) && loose(Side::top) && unheld(Side::left) && unheld(Side::right)) {
    mean.setZero();
    mean.tail(v_.size()) = v_.functional(load_x_, load_x_);
    fix(mean);
  }
  if (!problem_.symmetric_x && !problem_.symmetric_y &&
      std::all_of(all_sides.begin(), all_sides.end(), [this](Side s) { return problem_.is(s, InPlane::slides); })) {
    VectorXd rise = VectorXd::Zero(basis_.size);  // integral of f': f(1) - f(-1)
    rise[value_high] = 1.0;
    rise[value_low] = -1.0;
    mean.head(u_.size()) = -u_.functional(load_x_, rise);
    mean.tail(v_.size()) = v_.functional(rise, load_x_);
    fix(mean);
  }
  in_plane_factor_.compute(k);
  if (in_plane_factor_.info() != Eigen::Success) throw NotConverged("membrane stiffness factorisation", 0.0, 0);
}

}  // namespace theca::structure::detail
