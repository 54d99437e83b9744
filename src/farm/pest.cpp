#include "theca/farm/pest.hpp"

#include <algorithm>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <cmath>
#include <numeric>
#include <string>

#include "../root.hpp"
#include "theca/require.hpp"

namespace theca::farm {
namespace {

// Days keep the integrator's numbers near one.
constexpr double day = 86400.0;
constexpr std::size_t steps = pest_steps_per_stage;
constexpr std::size_t values_per_tank = 2 * steps + 1;  // eggs, juveniles, adults

/// A stage as rates per day: of moving on to its next step, and of being lost.
struct StageRates {
  double onward, loss;
  bool left_out() const { return onward == 0.0; }
  /// Share that passes the whole stage, each weighed with exp(-r t) for the time it takes.
  double passing(double r) const {
    return left_out() ? 1.0 : std::pow(onward / (onward + loss + r), static_cast<double>(steps));
  }
};

struct Rates {
  StageRates egg, juvenile;
  double births, adult_loss, adult_loss_hungry;
};

StageRates stage_rates(const PestStage& stage, const Frequency& predation, std::string_view name) {
  const std::string of{name};
  require::not_negative("duration of the " + of + " stage", stage.duration);
  require::not_negative("death rate of the " + of + " stage", stage.death);
  require::not_negative("predation of the " + of + " stage", predation);
  const double duration = si(stage.duration) / day;
  return {duration > 0.0 ? static_cast<double>(steps) / duration : 0.0, (si(stage.death) + si(predation)) * day};
}

Rates rates_of(const PestLife& life, const Predation& predation) {
  require::not_negative("births", life.births);
  require::not_negative("adult death rate", life.adult_death);
  require::not_negative("added death rate without stock", life.adult_death_hungry);
  require::not_negative("predation of adults", predation.adult);
  const double loss = (si(life.adult_death) + si(predation.adult)) * day;
  return {stage_rates(life.egg, predation.egg, "egg"), stage_rates(life.juvenile, predation.juvenile, "juvenile"),
          si(life.births) * day, loss, loss + si(life.adult_death_hungry) * day};
}

using State = std::vector<double>;

/// What is alive in one tank, a view into the state of all.
template <class Number>
struct Tank {
  Number *eggs, *juveniles, *adults;
};
template <class Number>
Tank<Number> tank_in(Number* state, std::size_t tank) {
  Number* begin = state + tank * values_per_tank;
  return {begin, begin + steps, begin + 2 * steps};
}

/// Rates of change along one stage; returns what leaves it for the next.
double pass_through(const StageRates& rates, const double* now, double* change, double entering) {
  if (rates.left_out()) {
    std::fill(change, change + steps, 0.0);
    return entering;
  }
  for (std::size_t i = 0; i < steps; ++i) {
    change[i] = entering - (rates.onward + rates.loss) * now[i];
    entering = rates.onward * now[i];
  }
  return entering;
}

struct Outbreak {
  const Rates& rates;
  const std::vector<double>& most_adults;  ///< that each tank feeds
  double juvenile_transfer, adult_transfer;
  std::vector<bool> stocked;

  void operator()(const State& now, State& change, double /*time*/) const {
    const std::size_t tanks = most_adults.size();
    for (std::size_t i = 0; i < tanks; ++i) {
      const auto at = tank_in(now.data(), i);
      const auto d = tank_in(change.data(), i);
      const double fed = stocked[i] ? std::max(0.0, 1.0 - *at.adults / most_adults[i]) : 0.0;
      const double hatched = pass_through(rates.egg, at.eggs, d.eggs, rates.births * fed * *at.adults);
      const double matured = pass_through(rates.juvenile, at.juveniles, d.juveniles, hatched);
      *d.adults = matured - (stocked[i] ? rates.adult_loss : rates.adult_loss_hungry) * *at.adults;
    }
    for (std::size_t value = steps; value < values_per_tank; ++value) {
      const double transfer = value < 2 * steps ? juvenile_transfer : adult_transfer;
      if (transfer == 0.0) continue;
      double mean = 0.0;
      for (std::size_t i = 0; i < tanks; ++i) mean += now[i * values_per_tank + value];
      mean /= static_cast<double>(tanks);
      for (std::size_t i = 0; i < tanks; ++i)
        change[i * values_per_tank + value] += transfer * (mean - now[i * values_per_tank + value]);
    }
  }
};

/// Moves the stock with its pests and resets the tank that receives it.
void move_stock(State& state, const PestRotation& rotation, std::size_t from, std::size_t to) {
  const auto source = tank_in(state.data(), from), target = tank_in(state.data(), to);
  const auto carry = [&](double& left, double& arriving, double killed) {
    const double moving = left * (1.0 - rotation.left_behind);
    left -= moving;
    arriving = arriving * (1.0 - rotation.killed_by_reset) + moving * (1.0 - killed);
  };
  for (std::size_t i = 0; i < steps; ++i) {
    carry(source.eggs[i], target.eggs[i], rotation.dip.egg);
    carry(source.juveniles[i], target.juveniles[i], rotation.dip.juvenile);
  }
  carry(*source.adults, *target.adults, rotation.dip.adult);
}

void require_rotation(const PestRotation& rotation) {
  require::positive("interval", rotation.interval);
  require::within("share of eggs killed by a dip", rotation.dip.egg, 0.0, 1.0);
  require::within("share of juveniles killed by a dip", rotation.dip.juvenile, 0.0, 1.0);
  require::within("share of adults killed by a dip", rotation.dip.adult, 0.0, 1.0);
  require::within("share left behind", rotation.left_behind, 0.0, 1.0);
  require::within("share killed by a reset", rotation.killed_by_reset, 0.0, 1.0);
}

/// Integrates to a later time, both in days.
void advance(const Outbreak& outbreak, State& state, double from, double to) {
  namespace odeint = boost::numeric::odeint;
  auto stepper = odeint::make_controlled<odeint::runge_kutta_dopri5<State>>(1e-9, 1e-9);
  double time = from, step = std::min(0.05, to - from);
  int tries = 0;
  while (time < to) {
    // the last step ends on `to` itself, not a rounding short of it
    const bool last = to - time <= step;
    if (last) step = to - time;
    const bool accepted = stepper.try_step(outbreak, state, time, step) == odeint::success;
    if (accepted && last) return;
    if (++tries > 1000000) throw NotConverged("course of a pest", to - time, tries);
  }
}

}  // namespace

Frequency pest_growth_rate(const PestLife& life, const Predation& predation) {
  const Rates rates = rates_of(life, predation);
  if (rates.births == 0.0) return from_si<Frequency>(-rates.adult_loss / day);
  const auto excess = [&](double r) {
    return rates.births * rates.egg.passing(r) * rates.juvenile.passing(r) - (r + rates.adult_loss);
  };
  // Below `low` the adults' or a stage's own decay dominates; at `high` and above every stage passes at most all.
  double low = -rates.adult_loss, high = rates.births - rates.adult_loss;
  for (const StageRates& stage : {rates.egg, rates.juvenile}) {
    if (stage.left_out()) continue;
    low = std::max(low, -(stage.onward + stage.loss) * (1.0 - 1e-12));
    high = std::max(high, -stage.loss);
  }
  const auto root =
      theca::detail::root_between("growth rate of a pest", excess, low, high, excess(low), std::min(0.0, excess(high)));
  return from_si<Frequency>(root.at() / day);
}

Frequency life_table_growth_rate(std::span<const AgeClass> table) {
  double before = 0.0, offspring = 0.0;
  for (const AgeClass& row : table) {
    require::positive("age", row.age);
    require::that(si(row.age) > before, "age", row.age, "older than the row before");
    require::within("share surviving", row.surviving, 0.0, 1.0);
    require::not_negative("births", row.births);
    before = si(row.age);
    offspring += row.surviving * row.births;
  }
  require::that(offspring > 0.0, "offspring of one newborn", offspring, "> 0");
  const double generation = si(table.back().age);
  const auto excess = [&](double r) {
    double sum = -1.0;
    for (const AgeClass& row : table) sum += row.surviving * row.births * std::exp(-r * si(row.age) / generation);
    return sum;
  };
  // per oldest age: the root lies between the rates of all births at the youngest and at the oldest
  const double widest = std::abs(std::log(offspring)) * generation / si(table.front().age) + 1.0;
  return from_si<Frequency>(theca::detail::root_between("growth rate of a life table", excess, -widest, widest,
                                                        excess(-widest), excess(widest))
                                .at() /
                            generation);
}

PestCourse pest_course(const PestLife& life, const Predation& predation, const PestTanks& tanks,
                       const std::optional<PestRotation>& rotation, int first, double adults, const Time& duration,
                       const Time& sample) {
  const Rates rates = rates_of(life, predation);
  const std::size_t count = tanks.slots.size();
  require::that(count >= 1 && count <= 100000, "tanks", static_cast<double>(count), "1 to 100,000");
  require::positive("adults per slot", tanks.adults_per_slot);
  require::not_negative("transfer of juveniles", tanks.juvenile_transfer);
  require::not_negative("transfer of adults", tanks.adult_transfer);
  require::not_negative("first adults", adults);
  require::positive("duration", duration);
  require::positive("time between samples", sample);
  require::that(si(duration) / si(sample) <= 1e6, "time between samples", sample,
                "at least a millionth of the duration");
  std::vector<double> most_adults;
  for (const long s : tanks.slots) {
    require::that(s > 0, "slots", static_cast<double>(s), "> 0");
    most_adults.push_back(static_cast<double>(s) * tanks.adults_per_slot);
  }
  Outbreak outbreak{rates, most_adults, si(tanks.juvenile_transfer) * day, si(tanks.adult_transfer) * day,
                    std::vector<bool>(count, true)};
  std::vector<RotationStep> moves;
  if (rotation) {
    require_rotation(*rotation);
    moves = play_rotation(tanks.slots, rotation->fallow);
    for (const int tank : moves.front().fallow) outbreak.stocked[static_cast<std::size_t>(tank)] = false;
  }
  const auto place = static_cast<std::size_t>(first);
  require::that(first >= 0 && place < count && outbreak.stocked[place], "first tank", static_cast<double>(first),
                "a tank of the list that is stocked at the start");

  State state(count * values_per_tank, 0.0);
  *tank_in(state.data(), place).adults = adults;
  PestCourse course{{}, {}, {}, 0.0, 0.0};
  double last_time = 0.0, last_density = 0.0, density_days = 0.0;
  const auto look = [&](double time) {
    double all = 0.0, infested = 0.0, on_stock = 0.0, stocked_slots = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
      const double here = *tank_in(state.data(), i).adults, slots = static_cast<double>(tanks.slots[i]);
      all += here;
      if (here >= 1.0) infested += 1.0;
      if (!outbreak.stocked[i]) continue;
      on_stock += here;
      stocked_slots += slots;
      course.most_adults_per_slot = std::max(course.most_adults_per_slot, here / slots);
    }
    const double density = stocked_slots > 0.0 ? on_stock / stocked_slots : 0.0;
    density_days += 0.5 * (density + last_density) * (time - last_time);
    last_time = time;
    last_density = density;
    course.time.push_back(time * units::day);
    course.adults.push_back(all);
    course.infested_tanks.push_back(infested);
  };

  const double end = si(duration) / day, between = si(sample) / day;
  const double interval = rotation ? si(rotation->interval) / day : 2.0 * end;
  look(0.0);
  double time = 0.0;
  for (long samples = 1, move = 1; time < end;) {
    const double at_sample = std::min(end, static_cast<double>(samples) * between);
    const double at_move = static_cast<double>(move) * interval;
    const double next = std::min(at_sample, at_move);
    if (next > time) advance(outbreak, state, time, next);
    time = next;
    if (time == at_move) {
      // a full rotation is as many moves as there are tanks; then it repeats
      const RotationStep& step = moves[1 + static_cast<std::size_t>(move - 1) % (moves.size() - 1)];
      const auto from = static_cast<std::size_t>(step.moved_from), to = static_cast<std::size_t>(step.moved_to);
      move_stock(state, *rotation, from, to);
      outbreak.stocked[to] = true;
      outbreak.stocked[from] = false;
      ++move;
    }
    if (time == at_sample) {
      look(time);
      ++samples;
    }
  }
  course.mean_adults_per_slot = density_days / end;
  return course;
}

double pest_loss(double adults_per_slot, const Frequency& damage, const Time& cycle_time) {
  require::not_negative("adults per slot", adults_per_slot);
  require::not_negative("damage", damage);
  require::not_negative("cycle time", cycle_time);
  return -std::expm1(-adults_per_slot * si(damage) * si(cycle_time));
}

}  // namespace theca::farm
