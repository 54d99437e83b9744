#include "batch_runner.hpp"

#include <algorithm>
#include <limits>

namespace theca::thermal::detail {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

PlannedSystem under_faults(const BatchPlan& plan, const PlannedSystem& sound, const Faults& faults,
                           double heater_cutout) {
  PlannedSystem system = sound;
  if (faults.no_power || faults.heater_off) {
    system.heater_on = system.heater_off = -never;
  } else if (faults.heater_stuck_on) {
    system.heater_on = heater_cutout - (sound.heater_off - sound.heater_on);
    system.heater_off = heater_cutout;
  }
  if (faults.no_power || faults.chiller_off) system.chiller_on = system.chiller_off = never;
  if (faults.no_power) system.lights_length = 0.0;
  if (faults.no_power || faults.pump_off) {
    system.gain = 0.0;
    std::vector<double> capacity, exchange;
    for (EqualTanks& g : system.groups) {
      g.rate = 0.0;
      capacity.push_back(g.capacity);
      exchange.push_back(0.0);
    }
    exchange.pop_back();
    system.leak = (*plan.tables[plan.curves[plan.curve[system.sump]].table].data).slope;
    system.modes = exchange_modes(capacity, exchange, system.leak);
  }
  return system;
}

}  // namespace

BatchRunner::BatchRunner(std::shared_ptr<const BatchPlan> plan, std::size_t first, std::size_t last,
                         double heater_cutout)
    : plan_(std::move(plan)),
      first_(first),
      first_body_(first < last ? plan_->systems[first].first : 0),
      bodies_(first < last ? plan_->systems[last - 1].sump + 1 - first_body_ : 0),
      heater_cutout_(heater_cutout),
      teams_(make_teams(*plan_, first, last)),
      variants_(last - first) {
  if (first < last) curves_ = make_curves(*plan_, first, last);
  for (std::vector<double>* v :
       {&day_.lowest, &day_.highest, &day_.area, &day_.cold, &day_.warm, &day_.lost, &day_.vapour})
    v->resize(bodies_);
  for (std::vector<double>* v : {&day_.heater_time, &day_.chiller_time, &day_.light_time}) v->resize(last - first);
  day_.heater_starts.resize(last - first);
  day_.chiller_starts.resize(last - first);
}

BatchMidnight BatchRunner::midnight() const {
  BatchMidnight m;
  m.temperature.resize(bodies_);
  m.rate.resize(bodies_);
  for (const Team& team : teams_) {
    for (std::size_t i = 0; i < team.body.size(); ++i) {
      m.temperature[team.body[i] - first_body_] = team.temperature[i];
      m.rate[team.body[i] - first_body_] = team.rate[i];
    }
    for (const TeamSystem& s : team.systems) {
      m.heater_on.push_back(static_cast<char>(s.devices.heater_on));
      m.chiller_on.push_back(static_cast<char>(s.devices.chiller_on));
    }
  }
  return m;
}

void BatchRunner::take_up(const BatchMidnight& from) {
  std::size_t system = 0;
  for (Team& team : teams_) {
    for (std::size_t i = 0; i < team.body.size(); ++i) {
      team.temperature[i] = from.temperature[team.body[i] - first_body_];
      team.rate[i] = from.rate[team.body[i] - first_body_];
    }
    for (TeamSystem& s : team.systems) {
      s.devices.heater_on = from.heater_on[system] != 0;
      s.devices.chiller_on = from.chiller_on[system++] != 0;
    }
  }
}

const PlannedSystem* BatchRunner::plan_under(std::size_t system, const Faults& faults) {
  const PlannedSystem& sound = plan_->systems[system];
  if (faults == Faults{}) return &sound;
  auto& known = variants_[system - first_];
  for (const auto& v : known)
    if (v->faults == faults) return &v->plan;
  known.push_back(std::make_unique<Variant>(Variant{faults, under_faults(*plan_, sound, faults, heater_cutout_)}));
  return &known.back()->plan;
}

const BatchDay& BatchRunner::run(long day, std::span<const FaultChange> changes) {
  const long steps = std::lround(86400.0 / plan_->step), begin = day * steps;
  narrow(*plan_, teams_, curves_);
  fill(*plan_, begin, steps, curves_);
  bool whole_range = false;
  auto change = changes.begin();
  std::size_t first_of_team = first_;
  for (Team& team : teams_) {
    team.changes.clear();
    for (; change != changes.end() && change->system < first_of_team + team.systems.size(); ++change)
      team.changes.push_back(
          {change->step, change->system - first_of_team, plan_under(change->system, change->faults)});
    std::stable_sort(team.changes.begin(), team.changes.end(),
                     [](const PlanChange& a, const PlanChange& b) { return a.step < b.step; });
    first_of_team += team.systems.size();

    const TeamState before(team);
    team.block(curves_, begin, steps, whole_range);
    if (team.left && !whole_range) {
      widen(*plan_, curves_);
      fill(*plan_, begin, steps, curves_);
      whole_range = true;
      before.restore(team);
      team.block(curves_, begin, steps, whole_range);
    }
    if (team.left) refuse_water(*plan_, team, double(begin) * plan_->step / 3600.0);
  }

  std::size_t system = 0;
  for (const Team& team : teams_) {
    for (std::size_t i = 0; i < team.body.size(); ++i) {
      const std::size_t b = team.body[i] - first_body_;
      day_.lowest[b] = team.lowest[i];
      day_.highest[b] = team.highest[i];
      day_.area[b] = team.area[i];
      day_.cold[b] = team.cold[i];
      day_.warm[b] = team.warm[i];
      day_.lost[b] = team.lost[i];
      day_.vapour[b] = team.vapour[i];
    }
    for (const TeamSystem& s : team.systems) {
      const std::size_t sump = s.plan->sump - first_body_;
      day_.lowest[sump] = std::min(day_.lowest[sump], s.devices.sump_lowest);
      day_.highest[sump] = std::max(day_.highest[sump], s.devices.sump_highest);
      day_.heater_time[system] = s.devices.heater_time;
      day_.chiller_time[system] = s.devices.chiller_time;
      day_.light_time[system] = s.light_time;
      day_.heater_starts[system] = s.devices.heater_starts;
      day_.chiller_starts[system] = s.devices.chiller_starts;
      std::erase_if(variants_[system], [&s](const auto& v) { return &v->plan != s.plan; });
      ++system;
    }
  }
  return day_;
}

}  // namespace theca::thermal::detail
