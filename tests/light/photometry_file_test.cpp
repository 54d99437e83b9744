// Photometry files written after the standards' rules: every symmetry, awkward ones that are valid, malformed ones.
#include "theca/light/photometry_file.hpp"

#include <cmath>
#include <filesystem>
#include <fstream>
#include <string>

#include "support/near.hpp"
#include "theca/error.hpp"

using namespace theca;
using namespace theca::light;
using test::contains;
using test::message_of;
using test::near;

namespace {
constexpr double pi = 3.14159265358979323846;

double toward(const Photometry& p, double azimuth_deg, double from_axis_deg) {
  return si(intensity_toward(p.web, azimuth_deg * units::degree, from_axis_deg * units::degree));
}

/// LM-63-2002 with one vertical pair 0, 90 (and 45 between), for the horizontal angles and candelas given.
std::string ies(const std::string& horizontal_count, const std::string& horizontal, const std::string& candelas,
                const std::string& type = "1", const std::string& vertical = "0 45 90") {
  return "IESNA:LM-63-2002\r\n[TEST] 7\r\n[MANUFAC] none\r\n[LUMINAIRE] a lamp\r\n[MORE] for tests\r\nTILT=NONE\r\n"
         "1 -1 1.0 3 " +
         horizontal_count + " " + type + " 2 0.3 1.2 0\r\n1.0 1.0 84\r\n" + vertical + "\r\n" + horizontal + "\r\n" +
         candelas + "\r\n";
}

void refused(const std::string& text, int line, const std::string& says) {
  CAPTURE(says);
  try {
    parse_ies(text, "made.ies");
    FAIL("not refused");
  } catch (const ParseError& e) {
    CHECK(e.line() == line);
    CHECK(std::string(e.what()).find("made.ies") != std::string::npos);
    CHECK_MESSAGE(std::string(e.what()).find(says) != std::string::npos, std::string(e.what()));
  }
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  const auto at = text.find(what);
  REQUIRE(at != std::string::npos);
  return text.replace(at, what.size(), by);
}
}  // namespace

TEST_CASE("LM-63: symmetric about the axis, absolute photometry") {
  const Photometry p = parse_ies(ies("1", "0", "100 80 0"), "");
  CHECK(p.format == "IESNA:LM-63-2002");
  CHECK(p.name == "a lamp");
  REQUIRE(p.keywords.size() == 3);
  CHECK(p.keywords[2].name == "LUMINAIRE");
  CHECK(p.keywords[2].text == "a lamp\nfor tests");
  CHECK_FALSE(p.lamp_flux);
  CHECK_FALSE(p.light_output_ratio);
  REQUIRE(p.power);
  CHECK(near(si(*p.power), 84.0, 1e-15));
  CHECK(near(si(p.opening_width), 0.3, 1e-15));
  CHECK(near(si(p.opening_length), 1.2, 1e-15));
  CHECK_FALSE(p.round);
  CHECK(near(toward(p, 123.0, 22.5), 90.0, 1e-13));
  CHECK(toward(p, 0.0, 120.0) == 0.0);
  // By hand: 2 pi sum of [q sin - I cos] with q = -20/(pi/4), then -80/(pi/4):
  const double s = std::sqrt(0.5), q1 = -80.0 / pi, q2 = -320.0 / pi;
  CHECK(near(si(p.flux), 2 * pi * (q1 * s + 100.0 - 80.0 * s + q2 * (1.0 - s) + 80.0 * s), 1e-13));
}

TEST_CASE("LM-63: quadrants, sides, the plane 90-270 and no symmetry are unfolded") {
  // Candelas at the horizon tell the planes apart; at the axis all are 100.
  const Photometry quadrants = parse_ies(ies("3", "0 30 90", "100 50 10  100 50 20  100 50 30"), "");
  for (const double c : {30.0, 150.0, 210.0, 330.0, -30.0}) CHECK(near(toward(quadrants, c, 90), 20.0, 1e-12));
  for (const double c : {90.0, 270.0}) CHECK(near(toward(quadrants, c, 90), 30.0, 1e-12));
  CHECK(near(toward(quadrants, 180, 90), 10.0, 1e-12));
  CHECK(near(toward(quadrants, 60, 90), 25.0, 1e-12));
  CHECK(quadrants.web.horizontal.size() == 9);

  const Photometry sides = parse_ies(ies("3", "0 45 180", "100 50 10  100 50 20  100 50 30"), "");
  CHECK(near(toward(sides, 45, 90), 20.0, 1e-12));
  CHECK(near(toward(sides, 315, 90), 20.0, 1e-12));
  CHECK(near(toward(sides, 180, 90), 30.0, 1e-12));
  CHECK(near(toward(sides, 0, 90), 10.0, 1e-12));

  const Photometry about_90 = parse_ies(ies("4", "90 120 180 270", "100 50 10  100 50 20  100 50 30  100 50 40"), "");
  CHECK(near(toward(about_90, 90, 90), 10.0, 1e-12));
  CHECK(near(toward(about_90, 120, 90), 20.0, 1e-12));
  CHECK(near(toward(about_90, 60, 90), 20.0, 1e-12));
  CHECK(near(toward(about_90, 0, 90), 30.0, 1e-12));
  CHECK(near(toward(about_90, 180, 90), 30.0, 1e-12));
  CHECK(near(toward(about_90, 270, 90), 40.0, 1e-12));
  CHECK(near(toward(about_90, 225, 90), 35.0, 1e-12));
  CHECK(near(toward(about_90, 315, 90), 35.0, 1e-12));

  const Photometry none = parse_ies(ies("5", "0 90 180 270 360", "100 50 1 100 50 2 100 50 3 100 50 4 100 50 1"), "");
  for (int i = 0; i < 4; ++i) CHECK(near(toward(none, 90.0 * i, 90), 1.0 + i, 1e-12));
}

TEST_CASE("LM-63: types A and B, one side mirrored") {
  // At H = 90 deg all planes of type B meet, as those of type A do at V = 90 deg.
  const Photometry b = parse_ies(ies("2", "0 90", "100 60 20  40 40 40", "2", "-90 0 90"), "");
  CHECK(b.web.goniometer == Goniometer::type_b);
  CHECK(b.web.horizontal.size() == 3);
  CHECK(near(toward(b, 0, 0), 60.0, 1e-12));     // V 0, H 0
  CHECK(near(toward(b, 0, 90), 40.0, 1e-12));    // H 90
  CHECK(near(toward(b, 180, 90), 40.0, 1e-12));  // H -90, mirrored
  CHECK(near(toward(b, 90, 90), 20.0, 1e-12));   // V 90
  CHECK(near(toward(b, 270, 90), 100.0, 1e-12));
  const Photometry a = parse_ies(ies("2", "0 90", "100 60 20  100 40 20", "3", "-90 0 90"), "");
  CHECK(a.web.goniometer == Goniometer::type_a);
  CHECK(near(toward(a, 0, 90), 40.0, 1e-12));
  CHECK(near(toward(a, 180, 90), 40.0, 1e-12));
  CHECK(near(toward(a, 90, 90), 20.0, 1e-12));
}

TEST_CASE("LM-63: multipliers, feet, round openings, lamps and their light output ratio") {
  // Uniform 20 cd x 2 x 0.9 downward: 2 pi 36 = 226.19 lm of 2 x 150 lm.
  const std::string text = "IESNA91\n[TEST] 1\nTILT=NONE\n2 150 2.0 2 1 1 1 -1 -1 0\n0.9 1.0 30\n0 90\n0\n20 20\n";
  const Photometry p = parse_ies(text, "");
  CHECK(near(si(p.flux), 72 * pi, 1e-13));
  REQUIRE(p.light_output_ratio);
  CHECK(near(*p.light_output_ratio, 72 * pi / 300.0, 1e-13));
  CHECK(near(si(p.opening_width), 0.3048, 1e-15));
  CHECK(p.round);
  // The ballast-lamp factor counts in the old forms; in its place the form of 2019 tells how the file was made.
  CHECK(near(si(parse_ies(replaced(text, "0.9 1.0", "0.9 0.5"), "").flux), 36 * pi, 1e-13));
  const std::string newer = replaced(text, "IESNA91", "IES:LM-63-2019");
  CHECK(near(si(parse_ies(replaced(newer, "0.9 1.0", "0.9 1.10000"), "").flux), 72 * pi, 1e-13));
}

TEST_CASE(
    "LM-63: awkward but valid: no version line, labels, wrapped lists, commas, no last line end, last plane short") {
  const std::string text =
      "A luminaire of the first form\nwith two labels\nTILT=INCLUDE\n1\n3\n0 45\n90\n1.0 .95 0.9\n"
      "1 1000 1 3 4 1 2 0 0 0 1 1 0 0,\n 45, 90 0 90\n180 270 10 10 1\n10 10 2\n10 10\n3 +10 1.0e1 4";
  const Photometry p = parse_ies(text, "");
  CHECK(p.format == "LM-63-1986");
  CHECK(p.name == "A luminaire of the first form");
  REQUIRE(p.tilt_factors.size() == 3);
  CHECK(near(p.tilt_factors[1].factor, 0.95, 1e-15));
  CHECK(near(si(p.tilt_factors[2].tilt), pi / 2, 1e-15));
  CHECK_FALSE(p.power);
  CHECK(near(toward(p, 315, 90), 2.5, 1e-12));  // half way from 270 to 360, which is 0
  CHECK(parse_ies("\xEF\xBB\xBF" + ies("1", "0", "1 1 1") + "\r\n\x1A", "").web.intensities.size() == 3);
}

TEST_CASE("LM-63: what is malformed is refused with its line") {
  const std::string good = ies("1", "0", "100 80 0");
  refused("", 0, "TILT=");
  refused(replaced(good, "100 80 0", "100 80"), 11, "file ends");
  refused(replaced(good, "100 80 0", "100 80 0 7"), 11, "end of the file");
  refused(replaced(good, "100 80 0", "100 8O 0"), 11, "\"8O\"");
  refused(replaced(good, "100 80 0", "100 -80 0"), 11, "at least 0");
  refused(replaced(good, "100 80 0", "0 0 0"), 11, "above 0");
  refused(replaced(good, "100 80 0", "100 nan 0"), 11, "nan");
  refused(replaced(good, "0 45 90", "0 95 90"), 9, "rise");
  refused(replaced(good, "0 45 90", "0 45 80"), 9, "90 or 180");
  refused(replaced(good, "1.0 1.0 84", "1.0 1.0 -84"), 8, "watts");
  refused(replaced(good, "1.0 1.0 84", "0 1.0 84"), 8, "ballast factor");
  refused(replaced(good, "1 -1 1.0", "1 -2 1.0"), 7, "-1 for absolute");
  refused(replaced(good, "1 -1 1.0", "0 -1 1.0"), 7, "number of lamps");
  refused(replaced(good, "1 -1 1.0", "1 10 1.0"), 11, "add up to");
  refused(replaced(good, "3 1 1 2", "3 1 4 2"), 7, "photometric type");
  refused(replaced(good, "3 1 1 2", "3 1.5 1 2"), 7, "whole number");
  refused(replaced(good, "TILT=NONE", "TILT=lamp.tlt"), 6, "lamp.tlt");
  refused(replaced(good, "IESNA:LM-63-2002", "IESNA:LM-63-1999"), 1, "LM-63-2019");
  refused(replaced(good, "[TEST] 7", "TEST 7"), 2, "keyword");
  refused(replaced(good, "[TEST] 7", "[TEST 7"), 2, "bracket");
  refused(ies("2", "0 270", "1 1 1 1 1 1"), 10, "0, 90, 180 or 360");
  refused(ies("2", "10 90", "1 1 1 1 1 1"), 10, "from 0 deg");
  refused(ies("2", "0 80", "1 1 1 1 1 1", "2", "-90 0 90"), 10, "types A and B");
}

TEST_CASE("LM-63: tilt factors from the file that TILT names are read beside it") {
  const auto folder = std::filesystem::temp_directory_path() / "theca_photometry_file_test";
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "lamp.tlt") << "1\n2\n0 90\n1.0 0.9\n";
  std::ofstream(folder / "made.ies") << replaced(ies("1", "0", "100 80 0"), "TILT=NONE", "TILT=lamp.tlt");
  CHECK(read_ies(folder / "made.ies").tilt_factors.size() == 2);
  std::filesystem::remove(folder / "lamp.tlt");
  CHECK_THROWS_AS(read_ies(folder / "made.ies"), ParseError);
  CHECK_THROWS_AS(read_ies(folder / "missing.ies"), ParseError);
  CHECK_THROWS_AS(read_eulumdat(folder / "missing.ldt"), ParseError);
  std::filesystem::remove_all(folder);
}

namespace {
/// EULUMDAT with C planes every 90 deg (or 45), gamma 0 45 90; `values` are cd per 1000 lm.
std::string ldt(int symmetry, int planes, const std::string& values, const std::string& output_ratio = "0",
                const std::string& lamps = "1") {
  std::string text = "none\n3\n" + std::to_string(symmetry) + "\n" + std::to_string(planes) + "\n" +
                     std::to_string(360 / planes) + "\n3\n45\n17\na lamp\nL1\nlamp\n2026\n1200\n300\n50\n1100\n250\n" +
                     "0\n0\n0\n0\n100\n" + output_ratio + "\n1.0\n0\n1\n" + lamps + "\nLED\n2000\n4000\n80\n25\n";
  for (int i = 0; i < 10; ++i) text += "0.5\n";
  for (int c = 0; c < planes; ++c) text += std::to_string(c * 360 / planes) + "\n";
  text += "0\n45\n90\n";
  for (const char ch : values) text += ch == ' ' ? '\n' : ch;
  return text + "\n";
}
}  // namespace

TEST_CASE("EULUMDAT: values per 1000 lm of the lamps become the luminaire's, symmetries are unfolded") {
  const Photometry round = parse_eulumdat(ldt(1, 4, "100 80 0"), "");
  CHECK(round.name == "a lamp");
  CHECK(near(toward(round, 77, 0), 200.0, 1e-13));  // 2000 lm
  REQUIRE(round.lamp_flux);
  CHECK(near(si(*round.lamp_flux), 2000.0, 1e-15));
  CHECK(near(si(round.flux), 2 * si(parse_ies(ies("1", "0", "100 80 0"), "").flux), 1e-13));
  CHECK(near(si(round.opening_length), 1.1, 1e-15));
  CHECK(near(si(round.opening_width), 0.25, 1e-15));
  CHECK(near(si(*round.power), 25.0, 1e-15));

  const Photometry none = parse_eulumdat(ldt(0, 4, "100 50 1 100 50 2 100 50 3 100 50 4"), "");
  for (int i = 0; i < 4; ++i) CHECK(near(toward(none, 90.0 * i, 90), 2.0 * (i + 1), 1e-12));

  const Photometry about_0 = parse_eulumdat(ldt(2, 4, "100 50 1 100 50 2 100 50 3"), "");
  CHECK(near(toward(about_0, 90, 90), 4.0, 1e-12));
  CHECK(near(toward(about_0, 270, 90), 4.0, 1e-12));
  CHECK(near(toward(about_0, 180, 90), 6.0, 1e-12));

  // From C270 over C0 to C90.
  const Photometry about_90 = parse_eulumdat(ldt(3, 4, "100 50 1 100 50 2 100 50 3"), "");
  CHECK(near(toward(about_90, 270, 90), 2.0, 1e-12));
  CHECK(near(toward(about_90, 0, 90), 4.0, 1e-12));
  CHECK(near(toward(about_90, 180, 90), 4.0, 1e-12));
  CHECK(near(toward(about_90, 90, 90), 6.0, 1e-12));

  const Photometry quadrants = parse_eulumdat(ldt(4, 8, "100 50 1 100 50 2 100 50 3"), "");
  for (const double c : {45.0, 135.0, 225.0, 315.0}) CHECK(near(toward(quadrants, c, 90), 4.0, 1e-12));
  CHECK(near(toward(quadrants, 90, 90), 6.0, 1e-12));
  CHECK(near(toward(quadrants, 180, 90), 2.0, 1e-12));
}

TEST_CASE("EULUMDAT: the light output ratio is held against the intensities; absolute photometry has no lamp flux") {
  // Uniform 100 cd/klm downward: 2 pi x 100 = 628 lm of 1000, 62.8 %.
  const Photometry p = parse_eulumdat(ldt(1, 4, "100 100 100", "62.8"), "");
  CHECK(near(*p.light_output_ratio, 0.2 * pi, 1e-13));
  CHECK_THROWS_AS(parse_eulumdat(ldt(1, 4, "100 100 100", "70"), ""), ParseError);
  const Photometry absolute = parse_eulumdat(ldt(1, 4, "100 100 100", "62.8", "-1"), "");
  CHECK_FALSE(absolute.lamp_flux);
  CHECK(near(si(absolute.flux), 400 * pi, 1e-13));
}

TEST_CASE("EULUMDAT: the downward flux fraction is held against the intensities") {
  // All of the light goes down; a file that says 60 % is refused, one that leaves it open at 0 is read.
  const std::string whole = ldt(1, 4, "100 100 100");
  const auto says = [&](const std::string& percent) {
    std::string text = whole;
    return text.replace(text.find("\n100\n"), 5, "\n" + percent + "\n");
  };
  CHECK_NOTHROW(parse_eulumdat(says("97"), ""));
  CHECK_NOTHROW(parse_eulumdat(says("0"), ""));
  CHECK(contains(message_of<ParseError>([&] { parse_eulumdat(says("60"), ""); }), "downward flux fraction"));
  CHECK(contains(message_of<ParseError>([&] { parse_eulumdat(says("120"), ""); }), "downward flux fraction"));
}

TEST_CASE("EULUMDAT: what is malformed is refused with its line") {
  const std::string good = ldt(1, 4, "100 80 0");
  CHECK_NOTHROW(parse_eulumdat(good, ""));
  const auto refuses = [](const std::string& text, int line, const std::string& says) {
    CAPTURE(says);
    try {
      parse_eulumdat(text, "made.ldt");
      FAIL("not refused");
    } catch (const ParseError& e) {
      CHECK(e.line() == line);
      CHECK_MESSAGE(std::string(e.what()).find(says) != std::string::npos, std::string(e.what()));
    }
  };
  refuses("", 0, "company");
  refuses(ldt(5, 4, "100 80 0"), 3, "symmetry");
  refuses(ldt(3, 6, "100 80 0"), 4, "divides");
  refuses(ldt(1, 4, "100 80"), 51, "file ends");
  refuses(ldt(1, 4, "100 80 0 1"), 53, "end of the file");
  refuses(ldt(1, 4, "100 80,5 0"), 51, "80,5");
  refuses(replaced(good, "\n0\n90\n180\n", "\n0\n95\n180\n"), 44, "apart");
  refuses(replaced(good, "\n2000\n", "\n0\n"), 29, "luminous flux");
}
