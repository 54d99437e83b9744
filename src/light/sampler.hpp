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
  /// About its axis: then its angle and the cosine of it are enough.
  bool symmetric() const { return !web_; }
  double symmetric_at(double theta_rad, double cosine) const {
    if (angles_.empty()) return cosine > 0.0 ? on_axis_ * std::pow(cosine, exponent_) : 0.0;
    return of_table(theta_rad);
  }

 private:
  double of_table(double theta_rad) const;

  std::vector<double> angles_, values_;  // of a table, else empty
  double buckets_per_rad_ = 0.0;
  std::vector<std::size_t> interval_at_;  // in which the bucket of an angle begins
  double on_axis_ = 0.0, exponent_ = 0.0;
  std::optional<WebSampler> web_;
  double photons_per_candela_ = 0.0;
};

struct BandAbsorption {
  double share;  ///< of the photons sent out
  double attenuation_per_m;
};

/// All bands take the same path.
struct WaterOptics {
  double index;
  std::vector<BandAbsorption> bands;

  /// Share of the photons left after a path.
  double left_after(double path_m) const {
    double sum = 0.0;
    for (const BandAbsorption& band : bands) sum += band.share * std::exp(-band.attenuation_per_m * path_m);
    return sum;
  }
};

/// Photon flux density on a horizontal plane, mol/(m2 s), at the end of a ray along which a point source sends an
/// intensity in mol/(s sr).
inline double ray_irradiance(double intensity, const kernel::RefractedRay<double>& ray, double height_m, double depth_m,
                             const WaterOptics& water) {
  const double cos_air = 1.0 / std::sqrt(1.0 + ray.tan_air * ray.tan_air);
  const double transmittance = 1.0 - kernel::reflectance(cos_air, water.index).unpolarised;
  return intensity * transmittance * kernel::tube_spreading(ray, height_m, depth_m, water.index) *
         water.left_after(ray.water_path_m);
}

}  // namespace theca::light
