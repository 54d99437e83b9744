#include "theca/light/shadow.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "arrivals.hpp"
#include "limits.hpp"
#include "map_cells.hpp"
#include "obstruction.hpp"
#include "theca/require.hpp"

namespace theca::light {

namespace {
struct Sum {
  double unshaded = 0.0, shaded = 0.0, weight = 0.0;

  void add(const Sum& other, double of) {
    unshaded += of * other.unshaded;
    shaded += of * other.shaded;
    weight += of;
  }
  ShadedLight mean() const {
    const double per = weight > 0.0 ? 1.0 / weight : 0.0;
    // The same paths in another order may add up to a rounding more.
    return {from_si<PhotonFluxDensity>(per * unshaded),
            from_si<PhotonFluxDensity>(std::min(per * shaded, per * unshaded))};
  }
};

Sum received_at(const Scene& scene, const Obstruction& bodies, double x_m, double y_m, std::vector<Arrival>& arrivals) {
  gather_arrivals(scene, x_m, y_m, arrivals);
  Sum sum{.weight = 1.0};
  for (const Arrival& arrival : arrivals) {
    sum.unshaded += arrival.ppfd;
    if (!bodies.stops(scene, arrival, x_m, y_m)) sum.shaded += arrival.ppfd;
  }
  return sum;
}

/// A place on a colony, what part of its surface it stands for, and how that faces.
struct Spot {
  double x_m, y_m, depth_m;
  Place normal;  // z is up
  double area;
  int sector;  // -1: of the top
};

// Of a spherical receiver's arrivals, what falls on the side that this spot faces. A wall may send back what had to
// pass the colony itself to get there: that does not come, whatever the others do.
Sum received_on(Scene& scene, const Obstruction& itself, const Obstruction& others, const Spot& spot,
                std::vector<Arrival>& arrivals) {
  gather_arrivals(scene, spot.x_m, spot.y_m, arrivals);
  Sum sum{.weight = 1.0};
  for (const Arrival& arrival : arrivals) {
    const double facing = arrival.down * spot.normal[2] - arrival.to_x * spot.normal[0] - arrival.to_y * spot.normal[1];
    if (!(facing > 0.0) || itself.stops(scene, arrival, spot.x_m, spot.y_m)) continue;
    const double ppfd = arrival.ppfd * facing;
    sum.unshaded += ppfd;
    if (!others.stops(scene, arrival, spot.x_m, spot.y_m)) sum.shaded += ppfd;
  }
  return sum;
}

// The edges of neighbours' shadows run across a flank: between columns under 6 luminaires, 6 rings miss its mean by
// 0.4 %, 12 by 0.2 %, 24 by under 0.1 %. Nothing casts such edges on tops of one height.
constexpr int top_rings = 3, flank_rings = 24;

struct Around {
  double cosine, sine;
};
Around direction(int sector, int sectors) {
  const double angle = 2.0 * std::numbers::pi * sector / sectors;
  return {std::cos(angle), std::sin(angle)};
}

// A level round face: rings of equal area, at the radius that halves each.
void add_face(std::vector<Spot>& spots, double x_m, double y_m, double depth_m, double radius_m, int sectors) {
  for (int ring = 0; ring < top_rings; ++ring) {
    const double r = radius_m * std::sqrt((ring + 0.5) / top_rings);
    for (int s = 0; s < sectors; ++s) {
      const Around to = direction(s, sectors);
      spots.push_back({x_m + r * to.cosine, y_m + r * to.sine, depth_m, {0.0, 0.0, 1.0}, 1.0, -1});
    }
  }
}

std::vector<Spot> spots_of(const ShadingDisc& c, int sectors) {
  std::vector<Spot> spots;
  add_face(spots, si(c.x), si(c.y), si(c.depth), si(c.radius), sectors);
  return spots;
}

std::vector<Spot> spots_of(const ShadingCylinder& c, int sectors) {
  std::vector<Spot> spots;
  const double r = si(c.radius);
  add_face(spots, si(c.x), si(c.y), si(c.base_depth - c.height), r, sectors);
  for (int ring = 0; ring < flank_rings; ++ring)
    for (int s = 0; s < sectors; ++s) {
      const Around to = direction(s, sectors);
      spots.push_back({si(c.x) + r * to.cosine,
                       si(c.y) + r * to.sine,
                       si(c.base_depth) - si(c.height) * (ring + 0.5) / flank_rings,
                       {to.cosine, to.sine, 0.0},
                       1.0,
                       s});
    }
  return spots;
}

std::vector<Spot> spots_of(const ShadingHemisphere& c, int sectors) {
  std::vector<Spot> spots;
  const double r = si(c.radius), edge = std::sqrt(0.5);  // cosine of 45 degrees
  // Bands of equal height of a sphere have equal areas.
  const auto add_bands = [&](double from, double to, int rings, bool flank) {
    for (int ring = 0; ring < rings; ++ring) {
      const double up = from + (to - from) * (ring + 0.5) / rings, out = std::sqrt(1.0 - up * up);
      for (int s = 0; s < sectors; ++s) {
        const Around side = direction(s, sectors);
        spots.push_back({si(c.x) + r * out * side.cosine,
                         si(c.y) + r * out * side.sine,
                         si(c.base_depth) - r * up,
                         {out * side.cosine, out * side.sine, up},
                         (to - from) / rings,
                         flank ? s : -1});
      }
    }
  };
  add_bands(edge, 1.0, top_rings, false);
  add_bands(0.0, edge, flank_rings, true);
  return spots;
}

template <class Colony>
void require_in_tank(const Colony& colony, const Waterbody& water, int sectors) {
  require::within("sectors", static_cast<double>(sectors), 4.0, 360.0);
  require::within("x of the colony", colony.x, colony.radius, water.length - colony.radius);
  require::within("y of the colony", colony.y, colony.radius, water.width - colony.radius);
}

ColonyLight light_on(const std::vector<Spot>& spots, std::span<const PlacedLuminaire> luminaires,
                     const Waterbody& water, const ShadingBodies& colony, const ShadingBodies& others, int sectors) {
  const Obstruction itself(colony), bodies(others);
  Scene scene = make_scene(luminaires, water, from_si<Length>(spots.front().depth_m), {.spherical = true});
  std::vector<Arrival> arrivals;
  Sum top, flank;
  std::vector<Sum> around(static_cast<std::size_t>(sectors));
  double tabulated = -1.0;
  for (const Spot& spot : spots) {
    scene.depth_m = spot.depth_m;
    if (spot.depth_m != tabulated) tabulate_paths(scene, static_cast<std::size_t>(sectors));
    tabulated = spot.depth_m;
    const Sum here = received_on(scene, itself, bodies, spot, arrivals);
    (spot.sector < 0 ? top : flank).add(here, spot.area);
    if (spot.sector >= 0) around[static_cast<std::size_t>(spot.sector)].add(here, spot.area);
  }
  ColonyLight result{.top = top.mean(), .flank = flank.mean(), .sectors = {}};
  if (flank.weight > 0.0)
    for (const Sum& sector : around) result.sectors.push_back(sector.mean());
  return result;
}
}  // namespace

double shaded_share(const ShadedLight& light) {
  require::not_negative("unshaded light", light.unshaded);
  require::within("shaded light", light.shaded, PhotonFluxDensity(), light.unshaded);
  return light.unshaded > PhotonFluxDensity() ? 1.0 - si(light.shaded) / si(light.unshaded) : 0.0;
}

ShadedLight shaded_ppfd_at(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                           const ShadingBodies& bodies, const Length& plane_depth, const Length& x, const Length& y,
                           const Receiver& receiver) {
  const Scene scene = make_scene(luminaires, water, plane_depth, receiver);
  require::within("x", x, Length(), water.length);
  require::within("y", y, Length(), water.width);
  std::vector<Arrival> arrivals;
  return received_at(scene, Obstruction(bodies), si(x), si(y), arrivals).mean();
}

ShadowMap shadow_map(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const ShadingBodies& bodies,
                     const Length& plane_depth, int nx, int ny, const Receiver& receiver) {
  Scene scene = make_scene(luminaires, water, plane_depth, receiver);
  require_cells(nx, ny);
  const Obstruction obstruction(bodies);
  tabulate_paths(scene, static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny));
  std::vector<Arrival> arrivals;
  ShadowMap result;
  std::vector<double> unshaded;
  result.shaded = map_of(water, plane_depth, nx, ny, [&](double x_m, double y_m) {
    const ShadedLight here = received_at(scene, obstruction, x_m, y_m, arrivals).mean();
    unshaded.push_back(si(here.unshaded));
    return si(here.shaded);
  });
  result.unshaded = result.shaded;
  result.unshaded.values = std::move(unshaded);
  return result;
}

double dark_flank_share(const ColonyLight& light, double threshold) {
  require::positive("threshold", threshold);
  require::within("threshold", threshold, 0.0, 1.0);
  if (light.sectors.empty()) return 0.0;
  const PhotonFluxDensity least = threshold * light.flank.unshaded;
  const auto dark = std::count_if(light.sectors.begin(), light.sectors.end(),
                                  [&](const ShadedLight& sector) { return sector.shaded < least; });
  return static_cast<double>(dark) / static_cast<double>(light.sectors.size());
}

ColonyLight colony_light(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                         const ShadingCylinder& colony, const ShadingBodies& others, int sectors) {
  const ShadingBodies itself{.cylinders = {colony}};
  require_valid(itself);
  require_in_tank(colony, water, sectors);
  return light_on(spots_of(colony, sectors), luminaires, water, itself, others, sectors);
}

ColonyLight colony_light(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                         const ShadingHemisphere& colony, const ShadingBodies& others, int sectors) {
  const ShadingBodies itself{.hemispheres = {colony}};
  require_valid(itself);
  require_in_tank(colony, water, sectors);
  return light_on(spots_of(colony, sectors), luminaires, water, itself, others, sectors);
}

ColonyLight colony_light(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const ShadingDisc& colony,
                         const ShadingBodies& others, int sectors) {
  const ShadingBodies itself{.discs = {colony}};
  require_valid(itself);
  require_in_tank(colony, water, sectors);
  return light_on(spots_of(colony, sectors), luminaires, water, itself, others, sectors);
}

}  // namespace theca::light
