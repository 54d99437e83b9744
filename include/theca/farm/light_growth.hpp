// How photosynthesis, calcification and growth follow light.
#pragma once

#include <cmath>
#include <vector>

#include "theca/require.hpp"
#include "theca/units.hpp"

namespace theca::farm {

namespace kernel {
/// P/Pmax = tanh(E/Ek); unchecked.
template <class T>
T light_saturation(T ppfd, T onset) {
  using std::tanh;
  return tanh(ppfd / onset);
}
}  // namespace kernel

/// Share of the greatest photosynthesis that a light brings. Inhibition by too much light is not in it.
/// @param ppfd   photosynthetic photon flux density at the colony, >= 0
/// @param onset  Ek, where saturation sets in, > 0; 150 to 400 umol m-2 s-1 for corals of shallow water (from memory)
/// @throws InvalidInput
/// @source Jassby & Platt 1976, Limnol. Oceanogr. 21:540: the hyperbolic tangent fits best of eight forms
inline double light_saturation(const PhotonFluxDensity& ppfd, const PhotonFluxDensity& onset) {
  require::not_negative("PPFD", ppfd);
  require::positive("onset of saturation", onset);
  return kernel::light_saturation(si(ppfd), si(onset));
}

/// A part of the day at one light.
struct LightHours {
  PhotonFluxDensity ppfd;
  Time duration;
};
/// Mean saturation over a day: each part of the day by its light, the rest dark. A ramp is a list of short parts.
/// @throws InvalidInput  as above; durations that sum to more than a day
inline double daily_saturation(const std::vector<LightHours>& day, const PhotonFluxDensity& onset) {
  double sum = 0.0;
  Time lit{};
  for (const LightHours& part : day) {
    require::not_negative("hours of light", part.duration);
    lit += part.duration;
    sum += light_saturation(part.ppfd, onset) * si(part.duration / (1.0 * units::day));
  }
  require::that(lit <= 1.000001 * (1.0 * units::day), "hours of light", lit, "at most a day in all");
  return sum;
}

/// Growth at another light, in proportion to the day's photosynthesis.
/// @param measured  growth rate that was measured under the day `at`
/// @param onset     as light_saturation
/// @valid  food, flow and colony vary it by a factor of two more: a way to compare lights, not to forecast. Plain
///         proportion is common practice, no source.
/// @throws InvalidInput  as above; no light in the day of the measurement
inline Frequency growth_rate_under(const Frequency& measured, const std::vector<LightHours>& at,
                                   const std::vector<LightHours>& under, const PhotonFluxDensity& onset) {
  require::not_negative("measured growth rate", measured);
  const double known = daily_saturation(at, onset);
  require::positive("saturation of the day of the measurement", known);
  return measured * (daily_saturation(under, onset) / known);
}

/// Calcification of a day over that of a day of full light, from the rates in light and dark.
/// @param light_over_dark  rate in saturating light over rate in the dark, >= 1; 2.6 (Moya et al. 2006, Stylophora
///                         pistillata)
/// @throws InvalidInput
/// @source dark rate plus a part that follows photosynthesis; Moya et al. 2006, Coral Reefs 25:625
inline double relative_calcification(const std::vector<LightHours>& day, const PhotonFluxDensity& onset,
                                     double light_over_dark = 2.6) {
  require::that(light_over_dark >= 1.0 && std::isfinite(light_over_dark), "calcification in light over dark",
                light_over_dark, ">= 1");
  return (1.0 + (light_over_dark - 1.0) * daily_saturation(day, onset)) / light_over_dark;
}

}  // namespace theca::farm
