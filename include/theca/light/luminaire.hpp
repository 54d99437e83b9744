// A luminaire, where it hangs over the water, and how a row of equal ones is spaced along a tank.
#pragma once

#include <vector>

#include "theca/light/intensity.hpp"
#include "theca/units.hpp"

namespace theca::light {

/// The aperture is a rectangle of equal points, each emitting its share of the angular intensity: an array of emitters.
/// Where it shines all over, the points are those of a quadrature over it.
struct Luminaire {
  AngularIntensity intensity;  ///< of the whole luminaire
  Length aperture_length{};    ///< 0 is a point; 0 to 1 km
  Length aperture_width{};     ///< 0 to 1 km
  int points_along = 1;        ///< emitter points along the aperture's length, 1 to 100
  int points_across = 1;       ///< and across it, 1 to 100
  /// The aperture shines all over, as behind a diffuser: Gauss-Legendre points, and the edges that the tank's rim casts
  /// are as soft as each point's part of the aperture makes them, right to first order in its size.
  bool shines_all_over = false;
  Power power;                 ///< electrical input, > 0
  double ageing_factor = 1.0;  ///< photon flux in service over photon flux as new, > 0, <= 1
};

/// Position of the aperture's centre. Origin: an inside corner of the tank at the water surface; x runs along the
/// tank's length, y along its width. Luminaires may hang outside the tank's outline.
struct PlacedLuminaire {
  Luminaire luminaire;
  Length x;                ///< within 10 km
  Length y;                ///< within 10 km
  Length mounting_height;  ///< from the water surface up to the aperture, 1 um to 1 km
  Angle heading{};         ///< from the tank's length to the aperture's length, about the vertical
  Angle tilt{};            ///< of the aperture's axis from straight down, 0 to 90 deg; its centre stays in place
  Angle tilt_azimuth{};    ///< to which side the axis tilts: 0 is along the tank's length, 90 deg across it
  double dimming = 1.0;    ///< photon flux over that at full light, > 0, <= 1
};

/// Throws InvalidInput unless every field is in its range.
void require_valid(const Luminaire& luminaire);
void require_valid(const PlacedLuminaire& placed);

/// Photons that a placed luminaire sends out, as new: its photon flux times the dimming.
/// @throws InvalidInput  placed luminaire not valid
PhotonFlux photon_flux(const PlacedLuminaire& placed);

/// Electricity that a placed luminaire takes: its power times the dimming. Drivers take a little more than their share
/// when dimmed; common practice, no source.
/// @throws InvalidInput  placed luminaire not valid
Power electrical_power(const PlacedLuminaire& placed);

/// Photons emitted per joule of electricity, as new.
/// @throws InvalidInput  luminaire not valid
PhotonEfficacy photon_efficacy(const Luminaire& luminaire);

/// True where the apertures of two luminaires, seen from above and not tilted, cover a common spot. Touching edges do
/// not overlap; apertures without length or width overlap nothing.
/// @throws InvalidInput  a placed luminaire is not valid
bool apertures_overlap(const PlacedLuminaire& a, const PlacedLuminaire& b);

/// True when `count` apertures, evenly spaced on the long centre line and all with one heading, do not overlap: the
/// space s between centres satisfies s |cos(heading)| >= aperture length or s |sin(heading)| >= aperture width.
/// One aperture always fits.
bool fits_in_row(const Luminaire& luminaire, int count, const Length& tank_length, const Angle& heading = {});

/// `count` luminaires on the long centre line, equally spaced, half a space at each end.
///
/// @param count        1 to 10000, and no more than fits_in_row allows
/// @param tank_length, tank_width  inside, > 0, at most 10 km
/// @param heading      of every aperture's length; 0 lies along the tank, 90 deg across it
/// @throws InvalidInput
std::vector<PlacedLuminaire> evenly_spaced(const Luminaire& luminaire, int count, const Length& tank_length,
                                           const Length& tank_width, const Length& mounting_height,
                                           const Angle& heading = {});

}  // namespace theca::light
