// Quantities from text: what is read, how exactly, and what is refused with which words.
#include "theca/units/parse.hpp"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <string>

#include "support/near.hpp"
#include "theca/units.hpp"

using namespace theca;
using namespace theca::literals;
using test::message_of;
using test::near;

TEST_CASE("parse: text gives the same bits as the literal of the same unit") {
  CHECK(parse<Length>("1.40 m") == 1.40_m);
  CHECK(parse<Length>("96 in") == 96_in);
  CHECK(parse<ThermalTransmittance>("0.48 Btu/h/ft2/degF") == 0.48 * units::Btu_per_hour_ft2_degF);
  CHECK(parse<VolumeFlow>("80 gal/d") == 80 * units::gallon_per_day);
  CHECK(parse<VolumeFlow>("1150 gph") == 1150_gph);
  CHECK(parse<KinematicViscosity>("0.93e-6 m2/s") == 0.93e-6_m2_s);
  CHECK(parse<PhotonIntensity>("94 umol/s/sr") == 94_umol_s_sr);
  CHECK(parse<Pressure>("125 psf") == 125_psf);
  CHECK(parse<Concentration>("8.0 dKH") == 8.0_dKH);
  CHECK(parse<Temperature>("70 degF") == 70_degF);
  CHECK(parse<Temperature>("24.5 degC") == 24.5_degC);
  CHECK(parse<RelativeHumidity>("70 %") == 70_rh);
  CHECK(parse<double>("10 %") == 10 * 0.01);
  CHECK(parse<double>("0.35") == 0.35);
  CHECK(parse<PracticalSalinity>("35.0") == 35.0_psu);
}

TEST_CASE("parse: every symbol of the table reads back as its own size, and no symbol stands twice") {
  std::set<std::string_view> seen;
  for (const auto& u : known_units()) {
    CAPTURE(std::string(u.symbol));
    CHECK(seen.insert(u.symbol).second);
    const auto q = parse_quantity("1 " + std::string(u.symbol));
    CHECK(q.si_value == u.si_size);
    CHECK(q.dimension == u.dimension);
  }
  CHECK(seen.size() > 100);
}

TEST_CASE("parse: every unit that named.hpp defines can be read [its own text]") {
  // The table makes its entries of the NamedUnits themselves, so that a symbol in it has the size of named.hpp.
  const auto root = std::filesystem::path(THECA_DEMO_TOML).parent_path().parent_path().parent_path().parent_path();
  std::ifstream header(root / "include/theca/units/named.hpp");
  const std::string source((std::istreambuf_iterator<char>(header)), std::istreambuf_iterator<char>());
  const std::regex definition(R"rx(= ?\s*make<\w+>\([^;]*, "([^"]+)"\);)rx");
  std::set<std::string> known;
  for (const auto& u : known_units()) known.insert(std::string(u.symbol));
  std::size_t defined = 0;
  for (std::sregex_iterator it(source.begin(), source.end(), definition), end; it != end; ++it, ++defined) {
    CAPTURE((*it)[1].str());
    CHECK(known.contains((*it)[1].str()));
  }
  CHECK(defined == known.size());
}

TEST_CASE("parse: a plain ratio is bare or has % or ppm, whatever else is dimensionless") {
  CHECK(parse<double>("420 ppm") == 420 * 1e-6);
  CHECK(parse<double>("-3") == -3.0);
  for (const char* const text : {"11 min/week", "0.25 in/ft", "5 g/kg", "1 1", "2 % %"})
    CHECK(message_of<ParseError>([&] { parse<double>(text); }) == "input: expected a ratio such as \"0.1\", got \"" +
                                                                      std::string(text) +
                                                                      "\": a plain ratio is bare or has % or ppm");
  CHECK(parse<Quantity<unit::none>>("11 min/week").value() == 11.0 / 10080);
}

TEST_CASE(
    "parse: compounds agree with the printed factors [NIST SP 811 (2008), Appendix B.8, seven digits, from memory]") {
  constexpr double printed = 5e-7;  // half a unit of the seventh digit, at worst
  CHECK(near(parse_quantity("1 Btu/h/ft2/degF").si_value, 5.678263, printed));
  CHECK(near(parse_quantity("1 h ft2 degF/Btu").si_value, 0.1761102, printed));
  CHECK(near(parse_quantity("1 lbf/in2").si_value, 6894.757, printed));
  CHECK(near(parse_quantity("1 lbf/ft2").si_value, 47.88026, printed));
  CHECK(near(parse_quantity("1 gal/min").si_value, 6.309020e-5, printed));
  CHECK(near(parse_quantity("8 US_pint/d").si_value, 4.381264e-8, printed));
  CHECK(near(parse_quantity("1 lb/ft3").si_value, 16.01846, printed));
  CHECK(near(parse_quantity("1 Btu/h").si_value, 0.2930711, printed));
  CHECK(near(parse_quantity("1 ft2").si_value, 0.09290304, printed));
}

TEST_CASE("parse: a compound read factor by factor agrees with the same unit under its own symbol") {
  constexpr double rounding = 4 * 2.3e-16;  // of the products
  struct Same {
    const char *product, *symbol;
  };
  for (const Same& same :
       {Same{"1 Btu h-1 ft-2 degF^-1", "1 Btu/h/ft2/degF"}, Same{"1 gal*h^-1", "1 gph"}, Same{"1 lbf in-2", "1 psi"},
        Same{"1 umol m-2*s-1", "1 umol/m2/s"}, Same{"1 m*m*m", "1 m3"}}) {
    CAPTURE(std::string(same.product));
    const auto a = parse_quantity(same.product);
    const auto b = parse_quantity(same.symbol);
    CHECK(a.dimension == b.dimension);
    CHECK(near(a.si_value, b.si_value, rounding));
  }
}

TEST_CASE("parse: money, rates and ratios with a unit") {
  CHECK(near(parse<Rent>("11 USD/ft2/year").value() * 0.09290304 * 365 * 86400, 11, 1e-15));
  CHECK(near(parse<Frequency>("10 %/week").value() * 7 * 86400, 0.1, 1e-15));
  CHECK(near(parse<Frequency>("170 1/month").value() * 30.4 * 86400, 170, 1e-15));
  CHECK(near(parse<Quantity<unit::none>>("420 ppm").value(), 420e-6, 1e-15));
  CHECK(near(parse<Quantity<unit::none>>("0.25 in/ft").value(), 0.25 / 12, 1e-15));
  CHECK(near(parse<Quantity<unit::none>>("11 min/week").value(), 11.0 / 10080, 1e-15));
  CHECK(near(parse<MassFlux>("1.2 mg/cm2/d").value() * 86400, 0.012, 1e-15));
  CHECK(near(parse<SpecificMassFlow>("0.25 g/kg/h").value() * 3600, 0.25e-3, 1e-15));
  CHECK(near(parse<AbsoluteSalinity>("35.2 g/kg").grams_per_kg, 35.2, 1e-15));
}

TEST_CASE("parse: degrees alone are a point, and a difference where a difference is asked for") {
  CHECK(near(parse<Temperature>("32 degF").value(), 273.15, 2.3e-16));
  CHECK(parse<TemperatureDifference>("9 degF").value() == 5.0);
  CHECK(parse<TemperatureDifference>("5 degC").value() == 5.0);
  CHECK(parse<Temperature>("0 K").value() == 0.0);
  CHECK(parse_quantity("5 degF").temperature_point.has_value());
  CHECK_FALSE(parse_quantity("5 W/K").temperature_point.has_value());
  CHECK_FALSE(parse_quantity("5 K*1").temperature_point.has_value());
  CHECK(parse<AbsolutePressure>("101.325 kPa").value() == 101325.0);
}

TEST_CASE("parse: spaces, signs and number forms") {
  CHECK(parse<Length>("1.40m") == 1.40_m);
  CHECK(parse<Length>("  1.40   m ") == 1.40_m);
  CHECK(parse<Length>("+2 m") == 2_m);
  CHECK(parse<Length>("-2 m") == -2.0 * units::metre);
  CHECK(parse<Length>(".5 m") == 0.5_m);
  CHECK(parse<Length>("5. m") == 5_m);
  CHECK(parse<Length>("1E3 mm") == 1000_mm);
  CHECK(parse<DynamicViscosity>("1e-3 Pa s") == parse<DynamicViscosity>("1e-3 Pa * s"));
}

namespace {
template <class Q>
std::string refusal(const char* text) {
  return message_of<ParseError>([&] { parse<Q>(text); });
}
const std::string length = "input: expected a length such as \"1.40 m\", got ";
}  // namespace

TEST_CASE("parse: refusals name what was expected, what stood there and why") {
  CHECK(refusal<Length>("3 kg") == length + "\"3 kg\"");
  CHECK(refusal<Length>("3") == length + "\"3\": the unit is missing");
  CHECK(refusal<Length>("") == length + "\"\": there is no number");
  CHECK(refusal<Length>("m") == length + "\"m\": there is no finite number at the beginning");
  CHECK(refusal<Length>("nan m") == length + "\"nan m\": there is no finite number at the beginning");
  CHECK(refusal<Length>("-inf m") == length + "\"-inf m\": there is no finite number at the beginning");
  CHECK(refusal<Length>("+-3 m") == length + "\"+-3 m\": there is no finite number at the beginning");
  CHECK(refusal<Length>("1e999 m") == length + "\"1e999 m\": the number is too large or too small");
  CHECK(refusal<Length>("1e308 km") == length + "\"1e308 km\": the number is too large or too small");
  CHECK(refusal<Length>("1e-308 nm") == length + "\"1e-308 nm\": the number is too large or too small");
  CHECK(refusal<Length>("3 fet") == length + "\"3 fet\": unknown unit \"fet\", did you mean \"ft\"?");
  CHECK(refusal<Length>("3 inches") == length + "\"3 inches\": unknown unit \"inches\", did you mean \"in\"?");
  CHECK(refusal<Length>("3 \xC2\xB5m") == length + "\"3 \xC2\xB5m\": unknown unit \"\xC2\xB5m\", did you mean \"um\"?");
  CHECK(refusal<Length>("3 parsec") == length + "\"3 parsec\": unknown unit \"parsec\"");
  CHECK(refusal<Length>("3 m;") == length + "\"3 m;\": \";\" cannot follow a unit");
  CHECK(refusal<Length>("1,4 m") == length + "\"1,4 m\": no unit can begin with \",\"");
  CHECK(refusal<Length>("3 m/") == length + "\"3 m/\": a unit is missing at the end");
  CHECK(refusal<Length>("3 m2^2") == length + "\"3 m2^2\": two exponents after \"m2\"");
  CHECK(refusal<Length>("3 m0") == length + "\"3 m0\": the exponent of \"m0\" must be 1 to 9");
  CHECK(refusal<Length>("3 m12") == length + "\"3 m12\": the exponent of \"m12\" must be 1 to 9");
  CHECK(refusal<Length>("3 m^x") == length + "\"3 m^x\": the exponent of \"m\" must be a whole number");
  CHECK(refusal<ThermalConductivity>("1 W/m K") ==
        "input: expected a thermal conductivity such as \"1.0 W/m/K\", got \"1 W/m K\": a product after \"/\" is "
        "ambiguous, divide by each unit in turn as in \"W/m/K\"");
  CHECK(refusal<Temperature>("70 degF/h") == "input: expected a temperature such as \"78 degF\", got \"70 degF/h\"");
  CHECK(refusal<Temperature>("3 K*1") ==
        "input: expected a temperature such as \"78 degF\", got \"3 K*1\": a temperature is in degF, degC or K alone");
  CHECK(refusal<Temperature>("-300 degC") ==
        "input: expected a temperature such as \"78 degF\", got \"-300 degC\": below absolute zero");
  CHECK(refusal<AbsolutePressure>("-1 kPa") ==
        "input: expected an absolute pressure such as \"101.3 kPa\", got \"-1 kPa\": below vacuum");
  CHECK(refusal<PracticalSalinity>("35 g/kg") ==
        "input: expected a practical salinity such as \"35\", got \"35 g/kg\": practical salinity has no unit");
  CHECK(refusal<PracticalSalinity>("-1") ==
        "input: expected a practical salinity such as \"35\", got \"-1\": negative");
  CHECK(refusal<AbsoluteSalinity>("35") ==
        "input: expected an absolute salinity such as \"35.2 g/kg\", got \"35\": the unit is missing");
  CHECK(refusal<AbsoluteSalinity>("-35 g/kg") ==
        "input: expected an absolute salinity such as \"35.2 g/kg\", got \"-35 g/kg\": negative");
  CHECK(refusal<RelativeHumidity>("0.5") ==
        "input: expected a relative humidity such as \"50 %\", got \"0.5\": the unit is missing");
  CHECK(refusal<RelativeHumidity>("101 %") ==
        "input: expected a relative humidity such as \"50 %\", got \"101 %\": outside 0 % to 100 %");
  CHECK(refusal<double>("5 m") == "input: expected a ratio such as \"0.1\", got \"5 m\"");
  CHECK(refusal<Quantity<unit::none>>("5") ==
        "input: expected a ratio such as \"10 %\", got \"5\": the unit is missing");
  CHECK(message_of<ParseError>([] { parse_quantity("five m"); }) ==
        "input: expected a number with a unit such as \"1.40 m\", got \"five m\": there is no finite number at the "
        "beginning");
}

TEST_CASE("parse: the example in every kind's message is itself read as that kind") {
  for (const auto& u : known_units()) {
    const auto kind = quantity_kind(u.dimension);
    CAPTURE(kind.example);
    CHECK(parse_quantity(kind.example).dimension == u.dimension);
  }
  // A dimension without a name of its own is described by its base units.
  CHECK(quantity_kind({1, 0, -3, 0, 0, 0, 0, 0, 0, 0}).example == "1 m s^-3");
  CHECK(parse_quantity("1 m s^-3").dimension == Dimension{1, 0, -3, 0, 0, 0, 0, 0, 0, 0});
}
