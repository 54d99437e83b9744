// A Monte Carlo tracer of single photons: the independent judge of the light field. It shares no formula with the
// library: vector refraction, Fresnel in its sine and tangent form, drawn absorption, walls met one after the other.
#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
#include <vector>

#include "theca/light.hpp"

namespace theca::test {

struct TracedMap {
  int nx, ny;
  std::vector<double> ppfd;            ///< mol/(m2 s), row-major
  std::vector<double> standard_error;  ///< of one count per photon: density / sqrt(count)
};

class PhotonTracer {
 public:
  PhotonTracer(const light::Waterbody& water, Length plane_depth, std::uint32_t seed)
      : length_(si(water.length)),
        width_(si(water.width)),
        depth_(si(plane_depth)),
        index_(water.refractive_index),
        attenuation_(si(water.attenuation)),
        walls_(water.walls),
        reflectance_(water.wall_reflectance),
        pane_thickness_(si(water.pane.thickness)),
        pane_index_(water.pane.refractive_index),
        pane_attenuation_(si(water.pane.attenuation)),
        random_(seed) {}

  TracedMap trace(const std::vector<light::PlacedLuminaire>& luminaires, int photons_each, int nx, int ny) {
    TracedMap result{nx, ny, {}, {}};
    const auto cells = static_cast<std::size_t>(nx * ny);
    result.ppfd.assign(cells, 0.0);
    std::vector<double> variance(cells, 0.0);
    const double cell_area = length_ * width_ / static_cast<double>(nx * ny);
    for (const auto& placed : luminaires) {
      std::vector<int> counts(cells, 0);
      for (int i = 0; i < photons_each; ++i) {
        const Spot spot = one(placed);
        if (!spot.arrived) continue;
        const int a = static_cast<int>(std::floor(spot.x / length_ * nx));
        const int b = static_cast<int>(std::floor(spot.y / width_ * ny));
        if (a >= 0 && a < nx && b >= 0 && b < ny) ++counts[static_cast<std::size_t>(b * nx + a)];
      }
      const double each = placed.dimming * downward_flux(placed.luminaire.intensity) / photons_each / cell_area;
      for (std::size_t c = 0; c < cells; ++c) {
        result.ppfd[c] += each * counts[c];
        variance[c] += each * each * counts[c];
      }
    }
    for (const double v : variance) result.standard_error.push_back(std::sqrt(v));
    return result;
  }

 private:
  struct Spot {
    bool arrived;
    double x, y;
  };

  double draw() { return uniform_(random_); }

  static double intensity(const light::AngularIntensity& form, double theta, double phi = 0.0) {
    if (const auto* web = std::get_if<light::WebIntensity>(&form))
      return si(web->flux) / si(light::luminous_flux(web->web)) *
             si(light::intensity_toward(web->web, from_si<Angle>(phi), from_si<Angle>(theta)));
    if (const auto* lobe = std::get_if<light::CosineLobe>(&form))
      return si(lobe->on_axis) * std::pow(std::cos(theta), lobe->exponent);
    const auto& table = std::get<light::TabulatedIntensity>(form);
    std::size_t i = 1;
    while (i + 1 < table.angles.size() && si(table.angles[i]) < theta) ++i;
    const double a = si(table.angles[i - 1]), b = si(table.angles[i]);
    return ((b - theta) * si(table.values[i - 1]) + (theta - a) * si(table.values[i])) / (b - a);
  }

  /// Midpoint rule on 10^5 steps.
  static double downward_flux(const light::AngularIntensity& form) {
    if (const auto* web = std::get_if<light::WebIntensity>(&form)) return si(web->flux);  // all of it goes down
    constexpr int steps = 100000;
    const double step = 0.5 * std::numbers::pi / steps;
    double sum = 0.0;
    for (int i = 0; i < steps; ++i) sum += intensity(form, (i + 0.5) * step) * std::sin((i + 0.5) * step);
    return 2.0 * std::numbers::pi * sum * step;
  }

  /// Share reflected at an angle of incidence, from the near into the far side of this index ratio.
  static double fresnel(double incidence, double ratio) {
    const double sine = std::sin(incidence) / ratio;
    if (sine >= 1.0) return 1.0;
    const double refracted = std::asin(sine), minus = incidence - refracted, plus = incidence + refracted;
    if (plus < 1e-6) return std::pow((ratio - 1.0) / (ratio + 1.0), 2);
    return 0.5 * (std::pow(std::sin(minus) / std::sin(plus), 2) + std::pow(std::tan(minus) / std::tan(plus), 2));
  }

  /// Way in the pane of a photon that comes back from it, negative if it does not; `into` is its direction's part
  /// toward the pane, in water.
  double path_in_pane(double into) {
    const double incidence = std::acos(into);
    if (draw() < fresnel(incidence, pane_index_ / index_)) return 0.0;
    const double inside = std::asin(std::sin(incidence) * index_ / pane_index_);
    const double across = pane_thickness_ / std::cos(inside);
    double path = 0.0;
    for (;;) {
      if (draw() >= std::exp(-2.0 * pane_attenuation_ * across)) return -1.0;
      if (draw() >= fresnel(inside, 1.0 / pane_index_)) return -1.0;
      path += 2.0 * across;
      if (draw() >= fresnel(inside, index_ / pane_index_)) return path;
    }
  }

  Spot one(const light::PlacedLuminaire& placed) {
    const light::Luminaire& lamp = placed.luminaire;
    const auto slot = [&](int points, double side) {
      if (lamp.shines_all_over) return (draw() - 0.5) * side;
      return (std::floor(draw() * points) + 0.5) / points * side - 0.5 * side;
    };
    const double u = slot(lamp.points_along, si(lamp.aperture_length));
    const double v = slot(lamp.points_across, si(lamp.aperture_width));
    const double turn = si(placed.heading);
    const double tilt = si(placed.tilt), lean = si(placed.tilt_azimuth);
    // About the horizontal line across the lean; z is up. The part of the aperture on the side of the lean rises.
    const auto tilted = [&](double& px, double& py, double& pz) {
      const double ahead = px * std::cos(lean) + py * std::sin(lean);
      const double aside = py * std::cos(lean) - px * std::sin(lean);
      const double leaning = ahead * std::cos(tilt) - pz * std::sin(tilt);
      pz = ahead * std::sin(tilt) + pz * std::cos(tilt);
      px = leaning * std::cos(lean) - aside * std::sin(lean);
      py = leaning * std::sin(lean) + aside * std::cos(lean);
    };
    double x = u * std::cos(turn) - v * std::sin(turn);
    double y = u * std::sin(turn) + v * std::cos(turn);
    double rise = 0.0;
    tilted(x, y, rise);
    x += si(placed.x);
    y += si(placed.y);

    // The axial intensity bounds the others, all but those of a web.
    const auto* const web = std::get_if<light::WebIntensity>(&lamp.intensity);
    const double axial = intensity(lamp.intensity, 0.0), bound = web ? 3.0 * axial : axial;
    double theta, azimuth;
    do {
      theta = 0.5 * std::numbers::pi * draw();
      azimuth = 2.0 * std::numbers::pi * draw();
    } while (draw() * bound > intensity(lamp.intensity, theta, azimuth) * std::sin(theta));
    const double phi = azimuth + turn;
    double dx = std::sin(theta) * std::cos(phi), dy = std::sin(theta) * std::sin(phi), up = -std::cos(theta);
    tilted(dx, dy, up);
    double dz = -up;
    if (!(dz > 0.0)) return {false, 0.0, 0.0};
    const double incidence = std::acos(std::min(1.0, dz));

    const double to_surface = (si(placed.mounting_height) + rise) / dz;
    x += to_surface * dx;
    y += to_surface * dy;
    const bool walls = walls_ != light::Walls::ignored;
    if (walls && (x < 0.0 || x > length_ || y < 0.0 || y > width_)) return {false, 0.0, 0.0};

    const double reflected = fresnel(incidence, index_);
    if (draw() < reflected) return {false, 0.0, 0.0};
    dx /= index_;
    dy /= index_;
    dz = std::sqrt(1.0 - dx * dx - dy * dy);

    double left = attenuation_ > 0.0 ? -std::log(1.0 - draw()) / attenuation_ : HUGE_VAL;
    double z = 0.0;
    for (;;) {
      const double to_plane = (depth_ - z) / dz;
      const double to_x = !walls || dx == 0.0 ? HUGE_VAL : ((dx > 0.0 ? length_ : 0.0) - x) / dx;
      const double to_y = !walls || dy == 0.0 ? HUGE_VAL : ((dy > 0.0 ? width_ : 0.0) - y) / dy;
      const double step = std::min(to_plane, std::min(to_x, to_y));
      if (left < step) return {false, 0.0, 0.0};
      left -= step;
      x += step * dx;
      y += step * dy;
      z += step * dz;
      if (step == to_plane) return {true, x, y};
      const bool at_x = step == to_x;
      if (walls_ == light::Walls::mirror && draw() >= reflectance_) return {false, 0.0, 0.0};
      if (walls_ == light::Walls::pane) {
        const double into = std::abs(at_x ? dx : dy);
        const double path = path_in_pane(into);
        if (path < 0.0) return {false, 0.0, 0.0};
        (at_x ? y : x) += path * (at_x ? dy : dx) * index_ / pane_index_;
        z += path * dz * index_ / pane_index_;
        if (z > depth_) return {false, 0.0, 0.0};  // below the plane when it comes back
        // Beyond the corner: as if the panes overlapped there.
        if (at_x && (y < 0.0 || y > width_)) y = y < 0.0 ? -y : 2.0 * width_ - y, dy = -dy;
        if (!at_x && (x < 0.0 || x > length_)) x = x < 0.0 ? -x : 2.0 * length_ - x, dx = -dx;
      }
      if (at_x) {
        x = dx > 0.0 ? length_ : 0.0;
        dx = -dx;
      } else {
        y = dy > 0.0 ? width_ : 0.0;
        dy = -dy;
      }
    }
  }

  double length_, width_, depth_, index_, attenuation_;
  light::Walls walls_;
  double reflectance_, pane_thickness_, pane_index_, pane_attenuation_;
  std::mt19937_64 random_;
  std::uniform_real_distribution<double> uniform_{0.0, 1.0};
};

}  // namespace theca::test
