// The field of simple sources against closed forms: what CIE 171:2006 (analytical cases for lighting programs) asks of
// point and area sources, and the law of n squared. Case names of CIE 171 are from memory; the figures are closed
// forms.
#include <cmath>
#include <vector>

#include "support/near.hpp"
#include "theca/light.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using test::near;

namespace {
constexpr double pi = 3.14159265358979323846;

Waterbody dry() { return {.length = 4_m, .width = 4_m, .refractive_index = 1.0, .attenuation = 0_per_m}; }

/// Lambertian emitter of this intensity on its axis, mol/s/sr.
PlacedLuminaire small_patch(double on_axis, Length x, Length y, Length height) {
  return {.luminaire = {.intensity = CosineLobe{.on_axis = from_si<PhotonIntensity>(on_axis), .exponent = 1.0},
                        .power = 1_W},
          .x = x,
          .y = y,
          .mounting_height = height};
}

double irradiance(const std::vector<PlacedLuminaire>& lamps, const Waterbody& water, Length depth, Length x, Length y,
                  const Receiver& receiver = {}) {
  return si(ppfd_at(lamps, water, depth, x, y, receiver));
}
}  // namespace

TEST_CASE("point source of equal intensity 3 m over a 4 m floor: I cos^3 / h^2 [CIE 171:2006, point light source]") {
  const std::vector<PlacedLuminaire> one{
      {.luminaire = {.intensity = CosineLobe{.on_axis = 1_umol_s_sr, .exponent = 0.0}, .power = 1_W},
       .x = 2_m,
       .y = 2_m,
       .mounting_height = 3_m}};
  for (const double off : {0.0, 0.5, 1.0, 1.5, 2.0}) {
    const double cosine = 3.0 / std::hypot(off, 3.0);
    CHECK(near(irradiance(one, dry(), 0_m, from_si<Length>(2.0 + off), 2_m), 1e-6 * std::pow(cosine, 3) / 9.0, 1e-13));
  }
}

TEST_CASE(
    "Lambertian rectangle 1 m x 0.6 m, level and upright receivers under its corner [CIE 171:2006, area source]") {
  // Configuration factors from a small face to a parallel and to a perpendicular rectangle, corner over the face:
  // Howell, Catalog of Radiation Heat Transfer Configuration Factors, B-3 and B-4; from memory.
  const double radiance = 1e-6, a = 1.0, b = 0.6;
  for (const double c : {0.3, 0.8, 2.0}) {
    CAPTURE(c);
    const PlacedLuminaire panel{
        .luminaire = {.intensity = CosineLobe{.on_axis = from_si<PhotonIntensity>(radiance * a * b), .exponent = 1.0},
                      .aperture_length = from_si<Length>(a),
                      .aperture_width = from_si<Length>(b),
                      .points_along = 16,
                      .points_across = 16,
                      .shines_all_over = true,
                      .power = 1_W},
        .x = from_si<Length>(2.0 + a / 2.0),
        .y = from_si<Length>(2.0 + b / 2.0),
        .mounting_height = from_si<Length>(c)};
    const double ra = std::hypot(a, c), rb = std::hypot(b, c);
    const double level = (a / ra * std::atan(b / ra) + b / rb * std::atan(a / rb)) / (2.0 * pi);
    // Looks along x, across the side b.
    const double upright = (std::atan(b / c) - c / ra * std::atan(b / ra)) / (2.0 * pi);
    // 16 x 16 Gauss points: 1e-9 at the nearest.
    CHECK(near(irradiance({panel}, dry(), 0_m, 2_m, 2_m), pi * radiance * level, 1e-8));
    CHECK(near(irradiance({panel}, dry(), 0_m, 2_m, 2_m, {.tilt = 90_deg}), pi * radiance * upright, 1e-8));
  }
}

TEST_CASE("Lambertian disc over its axis: pi L R^2 / (R^2 + h^2) [closed form, textbook]") {
  // Rings of equal area, each as a patch at its middle: on the axis all of a ring counts alike. The midpoint rule in
  // r^2 misses by R^4 / (12 N^2 h^4) at most.
  constexpr int rings = 400;
  const double radiance = 1e-6, radius = 0.5;
  for (const double h : {0.4, 1.0, 3.0}) {
    std::vector<PlacedLuminaire> disc;
    for (int i = 0; i < rings; ++i)
      disc.push_back(small_patch(radiance * pi * radius * radius / rings,
                                 from_si<Length>(1.0 + radius * std::sqrt((i + 0.5) / rings)), 1_m,
                                 from_si<Length>(h)));
    CHECK(near(irradiance(disc, dry(), 0_m, 1_m, 1_m), pi * radiance * radius * radius / (radius * radius + h * h),
               1e-5));
  }
}

TEST_CASE("light of equal radiance from the whole sky: pi L (1 - 0.066) below a calm surface, none of it lost in n^2") {
  // Rings seen at equal steps of cos^2 from straight up, L h^2 pi d(cos^2) / cos^4 each: equal shares of irradiance.
  // The last step before the horizon, where the reflectance bends, leaves 1e-4.
  constexpr int rings = 4000;
  const double radiance = 1e-6, h = 0.1;
  std::vector<PlacedLuminaire> sky;
  for (int i = 0; i < rings; ++i) {
    const double cos2 = (i + 0.5) / rings;
    sky.push_back(small_patch(radiance * pi * h * h / (rings * cos2 * cos2),
                              from_si<Length>(2.0 + h * std::sqrt(1.0 / cos2 - 1.0)), 2_m, from_si<Length>(h)));
  }
  Waterbody water = dry();
  CHECK(near(irradiance(sky, water, 0_m, 2_m, 2_m), pi * radiance, 1e-6));
  water.refractive_index = 4.0 / 3.0;
  const double below = irradiance(sky, water, 0_m, 2_m, 2_m);
  CHECK(near(below, pi * radiance * (1.0 - diffuse_surface_reflectance(4.0 / 3.0)), 2e-4));
  CHECK(test::within(100.0 * (1.0 - below / (pi * radiance)), 6.6, 0.05));  // Jerlov 1968, chapter 5; from memory
  // Scalar irradiance of the same light: radiance n^2 L T within the cone of 48.6 deg, 2 pi n^2 L Int T sin d(theta).
  double scalar = 0.0;
  constexpr int steps = 20000;
  const double n = 4.0 / 3.0, critical = std::asin(1.0 / n);
  for (int i = 0; i < steps; ++i) {
    const double theta = (i + 0.5) / steps * critical;
    scalar += surface_transmittance(from_si<Angle>(theta), n, 1.0) * std::sin(theta) * critical / steps;
  }
  CHECK(near(irradiance(sky, water, 0_m, 2_m, 2_m, {.spherical = true}), 2.0 * pi * n * n * radiance * scalar, 2e-4));
}

TEST_CASE(
    "law of n squared: under water a small source has the radiance n^2 T L [radiometry textbook, basic radiance]") {
  // Straight below, a source of area A at height h looks as far as n h + z: L n^2 T A / (n h + z)^2.
  Waterbody water = dry();
  for (const double n : {1.0, 1.34, 1.5}) {
    water.refractive_index = n;
    const double T = 1.0 - std::pow((n - 1.0) / (n + 1.0), 2);
    for (const double z : {0.0, 0.3, 1.7})
      CHECK(near(irradiance({small_patch(1e-6, 2_m, 2_m, 60_cm)}, water, from_si<Length>(z), 2_m, 2_m),
                 1e-6 * n * n * T / std::pow(n * 0.6 + z, 2), 1e-13));
  }
}

TEST_CASE(
    "flux of an area source: all of it arrives on the inside of a dry box around it [CIE 171:2006, conservation]") {
  // Five sides below a panel in the lid: the floor and four walls share what it sends.
  const Waterbody box{.length = 1_m, .width = 0.8_m, .refractive_index = 1.0, .attenuation = 0_per_m};
  const std::vector<PlacedLuminaire> lamp{
      {.luminaire = {.intensity = CosineLobe{.on_axis = 1_umol_s_sr, .exponent = 1.0},
                     .aperture_length = 30_cm,
                     .aperture_width = 20_cm,
                     .points_along = 3,
                     .points_across = 3,
                     .power = 1_W},
       .x = 45_cm,
       .y = 35_cm,
       .mounting_height = 1_um,
       .heading = 30_deg}};
  const Length deep = 60_cm;
  const auto side = [&](Length x, Length y, Length length, Angle azimuth) {
    return photons_on_plane(
        map(lamp, box,
            SlopingPlane{
                .x = x, .y = y, .depth = deep, .length = length, .width = deep, .azimuth = azimuth, .slope = 90_deg},
            200, 120));
  };
  // A plane is lit from the right of its level side.
  const PhotonFlux caught = photons_on_plane(map(lamp, box, deep, 200, 160)) + side(0_m, 0_m, 0.8_m, 90_deg) +
                            side(1_m, 0.8_m, 0.8_m, 270_deg) + side(1_m, 0_m, 1_m, 180_deg) +
                            side(0_m, 0.8_m, 1_m, 0_deg);
  CHECK(near(caught, photon_flux(lamp[0].luminaire.intensity), 1e-4));  // midpoints of cells of 5 mm
}
