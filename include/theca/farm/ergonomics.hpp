// Work height against the elbow, and head clearance under fixtures.
#pragma once

#include "theca/farm/body.hpp"

namespace theca::farm {

enum class WorkKind { precision, light, heavy };

/// Recommended height of the hands below the elbow; negative means above.
struct WorkHeightBand {
  Length least_below_elbow, most_below_elbow;
};
/// @source Pheasant & Haslegrave 2006, Bodyspace, 3rd edition: precision 5 to 10 cm above the elbow, light work 5 to
///         10 cm below, heavy work 10 to 25 cm below
WorkHeightBand recommended_band(WorkKind kind);

struct WorkHeight {
  Length hands_below_elbow;  ///< negative when the hands are above the elbow
  Length outside_band;       ///< how far outside the recommended band; zero inside it
  bool too_high;             ///< the hands are above the band; false inside and below it
};

/// Height of the hands against the shod elbow.
/// @param hands_height  above the floor the person stands on, >= 0
/// @throws InvalidInput  impossible body, negative height
WorkHeight work_height(const Body& body, const Length& hands_height, WorkKind kind);
/// The same against a band of the caller's.
/// @throws InvalidInput  also a band that is not finite, or whose least lies over its most
WorkHeight work_height(const Body& body, const Length& hands_height, const WorkHeightBand& band);

/// Underside of an overhead thing minus the height of the shod head; negative when the head hits.
/// @param underside  height above the floor the person stands on, >= 0
/// @throws InvalidInput  impossible body, negative height
Length head_clearance(const Body& body, const Length& underside);

/// Height of a fixture's underside above the floor: stand, water surface over the stand, mounting height (aperture to
/// water surface).
/// @throws InvalidInput  a negative height
Length fixture_height(const Length& stand_height, const Length& water_surface_above_stand,
                      const Length& mounting_height);

/// Headroom under projections on an exit route. @source 29 CFR 1910.36(g)(1): 6 ft 8 in
inline constexpr Length exit_headroom = 80.0 * units::inch;

}  // namespace theca::farm
