// The inverse of the light field: how high to hang a row of luminaires, and how few of them will do.
#pragma once

#include <optional>
#include <vector>

#include "theca/light/field.hpp"
#include "theca/light/luminaire.hpp"
#include "theca/units.hpp"

namespace theca::light {

/// What the stock asks of the light on its plane.
struct PpfdTarget {
  PhotonFluxDensity lower_mean;  ///< >= 0
  PhotonFluxDensity upper_mean;  ///< >= lower_mean
  PhotonFluxDensity highest;     ///< at any place, >= lower_mean
  double min_over_mean = 0.0;    ///< 0 to 1
};
void require_valid(const PpfdTarget& target);

/// True when mean, maximum and uniformity of the map all lie within the target.
bool meets(const PpfdMap& map, const PpfdTarget& target);

/// The plane to be lit and the cells it is judged on.
struct LitPlane {
  Waterbody water;
  Length depth;  ///< below the surface
  int nx = 24;   ///< cells along the tank's length
  int ny = 8;    ///< and across
};

/// The mounting height at which `count` evenly spaced luminaires give a mean PPFD (as new).
///
/// The mean falls as luminaires over the tank are raised, as long as they hang higher than a cell is wide.
/// @param lowest, highest  mounting heights to search between, 1 um to 1 km
/// @param heading          of every aperture's length; 0 lies along the tank, 90 deg across it
/// @throws InvalidInput   when no height between lowest and highest gives the target; the message has the means at both
/// @throws NotConverged
Length mounting_height_for(const PhotonFluxDensity& target_mean, const Luminaire& luminaire, int count,
                           const LitPlane& plane, const Length& lowest, const Length& highest,
                           const Angle& heading = {});

struct Placement {
  std::vector<PlacedLuminaire> luminaires;
  PpfdMap map;  ///< as new
};

/// The fewest evenly spaced luminaires that meet the target at a mounting height (as new).
/// Counts whose apertures would overlap (fits_in_row) are not tried.
/// @param most     largest count to try, 1 to 1000
/// @param heading  of every aperture's length; 0 lies along the tank, 90 deg across it
/// @returns nothing when no count up to `most` meets the target
/// @throws InvalidInput, NotConverged
std::optional<Placement> fewest_luminaires(const PpfdTarget& target, const Luminaire& luminaire, const LitPlane& plane,
                                           const Length& mounting_height, int most, const Angle& heading = {});

}  // namespace theca::light
