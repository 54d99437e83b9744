#include "theca/light/fresnel.hpp"

#include <numbers>

#include "limits.hpp"
#include "theca/require.hpp"

namespace theca::light {
namespace {
void require_valid_surface(const Angle& incidence, double index_near, double index_far) {
  require::within("incidence", incidence, Angle(), 90.0 * units::degree);
  limits::refractive_index("index_near", index_near);
  limits::refractive_index("index_far", index_far);
}
}  // namespace

SurfaceReflectance<> surface_reflectance(const Angle& incidence, double index_near, double index_far) {
  require_valid_surface(incidence, index_near, index_far);
  return kernel::reflectance(std::cos(si(incidence)), index_far / index_near);
}

double surface_transmittance(const Angle& incidence, double index_near, double index_far) {
  return 1.0 - surface_reflectance(incidence, index_near, index_far).unpolarised;
}

Angle refraction_angle(const Angle& incidence, double index_near, double index_far) {
  require_valid_surface(incidence, index_near, index_far);
  const double sine = kernel::refracted_sine(std::sin(si(incidence)), index_far / index_near);
  require::that(sine <= 1.0, "incidence", incidence,
                "at most the critical angle, " + text(std::asin(index_far / index_near), "rad"));
  return from_si<Angle>(std::asin(sine));
}

Angle critical_angle(double index_near, double index_far) {
  limits::refractive_index("index_near", index_near);
  limits::refractive_index("index_far", index_far);
  require::that(index_near > index_far, "index_near", index_near, "more than index_far, " + text(index_far, ""));
  return from_si<Angle>(std::asin(index_far / index_near));
}

double diffuse_surface_reflectance(double index_ratio) {
  require::within("index ratio", index_ratio, 1.01, 2.0);
  const double m = index_ratio, m2 = m * m, m4 = m2 * m2;
  return 0.5 + (m - 1.0) * (3.0 * m + 1.0) / (6.0 * (m + 1.0) * (m + 1.0)) +
         m2 * (m2 - 1.0) * (m2 - 1.0) / ((m2 + 1.0) * (m2 + 1.0) * (m2 + 1.0)) * std::log((m - 1.0) / (m + 1.0)) -
         2.0 * m * m2 * (m2 + 2.0 * m - 1.0) / ((m2 + 1.0) * (m4 - 1.0)) +
         8.0 * m4 * (m4 + 1.0) / ((m2 + 1.0) * (m4 - 1.0) * (m4 - 1.0)) * std::log(m);
}

}  // namespace theca::light
