#include "theca/light/fresnel.hpp"

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <limits>

#include "support/near.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;

TEST_CASE("reflectance: normal incidence ((n-1)/(n+1))^2, grazing 1, equal media 0 [closed form]") {
  const double r0 = std::pow((1.339 - 1.0) / (1.339 + 1.0), 2);
  CHECK(near(surface_reflectance(0_deg, 1.0, 1.339).unpolarised, r0, 1e-14));
  CHECK(near(surface_reflectance(0_deg, 1.339, 1.0).unpolarised, r0, 1e-14));
  CHECK(near(surface_reflectance(90_deg, 1.0, 1.339).unpolarised, 1.0, 1e-14));
  for (const Angle& a : {0_deg, 45_deg, 90_deg}) CHECK(surface_reflectance(a, 1.3, 1.3).unpolarised == 0.0);
}

TEST_CASE("reflectance: the sine and tangent forms of Fresnel's equations give the same [other form]") {
  for (double deg = 1.0; deg < 90.0; deg += 4.0) {
    const Angle i = deg * units::degree;
    const double a = si(i), b = si(refraction_angle(i, 1.0, 1.339));
    const auto r = surface_reflectance(i, 1.0, 1.339);
    CHECK(near(r.s, std::pow(std::sin(a - b) / std::sin(a + b), 2), 1e-11));
    CHECK(test::within(r.p, std::pow(std::tan(a - b) / std::tan(a + b), 2), 1e-14));
    CHECK(near(r.unpolarised, 0.5 * (r.s + r.p), 1e-15));
  }
}

TEST_CASE("reflectance: the same from either side of the surface along one ray [Stokes reversibility]") {
  for (double deg = 0.0; deg <= 85.0; deg += 5.0) {
    const Angle in_air = deg * units::degree;
    const Angle in_water = refraction_angle(in_air, 1.0, 1.339);
    CHECK(near(surface_reflectance(in_water, 1.339, 1.0).unpolarised,
               surface_reflectance(in_air, 1.0, 1.339).unpolarised, 1e-11));
    CHECK(test::within(refraction_angle(in_water, 1.339, 1.0), in_air, 1e-12_rad));
  }
}

TEST_CASE("total reflection from below begins at the critical angle") {
  const Angle limit = critical_angle(1.339, 1.0);
  CHECK(near(std::sin(si(limit)), 1.0 / 1.339, 1e-15));
  CHECK(surface_reflectance(limit + 0.001_deg, 1.339, 1.0).unpolarised == 1.0);
  CHECK(surface_transmittance(limit + 0.001_deg, 1.339, 1.0) == 0.0);
  CHECK(surface_reflectance(limit - 0.1_deg, 1.339, 1.0).unpolarised < 0.9);
  CHECK(contains(message_of<InvalidInput>([&] { refraction_angle(limit + 1_deg, 1.339, 1.0); }), "critical angle"));
}

TEST_CASE("diffuse reflectance: closed form equals a quadrature of the Fresnel equations [other method]") {
  const auto quadrature = [](double index_near, double index_far) {
    // 2 Int R(c) c dc over the cosine c, split where total reflection begins so that each part is smooth inside
    const double ratio = index_far / index_near;
    const double c0 = ratio < 1.0 ? std::sqrt(1.0 - ratio * ratio) : 0.0;
    // c = c0 + (1 - c0) u^2 takes the square-root onset at c0 out
    const auto f = [&](double u) {
      const double c = c0 + (1.0 - c0) * u * u;
      return 2.0 * kernel::reflectance(c, ratio).unpolarised * c * 2.0 * u * (1.0 - c0);
    };
    return c0 * c0 + boost::math::quadrature::gauss_kronrod<double, 61>::integrate(f, 0.0, 1.0, 12, 1e-14);
  };
  for (const double n : {1.01, 1.1, 1.333, 1.339, 1.5, 2.0}) {
    // the closed form cancels as (n - 1)^-2; 1e-12 relative leaves it room at 1.1 and above
    CHECK(near(diffuse_surface_reflectance(n), quadrature(1.0, n), n < 1.1 ? 1e-9 : 1e-12));
    // what comes out of a hemisphere of equal radiance is 1/n^2 of what goes in: radiance over n^2 is kept
    CHECK(near(1.0 - quadrature(n, 1.0), (1.0 - diffuse_surface_reflectance(n)) / (n * n), 1e-10));
  }
}

TEST_CASE("surface: bad input is refused by name") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(contains(message_of<InvalidInput>([] { surface_reflectance(91_deg, 1.0, 1.3); }), "incidence"));
  CHECK(contains(message_of<InvalidInput>([] { surface_transmittance(-1.0 * 1_deg, 1.0, 1.3); }), "incidence"));
  CHECK(contains(message_of<InvalidInput>([] { surface_reflectance(1_deg, 0.9, 1.3); }), "index_near"));
  CHECK(contains(message_of<InvalidInput>([&] { surface_reflectance(1_deg, 1.0, nan); }), "index_far"));
  CHECK(contains(message_of<InvalidInput>([&] { refraction_angle(from_si<Angle>(nan), 1.0, 1.3); }), "incidence"));
  CHECK(contains(message_of<InvalidInput>([] { critical_angle(1.0, 1.3); }), "index_near"));
  CHECK(contains(message_of<InvalidInput>([] { critical_angle(1.3, 0.5); }), "index_far"));
  CHECK(contains(message_of<InvalidInput>([] { diffuse_surface_reflectance(1.0); }), "index ratio"));
}
