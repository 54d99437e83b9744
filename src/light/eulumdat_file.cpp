#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "photometry_text.hpp"
#include "theca/light/photometry_file.hpp"

namespace theca::light {
namespace {
constexpr double flux_tolerance = 0.05;
constexpr double most_step_error_deg = 0.5;  // headings often round their steps

/// First and last of the C planes whose intensities the file holds, counted from 0 (beyond the turn: again from 0).
struct StoredPlanes {
  int first, count;
};
StoredPlanes stored_planes(int symmetry, int planes) {
  switch (symmetry) {
    case 1:
      return {0, 1};
    case 2:
      return {0, planes / 2 + 1};
    case 3:
      return {3 * planes / 4, planes / 2 + 1};
    case 4:
      return {0, planes / 4 + 1};
    default:
      return {0, planes};
  }
}

/// Which stored plane the plane `c` of `planes` equals.
int stored(int symmetry, int planes, int c) {
  const int half = planes / 2, quarter = planes / 4;
  switch (symmetry) {
    case 1:
      return 0;
    case 2:
      return c <= half ? c : planes - c;
    case 3: {
      const int from_270 = (c + quarter) % planes;  // 0 at C270, `half` at C90
      return from_270 <= half ? from_270 : planes - from_270;
    }
    case 4: {
      const int folded = c <= half ? c : planes - c;
      return folded <= quarter ? folded : half - folded;
    }
    default:
      return c;
  }
}

std::vector<double> read_angles(PhotometryText& text, int count, const std::string& what, double step, double most) {
  std::vector<double> angles;
  for (int i = 0; i < count; ++i) {
    angles.push_back(text.line_number(what));
    if (angles.back() < 0.0 || angles.back() > most || (i > 0 && !(angles.back() > angles[angles.size() - 2])))
      text.fail(what + "s that rise from 0 to " + std::to_string(static_cast<int>(most)));
    if (step > 0.0 && std::abs(angles.back() - angles.front() - i * step) > most_step_error_deg)
      text.fail(what + "s " + std::to_string(step) + " deg apart, as the heading says");
  }
  return angles;
}

// Share of the flux that goes below the horizontal; a distribution that ends at 90 deg has no other.
double downward_share(const PhotometricWeb& web) {
  PhotometricWeb lower{.horizontal = web.horizontal, .vertical = {}, .intensities = {}};
  for (const Angle& gamma : web.vertical)
    if (si(gamma) <= 0.5 * std::numbers::pi * (1.0 + 1e-9)) lower.vertical.push_back(gamma);
  if (lower.vertical.size() < 2) return 0.0;
  const std::size_t all = web.vertical.size(), kept = lower.vertical.size();
  for (std::size_t c = 0; c < web.horizontal.size(); ++c)
    for (std::size_t g = 0; g < kept; ++g) lower.intensities.push_back(web.intensities[c * all + g]);
  const bool dark = std::all_of(lower.intensities.begin(), lower.intensities.end(),
                                [](const LuminousIntensity& i) { return si(i) == 0.0; });
  return dark ? 0.0 : si(luminous_flux(lower)) / si(luminous_flux(web));
}

}  // namespace

Photometry parse_eulumdat(std::string_view content, std::string_view origin) {
  PhotometryText text(content, origin);
  Photometry photometry;
  photometry.format = "EULUMDAT";
  text.next_line("company identification");
  text.line_whole("type indicator", 0, 3);
  const int symmetry = text.line_whole("symmetry indicator", 0, 4);
  const int planes = text.line_whole("number of C planes", 1, 721);
  if ((symmetry == 2 && planes % 2 != 0) || (symmetry > 2 && planes % 4 != 0))
    text.fail("a number of C planes that the symmetry divides evenly");
  const double plane_step = text.line_number("distance between C planes");
  const int gammas = text.line_whole("number of intensities in each C plane", 2, 361);
  const double gamma_step = text.line_number("distance between intensities");
  text.next_line("measurement report number");
  photometry.name = text.next_line("luminaire name");
  for (const char* const what : {"luminaire number", "file name", "date and user"}) text.next_line(what);

  const auto millimetres = [&](const char* what) {
    const double value = text.line_number(what);
    if (value < 0.0) text.fail(std::string(what) + " of at least 0 mm");
    return value * units::millimetre;
  };
  for (const char* const what : {"length of the luminaire", "width of the luminaire", "height of the luminaire"})
    millimetres(what);
  photometry.opening_length = millimetres("length of the luminous area");
  photometry.opening_width = millimetres("width of the luminous area");
  photometry.round = si(photometry.opening_width) == 0.0 && si(photometry.opening_length) > 0.0;
  if (photometry.round) photometry.opening_width = photometry.opening_length;
  for (const char* const plane : {"C0", "C90", "C180", "C270"}) {
    const Length height = millimetres((std::string("height of the luminous area at ") + plane).c_str());
    if (height > photometry.opening_height) photometry.opening_height = height;
  }
  const double downward = text.line_number("downward flux fraction") / 100.0;
  if (downward < 0.0 || downward > 1.0) text.fail("a downward flux fraction of 0 to 100 %");
  const double output_ratio = text.line_number("light output ratio") / 100.0;
  if (output_ratio < 0.0) text.fail("a light output ratio of at least 0 %");
  const double conversion = text.line_number("conversion factor");
  if (!(conversion > 0.0)) text.fail("a conversion factor above 0");
  text.line_number("tilt during measurement");

  const int sets = text.line_whole("number of lamp sets", 1, 20);
  double lamp_lumens = 0.0;
  bool absolute = false;
  for (int set = 0; set < sets; ++set) {
    const double number = text.line_number("number of lamps");
    text.next_line("type of lamps");
    const double lumens = text.line_number("luminous flux of the lamps");
    if (!(lumens > 0.0)) text.fail("a luminous flux above 0 lm");
    text.next_line("colour of the lamps");
    text.next_line("colour rendering group");
    const double watts = text.line_number("power");
    if (watts < 0.0) text.fail("a power of at least 0 W");
    if (set > 0) continue;
    absolute = number < 0.0;
    lamp_lumens = lumens;
    if (watts > 0.0) photometry.power = watts * units::watt;
  }
  for (int i = 0; i < 10; ++i) text.line_number("direct ratio");

  const std::vector<double> c = read_angles(text, planes, "C angle", plane_step, 360.0);
  if (c.front() != 0.0) text.fail("C angles that begin at 0 deg");
  const std::vector<double> gamma = read_angles(text, gammas, "gamma angle", gamma_step, 180.0);
  const StoredPlanes held = stored_planes(symmetry, planes);
  std::vector<double> values;
  bool dark = true;
  for (int i = 0; i < held.count * gammas; ++i) {
    values.push_back(text.line_number("an intensity"));
    if (values.back() < 0.0) text.fail("an intensity of at least 0");
    dark = dark && values.back() == 0.0;
  }
  if (dark) text.fail("an intensity above 0; all are 0");
  if (!text.at_end()) {
    text.next_line("the end");
    text.fail("the end of the file after the last of " + std::to_string(held.count * gammas) + " intensities");
  }

  PhotometricWeb& web = photometry.web;
  for (const double g : gamma) web.vertical.push_back(g * units::degree);
  const bool round = symmetry == 1 || planes == 1;
  for (int p = 0; p <= (round ? 0 : planes); ++p) {
    web.horizontal.push_back((p < planes ? c[static_cast<std::size_t>(p)] : 360.0) * units::degree);
    const int from = round ? 0 : stored(symmetry, planes, p % planes) * gammas;
    for (int i = from; i < from + gammas; ++i)
      web.intensities.push_back(values[static_cast<std::size_t>(i)] * conversion * lamp_lumens / 1000.0 *
                                units::candela);
  }
  photometry.flux = luminous_flux(web);
  const double ratio = si(photometry.flux) / lamp_lumens;
  if (output_ratio > 0.0 && std::abs(ratio - output_ratio) > flux_tolerance * output_ratio)
    text.fail("intensities that add up to the light output ratio of " + std::to_string(100.0 * output_ratio) +
              " %; they add up to " + std::to_string(100.0 * ratio) + " %");
  // Files that leave the fraction open say 0.
  const double down = downward_share(web);
  if (downward > 0.0 && std::abs(down - downward) > flux_tolerance)
    text.fail("intensities that send the downward flux fraction of " + std::to_string(100.0 * downward) +
              " % down; they send " + std::to_string(100.0 * down) + " %");
  if (!absolute) {
    photometry.lamp_flux = lamp_lumens * units::lumen;
    photometry.light_output_ratio = ratio;
  }
  return photometry;
}

Photometry read_eulumdat(const std::filesystem::path& file) { return parse_eulumdat(content_of(file), file.string()); }

}  // namespace theca::light
