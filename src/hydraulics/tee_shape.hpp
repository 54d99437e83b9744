// What the losses of a tee need of its geometry.
#pragma once

#include "theca/hydraulics/tee.hpp"

namespace theca::hydraulics::detail {

struct TeeShape {
  double area_ratio = 1.0;  ///< branch over run
  double cosine = 0.0;      ///< of the angle between branch and onward run
};

/// @throws InvalidInput, OutOfValidity  as dividing_tee()
TeeShape shape(const Tee& tee);

}  // namespace theca::hydraulics::detail
