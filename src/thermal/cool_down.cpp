#include "theca/thermal/cool_down.hpp"

#include <array>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <cmath>
#include <string_view>
#include <utility>

#include "theca/require.hpp"
#include "theca/seawater.hpp"

namespace theca::thermal {

namespace {
void require_standing(const StandingWater& water) {
  require::positive("heat capacity", water.capacity);
  require::positive("start temperature", water.start);
  require::that(static_cast<bool>(water.loss), "loss", 0.0, "a function of the water temperature");
}

double finite_loss(const StandingWater& water, double temperature_K) {
  const Power loss = water.loss(from_si<Temperature>(temperature_K));
  require::finite("loss", loss);
  return si(loss);
}
// One ordinary differential equation, carried forward with error control.
class Integrator {
 public:
  Integrator(double start, double absolute_tolerance, double relative_tolerance, double first_step)
      : state_{start},
        step_(first_step),
        stepper_(boost::numeric::odeint::make_controlled<Method>(absolute_tolerance, relative_tolerance)) {}

  /// Advances the independent variable to `target`; `slope(y)` is dy/dx, or dy/dx at x for `slope(y, x)`.
  template <class Slope>
  double advance(double target, std::string_view what, const Slope& slope) {
    const auto system = [&](const State& y, State& dydx, double x) { dydx[0] = slope(y[0], x); };
    while (now_ < target) {
      if (++tries_ > step_limit) throw NotConverged(what, target - now_, step_limit);
      const double left = target - now_;
      const bool last = left < step_;
      double trial = last ? left : step_;
      const auto outcome = stepper_.try_step(system, state_, now_, trial);
      if (outcome == boost::numeric::odeint::success && last) {
        now_ = target;  // a step cut short says nothing about the step that accuracy would allow
      } else {
        step_ = trial;
      }
    }
    return state_[0];
  }
  double now() const { return now_; }

 private:
  using State = std::array<double, 1>;
  using Method = boost::numeric::odeint::runge_kutta_dopri5<State>;
  static constexpr int step_limit = 100000;
  State state_;
  double now_ = 0.0;
  double step_;
  int tries_ = 0;
  decltype(boost::numeric::odeint::make_controlled<Method>(1.0, 1.0)) stepper_;
};

}  // namespace

HeatCapacity water_heat_capacity(const Volume& volume, const Water& water) {
  require::positive("volume", volume);
  return volume * seawater::density(water.temperature, water.salinity) *
         seawater::specific_heat_capacity(water.temperature, water.salinity);
}

std::function<Power(const Temperature&)> loss_of(TankSystem system, AbsoluteSalinity salinity, Room room) {
  return [system = std::move(system), salinity, room = std::move(room)](const Temperature& temperature) {
    return system_balance(system, {.temperature = temperature, .salinity = salinity}, room).net;
  };
}

std::vector<Temperature> temperature_course(const StandingWater& water, const std::vector<Time>& times) {
  require_standing(water);
  const double capacity = si(water.capacity);
  Integrator integrator(si(water.start), 1e-8, 0.0, 60.0);  // K, and a first step in s; it finds its own
  std::vector<Temperature> course;
  course.reserve(times.size());
  for (const Time& time : times) {
    require::not_negative("time", time);
    require::that(si(time) >= integrator.now(), "time", time, "not before the time ahead of it in the list");
    course.push_back(from_si<Temperature>(integrator.advance(
        si(time), "temperature course of standing water",
        [&](double temperature_K, double) { return -finite_loss(water, temperature_K) / capacity; })));
  }
  return course;
}

Temperature temperature_after(const StandingWater& water, const Time& time) {
  return temperature_course(water, {time}).front();
}

std::optional<Time> time_to_reach(const StandingWater& water, const Temperature& limit) {
  require_standing(water);
  require::positive("limit", limit);
  const double from = si(water.start), to = si(limit);
  if (from == to) return from_si<Time>(0.0);
  const double direction = from > to ? 1.0 : -1.0;  // cooling needs a positive loss all the way
  const auto driving_loss = [&](double temperature_K) { return direction * finite_loss(water, temperature_K); };
  const double at_start = driving_loss(from);
  if (driving_loss(to) <= 0.0 || at_start <= 0.0) return std::nullopt;
  // The water creeps towards a balance point without end; this near to it the limit beyond is out of reach.
  const double vanishing = 1e-9 * at_start;

  struct Turned {};
  const auto seconds_per_kelvin = [&](double, double change_K) {
    const double loss = driving_loss(from - direction * change_K);
    if (loss <= vanishing) throw Turned{};
    return si(water.capacity) / loss;
  };
  try {
    Integrator integrator(0.0, 1e-6, 1e-9, 0.01 * std::abs(from - to));  // s
    return from_si<Time>(
        integrator.advance(std::abs(from - to), "time for standing water to reach a limit", seconds_per_kelvin));
  } catch (const Turned&) {
    return std::nullopt;
  }
}

}  // namespace theca::thermal
