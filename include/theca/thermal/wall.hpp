// Heat through the wall, base or window of a tank: layers, films on both sides, surface temperatures by iteration.
#pragma once

#include <optional>
#include <vector>

#include "theca/require.hpp"
#include "theca/seawater/range.hpp"
#include "theca/thermal/air_gap.hpp"
#include "theca/thermal/film.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// One layer of a wall: a solid (glass, acrylic, insulation, wood), or a closed gap of air.
struct Layer {
  Length thickness{};                        ///< > 0
  ThermalConductivity conductivity{};        ///< > 0; of a gap it is not asked
  std::optional<AirGap> gap = std::nullopt;  ///< given: air between two faces
};

/// A closed gap of air as a layer.
Layer air_gap(const Length& thickness, const AirGap& faces = {});

/// Films taken as given on both sides, for hand calculation and for comparison.
struct FixedFilms {
  ThermalTransmittance inside{};   ///< water to wall
  ThermalTransmittance outside{};  ///< wall to room, convection and radiation together
};

namespace kernel {
/// U = 1 / (1/h_i + R + 1/h_o), W/m2/K.  @source resistances in series
template <class T>
T transmittance(const T& inside_film_W_m2K, const T& wall_resistance_m2K_W, const T& outside_film_W_m2K) {
  return T(1.0) / (T(1.0) / inside_film_W_m2K + wall_resistance_m2K_W + T(1.0) / outside_film_W_m2K);
}
}  // namespace kernel

/// Resistance of the layers alone: sum of t/k, and of gaps under the reference conditions of EN 673, upright, at a mean
/// of 283 K with 15 K over all gaps together.
/// @throws InvalidInput  no layers, or a thickness, conductivity or emissivity out of range; NotConverged
/// @source resistances in series; EN 673:2011, 5.3 and 7
ThermalResistance layer_resistance(const std::vector<Layer>& layers);

/// U value with films taken as given.
/// @throws InvalidInput  bad layer, or a film not positive
ThermalTransmittance transmittance(const std::vector<Layer>& layers, const FixedFilms& films);

/// k/t of the bare pane, its films left out. It overstates the loss of a glass wall many times over and makes the
/// material look decisive: the films, not the pane, hold most of the heat back. Only for comparison.
/// @throws InvalidInput  bad layer
ThermalTransmittance pane_only_conductance(const std::vector<Layer>& layers);

/// What a wall or base of a tank stands between. A window fits too: the room's air in the place of the water, with its
/// inside film as given, and the outside in the place of the room.
struct WallExposure {
  Temperature water{};
  /// Water to wall. Given: used as it is, > 0. Not given: found from `water_speed` and buoyancy (water_film).
  std::optional<ThermalTransmittance> inside_film = std::nullopt;
  /// Wall to room, convection and radiation together towards the room's air. Given: used as it is, > 0, and the
  /// surroundings are not asked. Not given: found from the outer face's temperature.
  std::optional<ThermalTransmittance> outside_film = std::nullopt;
  Temperature room{};          ///< air
  Temperature surroundings{};  ///< mean radiant temperature of what the outer face looks at
  AbsolutePressure pressure = standard_atmosphere;
  Length height{};          ///< of a wall; of a base one of its sides; > 0
  double emissivity = 0.9;  ///< outer face, 0 to 1; about 0.9 for glass and plastics (common practice, no source)
  Facing facing = Facing::sideways;                        ///< of the outer face: sideways for a wall, down for a base
  Length length{};                                         ///< other side of a base, > 0; of a wall it is not asked
  Velocity air_speed{};                                    ///< along the outer face, >= 0
  Velocity water_speed{};                                  ///< along the inner face, >= 0; 0: still water
  AbsoluteSalinity salinity = AbsoluteSalinity(35.16504);  ///< of the water, for a film that is found
};

/// Heat through a wall and where the temperatures settled.
struct WallHeat {
  HeatFlux flux{};  ///< out of the water positive
  HeatFlux flux_low{},
      flux_high{};        ///< with the films' low and high ends at the temperatures found; low <= flux <= high
  HeatFlux convection{};  ///< part that leaves the outer face by convection
  HeatFlux radiation{};   ///< part that leaves it by long-wave radiation
  Temperature inside_surface{}, outside_surface{};
  std::vector<Temperature> faces;      ///< of every layer, from the water outwards: one more than there are layers
  ThermalTransmittance inside_film{};  ///< as given or as found
  ThermalTransmittance convective_film{}, radiative_film{};  ///< at the outer face, as found
  ThermalResistance resistance{};                            ///< of all layers, gaps at the temperatures found
  ThermalTransmittance U{};  ///< 1/(1/h_i + R + 1/(h_c + h_r)), towards the film-weighted mean of air and surroundings
  int iterations = 0;
  HeatFlux residual{};  ///< largest difference of flux in and flux out at any surface
};

/// Steady heat through a wall between tank water and room; every surface temperature is an unknown: the outer film
/// follows the outer face, the inner film the inner face, each gap its two faces, and radiation leaves to surroundings
/// at their own temperature in fourth powers.
///
/// Newton's method on all surface temperatures at once, until the last step is under 1e-10 K.
/// @throws InvalidInput   bad layer or exposure, also an inner film asked for at a face outside 0 to 40 degC;
///                        OutOfValidity  from a film; NotConverged
WallHeat wall_heat(const std::vector<Layer>& layers, const WallExposure& exposure);

}  // namespace theca::thermal
