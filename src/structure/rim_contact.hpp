// The sharp bending of a tank's wall right under a hand on its rim; internal to src/structure.
#pragma once

#include <array>
#include <functional>

#include "folded_plate.hpp"

namespace theca::structure::detail {

/// Curvatures (xx, yy, xy) of the deflection along the wall's normal that its polynomials leave out under its patches:
/// those of a panel of its size bent on pieces (`bend_in_pieces`) less those of the same panel bent by polynomials of
/// the wall's degrees. What the two have in common, all that reaches far, drops out, so that it matters little that the
/// panel's foot and ends are simply hinged or clamped. Null where no patch pushes along the normal.
std::function<std::array<double, 3>(double x, double y)> sharp_curvature(const FoldedPlate& wall,
                                                                         const Edge& foot_and_ends);

}  // namespace theca::structure::detail
