#include "batch_run.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "batch_blocks.hpp"
#include "batch_team.hpp"

namespace theca::thermal::detail {

namespace {

// Totals of a run, of bodies and systems in their order.
struct Totals {
  std::vector<double> lowest, highest, end;
  std::vector<Sum> area, cold, warm, lost, vapour;
  std::vector<Sum> heater, chiller, light, sump_area;
  std::vector<int> heater_starts, chiller_starts;
  Totals(std::size_t bodies, std::size_t systems)
      : lowest(bodies, std::numeric_limits<double>::infinity()),
        highest(bodies, -std::numeric_limits<double>::infinity()),
        end(bodies),
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

  void add(const Team& team, std::size_t first_body, std::size_t first_system) {
    for (std::size_t i = 0; i < team.body.size(); ++i) {
      const std::size_t b = team.body[i] - first_body;
      lowest[b] = std::min(lowest[b], team.lowest[i]);
      highest[b] = std::max(highest[b], team.highest[i]);
      area[b].add(team.area[i]);
      cold[b].add(team.cold[i]);
      warm[b].add(team.warm[i]);
      lost[b].add(team.lost[i]);
      vapour[b].add(team.vapour[i]);
      end[b] = team.temperature[i];
    }
    for (std::size_t i = 0; i < team.systems.size(); ++i) {
      const TeamSystem& system = team.systems[i];
      const Devices& devices = system.devices;
      const std::size_t sump = system.plan->sump - first_body, s = first_system + i;
      lowest[sump] = std::min(lowest[sump], devices.sump_lowest);
      highest[sump] = std::max(highest[sump], devices.sump_highest);
      sump_area[s].add(devices.sump_area);
      heater[s].add(devices.heater_time);
      chiller[s].add(devices.chiller_time);
      light[s].add(system.light_time);
      heater_starts[s] += devices.heater_starts;
      chiller_starts[s] += devices.chiller_starts;
    }
  }
};

template <class Q>
void put(std::vector<Q>& list, double x) {
  list.push_back(from_si<Q>(x));
}

}  // namespace

BatchResult run_systems(const BatchPlan& plan, std::size_t first, std::size_t last) {
  BatchResult result;
  if (first == last) return result;
  std::vector<Team> teams = make_teams(plan, first, last);
  const std::size_t first_body = plan.systems[first].first, end_body = plan.systems[last - 1].sump + 1;
  Totals totals(end_body - first_body, last - first);

  // Where the courses asked for belong: team, and place among what that traces.
  std::vector<std::pair<std::size_t, std::size_t>> traces;
  for (const int tank : plan.traced)
    for (std::size_t t = 0; t < teams.size(); ++t)
      for (std::size_t i = 0; i < teams[t].body.size(); ++i)
        if (plan.tank[teams[t].body[i]] == tank) {
          traces.emplace_back(t, teams[t].traced.size());
          teams[t].traced.push_back(i);
          teams[t].traces.emplace_back();
          result.traced.push_back(tank);
          result.courses.push_back({celsius(teams[t].temperature[i])});
        }

  std::vector<CurveBlock> curves = make_curves(plan, first, last);
  for (long begin = 0; begin < plan.steps; begin += block_steps) {
    const long steps = std::min(block_steps, plan.steps - begin);
    narrow(plan, teams, curves);
    fill(plan, begin, steps, curves);
    bool whole_range = false;
    std::size_t system = 0;
    for (Team& team : teams) {
      const TeamState before(team);
      team.block(curves, begin, steps, whole_range);
      if (team.left && !whole_range) {
        widen(plan, curves);
        fill(plan, begin, steps, curves);
        whole_range = true;
        before.restore(team);
        team.block(curves, begin, steps, whole_range);
      }
      if (team.left) refuse_water(plan, team, double(begin) * plan.step / 3600.0);
      totals.add(team, first_body, system);
      system += team.systems.size();
    }
    for (std::size_t i = 0; i < traces.size(); ++i)
      for (const double t : teams[traces[i].first].traces[traces[i].second]) result.courses[i].push_back(celsius(t));
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
    result.end.push_back(celsius(totals.end[i]));
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
    result.sump_end.push_back(celsius(totals.end[i]));
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
