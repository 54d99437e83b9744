// Properties of seawater: limits, shape and refusals. Published values are in tests/published.
#include <limits>

#include "support/near.hpp"
#include "theca/seawater.hpp"

using namespace theca;
using namespace theca::literals;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {

template <class F>
void over_the_range(F&& f) {
  for (int t = 0; t <= 40; ++t)
    for (int s = 0; s <= 42; ++s) f(celsius(t), AbsoluteSalinity(s));
}

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

template <class F>
void refuses_bad_states(F&& property) {
  for (const double t : {-0.01, 40.01, not_a_number, infinity, -infinity}) {
    CAPTURE(t);
    CHECK(contains(message_of<InvalidInput>([&] { property(celsius(t), 35_ppt); }), "temperature"));
  }
  for (const double s : {-0.01, 42.01, not_a_number, infinity}) {
    CAPTURE(s);
    CHECK(contains(message_of<InvalidInput>([&] { property(25_degC, AbsoluteSalinity(s)); }), "salinity"));
  }
}

}  // namespace

TEST_CASE("density: rises with salt everywhere, falls with heat in seawater [physics]") {
  over_the_range([](Temperature t, AbsoluteSalinity s) {
    if (s.grams_per_kg < 42.0)
      CHECK(seawater::density(t, s) < seawater::density(t, AbsoluteSalinity(s.grams_per_kg + 1.0)));
    // Above 24.7 g/kg seawater has its greatest density at its freezing point.
    if (s.grams_per_kg >= 25.0 && in_celsius(t) < 40.0)
      CHECK(seawater::density(t, s) > seawater::density(celsius(in_celsius(t) + 1.0), s));
  });
}

TEST_CASE("density: fresh water is densest near 4 degC [physics]") {
  CHECK(seawater::density(4_degC, 0_ppt) > seawater::density(3_degC, 0_ppt));
  CHECK(seawater::density(4_degC, 0_ppt) > seawater::density(5_degC, 0_ppt));
}

TEST_CASE("viscosity: falls with heat, rises with salt, kinematic is dynamic over density") {
  over_the_range([](Temperature t, AbsoluteSalinity s) {
    const double mu = si(seawater::dynamic_viscosity(t, s));
    if (in_celsius(t) < 40.0) CHECK(mu > si(seawater::dynamic_viscosity(celsius(in_celsius(t) + 1.0), s)));
    if (s.grams_per_kg < 42.0) CHECK(mu < si(seawater::dynamic_viscosity(t, AbsoluteSalinity(s.grams_per_kg + 1.0))));
    near(si(seawater::kinematic_viscosity(t, s)) * si(seawater::density(t, s)), mu, 1e-14);
  });
}

TEST_CASE("thermal conductivity and heat capacity fall with salt, vapour pressure too, surface tension rises") {
  over_the_range([](Temperature t, AbsoluteSalinity s) {
    if (s.grams_per_kg == 42.0) return;
    const AbsoluteSalinity saltier(s.grams_per_kg + 1.0);
    CHECK(seawater::thermal_conductivity(t, s) > seawater::thermal_conductivity(t, saltier));
    CHECK(seawater::specific_heat_capacity(t, s) > seawater::specific_heat_capacity(t, saltier));
    CHECK(si(seawater::vapour_pressure(t, s)) > si(seawater::vapour_pressure(t, saltier)));
    if (in_celsius(t) >= 1.0) CHECK(seawater::surface_tension(t, s) < seawater::surface_tension(t, saltier));
  });
}

TEST_CASE("vapour pressure: pure water at a temperature is what saturates the air above it") {
  for (int t = 1; t <= 40; ++t)
    near(si(seawater::vapour_pressure(celsius(t), 0_ppt)), si(air::saturation_vapour_pressure(celsius(t))), 1e-15);
}

TEST_CASE("latent heat: per kilogram of water evaporated, so not lowered by the salt left behind") {
  for (int t = 0; t <= 40; t += 5)
    CHECK(seawater::latent_heat_of_vaporisation(celsius(t), 35_ppt) ==
          seawater::latent_heat_of_vaporisation(celsius(t), 0_ppt));
}

TEST_CASE("refractive index: blue bends more than red, salt raises, heat lowers") {
  CHECK(seawater::refractive_index(450_nm, 25_degC, 35_ppt) > seawater::refractive_index(650_nm, 25_degC, 35_ppt));
  CHECK(seawater::refractive_index(550_nm, 25_degC, 35_ppt) > seawater::refractive_index(550_nm, 25_degC, 0_ppt));
  CHECK(seawater::refractive_index(550_nm, 20_degC, 35_ppt) > seawater::refractive_index(550_nm, 28_degC, 35_ppt));
}

TEST_CASE("the properties join smoothly: no step between neighbouring states") {
  over_the_range([](Temperature t, AbsoluteSalinity s) {
    if (in_celsius(t) == 40.0) return;
    const Temperature warmer = celsius(in_celsius(t) + 1e-6);
    near(si(seawater::density(warmer, s)), si(seawater::density(t, s)), 1e-8);
    near(si(seawater::vapour_pressure(warmer, s)), si(seawater::vapour_pressure(t, s)), 1e-6);
    near(si(seawater::specific_heat_capacity(warmer, s)), si(seawater::specific_heat_capacity(t, s)), 1e-8);
  });
}

TEST_CASE("in_range: agrees with what is refused") {
  CHECK(seawater::in_range(0_degC, 0_ppt));
  CHECK(seawater::in_range(40_degC, 42_ppt));
  CHECK_FALSE(seawater::in_range(celsius(40.01), 35_ppt));
  CHECK_FALSE(seawater::in_range(celsius(-0.01), 35_ppt));
  CHECK_FALSE(seawater::in_range(25_degC, AbsoluteSalinity(42.01)));
  CHECK_FALSE(seawater::in_range(celsius(not_a_number), 35_ppt));
  CHECK_FALSE(seawater::in_range(25_degC, AbsoluteSalinity(not_a_number)));
}

TEST_CASE("every property refuses a state outside 0 to 40 degC and 0 to 42 g/kg, and what is not a number") {
  refuses_bad_states([](auto t, auto s) { seawater::density(t, s); });
  refuses_bad_states([](auto t, auto s) { seawater::dynamic_viscosity(t, s); });
  refuses_bad_states([](auto t, auto s) { seawater::kinematic_viscosity(t, s); });
  refuses_bad_states([](auto t, auto s) { seawater::specific_heat_capacity(t, s); });
  refuses_bad_states([](auto t, auto s) { seawater::thermal_conductivity(t, s); });
  refuses_bad_states([](auto t, auto s) { seawater::vapour_pressure(t, s); });
  refuses_bad_states([](auto t, auto s) { seawater::latent_heat_of_vaporisation(t, s); });
  refuses_bad_states([](auto t, auto s) { seawater::surface_tension(t, s); });
  refuses_bad_states([](auto t, auto s) { seawater::refractive_index(550.0 * units::nanometre, t, s); });
}

TEST_CASE("the refusal says value and accepted range in the units given") {
  const auto message = message_of<InvalidInput>([] { seawater::density(41_degC, 35_ppt); });
  CHECK(contains(message, "41 degC"));
  CHECK(contains(message, "0 degC to 40 degC"));
}

TEST_CASE("fits that are narrower say so: surface tension below 1 degC, refractive index") {
  CHECK(contains(message_of<OutOfValidity>([] { seawater::surface_tension(0.9_degC, 35_ppt); }), "1 degC"));
  CHECK_NOTHROW(seawater::surface_tension(1_degC, 35_ppt));
  CHECK(contains(message_of<OutOfValidity>([] { seawater::refractive_index(399_nm, 25_degC, 35_ppt); }), "wavelength"));
  CHECK(contains(message_of<OutOfValidity>([] { seawater::refractive_index(701_nm, 25_degC, 35_ppt); }), "wavelength"));
  CHECK(contains(message_of<OutOfValidity>([] { seawater::refractive_index(550_nm, 30.1_degC, 35_ppt); }), "30 degC"));
  CHECK(contains(message_of<OutOfValidity>([] { seawater::refractive_index(550_nm, 25_degC, 40.1_ppt); }), "40 g/kg"));
  for (const double bad : {0.0, -5e-7, not_a_number, infinity})
    CHECK(contains(message_of<InvalidInput>([&] { seawater::refractive_index(from_si<Length>(bad), 25_degC, 35_ppt); }),
                   "wavelength"));
}

TEST_CASE("kernels take any scalar: single precision agrees to its own rounding") {
  const auto same = [](float single, double full) { near(static_cast<double>(single), full, 1e-5); };
  same(seawater::kernel::density(298.15F, 0.035F), seawater::kernel::density(298.15, 0.035));
  same(seawater::kernel::specific_heat_capacity(298.15F, 0.035F),
       seawater::kernel::specific_heat_capacity(298.15, 0.035));
  same(seawater::kernel::dynamic_viscosity(298.15F, 0.035F), seawater::kernel::dynamic_viscosity(298.15, 0.035));
  same(seawater::kernel::thermal_conductivity(298.15F, 0.035F), seawater::kernel::thermal_conductivity(298.15, 0.035));
  same(seawater::kernel::surface_tension(298.15F, 0.035F), seawater::kernel::surface_tension(298.15, 0.035));
  same(seawater::kernel::vapour_pressure(298.15F, 0.035F), seawater::kernel::vapour_pressure(298.15, 0.035));
  same(seawater::kernel::latent_heat_of_vaporisation(298.15F), seawater::kernel::latent_heat_of_vaporisation(298.15));
  same(seawater::kernel::refractive_index(550e-9F, 298.15F, 0.035F),
       seawater::kernel::refractive_index(550e-9, 298.15, 0.035));
}
