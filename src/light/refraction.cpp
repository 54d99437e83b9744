#include "theca/light/refraction.hpp"

#include "limits.hpp"
#include "sampler.hpp"
#include "theca/require.hpp"

namespace theca::light {
namespace {
void require_valid_path(const Length& source_height, const Length& depth, const Length& horizontal_distance,
                        double refractive_index) {
  limits::height("source height", source_height);
  limits::depth("depth", depth);
  require::within("horizontal distance", horizontal_distance, Length(), limits::farthest);
  limits::refractive_index("refractive index", refractive_index);
}
}  // namespace

void kernel::detail::path_not_converged(int iterations) { throw NotConverged("refracted path", 1e-15, iterations); }

RefractedPath refracted_path(const Length& source_height, const Length& depth, const Length& horizontal_distance,
                             double refractive_index) {
  require_valid_path(source_height, depth, horizontal_distance, refractive_index);
  const auto ray = kernel::refracted_ray(si(horizontal_distance), si(source_height), si(depth), refractive_index);
  return {.in_air = from_si<Angle>(std::atan(ray.tan_air)),
          .in_water = from_si<Angle>(std::atan(ray.tan_air / ray.q)),
          .entry_distance = source_height * ray.tan_air,
          .air_path = source_height * std::sqrt(1.0 + ray.tan_air * ray.tan_air),
          .water_path = from_si<Length>(ray.water_path_m)};
}

PhotonFluxDensity irradiance_from_point(const AngularIntensity& intensity, const Length& source_height,
                                        const Length& depth, const Length& horizontal_distance, double refractive_index,
                                        const Attenuation& attenuation) {
  require_valid(intensity);
  require_valid_path(source_height, depth, horizontal_distance, refractive_index);
  require::not_negative("attenuation", attenuation);
  const double h = si(source_height), z = si(depth);
  const auto ray = kernel::refracted_ray(si(horizontal_distance), h, z, refractive_index);
  return from_si<PhotonFluxDensity>(ray_irradiance(IntensitySampler(intensity).toward(ray.tan_air, 0.0, 1.0), ray, h, z,
                                                   {refractive_index, {{1.0, si(attenuation)}}}));
}

}  // namespace theca::light
