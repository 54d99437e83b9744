// The energy of a panel that bends and stretches (von Karman), with its first and second derivatives; internal to
// src/structure.
#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <array>

#include "stretch_functions.hpp"
#include "theca/structure/large_deflection.hpp"

namespace theca::structure::detail {

// Mapped on the square -1..1 as in bend.cpp. With w = t W, u = (2 t^2 / a) U, v = (2 t^2 / b) V and s = b / a, the
// membrane strains times a b / (4 t^2) are
//   e_x = s (U_xi + W_xi^2 / 2), e_y = (V_eta + W_eta^2 / 2) / s, g = U_eta + V_xi + W_xi W_eta,
// and the energy over 4 D t^2 / (a b) is W K W / 2 + 6 (integral of e C e) - P f W, with bend's stiffness K and
// P = p0 (a b)^2 / (16 D t). C is that of plane stress over E / (1 - nu^2).

struct StretchProblem {
  double ratio = 1.0;  ///< s
  double poisson_ratio = 0.0;
  std::array<Springs, 4> spring{};
  std::array<InPlane, 4> in_plane{};
  bool symmetric_x = false, symmetric_y = false;
  double load_factor = 0.0;  ///< P
  double wet_share = 1.0;    ///< of the height; 1 with a uniform load
  bool uniform = true;

  bool is(Side side, InPlane condition) const { return in_plane[number(side)] == condition; }
  bool across_fixed(Side side) const { return is(side, InPlane::held) || is(side, InPlane::held_across); }
};

/// Slopes of a deflection along xi and eta; rows: points along xi, columns: along eta.
struct Slopes {
  Eigen::MatrixXd x, y;
};

/// Dimensionless membrane strains, or the forces C e that belong to them, at the points.
struct Membrane {
  Eigen::MatrixXd x, y, xy;
};

struct Strain {
  Membrane e;
  Eigen::VectorXd in_plane;  ///< unknowns of the displacement in the plane
};

/// The energy at one degree. The displacements in the plane follow from the deflection and are no unknowns.
class StretchEnergy {
 public:
  StretchEnergy(const StretchProblem& problem, int degree);

  Index size() const { return w_.size(); }
  const Eigen::VectorXd& load() const { return load_; }            ///< f
  const Eigen::MatrixXd& stiffness() const { return stiffness_; }  ///< K, its lower half

  Eigen::MatrixXd shape_w(const Eigen::VectorXd& c) const { return w_.shape(c); }
  Eigen::MatrixXd shape_u(const Eigen::VectorXd& in_plane) const { return u_.shape(in_plane.head(u_.size())); }
  Eigen::MatrixXd shape_v(const Eigen::VectorXd& in_plane) const { return v_.shape(in_plane.tail(v_.size())); }
  /// Unknowns of a deflection from its shape at a lower degree.
  Eigen::VectorXd unknowns(const Eigen::MatrixXd& shape) const;

  Slopes slopes(const Eigen::VectorXd& c) const;
  /// Strains of the products of two deflections (of one, when given twice), with the in-plane displacements that they
  /// bring about.
  Strain strain(const Slopes& a, const Slopes& b) const;
  /// Integral of a C b.
  double product(const Strain& a, const Strain& b) const;

  /// Load less elastic forces, on the unknowns of the deflection: minus the first derivative.
  Eigen::VectorXd imbalance(const Eigen::VectorXd& c, const Slopes& slope, const Strain& strain) const;
  /// Lower half of the second derivative.
  Eigen::MatrixXd tangent(const Slopes& slope, const Strain& strain) const;
  /// Virtual work of the supports on every product of two functions of the basis: load minus elastic work.
  Eigen::MatrixXd support_work(const Eigen::VectorXd& c, const Slopes& slope, const Strain& strain) const;

 private:
  void factor_in_plane();
  Eigen::MatrixXd in_plane_stiffness() const;
  /// Forces C e times the weights of the points.
  Membrane weighted_forces(const Membrane& e) const;
  /// What they do across the panel, on slopes along xi and eta.
  Slopes across(const Membrane& force, const Slopes& slope) const;
  /// Work of the membrane forces on the unknowns in the plane, by a change of the deflection: one column for each of
  /// its unknowns.
  Eigen::MatrixXd coupling(const Slopes& slope) const;

  const StretchProblem& problem_;
  const PlateBasis& basis_;
  Displacement w_, u_, v_;
  Eigen::MatrixXd stiffness_;
  Eigen::VectorXd load_, load_x_, load_y_;
  Points x_, y_;
  AtPoints at_w_, at_u_, at_v_;
  Eigen::MatrixXd weight_;
  Eigen::LLT<Eigen::MatrixXd> in_plane_factor_;
};

}  // namespace theca::structure::detail
