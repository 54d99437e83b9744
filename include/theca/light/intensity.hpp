// Angular intensity of a luminaire, and the photon flux it adds up to.
#pragma once

#include <variant>
#include <vector>

#include "theca/light/photometric_web.hpp"
#include "theca/units.hpp"

namespace theca::light {

/// Symmetric about the vertical axis: measured intensity against angle from straight down, linear between the angles.
struct TabulatedIntensity {
  std::vector<Angle> angles;            ///< rising, first 0 deg, last from 90 to 180 deg
  std::vector<PhotonIntensity> values;  ///< one for each angle, 0 to 1000 mol/s/sr, not all zero
};

/// I(theta) = on_axis cos^exponent(theta) below the horizontal, nothing above it.
struct CosineLobe {
  PhotonIntensity on_axis;  ///< > 0, at most 1000 mol/s/sr
  double exponent = 1.0;    ///< 0 to 10 000; 1 is a Lambertian emitter
};

/// Of any shape: the distribution of a photometric web, its axis straight down, scaled to a photon flux. Holds as far
/// as all colours of the luminaire leave it in the same distribution.
struct WebIntensity {
  PhotometricWeb web;  ///< e.g. Photometry::web of a file
  PhotonFlux flux;     ///< of the whole luminaire, > 0; no intensity above 1000 mol/s/sr
};

using AngularIntensity = std::variant<TabulatedIntensity, CosineLobe, WebIntensity>;

/// Throws InvalidInput unless the table, lobe or web is as its fields say.
void require_valid(const AngularIntensity& intensity);

/// Intensity at an angle from straight down.
/// @param from_nadir  0 to 180 deg; beyond the end of a table that ends between 90 and 180 deg there is no value
/// @param azimuth     about the vertical, from the luminaire's length (plane 0 of a web); counts for a web only
/// @throws InvalidInput  intensity not valid, or the angle is outside the table
PhotonIntensity intensity_at(const AngularIntensity& intensity, const Angle& from_nadir, const Angle& azimuth = {});

/// Photosynthetic photon flux (PPF): 2 pi Int I(theta) sin(theta) d theta, exact for tables and lobes; a web's own.
///
/// Table, from a to b with I = p + q theta: Int I sin = [q sin(theta) - (p + q theta) cos(theta)] from a to b.
/// Lobe: 2 pi on_axis / (exponent + 1).
/// @throws InvalidInput  intensity not valid
/// @source definition of intensity (CIE S 017, ILV); integrals elementary
PhotonFlux photon_flux(const AngularIntensity& intensity);

/// The lobe of a given photon flux and beam angle, for a luminaire whose table is not published.
///
/// @param flux        > 0
/// @param beam_angle  full angle between the directions of half the axial intensity, > 0, < 180 deg; narrower than
///                    about 1.4 deg the exponent passes 10 000 and is refused
/// @throws InvalidInput
/// @source half value of cos^m: m = ln(1/2) / ln(cos(beam_angle / 2)), elementary
CosineLobe cosine_lobe(const PhotonFlux& flux, const Angle& beam_angle);

/// The beam of a lens or a reflector of which flux, beam angle and field angle are known: on the axis the most, half of
/// it at half the beam angle, a tenth at half the field angle, I0 exp(-ln 2 (theta / half beam)^m), nothing above the
/// horizontal; in steps of a quarter of a degree, its flux exact.
///
/// @param flux         > 0
/// @param beam_angle   full angle between half intensities, 2 to 170 deg
/// @param field_angle  full angle between tenths, more than 1.1 times the beam angle, below 180 deg
/// @throws InvalidInput
/// @source beam (50 %) and field angle (10 %): ANSI/IES LS-1, from memory; form between them: common practice, no
/// source
TabulatedIntensity beam_cone(const PhotonFlux& flux, const Angle& beam_angle, const Angle& field_angle);

/// The beam of an ideal reflector over a Lambertian emitter (compound parabolic): I0 cos(theta) up to the cut-off,
/// nothing beyond, flux = pi I0 sin^2(cut-off). Straight cones spill some light beyond it.
///
/// @param flux     > 0
/// @param cut_off  from the axis, 1 to 89 deg
/// @throws InvalidInput
/// @source Welford & Winston 1989, High Collection Nonimaging Optics, chapter 4; from memory
TabulatedIntensity reflector_cone(const PhotonFlux& flux, const Angle& cut_off);

}  // namespace theca::light
