#include "theca/structure/large_deflection.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "plate_basis.hpp"
#include "theca/require.hpp"

namespace theca::structure {
namespace {

using detail::PlateBasis;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// Mapped on the square -1..1 as in bend.cpp. With w = t W, u = (2 t^2 / a) U, v = (2 t^2 / b) V and s = b / a, the
// membrane strains times a b / (4 t^2) are
//   e_x = s (U_xi + W_xi^2 / 2), e_y = (V_eta + W_eta^2 / 2) / s, g = U_eta + V_xi + W_xi W_eta,
// and the energy over 4 D t^2 / (a b) is W K W / 2 + 6 (integral of e C e) - P f W, with bend's stiffness K and
// P = p0 (a b)^2 / (16 D t).

constexpr int coarse_degree = 6;
constexpr int largest_degree = 16;
constexpr int most_steps = 60;
constexpr double tolerance = 1e-8;

constexpr std::array<Side, 4> all_sides = {Side::bottom, Side::left, Side::right, Side::top};
constexpr std::size_t number(Side side) { return static_cast<std::size_t>(side); }
constexpr bool horizontal(Side side) { return side == Side::bottom || side == Side::top; }

const Edge& edge_of(const Panel& panel, Side side) {
  if (side == Side::bottom) return panel.bottom;
  if (side == Side::left) return panel.left;
  return side == Side::right ? panel.right : panel.top;
}

InPlane condition_of(const InPlaneEdges& edges, Side side) {
  if (side == Side::bottom) return edges.bottom;
  if (side == Side::left) return edges.left;
  return side == Side::right ? edges.right : edges.top;
}

struct Springs {
  double translation, rotation;
};

enum class Parity { any, even, odd };

/// Which end values and slopes are zero in one direction.
struct Ends {
  bool low_value, low_slope, high_value, high_slope;
};

/// Columns: the combinations of the basis functions that vanish where they must and have the parity asked for.
MatrixXd admitted(Index size, const Ends& zero, Parity parity) {
  MatrixXd columns = MatrixXd::Zero(size, size);
  Index n = 0;
  if (parity == Parity::any) {
    if (!zero.low_value) columns(detail::value_low, n++) = 1.0;
    if (!zero.low_slope) columns(detail::slope_low, n++) = 1.0;
    if (!zero.high_value) columns(detail::value_high, n++) = 1.0;
    if (!zero.high_slope) columns(detail::slope_high, n++) = 1.0;
  } else {
    const double sign = parity == Parity::even ? 1.0 : -1.0;
    if (!zero.low_value) {
      columns(detail::value_low, n) = 1.0;
      columns(detail::value_high, n++) = sign;
    }
    if (!zero.low_slope) {
      columns(detail::slope_low, n) = 1.0;
      columns(detail::slope_high, n++) = -sign;
    }
  }
  const Index first = parity == Parity::odd ? detail::first_bubble + 1 : detail::first_bubble;
  for (Index i = first; i < size; i += parity == Parity::any ? 1 : 2) columns(i, n++) = 1.0;
  return columns.leftCols(n);
}

/// A field on the panel: unknown k is the product of column k of `x` and column k of `y`.
struct Unknowns {
  MatrixXd x, y;
  Index size() const { return x.cols(); }
  MatrixXd shape(const VectorXd& c) const { return x * c.asDiagonal() * y.transpose(); }
};

Unknowns products(const MatrixXd& x, const MatrixXd& y) {
  Unknowns all{MatrixXd(x.rows(), x.cols() * y.cols()), MatrixXd(y.rows(), x.cols() * y.cols())};
  for (Index j = 0; j < y.cols(); ++j)
    for (Index i = 0; i < x.cols(); ++i) {
      all.x.col(i + j * x.cols()) = x.col(i);
      all.y.col(i + j * x.cols()) = y.col(j);
    }
  return all;
}

/// Of a displacement, takes out the functions that would bend an edge which stays straight: those with a value at that
/// edge are allowed only as a constant along it.
void keep_straight(MatrixXd& across, MatrixXd& along, bool low, bool high, bool constant_allowed) {
  const Index n = across.cols();
  MatrixXd kept_across(across.rows(), n + 2), kept_along(along.rows(), n + 2);
  Index kept = 0;
  std::array<VectorXd, 2> at_edge;
  std::size_t edge_functions = 0;
  for (Index k = 0; k < n; ++k) {
    const bool moves = (low && across(detail::value_low, k) != 0.0) || (high && across(detail::value_high, k) != 0.0);
    if (!moves) {
      kept_across.col(kept) = across.col(k);
      kept_along.col(kept++) = along.col(k);
      continue;
    }
    bool known = false;
    for (std::size_t e = 0; e < edge_functions; ++e) known = known || at_edge[e] == across.col(k);
    if (!known) at_edge[edge_functions++] = across.col(k);
  }
  for (std::size_t e = 0; constant_allowed && e < edge_functions; ++e) {
    kept_across.col(kept) = at_edge[e];
    kept_along.col(kept) = VectorXd::Zero(along.rows());
    kept_along(detail::value_low, kept) = kept_along(detail::value_high, kept) = 1.0;
    ++kept;
  }
  across = kept_across.leftCols(kept);
  along = kept_along.leftCols(kept);
}

/// Quadrature points of one direction with the basis at them; the half -1..0 when the integrands are even.
struct Points {
  VectorXd weight;
  MatrixXd value, slope;  ///< rows: points

  Points(int degree, bool half) {
    const int n = 2 * ((3 * degree + 5) / 4);  // even, so that halves share no point
    const detail::GaussRule rule = detail::gauss_rule(n);
    const Index used = half ? n / 2 : n;
    weight = (half ? 2.0 : 1.0) * rule.weight.head(used);
    value.resize(used, degree + 1);
    slope.resize(used, degree + 1);
    VectorXd f(degree + 1), f1(degree + 1), f2(degree + 1);
    for (Index q = 0; q < used; ++q) {
      detail::evaluate(degree, rule.point[q], f.data(), f1.data(), f2.data());
      value.row(q) = f;
      slope.row(q) = f1;
    }
  }
};

/// Values of all unknowns' products at all points: column k is the product of column k of `x` and column k of `y`.
MatrixXd at_points(const MatrixXd& x, const MatrixXd& y) {
  MatrixXd all(x.rows() * y.rows(), x.cols());
  for (Index k = 0; k < x.cols(); ++k)
    for (Index q = 0; q < y.rows(); ++q) all.col(k).segment(q * x.rows(), x.rows()) = y(q, k) * x.col(k);
  return all;
}

struct Problem {
  double ratio;  ///< height over width
  double poisson_ratio;
  std::array<Springs, 4> spring;
  std::array<InPlane, 4> in_plane;
  bool symmetric_x, symmetric_y;
  double load_factor;  ///< P
  double wet_share;    ///< of the height; 1 with a uniform load
  bool uniform;

  bool is(Side side, InPlane condition) const { return in_plane[number(side)] == condition; }
  bool across_fixed(Side side) const { return is(side, InPlane::held) || is(side, InPlane::held_across); }
};

/// The discrete problem at one degree.
class Discrete {
 public:
  Discrete(const Problem& problem, int degree)
      : problem_(problem), basis_(detail::plate_basis(degree)), size_(degree + 1) {
    const auto& spring = problem.spring;
    const auto held = [&](Side s) { return std::isinf(spring[number(s)].translation); };
    const auto stiff = [&](Side s) { return std::isinf(spring[number(s)].rotation); };
    const Parity even_x = problem.symmetric_x ? Parity::even : Parity::any;
    const Parity even_y = problem.symmetric_y ? Parity::even : Parity::any;
    const Parity odd_x = problem.symmetric_x ? Parity::odd : Parity::any;
    const Parity odd_y = problem.symmetric_y ? Parity::odd : Parity::any;
    w_ =
        products(admitted(size_, {held(Side::left), stiff(Side::left), held(Side::right), stiff(Side::right)}, even_x),
                 admitted(size_, {held(Side::bottom), stiff(Side::bottom), held(Side::top), stiff(Side::top)}, even_y));
    const auto both = [&](Side s) { return problem.is(s, InPlane::held); };
    const auto across = [&](Side s) { return problem.across_fixed(s); };
    u_ = products(admitted(size_, {across(Side::left), false, across(Side::right), false}, odd_x),
                  admitted(size_, {both(Side::bottom), false, both(Side::top), false}, even_y));
    v_ = products(admitted(size_, {both(Side::left), false, both(Side::right), false}, even_x),
                  admitted(size_, {across(Side::bottom), false, across(Side::top), false}, odd_y));
    keep_straight(u_.x, u_.y, problem.is(Side::left, InPlane::straight), problem.is(Side::right, InPlane::straight),
                  !both(Side::bottom) && !both(Side::top));
    keep_straight(v_.y, v_.x, problem.is(Side::bottom, InPlane::straight), problem.is(Side::top, InPlane::straight),
                  !both(Side::left) && !both(Side::right));
    make_stiffness();
    make_load();
    make_membrane(degree);
  }

  const Unknowns& w() const { return w_; }
  const VectorXd& load() const { return load_; }
  MatrixXd shape_u(const VectorXd& c) const { return u_.shape(c.head(u_.size())); }
  MatrixXd shape_v(const VectorXd& c) const { return v_.shape(c.tail(v_.size())); }

  /// Coefficients of a shape that lies in the admitted space, from a lower degree.
  VectorXd coefficients(const MatrixXd& shape) const {
    VectorXd c(w_.size());
    for (Index k = 0; k < c.size(); ++k) {
      Index i = 0, j = 0;  // the first function in a column has the factor one
      while (w_.x(i, k) == 0.0) ++i;
      while (w_.y(j, k) == 0.0) ++j;
      c[k] = i < shape.rows() && j < shape.cols() ? shape(i, j) : 0.0;
    }
    return c;
  }

  /// Slopes of a deflection at the points.
  struct Slopes {
    VectorXd x, y;
  };
  Slopes slopes(const VectorXd& c) const { return {w_x_ * c, w_y_ * c}; }

  /// Scaled strains of the products of two deflections (of one, when given twice), with the in-plane displacements that
  /// belong to them.
  struct Strain {
    VectorXd e, displacement;
  };
  Strain strain(const Slopes& a, const Slopes& b) const {
    Strain s;
    s.e = scaled(0.5 * problem_.ratio * a.x.cwiseProduct(b.x), 0.5 / problem_.ratio * a.y.cwiseProduct(b.y),
                 0.5 * (a.x.cwiseProduct(b.y) + b.x.cwiseProduct(a.y)));
    s.displacement = -in_plane_factor_.solve(membrane_.transpose() * s.e);
    s.e += membrane_ * s.displacement;
    return s;
  }

  /// Change of the strains, scaled, with the unknowns at the state with these slopes.
  MatrixXd strain_change(const Slopes& s) const {
    const double r = problem_.ratio;
    const Index n = points();
    MatrixXd change(3 * n, w_.size());
    const VectorXd sum_x = (sum_ * r * s.x.array() * root_weight_.array()).matrix();
    const VectorXd sum_y = (sum_ / r * s.y.array() * root_weight_.array()).matrix();
    const VectorXd dif_x = (difference_ * r * s.x.array() * root_weight_.array()).matrix();
    const VectorXd dif_y = (difference_ / r * s.y.array() * root_weight_.array()).matrix();
    const VectorXd shear_x = (difference_ * s.x.array() * root_weight_.array()).matrix();
    const VectorXd shear_y = (difference_ * s.y.array() * root_weight_.array()).matrix();
    for (Index k = 0; k < w_.size(); ++k) {
      change.col(k).head(n) = sum_x.cwiseProduct(w_x_.col(k)) + sum_y.cwiseProduct(w_y_.col(k));
      change.col(k).segment(n, n) = dif_x.cwiseProduct(w_x_.col(k)) - dif_y.cwiseProduct(w_y_.col(k));
      change.col(k).tail(n) = shear_x.cwiseProduct(w_y_.col(k)) + shear_y.cwiseProduct(w_x_.col(k));
    }
    return change;
  }

  /// Out-of-balance forces on the unknowns at a deflection.
  VectorXd imbalance(const VectorXd& c, const Slopes& slope, const VectorXd& e) const {
    VectorXd out = problem_.load_factor * load_ - stiffness_.selfadjointView<Eigen::Lower>() * c;
    out -= 12.0 * membrane_work(w_x_, w_y_, slope, e);
    return out;
  }

  /// Work of the membrane forces on a change of slope: columns of `test_x`, `test_y` at the points.
  VectorXd membrane_work(const MatrixXd& test_x, const MatrixXd& test_y, const Slopes& slope, const VectorXd& e) const {
    const double r = problem_.ratio;
    const auto [nx, ny, nxy] = weighted_forces(e);
    return test_x.transpose() * (r * nx.cwiseProduct(slope.x) + nxy.cwiseProduct(slope.y)) +
           test_y.transpose() * (ny.cwiseProduct(slope.y) / r + nxy.cwiseProduct(slope.x));
  }

  MatrixXd tangent(const Slopes& slope, const VectorXd& e) const {
    const double r = problem_.ratio;
    const MatrixXd change = strain_change(slope);
    MatrixXd t = stiffness_;
    auto lower = t.selfadjointView<Eigen::Lower>();
    lower.rankUpdate(change.transpose(), 12.0);
    const MatrixXd coupling = in_plane_factor_.matrixL().solve(membrane_.transpose() * change);
    lower.rankUpdate(coupling.transpose(), -12.0);
    const auto [nx, ny, nxy] = weighted_forces(e);
    const MatrixXd along_x = 12.0 * r * (nx.asDiagonal() * w_x_) + 12.0 * (nxy.asDiagonal() * w_y_);
    const MatrixXd along_y = (12.0 / r) * (ny.asDiagonal() * w_y_) + 12.0 * (nxy.asDiagonal() * w_x_);
    t.triangularView<Eigen::Lower>() += w_x_.transpose() * along_x;
    t.triangularView<Eigen::Lower>() += w_y_.transpose() * along_y;
    return t;
  }

  const MatrixXd& stiffness() const { return stiffness_; }

  /// Virtual work of the supports on every product of two functions of the basis: load minus elastic work.
  MatrixXd support_work(const VectorXd& c, const Slopes& slope, const VectorXd& e) const {
    const double s2 = problem_.ratio * problem_.ratio;
    const double nu = problem_.poisson_ratio;
    const MatrixXd shape = w_.shape(c);
    const MatrixXd& cv = basis_.curvature_value;
    MatrixXd work = problem_.load_factor * load_x_ * load_y_.transpose() -
                    s2 * (basis_.curvature * shape * basis_.value) - (basis_.value * shape * basis_.curvature) / s2 -
                    2.0 * (1.0 - nu) * (basis_.slope * shape * basis_.slope) -
                    nu * (cv.transpose() * shape * cv.transpose() + cv * shape * cv);
    const auto [nx, ny, nxy] = weighted_forces(e);
    const VectorXd fx = 12.0 * (problem_.ratio * nx.cwiseProduct(slope.x) + nxy.cwiseProduct(slope.y));
    const VectorXd fy = 12.0 * (ny.cwiseProduct(slope.y) / problem_.ratio + nxy.cwiseProduct(slope.x));
    const Index rows = x_.value.rows(), columns = y_.value.rows();
    MatrixXd membrane = x_.slope.transpose() * Eigen::Map<const MatrixXd>(fx.data(), rows, columns) * y_.value +
                        x_.value.transpose() * Eigen::Map<const MatrixXd>(fy.data(), rows, columns) * y_.slope;
    // Half the points, counted twice, integrate only products of the right parity: add their mirror images.
    if (problem_.symmetric_x) membrane = 0.5 * (membrane + mirrored(membrane));
    if (problem_.symmetric_y) membrane = 0.5 * (membrane + mirrored(membrane.transpose()).transpose());
    return work - membrane;
  }

 private:
  /// The same work on the functions mirrored about the middle of the first direction.
  static MatrixXd mirrored(const MatrixXd& m) {
    MatrixXd out = m;
    out.row(detail::value_low) = m.row(detail::value_high);
    out.row(detail::value_high) = m.row(detail::value_low);
    out.row(detail::slope_low) = -m.row(detail::slope_high);
    out.row(detail::slope_high) = -m.row(detail::slope_low);
    for (Index i = detail::first_bubble + 1; i < m.rows(); i += 2) out.row(i) = -m.row(i);
    return out;
  }

  Index points() const { return root_weight_.size(); }

  VectorXd scaled(const VectorXd& ex, const VectorXd& ey, const VectorXd& g) const {
    const Index n = points();
    VectorXd e(3 * n);
    e.head(n) = sum_ * root_weight_.cwiseProduct(ex + ey);
    e.segment(n, n) = difference_ * root_weight_.cwiseProduct(ex - ey);
    e.tail(n) = difference_ * root_weight_.cwiseProduct(g);
    return e;
  }

  struct Forces {
    VectorXd x, y, xy;
  };
  /// Membrane forces over their unit, times the weights of the points.
  Forces weighted_forces(const VectorXd& e) const {
    const Index n = points();
    const VectorXd mean = sum_ * root_weight_.cwiseProduct(e.head(n));
    const VectorXd half = difference_ * root_weight_.cwiseProduct(e.segment(n, n));
    return {mean + half, mean - half, difference_ * root_weight_.cwiseProduct(e.tail(n))};
  }

  void make_stiffness() {
    const double s2 = problem_.ratio * problem_.ratio;
    const double nu = problem_.poisson_ratio;
    const auto ends = [this](Side low, Side high) {
      MatrixXd m = MatrixXd::Zero(size_, size_);
      const auto add = [&m](Index i, double k) {
        if (std::isfinite(k)) m(i, i) += k;
      };
      add(detail::value_low, problem_.spring[number(low)].translation);
      add(detail::slope_low, problem_.spring[number(low)].rotation);
      add(detail::value_high, problem_.spring[number(high)].translation);
      add(detail::slope_high, problem_.spring[number(high)].rotation);
      return m;
    };
    const MatrixXd along_x = s2 * basis_.curvature + ends(Side::left, Side::right);
    const MatrixXd along_y = basis_.curvature / s2 + ends(Side::bottom, Side::top);
    const auto sum = [this](const MatrixXd& x, const MatrixXd& y) -> MatrixXd {
      return (w_.x.transpose() * x * w_.x).cwiseProduct(w_.y.transpose() * y * w_.y);
    };
    const MatrixXd& cv = basis_.curvature_value;
    stiffness_ = sum(along_x, basis_.value) + sum(basis_.value, along_y) +
                 2.0 * (1.0 - nu) * sum(basis_.slope, basis_.slope) +
                 nu * (sum(cv, cv.transpose()) + sum(cv.transpose(), cv));
  }

  void make_load() {
    load_x_ = detail::load_integrals(basis_.degree, 1.0, 1.0, 1.0);
    load_y_ = problem_.uniform ? load_x_ : detail::load_integrals(basis_.degree, problem_.wet_share, 1.0, 0.0);
    load_ = (w_.x.transpose() * load_x_).cwiseProduct(w_.y.transpose() * load_y_);
  }

  void make_membrane(int degree) {
    x_ = Points(degree, problem_.symmetric_x);
    y_ = Points(degree, problem_.symmetric_y);
    const double nu = problem_.poisson_ratio;
    const double r = problem_.ratio;
    sum_ = std::sqrt(0.5 * (1.0 + nu));
    difference_ = std::sqrt(0.5 * (1.0 - nu));
    const Index n = x_.weight.size() * y_.weight.size();
    root_weight_.resize(n);
    for (Index q = 0; q < y_.weight.size(); ++q)
      root_weight_.segment(q * x_.weight.size(), x_.weight.size()) = (y_.weight[q] * x_.weight).cwiseSqrt();
    w_x_ = at_points(x_.slope * w_.x, y_.value * w_.y);
    w_y_ = at_points(x_.value * w_.x, y_.slope * w_.y);
    const auto root = root_weight_.asDiagonal();
    const MatrixXd u_x = root * at_points(x_.slope * u_.x, y_.value * u_.y);
    const MatrixXd u_y = root * at_points(x_.value * u_.x, y_.slope * u_.y);
    const MatrixXd v_x = root * at_points(x_.slope * v_.x, y_.value * v_.y);
    const MatrixXd v_y = root * at_points(x_.value * v_.x, y_.slope * v_.y);
    const Index nu_ = u_.size(), nv = v_.size();
    membrane_.resize(3 * n, nu_ + nv);
    membrane_.topLeftCorner(n, nu_) = sum_ * r * u_x;
    membrane_.topRightCorner(n, nv) = sum_ / r * v_y;
    membrane_.block(n, 0, n, nu_) = difference_ * r * u_x;
    membrane_.block(n, nu_, n, nv) = -difference_ / r * v_y;
    membrane_.bottomLeftCorner(n, nu_) = difference_ * u_y;
    membrane_.bottomRightCorner(n, nv) = difference_ * v_x;
    MatrixXd k = MatrixXd::Zero(nu_ + nv, nu_ + nv);
    k.selfadjointView<Eigen::Lower>().rankUpdate(membrane_.transpose());
    // Motions of the panel as a rigid body in its plane strain nothing: their mean is set to zero, which changes no
    // stress as the forces on them are zero.
    const auto fix = [&k](const VectorXd& mean) { k.selfadjointView<Eigen::Lower>().rankUpdate(mean); };
    const auto loose = [this](Side s) { return !problem_.across_fixed(s); };
    const auto unheld = [this](Side s) { return !problem_.is(s, InPlane::held); };
    VectorXd mean = VectorXd::Zero(nu_ + nv);
    if (!problem_.symmetric_x && loose(Side::left) && loose(Side::right) && unheld(Side::bottom) && unheld(Side::top)) {
      mean.head(nu_) = (u_.x.transpose() * load_x_).cwiseProduct(u_.y.transpose() * load_x_);
      fix(mean);
    }
    if (!problem_.symmetric_y && loose(Side::bottom) && loose(Side::top) && unheld(Side::left) && unheld(Side::right)) {
      mean.setZero();
      mean.tail(nv) = (v_.x.transpose() * load_x_).cwiseProduct(v_.y.transpose() * load_x_);
      fix(mean);
    }
    if (!problem_.symmetric_x && !problem_.symmetric_y &&
        std::all_of(all_sides.begin(), all_sides.end(), [this](Side s) { return problem_.is(s, InPlane::slides); })) {
      VectorXd rise = VectorXd::Zero(size_);  // integral of f': f(1) - f(-1)
      rise[detail::value_high] = 1.0;
      rise[detail::value_low] = -1.0;
      mean.head(nu_) = -(u_.x.transpose() * load_x_).cwiseProduct(u_.y.transpose() * rise);
      mean.tail(nv) = (v_.x.transpose() * rise).cwiseProduct(v_.y.transpose() * load_x_);
      fix(mean);
    }
    in_plane_factor_.compute(k);
    if (in_plane_factor_.info() != Eigen::Success) throw NotConverged("membrane stiffness factorisation", 0.0, 0);
  }

  const Problem& problem_;
  const PlateBasis& basis_;
  Index size_;
  Unknowns w_, u_, v_;
  MatrixXd stiffness_;
  VectorXd load_, load_x_, load_y_;
  Points x_{detail::min_plate_degree, false}, y_{detail::min_plate_degree, false};
  VectorXd root_weight_;
  double sum_ = 0.0, difference_ = 0.0;
  MatrixXd w_x_, w_y_;  ///< slopes of the unknowns at the points
  MatrixXd membrane_;   ///< scaled strains of the in-plane unknowns at the points
  Eigen::LLT<MatrixXd> in_plane_factor_;
};

struct Solved {
  VectorXd c;
  Discrete::Slopes slope;
  VectorXd e, displacement;
  double residual = 0.0;
  int steps = 0;
};

/// Where a polynomial of fourth degree, which falls at zero and rises in the end, has its first minimum.
/// Its derivative is d0 + d1 s + d2 s^2 + d3 s^3.
double first_minimum(double d0, double d1, double d2, double d3) {
  const auto derivative = [&](double s) { return d0 + s * (d1 + s * (d2 + s * d3)); };
  double low = 0.0, high = 1.0;
  while (derivative(high) < 0.0 && high < 1e9) {
    low = high;
    high *= 2.0;
  }
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (derivative(middle) < 0.0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// Minimises the energy from a starting point. A tangent is kept as long as its steps still cut the error five-fold.
Solved minimise(const Discrete& d, double load_factor, VectorXd start) {
  Solved s;
  s.c = std::move(start);
  const auto update = [&] {
    s.slope = d.slopes(s.c);
    auto strain = d.strain(s.slope, s.slope);
    s.e = std::move(strain.e);
    s.displacement = std::move(strain.displacement);
  };
  update();
  Eigen::LLT<MatrixXd> factor;
  bool fresh_needed = true;
  double before = 0.0;
  for (s.steps = 1; s.steps <= most_steps; ++s.steps) {
    const VectorXd out = d.imbalance(s.c, s.slope, s.e);
    if (fresh_needed) {
      MatrixXd t = d.tangent(s.slope, s.e);
      factor.compute(t);
      // Compression can make the tangent indefinite on the way; stiffened by bending, it still points downhill.
      for (double extra = 1.0; factor.info() != Eigen::Success && extra < 1e12; extra *= 4.0) {
        t.triangularView<Eigen::Lower>() += extra * d.stiffness();
        factor.compute(t);
      }
    }
    const VectorXd step = factor.solve(out);
    const double gain = step.dot(out);
    const double work = std::abs(load_factor * d.load().dot(s.c));
    if (!std::isfinite(gain)) throw NotConverged("large deflection of a panel", gain, s.steps);
    const auto slope = d.slopes(step);
    const auto first = d.strain(s.slope, slope);
    const auto second = d.strain(slope, slope);
    const VectorXd kd = d.stiffness().selfadjointView<Eigen::Lower>() * step;
    // Strains along the step are e + 2 s first + s^2 second.
    const double length =
        first_minimum(-gain, step.dot(kd) + 12.0 * (4.0 * first.e.squaredNorm() + 2.0 * s.e.dot(second.e)),
                      12.0 * 6.0 * first.e.dot(second.e), 12.0 * 2.0 * second.e.squaredNorm());
    s.c += length * step;
    update();
    s.residual = work > 0.0 ? std::sqrt(std::abs(gain) / work) : 1.0;
    if (s.residual < tolerance) return s;
    fresh_needed = fresh_needed ? s.residual > 0.1 : s.residual > 0.2 * before;
    before = s.residual;
  }
  throw NotConverged("large deflection of a panel (von Karman)", s.residual, most_steps);
}

FaceStress face_stress(double x, double y, double xy) {
  const double mean = 0.5 * (x + y);
  const double radius = std::hypot(0.5 * (x - y), xy);
  return {from_si<Pressure>(x), from_si<Pressure>(y), from_si<Pressure>(xy), from_si<Pressure>(mean + radius),
          from_si<Pressure>(mean - radius)};
}

/// Evaluates a stretched panel on the square -1..1.
struct Field {
  const StretchedPanel& p;
  double width = si(p.panel.width), height = si(p.panel.height), thickness = si(p.panel.thickness);
  double nu = p.panel.material.poisson_ratio;
  double modulus = si(p.panel.material.youngs_modulus);
  Eigen::Map<const MatrixXd> w{p.shape_w.data(), p.degree + 1, p.degree + 1};
  Eigen::Map<const MatrixXd> u{p.shape_u.data(), p.degree + 1, p.degree + 1};
  Eigen::Map<const MatrixXd> v{p.shape_v.data(), p.degree + 1, p.degree + 1};

  struct Values {
    double deflection, slope;
    double bending_x, bending_y, bending_xy;     ///< stress at the far face
    double membrane_x, membrane_y, membrane_xy;  ///< stress in the middle surface
    double tension(double face) const {
      const double x = membrane_x + face * bending_x;
      const double y = membrane_y + face * bending_y;
      return 0.5 * (x + y) + std::hypot(0.5 * (x - y), membrane_xy + face * bending_xy);
    }
    double tension() const { return std::max(tension(1.0), tension(-1.0)); }
  };

  Values operator()(double xi, double eta) const {
    constexpr int most = detail::max_plate_degree + 1;
    std::array<double, most> x0, x1, x2, y0, y1, y2;
    detail::evaluate(p.degree, xi, x0.data(), x1.data(), x2.data());
    detail::evaluate(p.degree, eta, y0.data(), y1.data(), y2.data());
    const Index n = p.degree + 1;
    double f = 0.0, fx = 0.0, fy = 0.0, fxx = 0.0, fyy = 0.0, fxy = 0.0, ux = 0.0, uy = 0.0, vx = 0.0, vy = 0.0;
    for (Index j = 0; j < n; ++j) {
      double w0 = 0.0, w1 = 0.0, w2 = 0.0, u0 = 0.0, u1 = 0.0, v0 = 0.0, v1 = 0.0;
      for (Index i = 0; i < n; ++i) {
        const auto k = static_cast<std::size_t>(i);
        w0 += w(i, j) * x0[k];
        w1 += w(i, j) * x1[k];
        w2 += w(i, j) * x2[k];
        u0 += u(i, j) * x0[k];
        u1 += u(i, j) * x1[k];
        v0 += v(i, j) * x0[k];
        v1 += v(i, j) * x1[k];
      }
      const auto k = static_cast<std::size_t>(j);
      f += w0 * y0[k];
      fx += w1 * y0[k];
      fy += w0 * y1[k];
      fxx += w2 * y0[k];
      fyy += w0 * y2[k];
      fxy += w1 * y1[k];
      ux += u1 * y0[k];
      uy += u0 * y1[k];
      vx += v1 * y0[k];
      vy += v0 * y1[k];
    }
    const double t = thickness;
    const double a = 2.0 * t / width, b = 2.0 * t / height;
    const double plane = modulus / (1.0 - nu * nu);
    const double ex = a * a * (ux + 0.5 * fx * fx);
    const double ey = b * b * (vy + 0.5 * fy * fy);
    const double g = a * b * (uy + vx + fx * fy);
    // Bending strain at the far face is -t/2 times the curvature.
    const double kx = -0.5 * a * a * fxx, ky = -0.5 * b * b * fyy, kxy = -0.5 * a * b * fxy;
    return {t * f,
            std::hypot(a * fx, b * fy),
            plane * (kx + nu * ky),
            plane * (ky + nu * kx),
            plane * (1.0 - nu) * kxy,
            plane * (ex + nu * ey),
            plane * (ey + nu * ex),
            plane * 0.5 * (1.0 - nu) * g};
  }
};

struct Peak {
  double value, xi, eta;
};

/// Climbs from a grid point by a compass search that halves its step, as bend does.
template <class F>
Peak climb(const F& f, Peak peak, double step) {
  for (int halvings = 0; halvings < 11;) {
    bool climbed = false;
    for (const auto& [dx, dy] : {std::pair{step, 0.0}, {-step, 0.0}, {0.0, step}, {0.0, -step}}) {
      const double xi = std::clamp(peak.xi + dx, -1.0, 1.0);
      const double eta = std::clamp(peak.eta + dy, -1.0, 1.0);
      if (xi == peak.xi && eta == peak.eta) continue;
      const double value = f(xi, eta);
      if (value > peak.value) {
        peak = {value, xi, eta};
        climbed = true;
      }
    }
    if (climbed) continue;
    step *= 0.5;
    ++halvings;
  }
  return peak;
}

/// The largest value on the square: climbs from every grid point that tops its neighbours and comes within a tenth of
/// the highest.
template <class F>
Peak largest(const F& f, const MatrixXd& on_grid, const VectorXd& grid) {
  const Index rows = on_grid.rows(), columns = on_grid.cols();
  const double highest = on_grid.maxCoeff();
  Peak best{-1.0, 0.0, 0.0};
  for (Index j = 0; j < columns; ++j)
    for (Index i = 0; i < rows; ++i) {
      const double here = on_grid(i, j);
      if (here < 0.9 * highest) continue;
      const Index i0 = std::max<Index>(i - 1, 0), i1 = std::min(i + 1, rows - 1);
      const Index j0 = std::max<Index>(j - 1, 0), j1 = std::min(j + 1, columns - 1);
      if (on_grid.block(i0, j0, i1 - i0 + 1, j1 - j0 + 1).maxCoeff() > here) continue;
      const Peak peak = climb(f, {here, grid[i], grid[j]}, 0.5 * std::max(grid[i1] - grid[i0], grid[j1] - grid[j0]));
      if (peak.value > best.value) best = peak;
      if (highest == 0.0) return best;
    }
  return best;
}

void find_peaks(StretchedPanel& p, const Problem& problem) {
  const VectorXd& grid = detail::plate_basis(p.degree).grid;
  const Field field{p};
  // A symmetric panel is searched in its left or lower half and the middle.
  const Index nx = problem.symmetric_x ? grid.size() / 2 + 1 : grid.size();
  const Index ny = problem.symmetric_y ? grid.size() / 2 + 1 : grid.size();
  MatrixXd deflection(nx, ny), tension(nx, ny);
  for (Index j = 0; j < ny; ++j)
    for (Index i = 0; i < nx; ++i) {
      const auto v = field(grid[i], grid[j]);
      deflection(i, j) = std::abs(v.deflection);
      tension(i, j) = v.tension();
      p.max_slope = std::max(p.max_slope, v.slope);
    }
  const auto place = [&p](const Peak& peak) {
    return PanelPlace{0.5 * (peak.xi + 1.0) * p.panel.width, 0.5 * (peak.eta + 1.0) * p.panel.height};
  };
  const Peak sag =
      largest([&](double xi, double eta) { return std::abs(field(xi, eta).deflection); }, deflection, grid);
  p.max_deflection = from_si<Length>(sag.value);
  p.max_deflection_at = place(sag);
  p.deflection_over_thickness = sag.value / si(p.panel.thickness);
  const Peak pull = largest([&](double xi, double eta) { return field(xi, eta).tension(); }, tension, grid);
  p.max_tension = from_si<Pressure>(pull.value);
  p.max_tension_at = place(pull);
  const auto there = field(pull.xi, pull.eta);
  p.max_tension_on_far_face = there.tension(1.0) >= there.tension(-1.0);
}

/// Integrals over an edge of its reaction times the Hermite cubics of value one at its low and at its high end. The
/// supports' work on b_k along a rigid edge gives a reaction that is a sum of fourth derivatives of b_k (see bend.cpp).
std::array<double, 2> end_shares(const PlateBasis& basis, const MatrixXd& work, const MatrixXd& shape, Side side,
                                 const Springs& spring) {
  const bool elastic = std::isfinite(spring.translation);
  const Index end = side == Side::bottom || side == Side::left ? detail::value_low : detail::value_high;
  const MatrixXd& source = elastic ? shape : work;
  const VectorXd q = horizontal(side) ? VectorXd(source.col(end)) : VectorXd(source.row(end));
  if (elastic)
    return {spring.translation * basis.value.col(detail::value_low).dot(q),
            spring.translation * basis.value.col(detail::value_high).dot(q)};
  std::array<double, 2> share = {0.0, 0.0};
  for (Index i = detail::first_bubble; i < basis.size; ++i) {
    const auto k = static_cast<double>(i - 2);
    const double term = q[i] * std::sqrt(k + 0.5) * 0.5 * k * (k + 1.0);
    share[0] += i % 2 == 0 ? term : -term;
    share[1] += term;
  }
  return share;
}

void find_reactions(StretchedPanel& p, const Problem& problem, const MatrixXd& work, const MatrixXd& shape,
                    double scale) {
  const PlateBasis& basis = detail::plate_basis(p.degree);
  std::array<std::array<double, 2>, 4> share;
  for (const Side side : all_sides)
    share[number(side)] = end_shares(basis, work, shape, side, problem.spring[number(side)]);
  const auto whole = [&](Side side) {
    return from_si<Force>(scale * (share[number(side)][0] + share[number(side)][1]));
  };
  // What two rigid edges, or a rigid and an elastic one, do not carry between them is the force of their corner.
  const auto corner = [&](Index i, Index j, Side side_x, Side side_y, std::size_t at_x, std::size_t at_y) {
    return from_si<Force>(scale * (work(i, j) - share[number(side_x)][at_x] - share[number(side_y)][at_y]));
  };
  EdgeReactions& r = p.reactions;
  r.bottom = whole(Side::bottom);
  r.left = whole(Side::left);
  r.right = whole(Side::right);
  r.top = whole(Side::top);
  r.bottom_left = corner(detail::value_low, detail::value_low, Side::bottom, Side::left, 0, 0);
  r.bottom_right = corner(detail::value_high, detail::value_low, Side::bottom, Side::right, 1, 0);
  r.top_left = corner(detail::value_low, detail::value_high, Side::top, Side::left, 0, 1);
  r.top_right = corner(detail::value_high, detail::value_high, Side::top, Side::right, 1, 1);
  const Force sum = r.bottom + r.left + r.right + r.top + r.bottom_left + r.bottom_right + r.top_left + r.top_right;
  const double load = std::abs(si(p.total_load));
  p.equilibrium_residual = load > 0.0 ? std::abs(si(sum) - si(p.total_load)) / load : 0.0;
}

void keep(std::vector<double>& out, const MatrixXd& shape) { out.assign(shape.data(), shape.data() + shape.size()); }

}  // namespace

InPlaneEdges supported_edges(const Panel& panel, InPlane condition) {
  const auto on = [condition](const Edge& edge) {
    return edge.translation.value() > 0.0 ? condition : InPlane::slides;
  };
  return {on(panel.bottom), on(panel.left), on(panel.right), on(panel.top)};
}

StretchedPanel bend_large(const Panel& panel, const PressureLoad& load, const InPlaneEdges& in_plane, int degree) {
  require::within("degree", degree, detail::min_plate_degree, largest_degree);
  const BentPanel linear = bend(panel, load);  // refuses what is impossible
  for (const Side side : all_sides)
    if (edge_of(panel, side).beam != EdgeBeam{})
      throw InvalidInput(std::string(name(side)) + " edge beam", "a beam",
                         "none: the beam's own stretching is not part of the large-deflection solution");
  for (const Side side : all_sides)
    if (condition_of(in_plane, side) != InPlane::slides && !(edge_of(panel, side).translation.value() > 0.0))
      throw InvalidInput("in-plane condition of the " + std::string(name(side)) + " edge", "other than slides",
                         "slides, as nothing supports this edge");

  const double a = si(panel.width), b = si(panel.height), t = si(panel.thickness);
  const double rigidity = si(flexural_rigidity(panel));
  Problem problem;
  problem.ratio = b / a;
  problem.poisson_ratio = panel.material.poisson_ratio;
  for (const Side side : all_sides) {
    const double along = horizontal(side) ? a : b;
    const double across = horizontal(side) ? b : a;
    const Edge& edge = edge_of(panel, side);
    problem.spring[number(side)] = {si(edge.translation) * along * along * across / (8.0 * rigidity),
                                    si(edge.rotation) * along * along / (2.0 * across * rigidity)};
    problem.in_plane[number(side)] = condition_of(in_plane, side);
  }
  problem.uniform = std::isinf(si(load.water_depth));
  problem.wet_share = problem.uniform ? 1.0 : si(load.water_depth) / b;
  problem.symmetric_x = panel.left == panel.right && in_plane.left == in_plane.right;
  problem.symmetric_y = problem.uniform && panel.bottom == panel.top && in_plane.bottom == in_plane.top;
  problem.load_factor = si(load.at_bottom) * a * a * b * b / (16.0 * rigidity * t);

  StretchedPanel p;
  p.panel = panel;
  p.load = load;
  p.in_plane = in_plane;
  p.degree = degree;
  p.linear_deflection = linear.max_deflection;
  p.linear_tension = linear.max_tension;
  p.total_load = linear.total_load;
  if (problem.load_factor == 0.0) {
    const auto n = static_cast<std::size_t>((degree + 1) * (degree + 1));
    p.shape_w.assign(n, 0.0);
    p.shape_u.assign(n, 0.0);
    p.shape_v.assign(n, 0.0);
    find_peaks(p, problem);
    return p;
  }

  const Discrete fine(problem, degree);
  VectorXd start = VectorXd::Zero(fine.w().size());
  if (degree > coarse_degree) {
    const Discrete coarse(problem, coarse_degree);
    const Solved s = minimise(coarse, problem.load_factor, VectorXd::Zero(coarse.w().size()));
    p.coarse_iterations = s.steps;
    start = fine.coefficients(coarse.w().shape(s.c));
  }
  const Solved s = minimise(fine, problem.load_factor, std::move(start));
  p.iterations = s.steps;
  p.residual = s.residual;
  const MatrixXd shape = fine.w().shape(s.c);
  keep(p.shape_w, shape);
  keep(p.shape_u, fine.shape_u(s.displacement));
  keep(p.shape_v, fine.shape_v(s.displacement));
  find_peaks(p, problem);
  require::valid("large deflection (von Karman)", "slope of the bent panel", p.max_slope, 0.0, steepest_slope);
  require::valid("large deflection (von Karman)", "deflection / thickness", p.deflection_over_thickness, 0.0,
                 largest_deflection_over_thickness);
  find_reactions(p, problem, fine.support_work(s.c, s.slope, s.e), shape, 4.0 * rigidity * t / (a * b));
  if (si(p.linear_deflection) > 0.0) p.deflection_ratio = p.max_deflection / p.linear_deflection;
  if (si(p.linear_tension) > 0.0) p.tension_ratio = p.max_tension / p.linear_tension;
  return p;
}

StretchedLimits bend_large_limits(const Panel& panel, const PressureLoad& load, int degree) {
  return {bend_large(panel, load, InPlaneEdges(), degree),
          bend_large(panel, load, supported_edges(panel, InPlane::held), degree)};
}

StretchedState StretchedPanel::at(const Length& x, const Length& y) const {
  require::within("x", x, Length(), panel.width);
  require::within("y", y, Length(), panel.height);
  const auto v = Field{*this}(2.0 * si(x) / si(panel.width) - 1.0, 2.0 * si(y) / si(panel.height) - 1.0);
  const double t = si(panel.thickness);
  const double section = t * t / 6.0;
  return {from_si<Length>(v.deflection),
          from_si<MomentPerLength>(section * v.bending_x),
          from_si<MomentPerLength>(section * v.bending_y),
          from_si<MomentPerLength>(section * v.bending_xy),
          from_si<LineLoad>(t * v.membrane_x),
          from_si<LineLoad>(t * v.membrane_y),
          from_si<LineLoad>(t * v.membrane_xy),
          face_stress(v.membrane_x - v.bending_x, v.membrane_y - v.bending_y, v.membrane_xy - v.bending_xy),
          face_stress(v.membrane_x + v.bending_x, v.membrane_y + v.bending_y, v.membrane_xy + v.bending_xy)};
}

}  // namespace theca::structure
