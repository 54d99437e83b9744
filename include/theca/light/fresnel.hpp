// Refraction and reflection of unpolarised light at a flat water surface, from above and from below.
#pragma once

#include <cmath>

#include "theca/units.hpp"

namespace theca::light {

/// Share of the light thrown back at a flat surface, for the two polarisations and for unpolarised light.
template <class T = double>
struct SurfaceReflectance {
  T s;            ///< electric field parallel to the surface
  T p;            ///< electric field in the plane of incidence
  T unpolarised;  ///< mean of both
};

namespace kernel {
/// Fresnel reflectance against the cosine of incidence (0 to 1) and the index ratio (far side over near side).
/// Unchecked. @source Born & Wolf, Principles of Optics, section 1.5.2, equations (20) and (21); from memory
template <class T>
SurfaceReflectance<T> reflectance(T cos_incidence, T index_ratio) {
  using std::sqrt;
  if (index_ratio == T(1)) return {T(0), T(0), T(0)};
  const T cos2_refracted = T(1) - (T(1) - cos_incidence * cos_incidence) / (index_ratio * index_ratio);
  if (!(cos2_refracted > T(0))) return {T(1), T(1), T(1)};  // total reflection
  const T cos_refracted = sqrt(cos2_refracted);
  const T s = (cos_incidence - index_ratio * cos_refracted) / (cos_incidence + index_ratio * cos_refracted);
  const T p = (index_ratio * cos_incidence - cos_refracted) / (index_ratio * cos_incidence + cos_refracted);
  return {s * s, p * p, T(0.5) * (s * s + p * p)};
}

/// Sine of the refracted angle; passes 1 where light is totally reflected. Unchecked.
/// @source Snell's law
template <class T>
T refracted_sine(T sin_incidence, T index_ratio) {
  return sin_incidence / index_ratio;
}
}  // namespace kernel

/// Reflectance of a flat surface between two clear media; 1 beyond the critical angle.
///
/// @param incidence          from the surface's normal, 0 to 90 deg
/// @param index_near, index_far  refractive indices, 1 to 2, of the side the light comes from and of the other one
/// @throws InvalidInput
SurfaceReflectance<> surface_reflectance(const Angle& incidence, double index_near, double index_far);

/// Share of unpolarised light that passes: 1 - reflectance. Same arguments.
double surface_transmittance(const Angle& incidence, double index_near, double index_far);

/// Angle to the normal after refraction.
/// @throws InvalidInput  also beyond the critical angle, where no refracted ray exists
Angle refraction_angle(const Angle& incidence, double index_near, double index_far);

/// Incidence from which all light is thrown back: asin(index_far / index_near).
/// @throws InvalidInput  unless index_near > index_far
Angle critical_angle(double index_near, double index_far);

/// Reflectance of a flat surface under light of equal radiance from the whole hemisphere, entering a denser medium.
///
/// @param index_ratio  index of the far side over the near side, 1.01 to 2 (nearer to 1 the closed form loses digits)
/// @throws InvalidInput
/// @source Duntley 1942, J. Opt. Soc. Am. 32, 61-70, closed form of Int R sin(2 theta) d theta; from memory, equal to
///         a quadrature of the Fresnel equations to 1e-12 in the tests
double diffuse_surface_reflectance(double index_ratio);

}  // namespace theca::light
