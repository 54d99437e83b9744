#include "theca/structure/bend.hpp"

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

// The plate is mapped on the square -1..1: x = a (xi + 1) / 2, y = b (eta + 1) / 2. Energies are divided by 4 D / (a b)
// and the deflection is counted in p0 (a b)^2 / (16 D), which makes everything below dimensionless.

constexpr std::array<Side, 4> all_sides = {Side::bottom, Side::left, Side::right, Side::top};
constexpr std::size_t number(Side side) { return static_cast<std::size_t>(side); }
constexpr bool horizontal(Side side) { return side == Side::bottom || side == Side::top; }

const Edge& edge_of(const Panel& panel, Side side) {
  switch (side) {
    case Side::bottom:
      return panel.bottom;
    case Side::left:
      return panel.left;
    case Side::right:
      return panel.right;
    case Side::top:
      break;
  }
  return panel.top;
}

/// Dimensionless springs of an edge.
struct Springs {
  double translation, rotation;
};

Springs springs(const Panel& panel, Side side, double rigidity) {
  const double along = horizontal(side) ? si(panel.width) : si(panel.height);
  const double across = horizontal(side) ? si(panel.height) : si(panel.width);
  const Edge& edge = edge_of(panel, side);
  return {si(edge.translation) * along * along * across / (8.0 * rigidity),
          si(edge.rotation) * along * along / (2.0 * across * rigidity)};
}

std::string described(const Edge& edge) {
  if (edge == free_edge()) return "free";
  if (edge == hinged()) return "hinged";
  if (edge == clamped()) return "clamped";
  return "elastic (" + text(edge.translation) + " against translation, " + text(edge.rotation) + " against rotation)";
}

void require_possible(const Panel& panel, const PressureLoad& load, int degree) {
  require::within("panel width", panel.width, from_si<Length>(1e-3), from_si<Length>(1e3));
  require::within("panel height", panel.height, from_si<Length>(1e-3), from_si<Length>(1e3));
  require::within("panel Young's modulus", panel.material.youngs_modulus, from_si<Pressure>(1.0),
                  from_si<Pressure>(1e15));
  for (const Side side : all_sides) {
    const Edge& edge = edge_of(panel, side);
    const std::string which(name(side));
    require::that(edge.translation.value() >= 0.0, which + " edge translation stiffness", edge.translation,
                  ">= 0, infinite when held");
    require::that(edge.rotation.value() >= 0.0, which + " edge rotation stiffness", edge.rotation,
                  ">= 0, infinite when clamped");
  }
  require::within("load at bottom", load.at_bottom, from_si<Pressure>(-1e9), from_si<Pressure>(1e9));
  require::that(load.water_depth.value() > 0.0, "water depth", load.water_depth, "> 0");
  require::that(std::isinf(load.water_depth.value()) || load.water_depth.value() <= panel.height.value(), "water depth",
                load.water_depth, "at most the panel height, " + text(panel.height));
  require::within("degree", degree, detail::min_plate_degree, detail::max_plate_degree);
  require::valid("thin plate theory (Kirchhoff)", "panel thickness / shorter side",
                 si(panel.thickness) / std::min(si(panel.width), si(panel.height)), thinnest_over_side,
                 thickest_over_side);
  require::valid("plate polynomials", "panel width / height", si(panel.width) / si(panel.height), 0.05, 20.0);
}

/// Refuses a panel that could move as a rigid body: the least spring energy over all w = c0 + c1 xi + c2 eta of unit
/// size, with springs counted as at most 1. Under 1e-9 the answer would have lost its digits, too.
void require_held(const Panel& panel, const std::array<Springs, 4>& spring) {
  Eigen::Matrix3d energy = Eigen::Matrix3d::Zero();
  for (const Side side : all_sides) {
    const double end = side == Side::bottom || side == Side::left ? -1.0 : 1.0;
    const int across = horizontal(side) ? 2 : 1;
    const int along = 3 - across;
    const double k = std::min(spring[number(side)].translation, 1.0);
    energy(0, 0) += 2.0 * k;
    energy(0, across) += 2.0 * k * end;
    energy(across, 0) += 2.0 * k * end;
    energy(across, across) += 2.0 * k + 2.0 * std::min(spring[number(side)].rotation, 1.0);
    energy(along, along) += 2.0 / 3.0 * k;
  }
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> modes(energy, Eigen::EigenvaluesOnly);
  if (modes.eigenvalues()[0] >= 1e-9) return;
  std::string edges;
  for (const Side side : all_sides)
    edges += (edges.empty() ? "" : ", ") + std::string(name(side)) + " " + described(edge_of(panel, side));
  throw InvalidInput("panel edges", edges, "edges that keep the panel from shifting and tilting as a rigid body");
}

/// The functions left in one direction once held values and slopes are taken out and, when the direction is symmetric,
/// only even functions are kept: columns are combinations of the functions of the basis.
MatrixXd admitted(const PlateBasis& basis, const Springs& low, const Springs& high, bool symmetric) {
  MatrixXd columns = MatrixXd::Zero(basis.size, basis.size);
  Index n = 0;
  if (std::isfinite(low.translation)) {
    columns(detail::value_low, n) = 1.0;
    if (symmetric) columns(detail::value_high, n) = 1.0;
    ++n;
  }
  if (std::isfinite(low.rotation)) {
    columns(detail::slope_low, n) = 1.0;
    if (symmetric) columns(detail::slope_high, n) = -1.0;
    ++n;
  }
  if (!symmetric) {
    if (std::isfinite(high.translation)) columns(detail::value_high, n++) = 1.0;
    if (std::isfinite(high.rotation)) columns(detail::slope_high, n++) = 1.0;
  }
  for (Index i = detail::first_bubble; i < basis.size; i += symmetric ? 2 : 1) columns(i, n++) = 1.0;
  return columns.leftCols(n);
}

/// Integrals of one direction over the admitted functions, and their end values and slopes.
struct Direction {
  MatrixXd curvature, slope, curvature_value, value;
  VectorXd value_low, slope_low, value_high, slope_high;

  Direction(const PlateBasis& basis, const MatrixXd& columns)
      : curvature(columns.transpose() * basis.curvature * columns),
        slope(columns.transpose() * basis.slope * columns),
        curvature_value(columns.transpose() * basis.curvature_value * columns),
        value(columns.transpose() * basis.value * columns),
        value_low(columns.row(detail::value_low)),
        slope_low(columns.row(detail::slope_low)),
        value_high(columns.row(detail::value_high)),
        slope_high(columns.row(detail::slope_high)) {}
};

/// What the springs at the two ends of a direction add to its value matrix: translation and rotation energy.
MatrixXd end_springs(const Direction& direction, const Springs& low, const Springs& high) {
  MatrixXd energy = MatrixXd::Zero(direction.value.rows(), direction.value.cols());
  const auto add = [&energy](double stiffness, const VectorXd& at_end) {
    if (stiffness > 0.0 && std::isfinite(stiffness)) energy += stiffness * at_end * at_end.transpose();
  };
  add(low.translation, direction.value_low);
  add(low.rotation, direction.slope_low);
  add(high.translation, direction.value_high);
  add(high.rotation, direction.slope_high);
  return energy;
}

/// Lower half of the stiffness matrix; unknown (i, j) stands at i + nx j.
MatrixXd stiffness(const Direction& x, const Direction& y, double height_over_width, double poisson_ratio,
                   const std::array<Springs, 4>& spring) {
  const double s2 = height_over_width * height_over_width;
  const MatrixXd along_x = s2 * x.curvature + end_springs(x, spring[number(Side::left)], spring[number(Side::right)]);
  const MatrixXd along_y = y.curvature / s2 + end_springs(y, spring[number(Side::bottom)], spring[number(Side::top)]);
  const Index nx = x.value.rows();
  const Index ny = y.value.rows();
  MatrixXd k(nx * ny, nx * ny);
  for (Index l = 0; l < ny; ++l)
    for (Index j = l; j < ny; ++j)
      k.block(j * nx, l * nx, nx, nx) =
          y.value(j, l) * along_x + along_y(j, l) * x.value + (2.0 * (1.0 - poisson_ratio) * y.slope(j, l)) * x.slope +
          poisson_ratio *
              (y.curvature_value(l, j) * x.curvature_value + y.curvature_value(j, l) * x.curvature_value.transpose());
  return k;
}

/// Virtual work of the supports on every product of two functions: load minus elastic work of the plate.
MatrixXd support_work(const PlateBasis& basis, const MatrixXd& shape, double height_over_width, double poisson_ratio,
                      const VectorXd& load_x, const VectorXd& load_y) {
  const double s2 = height_over_width * height_over_width;
  const MatrixXd& c = basis.curvature_value;
  return load_x * load_y.transpose() - s2 * (basis.curvature * shape * basis.value) -
         (basis.value * shape * basis.curvature) / s2 -
         2.0 * (1.0 - poisson_ratio) * (basis.slope * shape * basis.slope) -
         poisson_ratio * (c.transpose() * shape * c.transpose() + c * shape * c);
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

  Values from(double w, double w_xx, double w_yy, double w_xy) const {
    const double along_x = height * height * w_xx;
    const double along_y = width * width * w_yy;
    return {deflection_scale * w, -moment_scale * (along_x + poisson_ratio * along_y),
            -moment_scale * (along_y + poisson_ratio * along_x),
            -moment_scale * (1.0 - poisson_ratio) * width * height * w_xy};
  }

  Values operator()(double xi, double eta) const {
    constexpr int most = detail::max_plate_degree + 1;
    std::array<double, most> x0, x1, x2, y0, y1, y2;
    detail::evaluate(degree, xi, x0.data(), x1.data(), x2.data());
    detail::evaluate(degree, eta, y0.data(), y1.data(), y2.data());
    const auto n = static_cast<std::size_t>(degree) + 1;
    double w = 0.0, w_xx = 0.0, w_yy = 0.0, w_xy = 0.0;
    for (std::size_t j = 0; j < n; ++j) {
      double value = 0.0, slope = 0.0, curvature = 0.0;
      for (std::size_t i = 0; i < n; ++i) {
        const double c = shape[j * n + i];
        value += c * x0[i];
        slope += c * x1[i];
        curvature += c * x2[i];
      }
      w += value * y0[j];
      w_xx += curvature * y0[j];
      w_yy += value * y2[j];
      w_xy += slope * y1[j];
    }
    return from(w, w_xx, w_yy, w_xy);
  }
};

Field field_of(const BentPanel& bent) {
  const double area = si(bent.panel.width) * si(bent.panel.height);
  const double p0 = si(bent.load.at_bottom);
  return {bent.degree,
          bent.shape.data(),
          si(bent.panel.width),
          si(bent.panel.height),
          bent.panel.material.poisson_ratio,
          p0 * area * area / (16.0 * si(flexural_rigidity(bent.panel))),
          p0 / 4.0};
}

/// Largest principal moment that opens one of the faces, as a positive number.
double opening_moment(const Field::Values& v) {
  const double mean = 0.5 * std::abs(v.moment_x + v.moment_y);
  return mean + std::hypot(0.5 * (v.moment_x - v.moment_y), v.moment_xy);
}

struct Peak {
  double value, xi, eta;
};

/// Climbs from a grid point by a compass search that halves its step. It needs no derivative: the largest principal
/// stress has a ridge or a cusp where its two principal moments meet.
template <class F>
Peak climb(const F& f, Peak peak, double step_x, double step_y) {
  for (int halvings = 0; halvings < 14;) {
    bool climbed = false;
    for (const auto& [dx, dy] : {std::pair{step_x, 0.0}, {-step_x, 0.0}, {0.0, step_y}, {0.0, -step_y}}) {
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
    step_x *= 0.5;
    step_y *= 0.5;
    ++halvings;
  }
  return peak;
}

/// The largest value of a function on the square from its values on the grid: climbs from every grid point that tops
/// its neighbours and comes within a tenth of the highest.
template <class F>
Peak largest(const F& f, const MatrixXd& on_grid, const VectorXd& grid) {
  const Index columns = on_grid.cols();
  const Index rows = on_grid.rows();
  const double highest = on_grid.maxCoeff();
  Peak best{-1.0, 0.0, 0.0};
  for (Index j = 0; j < columns; ++j)
    for (Index i = 0; i < rows; ++i) {
      const double here = on_grid(i, j);
      if (here < 0.9 * highest) continue;
      const Index i0 = std::max<Index>(i - 1, 0), i1 = std::min(i + 1, rows - 1);
      const Index j0 = std::max<Index>(j - 1, 0), j1 = std::min(j + 1, columns - 1);
      if (on_grid.block(i0, j0, i1 - i0 + 1, j1 - j0 + 1).maxCoeff() > here) continue;
      const Peak peak = climb(f, {here, grid[i], grid[j]}, 0.5 * (grid[i1] - grid[i0]), 0.5 * (grid[j1] - grid[j0]));
      if (peak.value > best.value) best = peak;
      if (highest == 0.0) return best;  // no load: the first point will do
    }
  return best;
}

void find_peaks(BentPanel& bent, const PlateBasis& basis, bool symmetric) {
  const Field field = field_of(bent);
  const Eigen::Map<const MatrixXd> shape(bent.shape.data(), basis.size, basis.size);
  // A symmetric panel is searched in its left half and the middle.
  const Index nx = symmetric ? basis.grid.size() / 2 + 1 : basis.grid.size();
  const Index ny = basis.grid.size();
  const MatrixXd value = basis.grid_value.topRows(nx) * shape;
  const MatrixXd w = value * basis.grid_value.transpose();
  const MatrixXd w_yy = value * basis.grid_curvature.transpose();
  const MatrixXd w_xx = basis.grid_curvature.topRows(nx) * shape * basis.grid_value.transpose();
  const MatrixXd w_xy = basis.grid_slope.topRows(nx) * shape * basis.grid_slope.transpose();
  MatrixXd deflection(nx, ny);
  MatrixXd moment(nx, ny);
  for (Index j = 0; j < ny; ++j)
    for (Index i = 0; i < nx; ++i) {
      const auto v = field.from(w(i, j), w_xx(i, j), w_yy(i, j), w_xy(i, j));
      deflection(i, j) = std::abs(v.deflection);
      moment(i, j) = opening_moment(v);
    }
  const auto place = [&bent](const Peak& peak) {
    return PanelPlace{0.5 * (peak.xi + 1.0) * bent.panel.width, 0.5 * (peak.eta + 1.0) * bent.panel.height};
  };
  const Peak sag =
      largest([&](double xi, double eta) { return std::abs(field(xi, eta).deflection); }, deflection, basis.grid);
  bent.max_deflection = from_si<Length>(sag.value);
  bent.max_deflection_at = place(sag);
  bent.deflection_over_thickness = sag.value / si(bent.panel.thickness);
  const Peak tension =
      largest([&](double xi, double eta) { return opening_moment(field(xi, eta)); }, moment, basis.grid);
  const double t = si(bent.panel.thickness);
  bent.max_tension = from_si<Pressure>(6.0 * tension.value / (t * t));
  bent.max_tension_at = place(tension);
  const auto there = field(tension.xi, tension.eta);
  bent.max_tension_on_far_face = there.moment_x + there.moment_y >= 0.0;
}

/// Force per length with which an edge presses on its support, over p0 and half the dimension across, as coefficients:
/// of the functions for a spring, of their fourth derivatives for a rigid support.
///
/// The supports' virtual work on b_k along a rigid edge is the integral of q b_k. As b_k is (1-x^2)^2 P_k'' up to a
/// factor, the polynomial q of degree `degree` - 4 that does this work is the sum of work_k times the fourth derivative
/// of b_k. These reactions balance the load exactly, which the third derivatives of the deflection would not.
VectorXd edge_reaction(const MatrixXd& work, const MatrixXd& shape, Side side, const Springs& spring) {
  const Index end = side == Side::bottom || side == Side::left ? detail::value_low : detail::value_high;
  const MatrixXd& source = std::isfinite(spring.translation) ? shape : work;
  VectorXd q = horizontal(side) ? VectorXd(source.col(end)) : VectorXd(source.row(end));
  if (std::isfinite(spring.translation)) return spring.translation * q;
  q.head(detail::first_bubble).setZero();
  return q;
}

/// Integrals over an edge of its reaction times the Hermite cubics of value one at its low and at its high end.
std::array<double, 2> end_shares(const PlateBasis& basis, const VectorXd& reaction, const Springs& spring) {
  if (std::isfinite(spring.translation))
    return {basis.value.col(detail::value_low).dot(reaction), basis.value.col(detail::value_high).dot(reaction)};
  // The integral of P_k'' h is [P_k' h] for a cubic h with no slope at the ends, and P_k'(1) = k (k + 1) / 2.
  std::array<double, 2> share = {0.0, 0.0};
  for (Index i = detail::first_bubble; i < basis.size; ++i) {
    const auto k = static_cast<double>(i - 2);
    const double term = reaction[i] * std::sqrt(k + 0.5) * 0.5 * k * (k + 1.0);
    share[0] += i % 2 == 0 ? term : -term;
    share[1] += term;
  }
  return share;
}

void find_reactions(BentPanel& bent, const PlateBasis& basis, const MatrixXd& work,
                    const std::array<Springs, 4>& spring) {
  const MatrixXd shape = Eigen::Map<const MatrixXd>(bent.shape.data(), basis.size, basis.size);
  std::array<std::array<double, 2>, 4> share;
  for (const Side side : all_sides) {
    const VectorXd q = edge_reaction(work, shape, side, spring[number(side)]);
    share[number(side)] = end_shares(basis, q, spring[number(side)]);
    bent.edge_reactions.insert(bent.edge_reactions.end(), q.begin(), q.end());
  }
  const double scale = si(bent.load.at_bottom) * si(bent.panel.width) * si(bent.panel.height) / 4.0;
  const auto whole = [&](Side side) {
    return from_si<Force>(scale * (share[number(side)][0] + share[number(side)][1]));
  };
  const auto corner = [&](Index i, Index j, double horizontal_share, double vertical_share) {
    return from_si<Force>(scale * (work(i, j) - horizontal_share - vertical_share));
  };
  const auto& [bottom, left, right, top] = share;
  EdgeReactions& r = bent.reactions;
  r.bottom = whole(Side::bottom);
  r.left = whole(Side::left);
  r.right = whole(Side::right);
  r.top = whole(Side::top);
  r.bottom_left = corner(detail::value_low, detail::value_low, bottom[0], left[0]);
  r.bottom_right = corner(detail::value_high, detail::value_low, bottom[1], right[0]);
  r.top_left = corner(detail::value_low, detail::value_high, top[0], left[1]);
  r.top_right = corner(detail::value_high, detail::value_high, top[1], right[1]);

  const double wet = std::min(si(bent.load.water_depth), si(bent.panel.height));
  const double mean = 1.0 - 0.5 * wet / si(bent.load.water_depth);
  bent.total_load = from_si<Force>(si(bent.load.at_bottom) * mean * wet * si(bent.panel.width));
  const Force sum = r.bottom + r.left + r.right + r.top + r.bottom_left + r.bottom_right + r.top_left + r.top_right;
  const double load = std::abs(si(bent.total_load));
  bent.equilibrium_residual = load > 0.0 ? std::abs(si(sum) - si(bent.total_load)) / load : 0.0;
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
  const double rigidity = si(flexural_rigidity(panel));
  require_possible(panel, load, degree);
  const PlateBasis& basis = detail::plate_basis(degree);
  std::array<Springs, 4> spring;
  for (const Side side : all_sides) spring[number(side)] = springs(panel, side, rigidity);
  require_held(panel, spring);

  const bool uniform_load = std::isinf(si(load.water_depth));
  const bool symmetric_x = panel.left == panel.right;
  const bool symmetric_y = uniform_load && panel.bottom == panel.top;
  const MatrixXd columns_x = admitted(basis, spring[number(Side::left)], spring[number(Side::right)], symmetric_x);
  const MatrixXd columns_y = admitted(basis, spring[number(Side::bottom)], spring[number(Side::top)], symmetric_y);
  const double height_over_width = si(panel.height) / si(panel.width);
  const double poisson_ratio = panel.material.poisson_ratio;

  const VectorXd load_x = detail::load_integrals(degree, 1.0, 1.0, 1.0);
  const VectorXd load_y =
      uniform_load ? load_x : detail::load_integrals(degree, si(load.water_depth) / si(panel.height), 1.0, 0.0);

  MatrixXd k =
      stiffness(Direction(basis, columns_x), Direction(basis, columns_y), height_over_width, poisson_ratio, spring);
  const MatrixXd f = (columns_x.transpose() * load_x) * (columns_y.transpose() * load_y).transpose();
  const Eigen::LLT<Eigen::Ref<MatrixXd>> factors(k);  // in place: the matrix is the largest thing here
  const VectorXd c = factors.solve(Eigen::Map<const VectorXd>(f.data(), f.size()));
  if (factors.info() != Eigen::Success || !c.allFinite()) throw NotConverged("plate stiffness factorisation", 0.0, 0);

  BentPanel bent;
  bent.panel = panel;
  bent.load = load;
  bent.degree = degree;
  const MatrixXd shape =
      columns_x * Eigen::Map<const MatrixXd>(c.data(), columns_x.cols(), columns_y.cols()) * columns_y.transpose();
  bent.shape.assign(shape.data(), shape.data() + shape.size());
  find_reactions(bent, basis, support_work(basis, shape, height_over_width, poisson_ratio, load_x, load_y), spring);
  find_peaks(bent, basis, symmetric_x);
  return bent;
}

PanelState BentPanel::at(const Length& x, const Length& y) const {
  require::within("x", x, Length(), panel.width);
  require::within("y", y, Length(), panel.height);
  const auto v = field_of(*this)(2.0 * si(x) / si(panel.width) - 1.0, 2.0 * si(y) / si(panel.height) - 1.0);
  const double section = 6.0 / (si(panel.thickness) * si(panel.thickness));
  return {from_si<Length>(v.deflection),
          from_si<MomentPerLength>(v.moment_x),
          from_si<MomentPerLength>(v.moment_y),
          from_si<MomentPerLength>(v.moment_xy),
          face_stress(v.moment_x, v.moment_y, v.moment_xy, -section),
          face_stress(v.moment_x, v.moment_y, v.moment_xy, section)};
}

LineLoad BentPanel::reaction_at(Side side, const Length& along) const {
  const Length edge = horizontal(side) ? panel.width : panel.height;
  const Length across = horizontal(side) ? panel.height : panel.width;
  require::within("place along the " + std::string(name(side)) + " edge", along, Length(), edge);
  const double place = 2.0 * si(along) / si(edge) - 1.0;
  std::array<double, detail::max_plate_degree + 1> f, unused_slope, unused_curvature;
  if (std::isfinite(springs(panel, side, si(flexural_rigidity(panel))).translation))
    detail::evaluate(degree, place, f.data(), unused_slope.data(), unused_curvature.data());
  else
    detail::evaluate_fourth_derivative(degree, place, f.data());
  const std::size_t n = static_cast<std::size_t>(degree) + 1;
  double q = 0.0;
  for (std::size_t i = 0; i < n; ++i) q += edge_reactions[number(side) * n + i] * f[i];
  return from_si<LineLoad>(q * si(load.at_bottom) * si(across) / 2.0);
}

}  // namespace theca::structure
