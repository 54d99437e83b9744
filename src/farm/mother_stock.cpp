#include "theca/farm/mother_stock.hpp"

#include <cmath>
#include <vector>

#include "theca/require.hpp"

namespace theca::farm {

namespace {

void require_lost(double tissue_lost) {
  require::that(tissue_lost >= 0.0 && tissue_lost < 1.0, "tissue lost", tissue_lost, "0 to below 1");
}

/// Whole fragments out of an area. One that is whole in the grower's unit must not be lost to the last digit.
double whole_fragments(const Area& tissue, double tissue_lost, const Area& cut_area) {
  require::positive("cut area", cut_area);
  const double fragments = std::floor((1.0 - tissue_lost) * (tissue / cut_area) * (1.0 + 1e-12));
  require::that(fragments < 1e9, "cut area", cut_area, "large enough that a colony gives fewer than a billion");
  return fragments;
}

}  // namespace

Time mother_cut_interval(const MotherColony& mother) {
  require::positive("area after the cut", mother.after_cut);
  require::that(mother.before_cut > mother.after_cut && std::isfinite(si(mother.before_cut)), "area before the cut",
                mother.before_cut, "above the area after it, " + text(mother.after_cut));
  require::not_negative("healing", mother.healing);
  require_lost(mother.tissue_lost);
  return mother.healing + growth_time(mother.after_cut, mother.before_cut, mother.rate);
}

long fragments_per_mother_cut(const MotherColony& mother, const Area& cut_area) {
  mother_cut_interval(mother);  // refuses an impossible colony
  const double fragments = whole_fragments(mother.before_cut - mother.after_cut, mother.tissue_lost, cut_area);
  require::that(fragments >= 1.0, "cut area", cut_area, "at most what one cut of a colony takes off");
  return static_cast<long>(fragments);
}

double mothers_for(const Frequency& cuts, const MotherColony& mother, const Area& cut_area) {
  require::not_negative("cuts", cuts);
  return cuts * mother_cut_interval(mother) / static_cast<double>(fragments_per_mother_cut(mother, cut_area));
}

long mothers_for_cuts(std::span<const Cohort> cuts, const Crop& crop, const MotherColony& mother) {
  const long each = fragments_per_mother_cut(mother, crop.growth.cut_area);
  const Time interval = mother_cut_interval(mother);
  // A colony that rests takes a place among the resting ones as a fragment takes a slot.
  std::vector<Cohort> resting;
  for (const Cohort& cut : cuts) {
    if (cut.species != crop.species) continue;
    require::that(cut.fragments >= 0, "fragments", static_cast<double>(cut.fragments), ">= 0");
    resting.push_back({cut.species, (cut.fragments + each - 1) / each, cut.cut, interval, 1.0});
  }
  return resting.empty() ? 0 : std::lround(peak_slots_taken(resting).slots);
}

SelfSupply self_supply(const Crop& crop, const Frequency& sold, double tissue_lost) {
  require::not_negative("fragments sold", sold);
  require_lost(tissue_lost);
  const Cohort cohort = cohort_of(crop, 0, from_si<Time>(0.0));  // refuses an impossible crop
  SelfSupply supply;
  supply.fragments_each = static_cast<long>(whole_fragments(crop.growth.sale_area, tissue_lost, crop.growth.cut_area));
  const double offspring = crop.survival * static_cast<double>(supply.fragments_each);
  require::that(offspring > 1.0, "living offspring of a fragment", offspring,
                "> 1: otherwise the crop does not keep itself up, whatever is kept back");
  supply.kept_back = 1.0 / offspring;
  supply.cuts = sold / (crop.survival * (1.0 - supply.kept_back));
  supply.slots = supply.cuts * cohort.stay;
  return supply;
}

}  // namespace theca::farm
