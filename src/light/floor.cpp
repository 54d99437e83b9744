#include "theca/light/floor.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "limits.hpp"
#include "map_cells.hpp"
#include "pane_wall.hpp"
#include "theca/light/fresnel.hpp"
#include "theca/light/tank_parts.hpp"
#include "theca/require.hpp"
#include "wall_images.hpp"

namespace theca::light {

namespace {
constexpr double left_out = 1e-3;  // of a patch's light, beyond the last wall image
constexpr std::size_t nodes = 4097;

// What comes back from one meeting with a wall, against the cosine of incidence.
class WallReturn {
 public:
  WallReturn(const SideWall& wall, double water_index) {
    if (wall.kind == WallKind::ignored) return;
    if (wall.kind == WallKind::coated) {
      all_.assign(2, wall.mirror_share);
      return;
    }
    const PaneWall pane({si(wall.pane.thickness), wall.pane.refractive_index, si(wall.pane.attenuation)}, water_index);
    for (std::size_t i = 0; i < nodes; ++i) {
      const double cosine = static_cast<double>(i) / static_cast<double>(nodes - 1);
      const PaneMeeting meeting = pane.at(water_index * cosine);
      const double entered = (1.0 - meeting.inner) * (1.0 - meeting.inner);
      all_.push_back(meeting.inner + entered * meeting.outer / (1.0 - meeting.inner * meeting.outer));
    }
  }

  bool nothing() const { return all_.empty() || (all_.size() == 2 && all_[0] == 0.0); }

  double at(double cosine) const {
    if (all_.empty()) return 0.0;
    const double place = std::min(cosine, 1.0) * static_cast<double>(all_.size() - 1);
    const std::size_t i = std::min(static_cast<std::size_t>(place), all_.size() - 2);
    return all_[i] + (place - static_cast<double>(i)) * (all_[i + 1] - all_[i]);
  }

 private:
  std::vector<double> all_;
};

struct WallsAcross {
  WallReturn low, high;
  double side_m;

  // The image of a place behind `a` walls, the first of them the high one where a > 0.
  double share(int a, double cosine) const {
    if (a == 0) return 1.0;
    const int first = (std::abs(a) + 1) / 2, second = std::abs(a) / 2;
    return whole_power(high.at(cosine), a > 0 ? first : second) * whole_power(low.at(cosine), a > 0 ? second : first);
  }
  int farthest(double reach_m) const {
    return low.nothing() && high.nothing() ? 0 : static_cast<int>(std::ceil(reach_m / side_m)) + 1;
  }
  bool passes(int a) const {
    if (a == 0) return true;
    if (std::abs(a) > 1) return !low.nothing() && !high.nothing();
    return !(a > 0 ? high : low).nothing();
  }
};

class Enclosure {
 public:
  explicit Enclosure(const Waterbody& water)
      : across_x_(across(side_walls(water).left, side_walls(water).right, water, water.length)),
        across_y_(across(side_walls(water).front, side_walls(water).back, water, water.width)),
        index_(water.refractive_index),
        attenuation_per_m_(si(water.attenuation)) {
    for (std::size_t i = 0; i < nodes; ++i)
      underside_.push_back(
          kernel::reflectance(static_cast<double>(i) / static_cast<double>(nodes - 1), 1.0 / index_).unpolarised);
  }

  // Visits the ways from the floor's patches to a place `rise_m` over it (counted by way of the surface where
  // `by_surface`): visit(patch, weight, to_x, to_y, up), where weight times the patch's radiosity is what a receiver
  // across the way gets. Patch -1 stands for the mean of the whole floor, as seen in far images.
  template <class Visit>
  void ways(const PpfdMap& patches, double x_m, double y_m, double rise_m, bool by_surface, const Visit& visit) const {
    if (!(rise_m > 0.0)) return;
    const double side_x = across_x_.side_m, side_y = across_y_.side_m;
    const double size_x = side_x / patches.nx, size_y = side_y / patches.ny;
    const double reach = rise_m * std::sqrt(1.0 / left_out), far = 2.5 * std::hypot(side_x, side_y);
    const int most_x = across_x_.farthest(reach), most_y = across_y_.farthest(reach);
    for (int b = -most_y; b <= most_y; ++b) {
      if (!across_y_.passes(b)) continue;
      const double y = image_of(y_m, side_y, b);
      for (int a = -most_x; a <= most_x; ++a) {
        if (!across_x_.passes(a)) continue;
        const double x = image_of(x_m, side_x, a);
        const double away = std::hypot(x - 0.5 * side_x, y - 0.5 * side_y);
        if (away > reach + far) continue;
        if (away > far) {
          part(x - 0.5 * side_x, y - 0.5 * side_y, rise_m, side_x * side_y, a, b, by_surface, -1, visit);
          continue;
        }
        for (int j = 0; j < patches.ny; ++j)
          for (int i = 0; i < patches.nx; ++i)
            from_patch(x - (i + 0.5) * size_x, y - (j + 0.5) * size_y, size_x, size_y, rise_m, a, b, by_surface,
                       j * patches.nx + i, visit);
      }
    }
  }

 private:
  static WallsAcross across(const SideWall& low, const SideWall& high, const Waterbody& water, const Length& side) {
    return {WallReturn(low, water.refractive_index), WallReturn(high, water.refractive_index), si(side)};
  }

  static double image_of(double at_m, double side_m, int a) {
    return static_cast<double>(a) * side_m + (a % 2 == 0 ? at_m : side_m - at_m);
  }

  // A sixth of its distance across, a part counts as a point, also where the underside begins to mirror it all.
  static int parts_of(double size_over_distance) {
    constexpr double most = 200.0;
    return 1 + static_cast<int>(std::min(6.0 * size_over_distance, most));
  }

  template <class Visit>
  void from_patch(double dx, double dy, double size_x, double size_y, double rise, int a, int b, bool by_surface,
                  int patch, const Visit& visit) const {
    const double beside_x = std::max(0.0, std::abs(dx) - 0.5 * size_x),
                 beside_y = std::max(0.0, std::abs(dy) - 0.5 * size_y);
    const double near = std::sqrt(beside_x * beside_x + beside_y * beside_y + rise * rise);
    const int parts_x = parts_of(size_x / near), parts_y = parts_of(size_y / near);
    for (int v = 0; v < parts_y; ++v)
      for (int u = 0; u < parts_x; ++u)
        part(dx + size_x * (0.5 - (u + 0.5) / parts_x), dy + size_y * (0.5 - (v + 0.5) / parts_y), rise,
             size_x * size_y / (parts_x * parts_y), a, b, by_surface, patch, visit);
  }

  template <class Visit>
  void part(double dx, double dy, double rise, double area, int a, int b, bool by_surface, int patch,
            const Visit& visit) const {
    const double away2 = dx * dx + dy * dy + rise * rise, away = std::sqrt(away2), up = rise / away;
    double weight = area * up / (std::numbers::pi * away2) * std::exp(-attenuation_per_m_ * away);
    weight *= across_x_.share(a, std::abs(dx) / away) * across_y_.share(b, std::abs(dy) / away);
    if (by_surface) {
      const double place = up * static_cast<double>(nodes - 1);
      const std::size_t i = std::min(static_cast<std::size_t>(place), nodes - 2);
      weight *= underside_[i] + (place - static_cast<double>(i)) * (underside_[i + 1] - underside_[i]);
    }
    if (weight > 0.0) visit(patch, weight, (a % 2 == 0 ? dx : -dx) / away, (b % 2 == 0 ? dy : -dy) / away, up);
  }

  WallsAcross across_x_, across_y_;
  double index_, attenuation_per_m_;
  std::vector<double> underside_;  // reflectance from below
};

void require_floor(const DiffuseFloor& floor) {
  require::positive("depth of the floor", floor.depth);
  limits::depth("depth of the floor", floor.depth);
  require::within("reflectance of the floor", floor.reflectance, 0.0, 1.0);
}

double from_floor(const FloorLight& light, const Enclosure& enclosure, double depth_m, double x_m, double y_m,
                  const Receiver& receiver) {
  const PpfdMap& map = light.total;
  const double floor_m = si(light.floor.depth), tilt = si(receiver.tilt), azimuth = si(receiver.azimuth);
  const double facing_x = std::sin(tilt) * std::cos(azimuth), facing_y = std::sin(tilt) * std::sin(azimuth);
  const double facing_up = std::cos(tilt);
  const double mean = si(map.mean());
  double sum = 0.0;
  const auto ways = [&](double rise_m, bool by_surface) {
    enclosure.ways(
        map, x_m, y_m, rise_m, by_surface, [&](int patch, double weight, double to_x, double to_y, double up) {
          const double to_z = by_surface ? -up : up;
          const double cosine = receiver.spherical ? 1.0 : -(to_x * facing_x + to_y * facing_y + to_z * facing_up);
          const double falls = patch < 0 ? mean : map.values[static_cast<std::size_t>(patch)];
          if (cosine > 0.0) sum += light.floor.reflectance * falls * weight * cosine;
        });
  };
  ways(floor_m - depth_m, false);
  ways(floor_m + depth_m, true);
  return sum;
}
}  // namespace

FloorLight floor_light(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const DiffuseFloor& floor,
                       int nx, int ny) {
  require_floor(floor);
  require::within("nx", static_cast<double>(nx), 1.0, 100.0);
  require::within("ny", static_cast<double>(ny), 1.0, 100.0);
  require::within("patches", static_cast<double>(nx) * ny, 1.0, 2500.0);
  FloorLight result{.floor = floor, .direct = map(luminaires, water, floor.depth, nx, ny), .total = {}};
  result.total = result.direct;
  if (floor.reflectance == 0.0) return result;
  const Enclosure enclosure(water);
  const PpfdMap& direct = result.direct;
  const Eigen::Index patches = static_cast<Eigen::Index>(nx) * ny;
  Eigen::MatrixXd balance = Eigen::MatrixXd::Identity(patches, patches);
  for (Eigen::Index to = 0; to < patches; ++to)
    enclosure.ways(direct, si(direct.x(static_cast<int>(to % nx))), si(direct.y(static_cast<int>(to / nx))),
                   2.0 * si(floor.depth), true, [&](int patch, double weight, double, double, double up) {
                     const double share = floor.reflectance * weight * up;
                     if (patch >= 0)
                       balance(to, patch) -= share;
                     else
                       balance.row(to).array() -= share / static_cast<double>(patches);
                   });
  const Eigen::Map<const Eigen::VectorXd> falls(direct.values.data(), patches);
  Eigen::Map<Eigen::VectorXd>(result.total.values.data(), patches) = balance.partialPivLu().solve(falls);
  return result;
}

PhotonFluxDensity ppfd_from_floor_at(const FloorLight& light, const Waterbody& water, const Length& depth,
                                     const Length& x, const Length& y, const Receiver& receiver) {
  require_valid(water);
  require_floor(light.floor);
  require::that(light.total.values.size() == static_cast<std::size_t>(std::max(light.total.nx, 0)) *
                                                 static_cast<std::size_t>(std::max(light.total.ny, 0)) &&
                    !light.total.values.empty(),
                "patches of the floor light", static_cast<double>(light.total.values.size()), "nx x ny, 1 or more");
  require::within("depth", depth, Length(), light.floor.depth);
  require::within("x", x, Length(), water.length);
  require::within("y", y, Length(), water.width);
  require::within("tilt of the receiver", receiver.tilt, Angle(), 180.0 * units::degree);
  require::finite("azimuth of the receiver", receiver.azimuth);
  return from_si<PhotonFluxDensity>(from_floor(light, Enclosure(water), si(depth), si(x), si(y), receiver));
}

PpfdMap map_with_floor(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const DiffuseFloor& floor,
                       const Length& plane_depth, int nx, int ny, const Receiver& receiver) {
  require_floor(floor);
  require::within("plane depth", plane_depth, Length(), floor.depth);
  PpfdMap result = map(luminaires, water, plane_depth, nx, ny, receiver);
  if (floor.reflectance == 0.0) return result;
  const FloorLight light = floor_light(luminaires, water, floor);
  const Enclosure enclosure(water);
  for (int j = 0; j < ny; ++j)
    for (int i = 0; i < nx; ++i)
      result.values[static_cast<std::size_t>(j) * static_cast<std::size_t>(nx) + static_cast<std::size_t>(i)] +=
          from_floor(light, enclosure, si(plane_depth), si(result.x(i)), si(result.y(j)), receiver);
  return result;
}

}  // namespace theca::light
