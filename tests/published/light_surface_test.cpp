// Reflection of light at a calm water surface against the tables and figures of oceanographic optics.
#include <cmath>

#include "support/near.hpp"
#include "theca/light/field.hpp"
#include "theca/light/fresnel.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;

TEST_CASE("calm surface, index 4/3, incidence 0 to 90 deg by 5 deg [Jerlov 1968, Optical Oceanography, Table XVI]") {
  const double unpolarised_percent[] = {2.0, 2.0, 2.0, 2.0, 2.1,  2.1,  2.1,  2.3,  2.4,  2.8,
                                        3.4, 4.4, 5.9, 8.7, 13.3, 21.2, 34.9, 58.3, 100.0};
  const double perpendicular_percent[] = {2.0, 2.1, 2.1,  2.3,  2.5,  2.7,  3.1,  3.6,  4.3,  5.3,
                                          6.7, 8.6, 11.5, 15.8, 21.9, 31.3, 45.9, 67.4, 100.0};
  for (int i = 0; i < 19; ++i) {
    const auto r = surface_reflectance(5.0 * i * units::degree, 1.0, 4.0 / 3.0);
    CAPTURE(5 * i);
    // The table has one decimal and was worked out by hand: up to 0.1 off unpolarised and 0.2 off perpendicular where
    // the curve is steep (80 deg: 34.9 and 45.9 printed, 34.80 and 45.72 exact).
    CHECK(test::within(100.0 * r.unpolarised, unpolarised_percent[i], 0.1));
    CHECK(test::within(100.0 * r.s, perpendicular_percent[i], i < 14 ? 0.1 : 0.2));
  }
}

TEST_CASE("light of equal radiance from the whole sky: 6.6 % reflected [Jerlov 1968, chapter 5; figure from memory]") {
  CHECK(test::within(100.0 * diffuse_surface_reflectance(4.0 / 3.0), 6.6, 0.05));
}

TEST_CASE("no reflection of the parallel part at 53.1 deg, index 1.333 [Brewster's law: tan(i) = n]") {
  CHECK(test::within(in(from_si<Angle>(std::atan(1.333)), units::degree), 53.1, 0.05));
  const auto r = surface_reflectance(from_si<Angle>(std::atan(1.333)), 1.0, 1.333);
  CHECK(r.p < 1e-30);
  // Jerlov 1968: at this angle the unpolarised reflectance is 1/2 ((n^2 - 1)/(n^2 + 1))^2
  CHECK(test::near(r.unpolarised, 0.5 * std::pow((1.333 * 1.333 - 1.0) / (1.333 * 1.333 + 1.0), 2), 1e-12));
}

TEST_CASE("total reflection from 48.6 deg on, index 1.333 [half-angle of the window seen from below, textbook]") {
  CHECK(test::within(in(critical_angle(1.333, 1.0), units::degree), 48.6, 0.05));
}

TEST_CASE("daily light integral: 200 umol/(m2 s) for 10 h is 7.2 mol/m2 [PPFD x hours x 0.0036]") {
  CHECK(test::near(in(daily_light_integral(200_umol_m2_s, 10_h), units::mol_per_square_metre), 200.0 * 10.0 * 0.0036,
                   1e-14));
  CHECK(test::near(in(daily_light_integral(1_umol_m2_s, 24_h), units::mol_per_square_metre), 0.0864, 1e-14));
}
