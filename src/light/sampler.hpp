// An angular intensity laid out in raw SI for many look-ups, and the irradiance along one refracted ray.
#pragma once

#include <cmath>
#include <vector>

#include "theca/light/fresnel.hpp"
#include "theca/light/intensity.hpp"
#include "theca/light/refraction.hpp"

namespace theca::light {

/// Intensity below the horizontal, mol/(s sr), against the tangent of the angle from straight down.
class IntensitySampler {
 public:
  /// The intensity must be valid.
  explicit IntensitySampler(const AngularIntensity& intensity);
  double at_tangent(double t) const;
  double at_angle(double theta_rad) const;

 private:
  std::vector<double> angles_, values_;  // empty for a lobe
  double on_axis_ = 0.0, exponent_ = 0.0;
};

struct WaterOptics {
  double index;
  double attenuation_per_m;
};

/// Photon flux density on a horizontal plane, mol/(m2 s), at the end of a ray from a point source.
inline double ray_irradiance(const IntensitySampler& intensity, const kernel::RefractedRay<double>& ray,
                             double height_m, double depth_m, const WaterOptics& water) {
  const double cos_air = 1.0 / std::sqrt(1.0 + ray.tan_air * ray.tan_air);
  const double transmittance = 1.0 - kernel::reflectance(cos_air, water.index).unpolarised;
  return intensity.at_tangent(ray.tan_air) * transmittance *
         kernel::tube_spreading(ray, height_m, depth_m, water.index) *
         std::exp(-water.attenuation_per_m * ray.water_path_m);
}

}  // namespace theca::light
