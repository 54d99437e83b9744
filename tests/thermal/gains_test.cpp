#include "theca/thermal/gains.hpp"

#include <doctest/doctest.h>

#include "support/near.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

TEST_CASE("lights: share to the water and rest to the room are all of the power") {
  const HeatGain g = light_gain("lights", 588_W, 0.18);
  CHECK(near(si(g.power), 105.84, 1e-12));
  CHECK(near(si(g.power) + si(g.to_room), 588.0, 1e-12));
}

TEST_CASE("pump: 10 m3/h against 5 m are 137 W of hydraulic power; with its losses they are the input [rho g Q H]") {
  const PumpHeat h = pump_heat(1300_W, 0.70, 10.0 / 3600.0 * units::cubic_metre_per_second, 5_m, 1000_kg_m3);
  CHECK(near(si(h.hydraulic), 1000.0 * 9.80665 * 5.0 / 360.0, 1e-12));
  CHECK(near(si(h.hydraulic) + si(h.pump_losses) + si(h.motor_losses), 1300.0, 1e-12));
  CHECK(near(si(h.motor_losses), 390.0, 1e-12));
}

TEST_CASE("pump: a motor in the water gives it everything, one in air keeps its losses for the room") {
  const HeatGain wet = pump_gain("return", 1300_W, 0.70, MotorCooling::by_water);
  CHECK(si(wet.power) == 1300.0);
  CHECK(si(wet.to_room) == 0.0);
  const HeatGain dry = pump_gain("return", 1300_W, 0.70, MotorCooling::by_air);
  CHECK(near(si(dry.power), 910.0, 1e-12));
  CHECK(near(si(dry.to_room), 390.0, 1e-12));
}

TEST_CASE("gains refuse impossible input by name") {
  CHECK(contains(message_of<InvalidInput>([] { light_gain("lights", 100_W, 1.1); }), "share to water"));
  CHECK(contains(message_of<InvalidInput>([] { pump_gain("pump", from_si<Power>(-1.0), 0.7, MotorCooling::by_air); }),
                 "input"));
  CHECK(contains(message_of<InvalidInput>([] { pump_heat(100_W, 0.5, from_si<VolumeFlow>(0.01), 5_m, 1000_kg_m3); }),
                 "hydraulic power"));
}
