// The functions of which the displacements of a stretched panel are made, and their integrals over it; internal to
// src/structure.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "plate_stiffness.hpp"

namespace theca::structure::detail {

enum class Parity { any, even, odd };

/// Which end values and slopes are zero in one direction.
struct Ends {
  bool low_value, low_slope, high_value, high_slope;
};

/// Columns: the combinations of the basis functions that vanish where they must and have the parity asked for.
Eigen::MatrixXd admitted(Index size, const Ends& zero, Parity parity);

/// A displacement over the panel: its unknowns are products of a function along x and one along y, which are the
/// columns of `x` and of `y`. Unknown k is the product of columns i and j with kept[k] = i + j x.cols().
struct Displacement {
  Eigen::MatrixXd x, y;
  std::vector<Index> kept;

  Displacement() = default;
  Displacement(Eigen::MatrixXd x_functions, Eigen::MatrixXd y_functions);  ///< all products

  Index size() const { return static_cast<Index>(kept.size()); }
  /// Unknowns as factors of the products, those not kept zero.
  Eigen::MatrixXd factors(const Eigen::VectorXd& unknowns) const;
  Eigen::VectorXd unknowns(const Eigen::MatrixXd& factors) const;
  /// Unknowns as coefficients of the basis.
  Eigen::MatrixXd shape(const Eigen::VectorXd& unknowns) const;
  /// A product of two functionals, given by their values on the basis, on all unknowns.
  Eigen::VectorXd functional(const Eigen::VectorXd& along_x, const Eigen::VectorXd& along_y) const;

  /// Takes out the products that would bend a straight edge: a function across it with a value at such an end is kept
  /// only with a constant along the edge, and not even so when that is not allowed.
  void keep_straight(bool across_x, bool low, bool high, bool constant_allowed);
};

/// The integrals of a plate's stiffness over the columns' combinations of the basis.
Direction direction(const PlateBasis& basis, const Eigen::MatrixXd& columns);

/// Quadrature points of one direction with the basis at them; the half -1..0, counted twice, when the integrands are
/// even. Exact for products of four functions' slopes.
struct Points {
  Eigen::VectorXd weight;
  Eigen::MatrixXd value, slope;  ///< rows: points

  Points(int degree, bool half);
};

/// A displacement's functions at the points of both directions.
struct AtPoints {
  Eigen::MatrixXd x, x_slope, y, y_slope;  ///< rows: points

  AtPoints() = default;
  AtPoints(const Displacement& displacement, const Points& px, const Points& py);

  /// Slopes along xi and along eta at all points, of products with these factors.
  Eigen::MatrixXd along_x(const Eigen::MatrixXd& factors) const { return x_slope * factors * y.transpose(); }
  Eigen::MatrixXd along_y(const Eigen::MatrixXd& factors) const { return x * factors * y_slope.transpose(); }
  /// Work on those slopes of forces at the points, on all products.
  Eigen::MatrixXd work_x(const Eigen::MatrixXd& force) const { return x_slope.transpose() * force * y; }
  Eigen::MatrixXd work_y(const Eigen::MatrixXd& force) const { return x.transpose() * force * y_slope; }
};

/// Adds the sums over all points of `at_points` times a product of functions of `left_x` and `left_y`, the row, times
/// one of `right_x` and `right_y`, the column; products i, j stand at i + j columns.
void add_integrals(Eigen::MatrixXd& sums, const Eigen::MatrixXd& at_points, const Eigen::MatrixXd& left_x,
                   const Eigen::MatrixXd& left_y, const Eigen::MatrixXd& right_x, const Eigen::MatrixXd& right_y);

}  // namespace theca::structure::detail
