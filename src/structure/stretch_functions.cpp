#include "stretch_functions.hpp"

#include <numeric>
#include <utility>

namespace theca::structure::detail {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Products of every column of `a` with every column of `b`, row by row; columns i, k stand at i + k columns.
MatrixXd column_products(const MatrixXd& a, const MatrixXd& b) {
  MatrixXd all(a.rows(), a.cols() * b.cols());
  for (Index k = 0; k < b.cols(); ++k) all.middleCols(k * a.cols(), a.cols()) = a.array().colwise() * b.col(k).array();
  return all;
}

}  // namespace

MatrixXd admitted(Index size, const Ends& zero, Parity parity) {
  MatrixXd columns = MatrixXd::Zero(size, size);
  Index n = 0;
  if (parity == Parity::any) {
    if (!zero.low_value) columns(value_low, n++) = 1.0;
    if (!zero.low_slope) columns(slope_low, n++) = 1.0;
    if (!zero.high_value) columns(value_high, n++) = 1.0;
    if (!zero.high_slope) columns(slope_high, n++) = 1.0;
  } else {
    const double sign = parity == Parity::even ? 1.0 : -1.0;
    if (!zero.low_value) {
      columns(value_low, n) = 1.0;
      columns(value_high, n++) = sign;
    }
    if (!zero.low_slope) {
      columns(slope_low, n) = 1.0;
      columns(slope_high, n++) = -sign;
    }
  }
  const Index first = parity == Parity::odd ? first_bubble + 1 : first_bubble;
  for (Index i = first; i < size; i += parity == Parity::any ? 1 : 2) columns(i, n++) = 1.0;
  return columns.leftCols(n);
}

Displacement::Displacement(MatrixXd x_functions, MatrixXd y_functions)
    : x(std::move(x_functions)), y(std::move(y_functions)), kept(static_cast<std::size_t>(x.cols() * y.cols())) {
  std::iota(kept.begin(), kept.end(), Index{0});
}

MatrixXd Displacement::factors(const VectorXd& unknowns) const {
  MatrixXd all = MatrixXd::Zero(x.cols(), y.cols());
  all.reshaped()(kept) = unknowns;
  return all;
}

VectorXd Displacement::unknowns(const MatrixXd& factors) const { return factors.reshaped()(kept); }

MatrixXd Displacement::shape(const VectorXd& unknowns) const { return x * factors(unknowns) * y.transpose(); }

VectorXd Displacement::functional(const VectorXd& along_x, const VectorXd& along_y) const {
  return unknowns((x.transpose() * along_x) * (y.transpose() * along_y).transpose());
}

void Displacement::keep_straight(bool across_x, bool low, bool high, bool constant_allowed) {
  if (!low && !high) return;
  const MatrixXd across = across_x ? x : y;
  MatrixXd& along = across_x ? y : x;
  const Index constant = along.cols();
  along.conservativeResize(Eigen::NoChange, constant + 1);
  along.col(constant).setZero();
  along(value_low, constant) = along(value_high, constant) = 1.0;
  kept.clear();
  for (Index j = 0; j < y.cols(); ++j)
    for (Index i = 0; i < x.cols(); ++i) {
      const Index k = across_x ? i : j;
      const bool moves = (low && across(value_low, k) != 0.0) || (high && across(value_high, k) != 0.0);
      const bool is_constant = (across_x ? j : i) == constant;
      if (moves ? is_constant && constant_allowed : !is_constant) kept.push_back(i + j * x.cols());
    }
}

Direction direction(const PlateBasis& basis, const MatrixXd& columns) {
  const auto reduced = [&columns](const MatrixXd& m) { return Small(columns.transpose() * m * columns); };
  const auto end = [&columns](Index what) { return SmallVector(columns.row(what).transpose()); };
  return {reduced(basis.curvature), reduced(basis.slope), reduced(basis.curvature_value),
          reduced(basis.value),     end(value_low),       end(slope_low),
          end(value_high),          end(slope_high)};
}

Points::Points(int degree, bool half) {
  const int n = 2 * ((3 * degree + 5) / 4);  // even, so that halves share no point
  const GaussRule rule = gauss_rule(n);
  const Index used = half ? n / 2 : n;
  weight = (half ? 2.0 : 1.0) * rule.weight.head(used);
  value.resize(used, degree + 1);
  slope.resize(used, degree + 1);
  VectorXd f(degree + 1), f1(degree + 1), f2(degree + 1);
  for (Index q = 0; q < used; ++q) {
    evaluate(degree, rule.point[q], f.data(), f1.data(), f2.data());
    value.row(q) = f;
    slope.row(q) = f1;
  }
}

AtPoints::AtPoints(const Displacement& d, const Points& px, const Points& py)
    : x(px.value * d.x), x_slope(px.slope * d.x), y(py.value * d.y), y_slope(py.slope * d.y) {}

void add_integrals(MatrixXd& sums, const MatrixXd& at_points, const MatrixXd& left_x, const MatrixXd& left_y,
                   const MatrixXd& right_x, const MatrixXd& right_y) {
  const MatrixXd over_x = column_products(left_x, right_x).transpose() * at_points;
  const MatrixXd over_both = over_x * column_products(left_y, right_y);
  const Index rows = left_x.cols(), columns = right_x.cols();
  for (Index l = 0; l < right_y.cols(); ++l)
    for (Index j = 0; j < left_y.cols(); ++j)
      sums.block(j * rows, l * columns, rows, columns) += over_both.col(j + l * left_y.cols()).reshaped(rows, columns);
}

}  // namespace theca::structure::detail
