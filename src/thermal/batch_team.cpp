#include "batch_team.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "batch_loops.hpp"
#include "theca/require.hpp"

namespace theca::thermal::detail {

namespace {
constexpr double day = 86400.0;
constexpr double clock_rounding = 1e-6;  // s
// Where a thermostat switches the water ends elsewhere than foreseen, and the losses are read again from there.
// Either may be off by what hardly moves a loss: 10 mK of a tank over a step is some 0.05 mK of its temperature. The
// sump's own swing is taken in closed form but for how its slope of loss differs from the mean.
constexpr double foreseen_within = 1e-2, sump_foreseen_within = 0.1;  // K
constexpr int most_readings = 3;
}  // namespace

TeamSystem::TeamSystem(const PlannedSystem& planned, double step)
    : plan(&planned), step_(step), course_(planned.modes) {
  for (std::vector<double>* v : {&mean, &next_mean, &heat, &slope}) v->resize(planned.groups.size());
  groups.resize(planned.groups.size());
  decays(step, whole_step);
}

void TeamSystem::follow(const PlannedSystem& planned) {
  if (plan == &planned) return;
  plan = &planned;
  course_ = ExchangeCourse(planned.modes);
  decays(step_, whole_step);
}

void TeamSystem::decays(double h, StepDecays& d) const {
  mode_decays(h, d.modes);
  d.groups.clear();
  for (const EqualTanks& g : plan->groups) d.groups.push_back(decay(g.rate * h));
}

void TeamSystem::mode_decays(double h, std::vector<Decay>& d) const {
  d.clear();
  for (const double r : plan->modes.rate) d.push_back(decay(r * h));
}

void TeamSystem::exchange(double h, const StepDecays& d, Devices& after) {
  constexpr int most_switchings = 10000;
  course_.start(mean.data(), heat.data(), slope.data());
  course_.add_to_sump((after.heater_on ? plan->heater : 0.0) - (after.chiller_on ? plan->chiller : 0.0));
  double left_over = h;
  for (int switchings = 0;; ++switchings) {
    if (switchings > most_switchings) throw NotConverged("thermostat within a step", left_over, switchings);
    while (switched(course_.sump(), after)) {
    }
    double low = -std::numeric_limits<double>::infinity(), high = -low;
    if (plan->heater > 0.0) {
      if (after.heater_on)
        high = plan->heater_off;
      else
        low = plan->heater_on;
    }
    if (plan->chiller > 0.0) {
      if (after.chiller_on)
        low = std::max(low, plan->chiller_off);
      else
        high = std::min(high, plan->chiller_on);
    }
    if (switchings > 0) mode_decays(left_over, rest_);
    const std::vector<Decay>& at_end = switchings > 0 ? rest_ : d.modes;
    const double time = course_.first_exit(low, high, left_over, at_end.data());
    if (time < left_over) {
      mode_decays(time, exit_);
      after.sump_area += course_.advance(time, exit_.data());
    } else {
      after.sump_area += course_.advance(time, at_end.data());
    }
    if (after.heater_on) after.heater_time += time;
    if (after.chiller_on) after.chiller_time += time;
    left_over -= time;
    const double at = course_.sump();
    after.sump_lowest = std::min(after.sump_lowest, at);
    after.sump_highest = std::max(after.sump_highest, at);
    if (!(left_over > 0.0)) break;
    toggle_at(at, low, high, after);
  }
  course_.temperatures(next_mean.data());
}

// A thermostat that the sump's temperature calls for, as at the start of a run; true where one has switched.
bool TeamSystem::switched(double at, Devices& after) {
  if (plan->heater > 0.0 && !after.heater_on && at < plan->heater_on) return set_heater(true, after);
  if (plan->heater > 0.0 && after.heater_on && at > plan->heater_off) return set_heater(false, after);
  if (plan->chiller > 0.0 && !after.chiller_on && at > plan->chiller_on) return set_chiller(true, after);
  if (plan->chiller > 0.0 && after.chiller_on && at < plan->chiller_off) return set_chiller(false, after);
  return false;
}
// The thermostat whose limit the sump stands on, on either side of it by rounding.
void TeamSystem::toggle_at(double at, double low, double high, Devices& after) {
  if (std::abs(at - low) < std::abs(at - high)) {
    if (plan->heater > 0.0 && !after.heater_on && low == plan->heater_on)
      set_heater(true, after);
    else
      set_chiller(false, after);
  } else {
    if (plan->heater > 0.0 && after.heater_on && high == plan->heater_off)
      set_heater(false, after);
    else
      set_chiller(true, after);
  }
}
bool TeamSystem::set_heater(bool on, Devices& after) {
  after.heater_on = on;
  after.heater_starts += on ? 1 : 0;
  course_.add_to_sump(on ? plan->heater : -plan->heater);
  return true;
}
bool TeamSystem::set_chiller(bool on, Devices& after) {
  after.chiller_on = on;
  after.chiller_starts += on ? 1 : 0;
  course_.add_to_sump(on ? -plan->chiller : plan->chiller);
  return true;
}

Team::Team(const BatchPlan& plan, std::size_t first, std::size_t last) : plan_(plan) {
  // By curve, then by system and group: a group of a system is a cell of every curve that its tanks are on.
  struct Place {
    std::size_t curve, system, group, body;
  };
  std::vector<Place> places;
  for (std::size_t s = first; s < last; ++s) {
    const PlannedSystem& planned = plan.systems[s];
    systems.emplace_back(planned, plan.step);
    for (std::size_t g = 0; g < planned.groups.size(); ++g)
      for (std::size_t b = planned.groups[g].first; b < planned.groups[g].last; ++b)
        places.push_back({plan.curve[b], s - first, g, b});
  }
  std::sort(places.begin(), places.end(), [](const Place& a, const Place& b) {
    return std::array{a.curve, a.system, a.group, a.body} < std::array{b.curve, b.system, b.group, b.body};
  });
  const auto extend = [](std::vector<Cell>& cells, std::size_t at, std::size_t curve) {
    if (cells.empty() || cells.back().last != at || cells.back().curve != curve) cells.push_back({at, at, curve});
    cells.back().last = at + 1;
  };
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Place& p = places[i];
    TeamSystem& system = systems[p.system];
    extend(runs, i, p.curve);
    extend(system.cells, i, p.curve);
    extend(system.groups[p.group], i, p.curve);
    if (p.body == system.plan->sump) system.sump = i;
    body.push_back(p.body);
    temperature.push_back(plan.start[p.body]);
    capacity_.push_back(plan.capacity[p.body]);
    inverse_capacity_.push_back(1.0 / plan.capacity[p.body]);
  }
  for (std::vector<double>* v :
       {&rate, &light_now_, &start_loss_, &end_loss_, &vapour_now_, &heat_, &foreseen_, &next_, &one_, &other_})
    v->assign(places.size(), 0.0);
}

void Team::block(const std::vector<CurveBlock>& curves, long first_step, long steps, bool whole_range) {
  lowest = highest = temperature;
  for (std::vector<double>* v : {&area, &cold, &warm, &lost, &vapour}) v->assign(temperature.size(), 0.0);
  for (TeamSystem& s : systems) {
    const Devices before = s.devices;
    s.devices = {.heater_on = before.heater_on,
                 .chiller_on = before.chiller_on,
                 .sump_lowest = temperature[s.sump],
                 .sump_highest = temperature[s.sump]};
    s.light_time = 0.0;
  }
  for (std::vector<double>& t : traces) t.clear();
  left = false;
  beyond_ = true;
  whole_range_ = whole_range;
  auto change = changes.begin();
  for (long n = 0; n < steps && !left; ++n) {
    for (; change != changes.end() && change->step == n; ++change) systems[change->system].follow(*change->plan);
    step(curves, n, std::fmod(double(first_step + n) * plan_.step, day));
    for (std::size_t i = 0; i < traced.size(); ++i) traces[i].push_back(temperature[traced[i]]);
  }
  for (const Cell& run : runs)
    left |=
        any_beyond(temperature.data() + run.first, run.last - run.first, curves[run.curve].low, curves[run.curve].high);
}

void Team::light(TeamSystem& system, bool on) {
  if (system.lit == on) return;
  system.lit = on;
  for (const Cell& c : system.cells)
    for (std::size_t i = c.first; i < c.last; ++i) light_now_[i] = on ? plan_.light[body[i]] : 0.0;
}

void Team::step(const std::vector<CurveBlock>& curves, long node, double time_of_day) {
  // Since the lights last went on, of every system; those whose lights switch within the step make all go alone.
  const double h = plan_.step;
  bool cut = false;
  const auto lit_for = [&](const TeamSystem& s) {
    const double since = time_of_day - s.plan->lights_from;
    return since < -clock_rounding ? since + day : std::max(since, 0.0);
  };
  const auto inside = [&](double edge) { return edge > clock_rounding && edge < h - clock_rounding; };
  for (TeamSystem& s : systems) {
    const double since = lit_for(s), length = s.plan->lights_length;
    light(s, since + clock_rounding < length);
    if (length > 0.0 && length < day) cut |= inside(length - since) || inside(day - since);
  }
  if (cut) {
    for (std::size_t s = 0; s < systems.size(); ++s) step_alone(s, curves, node, lit_for(systems[s]));
    beyond_ = true;
    return;
  }
  stretch(curves, {node, 0.0, 1.0, h}, 0, systems.size(), runs);
}

// A step cut where the lights of one system go on or off.
void Team::step_alone(std::size_t index, const std::vector<CurveBlock>& curves, long node, double lit_for) {
  TeamSystem& system = systems[index];
  const double h = plan_.step, length = system.plan->lights_length;
  std::array<double, 3> cuts{h, h, h};
  if (length > 0.0 && length < day) {
    cuts[0] = std::min(h, day - lit_for);
    cuts[1] = std::min(h, length > lit_for ? length - lit_for : h);
    std::sort(cuts.begin(), cuts.end());
  }
  double from = 0.0;
  for (const double cut : cuts) {
    if (cut - from <= clock_rounding) continue;
    const double to = h - cut <= clock_rounding ? h : cut;
    light(system, std::fmod(lit_for + 0.5 * (from + to), day) < length);
    if (from > 0.0 || to < h) system.decays(to - from, system.part_step);
    beyond_ = true;
    stretch(curves, {node, from / h, to / h, to - from}, index, index + 1, system.cells);
    from = to;
    if (from == h) return;
  }
}

void Team::stretch(const std::vector<CurveBlock>& curves, const Stretch& s, std::size_t first_system,
                   std::size_t last_system, const std::vector<Cell>& places) {
  const bool whole = s.from == 0.0 && s.to == 1.0;
  read(curves, places, s.node, s.from, temperature.data(), true, start_loss_.data(), vapour_now_.data());
  for (const Cell& c : places)
    foresee(s.h, &light_now_[c.first], &start_loss_[c.first], &temperature[c.first], &rate[c.first], c.last - c.first,
            &heat_[c.first], &foreseen_[c.first]);
  read(curves, places, s.node, s.to, foreseen_.data(), !whole_range_, end_loss_.data(), nullptr);

  for (std::size_t i = first_system; i < last_system; ++i) {
    TeamSystem& system = systems[i];
    Devices after;
    for (int reading = 1;; ++reading) {
      after = system.devices;
      const bool as_foreseen = move_system(system, s, whole ? system.whole_step : system.part_step, after);
      if (as_foreseen || reading == most_readings) break;
      for (const Cell& c : system.cells)
        std::copy(next_.begin() + std::ptrdiff_t(c.first), next_.begin() + std::ptrdiff_t(c.last),
                  foreseen_.begin() + std::ptrdiff_t(c.first));
      read(curves, system.cells, s.node, s.to, foreseen_.data(), !whole_range_, end_loss_.data(), nullptr);
    }
    // The sump's temperature swings within a stretch, and its loss with it.
    lost[system.sump] += system.plan->leak * (after.sump_area - system.devices.sump_area -
                                              0.5 * s.h * (temperature[system.sump] + foreseen_[system.sump]));
    system.devices = after;
    if (system.lit) system.light_time += s.h;
  }

  const bool was_beyond = beyond_;
  beyond_ = false;
  for (const Cell& c : places)
    beyond_ |= any_beyond(&next_[c.first], c.last - c.first, plan_.cold_limit, plan_.warm_limit);
  for (const Cell& c : places) {
    if (was_beyond || beyond_)
      count_beyond(s.h, &temperature[c.first], &next_[c.first], c.last - c.first, plan_.cold_limit, plan_.warm_limit,
                   &cold[c.first], &warm[c.first]);
    take_on(s.h, &next_[c.first], &start_loss_[c.first], &end_loss_[c.first], &vapour_now_[c.first], c.last - c.first,
            &temperature[c.first], &rate[c.first], &lowest[c.first], &highest[c.first], &area[c.first], &lost[c.first],
            &vapour[c.first]);
  }
}

// Losses at a share of a step, between the curves at its start and end.
void Team::read(const std::vector<CurveBlock>& curves, const std::vector<Cell>& places, long node, double way,
                const double* water, bool check, double* loss, double* vapour_flow) {
  for (const Cell& place : places) {
    const CurveBlock& c = curves[place.curve];
    const std::size_t first = place.first, count = place.last - place.first;
    const auto at = [&](long which, double* q, double* e) {
      const bool inside = read_losses(c.grid, c.at(which), c.low, c.high, water + first, count, q + first,
                                      e == nullptr ? nullptr : e + first);
      left |= check && !inside;
    };
    at(way == 1.0 ? node + 1 : node, loss, vapour_flow);
    if (way == 0.0 || way == 1.0) continue;
    at(node + 1, one_.data(), vapour_flow == nullptr ? nullptr : other_.data());
    for (std::size_t i = first; i < place.last; ++i) {
      loss[i] += way * (one_[i] - loss[i]);
      if (vapour_flow != nullptr) vapour_flow[i] += way * (other_[i] - vapour_flow[i]);
    }
  }
}

// Takes the bodies of a system to next_, under losses that run straight from start_loss_ to end_loss_; true where they
// end as foreseen.
bool Team::move_system(TeamSystem& system, const Stretch& s, const StepDecays& d, Devices& after) {
  const std::size_t groups = system.groups.size(), sump = system.sump;
  for (std::size_t g = 0; g < groups; ++g) {
    double heat = 0.0, change = 0.0, stored = 0.0;
    for (const Cell& c : system.groups[g])
      for (std::size_t i = c.first; i < c.last; ++i) {
        heat += heat_[i];
        change += start_loss_[i] - end_loss_[i];
        stored += capacity_[i] * temperature[i];
      }
    system.heat[g] = heat;
    system.slope[g] = change / s.h;
    system.mean[g] = stored / system.plan->groups[g].capacity;
  }
  system.heat[groups - 1] += system.plan->gain + system.plan->leak * temperature[sump];
  system.slope[groups - 1] += system.plan->leak * (foreseen_[sump] - temperature[sump]) / s.h;
  system.exchange(s.h, d, after);

  next_[sump] = system.next_mean[groups - 1];
  bool as_foreseen = std::abs(next_[sump] - foreseen_[sump]) <= sump_foreseen_within;
  for (std::size_t g = 0; g + 1 < groups; ++g) {
    const Decay& e = d.groups[g];
    const double at_start = s.h * e.first, at_change = s.h * e.second;
    // Less the mean, which the modes have taken on: what a tank is off it decays, and is fed by what its heat is off.
    const double base =
        system.next_mean[g] - e.exp * system.mean[g] -
        (at_start * system.heat[g] + at_change * s.h * system.slope[g]) / system.plan->groups[g].capacity;
    for (const Cell& c : system.groups[g])
      as_foreseen &= move(base, e.exp, at_start, at_change, &temperature[c.first], &heat_[c.first],
                          &start_loss_[c.first], &end_loss_[c.first], &inverse_capacity_[c.first], c.last - c.first,
                          &foreseen_[c.first], foreseen_within, &next_[c.first]);
  }
  return as_foreseen;
}

}  // namespace theca::thermal::detail
