// The light field: photon flux density on a horizontal plane under water from all luminaires, as a map.
#pragma once

#include <span>
#include <vector>

#include "theca/light/luminaire.hpp"
#include "theca/units.hpp"

namespace theca::light {

enum class Walls {
  ignored,  ///< plain superposition: the surface is taken as unbounded and no ray meets a wall
  mirror,   ///< only rays that enter through the tank's own surface count; each meeting with a wall under water
            ///< reflects them with the wall reflectance (0: black walls)
  pane      ///< the same rays meet clear panes with air behind: Fresnel at both faces and the way through the pane and
            ///< back. All that came in within about 62 deg of the vertical is totally reflected
};

/// What the walls are made of.
struct ClearPane {
  Length thickness = 12.0 * units::millimetre;  ///< 0 to 1 m
  double refractive_index = 1.52;               ///< soda-lime glass; acrylic 1.49. From the water's to 2
  Attenuation attenuation{};                    ///< absorbed share per length of path, >= 0; clear float about 10/m
};

/// The water that the light enters: a rectangular tank with vertical walls and a flat surface, full to the brim.
struct Waterbody {
  Length length;            ///< inside, along x, > 0, at most 10 km
  Length width;             ///< inside, along y, > 0, at most 10 km
  double refractive_index;  ///< 1 to 2
  Attenuation attenuation;  ///< absorbed share per length of path, >= 0
  Walls walls = Walls::ignored;
  double wall_reflectance = 0.0;  ///< 0 to 1, the same at every angle; used by Walls::mirror
  ClearPane pane{};               ///< all four walls; used by Walls::pane
};
void require_valid(const Waterbody& water);

/// What the light falls on. As it is: a flat sensor that looks straight up.
struct Receiver {
  /// Counts photons from all directions alike (scalar irradiance), as a small sphere does: corals see more than a flat
  /// sensor. Tilt and azimuth play no part then.
  bool spherical = false;
  Angle tilt{};     ///< of a flat sensor's normal from straight up, 0 to 180 deg; 90 deg looks to the side
  Angle azimuth{};  ///< to which it leans: 0 is along the tank's length, 90 deg across; any finite angle
};

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
/// Left out: reflection by bottom, freeboard and hood, shading by racks and stock, waves, scattering.
/// @param plane_depth  below the surface, 0 to 1 km
/// @param x, y         inside the tank's outline
/// @param receiver     by default a flat sensor that looks up
/// @throws InvalidInput  also where a mirrored tank is so deep for its size that more than 10^6 images were needed
PhotonFluxDensity ppfd_at(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                          const Length& plane_depth, const Length& x, const Length& y, const Receiver& receiver = {});

/// The same at the centres of nx x ny cells, as new (no ageing).
/// @param nx, ny  1 to 2000
/// @throws InvalidInput, NotConverged
PpfdMap map(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const Length& plane_depth, int nx,
            int ny, const Receiver& receiver = {});

/// The map after ageing or dimming by one factor.
/// @param factor  > 0, <= 1
PpfdMap aged(const PpfdMap& as_new, double factor);

/// Daily light integral (DLI): photon flux density times photoperiod; the day's dose of photons per area.
/// PPFD in umol/(m2 s) x hours x 0.0036 = mol/m2.
/// @param ppfd         >= 0
/// @param photoperiod  0 to 24 h
/// @throws InvalidInput
PhotonDose daily_light_integral(const PhotonFluxDensity& ppfd, const Time& photoperiod);

}  // namespace theca::light
