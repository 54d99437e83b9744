// Heat through a tank wall: layers, films on both sides, surface temperatures found by iteration.
#pragma once

#include <vector>

#include "theca/require.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// One solid layer of a wall.
struct Layer {
  Length thickness;                  ///< > 0
  ThermalConductivity conductivity;  ///< > 0
};

/// Films taken as given on both sides, for hand calculation and for comparison.
struct FixedFilms {
  ThermalTransmittance inside;   ///< water to wall
  ThermalTransmittance outside;  ///< wall to room, convection and radiation together
};

namespace kernel {
/// U = 1 / (1/h_i + R + 1/h_o), W/m2/K.  @source resistances in series
template <class T>
T transmittance(const T& inside_film_W_m2K, const T& wall_resistance_m2K_W, const T& outside_film_W_m2K) {
  return T(1.0) / (T(1.0) / inside_film_W_m2K + wall_resistance_m2K_W + T(1.0) / outside_film_W_m2K);
}
}  // namespace kernel

/// Resistance of the layers alone, sum of t/k.
/// @throws InvalidInput  no layers, or a thickness or conductivity not positive
ThermalResistance layer_resistance(const std::vector<Layer>& layers);

/// U value with films taken as given.
/// @throws InvalidInput  bad layer, or a film not positive
ThermalTransmittance transmittance(const std::vector<Layer>& layers, const FixedFilms& films);

/// k/t of the bare pane, its films left out. It overstates the loss of a glass wall many times over and makes the
/// material look decisive: the films, not the pane, hold most of the heat back. Only for comparison.
/// @throws InvalidInput  bad layer
ThermalTransmittance pane_only_conductance(const std::vector<Layer>& layers);

/// Two walls side by side, with films and as bare panes.
struct WallComparison {
  ThermalTransmittance first, second;                      ///< U values with films
  ThermalTransmittance first_pane_only, second_pane_only;  ///< k/t
  double ratio = 0.0;            ///< first / second with films: what the choice of material is worth
  double pane_only_ratio = 0.0;  ///< first / second without films: what it seems to be worth
};
/// @throws InvalidInput  bad layer or film
WallComparison compare_walls(const std::vector<Layer>& first, const std::vector<Layer>& second,
                             const FixedFilms& films);

/// What a vertical wall stands between.
struct WallExposure {
  Temperature water;
  ThermalTransmittance inside_film;  ///< water to wall, > 0
  Temperature room;                  ///< air
  Temperature surroundings;          ///< mean temperature of the room's surfaces that the wall faces
  AbsolutePressure pressure = standard_atmosphere;
  Length height;            ///< of the wall, > 0
  double emissivity = 0.9;  ///< outer face, 0 to 1; about 0.9 for glass and plastics (common practice, no source)
};

/// Heat through a wall and where the temperatures settled.
struct WallHeat {
  HeatFlux flux;        ///< out of the water positive
  HeatFlux convection;  ///< part that leaves the outer face by convection
  HeatFlux radiation;   ///< part that leaves it by long-wave radiation
  Temperature inside_surface, outside_surface;
  ThermalTransmittance convective_film, radiative_film;  ///< at the outer face, as found
  ThermalTransmittance U;  ///< 1/(1/h_i + R + 1/(h_c + h_r)), towards the film-weighted mean of air and surroundings
  int iterations = 0;
  HeatFlux residual;  ///< flux in less flux out at the outer face
};

/// Steady heat through a vertical wall; the outer film follows the outer surface temperature (natural convection,
/// Churchill & Chu 1975) with radiation to surroundings at their own temperature beside it.
///
/// One unknown, the outer surface temperature, by Newton's method kept inside the bracket spanned by water, air and
/// surroundings; the imbalance falls as it rises, so that the root is the only one.
/// @throws InvalidInput   bad layer or exposure; OutOfValidity from the film; NotConverged
WallHeat wall_heat(const std::vector<Layer>& layers, const WallExposure& exposure);

}  // namespace theca::thermal
