#include "theca/thermal/wall.hpp"

#include <algorithm>
#include <cmath>

#include "theca/air.hpp"
#include "theca/thermal/film.hpp"

namespace theca::thermal {

ThermalResistance layer_resistance(const std::vector<Layer>& layers) {
  require::that(!layers.empty(), "layers", 0.0, "at least one layer");
  double sum = 0.0;
  for (const Layer& layer : layers) {
    require::positive("layer thickness", layer.thickness);
    require::positive("layer conductivity", layer.conductivity);
    sum += si(layer.thickness) / si(layer.conductivity);
  }
  return from_si<ThermalResistance>(sum);
}

ThermalTransmittance transmittance(const std::vector<Layer>& layers, const FixedFilms& films) {
  require::positive("inside film", films.inside);
  require::positive("outside film", films.outside);
  return from_si<ThermalTransmittance>(
      kernel::transmittance(si(films.inside), si(layer_resistance(layers)), si(films.outside)));
}

ThermalTransmittance pane_only_conductance(const std::vector<Layer>& layers) { return 1.0 / layer_resistance(layers); }

WallComparison compare_walls(const std::vector<Layer>& first, const std::vector<Layer>& second,
                             const FixedFilms& films) {
  WallComparison c;
  c.first = transmittance(first, films);
  c.second = transmittance(second, films);
  c.first_pane_only = pane_only_conductance(first);
  c.second_pane_only = pane_only_conductance(second);
  c.ratio = si(c.first) / si(c.second);
  c.pane_only_ratio = si(c.first_pane_only) / si(c.second_pane_only);
  return c;
}

WallHeat wall_heat(const std::vector<Layer>& layers, const WallExposure& exposure) {
  require::within("water temperature", exposure.water, air::lowest_temperature, air::highest_temperature);
  require::within("room temperature", exposure.room, air::lowest_temperature, air::highest_temperature);
  require::within("surroundings temperature", exposure.surroundings, air::lowest_temperature, air::highest_temperature);
  require::positive("inside film", exposure.inside_film);
  require::within("emissivity", exposure.emissivity, 0.0, 1.0);
  const double resistance = si(layer_resistance(layers));

  const double water = si(exposure.water), room = si(exposure.room), around = si(exposure.surroundings);
  const double inner = 1.0 / (1.0 / si(exposure.inside_film) + resistance);  // water to outer face, W/m2/K
  const auto convective_film = [&](double face) {
    return si(vertical_film(from_si<Temperature>(face), exposure.room, exposure.pressure, exposure.height).coefficient);
  };
  const auto imbalance = [&](double face) {
    return inner * (water - face) - convective_film(face) * (face - room) -
           kernel::radiative_flux(face, around, exposure.emissivity);
  };

  // The imbalance falls with the face temperature throughout, and has its sign change between the coldest and the
  // warmest of the three temperatures that pull at the face.
  double low = std::min({water, room, around}), high = std::max({water, room, around});
  double face = 0.5 * (low + high);
  double residual = imbalance(face);
  const double tolerance = 1e-10 * inner;  // W/m2: the face within 1e-10 K
  constexpr int limit = 100;
  constexpr double probe = 1e-4;  // K
  int iterations = 0;
  while (std::abs(residual) > tolerance) {
    if (++iterations > limit) throw NotConverged("outer surface temperature of a wall", residual, limit);
    (residual > 0.0 ? low : high) = face;
    const double slope = (imbalance(face + probe) - residual) / probe;
    const double newton = face - residual / slope;
    face = slope < 0.0 && newton > low && newton < high ? newton : 0.5 * (low + high);
    residual = imbalance(face);
  }

  WallHeat result;
  const double h_c = convective_film(face);
  const double h_r = kernel::radiative_film(face, around, exposure.emissivity);
  const double flux = inner * (water - face);
  result.flux = from_si<HeatFlux>(flux);
  result.convection = from_si<HeatFlux>(h_c * (face - room));
  result.radiation = from_si<HeatFlux>(h_r * (face - around));
  result.outside_surface = from_si<Temperature>(face);
  result.inside_surface = from_si<Temperature>(water - flux / si(exposure.inside_film));
  result.convective_film = from_si<ThermalTransmittance>(h_c);
  result.radiative_film = from_si<ThermalTransmittance>(h_r);
  result.U = from_si<ThermalTransmittance>(kernel::transmittance(si(exposure.inside_film), resistance, h_c + h_r));
  result.iterations = iterations;
  result.residual = from_si<HeatFlux>(residual);
  return result;
}

}  // namespace theca::thermal
