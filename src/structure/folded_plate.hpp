// Flat rectangular plates joined along straight lines into a folded structure, solved as one; internal to
// src/structure. Every plate stretches in its plane and bends out of it (Kirchhoff).
#pragma once

#include <Eigen/Dense>
#include <array>
#include <functional>
#include <vector>

#include "peak.hpp"
#include "theca/structure/panel.hpp"

namespace theca::structure::detail {

enum Axis { axis_x = 0, axis_y = 1, axis_z = 2 };

/// A plate whose local x, y and normal point along three global axes in their positive sense. All SI.
struct FoldedPlate {
  int along_x, along_y, normal;
  double start_x, start_y;  ///< of its low edges, on the global axes
  double length_x, length_y;
  double thickness, youngs_modulus, poisson_ratio;
  int degree_x, degree_y;
  bool mirrored_x = false, mirrored_y = false;  ///< it crosses the mirror plane that is normal to its local x or y
  double images = 1.0;                          ///< how often the plate stands in the structure, mirror images counted
  /// Bottom, left, right, top: edges at which the twisting moment ends, free or held at the middle surface only.
  std::array<bool, 4> soft_edge{};
  bool flat = false;                   ///< it does not bend: it lies on a rigid plane
  double foundation = 0.0;             ///< N/m3, against its normal displacement
  double tangential_foundation = 0.0;  ///< N/m3, against sliding
  /// Pressure along its positive normal at local x and y, Pa; null for none. `wet_height(x)` is the height to which it
  /// reaches at local x.
  std::function<double(double, double)> pressure{};
  std::function<double(double)> wet_height{};
  std::array<double, 3> body_force{0.0, 0.0, 0.0};  ///< N/m2 along the global axes, e.g. own weight
  /// Forces on small rectangles of the plate.
  struct Patch {
    double x0, x1, y0, y1;                 ///< local
    std::array<double, 3> force{0, 0, 0};  ///< global
  };
  std::vector<Patch> patches{};
  /// Curvatures (xx, yy, xy) that its polynomials leave out, by local x and y; null for none.
  std::function<std::array<double, 3>(double, double)> sharp_curvature{};
};

/// What is left of a plate's twisting stiffness at local x and y: 1 - e^(-sqrt(10) d / t) at a distance d from each of
/// its soft edges, the boundary layer of a shear deformable plate in even twist. In sum this takes from a strip what
/// Saint-Venant's torsion does, b t^3 / 3 to b t^3 / 3 (1 - 0.63 t / b).
/// @source B. Haggblad, K.-J. Bathe 1990 (boundary layer of a Mindlin plate; from memory); Timoshenko & Goodier 1970,
/// article 109
double twist_share(const FoldedPlate& plate, double x, double y);

/// One side of a joint: an edge of a plate, and how far the bead stands off the plate's middle surface along its
/// normal.
struct JointSide {
  int plate = -1;  ///< -1: the ground
  Side edge = Side::bottom;
  double eccentricity = 0.0;
};

/// Line springs between two edges over a stretch of the global axis along which both run.
struct FoldedJoint {
  JointSide a, b;
  double from, to;
  std::array<double, 3> stiffness{0, 0, 0};  ///< N/m2 against relative displacement along the global axes
  double rotation = 0.0;                     ///< N against relative rotation about the joint line
  double images = 1.0;
};

/// What a joint hands from side a to side b at a place, per length.
struct JointForce {
  std::array<double, 3> force{0, 0, 0};
  double moment = 0.0;
};

/// State of a plate at a place.
struct FoldedState {
  std::array<double, 3> displacement{0, 0, 0};  ///< global
  double membrane_x = 0, membrane_y = 0, membrane_xy = 0;
  double moment_x = 0, moment_y = 0, moment_xy = 0;  ///< positive where the side of the positive normal is in tension
  /// Largest principal tension on either face; `on_normal_side` tells which.
  double tension = 0;
  bool on_normal_side = false;
};

/// The force of a joint along its line, prepared to be asked at many places.
class JointProfile {
 public:
  JointForce at(double place) const;
  /// Integral over the stretch of the joint, one image.
  JointForce total() const;

 private:
  friend class FoldedStructure;
  struct Side {
    int degree;
    double start, length;
    /// Per component (three displacements, rotation): coefficients of the values and of the slopes along the edge.
    std::array<Eigen::VectorXd, 4> value, slope;
    double sign;
  };
  std::vector<Side> sides_;
  std::array<double, 4> stiffness_{};
  double from_ = 0.0, to_ = 0.0;
  int points_ = 0;
};

class FoldedStructure {
 public:
  std::vector<FoldedPlate> plates;
  std::vector<FoldedJoint> joints;

  /// Plates are eliminated in their order: those with few neighbours first.
  /// @throws NotConverged  a plate can move as a rigid body
  void solve();

  FoldedState at(std::size_t plate, double x, double y) const;
  JointProfile profile(std::size_t joint) const;
  /// Sum over the loads of a plate, global, one image.
  std::array<double, 3> load_total(std::size_t plate) const { return load_total_[plate]; }
  std::size_t unknowns() const { return unknowns_; }

  /// Largest tension over local x0..x1, y0..y1, refined.
  Peak largest_tension(std::size_t plate, double x0, double x1, double y0, double y1) const;
  /// Largest absolute normal displacement.
  Peak largest_deflection(std::size_t plate) const;

 private:
  std::vector<std::array<Eigen::MatrixXd, 3>> shape_;  ///< per plate: coefficients of u, v, w in the full bases
  std::vector<std::array<double, 3>> load_total_;
  std::size_t unknowns_ = 0;
};

}  // namespace theca::structure::detail
