// Glass strength, stock thickness and adhesive allowables against the standards' printed numbers.
#include "support/near.hpp"
#include "theca/materials.hpp"

using namespace theca;
using namespace theca::literals;
using theca::test::near;
using theca::test::within;

TEST_CASE("glass under a permanent load: 0.29 x 45 / 1.8 = 7.25 MPa [EN 16612:2019; EN 572-1]") {
  near(materials::glass_design_strength().value, 7.25_MPa, 1e-12);
}

TEST_CASE("load duration factors: printed to two digits [EN 16612:2019, table of k_mod, from memory]") {
  struct Row {
    Time duration;
    double factor;
  };
  for (const Row& r : {Row{5_s, 1.0}, Row{30_s, 0.89}, Row{10_min, 0.74}, Row{30_min, 0.69}, Row{8_h, 0.58},
                       Row{11_h, 0.57}, Row{3_week, 0.45}, Row{4380_h, 0.39}, Row{materials::permanent_load, 0.29}}) {
    CAPTURE(r.factor);
    within(materials::load_duration_factor(r.duration), r.factor, 0.005);
  }
}

TEST_CASE("toughened glass: 7.25 + (120 - 45) / 1.2 = 69.75 MPa [EN 16612:2019; EN 12150-1]") {
  near(materials::glass_design_strength({.kind = materials::GlassKind::toughened}).value, 69.75_MPa, 1e-12);
  // vertical process: 7.25 + 0.6 x 62.5
  near(materials::glass_design_strength(
           {.kind = materials::GlassKind::toughened, .process = materials::TougheningProcess::vertical})
           .value,
       44.75_MPa, 1e-12);
}

TEST_CASE("annealed glass under a gust of 5 s: 45 / 1.8 = 25 MPa [EN 16612:2019]") {
  near(materials::glass_design_strength({.load_duration = 5_s}).value, 25_MPa, 1e-3);
}

TEST_CASE("stock thickness: nominal and minimum [ASTM C1036; ASTM E1300 Table 4]") {
  struct Row {
    double nominal_mm, minimum_mm;
  };
  for (const Row& r : {Row{3, 2.92}, Row{4, 3.78}, Row{5, 4.57}, Row{6, 5.56}, Row{8, 7.42}, Row{10, 9.02},
                       Row{12, 11.91}, Row{16, 15.09}, Row{19, 18.26}, Row{22, 21.44}})
    within(in(materials::minimum_thickness(r.nominal_mm * units::millimetre), units::millimetre), r.minimum_mm, 1e-9);
}

TEST_CASE("stock thickness: the minimum is the inch size less the rolling tolerance, 1/32 in at most [geometry]") {
  // 3/8 in is 9.53 mm, 1/2 in 12.70 mm, 3/4 in 19.05 mm: the metric names are rounded, the minima are not.
  within(in(materials::minimum_thickness(10_mm), units::inch), 3.0 / 8, 1.0 / 32);
  within(in(materials::minimum_thickness(12_mm), units::inch), 1.0 / 2, 1.0 / 32 + 1e-3);
  within(in(materials::minimum_thickness(19_mm), units::inch), 3.0 / 4, 1.0 / 32 + 1e-3);
}

TEST_CASE("silicone joints: 20 psi short-term, a tenth of 0.14 MPa for loads that stay [ASTM C1401, ETAG 002]") {
  near(materials::silicone_short_term_strength().value, 20_psi, 2e-2);
  near(materials::silicone_permanent_strength().value, 2_psi, 2e-2);
}

TEST_CASE("soda-lime glass: general properties [EN 572-1; EN 673]") {
  const materials::Material glass = materials::float_glass();
  near(glass.youngs_modulus, 70_GPa, 1e-12);
  near(glass.density, 2500_kg_m3, 1e-12);
  near(si(glass.specific_heat_capacity), 720.0, 1e-12);
  near(si(glass.thermal_expansion), 9e-6, 1e-12);
  near(si(glass.thermal_conductivity), 1.0, 1e-12);
  near(glass.emissivity, 0.837, 1e-12);
  // EN 572-1 prints 0.2 for Poisson's ratio, tables of soda-lime glass 0.23.
  within(glass.poisson_ratio, 0.215, 0.016);
}

TEST_CASE("cast acrylic: inside the spread of published data sheets [ISO 527, D792, C177, D696, D542 tests]") {
  const materials::Material a = materials::acrylic();
  within(in(a.youngs_modulus, units::gigapascal), 3.05, 0.26);
  within(si(a.density), 1185, 6);
  within(si(a.thermal_conductivity), 0.19, 0.011);
  within(si(a.specific_heat_capacity), 1465, 6);
  within(si(a.thermal_expansion), 7.5e-5, 0.51e-5);
  within(a.refractive_index, 1.49, 0.002);
  CHECK(materials::acrylic_long_term_strength().value < 1500_psi);
}

TEST_CASE("pipe: roughness of drawn tube 0.000005 ft [Moody 1944, Fig. 1]") {
  near(in(materials::pvc_roughness(), units::foot), 0.000005, 2e-2);
}
