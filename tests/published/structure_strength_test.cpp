// Strength figures against standards and handbooks.
#include <algorithm>
#include <array>
#include <utility>

#include "support/near.hpp"
#include "theca/materials/acrylic.hpp"
#include "theca/structure/glass_criteria.hpp"
#include "theca/structure/glass_failure.hpp"
#include "theca/structure/hole.hpp"
#include "theca/structure/thermal_stress.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

TEST_CASE(
    "Load duration factors of annealed glass [ASTM E1300, table of load durations, printed to 0.01, from memory]") {
  const std::array<std::pair<Time, double>, 9> table{{{3.0 * units::second, 1.00},
                                                      {10.0 * units::second, 0.93},
                                                      {60.0 * units::second, 0.83},
                                                      {10.0 * units::minute, 0.72},
                                                      {60.0 * units::minute, 0.64},
                                                      {24.0 * units::hour, 0.53},
                                                      {7.0 * units::day, 0.47},
                                                      {30.0 * units::day, 0.43},
                                                      {1.0 * units::year, 0.36}}};
  for (const auto& row : table) CHECK(within(e1300_duration_factor(row.first), row.second, 0.0051));
}

TEST_CASE("Annealed glass for 50 years: 45 MPa x 0.29 / 1.8 by CEN/TS 19100, class 2 [published guide: 45 MPa, 1.8]") {
  const auto list = annealed_glass_criteria(50.0 * units::year, from_si<Area>(1.0));
  const auto found = std::find_if(list.begin(), list.end(), [](const auto& c) { return c.name == "CEN/TS 19100"; });
  REQUIRE(found != list.end());
  CHECK(near(found->strength.value, 7.25_MPa, 1e-9));          // 0.29 is rounded by the standard's table
  CHECK(near(found->allowable.value(), 7.25e6 / 1.35, 1e-9));  // EN 1990, permanent
  const auto edge =
      annealed_glass_criteria(50.0 * units::year, from_si<Area>(1.0), materials::StressedZone::edge_polished);
  for (const GlassCriterion& c : edge) CHECK(c.name != "CEN/TS 19100");
}

TEST_CASE("Load of 3 s has 0.2696 of the risk of 60 s [open implementation of E1300's model, test value]") {
  const std::array<SurfaceStress, 1> one{{{from_si<Area>(1.0), 10_MPa, 10_MPa}}};
  const double ratio = glass_failure(one, 3.0 * units::second).risk / glass_failure(one, 60.0 * units::second).risk;
  CHECK(within(ratio, 0.2696, 1e-4));
}

TEST_CASE("Float glass strains by about 0.62 MPa for each kelvin at a cold edge [makers' figure, from memory]") {
  // E and alpha differ between makers' handbooks by some 2 %
  CHECK(near(thermal_stress(materials::float_glass(), from_si<TemperatureDifference>(1.0)), 0.62_MPa, 0.02));
}

TEST_CASE("Hole in a bent plate: 1.79 for a wide one [Roark, Table 17.1; Goodier's (5 + 3 nu) / (3 + nu)]") {
  CHECK(within(hole_bending_factor(100_m, 10_mm), 1.79, 0.005));
}

TEST_CASE("Cast acrylic: limit against crazing in air 10.3 MPa, extruded 5.2 MPa [makers: 1500 and 750 psi]") {
  using namespace theca::materials;
  CHECK(near(acrylic_crazing_limit(AcrylicSheet::cast, CrazingSurroundings::air).value, 10.342_MPa, 1e-4));
  CHECK(near(acrylic_crazing_limit(AcrylicSheet::extruded, CrazingSurroundings::air).value, 5.171_MPa, 1e-4));
  CHECK(near(acrylic_crazing_limit(AcrylicSheet::cast, CrazingSurroundings::water).value, 5.171_MPa, 1e-4));
  CHECK(near(acrylic_crazing_limit(AcrylicSheet::cast, CrazingSurroundings::bonded_joint_in_water).value, 2.586_MPa,
             1e-3));
}

TEST_CASE("Hole in a strip: 3.03 to 4.32 of the far stress by width [Howland, 1930, tension; bending lies above]") {
  // half the strip's width for a hole of radius 1, and the factor as tabulated for R / W of 0.1 to 0.5
  const std::array<std::pair<double, double>, 5> table{
      {{10.0, 3.03}, {5.0, 3.14}, {1.0 / 0.3, 3.36}, {2.5, 3.74}, {2.0, 4.32}}};
  for (const auto& row : table) {
    const double factor = hole_near_edge_factor(2_m, from_si<Length>(row.first)) * 3.0;
    CHECK(factor > row.second - 0.005);
    CHECK(factor < row.second * (row.first > 3.0 ? 1.025 : 1.095));  // -0.51 q^3 left out: 0.02 at 0.3, 0.09 at 0.5
  }
}

TEST_CASE("Acrylic is a fifth weaker at 90 degF, a fifth stronger at 32 degF than at 70 degF [windows to rupture]") {
  using namespace theca::materials;
  CHECK(near(acrylic_temperature_factor(celsius((90.0 - 32.0) / 1.8)), 0.8, 1e-9));
  CHECK(near(acrylic_temperature_factor(celsius((70.0 - 32.0) / 1.8)), 1.0, 1e-9));
  CHECK(near(acrylic_temperature_factor(celsius(0.0)), 1.2, 1e-9));
}
