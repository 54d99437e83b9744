// Design files: the demonstration farm read key by key, every kind of mistake refused with its place, exact round trip.
#include "theca/study/design_file.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <string>
#include <type_traits>
#include <vector>

#include "support/near.hpp"
#include "theca/study/schema.hpp"
#include "theca/units.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::study;
using test::contains;
using test::message_of;
using test::near;

namespace {

const std::string& demo_text() {
  static const std::string text = [] {
    std::ifstream stream(THECA_DEMO_TOML, std::ios::binary);
    return std::string((std::istreambuf_iterator<char>(stream)), std::istreambuf_iterator<char>());
  }();
  return text;
}

// The demonstration file with one piece of text replaced, where it first stands.
std::string demo_with(const std::string& old_text, const std::string& new_text) {
  std::string text = demo_text();
  const auto at = text.find(old_text);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old_text.size(), new_text);
}

// The message, without the line and column of the first problem, which are checked against where the text stands.
std::string refusal(const std::string& old_text, const std::string& new_text) {
  const std::string text = demo_with(old_text, new_text);
  return message_of<ParseError>([&] { parse_design(text, "farm.toml"); });
}

// "farm.toml:LINE:COLUMN: " of a piece of text in the demonstration file.
std::string place(const std::string& piece, std::size_t further = 0) {
  const auto at = demo_text().find(piece);
  REQUIRE(at != std::string::npos);
  std::size_t line = 1, line_begin = 0;
  for (std::size_t i = 0; i < at; ++i)
    if (demo_text()[i] == '\n') {
      ++line;
      line_begin = i + 1;
    }
  return "farm.toml:" + std::to_string(line) + ":" + std::to_string(at - line_begin + 1 + further) + ": ";
}

// Calls f on every number in a design, through the same description that the reader and the writer use.
template <class F, class T>
void each_number(F& f, T& x);

template <class F>
struct Walk {
  F& f;
  template <class T>
  void operator()(std::string_view, T& member, const schema::Limit&, schema::Presence = schema::Presence::required) {
    each_number(f, member);
  }
  template <class T>
  void rest(std::string_view, std::map<std::string, T>& members, const schema::Limit&) {
    each_number(f, members);
  }
};

template <class T>
constexpr bool is_number = std::is_same_v<T, double> || std::is_same_v<T, PracticalSalinity> ||
                           std::is_same_v<T, RelativeHumidity> || requires {
  typename T::unit_type;
};

template <class F, class T>
void each_number(F& f, T& x) {
  if constexpr (is_number<T>) {
    f(x);
  } else if constexpr (requires {
                         x.emplace();
                         *x;
                       }) {
    if (x) each_number(f, *x);
  } else if constexpr (requires { typename T::mapped_type; }) {
    for (auto& entry : x) each_number(f, entry.second);
  } else if constexpr (requires { x.push_back(x.front()); } && !std::is_same_v<T, std::string>) {
    for (auto& element : x) each_number(f, element);
  } else if constexpr (std::is_class_v<T> && !std::is_same_v<T, std::string>) {
    Walk<F> walk{f};
    schema::fields(walk, x);
  }
}

}  // namespace

TEST_CASE("design file: the demonstration farm is read with its units [spot values from the file, converted by hand]") {
  const Design d = read_design(THECA_DEMO_TOML);
  CHECK(d.site.name == "Wexholm Nursery");
  CHECK(d.site.air_pressure.value() == 101300.0);
  CHECK(d.site.S_DS == 0.5);
  CHECK(d.site.water.salinity == 35_psu);
  CHECK(near(in_celsius(d.site.water.temperature), 25.5 + 1.0 / 18, 1e-14));
  CHECK(d.site.outside.winter.relative_humidity == 70_rh);
  CHECK(near(d.rooms.hall.length.value(), 14.6304, 1e-15));
  CHECK(d.rooms.hall.floor == FloorKind::slab_on_grade);
  CHECK(d.rooms.service.floor == FloorKind::timber);
  CHECK(d.rooms.hall.summer_hot->temperature == 84_degF);
  CHECK(d.rooms.service.summer_hot == 86_degF);
  CHECK(near(d.rooms.hall.dehumidifier.removal.value() * 86400, 88 * 0.473176473e-3, 1e-14));
  CHECK(near(d.rooms.hall.window.inside_film_R.value() * 5.678263, 0.68, 1e-7));
  CHECK(d.rooms.layout.across_width.size() == 6);
  CHECK(d.rooms.layout.across_width[2] == Strip{"row_1", 30_in});
  CHECK(d.rooms.layout.rows.at("north").back() == "T14");
  CHECK(d.tanks.kinds.size() == 2);
  const TankKind& a = d.tanks.kinds.at("A");
  CHECK(a.names.size() == 10);
  CHECK(near(a.water_depth.value(), 0.3556, 1e-15));
  CHECK(a.rim_brace->design_thickness == 11.91_mm);
  CHECK(a.cross_brace_variant == CrossBrace{6_in, CrossBracePlace::mid_length});
  CHECK(a.leg_plate == PlanSize{3_in, 3_in});
  CHECK(a.glass_variants.size() == 6);
  CHECK(a.glass_variants[0] == GlassVariant{std::nullopt, TopEdge::rimless});
  CHECK(a.glass_variants[3] == GlassVariant{5.56_mm, TopEdge::held});
  CHECK(a.emergency_drain->rim == 12.2_in);
  const TankKind& b = d.tanks.kinds.at("B");
  CHECK_FALSE(b.rim_brace);
  CHECK_FALSE(b.emergency_drain);
  CHECK(b.rim_brace_variant->width == 2.5_in);
  CHECK(b.glass_variants.empty());
  CHECK(d.tanks.glass.deflection_limit.divisor == 200.0);
  CHECK(d.tanks.two_tier_variant->rack_planes_above_floor[1] == 54_in);
  CHECK(d.sump.cover);
  CHECK(d.pump.curve.size() == 8);
  CHECK(d.pump.curve[1] == PumpPoint{2000_gph, 29.4_ft});
  CHECK(d.pump.circulation.target == Range<Velocity>{10_cm_s, 25_cm_s});
  CHECK(near(d.pipes.balance_limit, 0.1, 1e-15));
  CHECK(d.pipes.main.K.at("elbows") == Fitting{5, 0.54});
  CHECK(d.pipes.main.K.at("entry") == Fitting{1, 0.5});
  CHECK(near(d.pipes.content.per_length.at(d.pipes.main.bore).value(), 0.384 * 3.785411784e-3 / 0.3048, 1e-14));
  CHECK(near(d.pipes.gravity_main.slope.value(), 1.0 / 48, 1e-15));
  CHECK(d.lights.intensity[4] == 57_umol_s_sr);
  CHECK(d.lights.grid == LightGrid{24, 8});
  CHECK(d.lights.proposals.at("L2") == LightProposal{7, 30_in});
  CHECK(d.electricity.lighting_circuits_variant == 5);
  CHECK(d.stock.fish.at("B") == Animals{8, 50_g});
  CHECK(d.stock.grazers_A == Animals{2, 60_g});
  CHECK(d.stock.quarantine.generation[1] == PestGeneration{27_degC, 38_d});
  CHECK(near(d.chemistry.calcium.value(), 420e-6, 1e-15));
  CHECK(d.chemistry.dosing ==
        std::vector{DosingSalt::sodium_hydrogen_carbonate, DosingSalt::calcium_chloride_dihydrate});
  CHECK(near(d.chemistry.water_change.value() * 604800, 0.1, 1e-15));
  CHECK(d.production.rotation.reset_renews_water);
  CHECK(near(d.labour.hired.value(), 32.5 / 168, 1e-15));
  CHECK(near(d.money.heating.value(), 10500 * 3.6e6 / (365.0 * 86400), 1e-15));
  CHECK(near(d.money.electricity.value(), 0.15 / 3.6e6, 1e-15));
  CHECK(d.money.capital.items.at("tank_A") == CapitalItem{10, 980_USD});
  CHECK(d.money.capital.items.at("sump") == CapitalItem{1, 1450_USD});
  CHECK(d.money.capital.items.size() == 15);
  CHECK(d.money.levers->price == 16_USD);
  CHECK(d.workers.bodies.at("male_95").shoulder_grip == 28.1_in);
  CHECK(d.workers.bodies.size() == 2);
}

TEST_CASE("design file: a value of the wrong kind is refused with place, key, what was expected and what stood there") {
  CHECK(refusal("\"14.0 in\"", "\"14.0 kg\"") ==
        place("\"14.0 in\"") +
            "tanks.A.water_depth: expected a length such as \"1.40 m\", got \"14.0 kg\" (accepted: > 0)");
  CHECK(refusal("\"14.0 in\"", "14.0") ==
        place("\"14.0 in\"") +
            "tanks.A.water_depth: expected a length as text such as \"1.40 m\", got the number 14.0 (accepted: > 0)");
  CHECK(refusal("\"14.0 in\"", "\"14.0 inn\"") ==
        place("\"14.0 in\"") +
            "tanks.A.water_depth: expected a length such as \"1.40 m\", got \"14.0 inn\": unknown unit \"inn\", did "
            "you mean \"in\"? (accepted: > 0)");
  CHECK(refusal("\"14 degF\"", "14") ==
        place("\"14 degF\"") +
            "site.outside.winter.temperature: expected a temperature as text such as \"78 degF\", got the number 14 "
            "(accepted: -60 degC to 60 degC)");
  CHECK(refusal("\"70 %\"", "\"0.7\"") ==
        place("\"70 %\"") +
            "site.outside.winter.relative_humidity: expected a relative humidity such as \"50 %\", "
            "got \"0.7\": the unit is missing (accepted: 0 % to 100 %)");
  CHECK(refusal("35.0 ", "\"35\" ") ==
        place("35.0 ") +
            "site.water.salinity: expected a practical salinity as a bare number such as 35.0, got "
            "\"35\" (accepted: 2 to 42)");
  CHECK(refusal("legs = 6", "legs = 6.0") ==
        place("legs = 6", 7) + "tanks.A.legs: expected a whole number, got the number 6.0 (accepted: > 0)");
  CHECK(refusal("cover = true", "cover = \"yes\"") ==
        place("cover = true", 8) + "sump.cover: expected true or false, got \"yes\"");
  CHECK(refusal("\"slab on grade\"", "\"slab\"") ==
        place("\"slab on grade\"") +
            "rooms.hall.floor: expected \"slab on grade\" or \"suspended concrete\" or \"timber\", got \"slab\"");
  CHECK(refusal("\"closed-cell foam\"", "\"closed cell foam\"") ==
        place("\"closed-cell foam\"") +
            "tanks.A.support: expected \"closed-cell foam\" or \"perimeter\", got \"closed cell foam\", did you mean "
            "\"closed-cell foam\"?");
  CHECK(refusal("power = \"84 W\"", "power = 1979-05-27") ==
        place("power = \"84 W\"", 8) +
            "lights.power: expected a power as text such as \"84 W\", got a date or time (accepted: > 0)");
  CHECK(refusal("\"84 W\"", "[\"84 W\"]") ==
        place("\"84 W\"") + "lights.power: expected a power as text such as \"84 W\", got a list (accepted: > 0)");
  CHECK(refusal("S_DS = 0.50", "S_DS = true") ==
        place("S_DS = 0.50", 7) + "site.S_DS: expected a number, got true (accepted: >= 0)");
  CHECK(refusal("\"420 ppm\"", "\"420 mg/L\"") ==
        place("\"420 ppm\"") +
            "chemistry.calcium: expected a ratio such as \"10 %\", got \"420 mg/L\" (accepted: 0 ppm to 1 %)");
}

TEST_CASE("design file: text and list forms are refused with the form that was expected") {
  CHECK(refusal("\"3 in x 3 in\"", "\"3 in\"") ==
        place("\"3 in x 3 in\"") +
            "tanks.A.leg_plate: expected a length and a width such as \"18 in x 6 in\", got "
            "\"3 in\": there is no \" x \" between two lengths");
  CHECK(refusal("\"B 36 in\"", "\"36 in\"") ==
        place("\"B 36 in\"") +
            "rooms.layout.across_width[0]: expected a name and a width such as \"aisle 48 in\", "
            "got \"36 in\": there is no name before the width");
  CHECK(refusal("\"B 36 in\"", "\"B 36 lb\"") ==
        place("\"B 36 in\"") +
            "rooms.layout.across_width[0]: expected a name and a width such as \"aisle 48 in\", "
            "got \"B 36 lb\": expected a length such as \"1.40 m\", got \"36 lb\"");
  CHECK(refusal("\"B 36 in\"", "\"B -36 in\"") ==
        place("\"B 36 in\"") + "rooms.layout.across_width[0]: \"B -36 in\" is out of range, expected > 0");
  CHECK(refusal("\"length/200\"", "\"length/0\"") ==
        place("\"length/200\"") + "tanks.glass.deflection_limit: \"length/0\" is out of range, expected > 0");
  CHECK(refusal("\"length/200\"", "\"L/200\"") ==
        place("\"length/200\"") +
            "tanks.glass.deflection_limit: expected a fraction of the length such as "
            "\"length/200\", got \"L/200\": it is not \"length/\" and a number");
  CHECK(refusal("\"6.5 mm rimless\"", "\"6.5 mm\"") ==
        place("\"6.5 mm rimless\"") +
            "tanks.A.glass_variants[1]: expected a glass variant such as \"6.5 mm held top edge\", got \"6.5 mm\": it "
            "does not end with \"rimless\" or \"held top edge\"");
  CHECK(refusal("[\"2000 gph\", \"29.4 ft\"]", "[\"2000 gph\"]") ==
        place("[\"2000 gph\", \"29.4 ft\"]") + "pump.curve[1]: expected a list [flow, head], got a list of 1");
  CHECK(refusal("[24, 8]", "24") ==
        place("[24, 8]") + "lights.grid: expected a list [along_length, along_width], got the number 24");
  CHECK(refusal("[\"6 h\", \"10 h\"]", "[]") ==
        place("[\"6 h\", \"10 h\"]") + "stock.power_cuts: expected a list that is not empty");
  CHECK(refusal("[4, \"1250 USD\"]", "[4, \"1250 EUR\"]") ==
        place("[4, \"1250 USD\"]", 4) +
            "money.capital.tank_B[1]: expected an amount of money such as \"14 USD\", got "
            "\"1250 EUR\": unknown unit \"EUR\" (accepted: >= 0)");
  CHECK(refusal("\"3.068 in\" = \"0.384 gal/ft\"", "\"3.068 lb\" = \"0.384 gal/ft\"") ==
        place("\"3.068 in\" = \"0.384 gal/ft\"") +
            "pipes.content.per_length.\"3.068 lb\": the key is not right: expected a length such as \"1.40 m\", got "
            "\"3.068 lb\"");
}

TEST_CASE("design file: a value outside its range is refused with the range") {
  CHECK(refusal("\"14.0 in\"", "\"-14.0 in\"") ==
        place("\"14.0 in\"") + "tanks.A.water_depth: \"-14.0 in\" is out of range, expected > 0");
  CHECK(refusal("salinity = 35.0", "salinity = nan") ==
        place("salinity = 35.0", 11) + "site.water.salinity: the number nan is out of range, expected 2 to 42");
  CHECK(refusal("S_D1 = 0.20", "S_D1 = inf") ==
        place("S_D1 = 0.20", 7) + "site.S_D1: the number inf is out of range, expected >= 0");
  CHECK(refusal("\"14 degF\"", "\"-100 degF\"") ==
        place("\"14 degF\"") +
            "site.outside.winter.temperature: \"-100 degF\" is out of range, expected -60 degC to 60 degC");
  CHECK(refusal("\"101.3 kPa\"", "\"101.3 Pa\"") ==
        place("\"101.3 kPa\"") + "site.air_pressure: \"101.3 Pa\" is out of range, expected 50 kPa to 110 kPa");
  CHECK(refusal("survival = 0.90", "survival = 90") ==
        place("survival = 0.90", 11) + "production.survival: the number 90 is out of range, expected > 0 to 1");
  CHECK(refusal("slots = 230", "slots = -1") ==
        place("slots = 230", 8) + "stock.quarantine.slots: the number -1 is out of range, expected >= 0");
  CHECK(refusal("slots = 230", "slots = 99999999999") ==
        place("slots = 230", 8) + "stock.quarantine.slots: the number 99999999999 is out of range (accepted: >= 0)");
  CHECK(refusal("\"10 h\"", "\"30 h\"") ==
        place("\"10 h\"") + "lights.photoperiod: \"30 h\" is out of range, expected 0 min to 24 h");
  CHECK(refusal("[5, 0.54]", "[0, 0.54]") ==
        place("[5, 0.54]", 1) + "pipes.main.K.elbows[0]: the number 0 is out of range, expected > 0");
  CHECK(refusal("[\"10 cm/s\", \"25 cm/s\"]", "[\"30 cm/s\", \"25 cm/s\"]") ==
        place("[\"10 cm/s\", \"25 cm/s\"]") + "pump.circulation.target: the first limit is above the second");
}

TEST_CASE("design file: unknown, missing and repeated keys") {
  CHECK(refusal("water_depth = \"14.0 in\"", "water_dpth = \"14.0 in\"") ==
        place("[tanks.A]") + "tanks.A: missing key \"water_depth\"\n" + place("water_depth = \"14.0 in\"") +
            "tanks.A.water_dpth: unknown key, did you mean \"water_depth\"?");
  CHECK(refusal("cover = true", "cover = true\ncolour = \"blue\"").find("sump.colour: unknown key") !=
        std::string::npos);
  CHECK(refusal("[heat]", "[heating]") == "farm.toml:1:1: the file: missing key \"heat\"\n" + place("[heat]", 1) +
                                              "heating: unknown key, did you mean \"heat\"?");
  CHECK(refusal("[tanks.glass]", "[tanks.glas]") ==
        place("[tanks.A]") + "tanks: missing key \"glass\"\n" + place("[tanks.glass]", 7) +
            "tanks.glas: unknown key, did you mean \"glass\"? (as the name of a kind of tank it is too much like it)");
  CHECK(refusal("grazers_A = ", "grazer_A = ") ==
        place("grazers_A = ") + "stock.grazer_A: unknown key, did you mean \"grazers_A\"?");
  const std::string repeated = refusal("cover = true", "cover = true\ncover = false");
  CHECK(contains(repeated, "cannot redefine existing boolean 'cover'"));
  CHECK(contains(refusal("[sump]", "[sump"), place("[sump]", 5)));
  CHECK(contains(message_of<ParseError>([] { parse_design("", "empty.toml"); }),
                 "empty.toml:1:1: the file: missing keys \"site\", \"rooms\", \"tanks\""));
}

TEST_CASE("design file: several problems are reported together, in the order of the file") {
  std::string text = demo_with("\"14.0 in\"", "\"-14.0 in\"");
  text.replace(text.find("survival = 0.90"), 15, "survival = 1.90");
  try {
    parse_design(text, "farm.toml");
    FAIL("accepted");
  } catch (const ParseError& e) {
    const std::string first = place("\"14.0 in\"") + "tanks.A.water_depth: \"-14.0 in\" is out of range, expected > 0";
    CHECK(e.what() == first + "\n" + place("survival = 0.90", 11) +
                          "production.survival: the number 1.9 is out of range, expected > 0 to 1");
    CHECK(contains(first, ":" + std::to_string(e.line()) + ":" + std::to_string(e.column()) + ":"));
  }
}

TEST_CASE("design file: parts that contradict one another are refused at their place") {
  CHECK(refusal("\"14.0 in\"", "\"15.9 in\"") ==
        place("\"14.0 in\"") +
            "tanks.A.water_depth: expected at most the wall height over the inside base, 394.4 mm, got 15.9 in");
  CHECK(refusal("\"T13\", \"T14\"]\ngap", "\"T13\", \"T13\"]\ngap") ==
        place("rows.row_1") + "rooms.layout.rows: expected every tank in one row, got no row with \"T14\"\n" +
            place("\"T14\"]\ngap") +
            "rooms.layout.rows.north[3]: expected a tank that has no other place in the rows, got \"T13\"");
  CHECK(refusal("intensity = [94, ", "intensity = [") ==
        place("intensity = [94, ", 12) + "lights.intensity: expected one for each of the 10 angles, got 9 values");
  CHECK(refusal("\"L2\"", "\"L3\"") ==
        place("\"L2\"") + "money.lights_as: expected one of lights.proposals: L0, L1, L2, got \"L3\"");
  CHECK(refusal("fish = { A = [5, \"50 g\"], B = ", "fish = { A = [5, \"50 g\"], C = ") ==
        place("fish = {", 7) + "stock.fish: expected every key of tanks, got no \"B\"\n" + place("fish = {", 7) +
            "stock.fish: expected keys of tanks, got \"C\"");
}

TEST_CASE(
    "design file: no line of the demonstration is ignored: without it the file is refused or the design differs") {
  const Design whole = parse_design(demo_text(), "farm.toml");
  const std::string& text = demo_text();
  int refused = 0, differing = 0;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size() - 1) + 1;
    const std::string line = text.substr(begin, end - begin);
    if (line[0] != '#' && line[0] != '\n') {
      CAPTURE(line);
      try {
        const bool same = parse_design(text.substr(0, begin) + text.substr(end), "farm.toml") == whole;
        CHECK_FALSE(same);
        ++differing;
      } catch (const ParseError& e) {
        CHECK(e.line() > 0);
        ++refused;
      }
    }
    begin = end;
  }
  CHECK(refused > 200);
  CHECK(differing > 20);  // variants, capital items, light proposals and glasses to try may be left out
}

TEST_CASE("design file: damaged text is read or refused with ParseError, never anything else") {
  const std::string& text = demo_text();
  const std::string damage = "\"]}=[{.-9e#\\\n\x01\xFF";
  std::size_t at = 0;
  for (int i = 0; i < 400; ++i) {
    at = (at + 7919) % text.size();  // a prime step visits places all over the file
    std::string damaged = text;
    damaged[at] = damage[static_cast<std::size_t>(i) % damage.size()];
    try {
      parse_design(damaged, "farm.toml");
    } catch (const ParseError& e) {
      CHECK(std::string(e.what()).size() > 10);
    }
  }
}

TEST_CASE("design file: writing and reading gives back the same design") {
  const Design d = read_design(THECA_DEMO_TOML);
  const std::string text = write_design(d);
  CHECK(parse_design(text, "written") == d);
  CHECK(write_design(parse_design(text, "written")) == text);
  CHECK(contains(text, "\nwater_depth = \"14 in\"\n"));
  CHECK(contains(text, "\nchiller = \"8500 Btu/h\"\n"));
  CHECK(contains(text, "deflection_limit = \"length/200\""));
}

TEST_CASE("design file: thickness and modulus of the joints may be left out or stated") {
  const Design without = read_design(THECA_DEMO_TOML);
  CHECK(!without.tanks.joint.thickness);
  CHECK(!without.tanks.joint.E);
  const std::string last = "allowable_permanent = \"0.014 MPa\"\n";
  const Design with = parse_design(demo_with(last, last + "thickness = \"2 mm\"\nE = \"1.2 MPa\"\n"), "farm.toml");
  REQUIRE(with.tanks.joint.thickness);
  REQUIRE(with.tanks.joint.E);
  CHECK(near(si(*with.tanks.joint.thickness), 0.002, 1e-15));
  CHECK(near(si(*with.tanks.joint.E), 1.2e6, 1e-15));
  CHECK(parse_design(write_design(with), "written") == with);
  CHECK(contains(refusal(last, last + "thickness = \"0 mm\"\n"), "tanks.joint.thickness"));
}

TEST_CASE("design file: tilt, pump efficiency, NPSH and rating of the main may be left out") {
  std::string text = demo_text();
  for (const std::string key : {"tilt", "tilt", "best_efficiency_flow", "allowable_region", "npsh_required",
                                "efficiency", "K_suction", "wall = \"0.216", "pressure_rating"}) {
    const auto at = text.find("\n" + key);
    REQUIRE(at != std::string::npos);
    text.erase(at, text.find('\n', at + 1) - at);
  }
  const Design without = parse_design(text, "farm.toml");
  CHECK(!without.tanks.kinds.at("A").tilt);
  CHECK(without.pump.efficiency.empty());
  CHECK(!without.pipes.main.wall);
  CHECK(parse_design(write_design(without), "written") == without);
  CHECK(contains(refusal("[\"4000 gph\", 0.30]", "[\"4000 gph\", 1.30]"),
                 "pump.efficiency[1][1]: the number 1.3 is out of range, expected 0 to 1"));
}

TEST_CASE("design file: numbers with all their digits come back to the last bit") {
  Design d = read_design(THECA_DEMO_TOML);
  int numbers = 0;
  // One factor for all keeps every relation between the parts; just under 1 keeps every range.
  auto shrink = [&](auto& x) {
    constexpr double factor = 1.0 - 1.0 / 3e5;
    using T = std::remove_reference_t<decltype(x)>;
    ++numbers;
    if constexpr (std::is_same_v<T, double>)
      x *= factor;
    else if constexpr (std::is_same_v<T, PracticalSalinity>)
      x.value *= factor;
    else if constexpr (std::is_same_v<T, RelativeHumidity>)
      x.ratio *= factor;
    else
      x = from_si<T>(x.value() * factor);
  };
  const Design before = d;
  each_number(shrink, d);
  d.lights.angle.back() = before.lights.angle.back();  // the table must reach the horizontal
  CHECK(numbers > 280);
  CHECK(d != before);
  CHECK(parse_design(write_design(d), "written") == d);
}

TEST_CASE("design file: text with quotes, control characters and letters of any script comes back") {
  Design d = read_design(THECA_DEMO_TOML);
  d.site.name = "a \"quoted\" \\ name\n\ttab \x7F Vessmark \xC3\xA5\xC3\xA4\xC3\xB6";
  d.money.capital.items["a key, with = everything \"in\" it."] = {3, 0.1_USD};
  CHECK(parse_design(write_design(d), "written") == d);
}

TEST_CASE("design file: a design that could not be read back is not written") {
  Design d = read_design(THECA_DEMO_TOML);
  d.tanks.kinds.at("A").water_depth = -1.0 * units::inch;
  CHECK(contains(message_of<ParseError>([&] { write_design(d); }),
                 "tanks.A.water_depth: \"-1 in\" is out of range, expected > 0"));
  d = read_design(THECA_DEMO_TOML);
  d.sump.UA = from_si<ThermalConductance>(std::nan(""));
  CHECK(contains(message_of<ParseError>([&] { write_design(d); }), "sump.UA: expected a thermal conductance"));
  d = read_design(THECA_DEMO_TOML);
  d.rooms.hall.floor = static_cast<FloorKind>(17);
  CHECK(contains(message_of<ParseError>([&] { write_design(d); }), "rooms.hall.floor: expected \"slab on grade\""));
  CHECK(contains(message_of<ParseError>([] { write_design(Design{}); }), "site.name: expected text"));
}

TEST_CASE("design file: a file that is not there, or is a directory, is named") {
  CHECK(message_of<ParseError>([] { read_design("no/such/file.toml"); }) ==
        "no/such/file.toml: expected a design file, but it cannot be opened and read");
  const auto directory = std::filesystem::temp_directory_path();
  CHECK(message_of<ParseError>([&] { read_design(directory); }) ==
        directory.string() + ": expected a design file, but it cannot be opened and read");
}
