#include "theca/farm/cohort.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "theca/farm/rotation.hpp"
#include "theca/require.hpp"

namespace theca::farm {

namespace {

void require_survival(double survival) {
  require::that(survival > 0.0 && survival <= 1.0, "survival", survival, "> 0 to 1");
}

void require_cohort(const Cohort& cohort) {
  require::that(cohort.fragments >= 0, "fragments", static_cast<double>(cohort.fragments), ">= 0");
  require::finite("time of the cut", cohort.cut);
  require::positive("stay", cohort.stay);
  require_survival(cohort.survival);
}

/// Alive at an age within the stay.
double alive(const Cohort& cohort, const Time& age) {
  return static_cast<double>(cohort.fragments) * std::pow(cohort.survival, si(age) / si(cohort.stay));
}

/// What is due within it happens now, so that a cohort makes room for one that is cut as it leaves, whatever the last
/// digits of the two times say.
constexpr Time moment = from_si<Time>(1e-3);

bool on_rack(const Cohort& cohort, const Time& at) {
  return at >= cohort.cut && at + moment < cohort.cut + cohort.stay;
}

/// Integral over ages within the stay of the slots that a cohort takes.
double slot_seconds(const Cohort& cohort, double from_s, double to_s, LostFragment lost) {
  const double risk = -std::log(cohort.survival) / si(cohort.stay), all = static_cast<double>(cohort.fragments);
  if (lost == LostFragment::keeps_slot || risk == 0.0) return all * (to_s - from_s);
  return all * std::exp(-risk * from_s) * -std::expm1(-risk * (to_s - from_s)) / risk;
}

void require_racks(const RotatingRacks& racks) {
  require::that(!racks.slots.empty(), "tanks", 0, "at least 1");
  for (const long slots : racks.slots)
    require::that(slots >= 0 && slots <= 1000000000L, "slots", static_cast<double>(slots), "0 to 1e9");
  if (racks.fallow != 0) require::positive("interval between moves", racks.interval);
}

/// Stocked slots after each move of one rotation, from the start; a single number where nothing rests.
std::vector<long> stocked_slots_by_move(const RotatingRacks& racks) {
  require_racks(racks);
  if (racks.fallow == 0) return {std::accumulate(racks.slots.begin(), racks.slots.end(), 0L)};
  std::vector<long> stocked;
  for (const RotationStep& step : play_rotation(racks.slots, racks.fallow)) stocked.push_back(step.stocked_slots);
  stocked.pop_back();  // after N moves it is as at the start
  return stocked;
}

/// Moves made until a time, negative before the start.
double moves_until(const RotatingRacks& racks, const Time& at) {
  return std::floor(si(at + moment) / si(racks.interval));
}

long stocked_at(const std::vector<long>& by_move, const RotatingRacks& racks, const Time& at) {
  if (by_move.size() == 1) return by_move.front();
  const double rotation = static_cast<double>(by_move.size());
  const double moves = moves_until(racks, at);
  return by_move[static_cast<std::size_t>(moves - rotation * std::floor(moves / rotation))];
}

}  // namespace

Crop grown_at(const Crop& crop, double factor) {
  require::positive("growth factor", factor);
  Crop changed = crop;
  changed.growth.rate = factor * crop.growth.rate;
  changed.survival = alive_at(crop, cycle_time(changed.growth));
  require_survival(changed.survival);
  return changed;
}

double alive_at(const Crop& crop, const Time& age) {
  require_survival(crop.survival);
  require::not_negative("age", age);
  const Time cycle = cycle_time(crop.growth);
  require::positive("cycle time", cycle);
  return std::pow(crop.survival, si(age) / si(cycle));
}

Area area_at(const Crop& crop, const Time& age) {
  require::not_negative("age", age);
  require::not_negative("healing", crop.growth.healing);
  const Time growing = std::max(age - crop.growth.healing, from_si<Time>(0.0));
  return grown_area(crop.growth.cut_area, crop.growth.rate, growing);
}

Time age_at(const Crop& crop, const Area& size) {
  require::not_negative("healing", crop.growth.healing);
  return crop.growth.healing + growth_time(crop.growth.cut_area, size, crop.growth.rate);
}

Cohort cohort_of(const Crop& crop, long fragments, const Time& cut) {
  const Cohort cohort{crop.species, fragments, cut, cycle_time(crop.growth), crop.survival};
  require_cohort(cohort);
  return cohort;
}

StockBalance stock_balance(std::span<const Cohort> cohorts, const Time& at) {
  require::finite("time", at);
  StockBalance balance;
  for (const Cohort& cohort : cohorts) {
    require_cohort(cohort);
    if (at < cohort.cut) continue;
    const double cut = static_cast<double>(cohort.fragments);
    const bool there = on_rack(cohort, at);
    const double living = there ? alive(cohort, at - cohort.cut) : cohort.survival * cut;
    balance.cut += cut;
    (there ? balance.alive : balance.sold) += living;
    balance.lost += cut - living;
  }
  return balance;
}

double slots_taken(std::span<const Cohort> cohorts, const Time& at, LostFragment lost) {
  require::finite("time", at);
  double sum = 0.0;
  for (const Cohort& cohort : cohorts) {
    require_cohort(cohort);
    if (on_rack(cohort, at))
      sum += lost == LostFragment::keeps_slot ? static_cast<double>(cohort.fragments) : alive(cohort, at - cohort.cut);
  }
  return sum;
}

double mean_slots_taken(std::span<const Cohort> cohorts, const Time& from, const Time& to, LostFragment lost) {
  require::finite("from", from);
  require::that(to > from && std::isfinite(si(to)), "to", to, "after the beginning, " + text(from));
  double sum = 0.0;
  for (const Cohort& cohort : cohorts) {
    require_cohort(cohort);
    const double first = std::max(si(from) - si(cohort.cut), 0.0);
    const double last = std::min(si(to) - si(cohort.cut), si(cohort.stay));
    if (last > first) sum += slot_seconds(cohort, first, last, lost);
  }
  return sum / si(to - from);
}

SlotPeak peak_slots_taken(std::span<const Cohort> cohorts, LostFragment lost) {
  require::that(!cohorts.empty(), "cohorts", 0, "at least 1");
  std::vector<Time> cuts;
  for (const Cohort& cohort : cohorts) cuts.push_back(cohort.cut);
  std::sort(cuts.begin(), cuts.end());
  SlotPeak peak{cuts.front(), -1.0};
  for (const Time& at : cuts)
    if (const double slots = slots_taken(cohorts, at, lost); slots > peak.slots) peak = {at, slots};
  return peak;
}

long slots_available(const RotatingRacks& racks, const Time& at) {
  require::finite("time", at);
  return stocked_at(stocked_slots_by_move(racks), racks, at);
}

SlotUse tightest_slots(std::span<const Cohort> cohorts, const RotatingRacks& racks, const Time& from, const Time& to,
                       LostFragment lost) {
  require::finite("from", from);
  require::that(to > from && std::isfinite(si(to)), "to", to, "after the beginning, " + text(from));
  const std::vector<long> by_move = stocked_slots_by_move(racks);
  std::vector<Time> times{from};
  for (const Cohort& cohort : cohorts)
    if (cohort.cut > from && cohort.cut < to) times.push_back(cohort.cut);
  if (by_move.size() > 1) {
    const double first = moves_until(racks, from) + 1.0, count = si(to - from) / si(racks.interval);
    require::that(count <= 1e5, "interval between moves", racks.interval, "so long that at most 100,000 moves fall in");
    for (double move = first; move * racks.interval < to; move += 1.0) times.push_back(move * racks.interval);
  }
  std::sort(times.begin(), times.end());
  const auto use_at = [&](const Time& at) {
    return SlotUse{at, slots_taken(cohorts, at, lost), stocked_at(by_move, racks, at)};
  };
  const auto surplus = [](const SlotUse& use) { return use.taken - static_cast<double>(use.available); };
  SlotUse tightest = use_at(from);
  for (const Time& at : times)
    if (const SlotUse use = use_at(at); surplus(use) > surplus(tightest)) tightest = use;
  return tightest;
}

}  // namespace theca::farm
