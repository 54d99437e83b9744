#include "theca/thermal/transient.hpp"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>

#include "../root.hpp"
#include "course.hpp"
#include "theca/require.hpp"

namespace theca::thermal {

namespace {

using State = std::vector<double>;  // temperatures in K, then what each node has lost over its capacity, in K
constexpr double day = 86400.0;
constexpr double step_error = 1e-9;      // K
constexpr double shortest_piece = 1e-7;  // s; in less no temperature moves by what a double shows
constexpr long most_steps = 50'000'000;
constexpr std::size_t most_switchings = 2'000'000;

bool within_hours(const DailyHours& hours, double time_s) {
  const double since = time_s - si(hours.from);
  return since - day * std::floor(since / day) < si(hours.length);
}

double break_after(const DailyHours& hours, double time_s) {
  const double today = std::floor(time_s / day);
  double next = std::numeric_limits<double>::infinity();
  for (const double d : {today - 1.0, today, today + 1.0})
    for (const double at : {d * day + si(hours.from), d * day + si(hours.from) + si(hours.length)})
      if (at > time_s) next = std::min(next, at);
  return next;
}

double break_after(const TankLoop& loop, double time_s, double end) {
  double next = end;
  for (const Course& course : loop.courses) next = std::min(next, detail::break_after(course, time_s));
  for (const LoopGain& gain : loop.gains)
    if (gain.hours) next = std::min(next, break_after(*gain.hours, time_s));
  for (const Incident& incident : loop.incidents)
    for (const Time& at : {incident.from, incident.to})
      if (si(at) > time_s) next = std::min(next, si(at));
  return next;
}

bool happens(const TankLoop& loop, Failure failure, const std::string& name, double time_s) {
  return std::any_of(loop.incidents.begin(), loop.incidents.end(), [&](const Incident& i) {
    return i.failure == failure && i.name == name && time_s >= si(i.from) && time_s < si(i.to);
  });
}

// What runs, and what surrounds, between two breaks. `delivers` says how much of a unit's power comes for its contact.
struct Piece {
  std::vector<detail::SmoothCourse> courses;
  std::vector<double> gains;       // W into every node by the clock
  std::vector<bool> running;       // of the gains
  std::vector<bool> alive, stuck;  // of the units
  struct Stream {
    std::size_t from, to;
    double exchange;
  };
  std::vector<Stream> streams;
  double quickest = 0.0;  // rate at which a node follows those it exchanges with, at most, 1/s

  Piece(const TankLoop& loop, double time_s) : gains(loop.nodes.size(), 0.0) {
    const bool cut = happens(loop, Failure::power_cut, "", time_s);
    const auto works = [&](const std::string& name, bool backed_up) {
      return (!cut || backed_up) && !happens(loop, Failure::off, name, time_s);
    };
    for (const Course& course : loop.courses) courses.push_back(detail::piece_at(course, time_s));
    for (const LoopGain& gain : loop.gains) {
      running.push_back(works(gain.name, gain.backed_up) && (!gain.hours || within_hours(*gain.hours, time_s)));
      if (running.back()) gains[gain.node] += si(gain.heat);
    }
    for (const ThermostatUnit& unit : loop.units) {
      alive.push_back(works(unit.name, unit.backed_up));
      stuck.push_back(happens(loop, Failure::stuck_on, unit.name, time_s));
    }
    for (const LoopFlow& flow : loop.flows) {
      if (!flow.pump.empty() && !works(flow.pump, flow.backed_up)) continue;
      streams.push_back({flow.from, flow.to, si(flow.exchange)});
      if (flow.returns) streams.push_back({flow.to, flow.from, si(flow.exchange)});
    }
    std::vector<double> received(loop.nodes.size(), 0.0);
    for (const Stream& stream : streams) received[stream.to] += stream.exchange;
    for (std::size_t i = 0; i < received.size(); ++i)
      quickest = std::max(quickest, received[i] / si(loop.nodes[i].capacity));
  }
  bool delivers(std::size_t unit, bool contact) const { return alive[unit] && (contact || stuck[unit]); }
};

// The right side of dy/dt within a piece, with the contacts as they are.
class RightSide {
 public:
  RightSide(const TankLoop& loop, const Piece& piece, const std::vector<bool>& contacts, double start_s)
      : loop_(loop), piece_(piece), start_(start_s), given_(piece.gains), around_(piece.courses.size()) {
    for (std::size_t u = 0; u < contacts.size(); ++u) {
      if (!piece.delivers(u, contacts[u])) continue;
      const ThermostatUnit& unit = loop.units[u];
      given_[unit.node] += si(unit.heat);
      if (unit.warms) given_[*unit.warms] += si(unit.electricity) - si(unit.heat);
    }
  }

  void operator()(const State& y, State& dydt, double local_s) {
    const std::size_t n = loop_.nodes.size();
    std::transform(piece_.courses.begin(), piece_.courses.end(), around_.begin(),
                   [&](const detail::SmoothCourse& course) { return course(start_ + local_s); });
    std::copy(given_.begin(), given_.end(), dydt.begin());
    for (const Piece::Stream& s : piece_.streams) dydt[s.to] += s.exchange * (y[s.from] - y[s.to]);
    for (std::size_t i = 0; i < n; ++i) {
      const LoopNode& node = loop_.nodes[i];
      const double around = node.in_room ? y[*node.in_room] : around_[node.course];
      double loss = si(node.UA) * (y[i] - around);
      if (node.loss) loss += si(node.loss(from_si<Temperature>(y[i]), from_si<Temperature>(around)));
      if (!std::isfinite(loss)) require::finite("loss of " + node.name, loss);
      dydt[i] -= loss;
      if (node.in_room) dydt[*node.in_room] += node.share_to_room * loss;
      dydt[n + i] = loss / si(node.capacity);
    }
    for (std::size_t i = 0; i < n; ++i) dydt[i] /= si(loop_.nodes[i].capacity);
  }

 private:
  const TankLoop& loop_;
  const Piece& piece_;
  double start_;                // of the local time, s
  std::vector<double> given_;   // W into every node
  std::vector<double> around_;  // K
};

// One step of the method, and its dense output.
class Step {
 public:
  explicit Step(const State& start) : y0_(start), f0_(start), y1_(start), f1_(start), error_(start), between_(start) {}

  // A first step no longer than the quickest exchange: water that moves again after a quiet hour would else be taken
  // to absurd temperatures within a trial, and losses asked there.
  void start(RightSide& right, double quickest) {
    right(y0_, f0_, 0.0);
    if (trial_ * quickest > 1.0) trial_ = 1.0 / quickest;
  }
  const State& state() const { return y0_; }
  double begin() const { return begin_; }
  double end() const { return end_; }
  long tries() const { return tries_; }

  // Takes one accepted step that ends at `limit` at the latest, and there exactly.
  void take(RightSide& right, double begin, double limit) {
    const auto system = [&right](const State& y, State& dydt, double t) { right(y, dydt, t); };
    while (true) {
      if (++tries_ > most_steps) throw NotConverged("tank loop over time", limit - begin, int(most_steps));
      const double left = limit - begin;
      const bool last = trial_ >= left;
      const double length = last ? left : trial_;
      method_.do_step(system, y0_, f0_, begin, y1_, f1_, length, error_);
      double worst = 0.0;
      for (const double e : error_) worst = std::max(worst, std::abs(e));
      if (!std::isfinite(std::accumulate(y1_.begin(), y1_.end(), worst)))
        throw NotConverged("tank loop over time", limit - begin, int(tries_));
      const double change = std::clamp(0.9 * std::pow(worst / step_error, -0.2), 0.2, 5.0);
      const bool accepted = worst <= step_error;
      if (!accepted || !last) trial_ = length * change;  // a step cut short says nothing about a longer one
      if (!accepted) continue;
      begin_ = begin;
      end_ = last ? limit : begin + length;
      return;
    }
  }

  // Makes the state at `stop` the start of the next step.
  void go_on_from(double stop) {
    if (stop == end_) {
      y0_.swap(y1_);
      f0_.swap(f1_);
    } else {
      y0_ = at(stop);
    }
  }

  const State& at(double time) const {
    if (time == begin_) return y0_;
    if (time == end_) return y1_;
    method_.calc_state(time, between_, y0_, f0_, begin_, y1_, f1_, end_);
    return between_;
  }

  // Where a temperature turns within the step, from rising to falling (sign +1) or the other way (-1).
  std::optional<double> turn(std::size_t node, double sign) const {
    if (!(sign * f0_[node] > 0.0 && sign * f1_[node] < 0.0)) return std::nullopt;
    return boost::math::tools::brent_find_minima([&](double t) { return -sign * at(t)[node]; }, begin_, end_, 26).first;
  }

  // When sign (T - threshold) turns from negative to positive in this step, if only for a moment.
  struct Watch {
    std::size_t node;
    double sign, threshold;
  };
  std::optional<double> crossing(const Watch& w) const {
    const auto over = [&](double time) { return w.sign * (at(time)[w.node] - w.threshold); };
    const double before = over(begin_);
    if (!(before < 0.0)) return begin_;
    double until = end_;
    if (over(end_) < 0.0) {
      if (before + w.sign * f0_[w.node] * (end_ - begin_) < 0.0) return std::nullopt;  // too far for this step's slope
      const std::optional<double> top = turn(w.node, w.sign);
      if (!top || over(*top) < 0.0) return std::nullopt;
      until = *top;
    }
    return theca::detail::root_between("switching of a thermostat", over, begin_, until, before, over(until)).high;
  }

 private:
  boost::numeric::odeint::runge_kutta_dopri5<State> method_{};
  State y0_, f0_, y1_, f1_, error_;
  mutable State between_;
  double begin_ = 0.0, end_ = 0.0, trial_ = 1.0;
  long tries_ = 0;
};

class Runner {
 public:
  Runner(const TankLoop& loop, const std::vector<Time>& times, const std::vector<LoopLimit>& limits)
      : loop_(loop), step_(start_of(loop)) {
    result_.times = times;
    for (const LoopNode& node : loop.nodes) {
      result_.lowest.push_back(node.start);
      result_.highest.push_back(node.start);
    }
    for (const ThermostatUnit& unit : loop.units) {
      const double t = step_.state()[unit.sensor.value_or(unit.node)];
      const bool heats = si(unit.heat) > 0.0;
      const bool asks = heats ? t <= si(unit.on_at) : t >= si(unit.on_at);
      const bool satisfied = heats ? t >= si(unit.off_at) : t <= si(unit.off_at);
      contacts_.push_back(asks || (unit.starts_on && !satisfied));
      result_.units.push_back({.name = unit.name});
    }
    for (const LoopGain& gain : loop.gains) result_.gains.push_back({.name = gain.name});
    for (const LoopLimit& limit : limits) {
      const double ahead = si(limit.temperature) - step_.state()[limit.node];
      limits_.push_back({limit.node, ahead > 0.0 ? 1.0 : -1.0, si(limit.temperature)});
      result_.reached.push_back(std::nullopt);
      if (ahead == 0.0) result_.reached.back() = from_si<Time>(0.0);
    }
  }

  LoopRun go() {
    const double end = si(result_.times.back());
    for (double from = 0.0; from < end;) {
      const double to = break_after(loop_, from, end);
      run_piece(Piece(loop_, 0.5 * (from + to)), from, to);
      from = to;
    }
    while (result_.temperatures.size() < result_.times.size()) add_temperatures(step_.state());
    add_up();
    return std::move(result_);
  }

 private:
  static State start_of(const TankLoop& loop) {
    State start(2 * loop.nodes.size(), 0.0);
    std::transform(loop.nodes.begin(), loop.nodes.end(), start.begin(), [](const LoopNode& n) { return si(n.start); });
    return start;
  }

  // From one break to the next, in stretches between switchings.
  void run_piece(const Piece& piece, double from, double to) {
    while (to - from > shortest_piece) {
      const std::vector<bool> contacts = contacts_;
      const double ran = run_stretch(piece, from, to);
      for (std::size_t u = 0; u < contacts.size(); ++u)
        if (piece.delivers(u, contacts[u])) result_.units[u].running += from_si<Time>(ran);
      for (std::size_t g = 0; g < result_.gains.size(); ++g)
        if (piece.running[g]) result_.gains[g].running += from_si<Time>(ran);
      from = ran == to - from ? to : from + ran;
    }
  }

  // Up to the first switching, or to the break; returns the time that it took.
  double run_stretch(const Piece& piece, double from, double to) {
    RightSide right(loop_, piece, contacts_, from);
    const double length = to - from;
    step_.start(right, piece.quickest);
    double now = 0.0;
    bool switched = false;
    while (!switched && now < length) {
      step_.take(right, now, length);
      const double stop = first_switching();
      switched = !due_.empty();
      report(from, stop, stop == length ? to : from + stop);
      step_.go_on_from(stop);
      now = stop;
    }
    if (switched) switch_contacts(from + now);
    return now;
  }

  Step::Watch watch(std::size_t u) const {
    const ThermostatUnit& unit = loop_.units[u];
    const bool rises = (si(unit.heat) > 0.0) == bool(contacts_[u]);  // a heater that is on, a chiller that is off
    return {unit.sensor.value_or(unit.node), rises ? 1.0 : -1.0, si(contacts_[u] ? unit.off_at : unit.on_at)};
  }

  // The time of the first contact that switches in this step, else its end; `due_` are those that switch then.
  double first_switching() {
    double first = step_.end();
    due_.clear();
    for (std::size_t u = 0; u < contacts_.size(); ++u) {
      const std::optional<double> at = step_.crossing(watch(u));
      if (!at || *at > first) continue;
      if (*at < first) due_.clear();
      first = *at;
      due_.push_back(u);
    }
    return first;
  }

  void switch_contacts(double time_s) {
    for (const std::size_t u : due_) {
      contacts_[u] = !contacts_[u];
      result_.switchings.push_back({.time = from_si<Time>(time_s), .unit = u, .on = contacts_[u]});
    }
    if (result_.switchings.size() > most_switchings)
      throw NotConverged("switchings of thermostats", time_s, int(most_switchings));
  }

  // What the step up to `stop` says to the caller's questions.
  void report(double from, double stop, double stop_absolute) {
    for (auto next = result_.temperatures.size(); next < result_.times.size(); ++next) {
      const double time = si(result_.times[next]);
      if (time > stop_absolute) break;
      add_temperatures(step_.at(std::clamp(time - from, step_.begin(), stop)));
    }
    for (std::size_t l = 0; l < limits_.size(); ++l) {
      if (result_.reached[l]) continue;
      const std::optional<double> at = step_.crossing(limits_[l]);
      if (at && *at <= stop) result_.reached[l] = from_si<Time>(from + *at);
    }
    for (std::size_t i = 0; i < loop_.nodes.size(); ++i) {
      widen(i, stop);
      for (const double sign : {1.0, -1.0}) {
        const std::optional<double> turned = step_.turn(i, sign);
        if (turned && *turned < stop) widen(i, *turned);
      }
    }
  }

  void widen(std::size_t node, double time) {
    const double t = step_.at(time)[node];
    if (t < si(result_.lowest[node])) result_.lowest[node] = from_si<Temperature>(t);
    if (t > si(result_.highest[node])) result_.highest[node] = from_si<Temperature>(t);
  }

  void add_temperatures(const State& state) {
    std::vector<Temperature> temperatures;
    for (std::size_t i = 0; i < loop_.nodes.size(); ++i) temperatures.push_back(from_si<Temperature>(state[i]));
    result_.temperatures.push_back(std::move(temperatures));
  }

  void add_up() {
    double given = 0.0;
    for (std::size_t u = 0; u < loop_.units.size(); ++u) {
      const ThermostatUnit& unit = loop_.units[u];
      LoopEnergy& energy = result_.units[u];
      energy.heat = unit.heat * energy.running;
      energy.electricity = unit.electricity * energy.running;
      given += si(energy.heat) + (unit.warms ? si(energy.electricity) - si(energy.heat) : 0.0);
    }
    for (std::size_t g = 0; g < loop_.gains.size(); ++g) {
      LoopEnergy& energy = result_.gains[g];
      energy.heat = loop_.gains[g].heat * energy.running;
      energy.electricity = loop_.gains[g].electricity * energy.running;
      given += si(energy.heat);
    }
    double lost = 0.0, stored = 0.0;
    const State& end = step_.state();
    for (std::size_t i = 0; i < loop_.nodes.size(); ++i) {
      const LoopNode& node = loop_.nodes[i];
      result_.lost.push_back(node.capacity * from_si<TemperatureDifference>(end[loop_.nodes.size() + i]));
      result_.stored.push_back(node.capacity * from_si<TemperatureDifference>(end[i] - si(node.start)));
      lost += si(result_.lost.back()) * (node.in_room ? 1.0 - node.share_to_room : 1.0);
      stored += si(result_.stored.back());
    }
    result_.imbalance = from_si<Energy>(given - lost - stored);
    result_.steps = step_.tries();
  }

  const TankLoop& loop_;
  Step step_;
  LoopRun result_{};
  std::vector<bool> contacts_{};
  std::vector<Step::Watch> limits_{};
  std::vector<std::size_t> due_{};
};

}  // namespace

LoopRun run_loop(const TankLoop& loop, const std::vector<Time>& times, const std::vector<LoopLimit>& limits) {
  validate(loop);
  require::that(!times.empty(), "times", 0.0, "at least one");
  for (std::size_t i = 0; i < times.size(); ++i) {
    require::not_negative("time", times[i]);
    require::that(i == 0 || times[i] >= times[i - 1], "time", times[i], "not before the time ahead of it in the list");
  }
  for (const Course& course : loop.courses)
    if (!course.points.empty() && !course.repeats_after)
      require::that(times.back() <= course.points.back().time, "time", times.back(),
                    "not past the last point of a course");
  for (const LoopLimit& limit : limits) {
    require::that(limit.node < loop.nodes.size(), "node of a limit", double(limit.node), "below the number of nodes");
    require::positive("limit", limit.temperature);
  }
  return Runner(loop, times, limits).go();
}

}  // namespace theca::thermal
