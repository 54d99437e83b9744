// A course of temperature in raw SI, ready for an integrator: within two neighbouring breaks it is smooth.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "theca/thermal/tank_loop.hpp"

namespace theca::thermal::detail {

/// A course between two of its points: a straight line and swings.
struct SmoothCourse {
  double at = 0.0, value = 0.0, slope = 0.0;
  const std::vector<Swing>* swings = nullptr;

  double operator()(double time_s) const {
    double sum = value + slope * (time_s - at);
    for (const Swing& s : *swings)
      sum += si(s.amplitude) * std::cos(2.0 * std::numbers::pi * (time_s - si(s.warmest)) / si(s.period));
    return sum;
  }
};

/// The piece of a course that a time lies in.
inline SmoothCourse piece_at(const Course& course, double time_s) {
  const auto& points = course.points;
  if (points.empty()) return {.at = 0.0, .value = si(course.mean), .slope = 0.0, .swings = &course.swings};
  const double period = course.repeats_after ? si(*course.repeats_after) : 0.0;
  const double offset = course.repeats_after ? period * std::floor(time_s / period) : 0.0;
  const auto after = std::upper_bound(points.begin(), points.end(), time_s - offset,
                                      [](double t, const CoursePoint& p) { return t < si(p.time); });
  // Before the first point and after the last the line runs to the neighbouring period.
  const bool first = after == points.begin(), last = after == points.end();
  const CoursePoint& left = first ? points.back() : *(after - 1);
  const CoursePoint& right = last ? points.front() : *after;
  const double from = si(left.time) + offset - (first ? period : 0.0);
  const double to = si(right.time) + offset + (last ? period : 0.0);
  const double rise = si(right.temperature) - si(left.temperature);
  return {.at = from,
          .value = si(left.temperature),
          .slope = to > from ? rise / (to - from) : 0.0,
          .swings = &course.swings};
}

/// The first place after a time at which the course is not smooth.
inline double break_after(const Course& course, double time_s) {
  double next = std::numeric_limits<double>::infinity();
  const double period = course.repeats_after ? si(*course.repeats_after) : 0.0;
  const double passed = course.repeats_after ? std::floor(time_s / period) : 0.0;
  for (const CoursePoint& p : course.points)
    for (const double round : {passed, passed + 1.0}) {
      const double at = si(p.time) + round * period;
      if (at > time_s) next = std::min(next, at);
    }
  return next;
}

}  // namespace theca::thermal::detail
