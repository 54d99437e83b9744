#include "theca/light/map_measures.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "theca/require.hpp"

namespace theca::light {

PhotonFluxDensity percentile(const PpfdMap& map, double share) {
  require::within("share of the plane", share, 0.0, 1.0);
  map.mean();  // refuses a map without cells
  std::vector<double> sorted = map.values;
  std::sort(sorted.begin(), sorted.end());
  const double place = share * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return from_si<PhotonFluxDensity>(sorted[below] +
                                    (place - static_cast<double>(below)) * (sorted[above] - sorted[below]));
}

double coefficient_of_variation(const PpfdMap& map) {
  const double mean = si(map.mean());
  if (!(mean > 0.0)) return 0.0;
  double squares = 0.0;
  for (const double value : map.values) squares += (value - mean) * (value - mean);
  return std::sqrt(squares / static_cast<double>(map.values.size())) / mean;
}

double share_within(const PpfdMap& map, const PhotonFluxDensity& least, const PhotonFluxDensity& most) {
  map.mean();
  require::not_negative("least", least);
  require::that(most >= least && std::isfinite(si(most)), "most", most, "at least " + text(least));
  const auto inside = std::count_if(map.values.begin(), map.values.end(),
                                    [&](double value) { return value >= si(least) && value <= si(most); });
  return static_cast<double>(inside) / static_cast<double>(map.values.size());
}

PhotonFlux photons_on_plane(const PpfdMap& map) { return map.mean() * map.length * map.width; }

double utilance(const PpfdMap& map, std::span<const PlacedLuminaire> luminaires) {
  require::that(!luminaires.empty(), "number of luminaires", 0.0, "at least 1");
  PhotonFlux sent{};
  for (const PlacedLuminaire& placed : luminaires) sent += photon_flux(placed);
  return si(photons_on_plane(map) / sent);
}

PhotonEfficacy delivered_efficacy(const PpfdMap& map, std::span<const PlacedLuminaire> luminaires) {
  require::that(!luminaires.empty(), "number of luminaires", 0.0, "at least 1");
  Power power{};
  for (const PlacedLuminaire& placed : luminaires) power += electrical_power(placed);
  return photons_on_plane(map) / power;
}

LightHeat light_heat(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                     const PhotonEfficacy& photons_per_energy, int nx, int ny) {
  require::positive("photons per energy", photons_per_energy);
  LightHeat heat{};
  heat.entering = photons_on_plane(map(luminaires, water, Length(), nx, ny));
  heat.to_water = heat.entering / photons_per_energy;
  Power electricity{};
  for (const PlacedLuminaire& placed : luminaires) electricity += electrical_power(placed);
  require::that(heat.to_water <= electricity, "photons per energy", photons_per_energy,
                "so many that the light that enters, " + text(heat.to_water) + ", is less than the electricity, " +
                    text(electricity));
  heat.to_room = electricity - heat.to_water;
  return heat;
}

PhotonDose daily_light_integral(const PhotonFluxDensity& ppfd, const Time& photoperiod, const Time& dawn,
                                const Time& dusk) {
  const PhotonDose full = daily_light_integral(ppfd, photoperiod);
  require::not_negative("dawn", dawn);
  require::not_negative("dusk", dusk);
  require::that(dawn + dusk <= photoperiod, "dawn and dusk", dawn + dusk, "at most the photoperiod");
  return full - 0.5 * ppfd * (dawn + dusk);
}

}  // namespace theca::light
