// Deflection and stress of a stretched panel at any place, from its coefficients; internal to src/structure.
#pragma once

#include <Eigen/Core>

#include "theca/structure/large_deflection.hpp"

namespace theca::structure::detail {

struct StretchedValues {
  double deflection = 0.0, slope = 0.0;
  double bending_x = 0.0, bending_y = 0.0, bending_xy = 0.0;     ///< stress at the far face
  double membrane_x = 0.0, membrane_y = 0.0, membrane_xy = 0.0;  ///< stress in the middle surface

  /// Largest principal stress at the far face (1) or the loaded face (-1).
  double tension(double face) const;
  double tension() const;
};

/// Evaluates a stretched panel on the square -1..1.
class StretchedField {
 public:
  explicit StretchedField(const StretchedPanel& panel);
  StretchedValues operator()(double xi, double eta) const;

 private:
  int degree_;
  double width_, height_, thickness_, poisson_ratio_, modulus_;
  Eigen::Map<const Eigen::MatrixXd> w_, u_, v_;
};

/// Finds the largest deflection, slope and tension; a symmetric panel is searched in its left or lower half.
void find_peaks(StretchedPanel& panel, bool symmetric_x, bool symmetric_y);

}  // namespace theca::structure::detail
