// Luminous intensity in all directions as a goniophotometer measures it: tables over two angles, and what they add up
// to.
#pragma once

#include <vector>

#include "theca/units.hpp"

namespace theca::light {

/// How the two angles of a table turn. All start from the luminaire's own axis, along which it is aimed; for a
/// luminaire that hangs and shines down the axis points at the nadir.
enum class Goniometer {
  /// Vertical angle gamma from the axis, 0 to 180 deg; horizontal angle C about the axis, 0 to 360 deg. What is used
  /// for almost every luminaire.
  type_c,
  /// Planes turn about the horizontal line across the axis: vertical angle V turns the plane, -90 to 90 deg;
  /// horizontal angle H lies in the plane, -90 to 90 deg from the axis. Floodlights.
  type_b,
  /// Planes turn about the vertical line across the axis: H turns the plane, V lies in it. Signal lights, headlamps.
  type_a
};

/// Intensity at every pair of angles, bilinear between them, nothing outside the vertical angles measured (and, for
/// types A and B, outside the horizontal ones).
struct PhotometricWeb {
  Goniometer goniometer = Goniometer::type_c;
  /// Rising. Type C: from 0 to 360 deg, the last plane equal to the first; or 0 alone, if the luminaire is symmetric
  /// about its axis. Types A and B: within -90 to 90 deg, at least two.
  std::vector<Angle> horizontal;
  /// Rising, at least two. Type C: within 0 to 180 deg; types A and B: within -90 to 90 deg.
  std::vector<Angle> vertical;
  /// >= 0, not all zero; all vertical angles of the first horizontal one, then those of the next.
  std::vector<LuminousIntensity> intensities;
};

/// @throws InvalidInput  naming the angle or value that breaks a rule above
void require_valid(const PhotometricWeb& web);

/// Intensity in one direction.
/// @param azimuth    about the axis; for type C the angle C; for types A and B 0 is the side of H > 0, 90 deg that of V
/// > 0.
///                   Any finite angle
/// @param from_axis  0 to 180 deg
/// @throws InvalidInput
LuminousIntensity intensity_toward(const PhotometricWeb& web, const Angle& azimuth, const Angle& from_axis);

/// Luminous flux of the whole table: the integral of the intensity over the sphere, exact for bilinear tables (linear
/// times sine or cosine, by parts).
/// @throws InvalidInput
/// @source definition of luminous intensity (CIE S 017, ILV); the three goniometers: CIE 121, IES LM-75, from memory
LuminousFlux luminous_flux(const PhotometricWeb& web);

}  // namespace theca::light
