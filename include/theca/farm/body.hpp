// The body dimensions that reach, work height and headroom are judged with.
#pragma once

#include "theca/units.hpp"

namespace theca::farm {

/// Body dimensions of one standing person, heights above the floor without shoes.
struct Body {
  Length stature;
  Length shoulder_height;     ///< to the acromion
  Length elbow_height;        ///< to the radiale, the upper end of the outer forearm bone (Pheasant, from memory)
  Length forward_grip_reach;  ///< standing, from the back to the centre of the grip
  Length shoulder_grip;       ///< from the acromion to the centre of the grip, arm straight
  Length hip_height;          ///< to the greater trochanter, about which the trunk bends
  Length footwear;            ///< thickness of the sole, added to every height
};

/// Small woman, 5th percentile, US adults 19 to 65 years.
/// @source Pheasant 1996, Bodyspace, 2nd edition, table for US adults; shoes + 25 mm. The hip height is scaled from the
///         British table by stature: 740/1505 (that figure from memory) x 1520 mm. An estimate, not a measurement:
///         replace it where the people are known.
Body pheasant_female_5();
/// Tall man, 95th percentile, US adults 19 to 65 years.
/// @source as above; hip height 1000/1855 (British men, same book) x 1870 mm
Body pheasant_male_95();

/// Refuses dimensions that are not positive or out of order (hip and elbow < shoulder < stature).
/// @throws InvalidInput
void require_body(const Body& body);

Length shod_stature(const Body& body);   ///< stature plus footwear
Length shod_shoulder(const Body& body);  ///< shoulder height plus footwear
Length shod_elbow(const Body& body);     ///< elbow height plus footwear

}  // namespace theca::farm
