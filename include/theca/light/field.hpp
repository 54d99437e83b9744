// The light field: photon flux density on a horizontal plane under water from all luminaires, as a map.
#pragma once

#include <span>

#include "theca/light/luminaire.hpp"
#include "theca/light/ppfd_map.hpp"
#include "theca/light/waterbody.hpp"
#include "theca/units.hpp"

namespace theca::light {

/// What the light falls on. As it is: a flat sensor that looks straight up.
struct Receiver {
  /// Counts photons from all directions alike (scalar irradiance), as a small sphere does: corals see more than a flat
  /// sensor. Tilt and azimuth play no part then.
  bool spherical = false;
  Angle tilt{};     ///< of a flat sensor's normal from straight up, 0 to 180 deg; 90 deg looks to the side
  Angle azimuth{};  ///< to which it leans: 0 is along the tank's length, 90 deg across; any finite angle
};

/// Photon flux density at one point.
///
/// Sum over the luminaires and their emitter points of irradiance_from_point. With Walls::mirror the paths are unfolded
/// at the walls: a receiver's images stand at 2 m length +- x, 2 n width +- y; a path counts where it enters the water
/// inside the tank's outline, times the wall reflectance for each wall it meets. With Walls::pane a meeting splits:
/// some light turns at the inner face, the rest passes the pane and back one or more times, which moves it sideways;
/// light that passes more often than once for each meeting and once besides is kept, but not moved further.
/// Polarisation is taken as lost between meetings. Under water no path leans further than the critical angle, so that
/// the images in reach are finite in number and all of them are summed.
///
/// With Walls::each, or with freeboard, braces, cover or a ruffled surface, each path is solved through all that it
/// passes: strips of wall above the water mirror what comes from inside and let through what comes from outside where
/// they are clear; what is thrown to and fro between water and cover is followed twice; a ruffled surface is a set of
/// small facets whose slopes are normally distributed (25 of them are solved for, none shades another).
///
/// Left out: reflection by bottom and hood, shading by racks and stock, scattering; light that comes in through the
/// sides below the waterline or the upper edges of panes; light from the water that cover or braces throw back down.
/// @param plane_depth  below the surface, 0 to 1 km
/// @param x, y         inside the tank's outline
/// @param receiver     by default a flat sensor that looks up
/// @throws InvalidInput  also where a mirrored tank is so deep for its size that more than 10^6 images were needed
PhotonFluxDensity ppfd_at(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                          const Length& plane_depth, const Length& x, const Length& y, const Receiver& receiver = {});

/// The same at the centres of nx x ny cells, as new (no ageing). Larger maps take each path between cubics through
/// solved ones, within 1e-7, and the share that panes return between tabulated ones, within 1e-5.
/// @param nx, ny  1 to 2000
/// @throws InvalidInput, NotConverged
PpfdMap map(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const Length& plane_depth, int nx,
            int ny, const Receiver& receiver = {});

/// Daily light integral (DLI): photon flux density times photoperiod; the day's dose of photons per area.
/// PPFD in umol/(m2 s) x hours x 0.0036 = mol/m2.
/// @param ppfd         >= 0
/// @param photoperiod  0 to 24 h
/// @throws InvalidInput
PhotonDose daily_light_integral(const PhotonFluxDensity& ppfd, const Time& photoperiod);

}  // namespace theca::light
