// An angular intensity laid out in raw SI for many look-ups, and the irradiance along one refracted ray.
#pragma once

#include <cmath>
#include <optional>
#include <vector>

#include "theca/light/fresnel.hpp"
#include "theca/light/intensity.hpp"
#include "theca/light/refraction.hpp"
#include "web_sampler.hpp"

namespace theca::light {

/// Intensity in mol/(s sr).
class IntensitySampler {
 public:
  /// The intensity must be valid.
  explicit IntensitySampler(const AngularIntensity& intensity);
  /// Along a direction of any length in the luminaire's own axes: x along its length, y across, `ahead` along its axis,
  /// which points straight down when it is not tilted.
  double toward(double x, double y, double ahead) const;
  double at_angle(double theta_rad, double azimuth_rad) const;

 private:
  std::vector<double> angles_, values_;  // of a table, else empty
  double on_axis_ = 0.0, exponent_ = 0.0;
  std::optional<WebSampler> web_;
  double photons_per_candela_ = 0.0;
};

struct WaterOptics {
  double index;
  double attenuation_per_m;
};

/// Photon flux density on a horizontal plane, mol/(m2 s), at the end of a ray along which a point source sends an
/// intensity in mol/(s sr).
inline double ray_irradiance(double intensity, const kernel::RefractedRay<double>& ray, double height_m, double depth_m,
                             const WaterOptics& water) {
  const double cos_air = 1.0 / std::sqrt(1.0 + ray.tan_air * ray.tan_air);
  const double transmittance = 1.0 - kernel::reflectance(cos_air, water.index).unpolarised;
  return intensity * transmittance * kernel::tube_spreading(ray, height_m, depth_m, water.index) *
         std::exp(-water.attenuation_per_m * ray.water_path_m);
}

}  // namespace theca::light
