// Materials: plausible values, design strengths and stock thicknesses. Published values are in tests/published.
#include "theca/materials.hpp"

#include <cmath>
#include <limits>
#include <vector>

#include "support/near.hpp"

using namespace theca;
using namespace theca::literals;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

namespace {
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();
std::vector<materials::Material> all() {
  return {materials::float_glass(),
          materials::low_iron_glass(),
          materials::toughened_glass(),
          materials::laminated_glass(),
          materials::acrylic(),
          materials::silicone_adhesive(),
          materials::pvc()};
}
}  // namespace

TEST_CASE("every material is possible, named and has a source") {
  for (const materials::Material& m : all()) {
    CAPTURE(m.name);
    CHECK_NOTHROW(materials::require_possible(m));
    CHECK_FALSE(m.name.empty());
    CHECK_FALSE(m.source.empty());
  }
}

TEST_CASE("require_possible: each property out of its bounds is refused by name") {
  const auto refused = [](auto change, const char* argument) {
    materials::Material m = materials::float_glass();
    change(m);
    CHECK(contains(message_of<InvalidInput>([&] { materials::require_possible(m); }), argument));
  };
  refused([](auto& m) { m.youngs_modulus = 0.0_Pa; }, "Young's modulus");
  refused([](auto& m) { m.poisson_ratio = 0.51; }, "Poisson's ratio");
  refused([](auto& m) { m.poisson_ratio = -0.1; }, "Poisson's ratio");
  refused([](auto& m) { m.density = from_si<Density>(not_a_number); }, "density");
  refused([](auto& m) { m.thermal_conductivity = from_si<ThermalConductivity>(-1.0); }, "thermal conductivity");
  refused([](auto& m) { m.specific_heat_capacity = from_si<SpecificHeatCapacity>(infinity); }, "specific heat");
  refused([](auto& m) { m.thermal_expansion = from_si<ThermalExpansion>(-1e-6); }, "thermal expansion");
  refused([](auto& m) { m.refractive_index = 0.99; }, "refractive index");
  refused([](auto& m) { m.emissivity = 1.01; }, "emissivity");
}

TEST_CASE("acrylic against glass: softer, lighter, insulates better; creep takes half the stiffness or more") {
  CHECK(materials::acrylic().youngs_modulus < materials::float_glass().youngs_modulus);
  CHECK(materials::acrylic().density < materials::float_glass().density);
  CHECK(materials::acrylic().thermal_conductivity < 0.25 * materials::float_glass().thermal_conductivity);
  CHECK(materials::acrylic_creep_modulus() < 0.5 * materials::acrylic().youngs_modulus);
}

TEST_CASE("creep of acrylic: log-linear between the points its docstring states, refused beyond them [definition]") {
  using materials::acrylic_creep_modulus;
  CHECK(near(acrylic_creep_modulus(1.0 * units::minute).value, 3.3_GPa, 1e-12));
  CHECK(near(acrylic_creep_modulus(1.0 * units::hour).value, 2.9_GPa, 1e-12));
  CHECK(near(acrylic_creep_modulus(60.0 * units::hour).value.value(), 2.9e9 - 0.7e9 * std::log(60.0) / std::log(1000.0),
             1e-12));
  CHECK(near(acrylic_creep_modulus(10.0 * units::year).value, acrylic_creep_modulus(), 1e-12));
  CHECK(acrylic_creep_modulus(1.0 * units::year).spread > acrylic_creep_modulus(1.0 * units::hour).spread);
  CHECK(contains(message_of<OutOfValidity>([] { acrylic_creep_modulus(11.0 * units::year); }), "time after loading"));
  CHECK(contains(message_of<OutOfValidity>([] { acrylic_creep_modulus(from_si<Time>(not_a_number)); }),
                 "time after loading"));
}

TEST_CASE("acrylic in warm water: softer and weaker by the degree, the stated curve at its own temperature") {
  using materials::acrylic_creep_modulus;
  const Time year = 1.0 * units::year;
  CHECK(near(acrylic_creep_modulus(year, 23_degC).value, acrylic_creep_modulus(year).value, 1e-12));
  CHECK(near(acrylic_creep_modulus(year, 23_degC).spread, acrylic_creep_modulus(year).spread, 1e-12));
  const auto warm = acrylic_creep_modulus(year, 30_degC);
  CHECK(warm.value < 0.9 * acrylic_creep_modulus(year).value);  // about 2 % a degree
  CHECK(warm.value > 0.8 * acrylic_creep_modulus(year).value);
  CHECK(warm.spread > acrylic_creep_modulus(year).spread);
  CHECK(acrylic_creep_modulus(year, 15_degC).value == acrylic_creep_modulus(year).value);  // no credit for the cold
  CHECK(materials::acrylic_long_term_strength(28_degC).value < materials::acrylic_long_term_strength(24_degC).value);
  const auto limit = materials::acrylic_long_term_strength(celsius(190.0 / 9.0));  // 70 degF
  CHECK(near(limit.value, materials::acrylic_long_term_strength().value, 1e-9));
  for (const double t : {9.9, 40.1, not_a_number})
    CHECK(contains(message_of<OutOfValidity>([&] { acrylic_creep_modulus(year, celsius(t)); }), "temperature"));
  for (const double t : {-0.1, 32.5, not_a_number})
    CHECK(
        contains(message_of<OutOfValidity>([&] { materials::acrylic_long_term_strength(celsius(t)); }), "temperature"));
}

TEST_CASE("silicone joint: a load that stays may be a tenth of a short one") {
  near(materials::silicone_permanent_strength().value / materials::silicone_short_term_strength().value, 0.1, 1e-12);
}

TEST_CASE("load duration: never more than 1, never rises, halves when the load lasts 2^16 times longer") {
  double last = 2.0;
  for (double seconds = 5.0; seconds < 1e11; seconds *= 2.0) {
    const double k = materials::load_duration_factor(seconds * units::second);
    CHECK(k <= 1.0);
    CHECK(k <= last);
    last = k;
  }
  near(materials::load_duration_factor(65536_min) / materials::load_duration_factor(1_min), 0.5, 1e-12);
}

TEST_CASE("load duration: too short, negative or not a number is refused") {
  for (const double s : {4.9, 0.0, -1.0, not_a_number, infinity})
    CHECK(contains(message_of<InvalidInput>([&] { materials::load_duration_factor(from_si<Time>(s)); }),
                   "load duration"));
}

TEST_CASE("glass strength: sandblasting, cut edges and long loads lower it, toughening raises it") {
  using namespace materials;
  const Pressure base = glass_design_strength().value;
  near(glass_design_strength({.surface = GlassSurface::sandblasted}).value / base, 0.6, 1e-12);
  near(glass_design_strength({.zone = StressedZone::edge_as_cut}).value / base, 0.8, 1e-12);
  near(glass_design_strength({.zone = StressedZone::edge_ground}).value / base, 0.8, 1e-12);
  near(glass_design_strength({.zone = StressedZone::edge_polished}).value / base, 1.0, 1e-12);
  CHECK(glass_design_strength({.load_duration = 10_min}).value > base);
  CHECK(glass_design_strength({.kind = GlassKind::toughened}).value > 9.0 * base);
  CHECK(glass_design_strength({.kind = GlassKind::toughened, .process = TougheningProcess::vertical}).value <
        glass_design_strength({.kind = GlassKind::toughened}).value);
  CHECK(glass_design_strength({.kind = GlassKind::toughened, .zone = StressedZone::edge_as_cut}).value ==
        glass_design_strength({.kind = GlassKind::toughened}).value);
}

TEST_CASE("glass strength: says what it holds for and where it comes from") {
  const materials::DesignStrength s = materials::glass_design_strength();
  CHECK(contains(s.basis, "k_mod 0.29"));
  CHECK(contains(s.basis, "factored loads"));
  CHECK(contains(s.source, "EN 16612"));
}

TEST_CASE("glass strength: factors under 1 and bad durations are refused by name") {
  using materials::glass_design_strength;
  for (const double bad : {0.99, 0.0, -1.8, not_a_number, infinity}) {
    CHECK(contains(message_of<InvalidInput>([&] { glass_design_strength({.material_factor = bad}); }),
                   "material factor"));
    CHECK(contains(message_of<InvalidInput>([&] { glass_design_strength({.prestress_factor = bad}); }),
                   "prestress factor"));
  }
  CHECK(contains(message_of<InvalidInput>([&] { glass_design_strength({.load_duration = 1_s}); }), "load duration"));
}

TEST_CASE("stock thickness: rising sizes, each minimum under its nominal and over the nominal of the size before") {
  const auto sizes = materials::float_glass_thicknesses();
  REQUIRE(sizes.size() >= 4);
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    CHECK(sizes[i].minimum < sizes[i].nominal);
    CHECK(materials::minimum_thickness(sizes[i].nominal) == sizes[i].minimum);
    if (i > 0) {
      CHECK(sizes[i].nominal > sizes[i - 1].nominal);
      CHECK(sizes[i].minimum > sizes[i - 1].minimum);
    }
  }
}

TEST_CASE("stock thickness: what is not a stock size is refused with the list") {
  const auto message = message_of<InvalidInput>([] { materials::minimum_thickness(11_mm); });
  CHECK(contains(message, "nominal thickness"));
  CHECK(contains(message, "11 mm"));
  CHECK(contains(message, "10, 12, 16, 19"));
  CHECK(contains(message_of<InvalidInput>([] { materials::minimum_thickness(11.91_mm); }), "stock size"));
  CHECK(contains(message_of<InvalidInput>([] { materials::minimum_thickness(0.5_in); }), "stock size"));
  for (const double bad : {0.0, -0.012, not_a_number, infinity})
    CHECK(contains(message_of<InvalidInput>([&] { materials::minimum_thickness(from_si<Length>(bad)); }),
                   "nominal thickness"));
}
