#include "theca/thermal/wall.hpp"

#include <algorithm>
#include <cmath>

#include "series.hpp"
#include "theca/air.hpp"
#include "theca/thermal/radiation.hpp"

namespace theca::thermal {

namespace {

void require_layers(const std::vector<Layer>& layers) {
  require::that(!layers.empty(), "layers", 0.0, "at least one layer");
  for (const Layer& layer : layers) {
    require::positive("layer thickness", layer.thickness);
    if (!layer.gap) require::positive("layer conductivity", layer.conductivity);
  }
}

double solid_resistance(const Layer& layer) { return si(layer.thickness) / si(layer.conductivity); }

// Gaps under the reference conditions of EN 673: each takes of the 15 K what its resistance is of all gaps.
double gap_resistance(const std::vector<Layer>& layers) {
  constexpr double mean = 283.0, difference = 15.0;
  std::vector<const Layer*> gaps;
  for (const Layer& layer : layers)
    if (layer.gap) gaps.push_back(&layer);
  if (gaps.empty()) return 0.0;
  std::vector<double> resistance(gaps.size(), 1.0);
  double sum = double(gaps.size());
  constexpr int limit = 200;
  for (int i = 0; i < limit; ++i) {
    double next = 0.0;
    for (std::size_t g = 0; g < gaps.size(); ++g) {
      const double half = 0.5 * difference * resistance[g] / sum;
      resistance[g] = 1.0 / si(gap_conductance(*gaps[g]->gap, gaps[g]->thickness, from_si<Temperature>(mean + half),
                                               from_si<Temperature>(mean - half)));
      next += resistance[g];
    }
    const bool settled = std::abs(next - sum) < 1e-10 * next;
    sum = next;
    if (settled) return sum;
  }
  throw NotConverged("share of the air gaps in a wall", sum, limit);
}

GapHeat direction(Facing facing, double inner, double outer) {
  if (facing == Facing::sideways) return GapHeat::sideways;
  // The outer face looks up: heat that leaves the water goes upwards.
  return (facing == Facing::up) == (inner >= outer) ? GapHeat::upwards : GapHeat::downwards;
}

void require_exposure(const WallExposure& e) {
  require::within("water temperature", e.water, air::lowest_temperature, air::highest_temperature);
  require::within("room temperature", e.room, air::lowest_temperature, air::highest_temperature);
  require::within("surroundings temperature", e.surroundings, air::lowest_temperature, air::highest_temperature);
  if (e.inside_film) require::positive("inside film", *e.inside_film);
  if (e.outside_film) require::positive("outside film", *e.outside_film);
  require::positive("height", e.height);
  require::within("emissivity", e.emissivity, 0.0, 1.0);
  require::not_negative("air speed", e.air_speed);
  require::not_negative("water speed", e.water_speed);
  if (e.facing != Facing::sideways) require::positive("length", e.length);
}

// The inner face of a base looks up into the water, that of a ceiling under water would look down.
Facing inner_facing(Facing outer) {
  if (outer == Facing::sideways) return outer;
  return outer == Facing::down ? Facing::up : Facing::down;
}

Film as_given(const ThermalTransmittance& film) { return {.coefficient = film, .low = film, .high = film}; }

Film outer_film(const WallExposure& e, double face) {
  if (e.outside_film) return as_given(*e.outside_film);
  const auto t = from_si<Temperature>(face);
  return e.facing == Facing::sideways
             ? vertical_film(t, e.room, e.pressure, e.height, e.air_speed)
             : horizontal_film(t, e.room, e.pressure, e.facing, e.height, e.length, e.air_speed);
}

Film inner_film(const WallExposure& e, double face) {
  if (e.inside_film) return as_given(*e.inside_film);
  return water_film(from_si<Temperature>(face), e.water, e.salinity, inner_facing(e.facing), e.height, e.length,
                    e.water_speed);
}

}  // namespace

Layer air_gap(const Length& thickness, const AirGap& faces) { return {.thickness = thickness, .gap = faces}; }

ThermalResistance layer_resistance(const std::vector<Layer>& layers) {
  require_layers(layers);
  double sum = gap_resistance(layers);
  for (const Layer& layer : layers)
    if (!layer.gap) sum += solid_resistance(layer);
  return from_si<ThermalResistance>(sum);
}

ThermalTransmittance transmittance(const std::vector<Layer>& layers, const FixedFilms& films) {
  require::positive("inside film", films.inside);
  require::positive("outside film", films.outside);
  return from_si<ThermalTransmittance>(
      kernel::transmittance(si(films.inside), si(layer_resistance(layers)), si(films.outside)));
}

ThermalTransmittance pane_only_conductance(const std::vector<Layer>& layers) { return 1.0 / layer_resistance(layers); }

WallHeat wall_heat(const std::vector<Layer>& layers, const WallExposure& exposure) {
  require_layers(layers);
  require_exposure(exposure);
  // A film as given holds radiation already: the outer face then looks at nothing but the room's air.
  const double water = si(exposure.water), room = si(exposure.room);
  const double around = exposure.outside_film ? room : si(exposure.surroundings);
  const double emissivity = exposure.outside_film ? 0.0 : exposure.emissivity;

  const auto gap = [&](const Layer& layer, double inner, double outer) {
    return si(gap_conductance(*layer.gap, layer.thickness, from_si<Temperature>(inner), from_si<Temperature>(outer),
                              direction(exposure.facing, inner, outer), exposure.pressure));
  };
  std::vector<detail::Link> links;
  links.push_back([&](double bulk, double face) { return si(inner_film(exposure, face).coefficient) * (bulk - face); });
  for (const Layer& layer : layers) {
    if (layer.gap)
      links.push_back([&](double inner, double outer) { return gap(layer, inner, outer) * (inner - outer); });
    else
      links.push_back([r = solid_resistance(layer)](double inner, double outer) { return (inner - outer) / r; });
  }
  links.push_back([&](double face, double air) {
    return si(outer_film(exposure, face).coefficient) * (face - air) + kernel::radiative_flux(face, around, emissivity);
  });
  const detail::SeriesHeat solved =
      detail::solve_series("surface temperatures of a wall", links, water, room, std::min({water, room, around}),
                           std::max({water, room, around}));

  WallHeat result;
  const double inner_face = solved.surfaces.front(), outer_face = solved.surfaces.back();
  const Film inside = inner_film(exposure, inner_face), outside = outer_film(exposure, outer_face);
  const double h_r = kernel::radiative_film(outer_face, around, emissivity);
  double resistance = 0.0;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    result.faces.push_back(from_si<Temperature>(solved.surfaces[i]));
    resistance +=
        layers[i].gap ? 1.0 / gap(layers[i], solved.surfaces[i], solved.surfaces[i + 1]) : solid_resistance(layers[i]);
  }
  result.faces.push_back(from_si<Temperature>(outer_face));
  const auto transmitted = [&](const ThermalTransmittance& h_i, const ThermalTransmittance& h_c) {
    return kernel::transmittance(si(h_i), resistance, si(h_c) + h_r);
  };
  const double u = transmitted(inside.coefficient, outside.coefficient);
  result.flux = from_si<HeatFlux>(solved.flux);
  const double weakest = solved.flux * transmitted(inside.low, outside.low) / u;
  const double strongest = solved.flux * transmitted(inside.high, outside.high) / u;
  result.flux_low = from_si<HeatFlux>(std::min(weakest, strongest));
  result.flux_high = from_si<HeatFlux>(std::max(weakest, strongest));
  result.convection = from_si<HeatFlux>(si(outside.coefficient) * (outer_face - room));
  result.radiation = from_si<HeatFlux>(h_r * (outer_face - around));
  result.inside_surface = result.faces.front();
  result.outside_surface = result.faces.back();
  result.inside_film = inside.coefficient;
  result.convective_film = outside.coefficient;
  result.radiative_film = from_si<ThermalTransmittance>(h_r);
  result.resistance = from_si<ThermalResistance>(resistance);
  result.U = from_si<ThermalTransmittance>(u);
  result.iterations = solved.iterations;
  result.residual = from_si<HeatFlux>(solved.residual);
  return result;
}

}  // namespace theca::thermal
