// Wall transmittance against a glazing standard and against hand calculation.
#include <doctest/doctest.h>

#include "support/near.hpp"
#include "theca/thermal/nusselt.hpp"
#include "theca/thermal/wall.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::near;
using theca::test::within;

TEST_CASE("single pane, 4 mm glass [EN 673: h_i 7.7, h_e 25 W/m2K, k 1.0 W/mK give U 5.8; from memory]") {
  const std::vector<Layer> pane = {{.thickness = 4_mm, .conductivity = 1.0_W_mK}};
  CHECK(within(si(transmittance(pane, {.inside = 25_W_m2K, .outside = 7.7_W_m2K})), 5.8, 0.05));
}

TEST_CASE("three layers in series [Incropera & DeWitt, series composite wall, worked by hand]") {
  // 1/100 + 0.012/1 + 0.020/0.035 + 0.009/0.12 + 1/8.3
  const std::vector<Layer> wall = {{12_mm, 1.0_W_mK}, {20_mm, 0.035_W_mK}, {9_mm, 0.12_W_mK}};
  const double resistance = 0.01 + 0.012 + 0.571428571 + 0.075 + 0.120481928;
  CHECK(within(si(transmittance(wall, {.inside = 100_W_m2K, .outside = 8.3_W_m2K})), 1.0 / resistance, 1e-8));
}

TEST_CASE("composite wall [Incropera & DeWitt, Example 3.1, diver's skin and insulation: 100 W; from memory]") {
  // 3 mm of skin and fat of 0.3 W/mK under 4.4 mm (in air) or 6.1 mm (in water) of 0.014 W/mK; 1.8 m2, 35 degC inside,
  // 10 degC outside; outer film 2 + 5.9 W/m2K in air, 200 W/m2K in water. Thicknesses are printed to 0.1 mm: 2 %.
  const auto heat = [](Length insulation, double outer_film) {
    const std::vector<Layer> layers = {{3_mm, 0.3_W_mK}, {insulation, 0.014_W_mK}};
    return 1.8 * 25.0 / (si(layer_resistance(layers)) + 1.0 / outer_film);
  };
  CHECK(within(heat(4.4_mm, 7.9), 100.0, 2.0));
  CHECK(within(heat(6.1_mm, 200.0), 100.0, 2.0));
}

TEST_CASE(
    "double and triple glazing, air, uncoated [EN 673 results as tabulated in EN ISO 10077-1, Table C.2, from "
    "memory]") {
  // Printed to one decimal. Surface resistances 0.13 and 0.04 m2K/W, glass 1.0 W/mK, emissivity 0.837.
  const Layer pane{4_mm, 1.0_W_mK};
  const auto u = [&](const std::vector<Layer>& layers) {
    return si(transmittance(layers, {.inside = from_si<ThermalTransmittance>(1.0 / 0.04),
                                     .outside = from_si<ThermalTransmittance>(1.0 / 0.13)}));
  };
  struct Row {
    double millimetres, twice, thrice;
  };
  for (const Row& r : {Row{6, 3.3, 2.3}, Row{8, 3.1, 2.1}, Row{12, 2.8, 1.9}}) {
    CAPTURE(r.millimetres);
    const Layer gap = air_gap(r.millimetres * units::millimetre);
    CHECK(within(u({pane, gap, pane}), r.twice, 0.051));
    CHECK(within(u({pane, gap, pane, gap, pane}), r.thrice, 0.051));
  }
  CHECK(within(u({pane, air_gap(16_mm), pane}), 2.7, 0.051));
}

TEST_CASE("air gap of 12 mm: conduction and radiation [EN 673, worked by hand: h_g 2.08, h_r 3.70 W/m2K]") {
  // k 0.02496 W/mK at 283 K (table of the standard); h_r = 4 sigma 283^3 / (2/0.837 - 1)
  CHECK(near(si(gap_conductance({}, 12_mm, from_si<Temperature>(290.5), from_si<Temperature>(275.5))),
             0.02496 / 0.012 + 4.0 * 5.67e-8 * 283.0 * 283.0 * 283.0 / (2.0 / 0.837 - 1.0), 0.003));
}

TEST_CASE("humid gap under a lid [Hollands et al. 1976 against EN 673, horizontal, heat upwards: within 20 %]") {
  // Two fits to different measurements; between the onset of convection and Ra 1e6 they cross twice.
  for (double rayleigh = 1e4; rayleigh <= 1e6; rayleigh *= 1.5)
    CHECK(near(kernel::nusselt_gap_from_below(rayleigh), kernel::nusselt_gap_heat_upwards(rayleigh), 0.20));
  CHECK(kernel::nusselt_gap_from_below(1700.0) == 1.0);  // onset at Ra 1708, linear theory of Rayleigh and Jeffreys
}
