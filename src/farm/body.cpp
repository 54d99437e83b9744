#include "theca/farm/body.hpp"

#include "theca/require.hpp"

namespace theca::farm {

Body pheasant_female_5() {
  using units::inch;
  return {.stature = 59.8 * inch,
          .shoulder_height = 48.2 * inch,
          .elbow_height = 37.2 * inch,
          .forward_grip_reach = 25.8 * inch,
          .shoulder_grip = 21.9 * inch,
          .hip_height = 740.0 / 1505.0 * 1520.0 * units::millimetre,
          .footwear = 1.0 * inch};
}

Body pheasant_male_95() {
  using units::inch;
  return {.stature = 73.6 * inch,
          .shoulder_height = 61.0 * inch,
          .elbow_height = 46.9 * inch,
          .forward_grip_reach = 33.3 * inch,
          .shoulder_grip = 28.1 * inch,
          .hip_height = 1000.0 / 1855.0 * 1870.0 * units::millimetre,
          .footwear = 1.0 * inch};
}

void require_body(const Body& body) {
  require::positive("stature", body.stature);
  require::positive("shoulder height", body.shoulder_height);
  require::positive("elbow height", body.elbow_height);
  require::positive("forward grip reach", body.forward_grip_reach);
  require::positive("shoulder-grip length", body.shoulder_grip);
  require::positive("hip height", body.hip_height);
  require::not_negative("footwear", body.footwear);
  require::that(body.shoulder_height < body.stature, "shoulder height", body.shoulder_height,
                "below the stature, " + text(body.stature));
  require::that(body.elbow_height < body.shoulder_height, "elbow height", body.elbow_height,
                "below the shoulder height, " + text(body.shoulder_height));
  require::that(body.hip_height < body.shoulder_height, "hip height", body.hip_height,
                "below the shoulder height, " + text(body.shoulder_height));
}

Length shod_stature(const Body& body) { return body.stature + body.footwear; }
Length shod_shoulder(const Body& body) { return body.shoulder_height + body.footwear; }
Length shod_elbow(const Body& body) { return body.elbow_height + body.footwear; }

}  // namespace theca::farm
