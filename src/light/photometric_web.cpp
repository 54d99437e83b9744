#include "theca/light/photometric_web.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>

#include "theca/require.hpp"

namespace theca::light {
namespace {
using std::numbers::pi;
// Angles written in degrees may miss their radian limits by a rounding.
constexpr double rounding_rad = 1e-9;

void require_rising(const std::vector<Angle>& angles, const char* name, double lowest_rad, double highest_rad,
                    const char* range) {
  for (std::size_t i = 0; i < angles.size(); ++i) {
    const std::string at = "web: " + std::string(name) + "[" + std::to_string(i) + "]";
    require::that(si(angles[i]) >= lowest_rad - rounding_rad && si(angles[i]) <= highest_rad + rounding_rad, at,
                  angles[i], range);
    require::that(i == 0 || angles[i] > angles[i - 1], at, angles[i], "more than the angle before");
  }
}

void require_whole_turn(const PhotometricWeb& web) {
  const auto& planes = web.horizontal;
  require::that(!planes.empty() && std::abs(si(planes.front())) <= rounding_rad, "web: horizontal[0]",
                planes.empty() ? Angle{} : planes.front(), "0 rad, first of at least one");
  if (planes.size() == 1) return;
  require::that(std::abs(si(planes.back()) - 2.0 * pi) <= rounding_rad, "web: last horizontal angle", planes.back(),
                "6.28319 rad (360 deg), or no second angle");
  const std::size_t rows = web.vertical.size();
  for (std::size_t i = 0; i < rows; ++i)
    require::that(web.intensities[i] == web.intensities[web.intensities.size() - rows + i],
                  "web: intensity of the last plane", web.intensities[web.intensities.size() - rows + i],
                  "that of the first, which is the same plane");
}

/// Where an angle lies among the table's: between i and i + 1, share of the way. Nothing outside the table.
struct Interval {
  std::size_t i;
  double share;
};
std::optional<Interval> interval(const std::vector<Angle>& angles, double angle_rad) {
  if (angle_rad < si(angles.front()) - rounding_rad || angle_rad > si(angles.back()) + rounding_rad) return {};
  const auto above = std::upper_bound(angles.begin() + 1, angles.end() - 1, from_si<Angle>(angle_rad));
  const auto i = static_cast<std::size_t>(above - angles.begin()) - 1;
  const double share = (angle_rad - si(angles[i])) / (si(angles[i + 1]) - si(angles[i]));
  return Interval{i, std::clamp(share, 0.0, 1.0)};
}

struct TableAngles {
  double horizontal_rad, vertical_rad;
};
TableAngles table_angles(Goniometer goniometer, double azimuth_rad, double from_axis_rad) {
  if (goniometer == Goniometer::type_c) {
    const double turn = azimuth_rad - 2.0 * pi * std::floor(azimuth_rad / (2.0 * pi));
    return {turn, from_axis_rad};
  }
  const double sideways = std::sin(from_axis_rad) * std::cos(azimuth_rad);
  const double upward = std::sin(from_axis_rad) * std::sin(azimuth_rad);
  const double ahead = std::cos(from_axis_rad);
  if (goniometer == Goniometer::type_a) return {std::atan2(sideways, ahead), std::asin(std::clamp(upward, -1.0, 1.0))};
  return {std::asin(std::clamp(sideways, -1.0, 1.0)), std::atan2(upward, ahead)};
}

/// Integral from a to b of a straight line through (a, at_a) and (b, at_b), times sine or cosine.
double times_sine(double a, double b, double at_a, double at_b) {
  return (at_b - at_a) / (b - a) * (std::sin(b) - std::sin(a)) + at_a * std::cos(a) - at_b * std::cos(b);
}
double times_cosine(double a, double b, double at_a, double at_b) {
  return times_sine(a + pi / 2, b + pi / 2, at_a, at_b);
}

template <class At, class Weighted>
double integral(const std::vector<Angle>& angles, At&& at, Weighted&& weighted) {
  double sum = 0.0;
  for (std::size_t i = 1; i < angles.size(); ++i) sum += weighted(si(angles[i - 1]), si(angles[i]), at(i - 1), at(i));
  return sum;
}
double plain(double a, double b, double at_a, double at_b) { return 0.5 * (b - a) * (at_a + at_b); }

}  // namespace

void require_valid(const PhotometricWeb& web) {
  const bool type_c = web.goniometer == Goniometer::type_c;
  require::that(web.vertical.size() >= 2, "web: number of vertical angles", static_cast<double>(web.vertical.size()),
                "at least 2");
  require::that(type_c || web.horizontal.size() >= 2, "web: number of horizontal angles",
                static_cast<double>(web.horizontal.size()), "at least 2");
  require::that(web.intensities.size() == web.vertical.size() * web.horizontal.size(), "web: number of intensities",
                static_cast<double>(web.intensities.size()), "one for each pair of angles");
  if (type_c) {
    require_rising(web.vertical, "vertical", 0.0, pi, "0 to 3.14159 rad");
    require_rising(web.horizontal, "horizontal", 0.0, 2.0 * pi, "0 to 6.28319 rad");
  } else {
    require_rising(web.vertical, "vertical", -pi / 2, pi / 2, "-1.5708 to 1.5708 rad");
    require_rising(web.horizontal, "horizontal", -pi / 2, pi / 2, "-1.5708 to 1.5708 rad");
  }
  bool dark = true;
  for (std::size_t i = 0; i < web.intensities.size(); ++i) {
    const double value = si(web.intensities[i]);
    if (!(value >= 0.0 && std::isfinite(value)))
      require::not_negative("web: intensities[" + std::to_string(i) + "]", web.intensities[i]);
    dark = dark && value == 0.0;
  }
  require::that(!dark, "web: largest intensity", LuminousIntensity{}, "> 0 cd");
  if (type_c) require_whole_turn(web);
}

LuminousIntensity intensity_toward(const PhotometricWeb& web, const Angle& azimuth, const Angle& from_axis) {
  require_valid(web);
  require::finite("azimuth", azimuth);
  require::within("angle from the axis", from_axis, Angle(), from_si<Angle>(pi));
  const TableAngles angles = table_angles(web.goniometer, si(azimuth), si(from_axis));
  const auto v = interval(web.vertical, angles.vertical_rad);
  if (!v) return {};
  const std::size_t rows = web.vertical.size();
  const auto in_plane = [&](std::size_t plane) {
    const double low = si(web.intensities[plane * rows + v->i]), high = si(web.intensities[plane * rows + v->i + 1]);
    return low + v->share * (high - low);
  };
  if (web.horizontal.size() == 1) return from_si<LuminousIntensity>(in_plane(0));
  const auto h = interval(web.horizontal, angles.horizontal_rad);
  if (!h) return {};
  const double here = in_plane(h->i);
  return from_si<LuminousIntensity>(here + h->share * (in_plane(h->i + 1) - here));
}

LuminousFlux luminous_flux(const PhotometricWeb& web) {
  require_valid(web);
  const std::size_t rows = web.vertical.size();
  const auto value = [&](std::size_t h, std::size_t v) { return si(web.intensities[h * rows + v]); };
  const auto over_vertical = [&](std::size_t h, auto&& weighted) {
    return integral(
        web.vertical, [&](std::size_t v) { return value(h, v); }, weighted);
  };
  if (web.horizontal.size() == 1) return from_si<LuminousFlux>(2.0 * pi * over_vertical(0, times_sine));
  const auto over_planes = [&](auto&& in_plane, auto&& across) {
    return from_si<LuminousFlux>(integral(
        web.horizontal, [&](std::size_t h) { return over_vertical(h, in_plane); }, across));
  };
  switch (web.goniometer) {
    case Goniometer::type_c:
      return over_planes(times_sine, plain);
    case Goniometer::type_a:
      return over_planes(times_cosine, plain);
    case Goniometer::type_b:
      return over_planes(plain, times_cosine);
  }
  throw InvalidInput("web: goniometer", "unknown", "type A, B or C");
}

}  // namespace theca::light
