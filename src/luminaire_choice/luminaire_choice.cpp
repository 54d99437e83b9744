#include "theca/light/luminaire_choice.hpp"

#include <algorithm>
#include <cstddef>

#include "dimming_program.hpp"
#include "theca/require.hpp"

namespace theca::light {
namespace {

constexpr double most_candidates = 2000.0;

void require_valid(const ChoiceRules& rules) {
  require::that(rules.least_dimming > 0.0 && rules.least_dimming <= 1.0, "least dimming", rules.least_dimming,
                "> 0 and <= 1");
  require::within("most luminaires", static_cast<double>(rules.most_luminaires), 1.0, 1000.0);
  require::within("most branches", static_cast<double>(rules.most_branches), 1.0, 1e6);
}

void require_same_cells(std::span<const PpfdMap> maps) {
  for (const PpfdMap& map : maps) {
    map.mean();  // refuses a map without cells
    require::that(map.values.size() == maps.front().values.size(), "map of a candidate: number of cells",
                  static_cast<double>(map.values.size()), "that of the first");
  }
}

Power power_of(const Placement& placement) {
  Power sum{};
  for (const PlacedLuminaire& placed : placement.luminaires) sum += electrical_power(placed);
  return sum;
}

}  // namespace

std::vector<PlacedLuminaire> candidate_places(const Luminaire& luminaire, const Length& tank_length,
                                              const Length& tank_width, const Length& mounting_height, int along,
                                              int across, const Angle& heading) {
  require::positive("tank length", tank_length);
  require::positive("tank width", tank_width);
  require::within("places along", static_cast<double>(along), 1.0, 1000.0);
  require::within("places across", static_cast<double>(across), 1.0, 1000.0);
  require::that(along * across <= most_candidates, "places along x across", static_cast<double>(along * across),
                "at most 2000");
  std::vector<PlacedLuminaire> places;
  for (int j = 0; j < across; ++j)
    for (int i = 0; i < along; ++i) {
      places.push_back({.luminaire = luminaire,
                        .x = (i + 0.5) / along * tank_length,
                        .y = (j + 0.5) / across * tank_width,
                        .mounting_height = mounting_height,
                        .heading = heading});
      light::require_valid(places.back());
    }
  return places;
}

std::optional<std::vector<double>> dimming_of_fewest(const PpfdTarget& target,
                                                     std::span<const PlacedLuminaire> candidates,
                                                     std::span<const PpfdMap> full_light, const ChoiceRules& rules) {
  light::require_valid(target);
  require_valid(rules);
  require::within("number of candidates", static_cast<double>(candidates.size()), 1.0, most_candidates);
  require::that(full_light.size() == candidates.size(), "number of maps", static_cast<double>(full_light.size()),
                "one for each candidate");
  require_same_cells(full_light);
  DimmingProgram program(target, rules);
  for (std::size_t k = 0; k < candidates.size(); ++k)
    program.add(full_light[k].values, si(candidates[k].luminaire.power));
  for (std::size_t k = 0; k < candidates.size(); ++k)
    for (std::size_t m = 0; m < k; ++m)
      if (apertures_overlap(candidates[k], candidates[m])) program.exclude(m, k);
  return program.solve();
}

std::optional<Placement> fewest_luminaires(const PpfdTarget& target, std::span<const PlacedLuminaire> candidates,
                                           const LitPlane& plane, const ChoiceRules& rules) {
  require::within("number of candidates", static_cast<double>(candidates.size()), 1.0, most_candidates);
  std::vector<PpfdMap> full_light;
  for (PlacedLuminaire alone : candidates) {
    alone.dimming = 1.0;
    full_light.push_back(map({&alone, 1}, plane.water, plane.depth, plane.nx, plane.ny));
  }
  const auto dimming = dimming_of_fewest(target, candidates, full_light, rules);
  if (!dimming) return std::nullopt;
  Placement placement;
  for (std::size_t k = 0; k < candidates.size(); ++k) {
    if (!((*dimming)[k] > 0.0)) continue;
    placement.luminaires.push_back(candidates[k]);
    placement.luminaires.back().dimming = (*dimming)[k];
  }
  placement.map = map(placement.luminaires, plane.water, plane.depth, plane.nx, plane.ny);
  if (!meets(placement.map, target))
    throw NotConverged("choice of luminaires, whose field misses the target", placement.map.min_over_mean(), 1);
  return placement;
}

std::optional<Placement> fewest_luminaires_at_best_height(const PpfdTarget& target,
                                                          std::span<const PlacedLuminaire> candidates,
                                                          const LitPlane& plane, const std::vector<Length>& heights,
                                                          const ChoiceRules& rules) {
  require::within("number of heights", static_cast<double>(heights.size()), 1.0, 1000.0);
  std::optional<Placement> best;
  ChoiceRules no_more = rules;
  for (const Length& height : heights) {
    std::vector<PlacedLuminaire> at_height(candidates.begin(), candidates.end());
    for (PlacedLuminaire& placed : at_height) placed.mounting_height = height;
    auto found = fewest_luminaires(target, at_height, plane, no_more);
    if (!found) continue;
    const bool better = !best || found->luminaires.size() < best->luminaires.size() ||
                        (found->luminaires.size() == best->luminaires.size() && power_of(*found) < power_of(*best));
    if (!better) continue;
    no_more.most_luminaires = static_cast<int>(found->luminaires.size());
    best = std::move(found);
  }
  return best;
}

}  // namespace theca::light
