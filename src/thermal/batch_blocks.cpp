#include "batch_blocks.hpp"

#include <algorithm>
#include <limits>
#include <string>

#include "theca/require.hpp"

namespace theca::thermal::detail {

namespace {
constexpr std::size_t team_bodies = 320;  // what their state takes stays in the first caches
constexpr double window_margin = 1.5;     // K about the water's temperatures at the start of a block
}  // namespace

std::vector<Team> make_teams(const BatchPlan& plan, std::size_t first, std::size_t last) {
  std::vector<Team> teams;
  for (std::size_t begin = first; begin < last;) {
    std::size_t end = begin + 1;
    while (end < last && plan.systems[end].sump + 1 - plan.systems[begin].first <= team_bodies) ++end;
    teams.emplace_back(plan, begin, end);
    begin = end;
  }
  return teams;
}

void narrow(const BatchPlan& plan, const std::vector<Team>& teams, std::vector<CurveBlock>& curves) {
  for (CurveBlock& c : curves) {
    c.low = std::numeric_limits<double>::infinity();
    c.high = -c.low;
  }
  for (const Team& team : teams)
    for (const Cell& run : team.runs) {
      CurveBlock& c = curves[run.curve];
      for (std::size_t i = run.first; i < run.last; ++i) {
        c.low = std::min(c.low, team.temperature[i] - window_margin);
        c.high = std::max(c.high, team.temperature[i] + window_margin);
      }
    }
  for (CurveBlock& c : curves) {
    c.low = std::max(c.low, plan.water_low);
    c.high = std::min(c.high, plan.water_high);
  }
}
void widen(const BatchPlan& plan, std::vector<CurveBlock>& curves) {
  for (CurveBlock& c : curves) {
    c.low = plan.water_low;
    c.high = plan.water_high;
  }
}

[[noreturn]] void refuse_water(const BatchPlan& plan, const Team& team, double hours) {
  for (std::size_t i = 0; i < team.body.size(); ++i) {
    const double t = team.temperature[i];
    if (t >= plan.water_low && t <= plan.water_high) continue;
    const int tank = plan.tank[team.body[i]];
    throw OutOfValidity("batch of tanks",
                        (tank < 0 ? std::string("water of a sump") : "water of tank " + std::to_string(tank)) + " at " +
                            text(celsius(t)) + " within a day after " + number(hours) + " h, its range " +
                            text(celsius(plan.water_low)) + " to " + text(celsius(plan.water_high)));
  }
  throw OutOfValidity("batch of tanks", "water past its range");
}

TeamState::TeamState(const Team& team) : temperature(team.temperature), rate(team.rate) {
  for (const TeamSystem& s : team.systems) {
    devices.push_back(s.devices);
    plans.push_back(s.plan);
  }
}
void TeamState::restore(Team& team) const {
  team.temperature = temperature;
  team.rate = rate;
  for (std::size_t i = 0; i < devices.size(); ++i) {
    team.systems[i].devices = devices[i];
    team.systems[i].follow(*plans[i]);
  }
}

}  // namespace theca::thermal::detail
