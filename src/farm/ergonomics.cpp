#include "theca/farm/ergonomics.hpp"

#include <algorithm>

#include "theca/require.hpp"

namespace theca::farm {

WorkHeightBand recommended_band(WorkKind kind) {
  using units::centimetre;
  switch (kind) {
    case WorkKind::precision:
      return {-10.0 * centimetre, -5.0 * centimetre};
    case WorkKind::light:
      return {5.0 * centimetre, 10.0 * centimetre};
    case WorkKind::heavy:
      return {10.0 * centimetre, 25.0 * centimetre};
  }
  throw InvalidInput("kind of work", "none of the three", "precision, light or heavy");
}

WorkHeight work_height(const Body& body, const Length& hands_height, WorkKind kind) {
  return work_height(body, hands_height, recommended_band(kind));
}

WorkHeight work_height(const Body& body, const Length& hands_height, const WorkHeightBand& band) {
  require_body(body);
  require::not_negative("hands height", hands_height);
  require::finite("band, least below the elbow", band.least_below_elbow);
  require::finite("band, most below the elbow", band.most_below_elbow);
  require::that(band.least_below_elbow <= band.most_below_elbow, "band, least below the elbow", band.least_below_elbow,
                "at most the most below the elbow, " + text(band.most_below_elbow));
  const Length below = shod_elbow(body) - hands_height;
  const Length too_high_by = band.least_below_elbow - below;
  const Length too_low_by = below - band.most_below_elbow;
  return {below, std::max({too_high_by, too_low_by, from_si<Length>(0.0)}), too_high_by > from_si<Length>(0.0)};
}

Length head_clearance(const Body& body, const Length& underside) {
  require_body(body);
  require::not_negative("underside", underside);
  return underside - shod_stature(body);
}

Length fixture_height(const Length& stand_height, const Length& water_surface_above_stand,
                      const Length& mounting_height) {
  require::not_negative("stand height", stand_height);
  require::not_negative("water surface above the stand", water_surface_above_stand);
  require::not_negative("mounting height", mounting_height);
  return stand_height + water_surface_above_stand + mounting_height;
}

}  // namespace theca::farm
