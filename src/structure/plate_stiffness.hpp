// The bending stiffness of a thin rectangular plate on products of functions; internal to src/structure.
#pragma once

#include <Eigen/Core>
#include <array>

#include "plate_panel.hpp"

namespace theca::structure::detail {

/// Integrals of one direction over the functions left in it, and their end values and slopes.
struct Direction {
  Small curvature, slope, curvature_value, value;  ///< as in PlateBasis
  SmallVector value_low, slope_low, value_high, slope_high;
};

/// Lower half of the stiffness matrix of plate, edge springs and edge beams; product i, j stands at i + nx j.
Eigen::MatrixXd plate_stiffness(const Direction& x, const Direction& y, double height_over_width, double poisson_ratio,
                                const std::array<Springs, 4>& spring);

}  // namespace theca::structure::detail
