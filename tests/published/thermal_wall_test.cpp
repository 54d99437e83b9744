// Wall transmittance against a glazing standard and against hand calculation.
#include <doctest/doctest.h>

#include "support/near.hpp"
#include "theca/thermal/wall.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
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
