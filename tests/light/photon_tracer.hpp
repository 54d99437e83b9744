// A Monte Carlo tracer of single photons: the independent judge of the light field. It shares no formula with the
// library: no images, no reduced lengths. A photon flies from plane to plane through blocks of air, water and glass; at
// each change of medium Fresnel's equations (sine and tangent form) say how likely it turns, absorption is drawn.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
#include <utility>
#include <vector>

#include "theca/light.hpp"

namespace theca::test {

struct TracedMap {
  int nx, ny;
  std::vector<double> ppfd;            ///< mol/(m2 s), row-major
  std::vector<double> standard_error;  ///< from the sum of squares of what each photon adds
  std::vector<double> scalar;          ///< scalar irradiance, the same units
  std::vector<double> scalar_error;
  double on_flanks = 0.0;  ///< mol/s, that end on the upright sides of all shading cylinders
  double on_flanks_error = 0.0;
  double on_tops = 0.0;  ///< the same of their upper ends
  double on_tops_error = 0.0;
};

class PhotonTracer {
 public:
  /// @param bodies  pipes lie level, along the tank's width, and reach beyond it
  PhotonTracer(const light::Waterbody& water, Length plane_depth, std::uint32_t seed, light::ShadingBodies bodies = {},
               light::DiffuseFloor floor = {})
      : water_(water),
        floor_(floor),
        bodies_(std::move(bodies)),
        sides_(light::side_walls(water)),
        length_(si(water.length)),
        width_(si(water.width)),
        depth_(si(plane_depth)),
        freeboard_(si(water.freeboard)),
        random_(seed) {
    lay_out();
  }

  TracedMap trace(const std::vector<light::PlacedLuminaire>& luminaires, int photons_each, int nx, int ny) {
    const auto cells = static_cast<std::size_t>(nx * ny);
    const std::vector<double> dark(cells, 0.0);
    TracedMap result{.nx = nx, .ny = ny, .ppfd = dark, .standard_error = dark, .scalar = dark, .scalar_error = dark};
    const double cell_area = length_ * width_ / static_cast<double>(nx * ny);
    for (const auto& placed : luminaires) {
      const double each = placed.dimming * downward_flux(placed.luminaire.intensity) / photons_each / cell_area;
      for (int i = 0; i < photons_each; ++i) {
        crossings_.clear();
        on_flank_ = on_top_ = false;
        Photon photon = sent(placed);
        if (photon.dz > 0.0) fly(photon);
        // What one photon adds to a cell counts as one, also where it crosses the plane there more than once.
        const double sent_by_one = each * cell_area;
        if (on_flank_) result.on_flanks += sent_by_one, result.on_flanks_error += sent_by_one * sent_by_one;
        if (on_top_) result.on_tops += sent_by_one, result.on_tops_error += sent_by_one * sent_by_one;
        for (std::size_t c = 0; c < crossings_.size(); ++c) {
          Crossing& crossing = crossings_[c];
          const int a = static_cast<int>(std::floor(crossing.x / length_ * nx));
          const int b = static_cast<int>(std::floor(crossing.y / width_ * ny));
          crossing.cell = a >= 0 && a < nx && b >= 0 && b < ny ? b * nx + a : -1;
          for (std::size_t earlier = 0; earlier < c; ++earlier)
            if (crossing.cell >= 0 && crossings_[earlier].cell == crossing.cell) {
              crossings_[earlier].downward += crossing.downward;
              crossings_[earlier].all += crossing.all;
              crossing.cell = -1;
            }
        }
        for (const Crossing& crossing : crossings_) {
          if (crossing.cell < 0) continue;
          const auto c = static_cast<std::size_t>(crossing.cell);
          result.ppfd[c] += each * crossing.downward;
          result.standard_error[c] += std::pow(each * crossing.downward, 2);
          result.scalar[c] += each * crossing.all;
          result.scalar_error[c] += std::pow(each * crossing.all, 2);
        }
      }
    }
    for (double& v : result.standard_error) v = std::sqrt(v);
    for (double& v : result.scalar_error) v = std::sqrt(v);
    result.on_flanks_error = std::sqrt(result.on_flanks_error);
    result.on_tops_error = std::sqrt(result.on_tops_error);
    return result;
  }

 private:
  /// z is down from the water surface.
  struct Photon {
    double x, y, z, dx, dy, dz;
  };
  struct Crossing {
    double x, y, downward, all;
    int cell;
  };
  enum class Stuff { clear, coated, opaque };
  /// What fills a place: clear, or what the photon cannot enter.
  struct Medium {
    Stuff stuff;
    double index, attenuation, mirror;
    bool operator==(const Medium&) const = default;
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

  Photon sent(const light::PlacedLuminaire& placed) {
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
    return {x, y, -si(placed.mounting_height) - rise, dx, dy, -up};
  }

  static Medium clear(const light::ClearPane& pane) {
    return {Stuff::clear, pane.refractive_index, si(pane.attenuation), 0.0};
  }

  static double thickness(const light::SideWall& wall) {
    return wall.kind == light::WallKind::pane ? si(wall.pane.thickness) : 0.0;
  }

  /// The planes at which anything may change.
  void lay_out() {
    const light::Braces& braces = water_.braces;
    const double rim = si(braces.rim_width), cross = si(braces.cross_width);
    across_x_ = {0.0, length_, -thickness(sides_.left), length_ + thickness(sides_.right), rim, length_ - rim};
    across_y_ = {0.0, width_, -thickness(sides_.front), width_ + thickness(sides_.back), rim, width_ - rim};
    if (cross > 0.0)
      for (const Length& at : braces.cross_at) {
        across_x_.push_back(si(at) - 0.5 * cross);
        across_x_.push_back(si(at) + 0.5 * cross);
      }
    levels_ = {0.0, -freeboard_, depth_};
    if (floor_.reflectance > 0.0) {
      levels_.push_back(si(floor_.depth));
      levels_.push_back(-freeboard_ - 1e-3);  // so that what comes up meets the surface
    }
    if (rim > 0.0 || cross > 0.0) levels_.push_back(-freeboard_ + si(braces.pane.thickness));
    if (water_.cover) {
      levels_.push_back(-si(water_.cover->height));
      levels_.push_back(-si(water_.cover->height + water_.cover->pane.thickness));
    }
    top_ = 0.0;
    for (const double level : levels_) top_ = std::min(top_, level);
  }

  bool on_brace(double x, double y) const {
    const light::Braces& braces = water_.braces;
    const double rim = si(braces.rim_width);
    if (x < rim || x > length_ - rim || y < rim || y > width_ - rim) return true;
    for (const Length& at : braces.cross_at)
      if (std::abs(x - si(at)) < 0.5 * si(braces.cross_width)) return true;
    return false;
  }

  bool on_edge(double x, double y) const {
    if (x < -thickness(sides_.left) || x > length_ + thickness(sides_.right)) return false;
    if (y < -thickness(sides_.front) || y > width_ + thickness(sides_.back)) return false;
    return x < 0.0 || x > length_ || y < 0.0 || y > width_;
  }

  bool walls_stop(const Photon& p) const {
    const auto stops = [](const light::SideWall& wall) { return wall.kind != light::WallKind::ignored; };
    return (p.x < 0.0 && stops(sides_.left)) || (p.x > length_ && stops(sides_.right)) ||
           (p.y < 0.0 && stops(sides_.front)) || (p.y > width_ && stops(sides_.back));
  }

  Medium medium(double x, double y, double z) const {
    const Medium air{Stuff::clear, 1.0, 0.0, 0.0};
    const bool in_tank = x > 0.0 && x < length_ && y > 0.0 && y < width_;
    if (z < -freeboard_) {
      if (!water_.cover) return air;
      const double lower = -si(water_.cover->height), upper = lower - si(water_.cover->pane.thickness);
      return z > upper && z < lower ? clear(water_.cover->pane) : air;
    }
    const Medium inside = z > 0.0 ? Medium{Stuff::clear, water_.refractive_index, si(water_.attenuation), 0.0} : air;
    const light::SideWall* const at_x = x < 0.0 ? &sides_.left : x > length_ ? &sides_.right : nullptr;
    const light::SideWall* const at_y = y < 0.0 ? &sides_.front : y > width_ ? &sides_.back : nullptr;
    const double out_x = std::max(-x, x - length_), out_y = std::max(-y, y - width_);
    for (const light::SideWall* wall : {at_x, at_y})
      if (wall && wall->kind == light::WallKind::coated) return {Stuff::coated, 0.0, 0.0, wall->mirror_share};
    for (const auto& [wall, out] : {std::pair{at_x, out_x}, std::pair{at_y, out_y}})
      if (wall && wall->kind == light::WallKind::pane && out > thickness(*wall)) return air;
    for (const light::SideWall* wall : {at_x, at_y})
      if (wall && wall->kind == light::WallKind::pane) return clear(wall->pane);
    const light::Braces& braces = water_.braces;
    const bool layer = z < -freeboard_ + si(braces.pane.thickness) && in_tank;
    if (layer && (si(braces.rim_width) > 0.0 || si(braces.cross_width) > 0.0) && on_brace(x, y))
      return braces.opaque ? Medium{Stuff::opaque, 0.0, 0.0, 0.0} : clear(braces.pane);
    return inside;
  }

  /// Slopes of the facet that a photon meets on its way down: normal, in proportion to the area that it sees.
  std::array<double, 2> facet(const Photon& p) {
    std::normal_distribution<double> slope(0.0, std::sqrt(0.5 * water_.slope_variance));
    const double bound = 1.0 + 6.0 * slope.stddev() * std::hypot(p.dx, p.dy) / p.dz;
    for (;;) {
      const double x = slope(random_), y = slope(random_);
      if (draw() * bound < 1.0 + (x * p.dx + y * p.dy) / p.dz) return {x, y};
    }
  }

  /// Through a ruffled surface, from above. False where it is thrown back.
  bool ruffled(Photon& p) {
    const auto [sx, sy] = facet(p);
    const double g = std::sqrt(1.0 + sx * sx + sy * sy), n = water_.refractive_index;
    const double nx = -sx / g, ny = -sy / g, nz = -1.0 / g;  // upward, z is down
    const double cosine = -(p.dx * nx + p.dy * ny + p.dz * nz);
    const double incidence = std::acos(std::min(1.0, cosine));
    if (draw() < fresnel(incidence, n)) return false;
    const double refracted = std::cos(std::asin(std::sin(incidence) / n));
    p.dx = p.dx / n + (cosine / n - refracted) * nx;
    p.dy = p.dy / n + (cosine / n - refracted) * ny;
    p.dz = p.dz / n + (cosine / n - refracted) * nz;
    return p.dz > 0.0;
  }

  /// Where on a straight piece of a flight the photon comes within `radius` of something: the first share of the piece,
  /// from `low` on, or more than 1. The distance must fall up to `closest` and rise behind it.
  template <class Distance>
  static double comes_within(double radius, double low, double high, double closest, const Distance& distance) {
    const double nearest = std::min(std::max(closest, low), high);
    if (!(low < high) || distance(nearest) >= radius) return HUGE_VAL;
    if (distance(low) < radius) return low;
    double out = low, in = nearest;
    for (int i = 0; i < 50; ++i) (distance(0.5 * (out + in)) < radius ? in : out) = 0.5 * (out + in);
    return out;
  }

  /// True where a body ends the flight on this piece; says so where it is the side or the upper end of a cylinder.
  bool ends_on_body(const Photon& p, double step) {
    constexpr double none = HUGE_VAL;
    double first = none;
    const auto x = [&](double t) { return p.x + t * step * p.dx; };
    const auto y = [&](double t) { return p.y + t * step * p.dy; };
    const auto z = [&](double t) { return p.z + t * step * p.dz; };
    const auto at_level = [&](double level) { return (level - p.z) / (step * p.dz); };
    const auto plate = [&](double level, const auto& covers) {
      const double t = at_level(level);
      if (t > 0.0 && t < 1.0 && covers(x(t), y(t))) first = std::min(first, t);
    };
    for (const auto& d : bodies_.discs)
      plate(si(d.depth),
            [&](double at_x, double at_y) { return std::hypot(at_x - si(d.x), at_y - si(d.y)) < si(d.radius); });
    for (const auto& b : bodies_.plates)
      plate(-si(b.height), [&](double at_x, double at_y) {
        return at_x > si(b.x) && at_x < si(b.x + b.length) && at_y > si(b.y) && at_y < si(b.y + b.width);
      });
    for (const auto& b : bodies_.pipes) {
      const auto distance = [&](double t) { return std::hypot(x(t) - si(b.from_x), z(t) + si(b.from_height)); };
      const double closest =
          -((p.x - si(b.from_x)) * p.dx + (p.z + si(b.from_height)) * p.dz) / (p.dx * p.dx + p.dz * p.dz) / step;
      first = std::min(first, comes_within(si(b.radius), 0.0, 1.0, closest, distance));
    }
    for (const auto& b : bodies_.hemispheres) {
      const double cx = si(b.x), cy = si(b.y), cz = si(b.base_depth);
      const auto distance = [&](double t) { return std::hypot(x(t) - cx, y(t) - cy, z(t) - cz); };
      const double closest = -((p.x - cx) * p.dx + (p.y - cy) * p.dy + (p.z - cz) * p.dz) / step;
      const double base = at_level(cz);
      const double low = p.dz > 0.0 ? 0.0 : std::max(0.0, base), high = p.dz > 0.0 ? std::min(1.0, base) : 1.0;
      first = std::min(first, comes_within(si(b.radius), low, high, closest, distance));
    }
    bool on_flank = false, on_top = false;
    for (const auto& b : bodies_.cylinders) {
      const double cx = si(b.x), cy = si(b.y);
      const auto distance = [&](double t) { return std::hypot(x(t) - cx, y(t) - cy); };
      const double closest = -((p.x - cx) * p.dx + (p.y - cy) * p.dy) / (p.dx * p.dx + p.dy * p.dy + 1e-300) / step;
      const double a = at_level(si(b.base_depth - b.height)), c = at_level(si(b.base_depth));
      const double low = std::max(0.0, std::min(a, c)), high = std::min(1.0, std::max(a, c));
      const double t = comes_within(si(b.radius), low, high, closest, distance);
      if (!(t < first)) continue;
      first = t;
      on_flank = t > low;
      on_top = !on_flank && p.dz > 0.0;
    }
    if (first < 1.0) on_flank_ = on_flank, on_top_ = on_top;
    return first < 1.0;
  }

  /// Until it is lost.
  void fly(Photon& p) {
    double left = -std::log(1.0 - draw());
    for (;;) {
      int axis = -1;
      double step = HUGE_VAL, at = 0.0;
      const auto look = [&](const std::vector<double>& planes, int along, double from, double d) {
        for (const double plane : planes) {
          const double to = (plane - from) / d;
          if (to > 1e-12 && to < step) step = to, axis = along, at = plane;
        }
      };
      look(across_x_, 0, p.x, p.dx);
      look(across_y_, 1, p.y, p.dy);
      look(levels_, 2, p.z, p.dz);
      if (axis < 0) return;
      const double half = 0.5 * step;
      const Medium here = medium(p.x + half * p.dx, p.y + half * p.dy, p.z + half * p.dz);
      // A body before the place where it is absorbed comes first.
      const double absorbed_after = here.attenuation > 0.0 ? left / here.attenuation : HUGE_VAL;
      if (ends_on_body(p, std::min(step, absorbed_after)) || absorbed_after < step) return;
      left -= here.attenuation * step;
      p.x += step * p.dx;
      p.y += step * p.dy;
      p.z += step * p.dz;
      (axis == 0 ? p.x : axis == 1 ? p.y : p.z) = at;
      if (axis == 2 && p.dz < 0.0 && p.z <= top_) return;
      const bool in_tank = p.x > 0.0 && p.x < length_ && p.y > 0.0 && p.y < width_;
      if (axis == 2 && at == depth_ && in_tank)
        crossings_.push_back({p.x, p.y, p.dz > 0.0 ? 1.0 : 0.0, 1.0 / std::abs(p.dz), -1});
      const bool has_floor = floor_.reflectance > 0.0;
      if (axis == 2 && at == (has_floor ? si(floor_.depth) : depth_)) {
        if (!has_floor || !in_tank || draw() >= floor_.reflectance) return;
        // Lambert: the sine of the angle from the vertical is the root of an even draw.
        const double sine = std::sqrt(draw()), turn = 2.0 * std::numbers::pi * draw();
        p.dx = sine * std::cos(turn);
        p.dy = sine * std::sin(turn);
        p.dz = -std::sqrt(1.0 - sine * sine);
        continue;
      }

      // A pane ends at the next wall: there the photon turns round, as if the panes overlapped in the corner.
      if (axis < 2 && here.stuff == Stuff::clear && here.index > 1.0) {
        const bool in_pane = axis == 0 ? p.y < 0.0 || p.y > width_ : p.x < 0.0 || p.x > length_;
        const bool at_wall = at == 0.0 || at == (axis == 0 ? length_ : width_);
        if (in_pane && at_wall) {
          (axis == 0 ? p.dx : p.dy) *= -1.0;
          continue;
        }
      }
      // What falls on the upper edge of a wall is taken as lost, as the library has it.
      if (axis == 2 && at == -freeboard_ && p.dz > 0.0 && on_edge(p.x, p.y)) return;

      // So is what comes at a wall from outside below the waterline, or goes down past it inside a pane.
      if (axis == 2 && at == 0.0 && p.dz > 0.0 && walls_stop(p)) return;

      constexpr double little = 1e-11;
      double& along = axis == 0 ? p.dx : axis == 1 ? p.dy : p.dz;
      const auto beyond = [&](int of, double where, double d) {
        return where + (of == axis ? std::copysign(little, d) : 0.0);
      };
      const Medium next = medium(beyond(0, p.x, p.dx), beyond(1, p.y, p.dy), beyond(2, p.z, p.dz));
      if (next == here) continue;
      if (next.stuff == Stuff::opaque) return;
      if (next.stuff == Stuff::coated) {
        if (draw() >= next.mirror) return;
        along = -along;
        continue;
      }
      if (axis == 2 && at == 0.0 && p.dz > 0.0 && water_.slope_variance > 0.0 && in_tank) {
        if (!ruffled(p)) return;
        continue;
      }
      const double ratio = next.index / here.index;
      if (draw() < fresnel(std::acos(std::min(1.0, std::abs(along))), ratio)) {
        along = -along;
        continue;
      }
      const double sign = along > 0.0 ? 1.0 : -1.0;
      p.dx /= ratio;
      p.dy /= ratio;
      p.dz /= ratio;
      along = 0.0;
      along = sign * std::sqrt(1.0 - p.dx * p.dx - p.dy * p.dy - p.dz * p.dz);
    }
  }

  light::Waterbody water_;
  light::DiffuseFloor floor_;
  light::ShadingBodies bodies_;
  bool on_flank_ = false, on_top_ = false;
  light::SideWalls sides_;
  double length_, width_, depth_, freeboard_;
  double top_ = 0.0;
  std::vector<double> across_x_, across_y_, levels_;
  std::vector<Crossing> crossings_;
  std::mt19937_64 random_;
  std::uniform_real_distribution<double> uniform_{0.0, 1.0};
};

}  // namespace theca::test
