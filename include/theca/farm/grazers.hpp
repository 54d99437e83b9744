// Grazing fish against the growth of turf algae.
#pragma once

#include "theca/units.hpp"

namespace theca::farm {

struct Grazing {
  MassFlow production;   ///< carbon grown per time
  MassFlow consumption;  ///< carbon that the grazers take per time
  double needed;         ///< grazers that take all that grows
};

/// Algal production of a lit surface against what grazers take.
/// @param production  carbon per area and time, >= 0; 1.05 g C m-2 d-1 on reefs (Paddack et al. 2006)
/// @param each        carbon per grazer and time, > 0; 0.77 to 1.43 g C/d for a damselfish of 63 g
/// @throws InvalidInput  negative or not finite, `each` not positive
/// @valid  factor of 2
Grazing grazing(const Area& lit_surface, const MassFlux& production, int grazers, const MassFlow& each);

}  // namespace theca::farm
