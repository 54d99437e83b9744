// A map of photon flux density over a plane of a tank, and what is read off it.
#pragma once

#include <vector>

#include "theca/light/waterbody.hpp"
#include "theca/units.hpp"

namespace theca::light {

/// Where on the plane a value was found.
struct MapPlace {
  PhotonFluxDensity value;
  Length x;
  Length y;
};

/// Photon flux density at the centres of nx x ny equal cells of a tank's inside area.
struct PpfdMap {
  int nx = 0;  ///< cells along the tank's length
  int ny = 0;  ///< and across
  Length length;
  Length width;
  Length plane_depth;             ///< below the water surface
  std::vector<double> values;     ///< mol/(m2 s), row-major: values[j * nx + i], i along the length
  Walls walls = Walls::ignored;   ///< how the walls were reckoned with
  double wall_reflectance = 0.0;  ///< used by Walls::mirror

  /// @throws InvalidInput  index outside 0..nx-1, 0..ny-1
  PhotonFluxDensity at(int i, int j) const;
  Length x(int i) const;  ///< of a cell's centre
  Length y(int j) const;
  PhotonFluxDensity mean() const;
  PhotonFluxDensity min() const;
  PhotonFluxDensity max() const;
  MapPlace darkest() const;
  MapPlace brightest() const;
  /// Uniformity: lowest over mean; 0 where the plane is dark.
  double min_over_mean() const;
};

/// The map after ageing or dimming by one factor.
/// @param factor  > 0, <= 1
PpfdMap aged(const PpfdMap& as_new, double factor);

}  // namespace theca::light
