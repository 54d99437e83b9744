// Designs that cannot be meant: the reader of files and validate() refuse the same ones, each naming key, value and
// range.
#include "theca/study/validate.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <fstream>
#include <functional>
#include <iterator>
#include <limits>
#include <string>
#include <type_traits>
#include <vector>

#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/study/design_file.hpp"
#include "theca/study/schema.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::study;
using test::contains;
using test::message_of;

namespace {

const Design& demo() {
  static const Design design = read_design(THECA_DEMO_TOML);
  return design;
}

std::string demo_with(const std::string& old_text, const std::string& new_text) {
  std::ifstream stream(THECA_DEMO_TOML, std::ios::binary);
  std::string text((std::istreambuf_iterator<char>(stream)), std::istreambuf_iterator<char>());
  const auto at = text.find(old_text);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old_text.size(), new_text);
}

// One mistake, made in the file and in the structure.
struct Mistake {
  std::string old_text, new_text;
  std::function<void(Design&)> make;
  std::string key, accepted;
};

void refused_by_both(const Mistake& m) {
  CAPTURE(m.new_text);
  const std::string from_file =
      message_of<ParseError>([&] { parse_design(demo_with(m.old_text, m.new_text), "farm.toml"); });
  CAPTURE(from_file);
  CHECK(contains(from_file, ": " + m.key + ": "));
  CHECK(contains(from_file, m.accepted));
  CHECK_FALSE(contains(from_file, "farm.toml:1:1"));

  Design d = demo();
  m.make(d);
  try {
    validate(d);
    FAIL_CHECK("accepted");
  } catch (const InvalidInput& e) {
    CHECK(e.argument() == m.key);
    CHECK(contains(e.accepted(), m.accepted));
    CHECK_FALSE(e.value().empty());
  }
}

TankKind& A(Design& d) { return d.tanks.kinds.at("A"); }

}  // namespace

TEST_CASE("validate: the demonstration farm is accepted") {
  CHECK_NOTHROW(validate(demo()));
  CHECK(contradictions(demo()).empty());
}

TEST_CASE("validate: sizes of a tank that contradict one another") {
  refused_by_both({"\"14.0 in\"", "\"15.9 in\"", [](Design& d) { A(d).water_depth = 15.9_in; }, "tanks.A.water_depth",
                   "at most the wall height over the inside base, 394.4 mm"});
  refused_by_both({"glass_design = \"11.91 mm\"", "glass_design = \"12.1 mm\"",
                   [](Design& d) { A(d).glass_design = 12.1_mm; }, "tanks.A.glass_design",
                   "at most the nominal thickness, 12 mm"});
  refused_by_both({"glass_base = \"12 mm\"", "glass_base = \"16 in\"", [](Design& d) { A(d).glass_base = 16_in; },
                   "tanks.A.glass_base", "less than the outside height, 16 in"});
  refused_by_both({"outside_width = \"30 in\"", "outside_width = \"24 mm\"",
                   [](Design& d) { A(d).outside_width = 24_mm; }, "tanks.A.glass_nominal",
                   "less than half of the smaller outside size, 12 mm"});
  refused_by_both({"joint_bite = \"12 mm\"", "joint_bite = \"12.5 mm\"", [](Design& d) { A(d).joint_bite = 12.5_mm; },
                   "tanks.A.joint_bite", "at most the thickness of the pane it bonds, 12 mm"});
  refused_by_both({"leg_plate = \"3 in x 3 in\"", "leg_plate = \"22 in x 22 in\"",
                   [](Design& d) {
                     A(d).leg_plate = {22_in, 22_in};
                   },
                   "tanks.A.leg_plate", "plates that all fit under the tank, 1.85806 m2"});
  refused_by_both({"rack_plane = \"6 in\"", "rack_plane = \"14.5 in\"", [](Design& d) { A(d).rack_plane = 14.5_in; },
                   "tanks.A.rack_plane", "at most the water depth, 14 in"});
  refused_by_both({"crest = \"13.45 in\"", "crest = \"394.4 mm\"", [](Design& d) { A(d).weir.crest = 394.4_mm; },
                   "tanks.A.weir.crest", "less than the wall height over the inside base"});
  refused_by_both({"length = \"10 in\", crest = \"13.45 in\"", "length = \"96 in\", crest = \"13.45 in\"",
                   [](Design& d) { A(d).weir.length = 96_in; }, "tanks.A.weir.length",
                   "at most the longer inside size"});
  refused_by_both({"rim_brace = { width = \"2.5 in\"", "rim_brace = { width = \"15 in\"",
                   [](Design& d) { A(d).rim_brace->width = 15_in; }, "tanks.A.rim_brace.width",
                   "less than half of the smaller inside size"});
  refused_by_both({"design_thickness = \"11.91 mm\"", "design_thickness = \"13 mm\"",
                   [](Design& d) { A(d).rim_brace->design_thickness = 13_mm; }, "tanks.A.rim_brace.design_thickness",
                   "at most the nominal thickness, 12 mm"});
  refused_by_both({"design_thickness = \"9.02 mm\"", "design_thickness = \"13 mm\"",
                   [](Design& d) { d.tanks.kinds.at("B").rim_brace_variant->design_thickness = 13_mm; },
                   "tanks.B.rim_brace_variant.design_thickness", "at most the nominal thickness, 10 mm"});
  refused_by_both({"cross_brace_variant = { width = \"6 in\"", "cross_brace_variant = { width = \"91 in\"",
                   [](Design& d) { A(d).cross_brace_variant->width = 91_in; }, "tanks.A.cross_brace_variant.width",
                   "less than the clear length of the tank"});
}

TEST_CASE("validate: an emergency drain whose rim lies under the highest level, which lies within the walls") {
  refused_by_both({"rim = \"12.2 in\"", "rim = \"13.45 in\"",
                   [](Design& d) { A(d).emergency_drain->rim = A(d).emergency_drain->highest_level; },
                   "tanks.A.emergency_drain.rim", "less than the highest level, 13.45 in"});
  refused_by_both({"highest_level = \"13.45 in\"", "highest_level = \"16 in\"",
                   [](Design& d) { A(d).emergency_drain->highest_level = 16_in; },
                   "tanks.A.emergency_drain.highest_level", "at most the wall height over the inside base, 394.4 mm"});
}

TEST_CASE("validate: a level at the very top of the wall is accepted whatever the rounding of the difference") {
  Design d = demo();
  d.sump.highest_depth = 23.5_in;  // 24 in less 0.5 in, one bit less in binary
  CHECK(d.sump.highest_depth > d.sump.outside_height - d.sump.base);
  CHECK_NOTHROW(validate(d));
}

TEST_CASE("validate: strengths of glass and adhesive") {
  refused_by_both({"\"7.25 MPa\"", "\"121 MPa\"", [](Design& d) { d.tanks.glass.strength = 121.0 * units::megapascal; },
                   "tanks.glass.strength", "> 0 to 120 MPa"});
  refused_by_both({"allowable_permanent = \"0.014 MPa\"", "allowable_permanent = \"0.15 MPa\"",
                   [](Design& d) { d.tanks.joint.allowable_permanent = 0.15 * units::megapascal; },
                   "tanks.joint.allowable_permanent", "at most the short-term stress, 140 kPa"});
}

TEST_CASE("validate: names of tanks, and every tank in exactly one row") {
  refused_by_both({"\"T13\", \"T14\"]\nouts", "\"T13\", \"T13\"]\nouts",
                   [](Design& d) { d.tanks.kinds.at("B").names[3] = "T13"; }, "tanks.B.names[3]",
                   "a name that no other tank has"});
  refused_by_both({"\"T13\", \"T14\"]\ngap", "\"T13\", \"T13\"]\ngap",
                   [](Design& d) { d.rooms.layout.rows.at("north")[3] = "T13"; }, "rooms.layout.rows.north[3]",
                   "a tank that has no other place in the rows"});
  refused_by_both({"\"T13\", \"T14\"]\ngap", "\"T13\", \"T15\"]\ngap",
                   [](Design& d) { d.rooms.layout.rows.at("north")[3] = "T15"; }, "rooms.layout.rows.north[3]",
                   "the name of a tank in [tanks]"});
  refused_by_both({"\"T13\", \"T14\"]\ngap", "\"T13\"]\ngap",
                   [](Design& d) { d.rooms.layout.rows.at("north").pop_back(); }, "rooms.layout.rows",
                   "every tank in one row"});
  refused_by_both({"row_1 = \"18 ft\"", "row_3 = \"18 ft\"",
                   [](Design& d) {
                     auto node = d.pipes.header.to_first_branch.extract("row_1");
                     node.key() = "row_3";
                     d.pipes.header.to_first_branch.insert(std::move(node));
                   },
                   "pipes.header.to_first_branch", "every key of rooms.layout.rows"});
}

TEST_CASE("validate: strips of the hall that cannot hold their tanks, and a hall without an aisle") {
  refused_by_both({"\"row_1 30 in\"", "\"row_1 29 in\"",
                   [](Design& d) { d.rooms.layout.across_width[2].width = 29_in; }, "rooms.layout.across_width[2]",
                   "at least the outside width of tank kind \"A\", 30 in"});
  refused_by_both({"\"B 36 in\"", "\"B 35.9 in\"", [](Design& d) { d.rooms.layout.across_width[0].width = 35.9_in; },
                   "rooms.layout.across_width[0]", "at least the outside width of tank kind \"B\", 36 in"});
  refused_by_both({"\"B 36 in\"", "\"C 36 in\"", [](Design& d) { d.rooms.layout.across_width[0].tag = "C"; },
                   "rooms.layout.across_width[0]", "\"aisle\", a row of the layout or a kind of tank"});
  refused_by_both(
      {"\"aisle 48 in\", \"row_1 30 in\", \"aisle 48 in\", \"row_2 30 in\", \"aisle 48 in\"]",
       "\"row_1 30 in\", \"row_2 30 in\"]",
       [](Design& d) { std::erase_if(d.rooms.layout.across_width, [](const Strip& s) { return s.tag == "aisle"; }); },
       "rooms.layout.across_width", "at least one"});
}

TEST_CASE("validate: levels of the sump and the supply") {
  refused_by_both({"highest_depth = \"22 in\"", "highest_depth = \"23.6 in\"",
                   [](Design& d) { d.sump.highest_depth = 23.6_in; }, "sump.highest_depth",
                   "at most the wall height over the inside base, 0.5969 m"});
  refused_by_both({"running_depth = \"12 in\"", "running_depth = \"22.5 in\"",
                   [](Design& d) { d.sump.running_depth = 22.5_in; }, "sump.running_depth",
                   "at most the highest depth, 22 in"});
  refused_by_both({"intake_centre = \"2 in\"", "intake_centre = \"12 in\"",
                   [](Design& d) { d.sump.intake_centre = 12_in; }, "sump.intake_centre",
                   "less than the running depth, 12 in"});
  refused_by_both({"pump_draws_air_below = \"4 in\"", "pump_draws_air_below = \"12 in\"",
                   [](Design& d) { d.sump.pump_draws_air_below = 12_in; }, "sump.pump_draws_air_below",
                   "less than the running depth, 12 in"});
  refused_by_both({"wall = \"0.5 in\"", "wall = \"20 in\"", [](Design& d) { d.sump.wall = 20_in; }, "sump.wall",
                   "less than half of the smaller outside size, 20 in"});
  refused_by_both({"outlet_below_surface = \"3.0 in\"", "outlet_below_surface = \"14.1 in\"",
                   [](Design& d) { d.pipes.outlet_below_surface = 14.1_in; }, "pipes.outlet_below_surface",
                   "at most the water depth of tanks.A, 14 in"});
  refused_by_both({"counted_length = { \"3.068 in\" = ", "counted_length = { \"3.1 in\" = ",
                   [](Design& d) { d.pipes.content.counted_length.erase(d.pipes.main.bore); },
                   "pipes.content.counted_length", "every key of pipes.content.per_length"});
  refused_by_both({"[\"2000 gph\", \"29.4 ft\"]", "[\"4000 gph\", \"29.4 ft\"]",
                   [](Design& d) { d.pump.curve[1].flow = d.pump.curve[2].flow; }, "pump.curve[2]",
                   "more than the value before it, 4000 gph"});
  refused_by_both({"[\"4000 gph\", \"28 ft\"]", "[\"4000 gph\", \"29.4 ft\"]",
                   [](Design& d) { d.pump.curve[2].head = d.pump.curve[1].head; }, "pump.curve[2]",
                   "a head that falls from point to point, less than 29.4 ft"});
  refused_by_both({"slope = \"0.25 in/ft\"", "slope = \"11 %\"",
                   [](Design& d) { d.pipes.gravity_main.slope = from_si<Ratio>(0.11); }, "pipes.gravity_main.slope",
                   "> 0 to 10 %"});
  refused_by_both({"slope = \"0.25 in/ft\"", "slope = \"0 %\"", [](Design& d) { d.pipes.gravity_main.slope = Ratio(); },
                   "pipes.gravity_main.slope", "> 0 to 10 %"});
  refused_by_both({"manning_n = 0.009", "manning_n = 0.09", [](Design& d) { d.pipes.gravity_main.manning_n = 0.09; },
                   "pipes.gravity_main.manning_n", "0.006 to 0.03"});
}

TEST_CASE("validate: what is stated of the pump, its main and the level of the tanks") {
  refused_by_both({"tilt = \"0.01 in/ft\"", "tilt = \"6 %\"", [](Design& d) { A(d).tilt = from_si<Ratio>(0.06); },
                   "tanks.A.tilt", "0 ppm to 5 %"});
  refused_by_both({"best_efficiency_flow = \"8800 gph\"", "best_efficiency_flow = \"13600 gph\"",
                   [](Design& d) { d.pump.best_efficiency_flow = 13600_gph; }, "pump.best_efficiency_flow",
                   "at most the last flow of the curve, 13500 gph"});
  refused_by_both({"[0.4, 1.35]", "[1.0, 1.35]", [](Design& d) { d.pump.allowable_region->low = 1.0; },
                   "pump.allowable_region", "shares below and above 1"});
  refused_by_both({"[0.4, 1.35]", "[0.4, 0.9]", [](Design& d) { d.pump.allowable_region->high = 0.9; },
                   "pump.allowable_region", "shares below and above 1"});
  refused_by_both({"[\"6000 gph\", \"5 ft\"]", "[\"2000 gph\", \"5 ft\"]",
                   [](Design& d) { d.pump.npsh_required[1].flow = 2000_gph; }, "pump.npsh_required[1]",
                   "more than the value before it, 2000 gph"});
  refused_by_both({"[\"4000 gph\", 0.30]", "[\"2000 gph\", 0.30]",
                   [](Design& d) { d.pump.efficiency[1].flow = 2000_gph; }, "pump.efficiency[1]",
                   "more than the value before it, 2000 gph"});
  refused_by_both({"K_suction = 0.5", "K_suction = 7", [](Design& d) { d.pipes.main.K_suction = 7.0; },
                   "pipes.main.K_suction", "at most the sum of pipes.main.K, 6.13"});
  refused_by_both({"wall = \"0.216 in\"", "wall = \"0.8 in\"", [](Design& d) { d.pipes.main.wall = 0.8_in; },
                   "pipes.main.wall", "at most a quarter of the bore, 0.767 in"});
}

TEST_CASE("validate: a light table from nadir to the horizontal whose integral is the stated flux") {
  refused_by_both({"angle = [\"0 deg\"", "angle = [\"1 deg\"", [](Design& d) { d.lights.angle[0] = 1_deg; },
                   "lights.angle[0]", "0 deg"});
  refused_by_both({"\"90 deg\"]", "\"89 deg\"]", [](Design& d) { d.lights.angle[9] = 89_deg; }, "lights.angle[9]",
                   "90 deg or more"});
  refused_by_both({"\"20 deg\", \"30 deg\"", "\"20 deg\", \"20 deg\"", [](Design& d) { d.lights.angle[3] = 20_deg; },
                   "lights.angle[3]", "more than the value before it, 20 deg"});
  refused_by_both({"intensity = [94, ", "intensity = [",
                   [](Design& d) { d.lights.intensity.erase(d.lights.intensity.begin()); }, "lights.intensity",
                   "one for each of the 10 angles"});
  refused_by_both({"[94, 93, 87, 75, 57, 36, 18, 7, 2, 0]", "[0, 0, 0, 0, 0, 0, 0, 0, 0, 0]",
                   [](Design& d) { d.lights.intensity.assign(10, PhotonIntensity()); }, "lights.intensity", ""});
  // 2 pi Int I sin of the table by Simpson's rule on 90000 steps (an independent sum): 190.869 umol/s.
  for (const double ppf : {188.9, 192.9})
    refused_by_both({"\"190.9 umol/s\"", "\"" + std::to_string(ppf) + " umol/s\"",
                     [=](Design& d) { d.lights.PPF = ppf * units::umol_per_second; }, "lights.PPF",
                     "the integral of lights.intensity within 1 %, 190.869 umol/s"});
  Design d = demo();
  for (const double ppf : {189.1, 192.7}) {
    d.lights.PPF = ppf * units::umol_per_second;
    CHECK_NOTHROW(validate(d));
  }
  refused_by_both({"ageing_factor = 0.85", "ageing_factor = 0.0", [](Design& x) { x.lights.ageing_factor = 0.0; },
                   "lights.ageing_factor", "> 0 to 1"});
  refused_by_both({"\"L2\"", "\"L3\"", [](Design& x) { x.money.lights_as = "L3"; }, "money.lights_as",
                   "one of lights.proposals: L0, L1, L2"});
}

TEST_CASE("validate: water, heat, stock, production and workers") {
  refused_by_both({"\"78 degF\"", "\"40.5 degC\"", [](Design& d) { d.site.water.temperature = 40.5_degC; },
                   "site.water.temperature", "0 degC to 40 degC"});
  refused_by_both({"share_to_water = 0.70", "share_to_water = 1.1", [](Design& d) { d.pump.share_to_water = 1.1; },
                   "pump.share_to_water", "0 to 1"});
  refused_by_both({"share_to_water = 0.18", "share_to_water = -0.1", [](Design& d) { d.lights.share_to_water = -0.1; },
                   "lights.share_to_water", "0 to 1"});
  refused_by_both({"[\"6 h\", \"10 h\"]", "[\"6 h\", \"360 min\"]",
                   [](Design& d) { d.stock.power_cuts[1] = d.stock.power_cuts[0]; }, "stock.power_cuts[1]",
                   "a duration that is not in the list yet"});
  refused_by_both({"fish = { A = [5, \"50 g\"], B = ", "fish = { A = [5, \"50 g\"], C = ",
                   [](Design& d) { d.stock.fish.erase("B"); }, "stock.fish", "every key of tanks"});
  refused_by_both({"[\"27 degC\", \"38 d\"]", "[\"24 degC\", \"38 d\"]",
                   [](Design& d) { d.stock.quarantine.generation[1].temperature = 24_degC; },
                   "stock.quarantine.generation[1]", "more than the value before it"});
  refused_by_both({"survival = 0.90", "survival = 0.0", [](Design& d) { d.production.survival = 0.0; },
                   "production.survival", "> 0 to 1"});
  refused_by_both({"occupancy = 0.92", "occupancy = 0.0", [](Design& d) { d.production.occupancy = 0.0; },
                   "production.occupancy", "> 0 to 1"});
  refused_by_both({"\"9 cm2\"", "\"33 cm2\"", [](Design& d) { d.production.cut_area = d.production.sale_area; },
                   "production.cut_area", "less than the sale area, 33 cm2"});
  refused_by_both({"fallow_tanks = 1", "fallow_tanks = 14", [](Design& d) { d.production.rotation.fallow_tanks = 14; },
                   "production.rotation.fallow_tanks", "fewer than the tanks, 14"});
  Design d = demo();
  d.production.rotation.fallow_tanks = 0;
  CHECK_NOTHROW(validate(d));
  refused_by_both({"shoulder_stand_off = \"4 in\"", "shoulder_stand_off = \"0 in\"",
                   [](Design& x) { x.workers.shoulder_stand_off = Length(); }, "workers.shoulder_stand_off", "> 0"});
  refused_by_both({"shoulder = \"48.2 in\"", "shoulder = \"59.8 in\"",
                   [](Design& x) { x.workers.bodies.at("female_5").shoulder = 59.8_in; }, "workers.female_5.shoulder",
                   "less than the stature, 59.8 in"});
  refused_by_both({"elbow = \"37.2 in\"", "elbow = \"48.2 in\"",
                   [](Design& x) { x.workers.bodies.at("female_5").elbow = 48.2_in; }, "workers.female_5.elbow",
                   "less than the height of the shoulder, 48.2 in"});
}

TEST_CASE("validate: message with dotted key, value with unit and accepted range") {
  Design d = demo();
  A(d).water_depth = -14.0 * units::inch;
  CHECK(message_of<InvalidInput>([&] { validate(d); }) == "tanks.A.water_depth = -14 in is not accepted; expected > 0");
  d = demo();
  d.sump.UA = from_si<ThermalConductance>(std::nan(""));
  CHECK(contains(message_of<InvalidInput>([&] { validate(d); }), "sump.UA = nan W/K is not accepted; expected >= 0"));
  d = demo();
  d.pipes.gravity_main.start_above_hall_floor = from_si<Length>(std::numeric_limits<double>::infinity());
  CHECK(message_of<InvalidInput>([&] { validate(d); }) ==
        "pipes.gravity_main.start_above_hall_floor = inf m is not accepted; expected a finite number");
  d = demo();
  d.site.outside.winter.temperature = celsius(-61);
  CHECK(message_of<InvalidInput>([&] { validate(d); }) ==
        "site.outside.winter.temperature = -61 degC is not accepted; expected -60 degC to 60 degC");
}

TEST_CASE("validate: what a file cannot even say is refused in the structure") {
  const auto key_of = [](const std::function<void(Design&)>& make) {
    Design d = demo();
    make(d);
    try {
      validate(d);
    } catch (const InvalidInput& e) {
      return e.argument();
    }
    return std::string("accepted");
  };
  CHECK(key_of([](Design& d) { d.site.name.clear(); }) == "site.name");
  CHECK(key_of([](Design& d) { d.rooms.hall.floor = static_cast<FloorKind>(17); }) == "rooms.hall.floor");
  CHECK(key_of([](Design& d) { d.stock.kL.clear(); }) == "stock.kL");
  CHECK(key_of([](Design& d) { d.pipes.main.K.clear(); }) == "pipes.main.K");
  CHECK(key_of([](Design& d) { d.pipes.main.K.at("elbows").count = 0; }) == "pipes.main.K.elbows.count");
  CHECK(key_of([](Design& d) { d.pipes.content.per_length[Length()] = Area(); }) == "pipes.content.per_length, key");
  CHECK(key_of([](Design& d) { d.pump.circulation.target.low = 30_cm_s; }) == "pump.circulation.target.low");
  CHECK(key_of([](Design& d) { d.tanks.kinds.clear(); }) == "tanks");
  CHECK(key_of([](Design& d) { A(d).glass_variants.clear(); }) == "accepted");
  CHECK(key_of([](Design& d) { A(d).glass_variants[1].thickness = Length(); }) ==
        "tanks.A.glass_variants[1].thickness");
  CHECK(key_of([](Design& d) { d = Design{}; }) == "site.name");
}

// Every number of a design in turn is made NaN; the walk is the one of the schema, written anew for changing.
namespace {
struct NthNumber {
  int countdown;
  template <class T>
  void spoil(T& x) {
    using test_limits = std::numeric_limits<double>;
    if constexpr (std::is_same_v<T, double>) {
      if (countdown-- == 0) x = test_limits::quiet_NaN();
    } else if constexpr (std::is_same_v<T, PracticalSalinity>) {
      if (countdown-- == 0) x.value = test_limits::quiet_NaN();
    } else if constexpr (std::is_same_v<T, RelativeHumidity>) {
      if (countdown-- == 0) x.ratio = test_limits::quiet_NaN();
    } else if constexpr (requires { typename T::unit_type; }) {
      if (countdown-- == 0) x = from_si<T>(test_limits::quiet_NaN());
    } else if constexpr (requires {
                           x.emplace();
                           *x;
                         }) {
      if (x) spoil(*x);
    } else if constexpr (requires { typename T::mapped_type; }) {
      for (auto& entry : x) spoil(entry.second);
    } else if constexpr (requires { x.push_back(x.front()); } && !std::is_same_v<T, std::string>) {
      for (auto& element : x) spoil(element);
    } else if constexpr (std::is_class_v<T> && !std::is_same_v<T, std::string>) {
      schema::fields(*this, x);
    }
  }
  template <class T>
  void operator()(std::string_view, T& member, const schema::Limit&, schema::Presence = schema::Presence::required) {
    spoil(member);
  }
  template <class T>
  void rest(std::string_view, std::map<std::string, T>& members, const schema::Limit&) {
    spoil(members);
  }
};
}  // namespace

TEST_CASE("validate: NaN in any number of a design is refused") {
  int spoilt = 0;
  for (;; ++spoilt) {
    Design d = demo();
    NthNumber nth{spoilt};
    nth.spoil(d);
    if (nth.countdown >= 0) break;
    CAPTURE(spoilt);
    CHECK_THROWS_AS(validate(d), InvalidInput);
  }
  CHECK(spoilt > 280);
}
