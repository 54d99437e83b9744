#include "batch_run.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

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

// One system: its state, and the scratch of a step.
class SystemRun {
 public:
  SystemRun(const BatchPlan& plan, const PlannedSystem& system)
      : plan_(plan), system_(system), course_(system.modes), bodies_(system.sump + 1 - system.first) {
    const auto first = std::ptrdiff_t(system.first), last = std::ptrdiff_t(system.sump + 1);
    state.temperature.assign(plan.start.begin() + first, plan.start.begin() + last);
    state.rate.assign(bodies_, 0.0);
    for (std::size_t i = 0; i < bodies_; ++i) inverse_capacity_.push_back(1.0 / plan.capacity[system.first + i]);
    for (std::vector<double>* v : {&start_heat_, &heat_change_}) v->resize(bodies_);
    for (std::vector<double>* v : {&mean_, &next_mean_, &part_heat_, &part_slope_}) v->resize(system.groups.size());
    decays(plan.step, whole_step_);
  }

  /// Carried from step to step; degC, K/s.
  struct State {
    std::vector<double> temperature, rate;
    bool heater_on = false, chiller_on = false;
  };
  State state;

  // Summary of a block.
  BlockSums sums;
  double heater_time = 0.0, chiller_time = 0.0, light_time = 0.0;
  int heater_starts = 0, chiller_starts = 0;
  bool left = false;  ///< water has left the window of its curve

  /// Bodies whose temperature after every step is kept, and what was in this block.
  std::vector<std::size_t> traced;
  std::vector<std::vector<double>> traces;

  /// Steps of a block; stops where water leaves the window of its curve.
  void block(const std::vector<CurveBlock>& curves, long first_step, long steps, bool whole_range) {
    sums.reset(state.temperature);
    heater_time = chiller_time = light_time = 0.0;
    heater_starts = chiller_starts = 0;
    left = false;
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
    d.modes.clear();
    d.groups.clear();
    for (const double r : system_.modes.rate) d.modes.push_back(decay(r * h));
    for (const EqualTanks& g : system_.groups) d.groups.push_back(decay(g.rate * h));
  }

  // A step, cut where the lights go on or off.
  void step(const std::vector<CurveBlock>& curves, long node, double time_of_day) {
    const double h = plan_.step;
    double cut[2] = {h, h};
    double lit_for = std::fmod(time_of_day - system_.lights_from + day, day);  // since they last went on
    if (system_.lights_length > 0.0 && system_.lights_length < day) {
      cut[0] = std::min(h, day - lit_for);       // on
      cut[1] = system_.lights_length - lit_for;  // off
      if (cut[1] <= 0.0) cut[1] = std::min(h, cut[1] + day);
      cut[1] = std::min(cut[1], h);
      if (cut[1] < cut[0]) std::swap(cut[0], cut[1]);
    }
    constexpr double nothing = 1e-6;  // s: rounding of the clock
    double from = 0.0;
    for (const double to : {cut[0], cut[1], h}) {
      if (to - from <= nothing) continue;
      const double end = h - to <= nothing ? h : to;
      const double middle = std::fmod(lit_for + 0.5 * (from + end), day);
      const bool lit = middle < system_.lights_length;
      if (from == 0.0 && end == h) {
        stretch(curves, node, 0.0, 1.0, h, lit, whole_step_);
      } else {
        decays(end - from, part_step_);
        stretch(curves, node, from / h, end / h, end - from, lit, part_step_);
      }
      from = end;
      if (from == h) break;
    }
  }

  void stretch(const std::vector<CurveBlock>& curves, long node, double from, double to, double h, bool lit,
               const StepDecays& d) {
    losses(curves, node, from, to, h, lit);
    if (lit) light_time += h;

    const std::size_t groups = system_.groups.size();
    for (std::size_t g = 0; g < groups; ++g) {
      const EqualTanks& group = system_.groups[g];
      double heat = 0.0, change = 0.0, stored = 0.0;
      for (std::size_t i = group.first - system_.first; i < group.last - system_.first; ++i) {
        heat += start_heat_[i];
        change += heat_change_[i];
        stored += plan_.capacity[system_.first + i] * state.temperature[i];
      }
      part_heat_[g] = heat;
      part_slope_[g] = change / h;
      mean_[g] = stored / group.capacity;
    }
    part_heat_[groups - 1] += system_.gain;
    course_.start(mean_.data(), part_heat_.data(), part_slope_.data());
    switch_within(h, d);
    course_.temperatures(next_mean_.data());

    for (std::size_t g = 0; g + 1 < groups; ++g) {
      const EqualTanks& group = system_.groups[g];
      const Decay& e = d.groups[g];
      const double first = h * e.first, second = h * e.second;
      const double base =
          next_mean_[g] - e.exp * mean_[g] - (first * part_heat_[g] + second * h * part_slope_[g]) / group.capacity;
      for (std::size_t i = group.first - system_.first; i < group.last - system_.first; ++i) {
        const double next = base + e.exp * state.temperature[i] +
                            (first * start_heat_[i] + second * heat_change_[i]) * inverse_capacity_[i];
        arrive(i, next, h);
      }
    }
    const std::size_t sump = bodies_ - 1;
    const double next = next_mean_[groups - 1];
    const double area = sums.area[sump];
    arrive(sump, next, h);
    sums.area[sump] = area + sump_area_;
  }

  void arrive(std::size_t i, double next, double h) {
    const double now = state.temperature[i];
    sums.lowest[i] = std::min(sums.lowest[i], next);
    sums.highest[i] = std::max(sums.highest[i], next);
    sums.area[i] += 0.5 * h * (now + next);
    if (std::min(now, next) < plan_.cold_limit) sums.cold[i] += h - time_above(plan_.cold_limit, now, next, h);
    if (std::max(now, next) > plan_.warm_limit) sums.warm[i] += time_above(plan_.warm_limit, now, next, h);
    state.rate[i] = (next - now) / h;
    state.temperature[i] = next;
  }

  // Heat into every body at the start of a stretch, and how much more at its end, from the curves at both.
  void losses(const std::vector<CurveBlock>& curves, long node, double from, double to, double h, bool lit) {
    for (const SameCurve& run : system_.runs) {
      const CurveBlock& curve = curves[run.curve];
      const LossCurve before = curve.at(node), behind = curve.at(node + 1);
      for (std::size_t i = run.first - system_.first; i < run.last - system_.first; ++i) {
        const double now = state.temperature[i], foreseen = now + state.rate[i] * h;
        left |=
            now < curve.low || now > curve.high || (!whole_range_ && (foreseen < curve.low || foreseen > curve.high));
        const double then = std::clamp(foreseen, curve.low, curve.high);
        double vapour = 0.0, unused = 0.0;
        const double q0 = loss_between(curve.grid, before, behind, from, now, vapour);
        const double q1 = loss_between(curve.grid, before, behind, to, then, unused);
        start_heat_[i] = (lit ? plan_.light[system_.first + i] : 0.0) - q0;
        heat_change_[i] = q0 - q1;
        sums.lost[i] += 0.5 * h * (q0 + q1);
        sums.vapour[i] += h * vapour;
      }
    }
  }

  static double loss_at(const PieceGrid& grid, const LossCurve& curve, double water, double& vapour) {
    const PiecePlace p = place(grid, curve.neutral, water);
    const LossPiece& piece = curve.pieces[p.index];
    vapour = cubic(piece.vapour, p.way);
    return cubic(piece.loss, p.way);
  }
  static double loss_between(const PieceGrid& grid, const LossCurve& before, const LossCurve& behind, double way,
                             double water, double& vapour) {
    if (way == 0.0) return loss_at(grid, before, water, vapour);
    if (way == 1.0) return loss_at(grid, behind, water, vapour);
    double vapour_before = 0.0, vapour_behind = 0.0;
    const double q0 = loss_at(grid, before, water, vapour_before), q1 = loss_at(grid, behind, water, vapour_behind);
    vapour = vapour_before + way * (vapour_behind - vapour_before);
    return q0 + way * (q1 - q0);
  }

  // Takes the modes through a stretch, thermostats and all.
  void switch_within(double h, const StepDecays& d) {
    constexpr int most_switchings = 10000;
    const std::size_t sump = bodies_ - 1;
    sump_area_ = 0.0;
    course_.add_to_sump((state.heater_on ? system_.heater : 0.0) - (state.chiller_on ? system_.chiller : 0.0));
    double left_over = h;
    for (int switchings = 0;; ++switchings) {
      if (switchings > most_switchings) throw NotConverged("thermostat within a step", left_over, switchings);
      while (switched(course_.sump())) {
      }
      double low = -std::numeric_limits<double>::infinity(), high = -low;
      if (system_.heater > 0.0)
        (state.heater_on ? high : low) = state.heater_on ? system_.heater_off : system_.heater_on;
      if (system_.chiller > 0.0) {
        if (state.chiller_on)
          low = std::max(low, system_.chiller_off);
        else
          high = std::min(high, system_.chiller_on);
      }
      const bool first = switchings == 0;
      if (!first) mode_decays(left_over, rest_);
      const Decay* at_end = first ? d.modes.data() : rest_.data();
      const double time = course_.first_exit(low, high, left_over, at_end);
      if (time < left_over) {
        mode_decays(time, rest_);
        at_end = rest_.data();
      }
      sump_area_ += course_.advance(time, at_end);
      if (state.heater_on) heater_time += time;
      if (state.chiller_on) chiller_time += time;
      left_over -= time;
      if (!(left_over > 0.0)) return;
      const double at = course_.sump();
      sums.lowest[sump] = std::min(sums.lowest[sump], at);
      sums.highest[sump] = std::max(sums.highest[sump], at);
      toggle_at(at, low, high);
    }
  }

  void mode_decays(double h, std::vector<Decay>& d) const {
    d.clear();
    for (const double r : system_.modes.rate) d.push_back(decay(r * h));
  }

  // A thermostat that the sump's temperature calls for, as at the start of a run; true where one has switched.
  bool switched(double sump) {
    if (system_.heater > 0.0 && !state.heater_on && sump < system_.heater_on) return set_heater(true);
    if (system_.heater > 0.0 && state.heater_on && sump > system_.heater_off) return set_heater(false);
    if (system_.chiller > 0.0 && !state.chiller_on && sump > system_.chiller_on) return set_chiller(true);
    if (system_.chiller > 0.0 && state.chiller_on && sump < system_.chiller_off) return set_chiller(false);
    return false;
  }
  // The thermostat whose limit the sump stands on, on either side of it by rounding.
  void toggle_at(double sump, double low, double high) {
    if (std::abs(sump - low) < std::abs(sump - high)) {
      if (system_.heater > 0.0 && !state.heater_on && low == system_.heater_on)
        set_heater(true);
      else
        set_chiller(false);
    } else {
      if (system_.heater > 0.0 && state.heater_on && high == system_.heater_off)
        set_heater(false);
      else
        set_chiller(true);
    }
  }
  bool set_heater(bool on) {
    state.heater_on = on;
    heater_starts += on ? 1 : 0;
    course_.add_to_sump(on ? system_.heater : -system_.heater);
    return true;
  }
  bool set_chiller(bool on) {
    state.chiller_on = on;
    chiller_starts += on ? 1 : 0;
    course_.add_to_sump(on ? -system_.chiller : system_.chiller);
    return true;
  }

  const BatchPlan& plan_;
  const PlannedSystem& system_;
  ExchangeCourse course_;
  std::size_t bodies_;
  bool whole_range_ = false;
  StepDecays whole_step_, part_step_;
  std::vector<Decay> rest_;
  double sump_area_ = 0.0;
  std::vector<double> inverse_capacity_, start_heat_, heat_change_, mean_, next_mean_, part_heat_, part_slope_;
};

// Totals of a run, of bodies and systems in their order.
struct Totals {
  std::vector<double> lowest, highest;
  std::vector<Sum> area, cold, warm, lost, vapour;
  std::vector<Sum> heater, chiller, light;
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
    heater[system].add(run.heater_time);
    chiller[system].add(run.chiller_time);
    light[system].add(run.light_time);
    heater_starts[system] += run.heater_starts;
    chiller_starts[system] += run.chiller_starts;
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
      blocks[c].grid = data_of(plan.tables[plan.curves[c].table]).grid;
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
      const LossData& data = data_of(plan_.tables[plan_.curves[i].table]);
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
    result.sump_mean.push_back(celsius(totals.area[i].total() / duration));
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
