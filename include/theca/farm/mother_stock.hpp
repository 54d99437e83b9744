// Mother stock: colonies kept to be cut, how often each can give, and how many a plan needs.
#pragma once

#include <span>

#include "theca/farm/cohort.hpp"
#include "theca/units.hpp"

namespace theca::farm {

/// How mother colonies are cut: each grows to one area and is cut back to another.
struct MotherColony {
  Area before_cut;           ///< grown to
  Area after_cut;            ///< left standing, below `before_cut`
  Frequency rate;            ///< specific growth rate, as Growth
  Time healing{};            ///< without growth, after each cut
  double tissue_lost = 0.0;  ///< share of what is cut off that makes no fragment: saw kerf, crumbs; 0 to below 1
};

/// Time from one cut of a colony to its next: healing + ln(before/after)/rate.
/// @throws InvalidInput  areas not positive, `after_cut` not below `before_cut`, rate not positive, healing negative,
///                       tissue lost outside 0 to below 1
Time mother_cut_interval(const MotherColony& mother);

/// Whole fragments that one cut of a colony gives.
/// @param cut_area  of a fresh fragment, > 0
/// @throws InvalidInput  as above; a cut that gives not one fragment
long fragments_per_mother_cut(const MotherColony& mother, const Area& cut_area);

/// Colonies that a steady rate of cutting keeps busy: cuts x interval / fragments per cut; not rounded.
/// @param cuts  fragments cut per time, >= 0
/// @source balance in the steady state (Little 1961, Operations Research 9:383)
double mothers_for(const Frequency& cuts, const MotherColony& mother, const Area& cut_area);

/// Colonies needed for a list of cuts of one crop, when a colony that was cut rests for its whole interval before the
/// next cut. Each cut takes whole colonies; no fewer can do it and that many can. Cohorts of other species are not
/// counted.
/// @throws InvalidInput  as above, as peak_slots_taken
long mothers_for_cuts(std::span<const Cohort> cuts, const Crop& crop, const MotherColony& mother);

/// A farm without mother colonies: part of the crop is not sold but cut again.
struct SelfSupply {
  long fragments_each = 0;  ///< from one fragment of sale size
  double kept_back = 0.0;   ///< share of the grown fragments that is cut again
  Frequency cuts;           ///< fragments cut per time
  double slots = 0.0;       ///< taken on average, the slots of lost fragments kept
};
/// Steady state of a farm that lives from its own crop: cuts x survival = sold + cuts / fragments_each.
/// @param sold         fragments sold per time, >= 0
/// @param tissue_lost  as in MotherColony
/// @throws InvalidInput  as grown_at; a crop that cannot keep itself up, survival x fragments each <= 1
/// @source balance in the steady state; tests play it generation by generation
SelfSupply self_supply(const Crop& crop, const Frequency& sold, double tissue_lost = 0.0);

}  // namespace theca::farm
