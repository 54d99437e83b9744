#include "theca/hydraulics/drain_back_transient.hpp"

#include <algorithm>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <cmath>

#include "theca/hydraulics/friction.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
using State = std::vector<double>;  // levels of the tanks, then of the sump, in m
using Method = boost::numeric::odeint::runge_kutta_dopri5<State>;

void validate(const OverflowingTank& tank) {
  require::positive("surface", tank.surface);
  require::not_negative("weir crest", tank.weir_crest);
  require::not_negative("inflow", tank.inflow);
  require::that(tank.count >= 1, "count", static_cast<double>(tank.count), "1 or more");
  if (!tank.siphon) return;
  require::positive("siphon bore", tank.siphon->bore);
  require::that(std::isfinite(tank.siphon->total_K) && tank.siphon->total_K >= 1.0, "total K", tank.siphon->total_K,
                "1 or more: the exit alone is 1");
  require::not_negative("siphon break", tank.siphon->breaks_at);
}

double rest_level(const OverflowingTank& tank) {
  return tank.siphon ? si(rest_level_of(tank.weir_crest, tank.siphon->breaks_at)) : si(tank.weir_crest);
}

void validate(const std::vector<OverflowingTank>& tanks, const ReceivingSump& sump, const std::vector<Time>& times) {
  require::that(!tanks.empty(), "number of tanks", 0.0, "1 or more");
  require::positive("sump surface", sump.surface);
  require::not_negative("running level", sump.running_level);
  require::not_negative("content of pipes", sump.pipes);
  require::positive("time in which pipes empty", sump.pipes_empty_in);
  for (const OverflowingTank& tank : tanks) validate(tank);
  Time last;
  for (const Time& time : times) {
    require::not_negative("time", time);
    require::that(time >= last, "time", time, "not before the time ahead of it in the list");
    last = time;
  }
}

// Level of the sump when everything has drained.
double drained_level(const std::vector<OverflowingTank>& tanks, const ReceivingSump& sump) {
  std::vector<DrainingTank> resting;
  resting.reserve(tanks.size());
  for (const OverflowingTank& tank : tanks)
    resting.push_back({tank.surface, running_level(tank), from_si<Length>(rest_level(tank)), tank.count});
  const Length level = sump_level_after(drain_back(resting, sump.pipes), sump.surface, sump.running_level);
  for (const OverflowingTank& tank : tanks)
    require::that(si(level) <= rest_level(tank), "sump level after drain-back", level,
                  "at most the tanks' rest level, " + text(from_si<Length>(rest_level(tank))));
  return si(level);
}

double weir_outflow(const OverflowingTank& tank, double level) {
  const double head = level - si(tank.weir_crest);
  return head > 0.0 ? kernel::weir_flow(si(tank.weir.crest_length), tank.weir.end_contractions, head) : 0.0;
}
double siphon_outflow(const OverflowingTank& tank, double level, double sump_level) {
  const double drive = std::max(level - sump_level, 0.0);
  return kernel::bore_area(si(tank.siphon->bore)) *
         std::sqrt(2.0 * units::detail::standard_gravity * drive / tank.siphon->total_K);
}

class Plumbing {
 public:
  Plumbing(const std::vector<OverflowingTank>& tanks, const ReceivingSump& sump, double inflow_factor, State start)
      : tanks_(tanks),
        sump_(sump),
        inflow_factor_(inflow_factor),
        state_(std::move(start)),
        lowest_(state_.back()),
        highest_(state_.back()),
        siphoning_(tanks.size(), false) {
    if (inflow_factor_ > 0.0) return;  // the pump's pressure keeps the lines from running back
    for (std::size_t i = 0; i < tanks.size(); ++i)
      siphoning_[i] = tanks[i].siphon && state_[i] > si(tanks[i].siphon->breaks_at);
  }

  void advance(double target) {
    const double kink = si(sump_.pipes_empty_in);
    if (now_ < kink && target > kink) run(kink);
    run(target);
  }
  DrainBackMoment moment(const Time& time) const {
    DrainBackMoment m{time, from_si<Length>(state_.back()), {}};
    for (std::size_t i = 0; i < tanks_.size(); ++i) m.tank_levels.push_back(from_si<Length>(state_[i]));
    return m;
  }
  Length lowest() const { return from_si<Length>(lowest_); }
  Length highest() const { return from_si<Length>(highest_); }

 private:
  static constexpr int step_limit = 200000;
  static constexpr double level_tolerance_m = 1e-9;
  static constexpr double least_step_s = 1e-9;

  void slopes(const State& y, State& dydt, bool pipes_running) const {
    double to_sump =
        pipes_running ? (inflow_factor_ > 0.0 ? -1.0 : 1.0) * si(sump_.pipes) / si(sump_.pipes_empty_in) : 0.0;
    for (std::size_t i = 0; i < tanks_.size(); ++i) {
      const double in = inflow_factor_ * si(tanks_[i].inflow);
      const double out =
          weir_outflow(tanks_[i], y[i]) + (siphoning_[i] ? siphon_outflow(tanks_[i], y[i], y.back()) : 0.0);
      dydt[i] = (in - out) / si(tanks_[i].surface);
      to_sump += tanks_[i].count * (out - in);
    }
    dydt.back() = to_sump / si(sump_.surface);
  }
  bool past_a_break(const State& y) const {
    for (std::size_t i = 0; i < tanks_.size(); ++i)
      if (siphoning_[i] && y[i] < si(tanks_[i].siphon->breaks_at) - level_tolerance_m) return true;
    return false;
  }

  void run(double target) {
    const bool pipes_running = now_ < si(sump_.pipes_empty_in);
    const auto system = [&](const State& y, State& dydt, double) { slopes(y, dydt, pipes_running); };
    while (now_ < target) {
      if (++tries_ > step_limit) throw NotConverged("drain-back course", target - now_, step_limit);
      const double left = target - now_;
      const bool last = left < step_;
      double trial = last ? left : step_, time = now_;
      auto stepper = boost::numeric::odeint::make_controlled<Method>(1e-10, 1e-10);
      State next = state_;
      const double tried = trial;
      if (stepper.try_step(system, next, time, trial) != boost::numeric::odeint::success) {
        step_ = trial;
        continue;
      }
      // A step over a siphon's end is taken again in halves, so that the end is met to a nanometre.
      if (past_a_break(next) && tried > least_step_s) {
        step_ = 0.5 * tried;
        continue;
      }
      state_ = next;
      now_ = last ? target : time;
      if (!last) step_ = trial;
      for (std::size_t i = 0; i < tanks_.size(); ++i)
        if (siphoning_[i] && state_[i] <= si(tanks_[i].siphon->breaks_at) + level_tolerance_m) siphoning_[i] = false;
      lowest_ = std::min(lowest_, state_.back());
      highest_ = std::max(highest_, state_.back());
    }
  }

  const std::vector<OverflowingTank>& tanks_;
  const ReceivingSump& sump_;
  double inflow_factor_;
  State state_;
  double lowest_, highest_;
  std::vector<bool> siphoning_;
  double now_ = 0.0, step_ = 0.1;
  int tries_ = 0;
};

DrainBackCourse follow(Plumbing plumbing, const std::vector<Time>& times) {
  DrainBackCourse course;
  course.moments.reserve(times.size());
  for (const Time& time : times) {
    plumbing.advance(si(time));
    course.moments.push_back(plumbing.moment(time));
  }
  course.lowest_sump_level = plumbing.lowest();
  course.highest_sump_level = plumbing.highest();
  return course;
}
// What the tanks hold more at the surged flow than at the steady one.
Volume taken_by_surge(const std::vector<OverflowingTank>& tanks, double surge) {
  require::that(!tanks.empty(), "number of tanks", 0.0, "1 or more");
  require::within("surge", surge, 1.0, 1.5);
  Volume taken;
  for (const OverflowingTank& tank : tanks) {
    validate(tank);
    taken += double(tank.count) * tank.surface *
             (weir_head(tank.weir, surge * tank.inflow) - weir_head(tank.weir, tank.inflow));
  }
  return taken;
}
}  // namespace

Length running_level(const OverflowingTank& tank) {
  validate(tank);
  return tank.weir_crest + weir_head(tank.weir, tank.inflow);
}

DrainBackCourse drain_back_course(const std::vector<OverflowingTank>& tanks, const ReceivingSump& sump,
                                  const std::vector<Time>& times) {
  validate(tanks, sump, times);
  drained_level(tanks, sump);  // refuses a sump that would back up into the tanks
  State start;
  for (const OverflowingTank& tank : tanks) start.push_back(si(running_level(tank)));
  start.push_back(si(sump.running_level));
  return follow(Plumbing(tanks, sump, 0.0, std::move(start)), times);
}

DrainBackCourse restart_course(const std::vector<OverflowingTank>& tanks, const ReceivingSump& sump,
                               const std::vector<Time>& times, double surge) {
  validate(tanks, sump, times);
  require::within("surge", surge, 1.0, 1.5);
  State start;
  for (const OverflowingTank& tank : tanks) {
    weir_head(tank.weir, surge * tank.inflow);  // the weir's law holds at the surged flow
    start.push_back(rest_level(tank));
  }
  start.push_back(drained_level(tanks, sump));
  DrainBackCourse course = follow(Plumbing(tanks, sump, surge, std::move(start)), times);
  require::that(si(course.lowest_sump_level) >= 0.0, "sump running level", sump.running_level,
                "high enough that the sump does not run dry at restart, with " + text(sump.surface) + " of surface");
  return course;
}

Length sump_level_at_restart(const std::vector<OverflowingTank>& tanks, const Area& sump_surface,
                             const Length& running_level, double surge) {
  require::positive("sump surface", sump_surface);
  require::not_negative("running level", running_level);
  return running_level - taken_by_surge(tanks, surge) / sump_surface;
}

Length least_sump_running_level(const std::vector<OverflowingTank>& tanks, const Area& sump_surface,
                                const Length& least_level, double surge) {
  require::positive("sump surface", sump_surface);
  require::not_negative("least level", least_level);
  return least_level + taken_by_surge(tanks, surge) / sump_surface;
}

}  // namespace theca::hydraulics
