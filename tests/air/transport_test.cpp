// Transport properties of air: how they hang together, and refusals.
#include "theca/air/transport.hpp"

#include <limits>

#include "support/near.hpp"
#include "theca/air.hpp"

using namespace theca;
using namespace theca::literals;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

TEST_CASE("transport: the Prandtl number is kinematic viscosity over thermal diffusivity, at any pressure") {
  for (int t = -40; t <= 100; t += 5)
    for (const double p : {70e3, 101325.0, 150e3}) {
      const auto pressure = from_si<AbsolutePressure>(p);
      near(air::kinematic_viscosity(celsius(t), pressure) / air::thermal_diffusivity(celsius(t), pressure),
           air::prandtl(celsius(t)), 1e-13);
    }
}

TEST_CASE("transport: diffusivities go with one over pressure [kinetic theory]") {
  const auto half = from_si<AbsolutePressure>(50662.5);
  near(air::kinematic_viscosity(20_degC, half) / air::kinematic_viscosity(20_degC), 2.0, 1e-14);
  near(air::thermal_diffusivity(20_degC, half) / air::thermal_diffusivity(20_degC), 2.0, 1e-14);
  near(air::vapour_diffusivity(20_degC, half) / air::vapour_diffusivity(20_degC), 2.0, 1e-14);
}

TEST_CASE("transport: the density in the diffusivities is that of dry air in the moist air functions") {
  for (int t = -40; t <= 100; t += 20)
    near(air::kernel::dry_density(si(celsius(t)), 101325.0),
         si(air::density({.temperature = celsius(t), .humidity = 0_rh})), 1e-14);
}

TEST_CASE("transport: all rise with temperature") {
  for (int t = -40; t < 100; ++t) {
    const Temperature cooler = celsius(t);
    const Temperature warmer = celsius(t + 1);
    CHECK(air::dynamic_viscosity(warmer) > air::dynamic_viscosity(cooler));
    CHECK(air::thermal_conductivity(warmer) > air::thermal_conductivity(cooler));
    CHECK(air::kinematic_viscosity(warmer) > air::kinematic_viscosity(cooler));
    CHECK(air::thermal_diffusivity(warmer) > air::thermal_diffusivity(cooler));
    CHECK(air::vapour_diffusivity(warmer) > air::vapour_diffusivity(cooler));
  }
}

TEST_CASE("transport: outside -40 to 100 degC and 50 to 200 kPa is refused by name") {
  const double not_a_number = std::numeric_limits<double>::quiet_NaN();
  for (const double bad : {-40.1, 100.1, not_a_number}) {
    const Temperature t = celsius(bad);
    CHECK(contains(message_of<InvalidInput>([&] { air::dynamic_viscosity(t); }), "temperature"));
    CHECK(contains(message_of<InvalidInput>([&] { air::thermal_conductivity(t); }), "temperature"));
    CHECK(contains(message_of<InvalidInput>([&] { air::specific_heat_capacity(t); }), "temperature"));
    CHECK(contains(message_of<InvalidInput>([&] { air::kinematic_viscosity(t); }), "temperature"));
    CHECK(contains(message_of<InvalidInput>([&] { air::thermal_diffusivity(t); }), "temperature"));
    CHECK(contains(message_of<InvalidInput>([&] { air::prandtl(t); }), "temperature"));
    CHECK(contains(message_of<InvalidInput>([&] { air::vapour_diffusivity(t); }), "temperature"));
  }
  for (const double bad : {0.0, -101325.0, 49.9e3, 200.1e3, not_a_number}) {
    const auto p = from_si<AbsolutePressure>(bad);
    CHECK(contains(message_of<InvalidInput>([&] { air::kinematic_viscosity(20_degC, p); }), "pressure"));
    CHECK(contains(message_of<InvalidInput>([&] { air::thermal_diffusivity(20_degC, p); }), "pressure"));
    CHECK(contains(message_of<InvalidInput>([&] { air::vapour_diffusivity(20_degC, p); }), "pressure"));
  }
}
