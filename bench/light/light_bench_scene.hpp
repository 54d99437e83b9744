// The tanks and luminaires of the light benchmarks.
#pragma once

#include "theca/light.hpp"
#include "theca/seawater.hpp"

namespace theca::bench {

inline light::Luminaire luminaire() {
  using namespace theca::literals;
  light::TabulatedIntensity table;
  double angle_deg = 0.0;
  for (const double value : {94.0, 93.0, 87.0, 75.0, 57.0, 36.0, 18.0, 7.0, 2.0, 0.0}) {
    table.angles.push_back(angle_deg * units::degree);
    table.values.push_back(value * units::umol_per_second_steradian);
    angle_deg += 10.0;
  }
  return {.intensity = table,
          .aperture_length = 18_in,
          .aperture_width = 6_in,
          .points_along = 3,
          .points_across = 2,
          .power = 84_W};
}

/// The luminaire behind a diffuser.
inline light::Luminaire extended_luminaire(int points_along = 2, int points_across = 2) {
  light::Luminaire lamp = luminaire();
  lamp.shines_all_over = true;
  lamp.points_along = points_along;
  lamp.points_across = points_across;
  return lamp;
}

/// All of the luminaire's light from one point.
inline light::Luminaire point_luminaire() {
  light::Luminaire lamp = luminaire();
  lamp.aperture_length = lamp.aperture_width = Length();
  lamp.points_along = lamp.points_across = 1;
  return lamp;
}

inline light::Waterbody demo_tank(light::Walls walls) {
  using namespace theca::literals;
  return {.length = 96_in - 24_mm,
          .width = 30_in - 24_mm,
          .refractive_index = 1.339,
          .attenuation = 0.15_per_m,
          .walls = walls,
          .wall_reflectance = 0.9};
}

/// 3 m x 0.75 m, glass 15 mm.
inline light::Waterbody long_tank(light::Walls walls = light::Walls::pane) {
  using namespace theca::literals;
  light::Waterbody tank = demo_tank(walls);
  tank.length = 3_m;
  tank.width = 75_cm;
  tank.pane.thickness = 15_mm;
  return tank;
}

inline std::vector<light::BandOptics> bands(int count) {
  using namespace theca::literals;
  return light::band_optics(light::photon_bands(light::illuminant_d65(), count), celsius(25.0), AbsoluteSalinity(35.0),
                            {.dissolved_at_440nm = 0.05_per_m});
}

}  // namespace theca::bench
