// A photometric web laid out in raw SI for many look-ups.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <vector>

#include "theca/light/photometric_web.hpp"

namespace theca::light {

class WebSampler {
 public:
  /// Angles written in degrees may miss their radian limits by a rounding.
  static constexpr double rounding_rad = 1e-9;

  /// The web must be valid.
  explicit WebSampler(const PhotometricWeb& web) : goniometer_(web.goniometer) {
    for (const Angle& angle : web.horizontal) horizontal_.push_back(si(angle));
    for (const Angle& angle : web.vertical) vertical_.push_back(si(angle));
    for (const LuminousIntensity& intensity : web.intensities) candelas_.push_back(si(intensity));
  }

  /// Intensity in cd, see intensity_toward().
  double toward(double azimuth_rad, double from_axis_rad) const {
    const Table at = table_angles(azimuth_rad, from_axis_rad);
    const auto v = interval(vertical_, at.vertical_rad);
    if (!v) return 0.0;
    if (horizontal_.size() == 1) return in_plane(0, *v);
    const auto h = interval(horizontal_, at.horizontal_rad);
    if (!h) return 0.0;
    const double here = in_plane(h->i, *v);
    return here + h->share * (in_plane(h->i + 1, *v) - here);
  }

 private:
  struct Table {
    double horizontal_rad, vertical_rad;
  };
  /// Where an angle lies among a table's: between i and i + 1, share of the way. Nothing outside the table.
  struct Interval {
    std::size_t i;
    double share;
  };

  static std::optional<Interval> interval(const std::vector<double>& angles, double angle) {
    if (angle < angles.front() - rounding_rad || angle > angles.back() + rounding_rad) return {};
    const auto above = std::upper_bound(angles.begin() + 1, angles.end() - 1, angle);
    const auto i = static_cast<std::size_t>(above - angles.begin()) - 1;
    return Interval{i, std::clamp((angle - angles[i]) / (angles[i + 1] - angles[i]), 0.0, 1.0)};
  }

  double in_plane(std::size_t plane, const Interval& v) const {
    const double* const column = &candelas_[plane * vertical_.size() + v.i];
    return column[0] + v.share * (column[1] - column[0]);
  }

  Table table_angles(double azimuth, double from_axis) const {
    if (goniometer_ == Goniometer::type_c) {
      const double turn = 2.0 * std::numbers::pi;
      return {azimuth - turn * std::floor(azimuth / turn), from_axis};
    }
    const double sideways = std::sin(from_axis) * std::cos(azimuth);
    const double upward = std::sin(from_axis) * std::sin(azimuth);
    const double ahead = std::cos(from_axis);
    if (goniometer_ == Goniometer::type_a)
      return {std::atan2(sideways, ahead), std::asin(std::clamp(upward, -1.0, 1.0))};
    return {std::asin(std::clamp(sideways, -1.0, 1.0)), std::atan2(upward, ahead)};
  }

  Goniometer goniometer_;
  std::vector<double> horizontal_, vertical_, candelas_;
};

}  // namespace theca::light
