// Checks of the light on a plane against a target: mean, maximum, uniformity.
#pragma once

#include "theca/check.hpp"
#include "theca/light/field.hpp"
#include "theca/light/placement.hpp"

namespace theca::light {

/// Relative uncertainty of a computed PPFD map: 10 % (lamp tables, real apertures, water and surface).
inline constexpr double ppfd_uncertainty = 0.10;

/// Is there enough light on average? demand: lower mean; capacity: mean of the map.
Check lower_mean_check(const PpfdMap& map, const PpfdTarget& target);
/// Is there too much light on average? demand: mean of the map; capacity: upper mean.
Check upper_mean_check(const PpfdMap& map, const PpfdTarget& target);
/// Is any place too bright? demand: maximum of the map; capacity: highest.
Check highest_check(const PpfdMap& map, const PpfdTarget& target);
/// Is the light even enough? demand: required min/mean; capacity: min/mean of the map.
Check uniformity_check(const PpfdMap& map, const PpfdTarget& target);

}  // namespace theca::light
