#include "theca/study/assessment.hpp"

#include <cmath>
#include <limits>
#include <set>

#include "support/near.hpp"
#include "theca/study/design_file.hpp"
#include "theca/study/parts.hpp"

using namespace theca;
using namespace theca::study;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

namespace {
const Design& demo() {
  static const Design design = read_design(THECA_DEMO_TOML);
  return design;
}
const Assessment& assessed() {
  static const Assessment assessment = assess(demo());
  return assessment;
}
}  // namespace

TEST_CASE("study: the demo farm gets checks of every module, some holding, some failing") {
  CHECK(assessed().checks.size() >= 25);
  CHECK(assessed().farm == "Wexholm Nursery");
  for (const std::string module : {"structure: ", "hydraulics: ", "light: ", "thermal: ", "farm: "}) {
    CAPTURE(module);
    CHECK(std::any_of(assessed().checks.begin(), assessed().checks.end(),
                      [&](const Check& c) { return c.name.rfind(module, 0) == 0; }));
  }
  CHECK(assessed().count(Verdict::holds) >= 5);
  CHECK(assessed().count(Verdict::fails) >= 3);
}

TEST_CASE("study: every check carries its evidence") {
  std::set<std::string> names;
  for (const Check& check : assessed().checks) {
    CAPTURE(check.name);
    CHECK(names.insert(check.name).second);
    CHECK(!check.question.empty());
    CHECK(!check.where.empty());
    CHECK(!check.source.empty());
    CHECK(std::isfinite(check.utilisation));
    if (check.verdict == Verdict::outside_validity) {
      CHECK(!check.caution.empty());
      continue;
    }
    CHECK((check.utilisation > 1.0) == (check.verdict == Verdict::fails));
  }
  CHECK(!assessed().cautions().empty());
}

TEST_CASE("study: floor load of a full tank agrees with a hand calculation [weights summed in pounds and feet]") {
  // Tank A, 96 x 30 x 16 in outside, 12 mm glass, water to the wall top; glass 2500 kg/m3 = 156.07 lb/ft3; seawater at
  // 78 degF and S 35 weighs 63.87 lb/ft3 (1023.2 kg/m3, EOS-80). The walls stand on the base.
  const double t = 12.0 / 304.8;  // ft
  const double L = 8.0, W = 2.5, H = 16.0 / 12.0;
  const double water = (L - 2 * t) * (W - 2 * t) * (H - t) * 63.87;
  const double glass = (L * W * t + (2 * L + 2 * (W - 2 * t)) * (H - t) * t) * 156.07;
  const double b = 2.5 / 12.0;  // rim brace all round inside the walls
  const double brace = 2 * b * ((L - 2 * t) + (W - 2 * t) - 2 * b) * t * 156.07;
  const double psf = (water + glass + brace + 220.0 + 60.0) / (L * W);
  CHECK(near(assessed().at("structure: tank A floor load").demand.shown_value, psf, 1e-3));  // density to 4 digits
}

TEST_CASE("study: lighting circuit agrees with a hand calculation [NFPA 70 210.20(A): 125 % of the continuous load]") {
  const double amperes = 1.25 * 25 * 84.0 / 120.0;  // 14 tanks of 7 fixtures on 4 circuits: 25 on the fullest
  CHECK(near(assessed().at("farm: lighting circuits").demand.si_value, amperes, 1e-12));
}

TEST_CASE("study: make-up water covers evaporation, the weekly change and the resets [volumes by hand, gallons]") {
  const auto gallons = [](double length, double width, double depth) { return length * width * depth / 231.0; };
  const double t12 = 12 / 25.4, t10 = 10 / 25.4;
  const double tanks = 10 * gallons(96 - 2 * t12, 30 - 2 * t12, 14) + 4 * gallons(96 - 2 * t10, 36 - 2 * t10, 18);
  const double system = tanks + gallons(107, 39, 12);
  const double mixed = 0.10 * system / 7 + tanks / 14 / 35;
  const double evaporated = 30.07;  // gal/d, balance of the same winter day recomputed separately from its models
  // The evaporation is good to its printed four digits; fresh water is taken at 1000 kg/m3 throughout.
  CHECK(near(assessed().at("thermal: make-up water").demand.shown_value, evaporated + mixed, 1e-3));
}

TEST_CASE("study: alkalinity demand agrees with a hand calculation [2 eq per mole of CaCO3, 100.09 g/mol]") {
  const double slots = double(all_slots(demo()));
  const double eq_per_day = slots * 20.0 * 1.2e-3 / 100.086 * 2.0;
  const double litres = in(system_volume(demo()), units::litre);
  const double dKH = 1000.0 * eq_per_day / litres * 2.80387;
  CHECK(near(assessed().at("farm: alkalinity swing").demand.shown_value, dKH, 1e-4));  // molar mass to 6 digits
}

TEST_CASE("study: slots of a tank are the racks' share of the inside area over the pitch squared") {
  const double inside = (96.0 - 2 * 12 / 25.4) * (30.0 - 2 * 12 / 25.4);
  CHECK(slots_per_tank(demo(), tank_kind(demo(), "A")) == long(0.85 * inside / 9.0));
  CHECK(near(stocked_slots(demo()), double(all_slots(demo())) * 13.0 / 14.0, 1e-12));
}

TEST_CASE("study: a thicker wall lowers its stress and a fifth circuit cures an overloaded one") {
  Design design = demo();
  design.tanks.kinds.at("A").glass_nominal = 19_mm;
  design.tanks.kinds.at("A").glass_design = 18.26_mm;
  design.electricity.lighting_circuits = 5;
  const Assessment better = assess(design);
  CHECK(better.at("structure: tank A long wall stress").utilisation <
        assessed().at("structure: tank A long wall stress").utilisation);
  CHECK(near(better.at("farm: lighting circuits").utilisation,
             0.8 * assessed().at("farm: lighting circuits").utilisation, 1e-12));
}

TEST_CASE("study: the same design gives the same assessment to the last bit") {
  const Assessment again = assess(demo());
  REQUIRE(again.checks.size() == assessed().checks.size());
  for (std::size_t i = 0; i < again.checks.size(); ++i) {
    CAPTURE(again.checks[i].name);
    CHECK(again.checks[i].utilisation == assessed().checks[i].utilisation);
  }
}

TEST_CASE("study: a design that contradicts itself is refused with the name of what does not fit") {
  Design all_fallow = demo();
  all_fallow.production.rotation.fallow_tanks = 14;
  CHECK(contains(message_of<InvalidInput>([&] { assess(all_fallow); }), "fallow_tanks"));
  Design no_proposal = demo();
  no_proposal.money.lights_as = "L9";
  CHECK(contains(message_of<InvalidInput>([&] { assess(no_proposal); }), "one of lights.proposals: L0, L1, L2"));
  Design deep = demo();
  deep.tanks.kinds.at("A").water_depth = 20_in;
  CHECK(contains(message_of<InvalidInput>([&] { assess(deep); }), "tanks.A.water_depth"));
  Design nowhere = demo();
  nowhere.rooms.layout.rows.erase("north");
  CHECK(contains(message_of<InvalidInput>([&] { assess(nowhere); }), "every tank in one row"));
  CHECK(contains(message_of<InvalidInput>([&] { assessed().at("no such check"); }), "no such check"));
}

TEST_CASE("study: a farm without rotation has no move to fit and loses no slots") {
  Design design = demo();
  design.production.rotation.fallow_tanks = 0;
  const Assessment assessment = assess(design);
  CHECK(assessment.checks.size() == assessed().checks.size() - 1);
  CHECK(stocked_slots(design) == double(all_slots(design)));
}

TEST_CASE("study: a pump that cannot lift the water takes no other module's checks with it") {
  Design design = demo();
  for (PumpPoint& point : design.pump.curve) point.head = point.head * 0.1;
  const Assessment assessment = assess(design);
  CHECK(assessment.at("hydraulics: manifold").verdict == Verdict::outside_validity);
  CHECK_NOTHROW(assessment.at("structure: tank A floor load"));
  CHECK_NOTHROW(assessment.at("farm: labour"));
}

TEST_CASE("study: a correlation left behind is said without hiding the other checks") {
  Design design = demo();
  design.site.water.temperature = 84_degF;  // pest generation times are published from 24 to 27 degC
  const Assessment assessment = assess(design);
  CHECK(assessment.at("farm: quarantine places").verdict == Verdict::outside_validity);
  CHECK(assessment.checks.size() == assessed().checks.size());
}
