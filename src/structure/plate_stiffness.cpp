#include "plate_stiffness.hpp"

#include <cmath>

namespace theca::structure::detail {
namespace {

/// A quadratic form of the values and slopes at the two ends of a direction.
Small of_ends(const Direction& direction, double value_low, double slope_low, double value_high, double slope_high) {
  Small form = Small::Zero(direction.value.rows(), direction.value.cols());
  const auto add = [&form](double stiffness, const SmallVector& at_end) {
    if (stiffness > 0.0 && std::isfinite(stiffness)) form.noalias() += stiffness * at_end * at_end.transpose();
  };
  add(value_low, direction.value_low);
  add(slope_low, direction.slope_low);
  add(value_high, direction.value_high);
  add(slope_high, direction.slope_high);
  return form;
}

}  // namespace

Eigen::MatrixXd plate_stiffness(const Direction& x, const Direction& y, double height_over_width, double poisson_ratio,
                                const std::array<Springs, 4>& spring) {
  const double s2 = height_over_width * height_over_width;
  const auto& [bottom, left, right, top] = spring;
  const Small along_x =
      s2 * x.curvature + of_ends(x, left.translation, left.rotation, right.translation, right.rotation);
  const Small along_y =
      y.curvature / s2 + of_ends(y, bottom.translation, bottom.rotation, top.translation, top.rotation);
  // Beams bend along the edge with its deflection and twist with the change of its slope along it.
  const Small bent_y = of_ends(y, bottom.bending, 0.0, top.bending, 0.0);
  const Small twisted_y = 2.0 * (1.0 - poisson_ratio) * y.slope + of_ends(y, 0.0, bottom.torsion, 0.0, top.torsion);
  const Small bent_x = of_ends(x, left.bending, 0.0, right.bending, 0.0);
  const Small twisted_x = of_ends(x, 0.0, left.torsion, 0.0, right.torsion);
  const Index nx = x.value.rows();
  const Index ny = y.value.rows();
  Eigen::MatrixXd k(nx * ny, nx * ny);
  for (Index l = 0; l < ny; ++l)
    for (Index j = l; j < ny; ++j) {
      auto block = k.block(j * nx, l * nx, nx, nx);
      const double value = y.value(j, l);
      const double one = poisson_ratio * y.curvature_value(l, j);
      const double other = poisson_ratio * y.curvature_value(j, l);
      block = value * along_x + along_y(j, l) * x.value + twisted_y(j, l) * x.slope + bent_y(j, l) * x.curvature +
              y.curvature(j, l) * bent_x + y.slope(j, l) * twisted_x + one * x.curvature_value;
      block += other * x.curvature_value.transpose();
    }
  return k;
}

}  // namespace theca::structure::detail
