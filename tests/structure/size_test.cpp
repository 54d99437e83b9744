// Sizing: the stock sheet found is the thinnest that meets both allowables.
#include "theca/structure/size.hpp"

#include <cmath>
#include <limits>
#include <vector>

#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/materials/glass.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using test::contains;
using test::message_of;
using test::near;

namespace {

Panel wall() {
  Panel p;
  p.width = 1.2_m;
  p.height = 420_mm;
  p.material = materials::float_glass();
  return p;
}
const PressureLoad water = hydrostatic(390_mm, 1023_kg_m3);

}  // namespace

TEST_CASE("thinnest stock: by strength it follows t = sqrt(stress ratio), by deflection the cube root [scaling laws]") {
  Panel ten = wall();
  ten.thickness = 10_mm;
  const BentPanel at_ten = bend(ten, water);
  const auto stock = materials::float_glass_thicknesses();
  for (const double stress_MPa : {1.0, 2.0, 5.0, 8.0}) {
    CAPTURE(stress_MPa);
    const Pressure allowable = stress_MPa * units::megapascal;
    const double needed = 0.01 * std::sqrt(si(at_ten.max_tension) / si(allowable));
    const auto found = thinnest(wall(), water, allowable, 1_m, stock);
    REQUIRE(found);
    CHECK(si(found->thickness.minimum) >= needed);
    for (const auto& sheet : stock)
      if (sheet.minimum < found->thickness.minimum) CHECK(si(sheet.minimum) < needed);
    CHECK(found->bent.max_tension <= allowable);
    CHECK(near(found->bent.panel.thickness, found->thickness.minimum, 1e-15));
  }
  for (const double limit_mm : {0.3, 1.0, 2.5}) {
    CAPTURE(limit_mm);
    const Length limit = limit_mm * units::millimetre;
    const double needed = 0.01 * std::cbrt(si(at_ten.max_deflection) / si(limit));
    const auto found = thinnest(wall(), water, 1_GPa, limit, stock);
    REQUIRE(found);
    CHECK(si(found->thickness.minimum) >= needed);
    for (const auto& sheet : stock)
      if (sheet.minimum < found->thickness.minimum) CHECK(si(sheet.minimum) < needed);
  }
}

TEST_CASE("thinnest stock: the panel handed back is the one bent at that thickness, scaled or solved again") {
  const auto stock = materials::float_glass_thicknesses();
  for (int kind = 0; kind < 3; ++kind) {
    CAPTURE(kind);
    Panel p = wall();
    if (kind == 1) p.top = elastic(from_si<EdgeStiffness>(3e4));
    if (kind == 2) p.top = beam_edge(from_si<BeamStiffness>(500.0));
    const auto found = thinnest(p, water, 5_MPa, 2_mm, stock);
    REQUIRE(found);
    p.thickness = found->thickness.minimum;
    const BentPanel direct = bend(p, water);
    CHECK(near(found->bent.max_tension, direct.max_tension, 1e-9));
    CHECK(near(found->bent.max_deflection, direct.max_deflection, 1e-9));
    CHECK(near(found->bent.deflection_over_thickness, direct.deflection_over_thickness, 1e-9));
    CHECK(near(found->bent.at(300_mm, 200_mm).deflection, direct.at(300_mm, 200_mm).deflection, 1e-9));
    CHECK(near(found->bent.at(300_mm, 200_mm).far_face.x, direct.at(300_mm, 200_mm).far_face.x, 1e-9));
    CHECK(near(found->bent.reactions.bottom, direct.reactions.bottom, 1e-9));
  }
}

TEST_CASE("thinnest stock: order of the list does not matter, the minimum thickness counts") {
  const std::vector<materials::StockThickness> stock = {
      {19_mm, 18.26_mm}, {12_mm, 11.91_mm}, {12.5_mm, 9_mm}, {6_mm, 5.56_mm}};
  const auto found = thinnest(wall(), water, 6_MPa, 1_m, stock);
  REQUIRE(found);
  CHECK(found->thickness.nominal == 12.5_mm);
}

TEST_CASE("thinnest stock: nothing where nothing does, nor where only a sheet too thin for linear theory would") {
  const std::vector<materials::StockThickness> thin = {{2_mm, 1.8_mm}};
  CHECK_FALSE(thinnest(wall(), water, 1_MPa, 1_mm, thin));
  CHECK_FALSE(thinnest(wall(), water, 1_GPa, 10_m, thin));
  const std::vector<materials::StockThickness> stout = {{60_mm, 59_mm}};
  CHECK_FALSE(thinnest(wall(), water, 1_GPa, 10_m, stout));
}

TEST_CASE("thinnest stock: a foil too thin to calculate does not end the search, a panel of no valid shape is said") {
  const std::vector<materials::StockThickness> with_foil = {{0.004_mm, 0.003_mm}, {19_mm, 18.26_mm}};
  const auto found = thinnest(wall(), water, 6_MPa, 1_m, with_foil);
  REQUIRE(found);
  CHECK(found->thickness.nominal == 19_mm);
  Panel ribbon = wall();
  ribbon.width = 21.0 * ribbon.height;
  CHECK(contains(message_of<OutOfValidity>([&] { thinnest(ribbon, water, 6_MPa, 1_m, with_foil); }), "width / height"));
  Panel flat = wall();
  flat.height = 0_m;
  CHECK(contains(message_of<InvalidInput>([&] { thinnest(flat, water, 6_MPa, 1_m, with_foil); }), "height"));
}

TEST_CASE("sizing: bad input is refused by name") {
  const auto stock = materials::float_glass_thicknesses();
  for (const double bad : {0.0, -1.0, std::numeric_limits<double>::quiet_NaN()}) {
    CHECK(contains(message_of<InvalidInput>([&] { thinnest(wall(), water, bad * units::pascal, 1_m, stock); }),
                   "allowable tension"));
    CHECK(contains(message_of<InvalidInput>([&] { thinnest(wall(), water, 1_MPa, bad * units::metre, stock); }),
                   "allowable deflection"));
    const std::vector<materials::StockThickness> minimum = {{10_mm, bad * units::metre}};
    CHECK(contains(message_of<InvalidInput>([&] { thinnest(wall(), water, 1_MPa, 1_m, minimum); }), "minimum"));
    const std::vector<materials::StockThickness> nominal = {{bad * units::metre, 10_mm}};
    CHECK(contains(message_of<InvalidInput>([&] { thinnest(wall(), water, 1_MPa, 1_m, nominal); }), "nominal"));
  }
  CHECK(contains(message_of<InvalidInput>([&] { thinnest(wall(), water, 1_MPa, 1_m, {}); }), "stock"));
  CHECK_THROWS_AS(thinnest(wall(), hydrostatic(1_m, 1000_kg_m3), 1_MPa, 1_m, stock), InvalidInput);
}
