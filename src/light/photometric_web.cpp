#include "theca/light/photometric_web.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "theca/require.hpp"
#include "web_sampler.hpp"

namespace theca::light {
namespace {
using std::numbers::pi;
constexpr double rounding_rad = WebSampler::rounding_rad;

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
  return from_si<LuminousIntensity>(WebSampler(web).toward(si(azimuth), si(from_axis)));
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
