#include "theca/thermal/cool_down.hpp"

#include <algorithm>
#include <array>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
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
  using State = std::array<double, 1>;
  const double capacity = si(water.capacity);
  const auto slope = [&](const State& x, State& dxdt, double /*t*/) { dxdt[0] = -finite_loss(water, x[0]) / capacity; };
  constexpr double tolerance_K = 1e-8;
  constexpr int step_limit = 100000;
  auto stepper =
      boost::numeric::odeint::make_controlled<boost::numeric::odeint::runge_kutta_dopri5<State>>(tolerance_K, 0.0);

  std::vector<Temperature> course;
  course.reserve(times.size());
  State state = {si(water.start)};
  double now = 0.0, step = 60.0;  // first guess; the stepper finds its own
  int tries = 0;
  for (const Time& time : times) {
    require::not_negative("time", time);
    require::that(si(time) >= now, "time", time, "not before the time ahead of it in the list");
    while (now < si(time)) {
      if (++tries > step_limit) throw NotConverged("temperature course of standing water", si(time) - now, step_limit);
      double trial = std::min(step, si(time) - now);
      const bool last = trial < step;
      const auto outcome = stepper.try_step(slope, state, now, trial);
      // A step cut short to end on a wanted time says nothing about the step that accuracy would allow.
      if (outcome != boost::numeric::odeint::success || !last) step = trial;
      if (outcome == boost::numeric::odeint::success && si(time) - now < 1e-9 * si(time)) now = si(time);
    }
    course.push_back(from_si<Temperature>(state[0]));
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
  if (direction * finite_loss(water, to) <= 0.0 || direction * finite_loss(water, from) <= 0.0) return std::nullopt;

  bool turned = false;
  const auto seconds_per_kelvin = [&](double temperature_K) {
    const double loss = direction * finite_loss(water, temperature_K);
    if (loss <= 0.0) {
      turned = true;
      return 0.0;
    }
    return si(water.capacity) / loss;
  };
  double error = 0.0;
  constexpr unsigned depth = 15;
  const double time = boost::math::quadrature::gauss_kronrod<double, 15>::integrate(
      seconds_per_kelvin, std::min(from, to), std::max(from, to), depth, 1e-10, &error);
  if (turned) return std::nullopt;
  if (!(error <= 1e-6 * time)) throw NotConverged("time for standing water to reach a limit", error / time, depth);
  return from_si<Time>(time);
}

}  // namespace theca::thermal
