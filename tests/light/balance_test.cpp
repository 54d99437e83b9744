// What enters the water is absorbed in it, lost in the walls, or falls on the floor: balances of the whole field.
#include <boost/math/quadrature/gauss.hpp>
#include <vector>

#include "demo_luminaire.hpp"
#include "support/near.hpp"
#include "theca/light.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using theca::test::near;
using theca::test::within;

namespace {
constexpr double deep_m = 0.35;

// Wide emitters inside the outline, so high that all light enters by the tank's own surface or misses it.
std::vector<PlacedLuminaire> lamps() {
  return {{.luminaire = test::demo_luminaire(), .x = 0.3_m, .y = 0.25_m, .mounting_height = 0.4_m},
          {.luminaire = test::demo_luminaire(), .x = 0.7_m, .y = 0.35_m, .mounting_height = 0.6_m, .heading = 30_deg}};
}

Waterbody tank(double absorbed_per_m, double mirror) {
  return {.length = 1_m,
          .width = 0.6_m,
          .refractive_index = 1.339,
          .attenuation = absorbed_per_m * units::per_metre,
          .walls = Walls::mirror,
          .wall_reflectance = mirror};
}

// Photons through the level plane at a depth, and the scalar irradiance over it, mol/s.
double through(const Waterbody& water, double depth_m, bool spherical = false) {
  return si(photons_on_plane(map(lamps(), water, depth_m * units::metre, 160, 96, {.spherical = spherical})));
}

double over_depth(const auto& of_depth) {
  return boost::math::quadrature::gauss<double, 7>::integrate(of_depth, 0.0, deep_m);
}

// Photons that fall on the four walls from inside, mol/s.
double on_walls(const Waterbody& water) {
  double sum = 0.0;
  struct Side {
    Length x, y, length;
    Angle azimuth;
  };
  // A vertical plane is lit from the right of its level side.
  for (const Side& side : {Side{0_m, 0_m, 0.6_m, 90_deg}, Side{1_m, 0.6_m, 0.6_m, -90_deg},
                           Side{1_m, 0_m, 1_m, 180_deg}, Side{0_m, 0.6_m, 1_m, 0_deg}})
    sum += si(photons_on_plane(map(lamps(), water,
                                   SlopingPlane{.x = side.x,
                                                .y = side.y,
                                                .depth = deep_m * units::metre,
                                                .length = side.length,
                                                .width = deep_m * units::metre,
                                                .azimuth = side.azimuth,
                                                .slope = 90_deg},
                                   120, 60)));
  return sum;
}
}  // namespace

TEST_CASE(
    "light balance: between perfect mirrors each depth takes absorption times scalar irradiance [Gershun's law]") {
  for (const double k : {0.15, 1.0}) {
    const Waterbody water = tank(k, 1.0);
    const double absorbed = k * over_depth([&](double z) { return through(water, z, true); });
    // Maps of 160 x 96 cells see the edges of what enters by the surface to some 1e-3 of the light.
    CHECK(near(through(water, 0.0) - through(water, deep_m), absorbed, 2e-3 * through(water, 0.0) / absorbed));
  }
}

TEST_CASE("light balance: walls take what they do not mirror of what falls on them, water and floor the rest") {
  for (const double mirror : {0.0, 0.6, 0.9}) {
    const Waterbody water = tank(0.4, mirror);
    const double absorbed = 0.4 * over_depth([&](double z) { return through(water, z, true); });
    const double entering = through(water, 0.0), left = through(water, deep_m) + absorbed;
    CHECK(within(entering - left, (1.0 - mirror) * on_walls(water), 4e-3 * entering));
  }
}

TEST_CASE(
    "light balance: no more photons enter than the lamps send down, and higher lamps send fewer in, more evenly") {
  const Waterbody water = tank(0.15, 0.9);
  double sent = 0.0;
  for (const PlacedLuminaire& lamp : lamps()) sent += si(photon_flux(lamp));
  CHECK(through(water, 0.0) < sent);
  double mean = 1e9, evenness = 0.0;
  for (const double height : {0.3, 0.5, 0.8, 1.2}) {
    auto row = evenly_spaced(test::demo_luminaire(), 2, water.length, water.width, height * units::metre, 90_deg);
    const PpfdMap plane = map(row, tank(0.15, 0.0), 0.2_m, 40, 24);
    CHECK(si(plane.mean()) < mean);
    CHECK(plane.min_over_mean() > evenness);
    mean = si(plane.mean());
    evenness = plane.min_over_mean();
  }
}

TEST_CASE("light balance: lamp and place may change sides, where no wall is in between [reciprocity]") {
  // The path between two verticals is the same one read backward: a lobe of cos^m at one end, a flat sensor at the
  // other. With an even lobe and a spherical sensor neither end knows which way the other lies.
  const Waterbody water{.length = 2_m, .width = 2_m, .refractive_index = 1.339, .attenuation = 0.3_per_m};
  const Luminaire lobe{.intensity = CosineLobe{.on_axis = 50_umol_s_sr, .exponent = 1.0}, .power = 30_W};
  for (const double away : {0.2, 0.7, 1.5}) {
    const Length here = 0.25_m, there = here + away * units::metre;
    for (const bool spherical : {false, true}) {
      const Receiver receiver{.spherical = spherical};
      const PlacedLuminaire at_here{.luminaire = lobe, .x = here, .y = 1_m, .mounting_height = 0.4_m};
      PlacedLuminaire at_there = at_here;
      at_there.x = there;
      CHECK(near(ppfd_at(std::vector{at_here}, water, 0.3_m, there, 1_m, receiver),
                 ppfd_at(std::vector{at_there}, water, 0.3_m, here, 1_m, receiver), 1e-12));
    }
  }
}

TEST_CASE("light balance: over a matt floor all is absorbed in water, walls and floor or leaves by the surface") {
  // Midpoints of 6 x 4 cells and wall images to a thousandth of the light: 1 % of what enters.
  constexpr int nx = 6, ny = 4;
  constexpr double length = 1.0, width = 0.6;
  const DiffuseFloor floor{.depth = deep_m * units::metre, .reflectance = 0.7};
  for (const double mirror : {0.9, 0.6}) {
    const Waterbody water = tank(0.4, mirror);
    const FloorLight light = floor_light(lamps(), water, floor, 20, 12);
    const auto from_floor = [&](double x, double y, double depth, const Receiver& receiver) {
      return si(ppfd_from_floor_at(light, water, depth * units::metre, x * units::metre, y * units::metre, receiver));
    };
    const auto over_level = [&](double depth, const Receiver& receiver) {
      double sum = 0.0;
      for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
          sum += from_floor((i + 0.5) * length / nx, (j + 0.5) * width / ny, depth, receiver);
      return sum * length * width / (nx * ny);
    };
    const auto over_walls = [&] {
      double sum = 0.0;
      for (int k = 0; k < 6; ++k) {
        const double depth = (k + 0.5) * deep_m / 6.0, high = deep_m / 6.0;
        for (int i = 0; i < nx; ++i) {
          const double x = (i + 0.5) * length / nx, y = (i + 0.5) * width / nx;
          sum += high * width / nx * from_floor(0.0, y, depth, {.tilt = 90_deg, .azimuth = 0_deg});
          sum += high * width / nx * from_floor(length, y, depth, {.tilt = 90_deg, .azimuth = 180_deg});
          sum += high * length / nx * from_floor(x, 0.0, depth, {.tilt = 90_deg, .azimuth = 90_deg});
          sum += high * length / nx * from_floor(x, width, depth, {.tilt = 90_deg, .azimuth = -90_deg});
        }
      }
      return sum;
    };
    const double entering = through(water, 0.0);
    const double in_floor = (1.0 - floor.reflectance) * si(photons_on_plane(light.total));
    const double in_water =
        0.4 * over_depth([&](double z) { return through(water, z, true) + over_level(z, {.spherical = true}); });
    const double in_walls = (1.0 - mirror) * (on_walls(water) + over_walls());
    const double by_surface = over_level(0.0, {.tilt = 180_deg}) - over_level(0.0, {});
    CHECK(by_surface > 0.05 * entering);
    CHECK(within(in_floor + in_water + in_walls + by_surface, entering, 1e-2 * entering));
  }
}
