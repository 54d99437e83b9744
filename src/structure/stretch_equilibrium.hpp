// The stable state of a panel that bends and stretches, by Newton's method; internal to src/structure.
#pragma once

#include "stretch_energy.hpp"

namespace theca::structure::detail {

struct StretchEquilibrium {
  Eigen::VectorXd c;  ///< unknowns of the deflection
  Slopes slope;
  Strain strain;
  double residual = 0.0;  ///< energy of the last step over the work of the load, square root
  int steps = 0;
};

/// Minimises the energy from a starting point. A tangent is kept as long as its steps still cut the error five-fold.
/// @throws NotConverged
StretchEquilibrium minimise(const StretchEnergy& energy, double load_factor, Eigen::VectorXd start);

}  // namespace theca::structure::detail
