#include "batch_run.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

#include "batch_loops.hpp"
#include "theca/require.hpp"

namespace theca::thermal::detail {

namespace {

constexpr double day = 86400.0;
// Steps of a block: what its curves take stays in the second cache while system after system goes through it.
constexpr long block_steps = 144;
constexpr double window_margin = 1.5;  // K about the water's temperatures at the start of a block

// Neumaier 1974: a year of small parts keeps its last digits.
struct Sum {
  double value = 0.0, rest = 0.0;
  void add(double x) {
    const double next = value + x;
    rest += std::abs(value) >= std::abs(x) ? (value - next) + x : (x - next) + value;
    value = next;
  }
  double total() const { return value + rest; }
};

// The curves of one type of tank in one room at the steps of a block, for water from `low` to `high`.
struct CurveBlock {
  bool used = false;
  double low = 0.0, high = 0.0;
  PieceGrid grid;
  std::vector<double> neutral;
  std::vector<LossPiece> pieces;
  LossCurve at(long node) const {
    return {neutral[std::size_t(node)], pieces.data() + std::size_t(node) * std::size_t(grid.count)};
  }
};

// What a block adds to the summary of a body.
struct BlockSums {
  std::vector<double> lowest, highest, area, cold, warm, lost, vapour;
  void reset(const std::vector<double>& now) {
    lowest = highest = now;
    for (std::vector<double>* v : {&area, &cold, &warm, &lost, &vapour}) v->assign(now.size(), 0.0);
  }
};

// Time within a step of length `h` that a straight line from a to b spends above a limit.
double time_above(double limit, double a, double b, double h) {
  const double low = std::min(a, b), high = std::max(a, b);
  if (low >= limit) return h;
  if (high <= limit) return 0.0;
  return h * (high - limit) / (high - low);
}

// Heater and chiller of a system, and what they and the sump did since a block began.
struct Devices {
  bool heater_on = false, chiller_on = false;
  double heater_time = 0.0, chiller_time = 0.0;
  int heater_starts = 0, chiller_starts = 0;
  double sump_lowest = 0.0, sump_highest = 0.0, sump_area = 0.0;
};

// One system: its state, and the scratch of a step.
class SystemRun {
 public:
  SystemRun(const BatchPlan& plan, const PlannedSystem& system)
      : plan_(plan), system_(system), course_(system.modes), bodies_(system.sump + 1 - system.first) {
    const auto first = std::ptrdiff_t(system.first), last = std::ptrdiff_t(system.sump + 1);
    state.temperature.assign(plan.start.begin() + first, plan.start.begin() + last);
    state.rate.assign(bodies_, 0.0);
    capacity_.assign(plan.capacity.begin() + first, plan.capacity.begin() + last);
    light_.assign(plan.light.begin() + first, plan.light.begin() + last);
    for (const double c : capacity_) inverse_capacity_.push_back(1.0 / c);
    for (std::vector<double>* v :
         {&start_loss_, &end_loss_, &vapour_, &heat_, &change_, &foreseen_, &next_, &one_, &other_})
      v->resize(bodies_);
    for (std::vector<double>* v : {&mean_, &next_mean_, &part_heat_, &part_slope_}) v->resize(system.groups.size());
    decays(plan.step, whole_step_);
  }

  /// Carried from step to step; degC, K/s.
  struct State {
    std::vector<double> temperature, rate;
    Devices devices;
  };
  State state;

  // Summary of a block.
  BlockSums sums;
  double light_time = 0.0;
  bool left = false;  ///< water has left the window of its curve

  /// Bodies whose temperature after every step is kept, and what was in this block.
  std::vector<std::size_t> traced;
  std::vector<std::vector<double>> traces;

  /// Steps of a block; stops where water leaves the window of its curve.
  void block(const std::vector<CurveBlock>& curves, long first_step, long steps, bool whole_range) {
    sums.reset(state.temperature);
    state.devices = {.heater_on = state.devices.heater_on,
                     .chiller_on = state.devices.chiller_on,
                     .sump_lowest = state.temperature.back(),
                     .sump_highest = state.temperature.back()};
    light_time = 0.0;
    left = false;
    beyond_ = true;
    for (std::vector<double>& t : traces) t.clear();
    whole_range_ = whole_range;
    for (long n = 0; n < steps && !left; ++n) {
      step(curves, n, std::fmod(double(first_step + n) * plan_.step, day));
      for (std::size_t i = 0; i < traced.size(); ++i) traces[i].push_back(state.temperature[traced[i]]);
    }
    for (const SameCurve& run : system_.runs)
      for (std::size_t i = run.first - system_.first; i < run.last - system_.first; ++i)
        left |= state.temperature[i] < curves[run.curve].low || state.temperature[i] > curves[run.curve].high;
  }

 private:
  struct StepDecays {
    std::vector<Decay> modes, groups;
  };
  void decays(double h, StepDecays& d) const {
    mode_decays(h, d.modes);
    d.groups.clear();
    for (const EqualTanks& g : system_.groups) d.groups.push_back(decay(g.rate * h));
  }
  void mode_decays(double h, std::vector<Decay>& d) const {
    d.clear();
    for (const double r : system_.modes.rate) d.push_back(decay(r * h));
  }

  // A step, cut where the lights go on or off.
  void step(const std::vector<CurveBlock>& curves, long node, double time_of_day) {
    const double h = plan_.step;
    const double lit_for = std::fmod(time_of_day - system_.lights_from + day, day);  // since they last went on
    std::array<double, 3> cuts{h, h, h};
    if (system_.lights_length > 0.0 && system_.lights_length < day) {
      const double on = day - lit_for, off = system_.lights_length - lit_for;
      cuts[0] = std::min(h, on);
      cuts[1] = std::min(h, off > 0.0 ? off : off + day);
      std::sort(cuts.begin(), cuts.end());
    }
    constexpr double rounding = 1e-6;  // s, of the clock
    double from = 0.0;
    for (const double cut : cuts) {
      if (cut - from <= rounding) continue;
      const double to = h - cut <= rounding ? h : cut;
      const bool lit = std::fmod(lit_for + 0.5 * (from + to), day) < system_.lights_length;
      if (from == 0.0 && to == h) {
        stretch(curves, node, 0.0, 1.0, h, lit, whole_step_);
      } else {
        decays(to - from, part_step_);
        stretch(curves, node, from / h, to / h, to - from, lit, part_step_);
      }
      from = to;
      if (from == h) break;
    }
  }

  // A stretch of a step, over which lights do not change: from and to are shares of the step, h its length in s.
  void stretch(const std::vector<CurveBlock>& curves, long node, double from, double to, double h, bool lit,
               const StepDecays& d) {
    // Where a thermostat switches the water ends elsewhere than foreseen, and the losses are read again from there.
    constexpr double tolerance = 2e-3;  // K
    constexpr int most_rounds = 3;
    const double light = lit ? 1.0 : 0.0;
    losses(curves, node, from, state.temperature.data(), true, start_loss_.data(), vapour_.data());
    for (std::size_t i = 0; i < bodies_; ++i) {
      heat_[i] = light * light_[i] - start_loss_[i];
      foreseen_[i] = state.temperature[i] + state.rate[i] * h;
    }
    Devices devices;
    for (int round = 1;; ++round) {
      losses(curves, node, to, foreseen_.data(), !whole_range_, end_loss_.data(), nullptr);
      devices = state.devices;
      const bool as_foreseen = exchange(h, d, tolerance, devices);
      if (as_foreseen || round == most_rounds) break;
      foreseen_.swap(next_);
    }
    // The sump's temperature swings within a stretch, and its loss with it.
    const std::size_t sump = bodies_ - 1;
    sums.lost[sump] += system_.leak * (devices.sump_area - state.devices.sump_area -
                                       0.5 * h * (state.temperature[sump] + foreseen_[sump]));
    state.devices = devices;
    light_time += light * h;

    const bool was_beyond = beyond_;
    if (was_beyond) std::copy(state.temperature.begin(), state.temperature.end(), one_.begin());
    beyond_ = take_on(h, next_.data(), start_loss_.data(), end_loss_.data(), vapour_.data(), bodies_, plan_.cold_limit,
                      plan_.warm_limit, state.temperature.data(), state.rate.data(), sums.lowest.data(),
                      sums.highest.data(), sums.area.data(), sums.lost.data(), sums.vapour.data());
    if (!was_beyond && !beyond_) return;
    for (std::size_t i = 0; i < bodies_; ++i) {
      const double then = next_[i], now = was_beyond ? one_[i] : then - state.rate[i] * h;
      sums.cold[i] += h - time_above(plan_.cold_limit, now, then, h);
      sums.warm[i] += time_above(plan_.warm_limit, now, then, h);
    }
  }

  // Losses of all bodies at a share of a step, between the curves at its start and end.
  void losses(const std::vector<CurveBlock>& curves, long node, double way, const double* water, bool check,
              double* loss, double* vapour) {
    for (const SameCurve& run : system_.runs) {
      const CurveBlock& c = curves[run.curve];
      const std::size_t first = run.first - system_.first, count = run.last - run.first;
      const auto read = [&](long at, double* q, double* e) {
        const bool inside = read_losses(c.grid, c.at(at), c.low, c.high, water + first, count, q + first,
                                        e == nullptr ? nullptr : e + first);
        left |= check && !inside;
      };
      read(way == 1.0 ? node + 1 : node, loss, vapour);
      if (way == 0.0 || way == 1.0) continue;
      read(node + 1, one_.data(), vapour == nullptr ? nullptr : other_.data());
      for (std::size_t i = first; i < first + count; ++i) {
        loss[i] += way * (one_[i] - loss[i]);
        if (vapour != nullptr) vapour[i] += way * (other_[i] - vapour[i]);
      }
    }
  }

  // Takes all bodies to next_, under losses that run straight from start_loss_ to end_loss_; true where these are
  // within the tolerance of foreseen_.
  bool exchange(double h, const StepDecays& d, double tolerance, Devices& devices) {
    const std::size_t groups = system_.groups.size();
    for (std::size_t g = 0; g < groups; ++g) {
      const EqualTanks& group = system_.groups[g];
      double heat = 0.0, change = 0.0, stored = 0.0;
      for (std::size_t i = group.first - system_.first; i < group.last - system_.first; ++i) {
        change_[i] = start_loss_[i] - end_loss_[i];
        heat += heat_[i];
        change += change_[i];
        stored += capacity_[i] * state.temperature[i];
      }
      part_heat_[g] = heat;
      part_slope_[g] = change / h;
      mean_[g] = stored / group.capacity;
    }
    const std::size_t sump = bodies_ - 1;
    part_heat_[groups - 1] += system_.gain + system_.leak * state.temperature[sump];
    part_slope_[groups - 1] += system_.leak * (foreseen_[sump] - state.temperature[sump]) / h;
    course_.start(mean_.data(), part_heat_.data(), part_slope_.data());
    switch_within(h, d, devices);
    course_.temperatures(next_mean_.data());

    bool as_foreseen = true;
    for (std::size_t g = 0; g < groups; ++g) {
      const EqualTanks& group = system_.groups[g];
      const std::size_t first = group.first - system_.first, count = group.last - group.first;
      const Decay& e = d.groups[g];
      const double at_start = h * e.first, at_change = h * e.second;
      // Less the mean, which the modes have taken on: what a tank is off it decays, and is fed by what its heat is off.
      const double base = next_mean_[g] - e.exp * mean_[g] -
                          (at_start * part_heat_[g] + at_change * h * part_slope_[g]) / group.capacity;
      if (count == 1) {
        next_[first] = next_mean_[g];
        as_foreseen &= std::abs(next_[first] - foreseen_[first]) <= tolerance;
      } else {
        as_foreseen &= move(base, e.exp, at_start, at_change, state.temperature.data() + first, heat_.data() + first,
                            change_.data() + first, inverse_capacity_.data() + first, count, foreseen_.data() + first,
                            tolerance, next_.data() + first);
      }
    }
    return as_foreseen;
  }

  // Takes the modes through a stretch, thermostats and all.
  void switch_within(double h, const StepDecays& d, Devices& devices) {
    constexpr int most_switchings = 10000;
    course_.add_to_sump((devices.heater_on ? system_.heater : 0.0) - (devices.chiller_on ? system_.chiller : 0.0));
    double left_over = h;
    for (int switchings = 0;; ++switchings) {
      if (switchings > most_switchings) throw NotConverged("thermostat within a step", left_over, switchings);
      while (switched(course_.sump(), devices)) {
      }
      double low = -std::numeric_limits<double>::infinity(), high = -low;
      if (system_.heater > 0.0) {
        if (devices.heater_on)
          high = system_.heater_off;
        else
          low = system_.heater_on;
      }
      if (system_.chiller > 0.0) {
        if (devices.chiller_on)
          low = std::max(low, system_.chiller_off);
        else
          high = std::min(high, system_.chiller_on);
      }
      if (switchings > 0) mode_decays(left_over, rest_);
      const std::vector<Decay>& at_end = switchings > 0 ? rest_ : d.modes;
      const double time = course_.first_exit(low, high, left_over, at_end.data());
      if (time < left_over) {
        mode_decays(time, exit_);
        devices.sump_area += course_.advance(time, exit_.data());
      } else {
        devices.sump_area += course_.advance(time, at_end.data());
      }
      if (devices.heater_on) devices.heater_time += time;
      if (devices.chiller_on) devices.chiller_time += time;
      left_over -= time;
      const double at = course_.sump();
      devices.sump_lowest = std::min(devices.sump_lowest, at);
      devices.sump_highest = std::max(devices.sump_highest, at);
      if (!(left_over > 0.0)) return;
      toggle_at(at, low, high, devices);
    }
  }

  // A thermostat that the sump's temperature calls for, as at the start of a run; true where one has switched.
  bool switched(double sump, Devices& devices) {
    if (system_.heater > 0.0 && !devices.heater_on && sump < system_.heater_on) return set_heater(true, devices);
    if (system_.heater > 0.0 && devices.heater_on && sump > system_.heater_off) return set_heater(false, devices);
    if (system_.chiller > 0.0 && !devices.chiller_on && sump > system_.chiller_on) return set_chiller(true, devices);
    if (system_.chiller > 0.0 && devices.chiller_on && sump < system_.chiller_off) return set_chiller(false, devices);
    return false;
  }
  // The thermostat whose limit the sump stands on, on either side of it by rounding.
  void toggle_at(double sump, double low, double high, Devices& devices) {
    if (std::abs(sump - low) < std::abs(sump - high)) {
      if (system_.heater > 0.0 && !devices.heater_on && low == system_.heater_on)
        set_heater(true, devices);
      else
        set_chiller(false, devices);
    } else {
      if (system_.heater > 0.0 && devices.heater_on && high == system_.heater_off)
        set_heater(false, devices);
      else
        set_chiller(true, devices);
    }
  }
  bool set_heater(bool on, Devices& devices) {
    devices.heater_on = on;
    devices.heater_starts += on ? 1 : 0;
    course_.add_to_sump(on ? system_.heater : -system_.heater);
    return true;
  }
  bool set_chiller(bool on, Devices& devices) {
    devices.chiller_on = on;
    devices.chiller_starts += on ? 1 : 0;
    course_.add_to_sump(on ? -system_.chiller : system_.chiller);
    return true;
  }

  const BatchPlan& plan_;
  const PlannedSystem& system_;
  ExchangeCourse course_;
  std::size_t bodies_;
  bool whole_range_ = false, beyond_ = true;
  StepDecays whole_step_, part_step_;
  std::vector<Decay> rest_, exit_;
  std::vector<double> capacity_, inverse_capacity_, light_;
  std::vector<double> start_loss_, end_loss_, vapour_, heat_, change_, foreseen_, next_, one_, other_;
  std::vector<double> mean_, next_mean_, part_heat_, part_slope_;  // of groups
};

// Totals of a run, of bodies and systems in their order.
struct Totals {
  std::vector<double> lowest, highest;
  std::vector<Sum> area, cold, warm, lost, vapour;
  std::vector<Sum> heater, chiller, light, sump_area;
  std::vector<int> heater_starts, chiller_starts;
  Totals(std::size_t bodies, std::size_t systems)
      : lowest(bodies, std::numeric_limits<double>::infinity()),
        highest(bodies, -std::numeric_limits<double>::infinity()),
        area(bodies),
        cold(bodies),
        warm(bodies),
        lost(bodies),
        vapour(bodies),
        heater(systems),
        chiller(systems),
        light(systems),
        sump_area(systems),
        heater_starts(systems),
        chiller_starts(systems) {}

  void add(const SystemRun& run, std::size_t first_body, std::size_t system) {
    for (std::size_t i = 0; i < run.state.temperature.size(); ++i) {
      const std::size_t b = first_body + i;
      lowest[b] = std::min(lowest[b], run.sums.lowest[i]);
      highest[b] = std::max(highest[b], run.sums.highest[i]);
      area[b].add(run.sums.area[i]);
      cold[b].add(run.sums.cold[i]);
      warm[b].add(run.sums.warm[i]);
      lost[b].add(run.sums.lost[i]);
      vapour[b].add(run.sums.vapour[i]);
    }
    const Devices& devices = run.state.devices;
    const std::size_t sump = first_body + run.state.temperature.size() - 1;
    lowest[sump] = std::min(lowest[sump], devices.sump_lowest);
    highest[sump] = std::max(highest[sump], devices.sump_highest);
    sump_area[system].add(devices.sump_area);
    heater[system].add(devices.heater_time);
    chiller[system].add(devices.chiller_time);
    light[system].add(run.light_time);
    heater_starts[system] += devices.heater_starts;
    chiller_starts[system] += devices.chiller_starts;
  }
};

// The curves that some systems need for a block, for water about where it stands, or over the whole range.
class Curves {
 public:
  Curves(const BatchPlan& plan, std::size_t first, std::size_t last) : plan_(plan), blocks(plan.curves.size()) {
    for (std::size_t s = first; s < last; ++s)
      for (const SameCurve& run : plan.systems[s].runs) blocks[run.curve].used = true;
    for (std::size_t c = 0; c < blocks.size(); ++c) {
      if (!blocks[c].used) continue;
      blocks[c].grid = (*plan.tables[plan.curves[c].table].data).grid;
      blocks[c].neutral.resize(std::size_t(block_steps) + 1);
      blocks[c].pieces.resize((std::size_t(block_steps) + 1) * std::size_t(blocks[c].grid.count));
    }
  }

  void fill_about(const std::vector<SystemRun>& runs, std::size_t first_system, long first_step, long steps) {
    for (CurveBlock& c : blocks) {
      c.low = std::numeric_limits<double>::infinity();
      c.high = -c.low;
    }
    for (std::size_t s = 0; s < runs.size(); ++s) {
      const PlannedSystem& system = plan_.systems[first_system + s];
      for (const SameCurve& run : system.runs)
        for (std::size_t i = run.first; i < run.last; ++i) {
          CurveBlock& c = blocks[run.curve];
          const double t = runs[s].state.temperature[i - system.first];
          c.low = std::min(c.low, t - window_margin);
          c.high = std::max(c.high, t + window_margin);
        }
    }
    for (CurveBlock& c : blocks) {
      c.low = std::max(c.low, plan_.water_low);
      c.high = std::min(c.high, plan_.water_high);
    }
    fill(first_step, steps);
    whole_range = false;
  }
  void fill_all(long first_step, long steps) {
    for (CurveBlock& c : blocks) {
      c.low = plan_.water_low;
      c.high = plan_.water_high;
    }
    fill(first_step, steps);
    whole_range = true;
  }

 private:
  void fill(long first_step, long steps) {
    for (std::size_t i = 0; i < blocks.size(); ++i) {
      CurveBlock& c = blocks[i];
      if (!c.used) continue;
      const LossData& data = (*plan_.tables[plan_.curves[i].table].data);
      const PlannedRoom& room = plan_.rooms[plan_.curves[i].room];
      for (long n = 0; n <= steps; ++n)
        c.neutral[std::size_t(n)] = collapse(data, room.at(double(first_step + n) * plan_.step), c.low, c.high,
                                             c.pieces.data() + std::size_t(n) * std::size_t(c.grid.count))
                                        .neutral;
    }
  }
  const BatchPlan& plan_;

 public:
  std::vector<CurveBlock> blocks;
  bool whole_range = false;
};

[[noreturn]] void refuse_water(const BatchPlan& plan, const PlannedSystem& system, const SystemRun& run, double hours) {
  for (std::size_t i = 0; i < run.state.temperature.size(); ++i) {
    const double t = run.state.temperature[i];
    if (t >= plan.water_low && t <= plan.water_high) continue;
    const int tank = plan.tank[system.first + i];
    throw OutOfValidity("batch of tanks",
                        (tank < 0 ? std::string("water of a sump") : "water of tank " + std::to_string(tank)) + " at " +
                            text(celsius(t)) + " within a day after " + number(hours) + " h, its range " +
                            text(celsius(plan.water_low)) + " to " + text(celsius(plan.water_high)));
  }
  throw OutOfValidity("batch of tanks", "water past its range");
}

template <class Q>
void put(std::vector<Q>& list, double x) {
  list.push_back(from_si<Q>(x));
}

}  // namespace

RoomState PlannedRoom::at(double time) const {
  if (air.size() == 1) return {air[0], surroundings_less_air[0], humidity[0]};
  const double x = time / interval;
  const std::size_t i = std::min(static_cast<std::size_t>(x), air.size() - 2);
  const double way = std::min(x - double(i), 1.0);
  const auto between = [&](const std::vector<double>& v) { return v[i] + way * (v[i + 1] - v[i]); };
  return {between(air), between(surroundings_less_air), between(humidity)};
}

BatchResult run_systems(const BatchPlan& plan, std::size_t first, std::size_t last) {
  BatchResult result;
  if (first == last) return result;
  std::vector<SystemRun> runs;
  runs.reserve(last - first);
  for (std::size_t s = first; s < last; ++s) runs.emplace_back(plan, plan.systems[s]);
  const std::size_t first_body = plan.systems[first].first, end_body = plan.systems[last - 1].sump + 1;
  Totals totals(end_body - first_body, last - first);

  // Where the courses asked for belong: system, and place among what that traces.
  std::vector<std::pair<std::size_t, std::size_t>> traces;
  for (const int tank : plan.traced)
    for (std::size_t s = first; s < last; ++s)
      for (std::size_t body = plan.systems[s].first; body < plan.systems[s].sump; ++body)
        if (plan.tank[body] == tank) {
          SystemRun& run = runs[s - first];
          traces.emplace_back(s - first, run.traced.size());
          run.traced.push_back(body - plan.systems[s].first);
          run.traces.emplace_back();
          result.traced.push_back(tank);
          result.courses.push_back({celsius(plan.start[body])});
        }

  Curves curves(plan, first, last);
  for (long begin = 0; begin < plan.steps; begin += block_steps) {
    const long steps = std::min(block_steps, plan.steps - begin);
    curves.fill_about(runs, first, begin, steps);
    for (std::size_t s = 0; s < runs.size(); ++s) {
      const PlannedSystem& system = plan.systems[first + s];
      const SystemRun::State before = runs[s].state;
      runs[s].block(curves.blocks, begin, steps, curves.whole_range);
      if (runs[s].left && !curves.whole_range) {
        curves.fill_all(begin, steps);
        runs[s].state = before;
        runs[s].block(curves.blocks, begin, steps, true);
      }
      if (runs[s].left) refuse_water(plan, system, runs[s], double(begin) * plan.step / 3600.0);
      totals.add(runs[s], system.first - first_body, s);
    }
    for (std::size_t i = 0; i < traces.size(); ++i)
      for (const double t : runs[traces[i].first].traces[traces[i].second]) result.courses[i].push_back(celsius(t));
  }

  // Tanks in the order of the batch.
  const double duration = plan.step * double(plan.steps);
  std::vector<std::pair<int, std::size_t>> order;
  std::vector<std::size_t> system_of(end_body - first_body);
  for (std::size_t s = first; s < last; ++s)
    for (std::size_t body = plan.systems[s].first; body < plan.systems[s].sump; ++body) {
      order.emplace_back(plan.tank[body], body);
      system_of[body - first_body] = s - first;
    }
  std::sort(order.begin(), order.end());
  for (const auto& [tank, body] : order) {
    const std::size_t i = body - first_body, s = system_of[i];
    result.tank.push_back(tank);
    result.lowest.push_back(celsius(totals.lowest[i]));
    result.highest.push_back(celsius(totals.highest[i]));
    result.mean.push_back(celsius(totals.area[i].total() / duration));
    result.end.push_back(celsius(runs[s].state.temperature[body - plan.systems[first + s].first]));
    put(result.cold, totals.cold[i].total());
    put(result.warm, totals.warm[i].total());
    put(result.lost, totals.lost[i].total());
    put(result.lit, plan.light[body] * totals.light[s].total());
    put(result.evaporated, totals.vapour[i].total());
  }
  for (std::size_t s = first; s < last; ++s) {
    const PlannedSystem& system = plan.systems[s];
    const std::size_t i = system.sump - first_body, r = s - first;
    result.system.push_back(static_cast<int>(s));
    result.sump_lowest.push_back(celsius(totals.lowest[i]));
    result.sump_highest.push_back(celsius(totals.highest[i]));
    result.sump_mean.push_back(celsius(totals.sump_area[r].total() / duration));
    result.sump_end.push_back(celsius(runs[r].state.temperature.back()));
    put(result.sump_lost, totals.lost[i].total());
    put(result.gained, system.gain * duration);
    put(result.heated, system.heater * totals.heater[r].total());
    put(result.chilled, system.chiller * totals.chiller[r].total());
    put(result.sump_evaporated, totals.vapour[i].total());
    result.heater_starts.push_back(totals.heater_starts[r]);
    result.chiller_starts.push_back(totals.chiller_starts[r]);
  }
  return result;
}

}  // namespace theca::thermal::detail
