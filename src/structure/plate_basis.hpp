// The one-dimensional functions of the plate solver on -1..1, and their integrals; internal to src/structure.
#pragma once

#include <Eigen/Dense>
#include <array>

namespace theca::structure::detail {

inline constexpr int min_plate_degree = 4;
inline constexpr int max_plate_degree = 24;

/// Places of the four Hermite cubics among the functions; the rest vanish with their slopes at both ends.
enum Hermite : Eigen::Index { value_low = 0, slope_low = 1, value_high = 2, slope_high = 3, first_bubble = 4 };

/// Functions 0..degree: four Hermite cubics, then b_k with b_k'' = sqrt((2k+1)/2) P_k, k = 2..degree-2. The second
/// derivatives of the b_k are orthonormal, which keeps the stiffness matrix well conditioned.
struct PlateBasis {
  int degree = 0;
  Eigen::Index size = 0;
  Eigen::MatrixXd curvature;        ///< integral of f_i'' f_j''
  Eigen::MatrixXd slope;            ///< f_i' f_j'
  Eigen::MatrixXd curvature_value;  ///< f_i'' f_j
  Eigen::MatrixXd value;            ///< f_i f_j
  Eigen::VectorXd grid;             ///< Chebyshev-Lobatto points, ends included, for the search of maxima
  Eigen::MatrixXd grid_value, grid_slope, grid_curvature;  ///< rows: points
};

/// The table of a degree from min_plate_degree to max_plate_degree; immutable, made once.
const PlateBasis& plate_basis(int degree);

/// Values and two derivatives of all functions at a point; arrays of degree + 1.
void evaluate(int degree, double x, double* value, double* slope, double* curvature);

/// Fourth derivatives, zero for the cubics.
void evaluate_fourth_derivative(int degree, double x, double* fourth);

/// Derivatives 0 to 4 of all functions at a point: element k holds derivative k.
using Derivatives = std::array<std::array<double, max_plate_degree + 1>, 5>;
void evaluate(int degree, double x, Derivatives& derivatives);

/// Gauss-Legendre points and weights on -1..1, exact for polynomials of degree 2 n - 1.
struct GaussRule {
  Eigen::VectorXd point, weight;
};
GaussRule gauss_rule(int n);

/// Integrals of f_i times a load that falls linearly from `at_low`, at -1, to `at_high` at the end of the loaded
/// `share` (0 to 1) of the length, and is zero beyond: exact.
Eigen::VectorXd load_integrals(int degree, double share, double at_low, double at_high);

/// Means of f_i over low..high, -1 <= low <= high <= 1: exact, and the value itself where both are one.
Eigen::VectorXd mean_values(int degree, double low, double high);

}  // namespace theca::structure::detail
