// Tables of intensity over the angles of three goniometers against functions of direction integrated by hand.
#include "theca/light/photometric_web.hpp"

#include <cmath>
#include <limits>
#include <random>

#include "support/near.hpp"
#include "theca/error.hpp"

using namespace theca;
using namespace theca::light;
using test::near;

namespace {
constexpr double pi = 3.14159265358979323846;

/// A source brighter on one side: a + b x + c y + d z of the unit vector toward the eye.
struct Lopsided {
  double a = 100.0, b = 20.0, c = -30.0, d = 40.0;
  double toward(double x, double y, double z) const { return a + b * x + c * y + d * z; }
  double toward(double azimuth, double from_axis) const {
    return toward(std::sin(from_axis) * std::cos(azimuth), std::sin(from_axis) * std::sin(azimuth),
                  std::cos(from_axis));
  }
};

std::vector<Angle> steps(double from_deg, double to_deg, double step_deg) {
  std::vector<Angle> angles;
  for (int i = 0; from_deg + i * step_deg <= to_deg + 1e-9; ++i)
    angles.push_back((from_deg + i * step_deg) * units::degree);
  return angles;
}

PhotometricWeb web_of(const Lopsided& source, Goniometer goniometer, double step_deg) {
  PhotometricWeb web;
  web.goniometer = goniometer;
  const bool c = goniometer == Goniometer::type_c;
  web.horizontal = c ? steps(0, 360, step_deg) : steps(-90, 90, step_deg);
  web.vertical = c ? steps(0, 180, step_deg) : steps(-90, 90, step_deg);
  for (const Angle& horizontal : web.horizontal)
    for (const Angle& vertical : web.vertical) {
      const double h = si(horizontal), v = si(vertical);
      double value = 0.0;
      if (c)
        value = &horizontal == &web.horizontal.back() ? source.toward(0.0, v) : source.toward(h, v);
      else if (goniometer == Goniometer::type_a)  // the plane turned sideways by H, then up by V in it
        value = source.toward(std::cos(v) * std::sin(h), std::sin(v), std::cos(v) * std::cos(h));
      else  // the plane turned up by V, then sideways by H in it
        value = source.toward(std::sin(h), std::cos(h) * std::sin(v), std::cos(h) * std::cos(v));
      web.intensities.push_back(value * units::candela);
    }
  return web;
}
}  // namespace

TEST_CASE("luminous_flux: uniform source over the sphere is 4 pi I, over the half in front 2 pi I [exact]") {
  PhotometricWeb web;
  web.horizontal = {Angle()};
  web.vertical = steps(0, 180, 45);
  web.intensities.assign(5, 10.0 * units::candela);
  CHECK(near(si(luminous_flux(web)), 40.0 * pi, 1e-14));
  web.horizontal = steps(0, 360, 90);
  web.intensities.assign(25, 10.0 * units::candela);
  CHECK(near(si(luminous_flux(web)), 40.0 * pi, 1e-14));
  web.vertical = steps(0, 90, 45);
  web.intensities.assign(15, 10.0 * units::candela);
  CHECK(near(si(luminous_flux(web)), 20.0 * pi, 1e-14));
  for (const Goniometer g : {Goniometer::type_a, Goniometer::type_b}) {
    web.goniometer = g;
    web.horizontal = web.vertical = steps(-90, 90, 60);
    web.intensities.assign(16, 10.0 * units::candela);
    CHECK(near(si(luminous_flux(web)), 20.0 * pi, 1e-14));
  }
}

TEST_CASE(
    "luminous_flux: a + b x + c y + d z adds up to 4 pi a over the sphere, 2 pi a + pi d over the half in front") {
  const Lopsided source;
  // Straight lines between angles h apart miss by about h^2/12 of the curved part: at 2.5 deg 1.6e-4.
  CHECK(near(si(luminous_flux(web_of(source, Goniometer::type_c, 2.5))), 4 * pi * source.a, 2e-4));
  for (const Goniometer g : {Goniometer::type_a, Goniometer::type_b})
    CHECK(near(si(luminous_flux(web_of(source, g, 2.5))), 2 * pi * source.a + pi * source.d, 2e-4));
}

TEST_CASE("intensity_toward: three goniometers agree on a source that is brighter on one side") {
  const Lopsided source;
  std::mt19937 random(7);
  std::uniform_real_distribution<double> turn(-10.0, 10.0), half(0.0, pi / 2), whole(0.0, pi);
  const PhotometricWeb a = web_of(source, Goniometer::type_a, 2.5), b = web_of(source, Goniometer::type_b, 2.5),
                       c = web_of(source, Goniometer::type_c, 2.5);
  for (int i = 0; i < 500; ++i) {
    const double azimuth = turn(random), in_front = half(random), anywhere = whole(random);
    CAPTURE(azimuth);
    CAPTURE(in_front);
    const auto expected = source.toward(azimuth, in_front);
    for (const PhotometricWeb* web : {&a, &b, &c})
      CHECK(near(si(intensity_toward(*web, from_si<Angle>(azimuth), from_si<Angle>(in_front))), expected, 1e-3));
    CHECK(near(si(intensity_toward(c, from_si<Angle>(azimuth), from_si<Angle>(anywhere))),
               source.toward(azimuth, anywhere), 1e-3));
  }
}

TEST_CASE("intensity_toward: nothing beyond the measured angles") {
  PhotometricWeb web;
  web.horizontal = {Angle()};
  web.vertical = steps(0, 90, 90);
  web.intensities = {10.0 * units::candela, 6.0 * units::candela};
  CHECK(near(si(intensity_toward(web, 200.0 * units::degree, 45.0 * units::degree)), 8.0, 1e-14));
  CHECK(near(si(intensity_toward(web, Angle(), 90.0 * units::degree)), 6.0, 1e-14));
  CHECK(si(intensity_toward(web, Angle(), 91.0 * units::degree)) == 0.0);
}

TEST_CASE("web: what breaks its rules is refused by name") {
  PhotometricWeb good;
  good.horizontal = steps(0, 360, 90);
  good.vertical = steps(0, 90, 45);
  good.intensities.assign(15, 10.0 * units::candela);
  CHECK_NOTHROW(require_valid(good));
  const auto refused = [&](auto&& spoil) {
    PhotometricWeb web = good;
    spoil(web);
    CHECK_THROWS_AS(require_valid(web), InvalidInput);
    CHECK_THROWS_AS(luminous_flux(web), InvalidInput);
    CHECK_THROWS_AS(intensity_toward(web, Angle(), Angle()), InvalidInput);
  };
  refused([](PhotometricWeb& w) { w.intensities.pop_back(); });
  refused([](PhotometricWeb& w) { w.intensities[4] = -1.0 * units::candela; });
  refused([](PhotometricWeb& w) { w.intensities[4] = std::numeric_limits<double>::quiet_NaN() * units::candela; });
  refused([](PhotometricWeb& w) { w.intensities.assign(15, LuminousIntensity()); });
  refused([](PhotometricWeb& w) { w.intensities[13] = 11.0 * units::candela; });  // 360 deg unlike 0
  refused([](PhotometricWeb& w) { w.vertical[1] = w.vertical[2]; });
  refused([](PhotometricWeb& w) { w.vertical[2] = 181.0 * units::degree; });
  refused([](PhotometricWeb& w) { w.horizontal[0] = 10.0 * units::degree; });
  refused([](PhotometricWeb& w) { w.horizontal[4] = 350.0 * units::degree; });
  refused([](PhotometricWeb& w) { w.goniometer = Goniometer::type_b; });
  refused([](PhotometricWeb& w) { w.horizontal.clear(); });
  CHECK_THROWS_AS(intensity_toward(good, Angle(), 181.0 * units::degree), InvalidInput);
  CHECK_THROWS_AS(intensity_toward(good, from_si<Angle>(INFINITY), Angle()), InvalidInput);
}
