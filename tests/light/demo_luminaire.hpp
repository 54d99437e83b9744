// The invented luminaire and tank of the demo scenario, shared by the light tests.
#pragma once

#include "theca/light.hpp"

namespace theca::test {

inline light::TabulatedIntensity demo_table() {
  light::TabulatedIntensity table;
  double angle_deg = 0.0;
  for (const double value : {94.0, 93.0, 87.0, 75.0, 57.0, 36.0, 18.0, 7.0, 2.0, 0.0}) {
    table.angles.push_back(angle_deg * units::degree);
    table.values.push_back(value * units::umol_per_second_steradian);
    angle_deg += 10.0;
  }
  return table;
}

inline light::Luminaire demo_luminaire() {
  using namespace theca::literals;
  return {.intensity = demo_table(),
          .aperture_length = 18_in,
          .aperture_width = 6_in,
          .points_along = 3,
          .points_across = 2,
          .power = 84_W,
          .ageing_factor = 0.85};
}

/// Inside of the demo's tank A: 96 x 30 in outside, 12 mm walls; water k 0.15 /m, index 1.339.
inline light::Waterbody demo_water() {
  using namespace theca::literals;
  return {.length = 96_in - 24_mm, .width = 30_in - 24_mm, .refractive_index = 1.339, .attenuation = 0.15_per_m};
}

inline light::PpfdTarget demo_target() {
  using namespace theca::literals;
  return {.lower_mean = 200_umol_m2_s, .upper_mean = 350_umol_m2_s, .highest = 450_umol_m2_s, .min_over_mean = 0.5};
}

}  // namespace theca::test
