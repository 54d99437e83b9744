// Starts a year and runs it on, systems shared out to threads.
#include "theca/farm/year_state.hpp"

#include <algorithm>
#include <exception>
#include <thread>

#include "theca/require.hpp"
#include "year_day.hpp"

namespace theca::farm {

namespace {

using namespace detail;
using thermal::detail::BatchDay;
using thermal::detail::BatchMidnight;
using thermal::detail::BatchRunner;
using thermal::detail::FaultChange;
using thermal::detail::Faults;

template <class Book, class Amount>
void open_book(Book& book, const Amount& amount) {
  book.start = book.now = amount;
}

YearSystem start_system(const YearPlan& plan, std::size_t index, int seed) {
  const PlannedUpkeep& upkeep = plan.systems[index];
  YearSystem system;
  const double volume = upkeep.full / upkeep.fresh_per_volume;
  open_book(system.water, from_si<Mass>(upkeep.full));
  open_book(system.salt, from_si<Mass>(upkeep.full * upkeep.salt_per_fresh));
  open_book(system.alkalinity, from_si<AmountOfSubstance>(volume * upkeep.alkalinity));
  open_book(system.calcium, from_si<AmountOfSubstance>(volume * upkeep.calcium));
  const thermal::detail::PlannedSystem& heat = plan.heat->systems[index];
  system.tanks.resize(upkeep.tanks.size());
  for (std::size_t i = 0; i < upkeep.tanks.size(); ++i) {
    YearTank& tank = system.tanks[i];
    tank.stocked = i >= upkeep.fallow;
    if (!tank.stocked) {
      system.fallow.push_back(static_cast<int>(i));
      continue;
    }
    for (std::size_t place = 0; place < upkeep.tanks[i].cohorts; ++place) {
      tank.cohorts.push_back(cohort_at(plan, upkeep.tanks[i], place));
      tank.start += tank.cohorts.back().alive;
    }
  }
  for (std::size_t kind = 0; kind < failure_kinds; ++kind)
    system.clocks.push_back(wound_clock(kind == index_of(YearFailure::power_cut) ? 0.0 : plan.failures[kind].rate, seed,
                                        stream_of(index, kind)));
  system.arrivals = wound_clock(si(plan.pest.arrivals), seed, stream_of(index, arrivals_purpose));
  system.alarms.resize(alarm_kinds);
  for (std::size_t body = heat.first; body <= heat.sump; ++body) system.temperature.push_back(plan.heat->start[body]);
  for (std::size_t k = 0; k < upkeep.tank_of_body.size(); ++k) {
    YearTank& tank = system.tanks[upkeep.tank_of_body[k]];
    tank.lowest = tank.highest = celsius(system.temperature[k]);
  }
  system.temperature_rate.assign(system.temperature.size(), 0.0);
  return system;
}

/// Runs a range of systems on one thread; neither asks what other ranges do.
class RangeRun {
 public:
  RangeRun(const YearPlan& plan, YearState& state, std::size_t first, std::size_t last)
      : plan_(plan),
        state_(state),
        first_(first),
        last_(last),
        offset_(static_cast<std::size_t>(state.first)),
        power_(state.power),
        runner_(plan.heat, first, last, plan.heater_cutout),
        told_(last - first),
        failed_(last - first) {}

  void run(int days) {
    BatchMidnight from;
    for (std::size_t s = first_; s < last_; ++s) {
      const YearSystem& y = system(s);
      from.temperature.insert(from.temperature.end(), y.temperature.begin(), y.temperature.end());
      from.rate.insert(from.rate.end(), y.temperature_rate.begin(), y.temperature_rate.end());
      from.heater_on.push_back(static_cast<char>(y.heater_on));
      from.chiller_on.push_back(static_cast<char>(y.chiller_on));
    }
    runner_.take_up(from);
    for (int day = state_.day; day < state_.day + days; ++day) run_day(day);
    const BatchMidnight to = runner_.midnight();
    std::size_t body = 0;
    for (std::size_t s = first_; s < last_; ++s) {
      YearSystem& y = system(s);
      for (std::size_t i = 0; i < y.temperature.size(); ++i, ++body) {
        y.temperature[i] = to.temperature[body];
        y.temperature_rate[i] = to.rate[body];
      }
      y.heater_on = to.heater_on[s - first_] != 0;
      y.chiller_on = to.chiller_on[s - first_] != 0;
    }
  }

  const FailureClock& power() const { return power_; }

 private:
  struct Event {
    long step;
    unsigned bit;
    bool failed;
  };

  YearSystem& system(std::size_t s) { return state_.systems[s - offset_]; }

  void run_day(int day) {
    const double begin = day * day_s, end = begin + day_s;
    const auto step_at = [&](double time) { return std::lround((time - begin) / plan_.heat->step); };
    const unsigned power_before = power_.failed ? bit_of(YearFailure::power_cut) : 0;
    cuts_.clear();
    run_clock(power_, plan_.failures[index_of(YearFailure::power_cut)], state_.seed, power_stream, end,
              [&](double time, bool failed) {
                cuts_.push_back({step_at(time), bit_of(YearFailure::power_cut), failed});
              });
    changes_.clear();
    for (std::size_t s = first_; s < last_; ++s) {
      YearSystem& y = system(s);
      at_midnight(plan_, plan_.systems[s], day, y);
      unsigned failed = power_before;
      events_ = cuts_;
      for (std::size_t kind = 0; kind < failure_kinds; ++kind) {
        FailureClock& clock = y.clocks[kind];
        const unsigned bit = 1U << kind;
        failed |= clock.failed ? bit : 0U;
        run_clock(clock, plan_.failures[kind], state_.seed, stream_of(s, kind), end, [&](double time, bool now_failed) {
          events_.push_back({step_at(time), bit, now_failed});
        });
      }
      std::stable_sort(events_.begin(), events_.end(), [](const Event& a, const Event& b) { return a.step < b.step; });
      std::vector<OutOfOrder>& list = failed_[s - first_];
      list.assign(1, {0, failed});
      for (const Event& e : events_) {
        failed = e.failed ? failed | e.bit : failed & ~e.bit;
        if (list.back().step == e.step)
          list.back().failed = failed;
        else if (e.step < std::lround(day_s / plan_.heat->step))
          list.push_back({e.step, failed});
      }
      for (const OutOfOrder& o : list) {
        const Faults faults = faults_of(o.failed, y.dry);
        if (faults == told_[s - first_]) continue;
        told_[s - first_] = faults;
        changes_.push_back({s, o.step, faults});
      }
    }

    const BatchDay& heat = runner_.run(day, changes_);
    for (std::size_t s = first_; s < last_; ++s) {
      YearSystem& y = system(s);
      const PlannedUpkeep& upkeep = plan_.systems[s];
      const thermal::detail::PlannedSystem& planned = plan_.heat->systems[s];
      const std::size_t i = s - first_, first = planned.first - runner_.first_body();
      heat_.light_time = heat.light_time[i];
      y.heated += from_si<Energy>(planned.heater * heat.heater_time[i]);
      y.chilled += from_si<Energy>(planned.chiller * heat.chiller_time[i]);
      for (std::vector<double>* v : {&heat_.lowest, &heat_.highest, &heat_.area, &heat_.cold, &heat_.warm})
        v->resize(upkeep.tanks.size());
      heat_.vapour = heat.vapour[planned.sump - runner_.first_body()];
      for (std::size_t k = 0; k < upkeep.tank_of_body.size(); ++k) {
        const std::size_t body = first + k, tank = upkeep.tank_of_body[k];
        heat_.vapour += heat.vapour[body];
        heat_.lowest[tank] = heat.lowest[body];
        heat_.highest[tank] = heat.highest[body];
        heat_.area[tank] = heat.area[body];
        heat_.cold[tank] = heat.cold[body];
        heat_.warm[tank] = heat.warm[body];
      }
      through_day(plan_, upkeep, s, state_.seed, day, failed_[i], heat_, y);
    }
  }

  static Faults faults_of(unsigned failed, bool dry) {
    const auto is = [failed](YearFailure kind) { return (failed & bit_of(kind)) != 0; };
    if (is(YearFailure::power_cut)) return {.no_power = true};
    return {.heater_off = is(YearFailure::heater_off),
            .heater_stuck_on = is(YearFailure::heater_stuck_on),
            .chiller_off = is(YearFailure::chiller_off),
            .pump_off = dry || is(YearFailure::pump_off)};
  }

  const YearPlan& plan_;
  YearState& state_;
  std::size_t first_, last_, offset_;
  FailureClock power_;
  BatchRunner runner_;
  std::vector<Faults> told_;                     // to the runner, last
  std::vector<std::vector<OutOfOrder>> failed_;  // of the day
  std::vector<FaultChange> changes_;
  std::vector<Event> cuts_, events_;
  SystemHeat heat_;
};

void require_prepared(const PreparedYear& year) {
  require::that(year.plan != nullptr, "year", 0.0, "one that `prepare_year` has returned");
}

}  // namespace

YearState start_year(const PreparedYear& year, int seed, int first, int last) {
  require_prepared(year);
  if (last == -1) last = year.systems;
  require::that(seed >= 0, "seed", seed, ">= 0");
  require::that(first >= 0 && first <= year.systems, "first system", first, "0 to " + std::to_string(year.systems));
  require::that(last >= first && last <= year.systems, "last system", last,
                "from the first to " + std::to_string(year.systems));
  YearState state{.day = 0, .first = first, .seed = seed};
  state.power = wound_clock(year.plan->failures[index_of(YearFailure::power_cut)].rate, seed, power_stream);
  for (int s = first; s < last; ++s)
    state.systems.push_back(start_system(*year.plan, static_cast<std::size_t>(s), seed));
  return state;
}

YearState advance(const PreparedYear& year, YearState state, int days, int threads) {
  require_prepared(year);
  require::that(threads >= 1 && threads <= 1024, "threads", threads, "1 to 1024");
  require::that(
      days >= 0 && state.day >= 0 && state.day <= year.days && days <= year.days - state.day, "days", days,
      "0 to those left of the farm's " + std::to_string(year.days) + ", " + std::to_string(year.days - state.day));
  const std::size_t first = static_cast<std::size_t>(state.first), count = state.systems.size();
  require::that(state.first >= 0 && first + count <= year.plan->systems.size(), "systems of the state",
                static_cast<double>(count), "no more than those of the farm");
  for (std::size_t s = 0; s < count; ++s) {
    const YearSystem& y = state.systems[s];
    const PlannedUpkeep& upkeep = year.plan->systems[first + s];
    require::that(y.tanks.size() == upkeep.tanks.size() && y.fallow.size() == upkeep.fallow &&
                      y.temperature.size() == upkeep.tanks.size() + 1 &&
                      y.temperature_rate.size() == y.temperature.size() && y.clocks.size() == failure_kinds &&
                      y.alarms.size() == alarm_kinds,
                  "system of the state", static_cast<double>(s), "one of this farm");
    for (const int tank : y.fallow)
      require::that(tank >= 0 && static_cast<std::size_t>(tank) < y.tanks.size(), "fallow tank", tank,
                    "one of the system");
  }
  if (days == 0 || count == 0) {
    state.day += days;
    return state;
  }
  const std::size_t parts = std::min(static_cast<std::size_t>(threads), count);
  std::vector<std::exception_ptr> failures(parts);
  std::vector<FailureClock> power(parts);
  const auto run = [&](std::size_t part) {
    try {
      RangeRun range(*year.plan, state, first + count * part / parts, first + count * (part + 1) / parts);
      range.run(days);
      power[part] = range.power();
    } catch (...) {
      failures[part] = std::current_exception();
    }
  };
  std::vector<std::thread> others;
  for (std::size_t part = 1; part < parts; ++part) others.emplace_back(run, part);
  run(0);
  for (std::thread& other : others) other.join();
  for (const std::exception_ptr& failure : failures)
    if (failure) std::rethrow_exception(failure);
  state.power = power.front();
  state.day += days;
  return state;
}

}  // namespace theca::farm
