// Which of many candidate places get a luminaire, and how far each is dimmed: the fewest that meet a target. Library
// theca::luminaire_choice; needs the mixed-integer solver COIN-OR Cbc.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "theca/light/placement.hpp"
#include "theca/units.hpp"

namespace theca::light {

struct ChoiceRules {
  double least_dimming = 0.1;  ///< of a luminaire that is lit, > 0, <= 1; 1 where luminaires cannot be dimmed
  int most_luminaires = 1000;  ///< 1 to 1000
  /// Branches of the search before it gives up, 1 to 10^6.
  int most_branches = 20000;
};

/// Places on an even grid over a tank, half a space from its walls, all with one height and heading.
///
/// @param along, across  number of places along and across the tank, 1 to 1000 each, at most 2000 in all; apertures may
///                       overlap, of those that do one at most is chosen
/// @throws InvalidInput
std::vector<PlacedLuminaire> candidate_places(const Luminaire& luminaire, const Length& tank_length,
                                              const Length& tank_width, const Length& mounting_height, int along,
                                              int across, const Angle& heading = {});

/// The dimming of every candidate, 0 for those not chosen: the fewest that meet the target, and with their places the
/// dimming that takes the least power. Nothing where no choice meets the target.
///
/// Light adds up, so that mean, brightest place and evenness (min >= share x mean) are linear in the dimming: a
/// mixed-integer linear program, of which only the cells that matter are written out.
/// @param candidates  1 to 2000; their own dimming is not looked at
/// @param full_light  the map of each candidate alone at full light, all on the same cells; from map() in any of its
///                    forms, e.g. of several bands
/// @throws InvalidInput
/// @throws NotConverged  the search passed rules.most_branches
/// @source branch and bound over the simplex method: COIN-OR Cbc and Clp
std::optional<std::vector<double>> dimming_of_fewest(const PpfdTarget& target,
                                                     std::span<const PlacedLuminaire> candidates,
                                                     std::span<const PpfdMap> full_light,
                                                     const ChoiceRules& rules = {});

/// The fewest of the candidates that meet the target (as new), dimmed to the least power. The map is that of the full
/// model with the luminaires chosen, and it meets the target.
/// @returns nothing when no choice of these candidates meets the target
/// @throws InvalidInput, NotConverged
std::optional<Placement> fewest_luminaires(const PpfdTarget& target, std::span<const PlacedLuminaire> candidates,
                                           const LitPlane& plane, const ChoiceRules& rules = {});

/// The same with the mounting height left open: of all heights the one with the fewest luminaires, among those the one
/// with the least power.
/// @param heights  tried one by one, 1 to 1000; every candidate is hung at each
/// @throws InvalidInput, NotConverged
std::optional<Placement> fewest_luminaires_at_best_height(const PpfdTarget& target,
                                                          std::span<const PlacedLuminaire> candidates,
                                                          const LitPlane& plane, const std::vector<Length>& heights,
                                                          const ChoiceRules& rules = {});

}  // namespace theca::light
