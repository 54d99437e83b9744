#include "theca/farm/cutting_plan.hpp"

#include <algorithm>
#include <cmath>

#include "theca/require.hpp"

namespace theca::farm {

namespace {

void require_growth_factor(double factor) {
  require::that(factor >= 1.0 && std::isfinite(factor), "growth factor", factor, "1 or more");
}

const Crop& crop_of(const std::string& species, std::span<const Crop> crops) {
  const Crop* found = nullptr;
  for (const Crop& crop : crops) {
    if (crop.species != species) continue;
    if (found) throw InvalidInput("crops", "'" + species + "' twice", "each species once");
    found = &crop;
  }
  if (!found) throw InvalidInput("species of an order", "'" + species + "'", "the species of a crop");
  return *found;
}

void require_order(const Order& order) {
  require::that(order.fragments >= 1 && order.fragments <= 1000000000L, "fragments of an order",
                static_cast<double>(order.fragments), "1 to 1e9");
  require::finite("due date", order.due);
}

/// The cohort that fills an order when it is cut as late as growth allows, on a cutting day.
Cohort latest_cohort(const Order& order, const Crop& crop, const Time& cutting_interval) {
  require_order(order);
  Time cut = order.due - age_at(crop, order.size);
  // A date that is a cutting day in the grower's unit must not fall to the day before by the last digit.
  if (si(cutting_interval) > 0.0) cut = std::floor(si(cut) / si(cutting_interval) + 1e-9) * cutting_interval;
  const Time stay = order.due - cut;
  require::positive("stay", stay);
  const double survival = alive_at(crop, stay);
  require::positive("survival to the due date", survival);
  const double cut_fragments = std::ceil(static_cast<double>(order.fragments) / survival * (1.0 - 1e-12));
  require::that(cut_fragments < 1e15, "survival to the due date", survival, "enough to fill the order");
  return {order.species, static_cast<long>(cut_fragments), cut, stay, survival};
}

}  // namespace

SteadyPlan steady_plan(const Crop& crop, const Frequency& sold, LostFragment lost) {
  require::not_negative("fragments sold", sold);
  // One fragment's stay, averaged over its own cycle, is the mean stay.
  const Cohort one = cohort_of(crop, 1, from_si<Time>(0.0));
  SteadyPlan plan;
  plan.cycle = one.stay;
  plan.cuts = sold / crop.survival;
  plan.losses = plan.cuts - sold;
  const double share = mean_slots_taken(std::span(&one, 1), one.cut, one.cut + one.stay, lost);
  plan.slots = plan.cuts * (share * one.stay);
  return plan;
}

SteadyPlanRange steady_plan_range(const Crop& crop, const Frequency& sold, double growth_factor, LostFragment lost) {
  require_growth_factor(growth_factor);
  return {steady_plan(grown_at(crop, 1.0 / growth_factor), sold, lost), steady_plan(crop, sold, lost),
          steady_plan(grown_at(crop, growth_factor), sold, lost)};
}

std::vector<Cohort> steady_cuts(const Crop& crop, const Frequency& sold, const Time& interval, const Time& from,
                                const Time& to) {
  const SteadyPlan plan = steady_plan(crop, sold);
  require::positive("interval between cuts", interval);
  require::finite("from", from);
  require::that(to > from && std::isfinite(si(to)), "to", to, "after the beginning, " + text(from));
  require::that(si(to - from) / si(interval) <= 1e5, "interval between cuts", interval,
                "so long that at most 100,000 cuts fall in");
  const double each = plan.cuts * interval;
  require::that(each < 1e9, "fragments of a cut", each, "< 1e9");
  std::vector<Cohort> cuts;
  for (double k = 0.0; from + k * interval < to; k += 1.0)
    cuts.push_back(cohort_of(crop, std::lround((k + 1.0) * each) - std::lround(k * each), from + k * interval));
  return cuts;
}

std::vector<OrderCut> order_cuts(std::span<const Order> orders, std::span<const Crop> crops,
                                 const Time& cutting_interval) {
  require::not_negative("cutting interval", cutting_interval);
  std::vector<OrderCut> cuts;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    const Cohort cohort = latest_cohort(orders[i], crop_of(orders[i].species, crops), cutting_interval);
    cuts.push_back({i, cohort, cohort.cut < from_si<Time>(0.0)});
  }
  std::stable_sort(cuts.begin(), cuts.end(),
                   [](const OrderCut& a, const OrderCut& b) { return a.cohort.cut < b.cohort.cut; });
  return cuts;
}

std::vector<Cohort> cohorts_in_time(std::span<const OrderCut> cuts) {
  std::vector<Cohort> cohorts;
  for (const OrderCut& cut : cuts)
    if (!cut.too_late) cohorts.push_back(cut.cohort);
  return cohorts;
}

std::vector<OrderRange> order_ranges(std::span<const Order> orders, std::span<const Crop> crops, double growth_factor) {
  require_growth_factor(growth_factor);
  const Time any_date = from_si<Time>(0.0);
  std::vector<OrderRange> ranges;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    const Crop& crop = crop_of(orders[i].species, crops);
    const Crop slow = grown_at(crop, 1.0 / growth_factor), fast = grown_at(crop, growth_factor);
    const Cohort central = latest_cohort(orders[i], crop, any_date);
    const Cohort slow_cohort = latest_cohort(orders[i], slow, any_date);
    const Cohort fast_cohort = latest_cohort(orders[i], fast, any_date);
    OrderRange range;
    range.order = i;
    range.slow = slow_cohort.cut;
    range.central = central.cut;
    range.fast = fast_cohort.cut;
    range.slow_cut = slow_cohort.fragments;
    range.fast_cut = fast_cohort.fragments;
    range.size_if_slow = area_at(slow, central.stay);
    range.size_if_fast = area_at(fast, central.stay);
    ranges.push_back(range);
  }
  return ranges;
}

}  // namespace theca::farm
