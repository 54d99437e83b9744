#include "obstruction.hpp"

#include <algorithm>
#include <cmath>

namespace theca::light {

namespace {
constexpr double touching = 1e-9;  // of a piece's length

double dot(const Place& a, const Place& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
Place minus(const Place& a, const Place& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }

// The far end counts: a path is cut in two at the surface and at walls, and a body may lie right there.
bool after_start(double t) { return t > touching && t < 1.0 + touching; }

// The two places at which a t^2 + 2 b t + c = 0, as shares of the piece; false where there are none.
bool roots(double a, double b, double c, std::array<double, 2>& t) {
  const double under = b * b - a * c;
  if (!(a > 0.0) || !(under > 0.0)) return false;
  const double root = std::sqrt(under);
  t = {(-b - root) / a, (-b + root) / a};
  return true;
}
}  // namespace

Obstruction::Obstruction(const ShadingBodies& bodies) {
  require_valid(bodies);
  for (const ShadingDisc& d : bodies.discs) levels_.push_back({si(d.x), si(d.y), -si(d.depth), si(d.radius), 0.0});
  for (const ShadingPlate& p : bodies.plates)
    levels_.push_back(
        {si(p.x + 0.5 * p.length), si(p.y + 0.5 * p.width), si(p.height), 0.5 * si(p.length), 0.5 * si(p.width)});
  for (const ShadingCylinder& c : bodies.cylinders)
    rods_.push_back({{si(c.x), si(c.y), -si(c.base_depth)}, {0.0, 0.0, 1.0}, si(c.height), si(c.radius)});
  for (const ShadingPipe& p : bodies.pipes) {
    const Place from{si(p.from_x), si(p.from_y), si(p.from_height)}, to{si(p.to_x), si(p.to_y), si(p.to_height)};
    const Place along = minus(to, from);
    const double length = std::sqrt(dot(along, along));
    rods_.push_back({from, {along[0] / length, along[1] / length, along[2] / length}, length, si(p.radius)});
  }
  for (const ShadingHemisphere& h : bodies.hemispheres)
    domes_.push_back({{si(h.x), si(h.y), -si(h.base_depth)}, si(h.radius)});
}

bool Obstruction::blocks(const Place& from, const Place& to) const {
  const Place d = minus(to, from);
  const auto crosses_level = [&](double z, const auto& covers) {
    const double t = (z - from[2]) / d[2];
    return after_start(t) && covers(from[0] + t * d[0], from[1] + t * d[1]);
  };
  for (const Level& level : levels_)
    if (crosses_level(level.z, [&](double x, double y) {
          const double dx = std::abs(x - level.x), dy = std::abs(y - level.y);
          return level.half_y > 0.0 ? dx < level.half_x && dy < level.half_y
                                    : dx * dx + dy * dy < level.half_x * level.half_x;
        }))
      return true;
  for (const Rod& rod : rods_) {
    // Along the rod, and across it: inside where 0 < along < length and across < radius.
    const Place start = minus(from, rod.from);
    const double s0 = dot(start, rod.axis), s1 = dot(d, rod.axis);
    const double a = dot(d, d) - s1 * s1, b = dot(start, d) - s0 * s1;
    const double c = dot(start, start) - s0 * s0 - rod.radius * rod.radius;
    double enters = -HUGE_VAL, leaves = HUGE_VAL;
    std::array<double, 2> t{};
    if (roots(a, b, c, t))
      enters = t[0], leaves = t[1];
    else if (!(c < 0.0) || a > 0.0)
      continue;
    if (s1 != 0.0) {
      const double t0 = -s0 / s1, t1 = (rod.length - s0) / s1;
      enters = std::max(enters, std::min(t0, t1));
      leaves = std::min(leaves, std::max(t0, t1));
    } else if (s0 <= 0.0 || s0 >= rod.length) {
      continue;
    }
    if (std::max(enters, touching) < std::min(leaves, 1.0)) return true;
  }
  for (const Dome& dome : domes_) {
    const Place start = minus(from, dome.centre);
    std::array<double, 2> t{};
    if (!roots(dot(d, d), dot(start, d), dot(start, start) - dome.radius * dome.radius, t)) continue;
    double enters = t[0], leaves = t[1];
    if (d[2] != 0.0)
      (d[2] > 0.0 ? enters : leaves) =
          d[2] > 0.0 ? std::max(enters, -start[2] / d[2]) : std::min(leaves, -start[2] / d[2]);
    else if (start[2] <= 0.0)
      continue;
    if (std::max(enters, touching) < std::min(leaves, 1.0)) return true;
  }
  return false;
}

// A path of this length, folded back into the tank's outline at walls that mirror.
bool Obstruction::blocks_mirrored(Place from, Place along, double length, const Scene& scene, bool x_mirrors,
                                  bool y_mirrors) const {
  const auto to_wall = [&](std::size_t axis, double side) {
    if (along[axis] == 0.0) return HUGE_VAL;
    return std::max(0.0, ((along[axis] > 0.0 ? side : 0.0) - from[axis]) / along[axis]);
  };
  while (length > 0.0) {
    const double x = x_mirrors ? to_wall(0, scene.length_m) : HUGE_VAL;
    const double y = y_mirrors ? to_wall(1, scene.width_m) : HUGE_VAL;
    const double step = std::min({x, y, length});
    const Place to{from[0] + step * along[0], from[1] + step * along[1], from[2] + step * along[2]};
    if (step > 0.0 && blocks(from, to)) return true;
    if (step >= length) return false;
    if (x <= step) along[0] = -along[0];
    if (y <= step) along[1] = -along[1];
    from = to;
    length -= step;
  }
  return false;
}

bool Obstruction::stops(const Scene& scene, const Arrival& arrival, double x_m, double y_m) const {
  if (levels_.empty() && rods_.empty() && domes_.empty()) return false;
  const auto mirror_pair = [&](const WallPair& pair) { return pair.low.mirrors() || pair.high.mirrors(); };
  const bool plain = !scene.fitted && scene.walls != Walls::ignored;
  const bool x_mirrors = plain || (scene.fitted && mirror_pair(scene.fitted->across_x));
  const bool y_mirrors = plain || (scene.fitted && mirror_pair(scene.fitted->across_y));
  // Back from the receiver to the surface.
  if (blocks_mirrored({x_m, y_m, -scene.depth_m}, {-arrival.to_x, -arrival.to_y, arrival.down},
                      scene.depth_m / arrival.down, scene, x_mirrors, y_mirrors))
    return true;
  // From the luminaire down to the walls' upper edge, and on between the strips of wall above the water.
  const EmitterPoint& point = scene.points[arrival.point];
  const double path =
      std::sqrt(arrival.air_x * arrival.air_x + arrival.air_y * arrival.air_y + point.height_m * point.height_m);
  const Place along{arrival.air_x / path, arrival.air_y / path, -point.height_m / path};
  const double freeboard = scene.fitted ? scene.fitted->freeboard_m : 0.0;
  const double above = path * (1.0 - freeboard / point.height_m);
  const Place lamp{point.x_m, point.y_m, point.height_m};
  const Place edge{lamp[0] + above * along[0], lamp[1] + above * along[1], freeboard};
  if (blocks(lamp, edge)) return true;
  const bool inside = edge[0] >= 0.0 && edge[0] <= scene.length_m && edge[1] >= 0.0 && edge[1] <= scene.width_m;
  return freeboard > 0.0 && blocks_mirrored(edge, along, path - above, scene, inside && x_mirrors, inside && y_mirrors);
}

}  // namespace theca::light
