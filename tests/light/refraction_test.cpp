#include "theca/light/refraction.hpp"

#include <boost/math/differentiation/autodiff.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <limits>
#include <numbers>

#include "demo_luminaire.hpp"
#include "support/near.hpp"
#include "theca/light/fresnel.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using std::numbers::pi;
using test::contains;
using test::message_of;
using test::near;

namespace {
const CosineLobe lambertian{.on_axis = 100_umol_s_sr, .exponent = 1.0};

/// Photons per second inside a circle of radius R on the plane at depth z.
double flux_inside(const AngularIntensity& intensity, Length h, Length z, double index, Length radius) {
  // r = tan(u) spreads the far field out
  const auto f = [&](double u) {
    const double r = std::tan(u);
    return si(irradiance_from_point(intensity, h, z, from_si<Length>(r), index, Attenuation())) * 2.0 * pi * r *
           (1.0 + r * r);
  };
  return boost::math::quadrature::gauss_kronrod<double, 61>::integrate(f, 0.0, std::atan(si(radius)), 15, 1e-12);
}
}  // namespace

TEST_CASE("irradiance_from_point: Lambertian point without water, I0 cos^4 / H^2 [inverse-square and cosine law]") {
  // Intensity I0 cos, cos^2/H^2 for the distance, cos for the plane.
  const double height = 0.75 + 0.2;
  for (const double r : {0.0, 1e-9, 0.01, 0.3, 1.0, 10.0, 1000.0}) {
    const double cos2 = height * height / (height * height + r * r);
    CHECK(near(irradiance_from_point(lambertian, 75_cm, 20_cm, from_si<Length>(r), 1.0, Attenuation()),
               from_si<PhotonFluxDensity>(100e-6 * cos2 * cos2 / (height * height)), 1e-12));
  }
}

TEST_CASE("irradiance_from_point: equal intensity without water, I cos^3 / H^2 [inverse-square and cosine law]") {
  const CosineLobe equal{.on_axis = 100_umol_s_sr, .exponent = 0.0};
  CHECK(near(irradiance_from_point(equal, 60_cm, 40_cm, 1_m, 1.0, Attenuation()), std::pow(0.5, 1.5) * 100_umol_m2_s,
             1e-13));
}

TEST_CASE("irradiance_from_point: on the axis I T exp(-k z) / (h + z/n)^2 [apparent depth z/n]") {
  const double n = 1.339, transmittance = 1.0 - std::pow((n - 1.0) / (n + 1.0), 2);
  const double expected = 100e-6 * transmittance * std::exp(-0.15 * 0.2) / std::pow(0.75 + 0.2 / n, 2);
  CHECK(near(si(irradiance_from_point(lambertian, 75_cm, 20_cm, Length(), n, 0.15_per_m)), expected, 1e-14));
  // the axis is no special point: E is even in r, so that it differs by r^2 only
  CHECK(near(si(irradiance_from_point(lambertian, 75_cm, 20_cm, 1_um, n, 0.15_per_m)), expected, 1e-10));
}

TEST_CASE("irradiance_from_point: seen from deep water a low source is n^2 T times as strong [n-squared law]") {
  // apparent intensity n^2 I T for h much less than z; the source's height adds 2 h n / z
  const double n = 1.339, transmittance = 1.0 - std::pow((n - 1.0) / (n + 1.0), 2);
  const auto e = irradiance_from_point(lambertian, 1_um, 1000_m, Length(), n, Attenuation());
  CHECK(near(si(e), 100e-6 * n * n * transmittance / 1e6, 1e-8));
}

TEST_CASE("irradiance_from_point: a huge plane catches all photons that pass the surface [energy conservation]") {
  // pi I0 (1 - diffuse reflectance); what passes beyond 10 km is below cos^2 = 1e-8 of it
  const double expected = pi * 100e-6 * (1.0 - diffuse_surface_reflectance(1.339));
  for (const Length& depth : {Length(), 20_cm, 5_m})
    CHECK(near(flux_inside(lambertian, 75_cm, depth, 1.339, 10000_m), expected, 1e-7));
}

TEST_CASE("irradiance_from_point: a circle catches the transmitted flux of its cone [energy conservation]") {
  const auto table = test::demo_table();
  for (const Length& radius : {10_cm, 50_cm, 3_m}) {
    const double edge = si(refracted_path(75_cm, 20_cm, radius, 1.339).in_air);
    double cone = 0.0;  // split at the kinks of the table
    for (double a = 0.0; a < edge; a += pi / 18.0) {
      const auto f = [&](double theta) {
        const Angle angle = from_si<Angle>(theta);
        return 2.0 * pi * std::sin(theta) * si(intensity_at(table, angle)) * surface_transmittance(angle, 1.0, 1.339);
      };
      cone +=
          boost::math::quadrature::gauss_kronrod<double, 31>::integrate(f, a, std::min(a + pi / 18.0, edge), 5, 1e-13);
    }
    CHECK(near(flux_inside(table, 75_cm, 20_cm, 1.339, radius), cone, 1e-8));
  }
}

TEST_CASE("irradiance_from_point: absorption counts along the path [Bouguer-Lambert]") {
  const auto clear = irradiance_from_point(lambertian, 75_cm, 20_cm, 60_cm, 1.339, Attenuation());
  const auto dim = irradiance_from_point(lambertian, 75_cm, 20_cm, 60_cm, 1.339, 2_per_m);
  const double path = si(refracted_path(75_cm, 20_cm, 60_cm, 1.339).water_path);
  CHECK(path > 0.2);
  CHECK(near(si(dim) / si(clear), std::exp(-2.0 * path), 1e-13));
  CHECK(si(irradiance_from_point(lambertian, 75_cm, 20_cm, 60_cm, 1.339, from_si<Attenuation>(1e300))) == 0.0);
}

TEST_CASE("refracted_path: Snell's law holds and the path closes") {
  for (const double n : {1.0, 1.339, 2.0})
    for (const Length& r : {Length(), 1_mm, 30_cm, 5_m}) {
      const auto path = refracted_path(50_cm, 25_cm, r, n);
      CHECK(test::within(std::sin(si(path.in_air)), n * std::sin(si(path.in_water)), 1e-14));
      CHECK(test::within(path.entry_distance + 25_cm * std::tan(si(path.in_water)), r, 1e-14_m));
      CHECK(near(path.air_path * std::cos(si(path.in_air)), 50_cm, 1e-13));
      CHECK(near(path.water_path * std::cos(si(path.in_water)), 25_cm, 1e-13));
    }
}

TEST_CASE("refracted_path: no other point of entry has a shorter optical length [Fermat's principle]") {
  const double h = 0.4, z = 0.3, r = 0.9, n = 1.339;
  const double x = si(refracted_path(40_cm, 30_cm, 90_cm, n).entry_distance);
  const auto optical = [&](double entry) { return std::hypot(h, entry) + n * std::hypot(z, r - entry); };
  for (const double off : {1e-5, 1e-3, 0.1}) {
    CHECK(optical(x) < optical(x + off));
    CHECK(optical(x) < optical(x - off));
  }
}

TEST_CASE("refracted_path: solved over the whole accepted range, nothing infinite or NaN comes out") {
  for (const double h : {1e-6, 1e-3, 0.3, 30.0, 1000.0})
    for (const double z : {0.0, 1e-9, 1e-3, 0.2, 1000.0})
      for (const double r : {0.0, 1e-12, 1e-3, 0.5, 100.0, 1e5})
        for (const double n : {1.0, 1.0000001, 1.339, 2.0}) {
          CAPTURE(h);
          CAPTURE(z);
          CAPTURE(r);
          CAPTURE(n);
          const auto ray = kernel::refracted_ray(r, h, z, n);
          CHECK(test::within((h + z / ray.q) * ray.tan_air, r, 4e-15 * r));
          const auto e = irradiance_from_point(test::demo_table(), from_si<Length>(h), from_si<Length>(z),
                                               from_si<Length>(r), n, 0.15_per_m);
          CHECK(std::isfinite(si(e)));
          CHECK(si(e) >= 0.0);
        }
}

TEST_CASE("kernel: derivatives pass through the solver [autodiff against a central difference]") {
  const auto spread = [](auto h, auto z) {
    using T = decltype(h);
    const T r(0.6), n(1.339);
    const T depth(z);
    return kernel::tube_spreading(kernel::refracted_ray(r, h, depth, n), h, depth, n);
  };
  using boost::math::differentiation::make_fvar;
  const auto h = make_fvar<double, 1>(0.75);
  const double by_autodiff = spread(h, 0.2).derivative(1u);
  const double step = 1e-5;
  const double by_difference = (spread(0.75 + step, 0.2) - spread(0.75 - step, 0.2)) / (2.0 * step);
  // central difference: truncation step^2, rounding 1e-16 / step
  CHECK(near(by_autodiff, by_difference, 1e-8));
}

TEST_CASE("refraction: bad input is refused by name") {
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  const auto refused = [](double h, double z, double r, double n, double k) {
    return message_of<InvalidInput>([&] {
      irradiance_from_point(lambertian, from_si<Length>(h), from_si<Length>(z), from_si<Length>(r), n,
                            from_si<Attenuation>(k));
    });
  };
  CHECK(contains(refused(0.0, 0.2, 0.1, 1.3, 0.1), "source height"));
  CHECK(contains(refused(nan, 0.2, 0.1, 1.3, 0.1), "source height"));
  CHECK(contains(refused(0.5, -0.2, 0.1, 1.3, 0.1), "depth"));
  CHECK(contains(refused(0.5, inf, 0.1, 1.3, 0.1), "depth"));
  CHECK(contains(refused(0.5, 0.2, -0.1, 1.3, 0.1), "horizontal distance"));
  CHECK(contains(refused(0.5, 0.2, nan, 1.3, 0.1), "horizontal distance"));
  CHECK(contains(refused(0.5, 0.2, 0.1, 0.9, 0.1), "refractive index"));
  CHECK(contains(refused(0.5, 0.2, 0.1, 1.3, -0.1), "attenuation"));
  CHECK(contains(message_of<InvalidInput>([] { refracted_path(Length(), 20_cm, 1_m, 1.3); }), "source height"));
  CHECK(contains(
      message_of<InvalidInput>([] { irradiance_from_point(CosineLobe{}, 50_cm, 20_cm, 1_m, 1.3, Attenuation()); }),
      "on_axis"));
}
