// Long-wave radiation between grey surfaces, in fourth powers of the temperature: no linearised coefficient inside.
#pragma once

#include <vector>

#include "theca/require.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

namespace kernel {

/// W/(m2 K4).  @source 2019 SI: exact value 5.670374419...e-8 from the defining constants, CODATA 2018
inline constexpr double stefan_boltzmann = 5.670374419e-8;

/// Heat flux from a grey surface to black surroundings that enclose it.  @source Stefan-Boltzmann law
template <class T>
T radiative_flux(const T& surface_K, const T& surroundings_K, const T& emissivity) {
  const T a = surface_K * surface_K;
  const T b = surroundings_K * surroundings_K;
  return emissivity * T(stefan_boltzmann) * (a - b) * (a + b);
}

/// The same flux per kelvin; for equal temperatures 4 epsilon sigma T^3.
template <class T>
T radiative_film(const T& surface_K, const T& surroundings_K, const T& emissivity) {
  return emissivity * T(stefan_boltzmann) * (surface_K + surroundings_K) *
         (surface_K * surface_K + surroundings_K * surroundings_K);
}

/// Emissivity that two parallel grey faces have towards one another together; 0 where either is a mirror.
/// @source two infinite grey parallel plates, 1/(1/e1 + 1/e2 - 1), any textbook of heat transfer
template <class T>
T exchange_emissivity(const T& one, const T& other) {
  return one * other > T(0.0) ? T(1.0) / (T(1.0) / one + T(1.0) / other - T(1.0)) : T(0.0);
}

}  // namespace kernel

/// Net long-wave heat flux from a surface to surroundings of one temperature that enclose it.
/// @param emissivity  of the surface, 0 to 1
/// @throws InvalidInput  a temperature not positive or not finite, emissivity outside 0 to 1
HeatFlux radiative_flux(const Temperature& surface, const Temperature& surroundings, double emissivity);

/// Long-wave film coefficient, W/m2/K: the flux above over the temperature difference, defined also where that is zero.
/// It is linear in name only: it holds for these two temperatures and no others.
/// @throws as above
ThermalTransmittance radiative_film(const Temperature& surface, const Temperature& surroundings, double emissivity);

/// A part of what a surface sees.
struct SeenSurface {
  double view = 0.0;  ///< view factor, 0 to 1: share of the surface's outlook that this part fills
  Temperature temperature{};
};

/// The one temperature of surroundings that draws as much radiation as several at their own: fourth-power mean by view
/// factor. Ceiling, cold window and neighbour tank may so stand in one figure.
/// @param seen  at least one, view factors adding up to 1 within 1e-6
/// @throws InvalidInput  a view factor outside 0 to 1, a sum that is not 1, a temperature not positive
/// @source black surroundings, Stefan-Boltzmann law
Temperature mean_radiant_temperature(const std::vector<SeenSurface>& seen);

}  // namespace theca::thermal
