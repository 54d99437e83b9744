// Where a panel deflects most and where it is in the largest tension; internal to src/structure.
#pragma once

#include "theca/structure/bend.hpp"

namespace theca::structure::detail {

/// Sets the largest deflection and tension of a panel whose shape is known, and their places, edges and corners
/// included. A panel that is symmetric about the middle of its width is searched in one half.
void find_peaks(BentPanel& bent, bool symmetric);

}  // namespace theca::structure::detail
