// Light from a point in air to a point under flat water: the one refracted path between them, and what it delivers.
#pragma once

#include <cmath>

#include "theca/light/intensity.hpp"
#include "theca/units.hpp"

namespace theca::light {

namespace kernel {

namespace detail {
[[noreturn]] void path_not_converged(int iterations);
}

/// What the refracted path looks like, against the tangent t of its angle to the vertical in air.
/// With q = sqrt(n^2 + (n^2 - 1) t^2) Snell's law gives tan(angle in water) = t / q, so that the ray reaches
/// r(t) = h t + z t / q sideways, and dr/dt = h + z n^2 / q^3: rising and concave for n >= 1.
template <class T>
struct RefractedRay {
  T tan_air;
  T q;
  T water_path_m;
};

/// The tangent whose ray covers `distance_m` sideways from `height_m` above to `depth_m` below the surface. Coherent
/// SI, unchecked. height > 0, depth >= 0, index >= 1.
/// Newton from t = r / (h + z / n): r(t) is concave, so the start lies at or before the root and every step falls
/// short of it; the iteration cannot leave the range or cycle.
template <class T>
RefractedRay<T> refracted_ray(T distance_m, T height_m, T depth_m, T index) {
  using std::sqrt;
  constexpr int most_iterations = 200;
  const T n2 = index * index;
  T t = distance_m / (height_m + depth_m / index);
  for (int i = 0; i < most_iterations; ++i) {
    const T q = sqrt(n2 + (n2 - T(1)) * t * t);
    const T in_water = depth_m / q;
    const T short_by = distance_m - (height_m + in_water) * t;
    const T step = short_by / (height_m + in_water * n2 / (q * q));
    t = t + step;
    // Rounding leaves one or two units of the last place in either.
    if (!(short_by > T(1e-15) * distance_m && step > T(1e-15) * t)) {
      const T q_end = sqrt(n2 + (n2 - T(1)) * t * t);
      return {t, q_end, depth_m * index * sqrt(T(1) + t * t) / q_end};
    }
  }
  detail::path_not_converged(most_iterations);
}

/// Irradiance on a horizontal plane per intensity sent along the ray, without surface loss and absorption, 1/m2:
/// sin(theta) / (r dr/dtheta) of the flux tube, with r and sin(theta) divided through by t so that the axis is no
/// special case: 1 / ((1 + t^2)^(3/2) (h + z / q) (h + z n^2 / q^3)).
/// @source conservation of photons in the tube I 2 pi sin(theta) d theta = E 2 pi r dr
template <class T>
T tube_spreading(const RefractedRay<T>& ray, T height_m, T depth_m, T index) {
  using std::sqrt;
  const T one_t2 = T(1) + ray.tan_air * ray.tan_air;
  const T in_water = depth_m / ray.q;
  return T(1) /
         (one_t2 * sqrt(one_t2) * (height_m + in_water) * (height_m + in_water * index * index / (ray.q * ray.q)));
}

}  // namespace kernel

/// The refracted path from a point in air to a point under water. Angles are from the vertical.
struct RefractedPath {
  Angle in_air;
  Angle in_water;
  Length entry_distance;  ///< sideways from the source to where the ray meets the surface
  Length air_path;
  Length water_path;
};

/// @param source_height        above the surface, 1 um to 1 km
/// @param depth                of the receiver below the surface, 0 to 1 km
/// @param horizontal_distance  between source and receiver, 0 to 100 km
/// @param refractive_index     of the water, 1 to 2
/// @throws InvalidInput, NotConverged
/// @source Snell's law; solved by Newton's method on the sideways reach
RefractedPath refracted_path(const Length& source_height, const Length& depth, const Length& horizontal_distance,
                             double refractive_index);

/// Photon flux density on a horizontal plane under water from a point source in air over flat water:
/// E = I(theta) T(theta) sin(theta) / (r dr/dtheta) exp(-k s), s the path under water.
///
/// @param intensity    of the point source; a web's in its plane 0
/// @param attenuation  absorbed share per length of path, >= 0. Not the diffuse attenuation, which counts per depth.
/// @throws InvalidInput, NotConverged
/// @valid flat water surface; light scattered back into the beam is left out
/// @source Fresnel transmittance, flux-tube spreading as in kernel::tube_spreading, Bouguer-Lambert absorption
PhotonFluxDensity irradiance_from_point(const AngularIntensity& intensity, const Length& source_height,
                                        const Length& depth, const Length& horizontal_distance, double refractive_index,
                                        const Attenuation& attenuation);

}  // namespace theca::light
