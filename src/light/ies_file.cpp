#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

#include "photometry_text.hpp"
#include "theca/light/photometry_file.hpp"

namespace theca::light {
namespace {
constexpr int most_angles = 10000;
constexpr double flux_tolerance = 0.05;
constexpr double same_deg = 1e-6;

/// Text of the file that TILT names.
using TiltFile = std::function<std::string(const std::string& name)>;

struct Header {
  std::string format = "LM-63-1986";
  std::string tilt;
};

bool is_keyword(std::string_view line) { return !line.empty() && line.front() == '['; }

void read_keyword(PhotometryText& text, std::string_view line, Photometry& photometry) {
  const std::size_t end = line.find(']');
  if (end == std::string_view::npos) text.fail("a keyword in brackets, which this line does not close");
  const std::string name(line.substr(1, end - 1)), said(trimmed(line.substr(end + 1)));
  if (name == "MORE") {
    if (photometry.keywords.empty()) text.fail("a keyword before [MORE], which goes on with it");
    photometry.keywords.back().text += '\n' + said;
    return;
  }
  photometry.keywords.push_back({name, said});
  if (name == "LUMINAIRE") photometry.name = said;
}

Header read_header(PhotometryText& text, Photometry& photometry) {
  static constexpr std::array<std::string_view, 4> formats = {"IESNA91", "IESNA:LM-63-1995", "IESNA:LM-63-2002",
                                                              "IES:LM-63-2019"};
  Header header;
  if (const auto known = std::find(formats.begin(), formats.end(), text.peek_line()); known != formats.end()) {
    header.format = *known;
    text.next_line("the format's name");
  } else if (text.peek_line().substr(0, 3) == "IES") {
    text.next_line("the format's name");
    text.fail("IESNA91, IESNA:LM-63-1995, IESNA:LM-63-2002 or IES:LM-63-2019");
  }
  for (;;) {
    const std::string_view line = text.next_line("a line TILT=");
    if (line.substr(0, 5) == "TILT=") {
      header.tilt = trimmed(line.substr(5));
      return header;
    }
    if (is_keyword(line))
      read_keyword(text, line, photometry);
    else if (header.format != "LM-63-1986" && !line.empty())
      text.fail("a keyword in brackets or TILT=");
    else if (photometry.name.empty())
      photometry.name = line;
  }
}

void read_tilt(PhotometryText& text, Photometry& photometry) {
  text.whole("lamp to luminaire geometry", 1, 3);
  const int pairs = text.whole("number of tilt angles", 1, most_angles);
  std::vector<double> angles, factors;
  for (int i = 0; i < pairs; ++i) {
    angles.push_back(text.number("a tilt angle"));
    if (angles.back() < 0.0 || angles.back() > 180.0 || (i > 0 && !(angles[angles.size() - 2] < angles.back())))
      text.fail("tilt angles that rise, within 0 to 180 deg");
  }
  for (int i = 0; i < pairs; ++i) {
    factors.push_back(text.number("a tilt factor"));
    if (factors.back() < 0.0) text.fail("a tilt factor of at least 0");
    photometry.tilt_factors.push_back({angles[static_cast<std::size_t>(i)] * units::degree, factors.back()});
  }
}

std::vector<double> read_angles(PhotometryText& text, int count, const std::string& which) {
  std::vector<double> angles;
  for (int i = 0; i < count; ++i) {
    angles.push_back(text.number("a " + which + " angle"));
    if (i > 0 && !(angles.back() > angles[angles.size() - 2])) text.fail(which + " angles that rise");
  }
  return angles;
}

bool same(double a, double b) { return std::abs(a - b) <= same_deg; }

void check_vertical(const PhotometryText& text, Goniometer goniometer, const std::vector<double>& v) {
  const double first = v.front(), last = v.back();
  if (goniometer == Goniometer::type_c) {
    if (!(same(first, 0.0) || same(first, 90.0)) || !(same(last, 90.0) || same(last, 180.0)))
      text.fail("vertical angles of type C from 0 or 90 to 90 or 180 deg");
  } else if (!(same(first, 0.0) || same(first, -90.0)) || !same(last, 90.0)) {
    text.fail("vertical angles of types A and B from -90 or 0 to 90 deg");
  }
}

/// The planes of the whole turn, or of both sides: for each its angle and the measured plane that it equals.
struct Plane {
  double angle_deg;
  std::size_t measured;
};

/// Adds the mirror images of the planes about an angle, so that they run on from it.
void mirror(std::vector<Plane>& planes, double about_deg) {
  for (std::size_t i = planes.size(); i-- > 0;)
    if (!same(planes[i].angle_deg, about_deg))
      planes.push_back({2.0 * about_deg - planes[i].angle_deg, planes[i].measured});
}

std::vector<Plane> unfold(const PhotometryText& text, const std::string& format, Goniometer goniometer,
                          const std::vector<double>& h) {
  std::vector<Plane> planes;
  for (std::size_t i = 0; i < h.size(); ++i) planes.push_back({h[i], i});
  const double first = h.front(), last = h.back();
  if (goniometer != Goniometer::type_c) {
    if (same(first, 0.0) && same(last, 90.0)) {
      std::vector<Plane> both;
      for (std::size_t i = planes.size(); i-- > 1;) both.push_back({-planes[i].angle_deg, planes[i].measured});
      both.insert(both.end(), planes.begin(), planes.end());
      return both;
    }
    if (!same(first, -90.0) || !same(last, 90.0))
      text.fail("horizontal angles of types A and B from -90 or 0 to 90 deg");
    return planes;
  }
  if (same(first, 90.0) && same(last, 270.0)) {
    // Symmetric about the plane 90-270: what lies between 270 and 450 deg mirrors it; then turned to begin at 0.
    mirror(planes, 270.0);
    std::vector<Plane> turned;
    for (const Plane& p : planes)
      if (p.angle_deg >= 360.0 - same_deg) turned.push_back({p.angle_deg - 360.0, p.measured});
    if (turned.empty() || !same(turned.front().angle_deg, 0.0))
      text.fail("a plane at 180 deg, which the one at 0 mirrors");
    turned.pop_back();  // 90 deg, with which the measured ones begin
    for (const Plane& p : planes)
      if (p.angle_deg <= 360.0 + same_deg) turned.push_back(p);
    return turned;
  }
  if (!same(first, 0.0)) text.fail("horizontal angles of type C from 0 deg, or from 90 to 270 deg");
  if (h.size() == 1) return planes;
  if (same(last, 90.0)) mirror(planes, 90.0);
  if (same(last, 90.0) || same(last, 180.0)) {
    mirror(planes, 180.0);
  } else if (!same(last, 360.0)) {
    const bool old = format == "LM-63-1986" || format == "IESNA91";
    if (!(old && last > 180.0 && last < 360.0)) text.fail("horizontal angles of type C to 0, 90, 180 or 360 deg");
    planes.push_back({360.0, 0});
  }
  return planes;
}

PhotometricWeb read_web(PhotometryText& text, const std::string& format, Goniometer goniometer, int n_vertical,
                        int n_horizontal, double multiplier) {
  const std::vector<double> vertical = read_angles(text, n_vertical, "vertical");
  check_vertical(text, goniometer, vertical);
  const std::vector<double> horizontal = read_angles(text, n_horizontal, "horizontal");
  const std::vector<Plane> planes = unfold(text, format, goniometer, horizontal);
  const auto rows = static_cast<std::size_t>(n_vertical);
  std::vector<double> measured;
  bool dark = true;
  for (std::size_t i = 0; i < rows * horizontal.size(); ++i) {
    measured.push_back(text.number("an intensity"));
    if (measured.back() < 0.0) text.fail("an intensity of at least 0");
    dark = dark && measured.back() == 0.0;
  }
  if (dark) text.fail("an intensity above 0; all are 0");
  PhotometricWeb web;
  web.goniometer = goniometer;
  for (const double v : vertical) web.vertical.push_back(v * units::degree);
  for (const Plane& plane : planes) {
    web.horizontal.push_back(plane.angle_deg * units::degree);
    // The planes of 0 and 360 deg are one; a file may state both, and the first one counts.
    const bool turn = goniometer == Goniometer::type_c && planes.size() > 1 && same(plane.angle_deg, 360.0);
    const std::size_t from = (turn ? planes.front().measured : plane.measured) * rows;
    for (std::size_t i = from; i < from + rows; ++i)
      web.intensities.push_back(measured[i] * multiplier * units::candela);
  }
  return web;
}

Photometry read(std::string_view content, std::string_view origin, const TiltFile& tilt_file) {
  PhotometryText text(content, origin);
  Photometry photometry;
  const Header header = read_header(text, photometry);
  photometry.format = header.format;
  if (header.tilt == "INCLUDE") {
    read_tilt(text, photometry);
  } else if (header.tilt != "NONE") {
    if (!tilt_file) text.fail("TILT=NONE or TILT=INCLUDE; the factors are in the file " + header.tilt);
    const std::string other = tilt_file(header.tilt);
    PhotometryText factors(other, header.tilt);
    read_tilt(factors, photometry);
    if (!factors.at_end()) factors.fail("the end of the tilt factors");
  }

  const int lamps = text.whole("number of lamps", 1, most_angles);
  const double lumens = text.number("lumens per lamp");
  if (!(lumens > 0.0 || lumens == -1.0)) text.fail("lumens per lamp above 0, or -1 for absolute photometry");
  const double multiplier = text.number("candela multiplier");
  if (!(multiplier > 0.0)) text.fail("a candela multiplier above 0");
  const int n_vertical = text.whole("number of vertical angles", 2, most_angles);
  const int n_horizontal = text.whole("number of horizontal angles", 1, most_angles);
  const int type = text.whole("photometric type", 1, 3);
  const auto goniometer = type == 1 ? Goniometer::type_c : type == 2 ? Goniometer::type_b : Goniometer::type_a;
  const Length unit =
      text.whole("units type, 1 for feet or 2 for metres", 1, 2) == 1 ? 1.0 * units::foot : 1.0 * units::metre;
  const double width = text.number("width"), length = text.number("length"), height = text.number("height");
  photometry.opening_width = std::abs(width) * unit;
  photometry.opening_length = std::abs(length) * unit;
  photometry.opening_height = std::abs(height) * unit;
  photometry.round = width < 0.0 || length < 0.0;
  const double ballast = text.number("ballast factor");
  if (!(ballast > 0.0)) text.fail("a ballast factor above 0");
  const double second = text.number("ballast-lamp factor");
  const bool second_counts = header.format == "LM-63-1986" || header.format == "IESNA91";
  if (second_counts && !(second > 0.0)) text.fail("a ballast-lamp factor above 0");
  const double watts = text.number("input watts");
  if (watts < 0.0) text.fail("input watts of at least 0");
  if (watts > 0.0) photometry.power = watts * units::watt;

  photometry.web = read_web(text, header.format, goniometer, n_vertical, n_horizontal,
                            multiplier * ballast * (second_counts ? second : 1.0));
  if (!text.at_end()) {
    text.word("the end");
    text.fail("the end of the file after the last of " + std::to_string(n_vertical * n_horizontal) + " intensities");
  }
  photometry.flux = luminous_flux(photometry.web);
  if (lumens > 0.0) {
    photometry.lamp_flux = lamps * lumens * units::lumen;
    photometry.light_output_ratio = si(photometry.flux / *photometry.lamp_flux);
    if (*photometry.light_output_ratio > 1.0 + flux_tolerance)
      text.fail("intensities that add up to no more than the lamps' " + std::to_string(si(*photometry.lamp_flux)) +
                " lm; they add up to " + std::to_string(si(photometry.flux)) + " lm");
  }
  return photometry;
}

}  // namespace

Photometry parse_ies(std::string_view text, std::string_view origin) { return read(text, origin, {}); }

Photometry read_ies(const std::filesystem::path& file) {
  return read(content_of(file), file.string(),
              [&](const std::string& name) { return content_of(file.parent_path() / name); });
}

}  // namespace theca::light
