// A wall's top edge on its rim brace: the brace as a beam in its own plane, seen by the panel as an elastic edge.
#pragma once

#include "theca/structure/panel.hpp"
#include "theca/structure/rim.hpp"
#include "theca/units.hpp"

namespace theca::structure {

namespace kernel {
/// Load per deflection of a hinged Timoshenko beam bent into a half sine wave, N/m per m; coherent SI, unchecked.
template <class T>
T half_sine_stiffness(T span_m, T width_m, T thickness_m, T youngs_modulus_Pa, T poisson_ratio) {
  const T k = T(3.14159265358979323846) / span_m;
  const T bending = youngs_modulus_Pa * thickness_m * width_m * width_m * width_m / T(12.0) * k * k * k * k;
  const T shear =
      T(5.0 / 6.0) * youngs_modulus_Pa / (T(2.0) * (T(1.0) + poisson_ratio)) * thickness_m * width_m * k * k;
  return bending * shear / (bending + shear);
}
}  // namespace kernel

/// The top edge of a panel that shares its load with a rim brace hinged at its ends.
///
/// The brace counts as an elastic support of even stiffness, that of a half sine wave, E I (pi/L)^4 with shear beside
/// it: the shape in which the edge of a long wall bows. Its twisting stiffness and the help of the wall as its flange
/// are left out, both on the heavy side for the wall; the edge is neither held (stress understated several-fold on a
/// long tank) nor free. For one wall by itself, e.g. while sizing: `bend` of a `Tank` solves walls and brace together.
///
/// @throws InvalidInput  a dimension or modulus not > 0 and finite, thickness over the width, Poisson ratio outside 0
/// to
///                       0.5
/// @valid   uncertainty about 20 % of the wall's stress
/// @source  beam theory: deflection of a hinged beam under q sin(pi x / L), q L^4 / (pi^4 E I) + q L^2 / (pi^2 k G A)
Edge edge_on_brace(const BraceStrip& strip);

}  // namespace theca::structure
