#include "theca/farm/year_summary.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "theca/require.hpp"
#include "year_plan.hpp"

namespace theca::farm {

namespace {

using namespace detail;

template <class Book>
void add(Book& sum, const Book& book) {
  sum.start += book.start;
  sum.added += book.added;
  sum.renewed_in += book.renewed_in;
  sum.renewed_out += book.renewed_out;
  sum.overflowed += book.overflowed;
  sum.used += book.used;
  sum.now += book.now;
}

void add_clock(FailureBook& sum, const FailureClock& clock, double now) {
  const double down = si(clock.down) + (clock.failed ? now - si(clock.since) : 0.0);
  sum.failures += clock.failures;
  sum.down += from_si<Time>(down);
  sum.in_order += from_si<Time>(now - down);
}

}  // namespace

YearSummary summary(const YearState& state, int first, int last) {
  const int systems = static_cast<int>(state.systems.size());
  if (last == -1) last = state.first + systems;
  require::that(first == 0 || first >= state.first, "first system", first, "one of the state");
  first = std::max(first, state.first);
  require::that(last >= first && last <= state.first + systems, "last system", last,
                "from the first to those there are");

  YearSummary sum;
  sum.days = state.day;
  sum.systems = last - first;
  sum.lowest = celsius(std::numeric_limits<double>::infinity());
  sum.highest = celsius(-std::numeric_limits<double>::infinity());
  for (std::size_t kind = 0; kind < failure_kinds; ++kind)
    sum.failures.push_back({.kind = static_cast<YearFailure>(kind)});
  for (std::size_t kind = 0; kind < alarm_kinds; ++kind) sum.alarms.push_back({.kind = static_cast<YearAlarm>(kind)});
  const double now = state.day * day_s;
  double degree_days = 0.0;
  for (int s = first; s < last; ++s) {
    const YearSystem& y = state.systems[static_cast<std::size_t>(s - state.first)];
    add(sum.water, y.water);
    add(sum.salt, y.salt);
    add(sum.alkalinity, y.alkalinity);
    add(sum.calcium, y.calcium);
    sum.heated += y.heated;
    sum.chilled += y.chilled;
    sum.lit += y.lit;
    for (const YearTank& tank : y.tanks) {
      ++sum.tanks;
      sum.stock.start += tank.start;
      sum.stock.cut += tank.cut;
      sum.stock.dead += tank.dead;
      sum.stock.sold += tank.sold;
      sum.stock.no_room += tank.no_room;
      sum.stock.slot_days += tank.slot_days;
      for (const YearCohort& c : tank.cohorts) {
        sum.stock.alive += c.alive;
        sum.stock.live_area += static_cast<double>(c.alive) * c.area;
      }
      sum.lowest = std::min(sum.lowest, tank.lowest);
      sum.highest = std::max(sum.highest, tank.highest);
      degree_days += tank.degree_days;
      sum.cold += tank.cold;
      sum.warm += tank.warm;
      sum.pest_adults += tank.pest_adults;
    }
    for (std::size_t kind = 0; kind < failure_kinds; ++kind)
      if (kind != index_of(YearFailure::power_cut)) add_clock(sum.failures[kind], y.clocks[kind], now);
    for (std::size_t kind = 0; kind < alarm_kinds; ++kind) {
      AlarmSum& alarm = sum.alarms[kind];
      const AlarmBook& book = y.alarms[kind];
      alarm.raised += book.raised;
      alarm.days += book.days;
      alarm.systems += book.raised > 0 ? 1 : 0;
      if (book.first_day >= 0 && (alarm.first_day < 0 || book.first_day < alarm.first_day))
        alarm.first_day = book.first_day;
    }
  }
  add_clock(sum.failures[index_of(YearFailure::power_cut)], state.power, now);
  // Nothing was seen yet, or there is nothing to see.
  if (sum.tanks == 0) sum.lowest = sum.highest = celsius(0.0);
  sum.mean = sum.tanks == 0 || state.day == 0 ? sum.lowest : celsius(degree_days / sum.tanks / state.day);
  return sum;
}

}  // namespace theca::farm
