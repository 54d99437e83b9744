// Water left to itself in a power cut: temperature after a time, and time until it reaches a limit.
#pragma once

#include <cmath>
#include <functional>
#include <optional>
#include <vector>

#include "theca/thermal/balance.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

namespace kernel {
/// T(t) = T_room + (T_0 - T_room) exp(-UA t / C): constant conductance.  @source Newton's law of cooling, closed form
template <class T>
T exponential_cooling(const T& start_K, const T& room_K, const T& conductance_W_K, const T& capacity_J_K,
                      const T& time_s) {
  using std::exp;
  return room_K + (start_K - room_K) * exp(-conductance_W_K * time_s / capacity_J_K);
}
}  // namespace kernel

/// Well mixed water with a loss that depends on its temperature.
struct StandingWater {
  HeatCapacity capacity;  ///< water, and what stands in it, > 0
  Temperature start;
  std::function<Power(const Temperature&)> loss;  ///< net, out of the water positive
};

/// rho V cp of salt water.  @throws InvalidInput  volume not positive; temperature or salinity outside
/// theca/seawater.hpp
HeatCapacity water_heat_capacity(const Volume& volume, const Water& water);

/// Loss of a whole system, with its gains, as a function of the water temperature.
std::function<Power(const Temperature&)> loss_of(TankSystem system, AbsoluteSalinity salinity, Room room);

/// Water temperature at each of `times`, which must not be negative nor decrease.
/// Integrates dT/dt = -q(T)/C with the real balance at every step (Dormand-Prince 5(4), error control 1e-8 K).
/// @throws InvalidInput  bad field or time; what `loss` throws; NotConverged  more steps than 100000
std::vector<Temperature> temperature_course(const StandingWater& water, const std::vector<Time>& times);

/// The last of a course of one.
Temperature temperature_after(const StandingWater& water, const Time& time);

/// Time until the water reaches `limit`, from t = integral of C dT / q(T), error control 1e-9 of the time; nothing
/// where it never does, because the loss turns its sign before or falls under 1e-9 of that at the start.
/// @throws InvalidInput  bad field or limit; what `loss` throws; NotConverged  more steps than 100000
std::optional<Time> time_to_reach(const StandingWater& water, const Temperature& limit);

}  // namespace theca::thermal
